//! One input of each kind, given to the program: whatever comes, it says yes or no.

use engine::quantity::Units;
use export::read::Format;
use quarterpin::people::People;
use quarterpin::sheet::Base;
use std::path::Path;
use std::sync::LazyLock;

pub const FIRST: &str = include_str!("../../fixtures/first-pair.toml");

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

/// A base that everybody of a table is laid over.
static BASE: LazyLock<Base> = LazyLock::new(|| Base::of(FIRST, "base.toml", None).unwrap());

/// Tries one input.
pub type Try = fn(&[u8], &mut Fates);

/// The ways into the program that a guided search takes, by name; what it found worth keeping lies in a folder of
/// that name in `kept`.
pub const GUIDED: [(&str, Try); 5] = [
    // Making takes a hundred times as long as reading.
    ("sheet", |bytes, fates| sheet(bytes, bytes.len() % 8 == 0, fates)),
    ("people", |bytes, fates| table(bytes, false, fates)),
    ("sizes", |bytes, fates| table(bytes, true, fates)),
    ("dxf", dxf),
    ("svg", svg),
];

/// Text of a sheet: read, and made where that is wanted and can be.
pub fn sheet(bytes: &[u8], is_made: bool, fates: &mut Fates) {
    let text = String::from_utf8_lossy(bytes);
    match quarterpin::sheet::read(&text, "fuzz.toml") {
        Ok(sheet) => {
            fates.count(true);
            if is_made {
                let _ = engine::make(&sheet);
            }
        }
        Err(problems) => {
            fates.count(false);
            assert!(!problems.list().is_empty());
            assert!(problems.list().iter().all(|p| text.get(p.span.clone()).is_some() && !p.help.is_empty()));
            assert!(problems.render(&text, "fuzz.toml", is_made).contains("fuzz.toml"));
        }
    }
    quarterpin::sheet::locate(&text, "body.hip_girth");
}

/// A table of people, or of sizes: everybody is laid over a base, the first made.
pub fn table(bytes: &[u8], is_of_sizes: bool, fates: &mut Fates) {
    let read = People::of_bytes(Path::new("people.csv"), bytes.to_vec(), Units::Cm);
    fates.count(read.is_ok());
    let People { columns, persons, .. } = match read {
        Ok(people) => people,
        Err(e) => return assert!(!e.to_string().is_empty() && !e.next().is_empty()),
    };
    assert!(!persons.is_empty());
    let mut is_first = true;
    for person in &persons {
        let laid = if is_of_sizes { person.size(&BASE, &columns) } else { person.sheet(&BASE, &columns) };
        match laid {
            Ok(sheet) => {
                if std::mem::take(&mut is_first) {
                    let _ = engine::make(&sheet);
                }
            }
            Err(reasons) => assert!(!reasons.is_empty() && reasons.iter().all(|reason| !reason.text.is_empty())),
        }
    }
}

/// A DXF file: read back, and looked at as one for exchange.
pub fn dxf(bytes: &[u8], fates: &mut Fates) {
    read_back(bytes, Format::Dxf, fates);
    let _ = export::validate::exchange(bytes);
}

/// An SVG file, read back.
pub fn svg(bytes: &[u8], fates: &mut Fates) {
    read_back(bytes, Format::Svg, fates);
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
