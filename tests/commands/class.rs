//! A class: everybody of a table, a folder each.

#[path = "class/bought.rs"]
mod bought;

use crate::program::{Folder, Run, SHEET};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::{Duration, SystemTime};

const HEAD: &str = "name,waist,hips,waist to hip,crotch length,front crotch,thigh,base\n";

/// A folder with the base sheet and a table of people.
fn class_of(rows: &str) -> Folder {
    let folder = Folder::with_sheet(SHEET);
    folder.write("people.csv", format!("{HEAD}{rows}"));
    folder
}

fn run(folder: &Folder, more: &[&str]) -> Run {
    folder.run(&[&["class", "people.csv", "--sheet", "sheet.toml", "-o", "out"], more].concat())
}

fn record(folder: &Folder) -> Value {
    serde_json::from_slice(&fs::read(folder.path("out/class.json")).unwrap()).unwrap()
}

/// Every file under a folder with its bytes.
fn tree(root: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut left = vec![root.to_owned()];
    while let Some(folder) = left.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                left.push(path);
            } else {
                all.insert(path.strip_prefix(root).unwrap().to_owned(), fs::read(&path).unwrap());
            }
        }
    }
    all
}

const THREE: &str = "Anna,74,98,20,71,32,57,\nBea,seventy,98,20,71,32,57,\nCleo,70,95,19.5,68,31,55,hipster\n";

#[test]
fn everybody_gets_her_files_and_a_bad_row_stops_nobody() {
    let folder = class_of(THREE);
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.starts_with("Pages to print: "), "{}", ran.out);
    for words in ["2 of 3 done", "row 3, column B (waist), “seventy”", "has to be a number", "To buy", "soft 8"] {
        assert!(ran.out.contains(words), "{words} not in\n{}", ran.out);
    }
    assert_eq!(folder.names("out"), ["Anna", "Cleo", "class.json", "class.pdf", "summary.csv"]);
    let record = record(&folder);
    let people = record["people"].as_array().unwrap();
    let told = |key: &str| people.iter().map(|p| p[key].as_str().unwrap_or_default()).collect::<Vec<_>>();
    assert_eq!(told("name"), ["Anna", "Bea", "Cleo"]);
    assert_eq!(told("folder"), ["Anna", "Bea", "Cleo"]);
    assert_eq!(told("status"), ["done", "unreadable", "done"]);
    assert_eq!(
        (people[1]["row"].as_u64(), people[1]["reasons"][0]["key"].as_str()),
        (Some(3), Some("body.waist_girth"))
    );
    assert_eq!(folder.names("out/Anna").len(), export::table::written(&[], &export::choice::Options::default()).len());
    assert!(record["pages"].as_u64().unwrap() >= 8);
}

