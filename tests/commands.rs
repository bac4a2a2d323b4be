//! The program from outside: exit codes, refusals, files and what becomes of them.
// A test that cannot go on has failed; helpers beside the tests say so as well.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

#[path = "commands/bad_sheets.rs"]
mod bad_sheets;
#[path = "commands/borders.rs"]
mod borders;
#[path = "commands/choices.rs"]
mod choices;
#[path = "commands/circles.rs"]
mod circles;
#[path = "commands/class.rs"]
mod class;
#[path = "commands/compare.rs"]
mod compare;
#[path = "commands/cutter_files.rs"]
mod cutter_files;
#[path = "commands/drawer.rs"]
mod drawer;
#[path = "commands/finishes.rs"]
mod finishes;
#[cfg(target_os = "linux")]
#[path = "commands/guided.rs"]
mod guided;
#[path = "commands/hostile.rs"]
mod hostile;
#[path = "commands/lay.rs"]
mod lay;
#[path = "commands/open.rs"]
mod open;
#[path = "commands/pictures.rs"]
mod pictures;
#[path = "commands/program.rs"]
mod program;
#[path = "commands/read_back.rs"]
mod read_back;
#[path = "commands/sizes.rs"]
mod sizes;
#[path = "support/sources.rs"]
mod sources;
#[path = "commands/terminal.rs"]
mod terminal;
#[path = "commands/trial.rs"]
mod trial;
#[path = "commands/variants.rs"]
mod variants;

use program::{Folder, SHEET, draft, edited};
use std::fs;

/// Every file that a draft of the sheet writes, sorted.
fn files() -> Vec<String> {
    let mut names: Vec<String> =
        export::table::written(&[], &export::choice::Options::default()).iter().map(|e| e.file("first-pair")).collect();
    names.sort();
    names
}

#[test]
fn a_draft_writes_every_file_and_a_summary() {
    let folder = Folder::with_sheet(SHEET);
    let run = draft(&folder, &[]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.err);
    assert_eq!(folder.names("out"), files());
    for words in [
        "Pieces",
        "front",
        "back",
        "gusset",
        "Seams walked",
        "Openings and elastic",
        "Order of work",
        "Checks:",
        "first-pair.pdf",
    ] {
        assert!(run.out.contains(words), "{words} not in\n{}", run.out);
    }
    for file in files() {
        assert!(fs::metadata(folder.path("out").join(&file)).unwrap().len() > 1000, "{file}");
    }
}

/// Tables are read on a terminal of usual width, and pasted into messages.
#[test]
fn no_line_is_wider_than_a_hundred_columns() {
    let fixtures = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    for sheet in ["first-pair", "saturday-hipster", "uneven-legs"] {
        let folder = Folder::with_sheet(fs::read(fixtures.join(format!("{sheet}.toml"))).unwrap());
        for args in
            [&["walk", "sheet.toml", "--marks"][..], &["draft", "sheet.toml", "-o", "out"], &["work", "sheet.toml"]]
        {
            let run = folder.run(args);
            assert_eq!(run.code, 0, "{}", run.err);
            for line in run.out.lines() {
                assert!(line.chars().count() <= 100, "{sheet} {args:?}: {line}");
            }
        }
    }
}

#[test]
fn piped_text_is_plain() {
    let folder = Folder::with_sheet(SHEET);
    for args in [
        &["draft", "sheet.toml", "-o", "out"][..],
        &["walk", "sheet.toml", "--marks"],
        &["work", "sheet.toml", "--why"],
        &["check", "sheet.toml"],
    ] {
        let run = folder.run(args);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(!run.out.contains('\u{1b}'), "{args:?}");
    }
    let refused = folder.run(&["check", "no-such-sheet.toml"]);
    assert!(!refused.err.contains('\u{1b}'));
}

