//! What is tried, and with what.

use super::mutate::mutated;
use super::numbers;
use engine::quantity::Units;
use export::read::Format;
use fastrand::Rng;
use quarterpin::people::People;
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

/// What became of the inputs.
#[derive(Debug, Default)]
pub struct Fates {
    pub taken: u64,
    pub refused: u64,
}

impl Fates {
    pub fn count(&mut self, is_taken: bool) {
        *(if is_taken { &mut self.taken } else { &mut self.refused }) += 1;
    }
}

pub const TARGETS: &[Target] = &[
    Target { name: "sheet", replayed: 400, run: sheet },
    Target { name: "people", replayed: 200, run: people },
    Target { name: "spreadsheet", replayed: 100, run: spreadsheet },
    Target { name: "dxf", replayed: 60, run: dxf },
    Target { name: "svg", replayed: 60, run: svg },
    Target { name: "numbers", replayed: 60, run: numbers::run },
];

const FIRST: &str = include_str!("../../fixtures/first-pair.toml");

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

/// Text of a sheet: read, and made where it can be.
fn sheet(rng: &mut Rng, fates: &mut Fates) {
    let text = String::from_utf8_lossy(&mutated(rng, &SHEETS)).into_owned();
    match quarterpin::sheet::read(&text, "fuzz.toml") {
        Ok(sheet) => {
            fates.count(true);
            if rng.u8(..8) == 0 {
                let _ = engine::make(&sheet);
            }
        }
        Err(problems) => {
            fates.count(false);
            assert!(!problems.list().is_empty());
            assert!(problems.list().iter().all(|p| text.get(p.span.clone()).is_some() && !p.help.is_empty()));
            assert!(problems.render(&text, "fuzz.toml", rng.bool()).contains("fuzz.toml"));
        }
    }
    quarterpin::sheet::locate(&text, "body.hip_girth");
}

fn table(bytes: &[u8], fates: &mut Fates) {
    let file = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(file.path(), bytes).unwrap();
    let read = People::read(file.path(), Units::Cm);
    fates.count(read.is_ok());
    match read {
        Ok(people) => assert!(!people.persons.is_empty()),
        Err(e) => assert!(!e.to_string().is_empty() && !e.next().is_empty()),
    }
}

fn people(rng: &mut Rng, fates: &mut Fates) {
    table(&mutated(rng, &TABLES), fates);
}

fn spreadsheet(rng: &mut Rng, fates: &mut Fates) {
    table(&mutated(rng, &BOOKS), fates);
}

fn read_back(bytes: &[u8], format: Format, fates: &mut Fates) {
    let found = export::read::read(bytes, format);
    fates.count(found.is_ok());
    if let Ok(found) = found {
        assert!(found.lines.iter().all(|l| l.length.is_finite() && l.edges.iter().all(|e| e.length.is_finite())));
        let walked = export::read::walk(&found);
        export::validate::doubts(&found, &walked);
    }
}

fn dxf(rng: &mut Rng, fates: &mut Fates) {
    let bytes = mutated(rng, &DXFS);
    read_back(&bytes, Format::Dxf, fates);
    let _ = export::validate::exchange(&bytes);
}

fn svg(rng: &mut Rng, fates: &mut Fates) {
    read_back(&mutated(rng, &SVGS), Format::Svg, fates);
}
