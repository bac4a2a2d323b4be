//! What is drawn and measured does not move without somebody seeing it: a digest of every record's
//! numbers, kept in `fixtures/golden.txt`.
//!
//! Where a change moves them on purpose, `GOLDEN=write cargo test -p quarterpin --test sheets golden`
//! keeps the new ones, and `tests/extra/same_bits.py OLD-PROGRAM NEW-PROGRAM -- SHEET…` shows what moved.

use engine::base::Base;
use export::record::{Part, parts};
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::path::Path;

/// What is drawn and measured, without a word about it.
const MEASURED: [Part; 4] = [Part::Pieces, Part::Seams, Part::Crossings, Part::Openings];

fn sheets() -> Vec<(String, String)> {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    let read = |name: &str| std::fs::read_to_string(fixtures.join(format!("{name}.toml"))).unwrap();
    let own = ["first-pair", "saturday-hipster", "uneven-legs"].map(|name| (name.to_owned(), read(name)));
    let first = read("first-pair");
    let line = first.lines().find(|line| line.starts_with("base = ")).unwrap().to_owned();
    let of_base = |name: &str| (format!("first-pair as {name}"), first.replace(&line, &format!("base = \"{name}\"")));
    own.into_iter().chain(Base::all().map(|base| of_base(base.name()))).collect()
}

fn digests() -> String {
    let mut all = String::new();
    for (name, text) in sheets() {
        let sheet = quarterpin::sheet::read(&text, &name).unwrap_or_else(|e| panic!("{name}: {e}"));
        let digest = match engine::make(&sheet) {
            Ok(made) => {
                let record = parts(&made.garment, &MEASURED).unwrap();
                Sha256::digest(record).iter().take(16).map(|byte| format!("{byte:02x}")).collect()
            }
            Err(refused) => refused.findings.iter().map(|f| f.code).collect::<Vec<_>>().join(" "),
        };
        let _ = writeln!(all, "{name}: {digest}");
    }
    all
}

#[test]
fn golden_numbers_stay() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/golden.txt");
    let now = digests();
    if std::env::var("GOLDEN").is_ok_and(|how| how == "write") {
        std::fs::write(&path, &now).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    for (now, kept) in now.lines().zip(kept.lines()) {
        assert_eq!(now, kept, "numbers have moved: see the head of tests/sheets/golden.rs");
    }
    assert_eq!(now.lines().count(), kept.lines().count());
}
