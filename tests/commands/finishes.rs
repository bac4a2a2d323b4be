//! `finishes`: what it says and draws.

use crate::program::Folder;

/// Every finish, and where it is cut on a 12 mm elastic with 2 mm of picots, mm from the finished edge:
/// from the design's table of finishes (common practice).
const CUTS: &[(&str, f64)] = &[
    ("trim", -6.0),
    ("turned", 10.0),
    ("encased", 12.0),
    ("lapped", -6.0),
    ("binding", 0.0),
    ("tunnel", 17.0),
    ("hem", 7.0),
    ("band", -13.0),
    ("raw", 0.0),
];

#[test]
fn every_finish_is_listed_with_its_keys() {
    let run = Folder::empty().run(&["finishes"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for (name, _) in CUTS {
        assert!(run.out.lines().any(|l| l.trim_start().starts_with(&format!("{name}: "))), "{name}\n{}", run.out);
    }
}

#[test]
fn json_tells_where_the_lines_run() {
    let run = Folder::empty().run(&["finishes", "--json"]);
    let list = run.json();
    let all = list["finishes"].as_array().unwrap().iter();
    let found: Vec<(&str, f64)> =
        all.map(|f| (f["name"].as_str().unwrap(), f["on_a_12_mm_elastic"]["cut"].as_f64().unwrap())).collect();
    assert_eq!(found, CUTS);
}

#[test]
fn the_picture_is_never_written_over_a_file() {
    let folder = Folder::empty();
    assert_eq!(folder.run(&["finishes", "--picture", "edges.svg"]).code, 0);
    let drawn = std::fs::read_to_string(folder.path("edges.svg")).unwrap();
    assert!(CUTS.iter().all(|(name, _)| drawn.contains(&format!("id=\"{name}\""))), "{drawn}");
    let again = folder.run(&["finishes", "--picture", "edges.svg"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("edges.svg") && again.err.contains("never overwritten"), "{}", again.err);
    assert_eq!(std::fs::read_to_string(folder.path("edges.svg")).unwrap(), drawn);
}
