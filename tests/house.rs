//! The house rules that a compiler does not hold: what each crate may know of the others.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]

use std::path::{Path, PathBuf};

/// Exporters draw a drawing: they see nothing of how it was drafted. The record is of the garment,
/// findings are garment words, and a print is asked for by its paper.
fn may_use(file: &str, module: &str) -> bool {
    match module {
        "drawing" | "curve" => true,
        "garment" => file.starts_with("record") || file.starts_with("validate"),
        "sheet" => file.starts_with("pdf") || file.starts_with("record"),
        "quantity" => file.starts_with("pdf") && file.ends_with("tests.rs"),
        _ => false,
    }
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            all.push(path);
        }
    }
    all
}

#[test]
fn exporters_see_the_drawing_alone() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../export/src");
    let (mut seen, mut wrong) = (0, Vec::new());
    for path in sources(&root) {
        let file = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        let text = std::fs::read_to_string(&path).unwrap();
        for (at, _) in text.match_indices("engine::") {
            let rest = &text[at + "engine::".len()..];
            let module: String = rest.chars().take_while(|c| c.is_ascii_lowercase() || *c == '_').collect();
            seen += 1;
            if !may_use(&file, &module) {
                wrong.push(format!("{file} uses engine::{module}"));
            }
        }
    }
    assert!(seen > 30 && wrong.is_empty(), "{wrong:?}");
}

/// A sheet is read without the command line: its reader, the commented sheet and the schema know
/// nothing of what a person types at a prompt.
#[test]
fn a_sheet_is_read_without_the_command_line() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let folders = ["sheet", "template", "schema"].map(|name| sources(&root.join(name)));
    let files = ["sheet.rs", "template.rs", "schema.rs", "file_name.rs"].map(|name| root.join(name));
    let mut seen = 0;
    for path in folders.into_iter().flatten().chain(files) {
        let text = std::fs::read_to_string(&path).unwrap();
        seen += 1;
        for word in ["clap", "crate::args", "crate::commands", "crate::output", "crate::terminal", "crate::answer"] {
            assert!(!text.contains(word), "{} uses {word}", path.display());
        }
    }
    assert!(seen > 15, "{seen} files");
}

/// The engine knows no file format, no terminal and no clock.
#[test]
fn the_engine_knows_no_files() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../engine");
    let manifest = std::fs::read_to_string(root.join("Cargo.toml")).unwrap();
    for word in ["serde", "toml", "printpdf", "lopdf", "dxf", "svg", "clap"] {
        assert!(!manifest.lines().any(|l| l.starts_with(word)), "the engine depends on {word}");
    }
    for path in sources(&root.join("src")) {
        let text = std::fs::read_to_string(&path).unwrap();
        for word in ["std::fs", "std::env", "std::time", "println!"] {
            assert!(!text.contains(word), "{} uses {word}", path.display());
        }
    }
}
