//! What the program says, where and how loudly: standard input, quiet, JSON, older files, shells.

use crate::program::{Folder, Run, SHEET, draft, edited};
use serde_json::Value;
use std::fs;

/// Runs the program with a text piped in.
fn piped(folder: &Folder, args: &[&str], text: &[u8]) -> Run {
    folder.run_piped(args, text)
}

#[test]
fn a_sheet_can_be_piped_in() {
    let folder = Folder::with_sheet(SHEET);
    for command in [&["check"][..], &["walk", "--marks"], &["work"], &["check", "--json"]] {
        let [name, flags @ ..] = command else { panic!("no command") };
        let by_file = folder.run(&[&[name, "sheet.toml"], flags].concat());
        let by_pipe = piped(&folder, &[&[name, "-"], flags].concat(), SHEET.as_bytes());
        assert_eq!((by_pipe.code, by_pipe.out), (0, by_file.out), "{command:?}");
    }
    assert_eq!(piped(&folder, &["draft", "-", "-o", "piped"], SHEET.as_bytes()).code, 0);
    assert_eq!(draft(&folder, &[]).code, 0);
    assert_eq!(folder.names("piped"), folder.names("out"));
    for name in folder.names("out") {
        assert!(
            fs::read(folder.path("out").join(&name)).unwrap() == fs::read(folder.path("piped").join(&name)).unwrap()
        );
    }
}

#[test]
fn what_is_wrong_with_a_sheet_that_is_piped_in_is_said_of_standard_input() {
    let folder = Folder::empty();
    let bad = edited("gusset", "front_width", Some("5"));
    for (text, code) in [("", 2), ("waist 74", 2), (bad.as_str(), 1)] {
        let run = piped(&folder, &["check", "-"], text.as_bytes());
        assert_eq!(run.code, code, "{}", run.err);
        assert!(run.err.contains("standard input"), "{}", run.err);
    }
    let drawing = piped(&folder, &["inspect", "-"], b"no tags");
    assert!(drawing.code == 2 && drawing.err.contains("standard input"), "{}", drawing.err);
}

#[test]
fn quiet_says_nothing_where_all_goes_well() {
    let folder = Folder::with_sheet(SHEET);
    for args in [
        &["draft", "sheet.toml", "-o", "out", "--quiet"][..],
        &["-q", "draft", "sheet.toml", "-o", "out"],
        &["walk", "sheet.toml", "-q"],
        &["check", "sheet.toml", "-q"],
        &["new", "other.toml", "-q"],
    ] {
        let run = folder.run(args);
        assert_eq!((run.code, run.out.as_str(), run.err.as_str()), (0, "", ""), "{args:?}");
    }
    assert!(!folder.names("out").is_empty());
    let json = folder.run(&["check", "sheet.toml", "-q", "--json"]);
    assert!(json.json()["checks"].is_array());
    let refused = folder.run(&["check", "none.toml", "-q"]);
    assert!(refused.code == 2 && refused.err.contains("none.toml"), "{}", refused.err);
    folder.write("sheet.toml", edited("body", "crotch_length_front", None));
    let strict = folder.run(&["check", "sheet.toml", "-q", "--strict"]);
    assert!(strict.code == 1 && strict.out.contains("crotch_length_front"), "{}", strict.out);
}

/// Every answer in JSON has a version, and one that says no has its reasons where the others have them.
fn answered(run: &Run, code: i32) -> Value {
    assert_eq!(run.code, code, "{}", run.err);
    let answer = run.json();
    assert_eq!((&answer["version"], &answer["program"]), (&1.into(), &"quarterpin".into()), "{}", run.out);
    if code > 0 {
        let checks = answer["checks"].as_array().unwrap();
        assert!(!checks.is_empty() && !run.err.is_empty());
        assert!(checks.iter().all(|c| !c["text"].as_str().unwrap().is_empty() && c["code"].is_string()), "{}", run.out);
    }
    answer
}

