//! The record and parts of it, for those who pipe them.

use super::stop::{Stop, broken};
use engine::finding::Finding;
use engine::garment::Garment;
use engine::quantity::Units;
use export::mark::Mark;
use export::record::Part;
use export::validate::Doubt;
use serde_json::{Map, Value};
use std::fs;
use std::path::Path;

/// The whole record, as it is written to a file.
pub(super) fn whole(garment: &Garment) -> Result<String, Stop> {
    export::record::json(garment).map_err(|e| broken(&e))
}

/// These parts of the record, under its own head.
pub(super) fn parts(garment: &Garment, wanted: &[Part]) -> Result<String, Stop> {
    export::record::parts(garment, wanted).map_err(|e| broken(&e))
}

/// Findings alone, where there is no garment.
pub(super) fn findings(name: &str, units: Units, findings: &[Finding]) -> Result<String, Stop> {
    export::record::findings(name, units, findings).map_err(|e| broken(&e))
}

/// Doubts about a file, in the same shape.
pub(super) fn doubts(name: &str, doubts: &[Doubt]) -> Result<String, Stop> {
    export::record::doubts(name, doubts).map_err(|e| broken(&e))
}

/// An answer with more keys at its end.
pub(super) fn with(answer: &str, more: impl IntoIterator<Item = (&'static str, Value)>) -> Result<String, Stop> {
    let mut all: Map<String, Value> = serde_json::from_str(answer).map_err(|e| broken(&e))?;
    all.extend(more.into_iter().map(|(key, value)| (key.to_owned(), value)));
    Ok(format!("{:#}\n", Value::Object(all)))
}

/// A record of an earlier run; nothing where there is none of ours.
pub(super) fn earlier(file: &Path) -> Value {
    let bytes = fs::read(file).unwrap_or_default();
    if Mark::JsonProgram.is_in(&bytes) { serde_json::from_slice(&bytes).unwrap_or_default() } else { Value::Null }
}
