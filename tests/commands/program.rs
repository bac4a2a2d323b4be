//! Runs the built program in a folder of its own.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// An invented sheet that drafts without a hitch.
pub const SHEET: &str = r#"[sheet]
version = 1
name = "first pair"
units = "cm"
date = 2026-03-02

[body]
waist_girth = 74
waist_level = "natural"
hip_girth = 98
waist_to_hip = 20
crotch_length = 71
crotch_length_front = 32
thigh_girth = 57

[fabric]
name = "cotton jersey"
kind = "knit"
stretch_across = 60
stretch_along = 40

[style]
base = "brief"

[gusset]
length = 14

[seams]
kind = "overlock"

[finish.top]
kind = "turned"
elastic = "soft 12"
reduction = 8
put_on = "flat"

[finish.legs]
kind = "trim"
elastic = "soft 8"
reduction = 5

[elastic."soft 12"]
width = 1.2
stretch = 100

[elastic."soft 8"]
width = 0.8
stretch = 100
"#;

/// The sheet with one key of a section set to other text, added, or (`None`) taken out.
pub fn edited(section: &str, key: &str, value: Option<&str>) -> String {
    edited_in(SHEET, section, key, value)
}

/// The same in any sheet.
pub fn edited_in(sheet: &str, section: &str, key: &str, value: Option<&str>) -> String {
    let head = format!("[{section}]\n");
    let at = sheet.find(&head).unwrap_or_else(|| panic!("no section {section}")) + head.len();
    let end = sheet[at..].find("\n[").map_or(sheet.len(), |n| at + n + 1);
    let line = value.map(|v| format!("{key} = {v}\n")).unwrap_or_default();
    let kept: String = sheet[at..end].split_inclusive('\n').filter(|l| !l.starts_with(&format!("{key} ="))).collect();
    format!("{}{line}{kept}{}", &sheet[..at], &sheet[end..])
}

/// A folder that goes away again.
pub struct Folder(TempDir);

/// What a run said.
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Run {
    pub fn of(ended: Output) -> Self {
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        let code = ended.status.code().expect("the program was not stopped by a signal");
        assert_ne!(code, 101, "the program panicked: {}", String::from_utf8_lossy(&ended.stderr));
        Self { code, out: text(ended.stdout), err: text(ended.stderr) }
    }

    /// The answer, read as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap_or_else(|e| panic!("{e}\n{}\n{}", self.out, self.err))
    }
}

impl Folder {
    pub fn empty() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn with_sheet(text: impl AsRef<[u8]>) -> Self {
        let folder = Self::empty();
        folder.write("sheet.toml", text);
        folder
    }

    pub fn path(&self, name: impl AsRef<Path>) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        fs::write(self.path(name), text).unwrap();
    }

    /// Every name in a folder inside, hidden ones too, sorted.
    pub fn names(&self, inside: &str) -> Vec<String> {
        let entries = fs::read_dir(self.path(inside)).unwrap();
        let mut names: Vec<_> = entries.map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_quarterpin"));
        command.current_dir(self.0.path()).args(args);
        command
    }

    pub fn run(&self, args: &[&str]) -> Run {
        self.run_with(args, &[])
    }

    pub fn run_with(&self, args: &[&str], settings: &[(&str, &str)]) -> Run {
        Run::of(self.command(args).envs(settings.iter().copied()).output().unwrap())
    }

    /// With something piped in.
    pub fn run_piped(&self, args: &[&str], text: &[u8]) -> Run {
        let mut command = self.command(args);
        let mut running = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        // A program that stops early does not read to the end.
        let _ = running.stdin.take().unwrap().write_all(text);
        Run::of(running.wait_with_output().unwrap())
    }
}

/// Drafts the folder's sheet into `out`.
pub fn draft(folder: &Folder, more: &[&str]) -> Run {
    folder.run(&[&["draft", "sheet.toml", "-o", "out"], more].concat())
}
