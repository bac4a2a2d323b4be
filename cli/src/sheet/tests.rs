//! Whole sheets: what is read, what is refused and how that is said.

use super::*;
use crate::template::commented_sheet;
use engine::finding::fact::{DraftFact, Part, WornFact};
use engine::finish::FinishKind;
use engine::keys::Edges;
use engine::quantity::{Length, Units};
use engine::sheet::{Basis, Opening, Paper, Section, Sheet};
use std::path::Path;

mod alternative;
mod bad;
mod fuzz;
mod readme;
mod template;
mod variant;

/// A small sheet that is right, in centimetres.
const GOOD: &str = r#"[sheet]
version = 1
name = "bench test"
units = "cm"
date = 2026-01-31

[body]
waist_girth = 74.5
hip_girth = 99
waist_to_hip = 19.5
crotch_length = 70
elastic_top = 80

[fabric]
kind = "knit"
stretch_across = 60
stretch_along = 40

[style]
base = "brief"

[gusset]
width = 6.5
layers = 2

[finish.top]
kind = "turned"
elastic = "soft 12"
reduction = 8

[finish.legs]
kind = "trim"
elastic = "soft 8"
reduction = 0
sections = { back = 10 }

[elastic."soft 12"]
width = 1.2
picot = 0.2
pull = [[25, 60], [50, 110]]

[elastic."soft 8"]
width = 0.8

[print]
paper = "A4"

[[trial]]
edge = "left leg"
verdict = "tight"
"#;

fn good(source: &str) -> Sheet {
    read(source, "good.toml").unwrap_or_else(|p| panic!("{}", p.render(source, "good.toml", false)))
}

fn shown(sheet: &Sheet) -> String {
    format!("{sheet:#?}")
}

#[test]
fn a_sheet_becomes_typed_quantities() {
    let sheet = good(GOOD);
    assert_eq!(sheet.name, "bench test");
    assert_eq!(sheet.date.as_deref(), Some("2026-01-31"));
    assert_eq!(sheet.body.waist_girth, Length::from_nm(745_000_000));
    assert_eq!(sheet.body.thigh_girth, None);
    assert_eq!(sheet.finish.top.basis.map(|b| format!("{b:?}")).as_deref(), Some("Reduction(8 %)"));
    assert_eq!(sheet.finish.left_leg, sheet.finish.right_leg);
    assert_eq!(sheet.finish.left_leg.sections.get(&Section::Back).map(|r| r.percent()), Some(10.0));
    assert_eq!(sheet.elastics["soft 12"].pull.len(), 2);
    assert_eq!(sheet.print.paper, Some(Paper::A4));
    assert_eq!(sheet.trials[0].edge, Edges::LeftLeg);
}

#[test]
fn the_demo_sheets_read() {
    for name in ["first-pair", "saturday-hipster", "uneven-legs"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(format!("{name}.toml"));
        if let Err(error) = read_file(&path) {
            panic!("{}", error.render(false));
        }
    }
}

#[test]
fn the_demo_sheets_and_the_commented_ones_become_garments() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    let demo = ["first-pair", "saturday-hipster", "uneven-legs"].map(|name| format!("{name}.toml"));
    let written = demo.map(|name| read_file(&folder.join(name)).unwrap().1);
    let commented = Units::ALL.map(|(_, units)| good(&commented_sheet(units)));
    for sheet in written.iter().chain(&commented) {
        let made = engine::make(sheet).unwrap_or_else(|refused| panic!("{}: {refused}", sheet.name));
        assert_eq!(made.garment.name, sheet.name);
    }
}

/// The same sheet in inches, decimals and fractions, and in millimetres: 1 in is 25.4 mm.
fn twins() -> [String; 3] {
    let inch = GOOD
        .replace("units = \"cm\"", "units = \"in\"")
        .replace("waist_girth = 74.5", "waist_girth = \"29 1/2\"")
        .replace("hip_girth = 99", "hip_girth = 38.75")
        .replace("waist_to_hip = 19.5", "waist_to_hip = \"7 11/16\"")
        .replace("crotch_length = 70", "crotch_length = \"27 1/2\"")
        .replace("elastic_top = 80", "elastic_top = \"31 63/64\"")
        .replace("\nwidth = 6.5", "\nwidth = \"2½\"")
        .replace("width = 1.2", "width = \"1/2\"")
        .replace("picot = 0.2", "picot = \"1/16\"")
        .replace("width = 0.8", "width = \"5/16\"");
    let cm = GOOD
        .replace("waist_girth = 74.5", "waist_girth = 74.93")
        .replace("hip_girth = 99", "hip_girth = 98.425")
        .replace("waist_to_hip = 19.5", "waist_to_hip = 19.52625")
        .replace("crotch_length = 70", "crotch_length = 69.85")
        .replace("elastic_top = 80", "elastic_top = 81.2403125")
        .replace("\nwidth = 6.5", "\nwidth = 6.35")
        .replace("width = 1.2", "width = 1.27")
        .replace("picot = 0.2", "picot = 0.15875")
        .replace("width = 0.8", "width = 0.79375");
    let mm = cm
        .replace("units = \"cm\"", "units = \"mm\"")
        .replace("74.93", "749.3")
        .replace("98.425", "984.25")
        .replace("19.52625", "195.2625")
        .replace("69.85", "698.5")
        .replace("81.2403125", "812.403125")
        .replace("6.35", "63.5")
        .replace("1.27", "12.7")
        .replace("0.15875", "1.5875")
        .replace("0.79375", "7.9375");
    [inch, cm, mm]
}

