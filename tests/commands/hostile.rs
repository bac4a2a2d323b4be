//! Found by attack: what somebody else's file, name or program could do to a run.

use super::program::{Folder, Run, SHEET, draft, edited};
use std::fs;

fn named(name: &str) -> String {
    edited("sheet", "name", Some(&format!("\"{name}\"")))
}

/// Two names, one stem: once, the one replaced the files of the other.
#[test]
fn sheets_of_one_file_name_do_not_replace_each_other() {
    for (one, other) in [("Ann #1", "Ann 1"), ("\u{1f338}", "\u{1f33b}")] {
        let folder = Folder::with_sheet(named(one));
        assert_eq!(draft(&folder, &[]).code, 0);
        let before = folder.names("out").len();
        folder.write("sheet.toml", named(other));
        let run = draft(&folder, &[]);
        assert!(run.code == 2 && run.err.contains("another sheet") && run.err.contains("--force"), "{}", run.err);
        assert_eq!(folder.names("out").len(), before, "nothing is left behind");
        assert_eq!(draft(&folder, &["--force"]).code, 0);
    }
}

#[test]
fn a_file_that_was_edited_wants_force() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &["--plotter"]).code, 0);
    for name in folder.names("out") {
        let path = folder.path("out").join(&name);
        let whole = fs::read(&path).unwrap();
        let mut changed = whole.clone();
        *changed.last_mut().unwrap() ^= 1;
        fs::write(&path, &changed).unwrap();
        let run = draft(&folder, &["--plotter"]);
        assert!(run.code == 2 && run.err.contains(&name) && run.err.contains("was changed"), "{name}: {}", run.err);
        assert!(fs::read(&path).unwrap() == changed, "{name}");
        fs::write(&path, &whole).unwrap();
        assert_eq!(draft(&folder, &["--plotter"]).code, 0, "{name}: as written, it is replaced again");
    }
}

fn is_harmless(run: &Run) -> bool {
    let all = format!("{}{}", run.out, run.err);
    !all.chars().any(|c| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    })
}

#[cfg(unix)]
#[test]
fn names_of_files_do_not_steer_the_terminal() {
    for bad in ["\u{1b}[2J", "\u{1b}]0;x\u{7}", "\u{9b}2J", "\u{202e}", "\u{2066}", "\u{2028}"] {
        let folder = Folder::with_sheet(SHEET);
        let [sheet, out, missing] = [format!("s{bad}.toml"), format!("o{bad}"), format!("m{bad}.toml")];
        folder.write(&sheet, SHEET);
        folder.write("bad.toml", SHEET.replace("waist_girth", &format!("\"waist{}\"", bad.escape_default())));
        for args in [
            &["draft", &sheet, "-o", &out][..],
            &["check", &missing],
            &["walk", &format!("m{bad}.dxf")],
            &["inspect", &sheet],
            &["check", &format!("--x{bad}")],
            &["class", &missing, "--sheet", &sheet, "-o", &out],
            &["trial", &sheet, "--left", "right", "--date", "2026-03-02"],
            &["new", &sheet],
            &["check", "bad.toml"],
            &["draft", &sheet, "-o", &sheet],
        ] {
            for more in [&[][..], &["--json"]] {
                let run = folder.run(&[args, more].concat());
                assert!(is_harmless(&run), "{args:?} {more:?}: {:?}{:?}", run.out, run.err);
            }
        }
        let told = folder.run(&["draft", &sheet, "-o", &out, "--json"]).json();
        assert_eq!(told["folder"], out.as_str(), "escaped, it is still the same name");
    }
}

#[test]
fn what_a_drawing_says_does_not_steer_the_terminal() {
    for bad in ["\u{9b}2J", "\u{202e}", "\u{85}", "\u{2029}"] {
        let folder = Folder::empty();
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\"><g data-piece=\"a{bad}\" data-line=\"cut\"><path d=\"M0 0L9 9\"/></g></svg>"
        );
        folder.write("a.svg", svg);
        for args in [&["walk", "a.svg"][..], &["walk", "a.svg", "--json"]] {
            let run = folder.run(args);
            assert!(run.code == 0 && is_harmless(&run), "{:?}{:?}", run.out, run.err);
        }
    }
}

#[test]
fn a_name_has_something_to_be_seen_and_turns_nothing_round() {
    for name in
        ["\u{301}\u{302}", "\u{345}", "\u{93e}\u{940}", "\u{200b}\u{200d}", "\u{3164}", "a\u{2028}b", "\u{202e}abc"]
    {
        let folder = Folder::with_sheet(named(name));
        let run = draft(&folder, &[]);
        assert!(run.code == 2 && run.err.contains("sheet.toml:"), "{name:?}: {}", run.err);
        assert_eq!(folder.names("."), ["sheet.toml"]);
    }
    let folder = Folder::with_sheet(named("z\u{301}ółw \u{05e9}\u{05dc}\u{05d5}\u{05dd} \u{1f338}"));
    assert_eq!(draft(&folder, &[]).code, 0);
}

