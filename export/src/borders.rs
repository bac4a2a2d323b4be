//! What a compiler does not hold: how much of the engine each exporter may see.

use std::path::{Path, PathBuf};

/// Exporters draw a drawing: they see nothing of how it was drafted. The record is of the garment,
/// findings are told in the record, a print is asked for by its paper, and the table hands both on. Names
/// of parts, and sentences, are looked up where they leave the program or come back in. The form to measure
/// by is of no garment: it draws a figure, and tells the keys of a sheet.
fn may_use(file: &str, module: &str) -> bool {
    if file.starts_with("form") && ["figure", "keys", "quantity", "sheet", "terms"].contains(&module) {
        return true;
    }
    match module {
        "drawing" | "curve" => true,
        "garment" => ["record", "validate", "table.rs"].iter().any(|own| file.starts_with(own)),
        // What is told of each step: its stitch, and its words.
        "stitch" => file.starts_with("record"),
        "sheet" => ["pdf", "record", "choice.rs"].iter().any(|own| file.starts_with(own)),
        "finding" => ["record", "validate"].iter().any(|own| file.starts_with(own)),
        "topology" | "terms" | "words" => {
            file == "number.rs" || ["record", "validate", "read"].iter().any(|own| file.starts_with(own))
        }
        "quantity" => file.starts_with("record") || (file.starts_with("pdf") && file.ends_with("tests.rs")),
        "keys" | "work" => file == "record/tests.rs",
        // An edge cut across is drawn as its finish lays it.
        "finish" => file == "profile.rs" || file == "record/tests.rs",
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
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let (mut seen, mut wrong) = (0, Vec::new());
    for path in sources(&root) {
        let file = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        if file == "borders.rs" {
            continue;
        }
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
