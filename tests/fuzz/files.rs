//! Sheets of numbers by chance, drafted on the command line with choices by chance: the files that come of it
//! are read back, and what is drawn to cut by has to fit.

use super::inputs::Fates;
use super::numbers;
use engine::finding::Level;
use export::read::Format;
use export::validate::{Doubt, doubts};
use fastrand::Rng;
use quarterpin::args::Typed;
use quarterpin::commands;
use std::fs;
use std::path::Path;

/// Flags that take a value, with values that most of them take.
const VALUED: &[(&str, &[&str])] = &[
    ("--paper", &["A4", "Letter", "A3", "Legal", "Tabloid", "914", "A0"]),
    ("--margin", &["0", "5", "20"]),
    ("--overlap", &["0", "7", "30"]),
    ("--turn", &["auto", "portrait", "landscape"]),
    ("--dxf-version", &["R12", "R2000"]),
    ("--curves", &["polylines", "arcs", "splines"]),
    ("--tolerance", &["0.005", "0.2", "1"]),
    ("--kerf", &["0.1", "0.3", "3"]),
    ("--notches", &["marks", "slits", "vees"]),
    ("--pairs", &["1", "2", "3"]),
    ("--cut-width", &["300", "600", "900", "1600", "20000"]),
    ("--cut-length", &["300", "400", "1000"]),
    ("--bed", &["1", "2", "9"]),
    ("--gap", &["0", "2", "40"]),
    ("--lay-steps", &["1", "60"]),
    ("--only", &["pattern", "card"]),
];
const ALONE: &[&str] = &[
    "--keep-apart",
    "--one-page",
    "--halves",
    "--quarter-turns",
    "--cut-alone",
    "--start-off-corner",
    "--pen-lines",
    "--plotter",
    "--lay",
    "--measures",
    "--json",
];

/// Flags that change what is drawn so that its seams cannot be walked, or not as they are sewn.
const UNWALKED: [&str; 4] = ["--halves", "--cut-alone", "--kerf", "--bed"];

/// Drafts one sheet, and reads what was written.
pub fn run(rng: &mut Rng, fates: &mut Fates) {
    let text = numbers::sheet(rng);
    let folder = tempfile::tempdir().unwrap();
    let [sheet, out] = ["sheet.toml", "out"].map(|name| folder.path().join(name));
    fs::write(&sheet, &text).unwrap();
    let mut words = ["quarterpin", "draft"].map(str::to_owned).to_vec();
    words.extend([sheet.display().to_string(), "-o".to_owned(), out.display().to_string()]);
    for _ in 0..rng.usize(..5) {
        match rng.bool() {
            true => {
                let (flag, values) = rng.choice(VALUED).unwrap();
                if !words.contains(&(*flag).to_owned()) {
                    words.extend([*flag, rng.choice(*values).unwrap()].map(str::to_owned));
                }
            }
            false => {
                let flag = (*rng.choice(ALONE).unwrap()).to_owned();
                if !words.contains(&flag) {
                    words.push(flag);
                }
            }
        }
    }
    // Several pairs are looked after for seconds otherwise.
    let is = |flag: &str| words.iter().any(|word| word == flag);
    if is("--pairs") && !is("--lay-steps") {
        words.extend(["--lay-steps", "60"].map(str::to_owned));
    }
    let told = words[3..].join(" ");
    let Ok(call) = Typed::read(&words) else { return fates.count(false) };
    let answer = commands::run(&call);
    let is_done = answer.end.code() == 0;
    fates.count(is_done);
    if !is_done {
        assert!(!out.exists(), "{told}: refused, and a folder is left\n{text}");
        return assert!(!answer.err.is_empty() || !answer.out.is_empty(), "{told}: refused without a word\n{text}");
    }
    let mut files: Vec<_> = fs::read_dir(&out).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    assert!(!files.is_empty(), "{told}: nothing is written\n{text}");
    let is_walked = !UNWALKED.iter().any(|flag| words.iter().any(|word| word == flag));
    for file in files {
        look(&file, is_walked, &format!("{told}: {}\n{text}", file.display()));
    }
}

/// Reads one file back.
fn look(file: &Path, is_walked: bool, told: &str) {
    let bytes = fs::read(file).unwrap();
    let name = file.file_name().unwrap().to_string_lossy();
    assert!(!bytes.is_empty(), "{told}");
    let format = match &*name {
        _ if name.ends_with("-cut.dxf") => Format::Dxf,
        _ if name.ends_with("-cut.svg") => Format::Svg,
        _ if name.ends_with(".dxf") => {
            let findings = export::validate::exchange(&bytes).unwrap();
            return assert!(findings.iter().all(|f| f.level < Level::Warning), "{findings:?}\n{told}");
        }
        _ if name.ends_with(".pdf") => return assert!(bytes.starts_with(b"%PDF-"), "{told}"),
        _ => return assert!(std::str::from_utf8(&bytes).is_ok(), "{told}"),
    };
    let found = export::read::read(&bytes, format).unwrap_or_else(|e| panic!("{e}\n{told}"));
    assert!(!found.lines.is_empty(), "{told}");
    if is_walked {
        let walked = export::read::walk(&found);
        let doubts = doubts(&found, &walked);
        // The sheet takes bodies that nobody has, and offsets that are wider than an edge is bent.
        let is_well = |d: &Doubt| d.level < Level::Warning || ["walk-size", "walk-allowance-narrow"].contains(&d.code);
        assert!(doubts.iter().all(is_well), "{doubts:?}\n{told}");
    }
}
