//! `new` on a terminal: questions, and a short sheet of the answers.

use crate::program::Folder;
use crate::trial::on_a_terminal;
use std::fs;
use std::process::Command;

/// Name, unit; level, the measures; cloth; shape; edges.
const TYPED: &str = "Ada\n\n\n29\nno\n72,5\n98\n20\n71\n\n57\nrib\n\n60\n40\n\n\n\n\n\n";

#[test]
fn on_a_terminal_it_asks_and_writes_what_was_said() {
    let folder = Folder::empty();
    let said = on_a_terminal(&folder, &["new", "ada.toml"], TYPED);
    for part in ["As inches that would be 73.65 cm", "understood as 72.5 cm", "found on real bodies", "is written"] {
        assert!(said.contains(part), "no {part} in\n{said}");
    }
    let text = fs::read_to_string(folder.path("ada.toml")).unwrap();
    assert!(text.lines().count() <= 40 && !text.contains("crotch_length_front"), "{text}");
    let sheet = quarterpin::sheet::read(&text, "ada.toml").unwrap();
    assert_eq!((sheet.name.as_str(), sheet.body.waist_girth.mm()), ("Ada", 725.0));
    assert!(engine::make(&sheet).is_ok());
    assert_eq!(folder.run(&["draft", "ada.toml", "-o", "out"]).code, 0);
}

#[test]
fn inches_are_typed_as_fractions() {
    let folder = Folder::empty();
    let typed = "\nnatural\n29 1/2\n38 1/2\n8\n28\n12 1/2\n22½\n\n\n60\n40\nhipster\nhem\nhem\n";
    let said = on_a_terminal(&folder, &["new", "bea.toml", "--units", "in"], typed);
    let text = fs::read_to_string(folder.path("bea.toml")).unwrap_or_else(|e| panic!("{e}\n{said}"));
    assert!(text.contains("waist_girth = \"29 1/2\"") && text.contains("kind = \"hem\""), "{text}");
    assert!(quarterpin::sheet::read(&text, "bea.toml").is_ok());
}

#[test]
fn with_all_it_asks_nothing() {
    let folder = Folder::empty();
    on_a_terminal(&folder, &["new", "long.toml", "--all"], "");
    assert!(fs::read_to_string(folder.path("long.toml")).unwrap().lines().count() > 200);
}

/// However the questions end, no answer is lost, and the sheet is not begun.
#[test]
fn interrupted_anywhere_it_goes_on_where_it_was() {
    let whole = Folder::empty();
    on_a_terminal(&whole, &["new", "ada.toml"], TYPED);
    let wanted = fs::read_to_string(whole.path("ada.toml")).unwrap();
    let lines: Vec<&str> = TYPED.split_inclusive('\n').collect();
    for (n, end) in
        [(1, CTRL_C), (4, CTRL_D), (5, KILL), (8, HANG_UP), (13, CTRL_C), (15, KILL), (lines.len() - 1, CTRL_C)]
    {
        let folder = Folder::empty();
        by_prompts(&folder, &["new", "ada.toml"], &[&lines[..n], &[end]].concat());
        assert_eq!(folder.names("."), ["ada.toml.answers"], "after {n} answers, {end}");
        let said = by_prompts(&folder, &["new", "ada.toml"], &[&["\n"], &lines[n..]].concat());
        assert!(said.contains("are kept from before") && !said.contains("What do you call"), "{said}");
        assert_eq!(fs::read_to_string(folder.path("ada.toml")).unwrap(), wanted, "after {n} answers, {end}: {said}");
        assert_eq!(folder.names("."), ["ada.toml"], "nothing else is left");
    }
}

#[test]
fn kept_answers_can_be_thrown_away() {
    let folder = Folder::empty();
    let said = by_prompts(&folder, &["new", "ada.toml"], &["Bea\n", "in\n", CTRL_D]);
    assert!(said.contains("your answers are kept in ada.toml.answers"), "{said}");
    let lines: Vec<&str> = TYPED.split_inclusive('\n').collect();
    by_prompts(&folder, &["new", "ada.toml"], &[&["no\n"], &lines[..]].concat());
    let sheet = fs::read_to_string(folder.path("ada.toml")).unwrap();
    assert!(sheet.contains("name = \"Ada\"") && sheet.contains("units = \"cm\""), "{sheet}");
}

