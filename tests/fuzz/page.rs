//! The page's server, asked for whatever it can be asked for and for what it cannot: a few requests in a
//! row, by chance, of a sheet in a folder of its own.

use super::inputs::Fates;
use super::mutate::mutated;
use fastrand::Rng;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::sync::{LazyLock, Mutex, PoisonError};
use std::time::Duration;
use tempfile::TempDir;

const SHEET: &str = include_str!("../../fixtures/first-pair.toml");
const PEOPLE: &str =
    "Name;Waist;Hips;Waist to hip;Crotch length;finish.legs.kind\nAnna;74;98;20;71;hem\nBea;seventy;95;19;69;\n";

/// What the page asks. A body makes it a POST.
const ASKED: &[(&str, &str)] = &[
    ("folder", ""),
    ("state", ""),
    ("lesson", ""),
    ("theirs", ""),
    ("files", ""),
    ("figure/body.waist_girth.svg", ""),
    ("finish/trim.svg", ""),
    ("file/first-pair.svg?variant=x", ""),
    ("file/first-pair-cut.svg?kerf=0.2&keep-apart", ""),
    ("file/first-pair-card.md?", ""),
    ("open", r#"{"file": "sheet.toml"}"#),
    ("open", r#"{"file": "../sheet.toml"}"#),
    ("new", r#"{"file": "other.toml", "units": "in", "name": "other"}"#),
    ("set", r#"{"changes": [{"key": "style.side_seam", "value": "6,5"}], "keep": true, "label": "side"}"#),
    ("set", r#"{"changes": [{"key": "style.top_drop_front", "mm": 65.0}], "keep": false, "seq": 3}"#),
    ("set", r#"{"changes": [{"key": "finish.legs.kind", "value": "binding"}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "finish.legs.sections.back", "value": "12 %"}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "elastic.\"soft 9\".width", "value": "3/8 in"}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "variant.1.body.hip_girth", "value": "101"}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "sheet.units", "value": "mm"}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "style.back_cover", "number": 0.4}], "keep": true}"#),
    ("set", r#"{"changes": [{"key": "gusset.width", "value": null}], "keep": true}"#),
    ("undo", "{}"),
    ("redo", "{}"),
    ("save", r#"{"force": false}"#),
    ("reload", "{}"),
    ("unsaved", r#"{"take": true}"#),
    ("reach", r#"{"key": "style.side_seam"}"#),
    ("measure", r#"{"piece": "front", "role": "cut", "edge": "leg", "a": [10, 20], "b": [60, 180]}"#),
    ("remedy", r#"{"finding": "worn.tight", "place": "left leg", "key": "style.side_seam", "way": "larger"}"#),
    ("fit", r#"{"fit": ["gusset too wide by 1"]}"#),
    (
        "trial",
        r#"{"left": ["tight", "back=loose"], "right": [], "top": ["right"], "fit": ["rides up at the back"], "note": "", "date": "2026-03-02"}"#,
    ),
    ("apply", r#"{"fit": [], "pair": false}"#),
    ("variant", r#"{"name": "bound", "changes": [{"key": "finish.legs.kind", "value": "binding"}]}"#),
    ("compare", r#"{"changes": [{"key": "finish.legs.kind", "value": "hem"}]}"#),
    ("compare", r#"{"variant": "bound"}"#),
    (
        "lay",
        r#"{"cloth": null, "changes": [{"key": "fabric.width", "value": "90"}], "query": "gap=3", "is_quick": true, "seq": 1}"#,
    ),
    ("people", r#"{"file": "people.csv", "base": null, "units": ""}"#),
    ("sizes", r#"{"file": "people.csv", "base": "sheet.toml", "units": "cm"}"#),
    ("cell", r#"{"file": "people.csv", "row": 3, "column": 1, "was": "seventy", "now": "70"}"#),
    ("copy", r#"{"file": "people.csv"}"#),
    ("person", r#"{"file": "people.csv", "base": "sheet.toml", "row": 2, "where_there": null}"#),
    ("write", r#"{"folder": "my-pattern", "query": "only=card", "force": false}"#),
];

/// Values that a field may be given, beside those by chance.
const TYPED: [&str; 12] =
    ["0", "-3", "1e300", "29 1/2", "74 cm", "60 %", "yes", "knit", "", "\\u0000", "\\\"", "9999999999999999999"];

/// A page that is served, with its folder in one that nothing else may come into.
struct Served {
    program: Child,
    port: u16,
    token: String,
    outer: TempDir,
    stream: Option<BufReader<TcpStream>>,
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.program.kill();
        let _ = self.program.wait();
    }
}

static SERVED: LazyLock<Mutex<Option<Served>>> = LazyLock::new(|| Mutex::new(None));

/// The keys that can be set.
static KEYS: LazyLock<Vec<String>> = LazyLock::new(|| {
    let rows = engine::keys::SECTIONS.iter().flat_map(|s| s.rows().map(move |row| format!("{}.{}", s.path, row.name)));
    rows.collect()
});

impl Served {
    fn new() -> Self {
        let outer = tempfile::tempdir().unwrap();
        let room = outer.path().join("room");
        fs::create_dir(&room).unwrap();
        let mut program = Command::new(env!("CARGO_BIN_EXE_quarterpin"))
            .args(["open", "--no-browser"])
            .current_dir(&room)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut first = String::new();
        BufReader::new(program.stdout.as_mut().unwrap()).read_line(&mut first).unwrap();
        let (port, token) = first.trim().strip_prefix("http://127.0.0.1:").unwrap().split_once("/#").unwrap();
        let (port, token) = (port.parse().unwrap(), token.to_owned());
        Self { program, port, token, outer, stream: None }
    }

    /// The folder as every input finds it.
    fn tidy(&mut self) {
        let room = self.outer.path().join("room");
        for entry in fs::read_dir(&room).unwrap().flatten() {
            let path = entry.path();
            if path.is_dir() { fs::remove_dir_all(path).unwrap() } else { fs::remove_file(path).unwrap() }
        }
        fs::write(room.join("sheet.toml"), SHEET).unwrap();
        fs::write(room.join("people.csv"), PEOPLE).unwrap();
        assert_eq!(self.ask("open", r#"{"file": "sheet.toml"}"#.as_bytes()), Some(200));
    }

    /// The status of an answer; none where the connection ended without one, as it may after what is no request.
    fn ask(&mut self, path: &str, body: &[u8]) -> Option<u16> {
        let method = if body.is_empty() { "GET" } else { "POST" };
        let head = format!(
            "{method} /api/{path} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nX-Quarterpin-Token: {}\r\nContent-Length: {}\r\n\r\n",
            self.port,
            self.token,
            body.len()
        );
        let mut stream = self.stream.take().unwrap_or_else(|| {
            let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
            stream.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
            stream.set_nodelay(true).unwrap();
            BufReader::new(stream)
        });
        stream.get_mut().write_all(&[head.as_bytes(), body].concat()).ok()?;
        let mut line = String::new();
        stream.read_line(&mut line).ok()?;
        let status = line.split(' ').nth(1)?.parse().ok()?;
        let (mut length, mut is_last) = (0, false);
        loop {
            line.clear();
            stream.read_line(&mut line).ok()?;
            let lower = line.to_lowercase();
            match lower.trim().split_once(": ") {
                Some(("content-length", n)) => length = n.parse().ok()?,
                Some(("connection", "close")) => is_last = true,
                Some(_) => {}
                None => break,
            }
        }
        stream.read_exact(&mut vec![0; length]).ok()?;
        self.stream = (!is_last).then_some(stream);
        Some(status)
    }
}

/// A few requests, and the server is there after them, with nothing outside of its folder.
pub fn run(rng: &mut Rng, fates: &mut Fates) {
    let mut served = SERVED.lock().unwrap_or_else(PoisonError::into_inner);
    let served = served.get_or_insert_with(Served::new);
    served.tidy();
    for _ in 0..rng.usize(1..7) {
        let (path, body) = request(rng);
        let status = served.ask(&path, &body);
        let told = || format!("{path} {}", String::from_utf8_lossy(&body));
        assert!(status.is_none_or(|status| status < 500), "{status:?} to {}", told());
        fates.count(status == Some(200));
        if status.is_none() {
            served.stream = None;
        }
    }
    assert_eq!(served.ask("state", b""), Some(200));
    assert_eq!(fs::read_dir(served.outer.path()).unwrap().count(), 1);
}

/// As the page asks, with any value for any key, or with something else in it.
fn request(rng: &mut Rng) -> (String, Vec<u8>) {
    let (path, body) = ASKED[rng.usize(..ASKED.len())];
    let mut path = path.to_owned();
    if rng.u8(..8) == 0 {
        let changed = mutated(rng, &[path.into_bytes()]);
        // What makes no line of a request, ends the program or waits for somebody is not meant here.
        let is_plain = |b: &u8| b.is_ascii_graphic();
        path = String::from_utf8(changed.into_iter().filter(is_plain).collect()).unwrap();
        if path.contains("stop") || path.contains("wait") {
            path.clear();
        }
    }
    let body = match rng.u8(..4) {
        _ if body.is_empty() => Vec::new(),
        0 => body.as_bytes().to_vec(),
        1 => mutated(rng, &[body.as_bytes().to_vec()]),
        _ => {
            let changes: Vec<String> = (0..rng.usize(1..4))
                .map(|_| {
                    let key = &KEYS[rng.usize(..KEYS.len())];
                    let value = TYPED[rng.usize(..TYPED.len())];
                    format!(r#"{{"key": "{key}", "value": "{value}"}}"#)
                })
                .collect();
            path = "set".to_owned();
            format!(r#"{{"changes": [{}], "keep": {}, "seq": {}}}"#, changes.join(","), rng.bool(), rng.u8(..))
                .into_bytes()
        }
    };
    (path, body)
}
