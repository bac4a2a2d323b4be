//! `trial`: what is written into a sheet, and that nothing else of it changes.

use crate::program::{Folder, SHEET};
use std::fs;
use std::process::{Command, Stdio};

const DAY: [&str; 2] = ["--date", "2026-03-02"];

fn trial(folder: &Folder, more: &[&str]) -> crate::program::Run {
    folder.run(&[&["trial", "sheet.toml"], more, &DAY].concat())
}

fn text(folder: &Folder) -> String {
    String::from_utf8(fs::read(folder.path("sheet.toml")).unwrap()).unwrap()
}

/// Lines of `new` that are not those of `old`, in order; panics where a line of `old` is gone that
/// is not in `gone`.
fn added(old: &str, new: &str, gone: &[&str]) -> Vec<String> {
    let mut left = old.split_inclusive('\n').peekable();
    let mut added = Vec::new();
    for line in new.split_inclusive('\n') {
        while left.peek().is_some_and(|next| gone.iter().any(|gone| next.contains(gone))) {
            left.next();
        }
        // The end of a file may lack the end of a line.
        if left.peek().is_some_and(|next| *next == line || format!("{next}\n") == line || format!("{next}\r\n") == line)
        {
            left.next();
        } else {
            added.push(line.to_owned());
        }
    }
    let rest: Vec<_> = left.filter(|line| !gone.iter().any(|gone| line.contains(gone))).collect();
    assert!(rest.is_empty(), "lost or changed: {rest:?}\n{new}");
    added
}

/// The same sheet, as ten people might have written it.
fn odd_sheets() -> Vec<(&'static str, String)> {
    let dotted = |sheet: &str| {
        sheet.replace("[finish.top]\n", "[finish]\n").replace("[finish.legs]\n", "").replace(
            "kind = \"turned\"\nelastic = \"soft 12\"\nreduction = 8\nput_on = \"flat\"\n\nkind = \"trim\"\nelastic = \"soft 8\"\nreduction = 5\n",
            "top.kind = \"turned\"\ntop.elastic = \"soft 12\"\n  top.reduction = 8\nlegs.kind = \"trim\"\nlegs.elastic = \"soft 8\"\nlegs.reduction=5\n",
        )
    };
    let inline = |sheet: &str| {
        sheet.replace("[finish.top]\n", "[finish]\n").replace("[finish.legs]\n", "").replace(
            "kind = \"turned\"\nelastic = \"soft 12\"\nreduction = 8\nput_on = \"flat\"\n\nkind = \"trim\"\nelastic = \"soft 8\"\nreduction = 5\n",
            "top = { kind = \"turned\", elastic = \"soft 12\", reduction = 8 }   # in braces\nlegs = {kind=\"trim\",elastic=\"soft 8\",reduction=5}\n",
        )
    };
    let commented = SHEET
        .replace("reduction = 5\n", "reduction   =   5     # hers, as it was\n# and a line below it\n")
        .replace("base = \"brief\"\n", "base = \"brief\"\n\n\n   # what else?\n");
    vec![
        ("plain", SHEET.to_owned()),
        ("comments and odd spacing", commented.clone()),
        ("windows", commented.replace('\n', "\r\n")),
        ("byte order mark", format!("\u{feff}{commented}")),
        ("mark and windows", format!("\u{feff}{}", SHEET.replace('\n', "\r\n"))),
        ("dotted keys", dotted(SHEET)),
        ("inline tables", inline(SHEET)),
        ("no newline at the end", format!("{}\n# the end", SHEET.trim_end())),
        (
            "trials in brackets",
            format!("trial = [\n  {{ edge = \"top edge\", verdict = \"right\", reduction = 8 }}, # old\n]\n{SHEET}"),
        ),
        (
            "sections out of order, one leg of its own",
            format!(
                "[[trial]]\nedge = \"legs\"\nverdict = \"loose\"\nreduction = 0\n\n[finish.right_leg]\nreduction = 9 # more\n\n{}",
                SHEET.replace("[print]\n", "")
            ),
        ),
    ]
}

