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
        at_most(self.letters, "letters of paths", PATHS)
    }

    /// Before its segments are measured.
    pub(super) fn segments(&mut self, count: usize) -> Result<(), ReadError> {
        self.segments += count;
        at_most(self.segments, "segments of paths", POINTS)
    }
}
