//! Sheets that cannot become a garment: each is refused with its place and what to do, and
//! leaves nothing behind.

use crate::program::{Folder, SHEET, draft, edited, edited_in};

/// A line of the table: what is wrong, the sheet, and a word of the place that is to be named.
type Bad = (&'static str, Vec<u8>, &'static str);

fn set(section: &str, key: &str, value: &str) -> Vec<u8> {
    edited(section, key, Some(value)).into_bytes()
}

fn without(section: &str, key: &str) -> Vec<u8> {
    edited(section, key, None).into_bytes()
}

fn replaced(what: &str, with: &str) -> Vec<u8> {
    assert!(SHEET.contains(what), "{what}");
    SHEET.replace(what, with).into_bytes()
}

/// Sheets that cannot be read or say something impossible of one key.
fn unreadable() -> Vec<Bad> {
    let mut not_text = SHEET.as_bytes().to_vec();
    not_text.extend([0xff, 0xfe, b'\n']);
    let two_bases = edited("finish.top", "length", Some("78")).into_bytes();
    let huge = format!("{SHEET}\n# {}", "x".repeat(8 << 20)).into_bytes();
    vec![
        ("an empty file", Vec::new(), "sheet"),
        ("only blanks", b" \n\n\t\n".to_vec(), "sheet"),
        ("not UTF-8", not_text, "UTF-8"),
        ("a huge file", huge, "sheet.toml"),
        ("not TOML", b"waist 74, hips 98\n".to_vec(), "sheet.toml:1"),
        ("a binary file", b"%PDF-1.7\n\0\0\0".to_vec(), "sheet.toml"),
        ("an open string", replaced("name = \"first pair\"", "name = \"first pair"), "sheet.toml:3"),
        ("the same key twice", replaced("waist_girth = 74\n", "waist_girth = 74\nwaist_girth = 75\n"), "waist_girth"),
        ("a missing measurement", without("body", "hip_girth"), "hip_girth"),
        ("a missing section", replaced("[style]\nbase = \"brief\"\n", ""), "style"),
        ("a missing stretch", without("fabric", "stretch_across"), "stretch_across"),
        ("a missing unit", without("sheet", "units"), "units"),
        ("a missing version", without("sheet", "version"), "version"),
        ("a version to come", set("sheet", "version", "2"), "version"),
        ("an unknown unit", set("sheet", "units", "\"ell\""), "units"),
        ("a negative girth", set("body", "waist_girth", "-74"), "waist_girth"),
        ("a girth of nothing", set("body", "waist_girth", "0"), "waist_girth"),
        ("not a number", set("body", "waist_girth", "nan"), "waist_girth"),
        ("without end", set("body", "hip_girth", "inf"), "hip_girth"),
        ("a number beyond all bodies", set("body", "hip_girth", "1e300"), "hip_girth"),
        ("text for a number", set("body", "waist_girth", "\"seventy-four\""), "waist_girth"),
        ("a list for a number", set("body", "waist_girth", "[74]"), "waist_girth"),
        ("yes for a number", set("body", "waist_girth", "true"), "waist_girth"),
        ("a number for a word", set("style", "base", "7"), "base"),
        ("an unknown base", set("style", "base", "\"breif\""), "breif"),
        ("an unknown key", set("body", "waist_grith", "74"), "waist_grith"),
        ("an unknown section", replaced("[fabric]", "[fabirc]"), "fabirc"),
        ("an unknown finish", set("finish.top", "kind", "\"turnd\""), "turnd"),
        ("an unknown waist level", set("body", "waist_level", "\"ribs\""), "waist_level"),
        ("an elastic that is not there", set("finish.top", "elastic", "\"soft 13\""), "soft 13"),
        ("two bases for one elastic", two_bases, "reduction"),
        ("an elastic from a body that was not measured", from_body(), "elastic_top"),
        ("a share over one", set("style", "front_scoop", "1.5"), "front_scoop"),
        ("three layers", set("gusset", "layers", "3"), "layers"),
        ("a reduction of everything", set("finish.top", "reduction", "100"), "reduction"),
        ("no such day", set("sheet", "date", "2026-02-30"), "sheet.toml:"),
        ("an elastic without a width", replaced("width = 1.2\n", ""), "width"),
    ]
}