#[test]
fn a_trial_adds_its_own_lines_and_touches_no_other() {
    for (name, sheet) in odd_sheets() {
        let folder = Folder::with_sheet(&sheet);
        let run =
            trial(&folder, &["--left", "right", "--right", "tight", "--top", "loose", "--note", "after “an” hour"]);
        assert_eq!(run.code, 0, "{name}: {}", run.err);
        let new = text(&folder);
        let lines = added(&sheet, &new, &[]);
        let count = |word: &str| lines.iter().filter(|line| line.contains(word)).count();
        assert_eq!((count("verdict"), count("worn_stretch"), count("2026-03-02")), (3, 3, 3), "{name}: {lines:?}");
        assert_eq!(fs::read(folder.path("sheet.toml.undo")).unwrap(), sheet.as_bytes(), "{name}");
        assert_eq!(folder.names("."), ["sheet.toml", "sheet.toml.undo"]);
        let windows = |text: &str| text.matches("\r\n").count() == text.matches('\n').count();
        assert!(!sheet.contains("\r\n") || windows(&new), "{name}");
        assert_eq!(new.starts_with('\u{feff}'), sheet.starts_with('\u{feff}'), "{name}");
        // It reads as the sheet it was, with three trials more.
        let read = |text: &str| quarterpin::sheet::read(text, name).unwrap();
        assert_eq!(read(&new).trials.len(), read(&sheet).trials.len() + 3, "{name}");
    }
}

#[test]
fn what_is_applied_stands_beside_what_was_there() {
    for (name, sheet) in odd_sheets() {
        let folder = Folder::with_sheet(&sheet);
        let remarks = ["--fit", "rides up at the back", "--fit", "gapes at the back leg", "--fit", "gusset too long"];
        let run = trial(&folder, &[&["--left", "right", "--right", "tight", "--apply"], &remarks[..]].concat());
        assert_eq!(run.code, 0, "{name}: {}", run.err);
        let new = text(&folder);
        let lines = added(&sheet, &new, &["reduction", "length = 14", "legs ="]);
        let has = |part: &str| lines.iter().any(|line| line.contains(part));
        assert!(has("back_cover = 0.7  # 2026-03-02: was 0.62"), "{name}: {lines:?}");
        assert!(has("length = 13  # 2026-03-02: was 14") && has("back"), "{name}: {lines:?}");
        for comment in sheet.lines().filter_map(|line| line.split_once('#').map(|(_, comment)| comment)) {
            assert!(new.contains(comment), "{name}: {comment} is gone from\n{new}");
        }
        let made = engine::make(&quarterpin::sheet::read(&new, name).unwrap());
        assert!(made.is_ok(), "{name}");
    }
}

#[test]
fn nothing_is_written_unasked() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(folder.run(&["trial", "sheet.toml"]).code, 0);
    assert_eq!((text(&folder).as_str(), folder.names(".")), (SHEET, vec!["sheet.toml".to_owned()]));
    let run = trial(&folder, &["--fit", "sags"]);
    assert_eq!((run.code, text(&folder).as_str()), (0, SHEET), "{}", run.err);
    assert!(run.out.contains("fabric.ease_across -8 % → -10 %"), "{}", run.out);
    let run = trial(&folder, &["--fit", "sags", "--apply"]);
    assert!(text(&folder).contains("ease_across = -10  # 2026-03-02: was -8"), "{}", run.err);
    assert_eq!(fs::read(folder.path("sheet.toml.undo")).unwrap(), SHEET.as_bytes());
}

#[test]
fn what_is_not_understood_is_refused_and_writes_nothing() {
    let folder = Folder::with_sheet(SHEET);
    for (more, said) in [
        (&["--left", "snug"][..], "say loose, right or tight"),
        (&["--top", "gusset=tight"], "no gusset"),
        (&["--fit", "rides upp"], "did you mean “rides up”"),
        (&["--fit", "gusset too wide by ten"], "no length in centimetres"),
        (&["--left", "right", "--apply=all"], "proposal"),
    ] {
        let run = trial(&folder, more);
        assert_eq!(run.code, 2, "{more:?}: {}", run.out);
        assert!(run.err.contains(said), "{more:?}: {}", run.err);
    }
    assert_eq!(folder.run(&["trial", "none.toml", "--left", "right"]).code, 2);
    assert_eq!(folder.names("."), ["sheet.toml"]);
    assert!(folder.run(&["trial", "sheet.toml", "--fit", "list"]).out.contains("gapes at the back waist"));
}

