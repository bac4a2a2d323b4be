//! Pieces laid on the cloth: what is said, what is written, and what is refused.

use crate::program::{Folder, SHEET, draft, edited, edited_in};
use serde_json::Value;
use std::fs;

/// The sheet with a width of cloth.
fn wide() -> String {
    edited("fabric", "width", Some("150"))
}

fn record(folder: &Folder) -> Value {
    serde_json::from_slice(&fs::read(folder.path("out").join("first-pair.json")).unwrap()).unwrap()
}

#[test]
fn the_cloth_to_buy_is_told_and_the_lay_drawn_when_asked() {
    let folder = Folder::with_sheet(wide());
    let run = draft(&folder, &[]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("Cloth to buy") && run.out.contains("for 1 pair:"), "{}", run.out);
    assert!(!folder.path("out").join("first-pair-lay.svg").exists());
    let run = draft(&folder, &["--pairs", "2", "--lay"]);
    assert!(run.out.contains("for 2 pairs:"), "{}", run.out);
    let placed = record(&folder)["lays"][0]["placed"].as_array().unwrap().len();
    let picture = fs::read_to_string(folder.path("out").join("first-pair-lay.svg")).unwrap();
    assert_eq!(picture.matches("data-piece").count(), placed);
    let cut = fs::read_to_string(folder.path("out").join("first-pair-cut.svg")).unwrap();
    assert_eq!(cut.matches("data-line=\"cut\"").count(), placed);
    assert!(cut.contains("Laid on "), "{cut}");
}

#[test]
fn a_nap_lets_nothing_be_turned() {
    let turned = |sheet: String| {
        let folder = Folder::with_sheet(sheet);
        assert_eq!(draft(&folder, &["--pairs", "3", "--lay", "--cut-width", "900"]).code, 0);
        let record = record(&folder);
        let placed = record["lays"][0]["placed"].as_array().unwrap();
        placed.iter().filter(|p| p["turn"] != 0.0).count()
    };
    assert!(turned(wide()) > 0);
    assert_eq!(turned(edited_in(&wide(), "fabric", "nap", Some("true"))), 0);
}

#[test]
fn the_same_lay_every_time() {
    let lays = || {
        let folder = Folder::with_sheet(wide());
        assert_eq!(draft(&folder, &["--pairs", "2", "--lay", "--gap", "7"]).code, 0);
        (record(&folder)["lays"].clone(), fs::read(folder.path("out").join("first-pair-lay.svg")).unwrap())
    };
    assert_eq!(lays(), lays());
}

#[test]
fn what_cannot_be_laid_is_refused_where_it_was_asked_for() {
    let narrow = ["--lay", "--cut-width", "250"];
    for (flags, code, says) in [
        (&narrow[..], 2, "the front is"),
        (&["--lay", "--halves"], 2, "leave out --halves or --lay"),
        (&["--gap", "400"], 2, "from 0 to 100 mm"),
    ] {
        let folder = Folder::with_sheet(wide());
        let run = draft(&folder, flags);
        assert_eq!(run.code, code, "{flags:?}: {}", run.err);
        assert!(run.err.contains(says), "{flags:?}: {}", run.err);
        assert_eq!(folder.names("."), ["sheet.toml"], "{flags:?}");
    }
}

#[test]
fn a_cloth_of_unknown_or_little_width_is_told() {
    let folder = Folder::with_sheet(SHEET);
    let run = draft(&folder, &[]);
    assert!(run.code == 0 && !run.out.contains("Cloth to buy"), "{}", run.out);
    assert!(record(&folder).get("lays").is_none());
    let asked = draft(&folder, &["--lay"]);
    assert!(asked.code == 2 && asked.err.contains("fabric.width"), "{}", asked.err);
    let folder = Folder::with_sheet(edited("fabric", "width", Some("25")));
    let run = draft(&folder, &[]);
    assert!(run.code == 0 && run.out.contains("it does not go on it along the grain"), "{}", run.out);
}

/// Side by side these pieces take no more than the tallest of them, but for the last digit of a sum: nothing is
/// left to be looked for.
#[test]
fn a_lay_that_cannot_be_shorter_ends() {
    let folder = Folder::with_sheet(LEVEL);
    assert_eq!(draft(&folder, &["--only", "card"]).code, 0);
}

const LEVEL: &str = "\
[sheet]
version = 1
name = \"turned, band, raw\"
units = \"cm\"
[body]
waist_level = \"natural\"
waist_girth = 86.00
hip_girth = 106.00
waist_to_hip = 21.00
crotch_length = 76.00
crotch_length_front = 34.50
[fabric]
kind = \"knit\"
stretch_across = 60
stretch_along = 40
width = 150.00
[style]
base = \"high leg\"
[gusset]
layers = 2
lining = \"enclosed\"
[seams]
kind = \"zigzag\"
[finish.top]
kind = \"turned\"
elastic = \"picot\"
reduction = 10
[finish.left_leg]
kind = \"band\"
[finish.right_leg]
kind = \"raw\"
[elastic.narrow]
width = 0.80
picot = 0.00
stretch = 110
[elastic.picot]
width = 1.20
picot = 0.20
stretch = 100
[elastic.lace]
width = 1.50
picot = 0.00
stretch = 90
[elastic.fold]
width = 1.60
picot = 0.00
stretch = 100
[print]
paper = \"A4\"
";
