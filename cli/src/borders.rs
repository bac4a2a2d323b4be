//! What a compiler does not hold: what the reader of a sheet may know of the command line.

use std::path::{Path, PathBuf};

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