/// The example: left leg laid on flat and right, right leg at 10 % tight, the crotch too wide by its
/// edging, the back rides up.
#[test]
fn one_command_gives_one_page_of_advice() {
    let sheet =
        SHEET.replace("reduction = 5\n", "reduction = 0\nreach = \"add\"\n\n[finish.right_leg]\nreduction = 10\n");
    let folder = Folder::with_sheet(&sheet);
    let more =
        ["--left", "right", "--right", "tight", "--fit", "crotch too wide by its edging", "--fit", "back rides up"];
    let run = trial(&folder, &more);
    assert_eq!(run.code, 0, "{}", run.err);
    for part in [
        "Right at 0 %, tight at 10 %",
        "finish.legs.reach add → keep",
        "style.back_cover",
        "--apply",
        "New against old",
    ] {
        assert!(run.out.contains(part), "no {part} in\n{}", run.out);
    }
    assert!(run.out.lines().count() < 60 && run.out.lines().all(|line| line.chars().count() <= 100), "{}", run.out);
    let answer = folder.run(&["trial", "sheet.toml", "--json"]).json();
    let keys = |value: &serde_json::Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    assert_eq!(keys(&answer), ["version", "next", "remedies", "conflicts"]);
    let next = ["edge", "low", "high", "estimate", "proposal", "converged", "try_left", "try_right", "why"];
    assert_eq!(keys(&answer["next"][0]), next);
    assert_eq!(answer["next"][0]["edge"], "legs");
}

