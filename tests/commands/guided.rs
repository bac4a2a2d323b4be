//! `new` on a terminal: questions, and a short sheet of the answers.

use crate::program::Folder;
use crate::trial::on_a_terminal;
use std::fs;

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
fn ended_early_it_writes_nothing_and_with_all_it_asks_nothing() {
    let folder = Folder::empty();
    let said = on_a_terminal(&folder, &["new", "ada.toml"], "Ada\n\u{4}");
    assert!(said.contains("nothing was written") && !folder.path("ada.toml").exists(), "{said}");
    on_a_terminal(&folder, &["new", "long.toml", "--all"], "");
    assert!(fs::read_to_string(folder.path("long.toml")).unwrap().lines().count() > 200);
}