#[test]
fn a_sheet_in_inches_and_its_metric_twins_are_the_same_sheet() {
    let sheets = twins().map(|source| good(&source));
    assert_eq!(sheets[0].units, Units::In);
    let plain = sheets.map(|sheet| shown(&Sheet { units: Units::Mm, ..sheet }));
    assert_eq!(plain[0], plain[1]);
    assert_eq!(plain[1], plain[2]);
}

#[test]
fn a_leg_of_its_own_overrides_key_by_key() {
    let source =
        GOOD.replace("[elastic.\"soft 12\"]", "[finish.left_leg]\nput_on = \"round\"\n\n[elastic.\"soft 12\"]");
    let finish = good(&source).finish;
    assert_eq!(finish.left_leg.put_on, Some(engine::sheet::PutOn::Round));
    assert_eq!(finish.right_leg.put_on, None);
    assert_eq!(finish.left_leg.elastic, finish.right_leg.elastic);
}

#[test]
fn a_basis_of_its_own_replaces_the_one_for_both_legs() {
    let source = GOOD.replace("[elastic.\"soft 12\"]", "[finish.left_leg]\nlength = 52\n\n[elastic.\"soft 12\"]");
    let finish = good(&source).finish;
    assert_eq!(finish.left_leg.basis, Some(Basis::Length(Length::from_whole_mm(520))));
    assert!(matches!(finish.right_leg.basis, Some(Basis::Reduction(_))));
}

#[test]
fn another_kind_drops_what_it_does_not_take() {
    let source = GOOD.replace("[elastic.\"soft 12\"]", "[finish.right_leg]\nkind = \"hem\"\n\n[elastic.\"soft 12\"]");
    let right = good(&source).finish.right_leg;
    assert_eq!(Some(right.kind), FinishKind::named("hem"));
    assert_eq!((right.elastic, right.basis), (None, None));
    assert!(right.sections.is_empty());
}

#[test]
fn two_legs_of_their_own_need_no_section_for_both() {
    let legs = &GOOD[GOOD.find("[finish.legs]").unwrap()..GOOD.find("[elastic.\"soft 12\"]").unwrap()];
    let both = "[finish.left_leg]\nkind = \"hem\"\n[finish.right_leg]\nkind = \"hem\"\n";
    assert_eq!(good(&GOOD.replace(legs, both)).finish.left_leg.elastic, None);
    let one = GOOD.replace(legs, "[finish.left_leg]\nkind = \"hem\"\n");
    let problems = read(&one, "x").unwrap_err();
    assert_eq!(problems.list().len(), 1);
    assert!(problems.list()[0].title.contains("right leg"), "{problems}");
}

#[test]
fn other_ways_to_write_the_same_are_read() {
    let dotted = GOOD.replace("[body]\n", "").replace("waist_girth", "body.waist_girth");
    assert!(read(&dotted, "x").is_err(), "keys without a section are not in it");
    let inline = GOOD.replace("[style]\nbase = \"brief\"", "[style]\n\"base\" = 'brief' # quoted");
    good(&inline);
    good(&GOOD.replace('\n', "\r\n"));
    good(&format!("\u{feff}{GOOD}"));
    let quoted = GOOD.replace("waist_girth = 74.5", "waist_girth = 7_4.5_0");
    assert_eq!(shown(&good(&quoted)), shown(&good(GOOD)));
    let roll = GOOD.replace("paper = \"A4\"", "paper = 91.4");
    assert_eq!(good(&roll).print.paper, Some(Paper::Roll(Length::from_whole_mm(914))));
}

#[test]
fn above_the_waist_level_is_a_negative_drop() {
    let source = GOOD.replace("base = \"brief\"", "base = \"full brief\"\ntop_drop_back = -1.5");
    assert_eq!(good(&source).style.top_drop_back, Some(Length::from_whole_mm(-15)));
}

