//! The pictures in the README are what the program draws.

use crate::program::Folder;
use std::fs;
use std::path::Path;

fn fixture(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures").join(name);
    fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

#[test]
fn the_pictures_of_the_readme_are_drawn_by_the_program() {
    const DRAWN: [(&str, &str, &str); 4] = [
        ("first-pair", "Mirela-first-pair.svg", "first-pair.svg"),
        ("first-pair", "Mirela-first-pair-on-body.svg", "on-body.svg"),
        ("saturday-hipster", "Tamsin-Saturday-hipster.svg", "saturday-hipster.svg"),
        ("uneven-legs", "Ragna-uneven-legs.svg", "uneven-legs.svg"),
    ];
    let folder = Folder::empty();
    for (sheet, written, picture) in DRAWN {
        folder.write("sheet.toml", fixture(&format!("{sheet}.toml")));
        let drafted = folder.run(&["draft", "sheet.toml", "-o", sheet, "--force"]);
        assert_eq!(drafted.code, 0, "{}", drafted.err);
        is_drawn(&folder.path(sheet).join(written), picture);
    }
    let listed = folder.run(&["finishes", "--picture", "finishes.svg"]);
    assert_eq!(listed.code, 0, "{}", listed.err);
    is_drawn(&folder.path("finishes.svg"), "finishes.svg");
}

fn is_drawn(file: &Path, picture: &str) {
    let is_same = fs::read_to_string(file).unwrap() == fixture(&format!("pictures/{picture}"));
    assert!(is_same, "fixtures/pictures/{picture} is not what the program draws: draw it again");
}
