//! The engine is a library that others can call: what it may not know.

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