#[test]
fn margins_that_leave_no_paper_are_refused_where_they_are_written() {
    for (print, units) in
        [("margin = 6", "too little of A4"), ("overlap = 12", "too much of A4"), ("margin = 8\npaper = \"A3\"", "")]
    {
        let folder = Folder::with_sheet(format!("{SHEET}\n[print]\n{print}\n"));
        for command in [&["check", "sheet.toml"][..], &["draft", "sheet.toml", "-o", "out"]] {
            let run = folder.run(command);
            if units.is_empty() {
                assert_eq!(run.code, 0, "{}", run.err);
            } else {
                assert!(run.code == 2 && run.err.contains(units) && run.err.contains(" cm"), "{print}: {}", run.err);
            }
        }
    }
}

/// A million errors on one line: once more than a minute.
#[test]
fn a_line_without_end_is_read_or_refused_at_once() {
    let n = 240_000;
    for line in [
        "\\q".repeat(2 * n),
        format!("x = {{{}}}", "a=1,".repeat(n)),
        "=".repeat(4 * n),
        format!("x = [{}]", ",".repeat(4 * n)),
    ] {
        let folder = Folder::with_sheet(format!("{SHEET}\n{line}\n"));
        let run = folder.run(&["check", "sheet.toml"]);
        assert!(run.code == 2 && run.err.len() < 20_000, "{} bytes", run.err.len());
    }
}

/// Killed at any moment, every file is the old or the new one, and the next run leaves what any leaves. A
/// thousand kills of every command: `tests/extra/kill_runs.py`.
#[test]
fn a_draft_that_is_killed_is_put_right_by_the_next() {
    use std::collections::BTreeMap;
    use std::process::Stdio;
    let folder = Folder::empty();
    let files = || -> BTreeMap<String, Vec<u8>> {
        let names = folder.names("out").into_iter();
        names.map(|name| (name.clone(), fs::read(folder.path("out").join(name)).unwrap())).collect()
    };
    let texts = [SHEET.to_owned(), edited("body", "hip_girth", Some("99"))];
    let whole = texts.clone().map(|text| {
        folder.write("sheet.toml", text);
        assert_eq!(draft(&folder, &[]).code, 0);
        files()
    });
    for i in 0..20_u64 {
        let (old, new) = (&whole[1 - (i % 2) as usize], &whole[(i % 2) as usize]);
        folder.write("sheet.toml", &texts[(i % 2) as usize]);
        let args = ["draft", "sheet.toml", "-o", "out"];
        let mut child = folder.command(&args).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        // 100 ms are longer than most runs take.
        std::thread::sleep(std::time::Duration::from_micros((i * 7919) % 100_000));
        child.kill().unwrap();
        child.wait().unwrap();
        for (name, bytes) in files().into_iter().filter(|(name, _)| !name.starts_with('.')) {
            assert!(bytes == old[&name] || bytes == new[&name], "{name} is neither the old one nor the new one");
        }
        assert_eq!(draft(&folder, &[]).code, 0);
        assert!(files() == *new, "run {i}: the next run leaves something else");
    }
}

/// Nobody's body, found by chance: its hip level lies so near its waist level that the centre runs level from one
/// side seam to the other. What is accepted is drawn, with numbers.
#[test]
fn a_centre_that_runs_level_to_the_side_seam_is_drawn() {
    let folder = Folder::empty();
    folder.write("sheet.toml", LEVEL);
    let run = folder.run(&["draft", "sheet.toml", "-o", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let picture = fs::read_to_string(folder.path("out/first-pair-on-body.svg")).unwrap();
    assert!(picture.contains("<path") && !picture.contains("NaN"));
}

const LEVEL: &str = r#"
[body]
crotch_length = 72
crotch_length_front = 32.5
hip_girth = 257.921
thigh_girth = 200.0
waist_girth = 72.5
waist_level = "navel"
waist_to_hip = 2.0

[elastic."soft 12"]
latex = false
picot = 0.2
stretch = 110
width = 1.2

[elastic."soft 8"]
latex = false
stretch = 100
width = 0.8

[fabric]
kind = "knit"
name = "cotton jersey, grey"
nap = false
stretch_across = 180.273
stretch_along = 30
width = 150

[finish.legs]
elastic = "soft 8"
kind = "trim"
overlap = 9.213
put_on = "round"
reduction = -15.94

[finish.legs.sections]
back = 8

[finish.right_leg]
overlap = 14.593

[finish.top]
elastic = "soft 12"
kind = "turned"
marks = "quarters"
put_on = "flat"
reduction = -20.0

[gusset]
layers = 2
lining = "enclosed"

[seams]
kind = "overlock"

[sheet]
name = "first pair"
units = "cm"
version = 1

[style]
base = "brief"
front_scoop = 0.824
"#;
