//! `finishes`: what it says and draws.

use crate::program::Folder;

const NINE: [&str; 9] = ["trim", "turned", "encased", "lapped", "binding", "tunnel", "hem", "band", "raw"];

#[test]
fn every_finish_is_listed_with_its_keys() {
    let run = Folder::empty().run(&["finishes"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for name in NINE {
        assert!(run.out.lines().any(|l| l.trim_start().starts_with(&format!("{name}: "))), "{name}\n{}", run.out);
    }
}

/// The distances of a 12 mm elastic with 2 mm of picots, from the design's table of finishes
/// (common practice).
#[test]
fn json_tells_where_the_lines_run() {
    let run = Folder::empty().run(&["finishes", "--json"]);
    let list = run.json();
    let cut = |name: &str| {
        let of = list["finishes"].as_array().unwrap().iter().find(|f| f["name"] == name).unwrap();
        of["on_a_12_mm_elastic"]["cut"].as_f64().unwrap()
    };
    let found: Vec<f64> = NINE.iter().map(|name| cut(name)).collect();
    assert_eq!(found, [-6.0, 10.0, 12.0, -6.0, 0.0, 17.0, 7.0, -13.0, 0.0]);
}

#[test]
fn the_picture_is_never_written_over_a_file() {
    let folder = Folder::empty();
    assert_eq!(folder.run(&["finishes", "--picture", "edges.svg"]).code, 0);
    let drawn = std::fs::read_to_string(folder.path("edges.svg")).unwrap();
    assert!(NINE.iter().all(|name| drawn.contains(&format!("id=\"{name}\""))), "{drawn}");
    let again = folder.run(&["finishes", "--picture", "edges.svg"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("edges.svg") && again.err.contains("never overwritten"), "{}", again.err);
    assert_eq!(std::fs::read_to_string(folder.path("edges.svg")).unwrap(), drawn);
}