#[test]
fn a_whole_sheet_in_the_wrong_unit_still_reads() {
    good(&GOOD.replace("units = \"cm\"", "units = \"in\""));
}

#[test]
fn problems_come_in_the_order_of_the_file_and_all_at_once() {
    let source = GOOD
        .replace("hip_girth = 99", "hip_girth = -99")
        .replace("kind = \"trim\"", "kind = \"trimm\"")
        .replace("paper = \"A4\"", "paper = \"A5\"")
        .replace("stretch_along = 40\n", "");
    let problems = read(&source, "x").unwrap_err();
    let keys: Vec<&str> = problems.list().iter().map(|p| p.key.as_str()).collect();
    assert_eq!(keys, ["body.hip_girth", "fabric.stretch_along", "finish.legs.kind", "print.paper"]);
}

#[test]
fn a_problem_is_shown_with_file_line_and_what_to_do() {
    let source = GOOD.replace("hip_girth", "hip_grith");
    let problems = read(&source, "mine.toml").unwrap_err();
    let text = problems.render(&source, "mine.toml", false);
    for part in
        ["mine.toml:9:1", "9 | hip_grith = 99", "^^^^^^^^^ did you mean `hip_girth`?", "help: write `hip_girth`"]
    {
        assert!(text.contains(part), "no {part:?} in\n{text}");
    }
    assert!(!text.contains('\u{1b}'), "colour where none was asked for");
    assert!(problems.render(&source, "mine.toml", true).contains('\u{1b}'));
    assert!(problems.to_string().starts_with("mine.toml:9: unknown key `hip_grith`"));
}

#[test]
fn a_file_name_cannot_steer_the_terminal() {
    let problems = read("x = 1", "a\u{1b}[2Jb").unwrap_err();
    assert!(!problems.render("x = 1", "a\u{1b}[2Jb", false).contains('\u{1b}'));
    assert!(!problems.to_string().contains('\u{1b}'));
}

#[test]
fn keys_are_found_in_the_text() {
    let at = |key: &str| locate(GOOD, key).map(|span| &GOOD[span]);
    assert_eq!(at("gusset.width"), Some("6.5"));
    assert_eq!(at("body"), Some("[body]"));
    assert_eq!(at("finish.top"), Some("[finish.top]"));
    assert_eq!(at("finish.left_leg.elastic"), Some("\"soft 8\""));
    assert_eq!(at("finish.left_leg.sections.back"), Some("10"));
    assert_eq!(at("elastic.\"soft 12\".picot"), Some("0.2"));
    assert_eq!(at("trial.1.verdict"), Some("\"tight\""));
    for absent in ["gusset.front_width", "trial.2.edge", "trial.0", "", ".", "body.", "nothing.at.all"] {
        assert_eq!(at(absent), None, "{absent}");
    }
    assert_eq!(locate("[body", "body"), None);
    let narrow = DraftFact::GussetEnd { part: Part::Front, width: 60.0, narrowest: 65.0 };
    assert_eq!(locate_place(GOOD, &narrow.into()).map(|span| &GOOD[span]), Some("[gusset]"));
    let tight = WornFact::Tight { opening: Opening::LeftLeg, stretch: 60.0, most: 50.0 };
    assert_eq!(locate_place(GOOD, &tight.into()).map(|span| &GOOD[span]), Some("[finish.legs]"));
}

#[test]
fn files_that_are_no_sheet_are_told_apart() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    };
    let says = |path: &Path| read_file(path).unwrap_err().to_string();
    assert!(says(&folder.path().join("none.toml")).contains("there is no file"));
    assert!(says(folder.path()).contains("is a folder"));
    assert!(says(&write("empty.toml", b"")).contains("is empty"));
    assert!(says(&write("blank.toml", b" \r\n\n")).contains("is empty"));
    assert!(says(&write("latin.toml", b"[sheet]\nname = \"\xe9\"\n")).contains("line 2"));
    assert!(says(&write("wide.toml", b"\xff\xfe[\0b\0")).contains("UTF-8"));
    assert!(says(&write("big.toml", &vec![b'#'; MAX_BYTES + 1])).contains("larger than 1 MiB"));
    assert!(matches!(read_file(&write("just.toml", &vec![b'#'; MAX_BYTES])), Err(ReadError::Sheet { .. })));
    let (source, sheet) = read_file(&write("good.toml", GOOD.as_bytes())).unwrap();
    assert_eq!((source.as_str(), sheet.name.as_str()), (GOOD, "bench test"));
}
