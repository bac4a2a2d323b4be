use super::*;

use export::mark::BLANK;

fn ready(name: &str, text: &str) -> Ready {
    Ready { name: name.to_owned(), mark: Mark::MarkdownComment, bytes: ours(text) }
}

fn ours(text: &str) -> Vec<u8> {
    format!("<!-- {BLANK} -->\n{text}\n").into_bytes()
}

/// What stands in a file under its mark.
fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap().lines().nth(1).unwrap_or_default().to_owned()
}

fn names(dir: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(dir).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn a_stem_keeps_letters_of_any_script() {
    assert_eq!(stem("first pair"), "first-pair");
    assert_eq!(stem("Größe 40 / Ева"), "Größe-40-Ева");
    assert_eq!(stem("  a  b  "), "a-b");
    assert_eq!(stem("v1.2_b-c"), "v1.2_b-c");
}

#[test]
fn a_stem_is_composed() {
    assert_eq!(stem("Cafe\u{301}"), "Caf\u{e9}");
}

#[test]
fn a_stem_never_leaves_its_folder() {
    for name in ["../../x", "/x", "..\\x", ".x", "-x", "x.", "x-"] {
        assert_eq!(stem(name), "x", "{name}");
    }
}

#[test]
fn nothing_left_or_a_device_becomes_pattern() {
    for name in ["", " ", "..", "---", "///", "con", "NUL", "Com1", "lpt9.txt", "aux.", "COM\u{b9}", "\u{7}"] {
        assert_eq!(stem(name), "pattern", "{name:?}");
    }
    assert_eq!(stem("console"), "console");
    assert_eq!(stem("com10"), "com10");
}

#[test]
fn a_stem_has_at_most_eighty_bytes_and_whole_characters() {
    assert_eq!(stem(&"a".repeat(200)).len(), 80);
    assert_eq!(stem(&format!("a{}", "é".repeat(200))).len(), 79);
    // The cut falls behind a dash, which is trimmed as well.
    assert_eq!(stem(&format!("{} b", "a".repeat(79))), "a".repeat(79));
}

#[test]
fn files_are_written_and_replaced_where_they_are_our_own() {
    let dir = tempfile::tempdir().unwrap();
    let into = dir.path().join("a/b");
    write_all(&into, &[ready("x.md", "1"), ready("y.md", "1")], Replace::OwnOnly).unwrap();
    write_all(&into, &[ready("x.md", "2")], Replace::OwnOnly).unwrap();
    assert_eq!(text(&into.join("x.md")), "2");
    assert_eq!(names(&into), ["x.md", "y.md"]);
}

#[test]
fn a_foreign_file_stops_all_of_them() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("y.md"), "# mine").unwrap();
    let files = [ready("x.md", "1"), ready("y.md", "1")];
    let refused = write_all(dir.path(), &files, Replace::OwnOnly).unwrap_err();
    assert!(matches!(&refused, WriteError::Foreign(path) if path.ends_with("y.md")), "{refused}");
    assert_eq!(names(dir.path()), ["y.md"]);
    assert_eq!(fs::read(dir.path().join("y.md")).unwrap(), b"# mine");
    write_all(dir.path(), &files, Replace::Any).unwrap();
    assert_eq!(text(&dir.path().join("y.md")), "1");
}

#[test]
fn a_file_that_somebody_changed_is_hers() {
    let dir = tempfile::tempdir().unwrap();
    let files = [ready("x.md", "1")];
    write_all(dir.path(), &files, Replace::OwnOnly).unwrap();
    let path = dir.path().join("x.md");
    let changed = fs::read_to_string(&path).unwrap() + "with a note\n";
    fs::write(&path, &changed).unwrap();
    for replace in [Replace::OwnOnly, Replace::OwnOfAnySheet] {
        let refused = write_all(dir.path(), &files, replace).unwrap_err();
        assert!(matches!(&refused, WriteError::Edited(_)) && refused.next().contains("--force"), "{refused}");
        assert_eq!(fs::read_to_string(&path).unwrap(), changed);
    }
    write_all(dir.path(), &files, Replace::Any).unwrap();
    assert_eq!(text(&path), "1");
}

#[test]
fn a_file_of_another_sheet_is_not_replaced() {
    let dir = tempfile::tempdir().unwrap();
    let files = |text: &str| [ready("Ann-1.md", text)];
    write_of("Ann 1", dir.path(), &files("1"), Replace::OwnOnly).unwrap();
    write_of("Ann 1", dir.path(), &files("2"), Replace::OwnOnly).unwrap();
    let refused = write_of("Ann #1", dir.path(), &files("3"), Replace::OwnOnly).unwrap_err();
    assert!(matches!(&refused, WriteError::OtherSheet(_)), "{refused}");
    assert_eq!(text(&dir.path().join("Ann-1.md")), "2");
    write_of("Ann #1", dir.path(), &files("3"), Replace::OwnOfAnySheet).unwrap();
    assert_eq!(text(&dir.path().join("Ann-1.md")), "3");
}