#[test]
fn json_is_answered_on_every_exit_code() {
    let folder = Folder::with_sheet(SHEET);
    answered(&draft(&folder, &["--json"]), 0);
    answered(&folder.run(&["walk", "out/first-pair-cut.dxf", "--json"]), 0);
    answered(&folder.run(&["inspect", "out/first-pair-pieces.dxf", "--json"]), 0);
    answered(&folder.run(&["finishes", "--json"]), 0);
    folder.write("refused.toml", edited("gusset", "front_width", Some("5")));
    folder.write("wrong.toml", edited("body", "waist_grith", Some("74")));
    for command in ["walk", "check", "work"] {
        answered(&folder.run(&[command, "refused.toml", "--json"]), 1);
        let wrong = answered(&folder.run(&[command, "wrong.toml", "--json"]), 2);
        let first = &wrong["checks"][0];
        let place = first["place"].as_str().unwrap();
        assert!(place.starts_with("line ") && place.contains("waist_grith"), "{wrong:#}");
        assert!(first["level"] == "refusal" && !first["next"].as_str().unwrap().is_empty(), "{wrong:#}");
        answered(&folder.run(&[command, "none.toml", "--json"]), 2);
    }
    for args in [
        &["draft", "sheet.toml", "--json"][..],
        &["check", "--json", "--stric", "sheet.toml"],
        &["draft", "sheet.toml", "-o", "out", "--json", "--kerf", "9"],
        &["draft", "sheet.toml", "-o", "sheet.toml", "--json"],
        &["walk", "sheet.toml", "--json", "--variant", "larger"],
    ] {
        answered(&folder.run(args), 2);
    }
    for (sheet, code) in [("refused.toml", 1), ("wrong.toml", 2)] {
        let stopped = answered(&folder.run(&["draft", sheet, "-o", "none", "--json"]), code);
        assert_eq!(stopped["files"], Value::Array(Vec::new()));
    }
    // Its own words stand in the place of the command line's.
    let misused = answered(&folder.run(&["check", "--json", "--stric", "sheet.toml"]), 2);
    assert!(misused["checks"][0]["text"].as_str().unwrap().contains("--stric"), "{misused:#}");
}

#[test]
fn files_under_an_older_name_are_told() {
    let folder = Folder::with_sheet(SHEET);
    assert!(!draft(&folder, &["--plotter"]).out.contains("Older files"));
    let written = folder.names("out").len();
    folder.write("out/somebody-s.svg", "<svg/>");
    folder.write("sheet.toml", SHEET.replace("\"first pair\"", "\"second pair\""));
    let run = draft(&folder, &[]);
    assert!(run.out.contains("Older files in the folder") && run.out.contains("first-pair.plt"), "{}", run.out);
    assert!(!run.out.contains("somebody-s") && !run.out.contains("not written again"), "{}", run.out);
    let older = draft(&folder, &["--json"]).json()["older"].as_array().unwrap().len();
    assert_eq!(older, written);
    // Another body is another sheet; one's own file that is not asked for any more is told all the same.
    folder.write("sheet.toml", edited("body", "hip_girth", Some("99")));
    let run = draft(&folder, &[]);
    assert!(!run.out.contains("second-pair"), "{}", run.out);
    assert!(run.out.contains("not written again: first-pair.plt"), "{}", run.out);
}

#[test]
fn every_shell_gets_its_completions() {
    let folder = Folder::empty();
    for (shell, word) in [
        ("bash", "complete -F"),
        ("zsh", "#compdef"),
        ("fish", "complete -c quarterpin"),
        ("elvish", "edit:completion"),
        ("powershell", "Register-ArgumentCompleter"),
    ] {
        let run = folder.run(&["completions", shell]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(run.out.contains(word) && run.out.contains("start-off-corner"), "{shell}: {}", run.out);
    }
    assert_eq!(folder.run(&["completions", "abacus"]).code, 2);
}

#[test]
fn there_is_a_manual_page_for_every_command() {
    let folder = Folder::empty();
    let written = folder.run(&["man", "-o", "pages"]);
    assert_eq!(written.code, 0, "{}", written.err);
    let help = folder.run(&["--help"]).out;
    let listed = help.split("Commands:").nth(1).unwrap().split("Options:").next().unwrap();
    let mut want: Vec<String> = listed
        .lines()
        // A description that goes on stands further in.
        .filter_map(|l| l.strip_prefix("  ").filter(|rest| !rest.starts_with(' '))?.split_whitespace().next())
        .filter(|name| *name != "help")
        .map(|name| format!("quarterpin-{name}.1"))
        .chain(["quarterpin.1".to_owned()])
        .collect();
    want.sort();
    assert_eq!(folder.names("pages"), want);
    let draft = fs::read_to_string(folder.path("pages/quarterpin-draft.1")).unwrap();
    for words in [".SH SYNOPSIS", "kerf", "NAME\\-cut.svg"] {
        assert!(draft.contains(words), "{words} not in\n{draft}");
    }
    assert_eq!(folder.run(&["man", "-o", "pages"]).code, 0, "pages of ours are replaced");
    folder.write("pages/quarterpin.1", "mine");
    assert_eq!(folder.run(&["man", "-o", "pages"]).code, 2);
    assert_eq!(folder.run(&["man", "-o", "pages", "--force"]).code, 0);
}

#[test]
fn the_licences_go_with_the_program() {
    let folder = Folder::empty();
    let said = folder.run(&["licences"]).out;
    for words in ["MIT OR Apache-2.0", "DejaVu", "Bitstream Vera Fonts Copyright", "Tavmjong Bah"] {
        assert!(said.contains(words), "{words} not in\n{said}");
    }
    assert!(folder.run(&["--version"]).out.contains("quarterpin licences"));
    assert_eq!(folder.run(&["-V"]).out.lines().count(), 1);
}
