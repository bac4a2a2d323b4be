//! How much of anything is read of a file that may come from anywhere.
//!
//! What grows faster than a file does, in time or memory, is bounded here: a hostile file of the
//! largest size is read or refused within two seconds and 200 MB. A pattern of ours has less than a
//! tenth of each.

use super::outlines::ReadError;
use super::records::{File, Record};

/// Lines of text in a DXF, two to a tag.
const LINES: usize = 4_000_000;

/// Pieces of a DXF.
const BLOCKS: usize = 1_000;

/// Points of a DXF, vertices and all; segments of an SVG's paths.
const POINTS: usize = 300_000;

/// Points of splines, of which each may become many chords.
const SPLINE_POINTS: usize = 10_000;

/// Inserts of blocks in a DXF.
const INSERTS: usize = 10_000;

/// Edges of one line: each is looked for among all its vertices.
const EDGES: usize = 256;

/// Elements of an SVG.
const ELEMENTS: usize = 500_000;

/// Attributes of an SVG, and of one of its elements, whose names are compared each with each.
const ATTRIBUTES: usize = 1_000_000;
const ATTRIBUTES_OF_ONE: usize = 1_000;

/// Name spaces of an SVG: those inside each other are kept anew for each element.
const NAME_SPACES: usize = 1_000;

/// Letters of an SVG's paths.
const PATHS: usize = 8_000_000;

/// Digits before the point of a number in an SVG's paths, and powers of ten on it: an arc of such a radius is cut
/// into a few dozen curves, one of a hundred digits into more than there is memory for.
const DIGITS: usize = 8;
const POWERS: usize = 6;

/// Notes about a file.
pub(super) const NOTES: usize = 100;

/// Refuses where there is more of something.
pub(crate) fn at_most(count: usize, what: &'static str, most: usize) -> Result<(), ReadError> {
    if count > most { Err(ReadError::TooMany { what, most }) } else { Ok(()) }
}

/// Before a DXF is split into tags.
pub(super) fn lines(bytes: &[u8]) -> Result<(), ReadError> {
    at_most(bytes.iter().filter(|b| matches!(b, b'\n' | b'\r')).count() / 2, "lines", LINES)
}

/// Before anything is measured in a DXF.
pub(super) fn file(file: &File<'_>) -> Result<(), ReadError> {
    let of = |kind: &'static str| file.all().filter(move |r| r.kind() == kind);
    let points = |r: &Record<'_>| r.own().filter(|t| t.code == 10).count();
    at_most(file.blocks.len(), "blocks", BLOCKS)?;
    at_most(file.all().map(points).sum(), "points", POINTS)?;
    at_most(of("SPLINE").map(points).sum(), "points of splines", SPLINE_POINTS)?;
    at_most(of("INSERT").count(), "inserts", INSERTS)?;
    file.all().try_for_each(|r| edges(r.tags.iter().filter(|t| t.code == 1000).count()))
}

/// Before the edges of a line are looked for.
pub(super) fn edges(count: usize) -> Result<(), ReadError> {
    at_most(count, "edges of one line", EDGES)
}

/// Before an SVG is parsed.
pub(super) fn svg(text: &str) -> Result<(), ReadError> {
    let count = |text: &str, byte: u8| text.bytes().filter(|b| *b == byte).count();
    at_most(count(text, b'<'), "elements", ELEMENTS)?;
    at_most(count(text, b'='), "attributes", ATTRIBUTES)?;
    for element in text.split('<') {
        let head = element.split('>').next().unwrap_or_default();
        at_most(count(head, b'='), "attributes of one element", ATTRIBUTES_OF_ONE)?;
    }
    at_most(text.matches("xmlns").count(), "name spaces", NAME_SPACES)
}

/// What is left to be read of an SVG's paths.
#[derive(Default)]
pub(super) struct Paths {
    letters: usize,
    segments: usize,
}

impl Paths {
    /// Before a path's text is read.
    pub(super) fn text(&mut self, d: &str) -> Result<(), ReadError> {
        self.letters += d.len();
        at_most(self.letters, "letters of paths", PATHS)?;
        if is_far(d) { Err(ReadError::TooFar { digits: DIGITS }) } else { Ok(()) }
    }

    /// Before its segments are measured.
    pub(super) fn segments(&mut self, count: usize) -> Result<(), ReadError> {
        self.segments += count;
        at_most(self.segments, "segments of paths", POINTS)
    }
}

/// Has a number of a path more digits before its point, or a higher power, than any length in a drawing?
fn is_far(d: &str) -> bool {
    let (mut before, mut power) = (String::new(), None::<usize>);
    let mut is_fraction = false;
    for c in d.chars().chain([' ']) {
        match (c, power.as_mut()) {
            ('0'..='9', Some(power)) => *power = power.saturating_mul(10).saturating_add(c as usize - '0' as usize),
            ('1'..='9', None) if !is_fraction => before.push(c),
            ('0', None) if !is_fraction && !before.is_empty() => before.push(c),
            ('0'..='9', None) | ('+', Some(0)) => {}
            ('e' | 'E', None) => power = Some(0),
            // A negative power makes it smaller.
            ('-', Some(0)) => power = None,
            _ => {
                before.clear();
                (power, is_fraction) = (None, c == '.');
            }
        }
        if before.len() > DIGITS || power.is_some_and(|power| power > POWERS) {
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::is_far;

    #[test]
    fn only_numbers_that_no_drawing_has_are_far() {
        for d in ["M1 2h3v4a5 6z", "M12345678.123456789012-.5.123456789", "M1e-300 0000000000001", "M1e+6L1E6-1e6"] {
            assert!(!is_far(d), "{d}");
        }
        for d in
            ["M123456789 1", "M0 0A2000000000 1 2 3 0 1 5 6z", "M1e7 0", "M1.5e+30", "M0 0L-1e99999999999999999999"]
        {
            assert!(is_far(d), "{d}");
        }
    }
}
