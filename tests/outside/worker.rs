//! A Python process that checks one part after another: its libraries take over a second to load.

use crate::{Line, RUN, python};
use anyhow::{Context, Result, bail};
use serde::Serialize;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Stdio};
use std::sync::mpsc::Sender;

/// So much memory may a Python process keep for its next arrays, bytes.
const KEPT: &str = "1073741824";

/// One process of `check.py`.
pub(crate) struct Worker {
    child: Child,
    asks: Option<ChildStdin>,
    answers: BufReader<ChildStdout>,
}

impl Worker {
    /// Starts one.
    pub(crate) fn start(python: &Path) -> Result<Self> {
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/outside/check.py");
        let mut child = python::process(python)
            .arg("-c")
            .arg(RUN)
            .arg(&script)
            // Large arrays come and go: glibc would give each back to the system, and have it cleared anew.
            .env("MALLOC_MMAP_THRESHOLD_", KEPT)
            .env("MALLOC_TRIM_THRESHOLD_", KEPT)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .context("the Python of the virtual environment does not start")?;
        let asks = child.stdin.take();
        let answers = BufReader::new(child.stdout.take().context("the Python process has no output")?);
        Ok(Self { child, asks, answers })
    }

    /// Asks for one part; its results end with an empty line.
    pub(crate) fn check(&mut self, asked: &impl Serialize, said: &Sender<Line>) -> Result<()> {
        let asks = self.asks.as_mut().context("the Python process takes nothing more")?;
        // A process that has ended is told below, by its status.
        let is_asked = writeln!(asks, "{}", serde_json::to_string(asked)?).and_then(|()| asks.flush()).is_ok();
        let mut line = String::new();
        while is_asked && self.answers.read_line(&mut line)? > 0 {
            match line.trim_end() {
                "" => return Ok(()),
                result => said.send(
                    serde_json::from_str(result)
                        .with_context(|| format!("the checks wrote {result:?}, not a result"))?,
                )?,
            }
            line.clear();
        }
        bail!("the Python process ended with {} half way", self.child.wait()?);
    }
}

/// It ends where nothing more can be asked.
impl Drop for Worker {
    fn drop(&mut self) {
        drop(self.asks.take());
        let _ = self.child.wait();
    }
}
