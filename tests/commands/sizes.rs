//! One style over a table of sizes.

use crate::program::{Folder, Run, SHEET};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// A folder with the style and a table of sizes.
fn table_of(rows: &str) -> Folder {
    let folder = Folder::with_sheet(SHEET);
    folder.write("sizes.csv", rows);
    folder
}

fn run(folder: &Folder, more: &[&str]) -> Run {
    folder.run(&[&["sizes", "sizes.csv", "--sheet", "sheet.toml", "-o", "out"], more].concat())
}

fn record(folder: &Folder) -> Value {
    serde_json::from_slice(&fs::read(folder.path("out/sizes.json")).unwrap()).unwrap()
}

const FOUR: &str = "size,waist,hips\n36,66,92\n40,74,100\n44,82,108\n48,90,116\n";

#[test]
fn every_size_has_its_folder_and_all_are_nested_in_one_print() {
    let folder = table_of(FOUR);
    let ran = run(&folder, &[]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    for words in ["Sizes: 4 of 4 done", "waist to hip, crotch length estimated", "edge: left leg", "nested.pdf"] {
        assert!(ran.out.contains(words), "{words} not in\n{}", ran.out);
    }
    let names = ["36", "40", "44", "48", "growth.csv", "nested.pdf", "sizes.csv", "sizes.json", "sizes.pdf"];
    assert_eq!(folder.names("out"), names);
    assert_eq!(folder.names("out/40").len(), export::table::written(&[], &export::choice::Options::default()).len());
    let record = record(&folder);
    assert_eq!(record["made"], serde_json::json!(["36", "40", "44", "48"]));
    assert_eq!(record["sizes"][0]["estimated"], serde_json::json!(["body.waist_to_hip", "body.crotch_length"]));
    for line in record["lengths"].as_array().unwrap() {
        assert_eq!(line["by_size"].as_array().unwrap().len(), 4, "{line}");
        assert!(line["growth"].as_array().unwrap().iter().all(|step| step.as_f64().is_some_and(|mm| mm > -0.01)));
    }
}

/// Who leaves the table leaves a folder.
#[test]
fn folders_of_sizes_that_are_gone_are_told() {
    let folder = table_of(FOUR);
    run(&folder, &[]);
    folder.write("sizes.csv", FOUR.replace("\n48,", "\n50,"));
    for _ in 0..2 {
        let said = run(&folder, &[]).out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            said.contains("Folders of sizes that are not in the table any more, with all that is in them: 48."),
            "{said}"
        );
    }
    fs::remove_dir_all(folder.path("out/48")).unwrap();
    assert!(!run(&folder, &[]).out.contains("any more"));
}

/// One size smaller than the one before is told of the hip, and of nothing that follows from it.
#[test]
fn a_hip_that_goes_back_is_told_alone() {
    let folder = table_of(
        "size,waist,hips,waist to hip,crotch length\nS,66,95,20,68\nM,72,101,20,70\nL,78,96,20,72\nXL,84,113,20,74\n",
    );
    run(&folder, &[]);
    let record = record(&folder);
    let odd = |name: &str| {
        let line = record["lengths"].as_array().unwrap().iter().find(|line| line["name"] == name).unwrap();
        line["grows"].as_array().unwrap().iter().map(|word| word.as_str().unwrap_or("").to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(odd("hip girth"), ["even", "the other way", "even"], "{record}");
    for name in ["waist girth", "crotch length"] {
        assert_eq!(odd(name), ["even", "", "even"], "{name}");
    }
}

/// What is estimated is no measure of anybody, and the record of the size says so.
#[test]
fn estimates_are_listed_as_estimates() {
    let folder = table_of("size,waist,hips,waist to hip\nS,66,92,20\n");
    run(&folder, &[]);
    let record: Value = serde_json::from_slice(&fs::read(folder.path("out/S/S.json")).unwrap()).unwrap();
    let source = |key: &str| {
        let used = record["used"].as_array().unwrap().iter().find(|used| used["key"] == key).unwrap();
        used["source"].as_str().unwrap().to_owned()
    };
    assert_eq!(source("body.waist_to_hip"), "given");
    assert_eq!(source("body.crotch_length"), "estimated");
    assert_eq!(record["name"], "size S – first pair");
}

#[test]
fn a_size_that_cannot_be_made_stops_no_other() {
    let folder = table_of("size,waist,hips\n36,66,92\n40,seventy,100\n44,82,108\n");
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.out.contains("2 of 3 done") && ran.out.contains("row 3, column B (waist), “seventy”"), "{}", ran.out);
    assert_eq!(record(&folder)["made"], serde_json::json!(["36", "44"]));
    assert!(!folder.path("out/40").exists());
    let none = table_of("size,waist\n36,wide\n");
    assert_eq!(run(&none, &[]).code, 1);
    assert!(!none.path("out").exists(), "nothing is written where nothing could be made");
}

#[test]
fn more_sizes_than_can_be_told_apart_are_refused() {
    let rows: String = (0..13).map(|i| format!("{i},{},{}\n", 60 + 3 * i, 86 + 3 * i)).collect();
    let folder = table_of(&format!("size,waist,hips\n{rows}"));
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("13 sizes") && ran.err.contains("at most 12"), "{}", ran.err);
}

#[test]
fn the_same_table_gives_the_same_bytes_and_nothing_of_others_is_replaced() {
    let folder = table_of(FOUR);
    run(&folder, &[]);
    let files = ["nested.pdf", "sizes.pdf", "sizes.csv", "growth.csv", "sizes.json", "44/44-cut.dxf"];
    let first = files.map(|file| fs::read(folder.path(format!("out/{file}"))).unwrap());
    assert_eq!(run(&folder, &[]).code, 0);
    for (file, bytes) in files.iter().zip(&first) {
        assert!(fs::read(folder.path(format!("out/{file}"))).unwrap() == *bytes, "{file}");
    }
    folder.write("out/sizes.csv", "mine");
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did not write it"), "{}", ran.err);
    assert_eq!(fs::read(folder.path("out/sizes.csv")).unwrap(), b"mine");
}

#[test]
fn names_of_sizes_are_data() {
    let folder = table_of("size,waist,hips\n=1+1,66,92\n../40,74,100\n\"-44, 🧵\",82,108\nCON,90,116\n");
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    let names = ["1-1", "40", "44", "growth.csv", "nested.pdf", "pattern", "sizes.csv", "sizes.json", "sizes.pdf"];
    assert_eq!(folder.names("out"), names);
    assert_eq!(folder.names("."), ["out", "sheet.toml", "sizes.csv"]);
    let csv = fs::read_to_string(folder.path("out/sizes.csv")).unwrap();
    assert!(csv.contains(",'=1+1,../40,\"'-44, 🧵\",CON,"), "{csv}");
}

/// Both published tables that come with the program.
#[test]
fn the_published_tables_are_made() {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/sizes");
    for (table, sizes) in [("astm-d5585-11e1-curvy.csv", 12), ("en-13402-3-women.csv", 8)] {
        let folder = Folder::with_sheet(SHEET);
        let path = fixtures.join(table);
        let ran = folder.run(&["sizes", path.to_str().unwrap(), "--sheet", "sheet.toml", "-o", "out", "--json"]);
        assert_eq!(ran.code, 0, "{table}: {}", ran.err);
        assert_eq!(ran.json()["made"].as_array().unwrap().len(), sizes, "{table}");
    }
}
