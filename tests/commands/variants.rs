//! Variants: the same garment with its edges finished in other ways, or of another body.

use crate::program::{Folder, SHEET, draft};

fn sheet() -> String {
    format!(
        "{SHEET}\n[[alternative]]\nname = \"bound legs\"\nedge = \"legs\"\nkind = \"binding\"\n\n\
         [[alternative]]\nname = \"banded top\"\nedge = \"top edge\"\nkind = \"band\"\n"
    )
}

fn read(folder: &Folder, file: &str) -> Vec<u8> {
    std::fs::read(folder.path(file)).unwrap()
}

#[test]
fn the_summary_and_the_record_tell_them() {
    let folder = Folder::with_sheet(sheet());
    let run = draft(&folder, &[]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("Variant: bound legs") && run.out.contains("Variant: banded top"), "{}", run.out);
    let record: serde_json::Value = serde_json::from_slice(&read(&folder, "out/first-pair.json")).unwrap();
    let told = record["alternatives"].as_array().unwrap();
    let finishes = |of: &serde_json::Value| {
        of["openings"].as_array().unwrap().iter().map(|o| o["finish"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(finishes(&record), ["turned", "trim", "trim"]);
    assert_eq!(finishes(&told[0]), ["turned", "binding", "binding"]);
    assert_eq!(finishes(&told[1]), ["band", "trim", "trim"]);
    let pieces = |of: &serde_json::Value| of["pieces"].as_array().unwrap().len();
    assert_eq!(pieces(&told[1]), pieces(&record) + 1, "a band is a piece of its own");
}

/// Taken alone, an alternative is the very garment of a sheet that says so at once.
#[test]
fn one_that_is_taken_is_a_garment_of_its_own() {
    let folder = Folder::with_sheet(sheet());
    assert_eq!(draft(&folder, &["--alternative", "bound legs"]).code, 0);
    let plain =
        SHEET.replace("kind = \"trim\"", "kind = \"binding\"").replace("\"first pair\"", "\"first pair – bound legs\"");
    let other = Folder::with_sheet(&plain);
    assert_eq!(draft(&other, &[]).code, 0);
    let names = folder.names("out");
    assert_eq!(names, other.names("out"));
    assert_eq!(names.len(), export::table::written(&[], &export::choice::Options::default()).len());
    for name in names {
        let path = format!("out/{name}");
        assert!(read(&folder, &path) == read(&other, &path), "{name}");
    }
}

#[test]
fn one_that_is_not_there_is_named_with_those_that_are() {
    let folder = Folder::with_sheet(sheet());
    let run = draft(&folder, &["--alternative", "bound lges"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("did you mean \"bound legs\"?"), "{}", run.err);
    let run = draft(&folder, &["--alternative", "something else"]);
    assert!(run.err.contains("\"bound legs\" or \"banded top\""), "{}", run.err);
    let without = draft(&Folder::with_sheet(SHEET), &["--alternative", "bound"]);
    assert!(without.code == 2 && without.err.contains("[[variant]]"), "{}", without.err);
    assert!(!folder.path("out").exists());
    assert_eq!(draft(&folder, &[]).code, 0);
    let drawn = folder.run(&["walk", "out/first-pair.svg", "--alternative", "bound legs"]);
    assert!(drawn.code == 2 && drawn.err.contains("a drawing has no variants"), "{}", drawn.err);
}

/// A base whose side seam is too short for so wide a band: the sheet's own finishes do, the other do not.
#[test]
fn one_that_cannot_be_made_refuses_the_sheet_by_its_name() {
    let wide = sheet().replace("kind = \"band\"", "kind = \"band\"\nwidth = 6");
    let tanga = wide.replace("base = \"brief\"", "base = \"tanga\"");
    let folder = Folder::with_sheet(&tanga);
    let run = draft(&folder, &[]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(run.err.contains("variant “banded top”, "), "{}", run.err);
    assert!(run.err.contains("without this variant it is drafted"), "{}", run.err);
    assert!(!folder.path("out").exists());
    let plain = Folder::with_sheet(SHEET.replace("base = \"brief\"", "base = \"tanga\""));
    assert_eq!(draft(&plain, &[]).code, 0);
}

fn larger() -> String {
    format!(
        "{SHEET}\n[[variant]]\nname = \"larger\"\nbody.hip_girth = 102\nfinish.legs = {{ kind = \"binding\", reduction = 3 }}\n"
    )
}

/// One that changes the body is told, drawn and made as any other.
#[test]
fn a_variant_of_the_body_has_pieces_of_its_own() {
    let folder = Folder::with_sheet(larger());
    let run = draft(&folder, &[]);
    assert_eq!(run.code, 0, "{}", run.err);
    let summary = run.out.split("Variant: larger").nth(1).expect("its part of the summary");
    assert!(summary.contains("front") && summary.contains("binding"), "{summary}");
    let record: serde_json::Value = serde_json::from_slice(&read(&folder, "out/first-pair.json")).unwrap();
    let told = &record["alternatives"][0];
    let hip = |of: &serde_json::Value| {
        let used = of["used"].as_array().unwrap().iter().find(|u| u["key"] == "body.hip_girth").unwrap();
        used["value"].as_f64().unwrap()
    };
    assert_eq!((hip(&record), hip(told)), (980.0, 1020.0));
}

/// Either name of the flag takes it: the garment of a sheet that says so at once.
#[test]
fn a_variant_that_is_taken_is_the_sheet_written_out_whole() {
    let plain = SHEET
        .replace("hip_girth = 98", "hip_girth = 102")
        .replace("kind = \"trim\"", "kind = \"binding\"")
        .replace("reduction = 5", "reduction = 3")
        .replace("\"first pair\"", "\"first pair – larger\"");
    let other = Folder::with_sheet(&plain);
    assert_eq!(draft(&other, &[]).code, 0);
    for flag in ["--variant", "--alternative"] {
        let folder = Folder::with_sheet(larger());
        assert_eq!(draft(&folder, &[flag, "larger"]).code, 0);
        assert_eq!(folder.names("out"), other.names("out"));
        for name in folder.names("out") {
            let path = format!("out/{name}");
            assert!(read(&folder, &path) == read(&other, &path), "{flag}: {name}");
        }
    }
}
