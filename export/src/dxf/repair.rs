//! What the `dxf` crate (0.6.2) leaves out or gets wrong, mended in the tags it writes.
//!
//! Every step names its cause. A file then passes the audit of an outside reader without an error
//! or a fix; when the crate moves on, a step whose cause is gone can go as well.

use super::error::DxfError;
use super::tags::{self, Tag};
use crate::mark::BLANK;
use crate::number::digits::push_real;
use kurbo::Rect;
use std::collections::BTreeMap;

/// The crate's name for the drawing's own space.
pub(super) const MODEL_SPACE: &str = "*MODEL_SPACE";

/// A tag of code 0 and those up to the next one.
type Record<'a> = Vec<Tag<'a>>;

/// A file without entities, mended.
pub(super) struct Bare {
    /// What differs from file to file stands in it.
    header: Record<'static>,
    /// From there to the entities, and what follows on them.
    before: Vec<u8>,
    after: Vec<u8>,
    /// The handle of the drawing's own space, which owns its entities.
    pub(super) model_space: String,
    /// The first handle that is free.
    pub(super) free: u64,
}

/// The crate's R2000, without entities, complete, with the weights of its layers (hundredths of a
/// millimetre).
///
/// # Errors
/// Where the tags are not what the crate writes.
pub(super) fn mended(text: &str, weights: &[(&str, u16)]) -> Result<Bare, DxfError> {
    let tags = tags::read(text).map_err(|_| DxfError::Repair("a group code is not a number"))?;
    let mut records = records(tags);
    drop_clock_and_chance(&mut records)?;
    drop_empty_references(&mut records);
    let mut handles = Handles::after(&records);
    let heads = name_table_heads(&mut records, &mut handles)?;
    part_endblks(&mut records, &mut handles);
    let spaces = block_records(&records);
    own_table_records(&mut records, &heads);
    own_blocks(&mut records, &spaces)?;
    add_root_dictionary(&mut records, &mut handles);
    weigh(&mut records, weights);
    let model_space = spaces.get(MODEL_SPACE).ok_or(DxfError::Repair("it has no model space"))?.clone();
    let section = |name| move |r: &Record<'_>| kind(r) == "SECTION" && value(r, 2) == Some(name);
    let entities = records.iter().position(section("ENTITIES")).ok_or(DxfError::Repair("it has no entities"))?;
    let [header, ..] = records.as_slice() else { return Err(NO_HEADER) };
    if !section("HEADER")(header) {
        return Err(NO_HEADER);
    }
    let written = |records: &[Record<'_>]| {
        let mut out = Vec::with_capacity(1 << 15);
        tags::write(records.iter().flatten(), &mut out);
        out
    };
    Ok(Bare {
        header: header.iter().map(Tag::owned).collect(),
        before: written(&records[1..=entities]),
        after: written(&records[entities + 1..]),
        model_space,
        free: handles.next,
    })
}

const NO_HEADER: DxfError = DxfError::Repair("it has no header");

impl Bare {
    /// The whole file: comments on top, entities of these extents (mm) at their place, and the first handle
    /// that is free after them.
    ///
    /// # Errors
    /// Where the crate wrote another header.
    pub(super) fn around(
        &self,
        entities: &[u8],
        free: u64,
        extents: Rect,
        comments: &[&str],
    ) -> Result<Vec<u8>, DxfError> {
        let mut header = self.header.clone();
        // Cause: handles were added, so the first free one is another.
        put(&mut header, "$HANDSEED", [format!("{free:X}")])?;
        let length = |mm: f64| {
            let mut digits = Vec::new();
            push_real(&mut digits, mm);
            String::from_utf8_lossy(&digits).into_owned()
        };
        put(&mut header, "$EXTMIN", [extents.x0, extents.y0].map(length))?;
        put(&mut header, "$EXTMAX", [extents.x1, extents.y1].map(length))?;
        // Limits of 12 by 9, meant in inches, would make readers print on a stamp.
        put(&mut header, "$LIMMAX", [extents.x1, extents.y1].map(length))?;
        put(&mut header, "$PLIMMAX", [extents.x1, extents.y1].map(length))?;
        // Our mark goes on top as a comment; the crate cannot write one.
        let head: Vec<Tag<'_>> = std::iter::once(&BLANK).chain(comments).map(|c| Tag::new(999, *c)).collect();
        let mut out = Vec::with_capacity(entities.len() + (1 << 16));
        tags::write(head.iter().chain(&header), &mut out);
        [&self.before, entities, &self.after].iter().for_each(|part| out.extend_from_slice(part));
        Ok(out)
    }
}