#[test]
fn a_folder_in_the_way_is_never_replaced() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir(dir.path().join("y.md")).unwrap();
    let files = [ready("x.md", "1"), ready("y.md", "1")];
    for replace in [Replace::OwnOnly, Replace::Any] {
        assert!(matches!(write_all(dir.path(), &files, replace), Err(WriteError::NotAFile(_))));
        assert_eq!(names(dir.path()), ["y.md"]);
    }
}

#[test]
fn a_failure_half_way_puts_everything_back() {
    let dir = tempfile::tempdir().unwrap();
    write_all(dir.path(), &[ready("x.md", "old")], Replace::OwnOnly).unwrap();
    // The last place cannot be taken: its folder does not exist.
    let files = [ready("x.md", "new"), ready("y.md", "new"), ready("no/z.md", "new")];
    assert!(matches!(write_all(dir.path(), &files, Replace::OwnOnly), Err(WriteError::Io { .. })));
    assert_eq!(names(dir.path()), ["x.md"]);
    assert_eq!(text(&dir.path().join("x.md")), "old");
}

#[test]
fn every_new_folder_goes_again_on_failure() {
    let dir = tempfile::tempdir().unwrap();
    let into = dir.path().join("new/inner");
    assert!(write_all(&into, &[ready("no/z.md", "1")], Replace::OwnOnly).is_err());
    assert_eq!(names(dir.path()), Vec::<String>::new());
}

#[test]
fn a_folder_can_be_named_with_dots() {
    let dir = tempfile::tempdir().unwrap();
    for (named, made) in [("new/./", "new"), ("./a/./b/.", "a/b"), ("c/", "c")] {
        write_all(&dir.path().join(named), &[ready("x.md", "1")], Replace::OwnOnly).unwrap();
        assert!(dir.path().join(made).join("x.md").is_file(), "{named}");
    }
}

/// As a run leaves it that was stopped after its list was complete: one file has moved, one not yet.
#[test]
fn what_a_stopped_run_had_ready_is_put_in_place_by_the_next() {
    let dir = tempfile::tempdir().unwrap();
    let at = |name: &str| dir.path().join(name);
    write_all(dir.path(), &[ready("x.md", "new"), ready("y.md", "old")], Replace::OwnOnly).unwrap();
    fs::write(at("mine.md"), "# mine").unwrap();
    fs::write(at(".quarterpin-set-1"), ours("new")).unwrap();
    fs::write(at(".quarterpin-set-2"), ours("new")).unwrap();
    fs::write(at(".quarterpin-set-old-0"), ours("old")).unwrap();
    let list = r#"[{"beside":".quarterpin-set-0","name":"x.md"},{"beside":".quarterpin-set-1","name":"y.md"},
        {"beside":".quarterpin-set-2","name":"mine.md"}]"#;
    fs::write(at(".quarterpin-set"), list).unwrap();
    write_all(dir.path(), &[ready("z.md", "another")], Replace::OwnOnly).unwrap();
    assert_eq!(names(dir.path()), ["mine.md", "x.md", "y.md", "z.md"]);
    assert_eq!((text(&at("x.md")), text(&at("y.md"))), ("new".to_owned(), "new".to_owned()));
    assert_eq!(fs::read(at("mine.md")).unwrap(), b"# mine");
}