#[test]
fn the_walk_shows_seams_crossings_openings_and_marks() {
    let folder = Folder::with_sheet(SHEET);
    let run = folder.run(&["walk", "sheet.toml"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for words in ["side seam", "gusset seam", "top edge", "left leg", "right leg", "180.", "°", "whole ring"] {
        assert!(run.out.contains(words), "{words} not in\n{}", run.out);
    }
    assert!(!run.out.contains("Between notches"));
    assert!(folder.run(&["walk", "sheet.toml", "--marks"]).out.contains("Between notches"));
    assert_eq!(folder.names("."), ["sheet.toml"], "walking writes nothing");
}

#[test]
fn the_work_is_listed_in_order_with_its_reasons_on_request() {
    let folder = Folder::with_sheet(SHEET);
    let run = folder.run(&["work", "sheet.toml"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.err);
    assert!(run.out.starts_with("Order of work\n") && run.out.contains("\n  1  Cut the front\n"), "{}", run.out);
    let places: Vec<_> =
        ["Front gusset seam, sew", "Left leg, sew the first row", "Left leg, sew the second row", "Last look"]
            .iter()
            .map(|title| run.out.find(title).unwrap_or_else(|| panic!("{title} not in\n{}", run.out)))
            .collect();
    assert!(places.is_sorted(), "{}", run.out);
    assert!(!run.out.contains("after 1, Cut the front: "));
    assert!(folder.run(&["work", "sheet.toml", "--why"]).out.contains("after 1, Cut the front: "));
    let whole = draft(&folder, &["--json"]).json();
    let work = folder.run(&["work", "sheet.toml", "--json"]).json();
    assert_eq!(work["order_of_work"], whole["order_of_work"]);
    let steps = whole["order_of_work"].as_array().unwrap();
    assert!(
        steps.len() > 20
            && steps.iter().all(|s| s["needs"].as_array().unwrap().len() == s["because"].as_array().unwrap().len())
    );
}

#[test]
fn json_answers_are_the_record_and_its_parts() {
    let folder = Folder::with_sheet(SHEET);
    let mut whole = draft(&folder, &["--json"]).json();
    let answer = whole.as_object_mut().unwrap();
    let told = ["folder", "files", "older"].map(|key| answer.remove(key).unwrap());
    let mut names: Vec<&str> = told[1].as_array().unwrap().iter().map(|f| f["name"].as_str().unwrap()).collect();
    names.sort_unstable();
    assert_eq!(
        (&told[0], names, &told[2]),
        (&"out".into(), files().iter().map(String::as_str).collect(), &Vec::<String>::new().into())
    );
    let file = fs::read(folder.path("out/first-pair.json")).unwrap();
    let mut file: serde_json::Value = serde_json::from_slice(&file).unwrap();
    assert!(file.as_object_mut().unwrap().remove("mark").is_some(), "a file is known again");
    assert_eq!(whole, file);

    let walk = folder.run(&["walk", "sheet.toml", "--json", "--marks"]).json();
    let check = folder.run(&["check", "sheet.toml", "--json"]).json();
    for key in ["seams", "crossings", "openings"] {
        assert!(!walk[key].as_array().unwrap().is_empty(), "{key}");
        assert_eq!(walk[key], whole[key], "{key}");
    }
    assert!(!walk["marks"].as_array().unwrap().is_empty());
    assert!(walk.get("pieces").is_none() && check.get("seams").is_none());
    assert_eq!(check["checks"], whole["checks"]);
}

#[test]
fn the_lengths_between_notches_add_up_to_their_edge() {
    let folder = Folder::with_sheet(SHEET);
    let walk = folder.run(&["walk", "sheet.toml", "--json", "--marks"]).json();
    let seam = walk["seams"].as_array().unwrap().iter().find(|s| s["name"].as_str().unwrap().contains("side")).unwrap();
    let (piece, edge) = (&seam["a"]["piece"], &seam["a"]["edge"]);
    let gaps = walk["marks"].as_array().unwrap().iter().filter(|g| g["piece"] == *piece && g["edge"] == *edge);
    let lengths: Vec<f64> = gaps.map(|g| g["length"].as_f64().unwrap()).collect();
    assert!(lengths.iter().all(|l| *l > 0.0));
    if !lengths.is_empty() {
        assert!((lengths.iter().sum::<f64>() - seam["length_a"].as_f64().unwrap()).abs() < 1e-4, "{lengths:?}");
    }
}

#[test]
fn a_foreign_file_is_replaced_only_with_force() {
    let folder = Folder::with_sheet(SHEET);
    fs::create_dir(folder.path("out")).unwrap();
    for file in files() {
        let place = folder.path("out").join(&file);
        fs::write(&place, "somebody's own").unwrap();
        let run = draft(&folder, &[]);
        assert_eq!(run.code, 2, "{file}");
        assert!(run.err.contains(&file) && run.err.contains("--force"), "{}", run.err);
        assert_eq!(folder.names("out"), [file.as_str()], "nothing else was written");
        assert_eq!(fs::read(&place).unwrap(), b"somebody's own");
        fs::remove_file(place).unwrap();
    }
    fs::write(folder.path("out/first-pair.svg"), "somebody's own").unwrap();
    assert_eq!(draft(&folder, &["--force"]).code, 0);
    assert_eq!(folder.names("out"), files());
}

#[test]
fn our_own_files_are_replaced() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let before = fs::read(folder.path("out/first-pair.json")).unwrap();
    folder.write("sheet.toml", edited("body", "hip_girth", Some("99")));
    let again = draft(&folder, &[]);
    assert_eq!(again.code, 0, "each kind carries its mark\n{}", again.err);
    assert_ne!(before, fs::read(folder.path("out/first-pair.json")).unwrap());
    assert_eq!(folder.names("out"), files());
}

#[test]
fn the_same_sheet_gives_the_same_bytes_anywhere() {
    let folder = Folder::with_sheet(SHEET);
    let first = draft(&folder, &[]);
    assert_eq!(first.code, 0, "{}", first.err);
    let places = [("Pacific/Kiritimati", "tr_TR.UTF-8"), ("America/Adak", "C"), ("Asia/Kathmandu", "de_DE.UTF-8")];
    for (zone, language) in places {
        let settings =
            [("TZ", zone), ("LANG", language), ("LC_ALL", language), ("USER", "someone"), ("SOURCE_DATE_EPOCH", "1")];
        let run = folder.run_with(&["draft", "sheet.toml", "-o", "two", "--force"], &settings);
        assert_eq!(run.code, 0, "{}", run.err);
        assert_eq!(first.out, run.out.replace("into two", "into out"), "the summary in {zone}");
        for file in files() {
            let [a, b] = ["out", "two"].map(|dir| fs::read(folder.path(dir).join(&file)).unwrap());
            assert!(a == b, "{file} differs in {zone}, {language}");
        }
    }
}

#[test]
fn paper_can_be_chosen() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let a4 = fs::read(folder.path("out/first-pair.pdf")).unwrap();
    assert_eq!(draft(&folder, &["--paper", "letter"]).code, 0);
    assert!(a4 != fs::read(folder.path("out/first-pair.pdf")).unwrap());
    assert_eq!(draft(&folder, &["--paper", "914"]).code, 0);
    for wrong in ["papyrus", "36 in", "199"] {
        let run = draft(&folder, &["--paper", wrong]);
        assert_eq!(run.code, 2, "{wrong}");
        assert!(run.err.contains("from 200 to 6000"), "{}", run.err);
    }
}

#[test]
fn a_warning_is_a_refusal_where_that_is_asked_for() {
    // The front part is not given, and taking a share of the crotch length is warned of.
    let folder = Folder::with_sheet(edited("body", "crotch_length_front", None));
    assert_eq!(folder.run(&["check", "sheet.toml"]).code, 0);
    for command in ["check", "walk"] {
        let run = folder.run(&[command, "sheet.toml", "--strict"]);
        assert_eq!(run.code, 1, "{command}");
        assert!((run.out + &run.err).contains("crotch_length_front"), "{command}");
    }
    assert_eq!(draft(&folder, &["--strict"]).code, 1);
    assert_eq!(folder.names("."), ["sheet.toml"], "no file is written");
    assert_eq!(draft(&folder, &[]).code, 0);
}

#[test]
fn new_writes_a_sheet_and_never_overwrites() {
    for units in ["cm", "mm", "in"] {
        let folder = Folder::empty();
        let run = folder.run(&["new", "mine.toml", "--units", units]);
        assert_eq!(run.code, 0, "{}", run.err);
        let text = fs::read_to_string(folder.path("mine.toml")).unwrap();
        assert!(text.contains(&format!("units = \"{units}\"")), "{text}");
        fs::write(folder.path("mine.toml"), "mine").unwrap();
        let again = folder.run(&["new", "mine.toml", "--units", units]);
        assert_eq!(again.code, 2);
        assert!(again.err.contains("mine.toml") && again.err.contains("next:"), "{}", again.err);
        assert_eq!(fs::read(folder.path("mine.toml")).unwrap(), b"mine");
    }
    assert_eq!(Folder::empty().run(&["new", "no/such/folder/mine.toml"]).code, 2);
}

#[test]
fn wrong_use_is_two_and_help_is_none() {
    let folder = Folder::with_sheet(SHEET);
    for args in [
        &[][..],
        &["sew"],
        &["draft", "sheet.toml"],
        &["draft", "-o", "out"],
        &["check", "sheet.toml", "--stric"],
        &["new", "x.toml", "--units", "ell"],
    ] {
        let run = folder.run(args);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{args:?}");
        assert!(!run.err.is_empty());
    }
    for args in [&["--help"][..], &["draft", "--help"], &["--version"]] {
        let run = folder.run(args);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{args:?}");
    }
    assert_eq!(folder.names("."), ["sheet.toml"]);
}

#[test]
fn a_folder_that_cannot_be_made_is_said() {
    let folder = Folder::with_sheet(SHEET);
    folder.write("out", "a file in the way");
    let run = draft(&folder, &[]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("out") && run.err.contains("next:"), "{}", run.err);
    assert_eq!(folder.names("."), ["out", "sheet.toml"]);
}

#[cfg(unix)]
#[test]
fn a_reader_who_goes_away_is_no_error() {
    use std::process::Stdio;
    let folder = Folder::with_sheet(SHEET);
    let mut running =
        folder.command(&["walk", "sheet.toml"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(running.stdout.take());
    let ended = running.wait_with_output().unwrap();
    assert_eq!((ended.status.code(), ended.stderr.as_slice()), (Some(0), &b""[..]));
}