fn from_body() -> Vec<u8> {
    let sheet = edited("finish.top", "reduction", None);
    edited_in(&sheet, "finish.top", "from", Some("\"body\"")).into_bytes()
}

/// Sheets whose every key is fine, but no such garment can be made.
fn impossible() -> Vec<Bad> {
    let low = edited_in(&edited("style", "top_drop_front", Some("30")), "style", "top_drop_back", Some("34"));
    vec![
        ("a crotch length too short for the drops", low.into_bytes(), "top_drop"),
        ("a crotch length too short for the body", short_crotch(), "crotch_length"),
        ("a gusset end narrower than its middle", set("gusset", "front_width", "5"), "gusset.front_width"),
        ("a hip level below the legs", set("body", "waist_to_hip", "55"), "waist_to_hip"),
        ("hips far smaller than the waist", small_hip().into_bytes(), "hip_girth"),
        ("a leg edge out of reach", set("style", "leg_edge", "120"), "leg_edge"),
    ]
}

fn small_hip() -> String {
    edited_in(&edited("body", "waist_girth", Some("125")), "body", "hip_girth", Some("85"))
}

fn short_crotch() -> Vec<u8> {
    edited_in(&edited("body", "crotch_length", Some("32")), "body", "crotch_length_front", Some("14")).into_bytes()
}

/// Runs every command that reads a sheet, and returns what was wrong with the way it was refused.
fn faults((what, sheet, place): &Bad, code: i32) -> Vec<String> {
    let folder = Folder::with_sheet(sheet);
    let mut faults = Vec::new();
    let runs = [draft(&folder, &[]), folder.run(&["walk", "sheet.toml"]), folder.run(&["check", "sheet.toml"])];
    for run in runs {
        let mut claim = |holds: bool, text: &str| {
            if !holds {
                let said: String = run.out.chars().chain(run.err.chars()).take(600).collect();
                faults.push(format!("{what}: {text}\nexit {}\n{said}", run.code));
            }
        };
        claim(run.code == code, &format!("the exit code is not {code}"));
        claim(run.out.is_empty(), "a refusal belongs on standard error");
        claim(run.err.contains("sheet.toml"), "the file is not named");
        claim(run.err.contains(place), &format!("`{place}` is not named"));
        claim(run.err.contains("help: ") || run.err.contains("; "), "it does not say what to do");
        claim(!run.err.contains("panicked"), "it panicked");
    }
    if folder.names(".") != ["sheet.toml"] {
        faults.push(format!("{what}: left behind: {:?}", folder.names(".")));
    }
    faults
}

fn check_all(table: &[Bad], code: i32) {
    let faults: Vec<String> = table.iter().flat_map(|bad| faults(bad, code)).collect();
    assert!(faults.is_empty(), "{} faults\n\n{}", faults.len(), faults.join("\n\n"));
}

#[test]
fn a_sheet_that_cannot_be_read_ends_with_two() {
    check_all(&unreadable(), 2);
}

#[test]
fn a_garment_that_cannot_be_made_ends_with_one() {
    check_all(&impossible(), 1);
}

#[test]
fn the_table_of_bad_sheets_is_long_enough() {
    assert!(unreadable().len() + impossible().len() >= 25);
}

#[test]
fn a_refusal_can_be_piped_as_json() {
    let folder = Folder::with_sheet(set("gusset", "front_width", "5"));
    let run = folder.run(&["check", "sheet.toml", "--json"]);
    assert_eq!(run.code, 1);
    let checks = run.json()["checks"].as_array().unwrap().clone();
    assert!(!checks.is_empty() && checks.iter().all(|c| c["level"] == "refusal"), "{checks:?}");
}