/// Her own drawer is offered first, and the sheet names it in place of describing what lies in it.
#[test]
fn what_lies_in_her_drawer_is_offered() {
    let folder = Folder::empty();
    folder.write("elastics.toml", DRAWER);
    let typed =
        "Ada\ncm\nnatural\n72.5\n98\n20\n71\n\n57\ngrey jersey\nbrief\nturned\nplush of mine\ntrim\npicot edging 8\n";
    let said = on_a_terminal(&folder, &["new", "ada.toml"], typed);
    let sheet = fs::read_to_string(folder.path("ada.toml")).unwrap_or_else(|e| panic!("{e}\n{said}"));
    assert!(said.contains("plush of mine: 1.3 cm wide, in your drawer"), "{said}");
    assert!(sheet.contains("drawer = \"elastics.toml\"") && !sheet.contains("[elastic.\"plush of mine\"]"), "{sheet}");
    assert!(sheet.contains("[elastic.\"picot edging 8\"]") && !sheet.contains("stretch_across"), "{sheet}");
    let run = folder.run(&["draft", "ada.toml", "-o", "out"]);
    assert_eq!(run.code, 0, "{}", run.err);
    // What is wrong with it is said, and it is left alone.
    folder.write("elastics.toml", "[elastic.\"x\"]\nwidth = 1\n");
    let said = on_a_terminal(&folder, &["new", "bea.toml"], TYPED);
    assert!(said.contains("elastics.toml:1: the unit of the drawer is missing"), "{said}");
}

const DRAWER: &str = "[sheet]\nunits = \"mm\"\n\n[elastic.\"plush of mine\"]\nwidth = 13\npicot = 2\nstretch = 90\n\n\
                      [cloth.\"grey jersey\"]\nstretch_across = 60\nstretch_along = 40\n";

/// Ten that reached sixteen are 60 %, not 16.
#[test]
fn what_ten_reached_is_taken_for_it() {
    let folder = Folder::empty();
    let said = on_a_terminal(&folder, &["new", "ada.toml"], &TYPED.replace("\n60\n", "\n16\n\n"));
    let sheet = fs::read_to_string(folder.path("ada.toml")).unwrap();
    assert!(sheet.contains("stretch_across = 60\n") && said.contains("Is it that ten reached 16?"), "{sheet}\n{said}");
}

const CTRL_C: &str = "\u{3}";
const CTRL_D: &str = "\u{4}";
const KILL: &str = "KILL";
const HANG_UP: &str = "HANG UP";

/// Runs the program on a pseudo-terminal of Python's, answering one prompt after the other.
/// Where tests run in the background Ctrl-C may be ignored, and that is inherited: here it is not.
fn by_prompts(folder: &Folder, args: &[&str], answers: &[&str]) -> String {
    const DRIVE: &str = "import json, os, pty, signal, sys\n\
        pid, fd = pty.fork()\n\
        if pid == 0:\n    signal.signal(signal.SIGINT, signal.SIG_DFL)\n    os.execv(sys.argv[2], sys.argv[2:])\n\
        out = b''\n\
        def more():\n\
        \x20   global out\n\
        \x20   try:\n        part = os.read(fd, 65536)\n\
        \x20   except OSError:\n        return False\n\
        \x20   out += part\n\
        \x20   return part != b''\n\
        for answer in json.loads(sys.argv[1]):\n\
        \x20   n = len(out)\n\
        \x20   while out[n:].endswith(b'\\n') or not out[n:].endswith((b'? ', b'] ', b') ')):\n\
        \x20       if not more():\n            break\n\
        \x20   if answer == 'KILL':\n        os.kill(pid, signal.SIGKILL)\n\
        \x20   elif answer == 'HANG UP':\n        os.close(fd)\n\
        \x20   else:\n        os.write(fd, answer.encode())\n\
        while more():\n    pass\n\
        os.waitpid(pid, 0)\n\
        sys.stdout.buffer.write(out)";
    let typed = serde_json::to_string(answers).unwrap();
    let mut python = Command::new("python3");
    python.current_dir(folder.path(".")).args(["-c", DRIVE, &typed, env!("CARGO_BIN_EXE_quarterpin")]).args(args);
    let ended = python.output().unwrap();
    assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stderr));
    String::from_utf8(ended.stdout).unwrap()
}
