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
fn a_lay_wider_than_the_cloth_is_told() {
    let folder = Folder::with_sheet(wide());
    let told = |width: &str| draft(&folder, &["--lay", "--cut-width", width]);
    assert!(told("1600").out.contains("pieces may lie off it"));
    assert!(!told("1500").out.contains("pieces may lie off it"));
    let narrow = told("100");
    assert!(narrow.code != 0 && narrow.err.contains("give a larger --cut-width"), "{}", narrow.err);
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

/// x of every corner of the outlines in the file for home cutters; their curves stay within them.
fn across(folder: &Folder) -> Vec<f64> {
    let cut = fs::read_to_string(folder.path("out").join("first-pair-cut.svg")).unwrap();
    let outlines = cut.lines().filter(|line| line.contains("data-line=\"cut\""));
    let d = |line: &str| line.split(" d=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    let numbers = |d: String| -> Vec<f64> {
        d.split(|c: char| !matches!(c, '0'..='9' | '.' | '-'))
            .filter(|n| !n.is_empty())
            .map(|n| n.parse().unwrap())
            .collect()
    };
    outlines.flat_map(|line| numbers(d(line)).into_iter().step_by(2)).collect()
}

/// Half a kerf lies beyond the outline on either side, and more at mitred corners.
#[test]
fn a_lay_for_a_cutter_keeps_to_the_width_with_its_kerf() {
    for kerf in ["0", "0.15", "3"] {
        let folder = Folder::with_sheet(wide());
        let run = draft(&folder, &["--lay", "--lay-steps", "2000", "--cut-width", "600", "--gap", "0", "--kerf", kerf]);
        assert_eq!(run.code, 0, "{}", run.err);
        let all = across(&folder);
        let (least, most) = all.iter().fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(*x), b.max(*x)));
        assert!(all.len() > 100 && least >= -1e-3 && most <= 600.001 && most > 500.0, "{kerf}: {least} to {most}");
    }
}

#[test]
fn a_gap_without_a_lay_sets_the_boxes_apart() {
    let folder = Folder::with_sheet(wide());
    let size = |flags: &[&str]| {
        let run = draft(&folder, &[&["--pairs", "3", "--cut-width", "600"], flags].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        let (_, told) = run.out.split_once("box by box they take ").unwrap();
        told.split(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let (near, usual, far) = (size(&["--gap", "5"]), size(&[]), size(&["--gap", "30"]));
    assert!(near < usual && usual < far, "{near} {usual} {far}");
    let laid = draft(&folder, &["--pairs", "3", "--cut-width", "600", "--lay", "--lay-steps", "500"]);
    assert!(laid.code == 0 && !laid.out.contains("box by box"), "{}", laid.out);
}
