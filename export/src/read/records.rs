//! A DXF as records: what stands in it, sorted by where.

use super::outlines::ReadError;
use crate::dxf::tags::{self, Tag};
use kurbo::Point;

/// An entity, table record or mark: a tag of code 0 and those up to the next one.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Record<'t> {
    pub(super) tags: &'t [Tag<'t>],
}

impl<'t> Record<'t> {
    /// `LINE`, `POLYLINE`, …
    pub(crate) fn kind(&self) -> &'t str {
        self.tags.first().map_or("", |t| t.value.trim())
    }

    /// The tags before any extended data.
    pub(crate) fn own(&self) -> impl Iterator<Item = &'t Tag<'t>> + use<'t> {
        self.tags.iter().take_while(|t| t.code < 1000)
    }

    /// The first value of a code.
    pub(crate) fn text(&self, code: i32) -> Option<&'t str> {
        self.own().find(|t| t.code == code).map(|t| t.value.trim())
    }

    /// The first number of a code.
    pub(crate) fn number(&self, code: i32) -> Option<f64> {
        self.text(code).and_then(number)
    }

    pub(crate) fn layer(&self) -> &'t str {
        self.text(8).unwrap_or("0")
    }

    pub(crate) fn point(&self, x: i32) -> Point {
        Point::new(self.number(x).unwrap_or(0.0), self.number(x + 10).unwrap_or(0.0))
    }

    pub(super) fn flag(&self, bit: i64) -> bool {
        self.text(70).and_then(|v| v.parse::<i64>().ok()).is_some_and(|v| v & bit != 0)
    }
}

/// A number that is one: neither infinite nor none.
pub(super) fn number(text: &str) -> Option<f64> {
    text.trim().parse::<f64>().ok().filter(|v| v.is_finite())
}

/// A block and what is in it.
#[derive(Clone, Debug)]
pub(crate) struct Block<'t> {
    pub(crate) name: &'t str,
    pub(crate) records: Vec<Record<'t>>,
}

/// A file, sorted.
#[derive(Clone, Debug, Default)]
pub(crate) struct File<'t> {
    pub(crate) header: &'t [Tag<'t>],
    pub(crate) blocks: Vec<Block<'t>>,
    pub(crate) entities: Vec<Record<'t>>,
    /// The first line (counted from 1) with something beyond 7 bits.
    pub(crate) beyond_ascii: Option<usize>,
}

impl<'t> File<'t> {
    /// Sorts its records; what stands in no section is left out.
    ///
    /// # Errors
    /// One whose end is missing.
    pub(super) fn of(tags: &'t [Tag<'t>]) -> Result<Self, ReadError> {
        let mut file = Self::default();
        let mut section = "";
        let mut last = "";
        for record in records(tags) {
            last = record.kind();
            match last {
                "SECTION" => {
                    section = record.text(2).unwrap_or("");
                    if section == "HEADER" {
                        file.header = record.tags;
                    }
                }
                "ENDSEC" => section = "",
                "BLOCK" => file.blocks.push(Block { name: record.text(2).unwrap_or(""), records: Vec::new() }),
                "ENDBLK" | tags::END => {}
                _ if section == "ENTITIES" => file.entities.push(record),
                _ if section == "BLOCKS" => {
                    if let Some(block) = file.blocks.last_mut() {
                        block.records.push(record);
                    }
                }
                _ => {}
            }
        }
        if last == tags::END { Ok(file) } else { Err(ReadError::CutOff) }
    }

    /// A variable of the header.
    pub(crate) fn variable(&self, name: &str) -> Option<&'t str> {
        let at = self.header.iter().position(|t| t.is(9, name))?;
        self.header.get(at + 1).map(|t| t.value.trim())
    }

    /// Blocks that are pieces.
    pub(crate) fn piece_blocks(&self) -> impl Iterator<Item = &Block<'t>> {
        self.blocks.iter().filter(|b| !is_of_the_format(b.name))
    }

    /// Everything that is drawn, in blocks or not.
    pub(super) fn all(&self) -> impl Iterator<Item = &Record<'t>> {
        self.entities.iter().chain(self.blocks.iter().flat_map(|b| &b.records))
    }
}

/// The format's own blocks begin with a star: spaces, and what has no name. In R12 some programs write
/// the spaces with a dollar sign.
fn is_of_the_format(name: &str) -> bool {
    let name = name.to_ascii_uppercase();
    name.starts_with('*') || ["$MODEL_SPACE", "$PAPER_SPACE"].iter().any(|space| name.starts_with(space))
}

fn records<'t>(tags: &'t [Tag<'t>]) -> impl Iterator<Item = Record<'t>> {
    tags.chunk_by(|_, next| next.code != 0).map(|tags| Record { tags })
}
