//! Is a DXF laid out after ASTM D6673? Findings with a code each, for a file from anywhere.
//!
//! Layer numbers and text keys are those of the standard as publicly described (2010 edition; it
//! was withdrawn in 2019 and is still exchanged). This is a check of ours, and certifies nothing.

mod doubt;
pub mod fact;
mod outline;
mod text;
mod walked;
mod words;

use crate::read::dxf;
use crate::read::limits::at_most;
use crate::read::records::{File, Record};
use crate::read::{LARGEST, ReadError};
pub use doubt::{Doubt, Place};
use fact::{Fact, Strange};
use std::collections::BTreeMap;
pub use walked::doubts;

/// Layers of the standard: 1 to 8, 10 to 15, 80 to 87 (publicly described ones; 9 and 12 from memory).
const KNOWN: [&str; 24] = [
    "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "15", "80", "81", "82", "83", "84",
    "85", "86", "87", "0",
];

/// Entities that the layout uses.
const ENTITIES: [&str; 8] = ["POLYLINE", "VERTEX", "SEQEND", "LINE", "POINT", "TEXT", "INSERT", "ATTRIB"];

/// Kinds and layers that the layout does not know, in one block: more are some other file's.
const MOST_STRANGE: usize = 1_000;

/// Checks a file.
///
/// # Errors
/// [`ReadError`] where it cannot be read at all.
pub fn exchange(bytes: &[u8]) -> Result<Vec<Doubt>, ReadError> {
    let size = bytes.len() as u64;
    if size > LARGEST {
        return Err(ReadError::TooLarge(size));
    }
    dxf::look(bytes, look)
}

fn look(file: &File<'_>) -> Result<Vec<Doubt>, ReadError> {
    let mut found = whole_file(file);
    found.extend(text::style(file));
    for block in file.piece_blocks() {
        let place = Place::named(block.name);
        found.extend(entities(&place, &block.records)?);
        found.extend(text::piece(block, file));
        found.extend(outline::piece(block)?.into_iter().map(|fact| Doubt::new(place.clone(), fact)));
    }
    found.extend(entities(&Place::Drawing, &file.entities)?);
    Ok(found)
}

fn whole_file(file: &File<'_>) -> Vec<Doubt> {
    let version = file.variable("$ACADVER");
    let other_version = (!matches!(version, Some("AC1009" | "AC1012")))
        .then(|| Doubt::new(Place::Header, Fact::Version(version.map(str::to_owned))));
    let letters = file.beyond_ascii.map(|line| Doubt::new(Place::Line(line), Fact::BeyondAscii));
    let is_empty = file.piece_blocks().next().is_none();
    let empty = is_empty.then(|| Doubt::new(Place::Blocks, Fact::NoPieces));
    other_version.into_iter().chain(letters).chain(empty).chain(inserts(file)).collect()
}

/// Every block is inserted once, at its own size.
fn inserts(file: &File<'_>) -> Vec<Doubt> {
    let mut found = Vec::new();
    let mut counts: BTreeMap<&str, usize> = file.piece_blocks().map(|b| (b.name, 0)).collect();
    for insert in file.entities.iter().filter(|r| r.kind() == "INSERT") {
        let name = insert.text(2).unwrap_or("");
        match counts.get_mut(name) {
            Some(count) => *count += 1,
            None => found.push(Doubt::new(Place::named(name), Fact::InsertUnknown)),
        }
        if [41, 42].iter().any(|code| insert.number(*code).is_some_and(|v| (v - 1.0).abs() > 1e-9)) {
            found.push(Doubt::new(Place::named(name), Fact::InsertScaled));
        }
    }
    let others = counts.into_iter().filter(|(_, count)| *count != 1);
    found.extend(others.map(|(name, count)| Doubt::new(Place::named(name), Fact::Inserts(count))));
    found
}

