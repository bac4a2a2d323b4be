//! What is tried, and with what.

use super::inputs::{self, FIRST, Fates};
use super::mutate::mutated;
use super::{files, numbers, page};
use engine::quantity::Units;
use fastrand::Rng;
use std::sync::LazyLock;

/// One way into the program.
pub struct Target {
    /// For the command line.
    pub name: &'static str,
    /// So many inputs are tried in every run of the tests.
    pub replayed: u64,
    /// Tries one.
    pub run: fn(&mut Rng, &mut Fates),
}

pub const TARGETS: &[Target] = &[
    Target { name: "sheet", replayed: 400, run: sheet },
    Target { name: "people", replayed: 200, run: people },
    Target { name: "spreadsheet", replayed: 100, run: spreadsheet },
    Target { name: "dxf", replayed: 60, run: dxf },
    Target { name: "svg", replayed: 60, run: svg },
    Target { name: "numbers", replayed: 60, run: numbers::run },
    Target { name: "files", replayed: 30, run: files::run },
    Target { name: "page", replayed: 40, run: page::run },
];

static SHEETS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    let long = quarterpin::template::commented_sheet(Units::In);
    [
        FIRST,
        include_str!("../../fixtures/saturday-hipster.toml"),
        include_str!("../../fixtures/uneven-legs.toml"),
        &long,
    ]
    .map(|text| text.as_bytes().to_vec())
    .to_vec()
});

static TABLES: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    vec![
        include_bytes!("../../fixtures/class/people.csv").to_vec(),
        include_bytes!("../../fixtures/class/people.tsv").to_vec(),
        b"name;hips;waist (in);style.base;finish.legs.kind\nAnn;1 m;29 1/2;tanga;hem\n".to_vec(),
        include_bytes!("../../fixtures/sizes/en-13402-3-women.csv").to_vec(),
    ]
});

static BOOKS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| {
    vec![
        include_bytes!("../../fixtures/class/people.xlsx").to_vec(),
        include_bytes!("../../fixtures/class/people.ods").to_vec(),
    ]
});

/// Files of ours, by the end of their names.
fn drawn(ending: &str) -> Vec<Vec<u8>> {
    let files = SHEETS.iter().filter_map(|text| quarterpin::commands::files(std::str::from_utf8(text).ok()?)).flatten();
    let foreign: &[&[u8]] = match ending {
        ".svg" => &[b"<svg viewBox='0 0 9 9' width='9in'><g transform='rotate(3)' id='front-cut'><path d='m1 2h3v4a1 2 3 0 1 5 6z'/><polygon points='1,2 3,4 5 6'/></g></svg>"],
        _ => &[b"0\nSECTION\n2\nENTITIES\n0\nSPLINE\n8\nCUT\n71\n2\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n10\n0\n20\n0\n10\n5\n20\n9\n10\n9\n20\n0\n0\nENDSEC\n0\nEOF\n"],
    };
    files
        .filter(|file| file.name.ends_with(ending))
        .map(|file| file.bytes)
        .chain(foreign.iter().map(|f| f.to_vec()))
        .collect()
}

static DXFS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| drawn(".dxf"));
static SVGS: LazyLock<Vec<Vec<u8>>> = LazyLock::new(|| drawn(".svg"));

fn sheet(rng: &mut Rng, fates: &mut Fates) {
    let text = mutated(rng, &SHEETS);
    let is_made = rng.u8(..8) == 0;
    inputs::sheet(&text, is_made, fates);
}

fn people(rng: &mut Rng, fates: &mut Fates) {
    let bytes = mutated(rng, &TABLES);
    inputs::table(&bytes, rng.bool(), fates);
}

fn spreadsheet(rng: &mut Rng, fates: &mut Fates) {
    let bytes = mutated(rng, &BOOKS);
    inputs::table(&bytes, rng.bool(), fates);
}

fn dxf(rng: &mut Rng, fates: &mut Fates) {
    inputs::dxf(&mutated(rng, &DXFS), fates);
}

fn svg(rng: &mut Rng, fates: &mut Fates) {
    inputs::svg(&mutated(rng, &SVGS), fates);
}