/// Where the folder was named from the working folder, and moved after the run was stopped.
#[test]
fn a_list_names_files_by_their_names_alone() {
    let dir = tempfile::tempdir_in(".").unwrap();
    let folder = Path::new(dir.path().file_name().unwrap());
    let mut set = set::Set::open(folder).unwrap();
    let file = set.put([b"new", b""]).unwrap();
    set.write_list(&[(file, folder.join("x.md"))]).unwrap();
    let list = fs::read_to_string(folder.join(".quarterpin-set")).unwrap();
    assert!(list.starts_with(r#"[{"beside":".quarterpin-set-"#) && list.ends_with(r#","name":"x.md"}]"#), "{list}");
}

#[test]
fn what_a_stopped_run_had_not_ready_is_cleared_away() {
    let dir = tempfile::tempdir().unwrap();
    let at = |name: &str| dir.path().join(name);
    write_all(dir.path(), &[ready("x.md", "old")], Replace::OwnOnly).unwrap();
    fs::write(at(".quarterpin-set-1"), "half").unwrap();
    fs::write(at(".quarterpin-set"), r#"[{"beside":".quarterpin-set-1","na"#).unwrap();
    write_all(dir.path(), &[ready("z.md", "1")], Replace::OwnOnly).unwrap();
    assert_eq!(names(dir.path()), ["x.md", "z.md"]);
    assert_eq!(text(&at("x.md")), "old");
}

#[test]
fn of_two_that_write_at_once_one_waits_and_then_says_so() {
    let dir = tempfile::tempdir().unwrap();
    let set = set::Set::open(dir.path()).unwrap();
    let refused = write_all(dir.path(), &[ready("x.md", "1")], Replace::Any).unwrap_err();
    assert!(matches!(refused, WriteError::Busy(_)), "{refused}");
    drop(set);
    write_all(dir.path(), &[ready("x.md", "1")], Replace::OwnOnly).unwrap();
    assert_eq!(names(dir.path()), ["x.md"]);
}

/// Sets of many runs at once: each file of the folder is of the same run.
#[test]
fn sets_never_mix() {
    let dir = tempfile::tempdir().unwrap();
    let file = |name: usize, run: usize| ready(&format!("{name}.md"), &run.to_string());
    std::thread::scope(|scope| {
        for run in 0..8 {
            let into = dir.path();
            scope.spawn(move || {
                let files: Vec<Ready> = (0..5).map(|name| file(name, run)).collect();
                write_all(into, &files, Replace::OwnOnly).unwrap();
            });
        }
    });
    let texts: Vec<String> = (0..5).map(|name| text(&dir.path().join(format!("{name}.md")))).collect();
    assert!(texts.iter().all(|t| *t == texts[0]), "{texts:?}");
    assert_eq!(names(dir.path()).len(), 5);
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};
    use std::process::Command;

    fn mode(path: &Path) -> u32 {
        fs::metadata(path).unwrap().permissions().mode() & 0o7777
    }

    #[test]
    fn files_can_be_shared_as_the_mask_allows_and_keep_what_was_allowed() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("x.md");
        write_all(dir.path(), &[ready("x.md", "1")], Replace::OwnOnly).unwrap();
        fs::write(dir.path().join("usual"), "").unwrap();
        assert_eq!(mode(&path), mode(&dir.path().join("usual")));
        for allowed in [0o640, 0o600, 0o444] {
            fs::set_permissions(&path, fs::Permissions::from_mode(allowed)).unwrap();
            write_all(dir.path(), &[ready("x.md", "2")], Replace::OwnOnly).unwrap();
            assert_eq!(mode(&path), allowed);
        }
    }

    #[test]
    fn pipes_and_devices_are_neither_waited_for_nor_read() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("x.md");
        assert!(Command::new("mkfifo").arg(&path).status().unwrap().success());
        for replace in [Replace::OwnOnly, Replace::Any] {
            assert!(matches!(write_all(dir.path(), &[ready("x.md", "1")], replace), Err(WriteError::NotAFile(_))));
        }
        assert!(matches!(write_all(&path, &[ready("x.md", "1")], Replace::Any), Err(WriteError::NotAFolder(_))));
    }

    /// Six gigabytes of nothing, of which a few bytes are read.
    #[test]
    fn a_huge_foreign_file_is_not_read() {
        let dir = tempfile::tempdir().unwrap();
        fs::File::create(dir.path().join("x.md")).unwrap().set_len(6 << 30).unwrap();
        let refused = write_all(dir.path(), &[ready("x.md", "1")], Replace::OwnOnly).unwrap_err();
        assert!(matches!(refused, WriteError::Foreign(_)), "{refused}");
    }

    #[test]
    fn links_are_somebodys_own() {
        let dir = tempfile::tempdir().unwrap();
        let [link, place, other] = ["link", "x.md", "other.md"].map(|name| dir.path().join(name));
        symlink("nowhere", &link).unwrap();
        for into in [link.clone(), link.join("inner")] {
            let refused = write_all(&into, &[ready("x.md", "1")], Replace::Any).unwrap_err();
            assert!(matches!(refused, WriteError::LinkToNothing(_)), "{refused}");
        }
        fs::write(&other, ours("other")).unwrap();
        symlink(&other, &place).unwrap();
        let refused = write_all(dir.path(), &[ready("x.md", "1")], Replace::OwnOnly).unwrap_err();
        assert!(matches!(refused, WriteError::Foreign(_)), "{refused}");
        write_all(dir.path(), &[ready("x.md", "1")], Replace::Any).unwrap();
        assert_eq!((text(&place), text(&other)), ("1".to_owned(), "other".to_owned()), "the link is replaced alone");
    }
}

#[test]
fn what_a_stopped_run_left_is_taken_away_but_not_what_another_holds() {
    let folder = tempfile::tempdir().unwrap();
    let held = put_beside(folder.path(), ".some-", b"held").unwrap();
    // A lock goes with the program that had it, and this file's has none.
    fs::write(folder.path().join(".some-left"), "half").unwrap();
    fs::write(folder.path().join(".other-left"), "of somebody else").unwrap();
    put_beside(folder.path(), ".some-", b"whole").unwrap().persist(folder.path().join("whole")).unwrap();
    let held_name = held.path().file_name().unwrap().to_str().unwrap();
    assert_eq!(names(folder.path()), [".other-left", held_name, "whole"]);
    assert_eq!(fs::read(held.path()).unwrap(), b"held");
    held.persist(folder.path().join("held")).unwrap();
    assert_eq!(fs::read(folder.path().join("held")).unwrap(), b"held");
}