/// A person of a table and the same sheet written by hand are one and the same.
#[test]
fn a_person_of_a_class_gets_what_her_own_sheet_would_give() {
    let folder = class_of(THREE);
    run(&folder, &["--paper", "letter"]);
    folder.write("hers.toml", SHEET.replace("name = \"first pair\"", "name = \"Anna – first pair\""));
    let ran = folder.run(&["draft", "hers.toml", "-o", "hers", "--paper", "letter"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    for ending in [".json", ".pdf", "-cut.dxf", ".svg"] {
        let [class, own] = [format!("out/Anna/Anna{ending}"), format!("hers/Anna-first-pair{ending}")];
        assert!(fs::read(folder.path(&class)).unwrap() == fs::read(folder.path(&own)).unwrap(), "{class} and {own}");
    }
}

/// The fixtures are one class in four shapes, three of them written by other programs.
#[test]
fn four_shapes_of_one_table_give_the_same_files() {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/class");
    let folder = Folder::with_sheet(SHEET);
    let mut all = Vec::new();
    for shape in ["csv", "xlsx", "ods", "tsv"] {
        let table = fixtures.join(format!("people.{shape}"));
        let ran = folder.run(&["class", table.to_str().unwrap(), "--sheet", "sheet.toml", "-o", shape]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{shape}: {}", ran.out);
        let mut files = tree(&folder.path(shape));
        // Rows are counted as each table counts them.
        files.retain(|path, _| path.components().count() > 1);
        assert_eq!(files.keys().filter(|path| path.extension().is_some_and(|e| e == "dxf")).count(), 8, "{shape}");
        all.push((shape, files));
    }
    for (shape, files) in &all[1..] {
        assert_eq!(files.keys().collect::<Vec<_>>(), all[0].1.keys().collect::<Vec<_>>());
        for (path, bytes) in files {
            assert!(*bytes == all[0].1[path], "{} of {shape} differs from that of {}", path.display(), all[0].0);
        }
    }
}

#[test]
fn a_check_tells_what_is_odd_and_writes_nothing() {
    let folder = class_of(THREE);
    let ran = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.out.contains("would be done") && ran.out.contains("“seventy”"), "{}", ran.out);
    assert_eq!(folder.names("."), ["people.csv", "sheet.toml"]);
    let json = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check", "--json"]).json();
    assert_eq!(json["people"].as_array().unwrap().len(), 3);
}

#[test]
fn names_are_data() {
    let names = ["../up", "-rf", ".hidden", "con", "a/b", "=1+1", "@x", "+1", "🧵", "مريم", "ANNA", "Anna", "Anna"];
    let rows: String = names.iter().map(|name| format!("\"{name}\",74,98,20,71,32,57,\n")).collect();
    let folder = class_of(&rows);
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    let record = record(&folder);
    let people = record["people"].as_array().unwrap();
    let mut folders: Vec<String> = people.iter().map(|p| p["folder"].as_str().unwrap().to_lowercase()).collect();
    let called = [&names[..11], &["Anna 2", "Anna 3"]].concat();
    for (person, name) in people.iter().zip(called) {
        assert_eq!((person["name"].as_str(), person["status"].as_str()), (Some(name), Some("done")));
        let own = person["folder"].as_str().unwrap();
        assert!(!own.is_empty() && !own.contains(['/', '\\']) && !own.starts_with(['.', '-']) && own != "con", "{own}");
        assert!(folder.path("out").join(own).join(format!("{own}.pdf")).is_file(), "{own}");
    }
    folders.sort();
    folders.dedup();
    assert_eq!(folders.len(), names.len(), "two people share a folder on some disks");
    assert_eq!(folder.names("."), ["out", "people.csv", "sheet.toml"]);
    let summary = fs::read_to_string(folder.path("out/summary.csv")).unwrap();
    for formula in ["=1+1", "@x", "+1", "-rf"] {
        assert!(summary.contains(&format!(",'{formula},")), "{formula} in\n{summary}");
    }
}

#[test]
fn nothing_is_made_again_that_has_not_changed() {
    let folder = class_of(THREE);
    run(&folder, &[]);
    let (before, anna) = (tree(&folder.path("out")), folder.path("out/Anna/Anna.pdf"));
    let made = |path: &Path| fs::metadata(path).unwrap().modified().unwrap();
    let first = made(&anna);
    let again = run(&folder, &[]);
    assert!(again.out.contains("2 of them unchanged"), "{}", again.out);
    assert!(before == tree(&folder.path("out")) && made(&anna) == first);
    // One person changes, and she alone is made anew.
    folder.write("people.csv", format!("{HEAD}{}", THREE.replace("seventy", "70").replace("Cleo,70", "Cleo,71")));
    let changed = run(&folder, &[]);
    assert_eq!(changed.code, 0, "{}", changed.out);
    assert!(changed.out.contains("1 of them unchanged") && made(&anna) == first, "{}", changed.out);
    // Whoever cannot be made any more has files of other measurements.
    folder.write("people.csv", format!("{HEAD}{THREE}"));
    assert!(run(&folder, &[]).out.contains("the files in Bea are of an earlier run"));
    folder.write("people.csv", format!("{HEAD}{}", THREE.replace("Bea,seventy,98,20,71,32,57,\n", "")));
    assert_eq!(run(&folder, &[]).code, 0);
    // A file that is gone is made again; with --again all are.
    fs::remove_file(folder.path("out/Anna/Anna.svg")).unwrap();
    assert!(run(&folder, &[]).out.contains("1 of them unchanged"));
    assert!(folder.path("out/Anna/Anna.svg").is_file());
    assert!(!run(&folder, &["--again"]).out.contains("unchanged"));
    // Another paper is another print.
    assert!(!run(&folder, &["--paper", "letter"]).out.contains("unchanged"));
}

#[test]
fn some_people_alone() {
    let folder = class_of(THREE);
    let ran = run(&folder, &["--only", "Cleo"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert!(ran.out.contains("1 of 1 done, 2 left out"), "{}", ran.out);
    assert_eq!(folder.names("out"), ["Cleo", "class.json", "class.pdf", "summary.csv"]);
    let ran = run(&folder, &["--only", "2-3"]);
    assert_eq!(ran.code, 1);
    let told: Vec<String> = record(&folder)["people"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| format!("{} {}", p["name"], p["status"]))
        .collect();
    assert_eq!(told, ["\"Anna\" \"done\"", "\"Bea\" \"unreadable\"", "\"Cleo\" \"done\""]);
    let nobody = run(&folder, &["--only", "Cloe"]);
    assert!(nobody.code == 2 && nobody.err.contains("did you mean “Cleo”"), "{}", nobody.err);
}

#[test]
fn what_a_person_wrote_is_not_replaced() {
    let folder = class_of(THREE);
    fs::create_dir_all(folder.path("out/Anna")).unwrap();
    folder.write("out/Anna/Anna.svg", "<svg/>");
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("quarterpin did not write it"), "{}", ran.out);
    assert_eq!(folder.names("out/Anna"), ["Anna.svg"]);
    assert_eq!(record(&folder)["people"][2]["status"], "done", "the others are made");
    assert_eq!(run(&folder, &["--force"]).code, 1, "Bea still cannot be read");
    assert!(folder.path("out/Anna/Anna.pdf").is_file());
    folder.write("out/summary.csv", "mine\n");
    let ran = run(&folder, &[]);
    assert!(ran.code == 2 && ran.err.contains("summary.csv is there already"), "{}", ran.err);
    assert_eq!(fs::read_to_string(folder.path("out/summary.csv")).unwrap(), "mine\n");
}

#[test]
fn wrong_use_says_what_to_do() {
    let folder = class_of(THREE);
    let refused = |args: &[&str], words: &str| {
        let ran = folder.run(args);
        assert_eq!(ran.code, 2, "{args:?}: {}", ran.out);
        assert!(ran.err.contains(words), "{words} not in {}", ran.err);
    };
    refused(&["class", "people.csv", "--sheet", "sheet.toml"], "--out");
    refused(&["class", "people.csv", "--sheet", "none.toml", "-o", "out"], "there is no file none.toml");
    refused(&["class", "none.csv", "--sheet", "sheet.toml", "-o", "out"], "check the name");
    refused(&["class", "sheet.toml", "--sheet", "sheet.toml", "-o", "out"], "no header row");
    refused(&["class", "people.csv", "--sheet", "people.csv", "-o", "out"], "people.csv");
    refused(&["class", "people.csv", "--sheet", "sheet.toml", "-o", "sheet.toml"], "is a file");
    folder.write("bad.toml", SHEET.replace("stretch_across", "stretch_acros"));
    refused(&["class", "people.csv", "--sheet", "bad.toml", "-o", "out"], "did you mean `stretch_across`");
    folder.write("of-one.toml", format!("{SHEET}\n[[variant]]\nname = \"a\"\nbody.hip_girth = 99\n"));
    refused(&["class", "people.csv", "--sheet", "of-one.toml", "-o", "out"], "a variant of a class changes the body");
    assert_eq!(folder.names("."), ["bad.toml", "of-one.toml", "people.csv", "sheet.toml"]);
}

/// Two of one name: their papers tell them apart, and the teacher is told.
#[test]
fn people_of_one_name_are_told_apart() {
    let folder = class_of("Anna,74,98,20,71,32,57,\nanna ,70,95,19.5,68,31,55,\nAnna 2,72,96,20,70,32,56,\n");
    let ran = run(&folder, &[]);
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    assert_eq!(folder.names("out")[..3], ["Anna", "Anna-2", "anna-3"]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Anna, row 2: row 3 is called Anna as well"), "{said}");
    assert!(said.contains("here she is “anna 3”"), "{said}");
    let titles = ["Anna", "anna-3"].map(|one| {
        let text = fs::read_to_string(folder.path(format!("out/{one}/{one}-card.md"))).unwrap();
        text.lines().find(|line| line.starts_with('#')).unwrap().to_owned()
    });
    assert_eq!(titles, ["# Anna – first pair", "# anna 3 – first pair"]);
    let ran = run(&folder, &["--only", "anna 3"]);
    assert!(ran.code == 0 && ran.out.contains("People: 3 of 3 done"), "{}{}", ran.out, ran.err);
}

/// Lists of a part of the class say so, and who is not in them.
#[test]
fn who_is_left_out_is_named() {
    let folder = class_of(THREE);
    run(&folder, &[]);
    folder.write("people.csv", format!("{HEAD}{}", THREE.replace("74,98", "76,98")));
    let ran = run(&folder, &["--only", "Cleo"]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = "This is a part of the class: not in it, and not in what to buy, are Anna, Bea";
    assert!(said.contains("1 of 1 done") && said.contains(told), "{said}");
    assert_eq!(record(&folder)["left_out"], serde_json::json!(["Anna", "Bea"]));
    assert!(!run(&folder, &[]).out.contains("a part of the class"));
}

#[test]
fn a_table_in_inches_on_a_sheet_in_centimetres_is_asked_about() {
    const INCHES: &str = "Anna,29 1/4,38 1/2,7 3/4,28,12 5/8,22 1/2,\nCleo,27½,37,7½,27,12,21½,\n";
    let folder = class_of(INCHES);
    let said = |flags: &[&str]| {
        let words = [&["class", "people.csv", "--sheet", "sheet.toml", "--check"], flags].concat();
        folder.run(&words).out.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let told = "There are fractions in 2 rows: where the table is in inches, say --units in";
    assert!(said(&[]).contains(told), "{}", said(&[]));
    folder.write("people.csv", format!("{HEAD}Anna,74,98,n/a,71,32,57,\nCleo,70,95,n/a,68,31,55,\n"));
    assert!(!said(&[]).contains("There are fractions"), "{}", said(&[]));
    folder.write("people.csv", format!("{HEAD}{INCHES}"));
    let read = said(&["--units", "in"]);
    assert!(read.contains("2 of 2 would be done") && !read.contains("There are fractions"), "{read}");
}

/// A column that nobody has is one mistake, and not one of everybody.
#[test]
fn a_column_that_is_missing_is_told_once() {
    let folder = Folder::with_sheet(SHEET);
    folder.write("people.csv", "name,waist,Bum,Leg finish\nAnna,74,98,bound\nCleo,70,95,hem\n");
    let ran = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check", "-o", "out"]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Columns that are not used: C (Bum)") && ran.code == 1, "{said}{}", ran.err);
    assert_eq!(said.matches("`hip_girth` is missing").count(), 1, "{said}");
    assert!(said.contains("all of them: no column of the table is for it: `hip_girth` is missing"), "{said}");
    assert!(said.contains("did you mean \"binding\"?") && !folder.path("out").exists(), "{said}");
}

/// Who leaves the table leaves a folder with all that was made of her.
#[test]
fn folders_of_people_who_are_gone_are_told_for_as_long_as_they_are_there() {
    let folder = class_of("Anna,74,98,20,71,32,57,\nCleo,70,95,19.5,68,31,55,\n");
    let ran = run(&folder, &[]);
    assert!(ran.code == 0 && !ran.out.contains("not in the table any more"), "{}", ran.out);
    folder.write("people.csv", format!("{HEAD}Anna,74,98,20,71,32,57,\n"));
    for _ in 0..2 {
        let ran = run(&folder, &[]);
        assert!(ran.out.contains("Folders of people who are not in the table any more"), "{}", ran.out);
        assert!(record(&folder)["gone"] == serde_json::json!(["Cleo"]) && folder.path("out/Cleo").is_dir());
    }
    fs::remove_dir_all(folder.path("out/Cleo")).unwrap();
    let ran = run(&folder, &[]);
    assert!(!ran.out.contains("not in the table any more"), "{}", ran.out);
}

/// The sheet of one of them as the base: her name is on nobody else's papers, and it is said whose it is.
#[test]
fn the_sheet_of_one_of_them_puts_her_name_on_nobody_elses() {
    let folder = class_of("Anna,74,98,20,71,32,57,\nCleo,70,95,19.5,68,31,55,\n");
    folder.write("sheet.toml", SHEET.replace("name = \"first pair\"", "name = \"Anna – first pair\""));
    let ran = run(&folder, &[]);
    assert!(ran.out.contains("The base is the sheet of Anna"), "{}", ran.out);
    for one in ["Anna", "Cleo"] {
        let text = fs::read_to_string(folder.path(format!("out/{one}/{one}-card.md"))).unwrap();
        assert!(text.contains(&format!("\n# {one} – first pair\n")), "{text}");
    }
}

/// What a teacher's eye does not catch in a column of numbers.
#[test]
fn rare_measures_and_rows_of_sums_are_told() {
    let folder = class_of(
        "Anna,102,88,20,71,32,57,\nCleo,70,95,9,68,31,55,\nDora,70,95,19,68,31,72,\nTotal:,242,278,48,207,94,184,\n",
    );
    let ran = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check"]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(ran.code == 1 && said.contains("3 of 4 would be done, 1 that cannot be read"), "{said}");
    for words in [
        "“Total:” reads like a row about all the others",
        "Anna, row 2, column C (hips), “88”: a waist girth of 102.0 cm over a hip girth of 88.0 cm",
        "Cleo, row 3, column D (waist to hip), “9”: a waist to hip of 9.0 cm is 4",
        "Dora, row 4, column G (thigh), “72”: a thigh girth of 72.0 cm is",
    ] {
        assert!(said.contains(words), "{words} not in\n{said}");
    }
}

/// Where a whole column is odd, as one in another unit is, the summary has it row by row; a check tells it all.
#[test]
fn what_is_odd_of_very_many_is_told_of_some() {
    let folder = class_of(&(0..15).map(|i| format!("P{i},1{i:02},88,20,71,32,57,\n")).collect::<String>());
    let told = |ran: Run| ran.out.matches("over a hip girth of 88.0 cm").count();
    let ran = run(&folder, &[]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("P3, P4, P5, P6, P7, P8, P9, P10 and 4 more: the same with other numbers"), "{said}");
    assert_eq!(told(ran), 3);
    assert_eq!(
        fs::read_to_string(folder.path("out/summary.csv")).unwrap().matches("over a hip girth of 88.0 cm").count(),
        15
    );
    assert_eq!(told(folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check"])), 15);
}

/// A base needs no body of its own.
#[test]
fn a_base_without_a_body_is_a_base() {
    let folder = class_of(THREE);
    let (start, rest) = SHEET.split_once("[body]").unwrap();
    let (_, rest) = rest.split_once("[fabric]").unwrap();
    folder.write("sheet.toml", format!("{start}[fabric]{rest}"));
    assert_eq!(run(&folder, &["--only", "Anna"]).code, 0);
}

/// Killed again and again, and gone on with: the same files as of an undisturbed run, and what was
/// done stays as it was.
#[test]
fn stopping_half_way_loses_nothing() {
    let rows: String = (0..8).map(|i| format!("P{i},{},98,20,71,32,57,\n", 70 + i)).collect();
    let folder = class_of(&rows);
    assert_eq!(run(&folder, &[]).code, 0);
    let undisturbed = tree(&folder.path("out"));
    // Lehmer's generator, multiplier 48271.
    let mut seed = 11_u64;
    let mut killed = 0;
    let mut done: BTreeMap<String, SystemTime> = BTreeMap::new();
    let args = ["class", "people.csv", "--sheet", "sheet.toml", "-o", "killed"];
    for _ in 0..6 {
        seed = seed * 48_271 % 0x7fff_ffff;
        let mut child = folder.command(&args).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(Duration::from_millis(20 + seed % 400));
        killed += usize::from(child.try_wait().unwrap().is_none());
        let _ = child.kill();
        child.wait().unwrap();
        assert_as_they_were(&folder, &mut done);
    }
    let last = folder.run(&args);
    assert_eq!((last.code, last.err.as_str()), (0, ""), "{}", last.out);
    assert_as_they_were(&folder, &mut done);
    let after = tree(&folder.path("killed"));
    assert_eq!(after.keys().collect::<Vec<_>>(), undisturbed.keys().collect::<Vec<_>>());
    assert!(after == undisturbed, "some file differs");
    assert!(killed > 0, "no run was stopped before its end");
}

/// Who is done, by the journal, was not done again since.
fn assert_as_they_were(folder: &Folder, done: &mut BTreeMap<String, SystemTime>) {
    let made = |name: &str| fs::metadata(folder.path(format!("killed/{name}/{name}.pdf"))).unwrap().modified().unwrap();
    for (name, when) in done.iter() {
        assert_eq!(made(name), *when, "{name} was done twice");
    }
    let journal = fs::read_to_string(folder.path("killed/.quarterpin-class")).unwrap_or_default();
    for line in journal.lines() {
        let Ok(line) = serde_json::from_str::<Value>(line) else { continue };
        let name = line["folder"].as_str().unwrap().to_owned();
        if line["kept"].is_object() {
            let when = made(&name);
            done.insert(name, when);
        }
    }
}
