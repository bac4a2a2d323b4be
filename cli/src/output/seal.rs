//! Whose file it is: the mark in its head says which sheet it came from, and what it was like when it
//! was written, so that nothing that a person made or changed is replaced.

use export::mark::{BLANK, HEAD_BYTES, Mark};
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use unicode_normalization::UnicodeNormalization;

/// What lies in a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Found {
    /// Nothing of ours.
    Foreign,
    /// Ours once, changed since.
    Edited,
    /// Ours as it was written, from the sheet of this tag; none where its kind does not say.
    AsWritten(Option<String>),
}

/// Larger files are none of ours, bytes.
pub(super) const LARGEST: u64 = 64 << 20;

/// Where the tag of the sheet and the digest stand in a mark.
const TAG: std::ops::Range<usize> = 17..33;
const DIGEST: std::ops::Range<usize> = 41..73;

/// The tag of a sheet's name; of what comes from no sheet, the zeros of the blank.
pub(super) fn tag(sheet: Option<&str>) -> String {
    match sheet {
        Some(name) => hex(&Sha256::digest(name.trim().nfc().collect::<String>()), TAG.len()),
        None => BLANK[TAG].to_owned(),
    }
}

/// The head of a file that is about to be written, up to the end of its mark, which is filled in; a table has none.
pub(super) fn head(bytes: &[u8], tag: &str) -> Vec<u8> {
    let Some(at) = position(bytes) else { return Vec::new() };
    let mut head = bytes[..at + BLANK.len()].to_vec();
    head[at + TAG.start..at + TAG.end].copy_from_slice(tag.as_bytes());
    head[at + DIGEST.start..at + DIGEST.end].copy_from_slice(digest(bytes, tag).as_bytes());
    head
}

/// Fills in the mark of a file.
pub(super) fn seal(bytes: &mut [u8], tag: &str) {
    let head = head(bytes, tag);
    bytes[..head.len()].copy_from_slice(&head);
}

/// Looks into a file, no further than its mark where that is missing.
///
/// # Errors
/// Whatever the file system says.
pub(super) fn look(path: &Path, mark: Mark) -> io::Result<Found> {
    let mut file = File::open(path)?;
    if file.metadata()?.len() > LARGEST {
        return Ok(Found::Foreign);
    }
    let mut bytes = Vec::new();
    file.by_ref().take(HEAD_BYTES as u64).read_to_end(&mut bytes)?;
    if !mark.is_in(&bytes) {
        return Ok(Found::Foreign);
    }
    if !mark.is_sealed() {
        return Ok(Found::AsWritten(None));
    }
    file.take(LARGEST).read_to_end(&mut bytes)?;
    Ok(opened(bytes).map_or(Found::Edited, |tag| Found::AsWritten(Some(tag))))
}

/// The tag in the mark of a file that is as it was written.
fn opened(mut bytes: Vec<u8>) -> Option<String> {
    let at = position(&bytes)?;
    let written =
        |part: std::ops::Range<usize>| String::from_utf8(bytes.get(at + part.start..at + part.end)?.to_vec()).ok();
    let (tag, between, said) = (written(TAG)?, written(TAG.end..DIGEST.start)?, written(DIGEST)?);
    if between != BLANK[TAG.end..DIGEST.start] {
        return None;
    }
    bytes.get_mut(at..at + BLANK.len())?.copy_from_slice(BLANK.as_bytes());
    (digest(&bytes, &tag) == said).then_some(tag)
}

/// Where the mark begins.
fn position(bytes: &[u8]) -> Option<usize> {
    let start = &BLANK.as_bytes()[..TAG.start];
    let head = &bytes[..bytes.len().min(HEAD_BYTES)];
    let at = head.windows(start.len()).position(|w| w == start)?;
    (at + BLANK.len() <= bytes.len()).then_some(at)
}

/// Of a file with a blank mark.
fn digest(bytes: &[u8], tag: &str) -> String {
    hex(&Sha256::new().chain_update(tag).chain_update(bytes).finalize(), DIGEST.len())
}

fn hex(bytes: &[u8], digits: usize) -> String {
    bytes.iter().take(digits / 2).map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_places_in_the_blank_are_where_they_are_filled_in() {
        assert_eq!(BLANK.len(), DIGEST.end);
        assert!(BLANK[TAG].bytes().chain(BLANK[DIGEST].bytes()).all(|b| b == b'0'));
        assert!(BLANK[..TAG.start].ends_with("sheet ") && BLANK[TAG.end..DIGEST.start].ends_with("digest "));
    }

    #[test]
    fn a_changed_byte_is_seen_and_the_sheet_is_known() {
        let mut bytes = format!("<!-- {BLANK} -->\n# a pair\n").into_bytes();
        seal(&mut bytes, &tag(Some("Ann 1")));
        assert_eq!(opened(bytes.clone()), Some(tag(Some(" Ann 1"))));
        assert_ne!(tag(Some("Ann 1")), tag(Some("Ann #1")));
        for at in 0..bytes.len() {
            let mut changed = bytes.clone();
            changed[at] ^= 1;
            assert_eq!(opened(changed), None, "byte {at}");
        }
    }
}