/// The values of a variable of the header, from its first.
fn put<const N: usize>(header: &mut Record<'_>, variable: &str, values: [String; N]) -> Result<(), DxfError> {
    let at = header.iter().position(|t| t.is(9, variable)).ok_or(NO_VARIABLE)?;
    let places = header.get_mut(at + 1..=at + N).ok_or(NO_VARIABLE)?;
    places.iter_mut().zip(values).for_each(|(tag, value)| tag.value = value.into());
    Ok(())
}

const NO_VARIABLE: DxfError = DxfError::Repair("its header has no handle seed, or no extents and limits");

fn records(tags: Vec<Tag<'_>>) -> Vec<Record<'_>> {
    let mut out: Vec<Record<'_>> = Vec::new();
    for tag in tags {
        match out.last_mut() {
            Some(record) if tag.code != 0 => record.push(tag),
            _ => out.push(vec![tag]),
        }
    }
    out
}

/// Cause: the crate does not let the weight of a layer be set.
fn weigh(records: &mut [Record<'_>], weights: &[(&str, u16)]) {
    for record in records.iter_mut().filter(|r| kind(r) == "LAYER") {
        let Some((_, weight)) = weights.iter().find(|(name, _)| value(record, 2) == Some(name)) else { continue };
        record.retain(|t| t.code != 370);
        record.push(Tag::new(370, format!("{weight:>6}")));
    }
}

fn kind<'r>(record: &'r Record<'_>) -> &'r str {
    record.first().map_or("", |t| &*t.value)
}

fn value<'r>(record: &'r Record<'_>, code: i32) -> Option<&'r str> {
    record.iter().find(|t| t.code == code).map(|t| &*t.value)
}

/// Cause: the crate writes the time of day, in the local zone, and fresh random identifiers. None
/// of these header variables is needed.
fn drop_clock_and_chance(records: &mut [Record<'_>]) -> Result<(), DxfError> {
    const UNWANTED: [&str; 6] =
        ["$TDCREATE", "$TDUCREATE", "$TDUPDATE", "$TDUUPDATE", "$FINGERPRINTGUID", "$VERSIONGUID"];
    let header = header(records)?;
    let mut is_dropped = false;
    header.retain(|t| {
        if t.code == 9 {
            is_dropped = UNWANTED.contains(&&*t.value);
        }
        !is_dropped
    });
    Ok(())
}

fn header<'r, 'a>(records: &'r mut [Record<'a>]) -> Result<&'r mut Record<'a>, DxfError> {
    let found = records.iter_mut().find(|r| kind(r) == "SECTION" && value(r, 2) == Some("HEADER"));
    found.ok_or(NO_HEADER)
}

/// Cause: the crate writes references to nothing (a handle of 0, or no handle at all), which
/// readers follow and find nothing.
fn drop_empty_references(records: &mut [Record<'_>]) {
    for record in records.iter_mut() {
        record.retain(|t| !((340..=349).contains(&t.code) || t.code == 390) || !matches!(t.value.trim(), "" | "0"));
    }
}

/// Handles that are not taken.
struct Handles {
    next: u64,
}

impl Handles {
    fn after(records: &[Record<'_>]) -> Self {
        let taken = records.iter().filter_map(handle).filter_map(|h| u64::from_str_radix(h, 16).ok());
        Self { next: taken.max().unwrap_or(0) + 1 }
    }

    fn take(&mut self) -> String {
        let handle = format!("{:X}", self.next);
        self.next += 1;
        handle
    }
}

/// A record's own handle: code 5, but 105 in a dimension style, where 5 is something else.
fn handle<'r>(record: &'r Record<'_>) -> Option<&'r str> {
    // The header's 5 is the seed, not a handle in use.
    if kind(record) == "SECTION" { None } else { value(record, handle_code(record)) }
}

fn handle_code(record: &Record<'_>) -> i32 {
    if kind(record) == "DIMSTYLE" && value(record, 105).is_some() { 105 } else { 5 }
}

/// Cause: the heads of tables have no handle, so that their records cannot name an owner.
/// Answers with each table's handle by its name.
fn name_table_heads(records: &mut [Record<'_>], handles: &mut Handles) -> Result<BTreeMap<String, String>, DxfError> {
    let mut heads = BTreeMap::new();
    for record in records.iter_mut().filter(|r| kind(r) == "TABLE") {
        let name = value(record, 2).ok_or(DxfError::Repair("a table has no name"))?.to_owned();
        let own = handles.take();
        record.splice(2..2, [Tag::new(5, own.clone()), Tag::new(330, "0")]);
        heads.insert(name, own);
    }
    Ok(heads)
}

/// Cause: the end of a block repeats the handle of its beginning.
fn part_endblks(records: &mut [Record<'_>], handles: &mut Handles) {
    for record in records.iter_mut().filter(|r| kind(r) == "ENDBLK") {
        record.retain(|t| t.code != 5);
        record.insert(1, Tag::new(5, handles.take()));
    }
}

/// Handles of the block records by the name of their block.
fn block_records(records: &[Record<'_>]) -> BTreeMap<String, String> {
    let named = records.iter().filter(|r| kind(r) == "BLOCK_RECORD");
    named.filter_map(|r| Some((value(r, 2)?.to_owned(), handle(r)?.to_owned()))).collect()
}

/// Cause: no record names its owner.
fn own(record: &mut Record<'_>, owner: &str) {
    let code = handle_code(record);
    if let Some(at) = record.iter().position(|t| t.code == code)
        && record.get(at + 1).is_none_or(|t| t.code != 330)
    {
        record.insert(at + 1, Tag::new(330, owner.to_owned()));
    }
}

fn own_table_records(records: &mut [Record<'_>], heads: &BTreeMap<String, String>) {
    for record in records.iter_mut() {
        // Records of a table carry the table's name as their kind.
        if let Some(head) = heads.get(kind(record)).cloned() {
            // The crate writes a dimension style's handle as 5, which is a block's name there.
            if kind(record) == "DIMSTYLE" {
                record.iter_mut().filter(|t| t.code == 5).for_each(|t| t.code = 105);
            }
            own(record, &head);
        }
    }
}

/// Blocks belong to their block record, and so do the entities inside.
fn own_blocks(records: &mut [Record<'_>], spaces: &BTreeMap<String, String>) -> Result<(), DxfError> {
    let mut owner: Option<&String> = None;
    for record in records.iter_mut() {
        match kind(record) {
            "SECTION" => owner = None,
            "BLOCK" => {
                let space = value(record, 2).and_then(|name| spaces.get(name));
                owner = Some(space.ok_or(DxfError::Repair("a block has no block record"))?);
            }
            _ => {}
        }
        if let Some(owner) = owner {
            own(record, owner);
        }
    }
    Ok(())
}

/// Cause: the section of objects is empty; strict readers want a root dictionary with the groups.
fn add_root_dictionary(records: &mut Vec<Record<'_>>, handles: &mut Handles) {
    let Some(at) = records.iter().position(|r| kind(r) == "SECTION" && value(r, 2) == Some("OBJECTS")) else {
        return;
    };
    let (root, groups) = (handles.take(), handles.take());
    let dictionary = |handle: &str, owner: &str| {
        [(0, "DICTIONARY"), (5, handle), (330, owner), (100, "AcDbDictionary"), (281, "1")]
            .map(|(code, value)| Tag::new(code, value.to_owned()))
            .to_vec()
    };
    let mut first = dictionary(&root, "0");
    first.extend([Tag::new(3, "ACAD_GROUP"), Tag::new(350, groups.clone())]);
    records.splice(at + 1..at + 1, [first, dictionary(&groups, &root)]);
}
