//! `compare` and `explain`.

use crate::program::{Folder, SHEET, edited};

#[test]
fn two_sheets_are_set_side_by_side() {
    let folder = Folder::with_sheet(SHEET);
    folder.write("other.toml", edited("gusset", "length", Some("15")).replace("kind = \"trim\"", "kind = \"turned\""));
    let run = folder.run(&["compare", "sheet.toml", "other.toml", "--picture", "both.svg"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for part in ["sheet.toml against other.toml", "gusset.length", "14 cm", "15 cm", "trim | turned", "cut lines apart"]
    {
        assert!(run.out.contains(part), "no {part} in\n{}", run.out);
    }
    assert!(run.out.lines().all(|line| line.chars().count() <= 100), "{}", run.out);
    let drawn = std::fs::read_to_string(folder.path("both.svg")).unwrap();
    let paths = drawn.matches("<path").count();
    // Front, back, gusset and lining, of both, and two samples.
    assert_eq!((paths, drawn.matches("stroke-dasharray").count()), (10, 5), "{drawn}");
    assert_eq!(
        folder.run(&["compare", "sheet.toml", "other.toml", "--picture", "both.svg"]).code,
        2,
        "never overwritten"
    );
}

#[test]
fn a_variant_is_compared_with_its_sheet() {
    let sheet = format!("{SHEET}\n[[variant]]\nname = \"larger\"\nbody.hip_girth = 102\n");
    let folder = Folder::with_sheet(sheet);
    let found = folder.run(&["compare", "sheet.toml", "--variant", "larger", "--json"]).json();
    let hip = found["used"].as_array().unwrap().iter().find(|u| u["key"] == "body.hip_girth").unwrap();
    assert_eq!((hip["first"].as_f64(), hip["second"].as_f64()), (Some(980.0), Some(1020.0)));
    let front = &found["pieces"][0];
    assert!(front["area_second_mm2"].as_f64() > front["area_first_mm2"].as_f64());
    assert!(front["apart_mm"].as_f64().unwrap() > 1.0);
    let alone = folder.run(&["compare", "sheet.toml"]);
    assert_eq!(alone.code, 2);
    assert!(alone.err.contains("--variant"), "{}", alone.err);
}

#[test]
fn all_that_can_be_explained_is_listed_in_json() {
    let folder = Folder::with_sheet(SHEET);
    let all = folder.run(&["explain", "--json"]).json();
    for list in ["codes", "terms"] {
        let entries = all[list].as_array().unwrap();
        assert!(entries.iter().all(|e| e["name"].is_string() && e["means"].is_string()), "{list}");
    }
    assert!(all["finishes"].as_array().unwrap().iter().any(|f| f == "trim"), "{all:#}");
}

#[test]
fn a_sheet_is_compared_with_what_it_was() {
    let folder = Folder::with_sheet(SHEET);
    let run = folder.run(&["compare", "sheet.toml", "--before"]);
    assert!(run.code == 2 && run.err.contains("no copy of the sheet"), "{}", run.err);
    let trial = ["trial", "sheet.toml", "--fit", "gusset too long", "--apply", "--picture", "new.svg"];
    let run = folder.run(&trial);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("drawn in new.svg") && folder.path("new.svg").exists(), "{}", run.out);
    let run = folder.run(&["compare", "sheet.toml", "--before"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for part in ["before against", "now", "gusset.length", "14 cm", "13 cm"] {
        assert!(run.out.contains(part), "no {part} in\n{}", run.out);
    }
    // A picture that is there already is not drawn over, and nothing is written.
    let before = std::fs::read(folder.path("sheet.toml")).unwrap();
    assert_eq!(folder.run(&trial).code, 2);
    assert_eq!(std::fs::read(folder.path("sheet.toml")).unwrap(), before);
}

/// What the layers are called is for readers of PDF to say: see the outside checks.
#[test]
fn both_are_printed_over_each_other() {
    let folder = Folder::with_sheet(SHEET);
    folder.write("other.toml", edited("gusset", "length", Some("15")));
    let run = folder.run(&["compare", "sheet.toml", "other.toml", "--print", "both.pdf"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let one = folder.run(&["compare", "sheet.toml", "other.toml", "--print", "one.pdf", "--one-page"]);
    assert_eq!(one.code, 0, "{}", one.err);
    for name in ["both.pdf", "one.pdf"] {
        assert!(std::fs::read(folder.path(name)).unwrap().starts_with(b"%PDF"), "{name}");
    }
    assert_eq!(
        folder.run(&["compare", "sheet.toml", "other.toml", "--print", "both.pdf"]).code,
        2,
        "never overwritten"
    );
}

#[test]
fn a_picture_goes_with_what_it_helps() {
    let folder = Folder::empty();
    for name in ["reduction", "worn.tight", "tunnel", "cover"] {
        let file = format!("{name}.svg");
        let run = folder.run(&["explain", name, "--picture", &file]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(run.out.contains(&format!("Written: {file}")), "{}", run.out);
    }
    let run = folder.run(&["explain", "body.child", "--picture", "child.svg"]);
    assert!(run.code == 2 && run.err.contains("quarter marks") && !folder.path("child.svg").exists(), "{}", run.err);
}

#[test]
fn a_code_a_term_and_a_finish_are_explained() {
    let folder = Folder::empty();
    for name in ["worn.tight", "Reduction", "tunnel", "binding"] {
        let run = folder.run(&["explain", name]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(["means:", "computed:", "next:"].iter().all(|part| run.out.contains(part)), "{}", run.out);
    }
    let run = folder.run(&["explain", "worn.tigth"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("did you mean \"worn.tight\"?"), "{}", run.err);
    let all = folder.run(&["explain"]).out;
    assert!(all.contains("gusset.as_worn") && all.contains("quarter marks"), "{all}");
    assert_eq!(folder.run(&["explain", "worn.loose", "--json"]).json()["name"], "worn.loose");
}
