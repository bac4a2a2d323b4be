use super::*;

fn ready(name: &str, bytes: &[u8]) -> Ready {
    Ready { name: name.to_owned(), mark: Mark::JsonProgram, bytes: bytes.to_vec() }
}

const OURS: &[u8] = br#"{"program": "quarterpin"}"#;

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
    write_all(&into, &[ready("x.json", OURS), ready("y.json", OURS)], Replace::OwnOnly).unwrap();
    let again = br#"{"program": "quarterpin", "version": 2}"#;
    write_all(&into, &[ready("x.json", again)], Replace::OwnOnly).unwrap();
    assert_eq!(fs::read(into.join("x.json")).unwrap(), again);
    assert_eq!(names(&into), ["x.json", "y.json"]);
}

#[test]
fn a_foreign_file_stops_all_of_them() {
    let dir = tempfile::tempdir().unwrap();
    fs::write(dir.path().join("y.json"), "{}").unwrap();
    let files = [ready("x.json", OURS), ready("y.json", OURS)];
    let refused = write_all(dir.path(), &files, Replace::OwnOnly).unwrap_err();
    assert!(matches!(&refused, WriteError::Foreign(path) if path.ends_with("y.json")), "{refused}");
    assert_eq!(names(dir.path()), ["y.json"]);
    assert_eq!(fs::read(dir.path().join("y.json")).unwrap(), b"{}");
    write_all(dir.path(), &files, Replace::Any).unwrap();
    assert_eq!(fs::read(dir.path().join("y.json")).unwrap(), OURS);
}

#[test]
fn a_folder_in_the_way_is_never_replaced() {
    let dir = tempfile::tempdir().unwrap();
    fs::create_dir(dir.path().join("y.json")).unwrap();
    let files = [ready("x.json", OURS), ready("y.json", OURS)];
    for replace in [Replace::OwnOnly, Replace::Any] {
        assert!(matches!(write_all(dir.path(), &files, replace), Err(WriteError::NotAFile(_))));
        assert_eq!(names(dir.path()), ["y.json"]);
    }
}

#[test]
fn a_failure_half_way_puts_everything_back() {
    let dir = tempfile::tempdir().unwrap();
    let old = br#"{"program": "quarterpin", "old": true}"#;
    fs::write(dir.path().join("x.json"), old).unwrap();
    // The last place cannot be taken: its folder does not exist.
    let files = [ready("x.json", OURS), ready("y.json", OURS), ready("no/z.json", OURS)];
    assert!(matches!(write_all(dir.path(), &files, Replace::OwnOnly), Err(WriteError::Io { .. })));
    assert_eq!(names(dir.path()), ["x.json"]);
    assert_eq!(fs::read(dir.path().join("x.json")).unwrap(), old);
}

#[test]
fn a_new_folder_goes_again_on_failure() {
    let dir = tempfile::tempdir().unwrap();
    let into = dir.path().join("new");
    assert!(write_all(&into, &[ready("no/z.json", OURS)], Replace::OwnOnly).is_err());
    assert!(!into.exists());
}

#[cfg(unix)]
#[test]
fn files_can_be_shared_as_the_mask_allows() {
    use std::os::unix::fs::PermissionsExt;
    let dir = tempfile::tempdir().unwrap();
    write_all(dir.path(), &[ready("x.json", OURS)], Replace::OwnOnly).unwrap();
    fs::write(dir.path().join("usual"), "").unwrap();
    let mode = |name: &str| fs::metadata(dir.path().join(name)).unwrap().permissions().mode();
    assert_eq!(mode("x.json"), mode("usual"));
}
