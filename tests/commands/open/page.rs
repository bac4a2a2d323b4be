//! The program as a page speaks to it, by HTTP written by hand: so that it can be spoken to wrongly as well.

use crate::program::Folder;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Stdio};
use std::time::Duration;

/// A page that is served; the program is ended with it.
pub struct Page {
    pub program: Child,
    pub port: u16,
    pub token: String,
}

/// An answer.
pub struct Told {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Told {
    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&self.body)))
    }
}

impl Page {
    pub fn of(folder: &Folder, words: &[&str]) -> Self {
        let args: Vec<&str> = ["open"].into_iter().chain(words.iter().copied()).chain(["--no-browser"]).collect();
        let mut program = folder.command(&args).stdout(Stdio::piped()).spawn().unwrap();
        let mut first = String::new();
        BufReader::new(program.stdout.as_mut().unwrap()).read_line(&mut first).unwrap();
        let address = first.trim().strip_prefix("http://127.0.0.1:").unwrap_or_else(|| panic!("{first}"));
        let (port, token) = address.split_once("/#").unwrap();
        Self { program, port: port.parse().unwrap(), token: token.to_owned() }
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        stream
    }

    /// Sends this text as it is, and hears what comes until the connection ends.
    pub fn raw(&self, text: &[u8]) -> Vec<u8> {
        let mut stream = self.connect();
        // A door that is shut meanwhile is an answer as well.
        let _ = stream.write_all(text);
        let mut all = Vec::new();
        let _ = stream.read_to_end(&mut all);
        all
    }

    pub fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Told {
        let mut text = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\nContent-Length: {}\r\n", body.len());
        headers.iter().for_each(|(name, value)| text += &format!("{name}: {value}\r\n"));
        let all = self.raw(format!("{text}\r\n{body}").as_bytes());
        let at =
            all.windows(4).position(|w| w == b"\r\n\r\n").unwrap_or_else(|| panic!("no answer to {method} {path}"));
        let head = String::from_utf8(all[..at].to_vec()).unwrap();
        let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).unwrap();
        let body = all[at + 4..].to_vec();
        let is_chunked = head.to_lowercase().contains("transfer-encoding: chunked");
        Told { status, body: if is_chunked { joined(&body) } else { body }, head }
    }

    /// As the page itself asks.
    pub fn get(&self, path: &str) -> Told {
        self.asked("GET", path, "")
    }

    pub fn post(&self, path: &str, body: &Value) -> Told {
        self.asked("POST", path, &body.to_string())
    }

    fn asked(&self, method: &str, path: &str, body: &str) -> Told {
        let host = format!("127.0.0.1:{}", self.port);
        let origin = format!("http://{host}");
        let headers = [("Host", host.as_str()), ("X-Quarterpin-Token", &self.token), ("Origin", &origin)];
        self.ask(method, path, &headers, body)
    }

    /// Sets one key; the state.
    pub fn set(&self, key: &str, value: &str) -> Value {
        let told = self.post("/api/set", &json!({ "changes": [{ "key": key, "value": value }], "keep": true }));
        assert_eq!(told.status, 200, "{}", String::from_utf8_lossy(&told.body));
        told.json()
    }

    pub fn is_alive(&self) -> bool {
        self.get("/api/state").status == 200
    }
}

fn joined(mut chunked: &[u8]) -> Vec<u8> {
    let mut all = Vec::new();
    while let Some(at) = chunked.windows(2).position(|w| w == b"\r\n") {
        let size = usize::from_str_radix(std::str::from_utf8(&chunked[..at]).unwrap(), 16).unwrap();
        all.extend_from_slice(&chunked[at + 2..at + 2 + size]);
        chunked = &chunked[at + 4 + size..];
    }
    all
}

impl Drop for Page {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}
