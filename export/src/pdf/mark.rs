//! The bytes of a document that is complete, with an id of its own and our mark.

use super::error::PdfError;
use crate::mark::BLANK;
use lopdf::{Document, Object, StringFormat};

/// The file of a document that is complete.
pub(super) fn bytes(mut document: Document) -> Result<Vec<u8>, PdfError> {
    let blank = Object::String(vec![0; ID / 2], StringFormat::Hexadecimal);
    document.trailer.set("ID", vec![blank.clone(), blank]);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|e| PdfError::Write(e.to_string()))?;
    let id = fingerprint(&bytes);
    let mut bytes =
        marked(&bytes).ok_or_else(|| PdfError::Write("the table of objects is not where it should be".to_owned()))?;
    identify(&mut bytes, &id).ok_or_else(|| PdfError::Write("the id is not where it should be".to_owned()))?;
    Ok(bytes)
}

/// An id has so many hexadecimal digits.
const ID: usize = 32;

/// An id that follows from the content (FNV-1a over eight bytes at a time, twice, with different starts).
fn fingerprint(bytes: &[u8]) -> String {
    let starts: [u64; 2] = [0xcbf2_9ce4_8422_2325, 0x8422_2325_cbf2_9ce4];
    let taken = |h: [u64; 2], word: u64| h.map(|h| (h ^ word).wrapping_mul(0x0100_0000_01b3));
    let (words, rest) = bytes.as_chunks();
    let whole = words.iter().fold(starts, |h, word| taken(h, u64::from_le_bytes(*word)));
    let both = rest.iter().fold(whole, |h, byte| taken(h, u64::from(*byte)));
    format!("{:016X}{:016X}", both[0], both[1])
}

/// Puts an id in the place of both blank ones, which stand near the end of the file.
fn identify(bytes: &mut [u8], id: &str) -> Option<()> {
    for _ in 0..2 {
        let at = bytes.windows(ID + 1).rposition(|w| w[0] == b'<' && w[1..].iter().all(|b| *b == b'0'))?;
        bytes[at + 1..=at + ID].copy_from_slice(id.as_bytes());
    }
    Some(())
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
