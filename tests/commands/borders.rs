//! What a compiler does not hold: what each crate, and each exporter, may know of the others.

use crate::sources::sources;

/// The engine is a library that others can call: it knows no file format, no terminal and no clock.
#[test]
fn the_engine_knows_no_files() {
    let manifest = include_str!("../../engine/Cargo.toml");
    let (_, needed) = manifest.split_once("[dependencies]").unwrap();
    let needed = needed.split_once("\n[").map_or(needed, |(needed, _)| needed);
    assert!(needed.contains("kurbo"), "{needed}");
    for word in ["serde", "toml", "lopdf", "dxf", "svg", "clap"] {
        assert!(!needed.lines().any(|l| l.starts_with(word)), "the engine depends on {word}");
    }
    for (file, text) in sources("engine/src") {
        for word in ["std::fs", "std::env", "std::time", "println!"] {
            assert!(!text.contains(word), "{file} uses {word}");
        }
    }
}

/// A sheet is read without the command line: its reader, the commented sheet and the schema know
/// nothing of what a person types at a prompt.
#[test]
fn a_sheet_is_read_without_the_command_line() {
    let reading = |file: &str| {
        let top = file.split(['/', '.']).next();
        top.is_some_and(|top| ["sheet", "template", "schema", "file_name"].contains(&top))
    };
    let mut seen = 0;
    for (file, text) in sources("cli/src").into_iter().filter(|(file, _)| reading(file)) {
        seen += 1;
        for word in ["clap", "crate::args", "crate::commands", "crate::output", "crate::terminal", "crate::answer"] {
            assert!(!text.contains(word), "{file} uses {word}");
        }
    }
    assert!(seen > 15, "{seen} files");
}

/// Exporters draw a drawing: they see nothing of how it was drafted. The record is of the garment,
/// findings are told in the record, a print is asked for by its paper, and the table hands both on. Names
/// of parts, and sentences, are looked up where they leave the program or come back in; the work card and
/// the lay tell as much as they draw. The form to measure by is of no garment: it draws a figure, and tells
/// the keys of a sheet.
fn may_use(file: &str, module: &str) -> bool {
    if (file.starts_with("form") || file == "svg/figure.rs")
        && ["figure", "keys", "quantity", "sheet", "terms"].contains(&module)
    {
        return true;
    }
    match module {
        "drawing" | "curve" => true,
        "elastic" | "garment" => {
            ["record", "svg/lay.rs", "validate", "table.rs"].iter().any(|own| file.starts_with(own))
        }
        // What is told of each step: its stitch, and its words.
        "stitch" => file.starts_with("record"),
        // What to buy is told in records.
        "shopping" => file.starts_with("record"),
        // How pieces lie on the cloth is laid before anything is written, and told.
        "lay" => ["choice.rs", "cutter", "record", "svg/lay.rs", "pdf/lay.rs"].iter().any(|own| file.starts_with(own)),
        "sheet" => ["card", "pdf", "record", "choice.rs", "list.rs"].iter().any(|own| file.starts_with(own)),
        "finding" => ["record", "validate"].iter().any(|own| file.starts_with(own)),
        "topology" | "terms" | "words" => {
            file == "number.rs"
                || ["card", "record", "svg/lay.rs", "pdf/lay.rs", "validate", "read"]
                    .iter()
                    .any(|own| file.starts_with(own))
        }
        // A ruler has ticks of one unit.
        "quantity" => {
            ["card/ruler.rs", "record", "svg/lay.rs", "pdf/lay.rs"].iter().any(|own| file.starts_with(own))
                || (file.starts_with("pdf") && file.ends_with("tests.rs"))
        }
        "keys" | "work" => file == "record/tests.rs",
        // An edge cut across is drawn as its finish lays it.
        "finish" => file == "profile.rs" || file == "record/tests.rs",
        _ => false,
    }
}

#[test]
fn exporters_see_the_drawing_alone() {
    let (mut seen, mut wrong) = (0, Vec::new());
    for (file, text) in sources("export/src") {
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

/// Sines, powers and the like differ by system where they come from its C library: those in
/// `engine::curve::float` do not. (`hypot()` and `atan2()` of a vector are kurbo's, on the same library.)
#[test]
fn numbers_are_the_same_on_every_system() {
    let differing = [
        ".sin()",
        ".cos()",
        ".tan()",
        ".sin_cos()",
        ".asin()",
        ".acos()",
        ".atan()",
        ".sinh()",
        ".cosh()",
        ".tanh()",
        ".exp()",
        ".exp2()",
        ".exp_m1()",
        ".ln()",
        ".ln_1p()",
        ".log10()",
        ".log2()",
        ".log(",
        ".powf(",
        ".powi(",
        ".cbrt()",
        // Draws of chance by the width of a word.
        ".usize(",
        ".isize(",
        ".shuffle(",
    ];
    for folder in ["engine/src", "export/src"] {
        for (file, text) in sources(folder) {
            if file.ends_with("tests.rs") || file.contains("/tests/") || file.contains("hostile") {
                continue;
            }
            let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
            for call in differing {
                assert!(!text.contains(call), "{folder}/{file} uses {call}");
            }
            for two in [".hypot(", ".atan2("] {
                assert!(
                    text.match_indices(two).all(|(at, _)| text[at + two.len()..].starts_with(')')),
                    "{folder}/{file} uses {two}…)"
                );
            }
        }
    }
    let workspace = include_str!("../../Cargo.toml");
    assert!(workspace.contains("kurbo = { version = \"0.13.1\", default-features = false, features = [\"libm\"] }"));
}
