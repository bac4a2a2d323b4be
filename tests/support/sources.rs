//! The program's own source, read by the tests that hold what no compiler holds.

use std::path::{Path, PathBuf};

/// Every file of Rust under a folder of the workspace, its path from there and its text, in order.
pub(crate) fn sources(folder: &str) -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(folder);
    let mut paths = Vec::new();
    walk(&root, &mut paths);
    paths.sort();
    let named = |path: PathBuf| {
        let name = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        (name, std::fs::read_to_string(path).unwrap())
    };
    paths.into_iter().map(named).collect()
}

fn walk(folder: &Path, paths: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            walk(&path, paths);
        } else if path.extension().is_some_and(|e| e == "rs") {
            paths.push(path);
        }
    }
}
