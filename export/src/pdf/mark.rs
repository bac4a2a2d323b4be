//! The bytes of a document that is complete, with an id of its own and our mark.

use super::error::PdfError;
use crate::mark::BLANK;
use lopdf::{Dictionary, Document, Object, StringFormat};
use std::collections::BTreeMap;

/// The file of a document that is complete.
pub(super) fn bytes(mut document: Document) -> Result<Vec<u8>, PdfError> {
    let id = fingerprint(&document);
    document.trailer.set("ID", vec![id.clone(), id]);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|e| PdfError::Write(e.to_string()))?;
    marked(&bytes).ok_or_else(|| PdfError::Write("the table of objects is not where it should be".to_owned()))
}

/// An id that follows from the content (FNV-1a, twice, with different starts).
fn fingerprint(document: &Document) -> Object {
    let mut hashes = [0xcbf2_9ce4_8422_2325_u64, 0x8422_2325_cbf2_9ce4];
    let mut feed = |bytes: &[u8]| {
        for hash in &mut hashes {
            *hash = bytes.iter().fold(*hash, |h, b| (h ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3));
        }
    };
    for object in document.objects.values() {
        match object {
            Object::Stream(s) => {
                feed(&s.content);
                feed(format!("{:?}", s.dict.get(b"BBox")).as_bytes());
            }
            Object::Dictionary(d) => feed(format!("{:?}", sorted(d)).as_bytes()),
            _ => {}
        }
    }
    Object::String(hashes.iter().flat_map(|h| h.to_be_bytes()).collect(), StringFormat::Hexadecimal)
}

fn sorted(d: &Dictionary) -> BTreeMap<Vec<u8>, String> {
    d.iter().map(|(k, v)| (k.clone(), format!("{v:?}"))).collect()
}

/// The same file with our mark after the header and the line of high bytes. lopdf writes no
/// comments of others, so what follows moves, and the table of objects with it.
fn marked(bytes: &[u8]) -> Option<Vec<u8>> {
    let line = |from: usize| bytes.get(from..)?.iter().position(|b| *b == b'\n').map(|i| from + i + 1);
    let after = line(line(0)?)?;
    let end = bytes.len();
    let start = b"\nstartxref\n";
    let tail = bytes.windows(start.len()).rposition(|w| w == start)?;
    let number = std::str::from_utf8(&bytes[tail + start.len()..end]).ok()?.lines().next()?;
    let table: usize = number.parse().ok()?;
    // The second comment line, by which a file of ours is known again.
    let mark = format!("%{BLANK}\n");
    let mut out = [&bytes[..after], mark.as_bytes(), bytes.get(after..table)?].concat();
    let moved = mark.len();
    for entry in bytes.get(table..tail)?.split_inclusive(|b| *b == b'\n') {
        out.extend(moved_entry(entry, moved).unwrap_or_else(|| entry.to_vec()));
    }
    out.extend(format!("\nstartxref\n{}\n%%EOF\n", table + moved).bytes());
    Some(out)
}

/// An entry of an object in use, `nnnnnnnnnn ggggg n`, with its place moved on.
fn moved_entry(entry: &[u8], moved: usize) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(entry).ok()?;
    let (offset, rest) = text.split_at_checked(10)?;
    if entry.len() != 20 || !rest.trim_end().ends_with(" n") {
        return None;
    }
    let offset: usize = offset.parse().ok()?;
    Some(format!("{:010}{rest}", offset + moved).into_bytes())
}