#[test]
fn a_folder_or_nothing_in_place_of_a_sheet_ends_with_two() {
    let folder = Folder::empty();
    std::fs::create_dir(folder.path("sheet.toml")).unwrap();
    for name in ["sheet.toml", "no-such.toml", "sheet.toml/inside"] {
        let run = folder.run(&["check", name]);
        assert_eq!(run.code, 2, "{name:?}");
        assert!(run.err.contains(name) && run.err.contains("; "), "{name:?}: {}", run.err);
    }
}

#[test]
fn centimetres_under_inches_are_suspected_aloud() {
    // The body of the sheet, its units changed by mistake: a waist of 74 in.
    let text = SHEET.replace("units = \"cm\"", "units = \"in\"");
    let folder = Folder::with_sheet(text);
    let run = folder.run(&["check", "sheet.toml"]);
    let said = run.out + &run.err;
    assert!(said.contains("units"), "{said}");
}

#[test]
fn inches_under_centimetres_are_suspected_aloud() {
    // 29 in, 38 1/2 in, 8 in, 28 in typed under `units = "cm"`.
    let body = [("waist_girth", "29"), ("hip_girth", "38.5"), ("waist_to_hip", "8"), ("crotch_length", "28")];
    let sheet = edited("body", "crotch_length_front", None);
    let sheet = edited_in(&sheet, "body", "thigh_girth", None);
    let sheet = body.iter().fold(sheet, |sheet, (key, value)| edited_in(&sheet, "body", key, Some(value)));
    let folder = Folder::with_sheet(sheet);
    let run = folder.run(&["check", "sheet.toml"]);
    let said = run.out + &run.err;
    assert!(said.contains("units"), "{said}");
}

#[test]
fn an_elastic_copied_from_a_sheet_in_another_unit_is_suspected_aloud() {
    // 1.5 cm, on a sheet in inches: 38 mm at the legs.
    let text = [("74", "29"), ("98", "38.5"), ("20", "8"), ("71", "28"), ("32", "12.5"), ("57", "22.5")]
        .iter()
        .fold(SHEET.replace("units = \"cm\"", "units = \"in\""), |text, (cm, inch)| {
            text.replacen(&format!("= {cm}\n"), &format!("= {inch}\n"), 1)
        });
    let text = text.replace("length = 14", "").replace("width = 1.2", "width = 0.5");
    let said = |width: &str| {
        let folder = Folder::with_sheet(text.replace("width = 0.8", &format!("width = {width}")));
        let run = folder.run(&["check", "sheet.toml", "--json"]);
        run.json()["checks"].as_array().unwrap().clone()
    };
    let suspects = |width: &str| {
        let found = said(width);
        let one = found.iter().find(|c| c["code"] == "elastic.width_in_another_unit").cloned();
        one.inspect(|c| assert_eq!(c["place"], "elastic.\"soft 8\".width"))
    };
    let found = suspects("1.5").expect("1.5 in at a leg is told");
    assert!(found["next"].as_str().unwrap().contains("centimetres? Then write 0.59"), "{found}");
    assert!(suspects("0.375").is_none());
}

#[test]
fn one_measure_in_another_unit_is_told_as_that_though_the_garment_is_refused() {
    let said = |key: &str, value: &str| {
        let run = Folder::with_sheet(edited("body", key, Some(value))).run(&["check", "sheet.toml"]);
        assert_eq!(run.code, 1, "{}", run.out);
        run.err
    };
    let front = said("crotch_length_front", "12.5");
    assert!(front.contains("is it inches? Then write 31.75"), "{front}");
    // 38.5 in of hip, and a waist of 74 cm that was converted from inches once more.
    for (key, value, right) in [("hip_girth", "38.5", "97.79"), ("waist_girth", "187.96", "74")] {
        let text = said(key, value);
        assert!(!text.contains("swapped") && text.contains(&format!("Then write {right}")), "{text}");
    }
    // These two may well be.
    let text = edited_in(&edited("body", "waist_girth", Some("98")), "body", "hip_girth", Some("74"));
    let run = Folder::with_sheet(text).run(&["check", "sheet.toml"]);
    assert!(run.err.contains("swapped"), "{}", run.err);
}