/// Nobody judged yet: the two settings to begin with are written, and a second time there is nothing to write.
#[test]
fn the_first_two_settings_are_written_on_request() {
    let folder = Folder::with_sheet(SHEET);
    let run = trial(&folder, &["--apply=pair"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let written = text(&folder);
    for leg in ["left", "right"] {
        assert!(written.contains(&format!("[finish.{leg}_leg]")), "{written}");
    }
    let run = trial(&folder, &["--apply=pair"]);
    assert!(run.code == 0 && run.out.contains("Nothing to change"), "{}", run.out);
    assert_eq!(text(&folder), written);
}

/// What was right is kept, and a remark is not applied twice with nothing sewn in between.
#[test]
fn a_remark_of_an_older_garment_changes_nothing() {
    let legs = SHEET.replace("reduction = 5\n", "reduction = 0\n\n[finish.right_leg]\nreduction = 10\n");
    let folder = Folder::with_sheet(&legs);
    let remark = ["--fit", "gusset too wide", "--apply"];
    let run = trial(&folder, &[&["--left", "right", "--right", "tight"], &remark[..]].concat());
    assert_eq!(run.code, 0, "{}", run.err);
    let written = text(&folder);
    assert!(written.contains("[finish.right_leg]\nreduction = 0 "), "what was right is kept: {written}");
    let place = |head: &str| written.find(head).unwrap_or_else(|| panic!("no {head} in {written}"));
    assert!(place("[gusset]") < place("[[trial]]"), "{written}");
    let run = trial(&folder, &remark);
    assert!(run.code == 2 && run.err.contains("another garment"), "{}", run.err);
    assert_eq!(text(&folder), written);
    let compared = folder.run(&["compare", "sheet.toml", "--before"]);
    assert!(compared.out.contains("finish.right_leg.reduction"), "{}", compared.out);
}

/// Legs that the sheet has sewn alike, and that feel unlike, are doubted; others are not.
#[test]
fn legs_sewn_alike_that_feel_unlike_are_doubted() {
    let judged = ["--left", "right", "--right", "tight"];
    assert!(trial(&Folder::with_sheet(SHEET), &judged).out.contains("Were they sewn so?"));
    let legs = SHEET.replace("reduction = 5\n", "reduction = 0\n\n[finish.right_leg]\nreduction = 10\n");
    assert!(!trial(&Folder::with_sheet(&legs), &judged).out.contains("Were they sewn so?"));
}

/// Contradictory verdicts are told, which and from when, and what settles them.
#[test]
fn what_does_not_go_together_is_told() {
    let row = |edge: &str, reduction: u8, verdict: &str| {
        format!("\n[[trial]]\ndate = 2026-03-02\nedge = \"{edge}\"\nreduction = {reduction}\nverdict = \"{verdict}\"\n")
    };
    let sheet = format!("{SHEET}{}{}", row("left leg", 2, "tight"), row("right leg", 14, "right"));
    let folder = Folder::with_sheet(&sheet);
    let run = folder.run(&["trial", "sheet.toml"]);
    let said = run.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in [
        "left leg tight at 2 % (trial 1, 2026-03-02) and right leg right at 14 % (trial 2, 2026-03-02)",
        "Sew exactly that again: left leg 14 %, right leg 2 %",
        "left 14 %, right 2 %",
    ] {
        assert!(said.contains(part), "no {part} in\n{}", run.out);
    }
    let answer = folder.run(&["trial", "sheet.toml", "--json"]).json();
    let conflict = &answer["conflicts"][0];
    assert_eq!((&conflict["trials"], &conflict["refuted"]), (&serde_json::json!([1, 2]), &serde_json::Value::Null));
    assert_eq!(conflict["retest"], serde_json::json!({ "left": 14.0, "right": 2.0 }));
    assert_eq!(answer["next"][0]["try_left"], 14.0);
    assert_eq!(trial(&folder, &["--apply=pair"]).code, 0);
    assert_eq!(trial(&folder, &["--left", "right", "--right", "loose"]).code, 0);
    let answer = folder.run(&["trial", "sheet.toml", "--json"]).json();
    let conflicts = answer["conflicts"].as_array().unwrap();
    assert!(
        !conflicts.is_empty() && conflicts.iter().all(|c| c["refuted"] == 1 && c["retest"].is_null()),
        "{answer:#}"
    );
}

/// Of two at once, one wins and the other says so: nothing is lost and nothing is half.
#[test]
fn two_at_once_do_not_write_over_each_other() {
    let folder = Folder::with_sheet(SHEET);
    let run = |note: &str| {
        let mut command = folder.command(&["trial", "sheet.toml", "--left", "right", "--note", note]);
        command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
    };
    let mut written = 0;
    for _ in 0..8 {
        let runs = ["one", "other"].map(run);
        for child in runs {
            let ended = child.wait_with_output().unwrap();
            let err = String::from_utf8(ended.stderr).unwrap();
            if ended.status.success() {
                written += 1;
            } else {
                assert!(err.contains("another quarterpin is writing"), "{err}");
            }
        }
        assert_eq!(quarterpin::sheet::read(&text(&folder), "s").unwrap().trials.len(), written);
    }
    assert!(written >= 8);
}

/// Killed at any moment, the sheet is the old one or the new one.
fn killed(times: u64) {
    let folder = Folder::with_sheet(SHEET);
    let new = {
        let whole = Folder::with_sheet(SHEET);
        assert_eq!(trial(&whole, &["--left", "right"]).code, 0);
        text(&whole)
    };
    for i in 0..times {
        folder.write("sheet.toml", SHEET);
        let args = [&["trial", "sheet.toml", "--left", "right"], &DAY[..]].concat();
        let mut child = folder.command(&args).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        // 150 ms are longer than a run takes.
        std::thread::sleep(std::time::Duration::from_micros((i * 7919) % 150_000));
        child.kill().unwrap();
        child.wait().unwrap();
        let now = text(&folder);
        assert!(now == SHEET || now == new, "run {i}:\n{now}");
    }
}

#[test]
fn killed_it_leaves_the_old_sheet_or_the_new_one() {
    killed(20);
}

#[test]
#[ignore = "two hundred runs"]
fn killed_two_hundred_times() {
    killed(200);
}

/// Asked one by one, on a pseudo-terminal.
#[cfg(target_os = "linux")]
#[test]
fn on_a_terminal_it_asks() {
    let folder = Folder::with_sheet(SHEET);
    let typed = "right\nsnug\ntight\n\nrides upp\nrides up at the back\n\nnone\n";
    let said = on_a_terminal(&folder, &["trial", "sheet.toml", "--date", "2026-03-02"], typed);
    for part in
        ["left leg (trim, soft 8, 5 %)?", "say loose, right or tight", "did you mean “rides up”", "Written into"]
    {
        assert!(said.contains(part), "no {part} in\n{said}");
    }
    let rows = quarterpin::sheet::read(&text(&folder), "s").unwrap().trials;
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0].note.as_deref(), Some("rides up at the back; none"));
    // Ended before the last answer, nothing is written.
    let before = text(&folder);
    let said = on_a_terminal(&folder, &["trial", "sheet.toml"], "right\n\u{4}");
    assert!(said.contains("nothing was written") && text(&folder) == before, "{said}");
}

/// Runs the program on a pseudo-terminal of Python's, and says what it showed.
#[cfg(target_os = "linux")]
pub fn on_a_terminal(folder: &Folder, args: &[&str], typed: &str) -> String {
    const DRIVE: &str = "import os, pty, sys\n\
        pid, fd = pty.fork()\n\
        if pid == 0:\n    os.execv(sys.argv[2], sys.argv[2:])\n\
        for line in sys.argv[1].splitlines(True):\n    os.write(fd, line.encode())\n\
        out = b''\n\
        while True:\n\
        \x20   try:\n        part = os.read(fd, 4096)\n\
        \x20   except OSError:\n        break\n\
        \x20   if not part:\n        break\n\
        \x20   out += part\n\
        os.waitpid(pid, 0)\n\
        sys.stdout.buffer.write(out)";
    let mut python = Command::new("python3");
    python.current_dir(folder.path(".")).args(["-c", DRIVE, typed, env!("CARGO_BIN_EXE_quarterpin")]).args(args);
    let ended = python.output().unwrap();
    assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stderr));
    String::from_utf8(ended.stdout).unwrap()
}
