//! `NAME.json`: the whole record of a garment, machine-readable and versioned.
//!
//! Millimetres with six decimals, ratios in percent, keys in a fixed order. The serde types live
//! here, at the border, and nowhere else.

mod check;
mod fill;
mod number;
mod shape;
mod shopping;

pub use check::Trouble;
pub use number::RecordError;
pub use shape::VERSION;
pub use shopping::shopping;

use crate::validate::Doubt;
use engine::finding::Finding;
use engine::garment::Garment;
use engine::quantity::Units;
use engine::shopping::{Needs, Shopping};
use engine::words::Speech;
use fill::list;
use number::At;
use shape::Record;

/// A part of the record that can be printed alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// `used`: every value the draft stands on.
    Used,
    /// `pieces`.
    Pieces,
    /// `seams`.
    Seams,
    /// `crossings`.
    Crossings,
    /// `openings`.
    Openings,
    /// `checks`.
    Checks,
    /// `order_of_work`.
    OrderOfWork,
    /// `shopping`: what to buy for one pair.
    Shopping,
    /// `alternatives`: the variants of the sheet, where there are some.
    Alternatives,
    /// `lays`: how the pieces lie on the cloth, where they were laid.
    Lays,
}

impl Part {
    /// Every part, in the record's order.
    pub const ALL: [Self; 10] = [
        Self::Used,
        Self::Pieces,
        Self::Seams,
        Self::Crossings,
        Self::Openings,
        Self::Checks,
        Self::OrderOfWork,
        Self::Shopping,
        Self::Alternatives,
        Self::Lays,
    ];
}

/// The whole record, with a newline at its end.
///
/// # Errors
/// [`RecordError`] names the field that holds something that is no number.
pub fn json(garment: &Garment) -> Result<String, RecordError> {
    parts(garment, &Part::ALL)
}

/// The same as a file, with a mark by which it is known again.
///
/// # Errors
/// As [`json`].
pub fn file(garment: &Garment) -> Result<String, RecordError> {
    print(&filled(garment, &Part::ALL)?.marked())
}

/// Some parts of the record, in the record's own shape and order: the head is always there.
///
/// # Errors
/// As [`json`], for the parts asked for.
pub fn parts(garment: &Garment, wanted: &[Part]) -> Result<String, RecordError> {
    print(&filled(garment, wanted)?)
}

fn filled<'g>(garment: &'g Garment, wanted: &[Part]) -> Result<Record<'g>, RecordError> {
    let root = At::root(Speech(garment.units));
    let mut record = Record::head(&garment.name);
    if wanted.contains(&Part::Used) {
        record.used = Some(list(&garment.used, &root.key("used"))?);
    }
    if wanted.contains(&Part::Pieces) {
        record.pieces = Some(list(&garment.pieces, &root.key("pieces"))?);
    }
    if wanted.contains(&Part::Seams) {
        record.seams = Some(list(&garment.seams, &root.key("seams"))?);
    }
    if wanted.contains(&Part::Crossings) {
        record.crossings = Some(list(&garment.crossings, &root.key("crossings"))?);
    }
    if wanted.contains(&Part::Openings) {
        record.openings = Some(list(&garment.openings, &root.key("openings"))?);
        record.elastics = Some(list(&garment.elastics, &root.key("elastics"))?);
    }
    if wanted.contains(&Part::Checks) {
        record.checks = Some(check::findings(&garment.checks, &root.key("checks"))?);
    }
    if wanted.contains(&Part::OrderOfWork) {
        record.order_of_work = Some(list(&garment.order_of_work, &root.key("order_of_work"))?);
    }
    if wanted.contains(&Part::Shopping) {
        let buy = Shopping::of([&Needs::of(garment)], garment.units);
        record.shopping = Some(shopping(&buy, Speech(garment.units))?);
    }
    if wanted.contains(&Part::Alternatives) && !garment.variants.is_empty() {
        record.alternatives = Some(list(&garment.variants, &root.key("alternatives"))?);
    }
    if wanted.contains(&Part::Lays) && !garment.lays.is_empty() {
        record.lays = Some(list(&garment.lays, &root.key("lays"))?);
    }
    Ok(record)
}

/// The checks alone, for a garment that was refused and has no record; texts in this unit.
///
/// # Errors
/// As [`json`].
pub fn findings(name: &str, units: Units, found: &[Finding]) -> Result<String, RecordError> {
    let mut record = Record::head(name);
    record.checks = Some(check::findings(found, &At::root(Speech(units)).key("checks"))?);
    print(&record)
}

/// Doubts about a file, in the same shape.
///
/// # Errors
/// As [`json`].
pub fn doubts(name: &str, found: &[Doubt]) -> Result<String, RecordError> {
    let mut record = Record::head(name);
    record.checks = Some(check::doubts(found, &At::root(Speech(Units::Mm)).key("checks"))?);
    print(&record)
}

/// What stopped a command, in the same shape.
///
/// # Errors
/// As [`json`].
pub fn troubles(found: &[Trouble]) -> Result<String, RecordError> {
    let mut record = Record::head("");
    record.checks = Some(check::troubles(found));
    print(&record)
}

fn print(record: &Record<'_>) -> Result<String, RecordError> {
    let mut text = serde_json::to_string_pretty(record).map_err(RecordError::Unwritten)?;
    text.push('\n');
    Ok(text)
}

#[cfg(test)]
mod tests;