/// Entities and layers that the layout does not know.
fn entities(place: &Place, records: &[Record<'_>]) -> Result<Vec<Doubt>, ReadError> {
    let mut strange: BTreeMap<Strange, usize> = BTreeMap::new();
    for r in records {
        if !ENTITIES.contains(&r.kind()) {
            *strange.entry(Strange::Kind(r.kind().to_owned())).or_default() += 1;
        } else if !KNOWN.contains(&r.layer()) {
            *strange.entry(Strange::Layer(r.layer().to_owned())).or_default() += 1;
        }
        at_most(strange.len(), "kinds of entities and layers", MOST_STRANGE)?;
    }
    Ok(strange.into_iter().map(|(what, count)| Doubt::new(place.clone(), Fact::Strange(what, count))).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutter::Notches;
    use crate::sample;

    fn codes(bytes: &[u8]) -> Vec<&'static str> {
        let mut codes: Vec<_> = exchange(bytes).unwrap().iter().map(|f| f.code).collect();
        codes.dedup();
        codes
    }

    fn ours() -> String {
        String::from_utf8(crate::dxf::pieces(&sample::drawing(), Notches::Slits).unwrap()).unwrap()
    }

    #[test]
    fn a_file_of_ours_has_nothing_against_it() {
        let found = exchange(ours().as_bytes()).unwrap();
        assert!(found.is_empty(), "{found:#?}");
        assert!(exchange(&crate::dxf::pieces(&sample::awkward(), Notches::Slits).unwrap()).unwrap().is_empty());
        assert!(exchange(&crate::dxf::pieces(&sample::drawing(), Notches::Vees).unwrap()).unwrap().is_empty());
    }

    /// As ezdxf 1.4 and others write the spaces in R12 and later: they are no pieces.
    #[test]
    fn blocks_of_spaces_are_no_pieces() {
        for name in ["$Model_Space", "$PAPER_SPACE", "*Paper_Space0", "*U12"] {
            let block = format!("BLOCKS\r\n  0\r\nBLOCK\r\n  8\r\n0\r\n  2\r\n{name}\r\n  0\r\nENDBLK\r\n  8\r\n0\r\n");
            let text = ours().replacen("BLOCKS\r\n", &block, 1);
            assert!(text.contains(name));
            assert!(exchange(text.as_bytes()).unwrap().is_empty(), "{name}");
        }
        let piece =
            ours().replacen("BLOCKS\r\n", "BLOCKS\r\n  0\r\nBLOCK\r\n  8\r\n0\r\n  2\r\n$OWN\r\n  0\r\nENDBLK\r\n", 1);
        assert!(codes(piece.as_bytes()).contains(&"dxf-boundary"));
    }

    #[test]
    fn every_harm_is_found_by_its_own_code() {
        let text = ours();
        let harms: [(&str, &str, &str); 19] = [
            ("AC1009", "AC1015", "dxf-version"),
            ("Material: cotton", "Material: c\u{f6}tton", "dxf-not-7-bit"),
            ("INSERT\r\n  8\r\n1\r\n  2\r\nGUSSET", "INSERT\r\n  8\r\n1\r\n  2\r\nFRONT", "dxf-inserts"),
            ("INSERT\r\n  8\r\n1\r\n  2\r\nGUSSET", "INSERT\r\n  8\r\n1\r\n  2\r\nSLEEVE", "dxf-insert-unknown"),
            ("INSERT\r\n  8\r\n1\r\n", "INSERT\r\n  8\r\n1\r\n 41\r\n2.0\r\n", "dxf-insert-scaled"),
            ("LINE\r\n  8\r\n7\r\n", "ELLIPSE\r\n  8\r\n7\r\n", "dxf-strange"),
            ("LINE\r\n  8\r\n7\r\n", "LINE\r\n  8\r\n8\r\n", "dxf-grain"),
            ("Style Name: ", "Style: ", "dxf-style-text"),
            ("Units: METRIC", "Units: FURLONG", "dxf-units"),
            ("Quantity: 2", "Quantity: two", "dxf-quantity"),
            ("Size: MADE TO MEASURE\r\n  0\r\nTEXT\r\n  8\r\n1", "Size: 38\r\n  0\r\nTEXT\r\n  8\r\n1", "dxf-size"),
            (
                "POLYLINE\r\n  8\r\n1\r\n 66\r\n1\r\n 70\r\n1",
                "POLYLINE\r\n  8\r\n1\r\n 66\r\n1\r\n 70\r\n0",
                "dxf-boundary-open",
            ),
            ("POLYLINE\r\n  8\r\n1\r\n", "POLYLINE\r\n  8\r\n8\r\n", "dxf-boundary"),
            ("POINT\r\n  8\r\n2\r\n", "POINT\r\n  8\r\n5\r\n", "dxf-turn-points"),
            (
                "POINT\r\n  8\r\n4\r\n 39\r\n0.0\r\n 10\r\n224.0",
                "POINT\r\n  8\r\n4\r\n 39\r\n0.0\r\n 10\r\n230.0",
                "dxf-notch-off",
            ),
            ("POINT\r\n  8\r\n4\r\n 39\r\n0.0", "POINT\r\n  8\r\n83\r\n 39\r\n0.0", "dxf-notch-width"),
            ("POINT\r\n  8\r\n4\r\n 39\r\n0.0", "POINT\r\n  8\r\n4\r\n 39\r\n-1.0", "dxf-notch-width"),
            ("LINE\r\n  8\r\n6\r\n 10\r\n0.0", "LINE\r\n  8\r\n6\r\n 10\r\n9.0", "dxf-mirror"),
            (
                "VERTEX\r\n  8\r\n84\r\n 10\r\n0.0\r\n 20\r\n0.0",
                "VERTEX\r\n  8\r\n84\r\n 10\r\n0.0\r\n 20\r\n1.0",
                "dxf-validation",
            ),
        ];
        for (good, bad, code) in harms {
            assert!(text.contains(good), "{good:?} is not in the file");
            let found = codes(text.replacen(good, bad, 1).as_bytes());
            assert!(found.contains(&code), "{code} is not among {found:?}");
        }
    }

    #[test]
    fn every_finding_says_what_to_do() {
        let empty = "  0\nSECTION\n  2\nENTITIES\n  0\nENDSEC\n  0\nEOF\n";
        let found = exchange(empty.as_bytes()).unwrap();
        assert!(found.iter().any(|f| f.level == engine::finding::Level::Refusal));
        let told = |f: &Doubt| {
            let said = f.said();
            !said.next.is_empty() && !said.text.is_empty() && !said.place.is_empty()
        };
        assert!(found.iter().all(told));
        assert!(exchange(b"no tags").is_err());
    }
}
