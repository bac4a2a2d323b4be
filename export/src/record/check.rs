//! What was found, of a garment or of a file.

use super::number::{At, RecordError};
use crate::validate::Doubt;
use engine::finding::{Finding, Measured};
use engine::quantity::Units;
use engine::words::{Said, Speech};
use serde::Serialize;

/// One finding. Its numbers are as in the whole record; its texts speak the sheet's unit.
#[derive(Serialize)]
pub(super) struct Check<'g> {
    code: &'static str,
    level: &'static str,
    place: String,
    /// The variant of the sheet that it belongs to.
    variant: Option<&'g str>,
    value: Option<f64>,
    limit: Option<f64>,
    unit: &'static str,
    text: String,
    next: String,
    /// What else comes of it.
    effects: Vec<Check<'g>>,
}

/// Every finding of a garment.
pub(super) fn findings<'g>(found: &'g [Finding], units: Units, at: &At) -> Result<Vec<Check<'g>>, RecordError> {
    found.iter().enumerate().map(|(i, one)| finding(one, units, &at.item(i))).collect()
}

fn finding<'g>(found: &'g Finding, units: Units, at: &At) -> Result<Check<'g>, RecordError> {
    let Said { place, text, next } = Speech(units).finding(found);
    let (value, limit, unit) = measured(found.measured, at)?;
    Ok(Check {
        code: found.code,
        level: found.level.name(),
        place,
        variant: found.variant.as_deref(),
        value,
        limit,
        unit,
        text,
        next,
        effects: findings(&found.effects, units, &at.key("effects"))?,
    })
}

/// Every doubt about a file.
pub(super) fn doubts<'g>(found: &'g [Doubt], at: &At) -> Result<Vec<Check<'g>>, RecordError> {
    found.iter().enumerate().map(|(i, one)| doubt(one, &at.item(i))).collect()
}

fn doubt<'g>(doubt: &Doubt, at: &At) -> Result<Check<'g>, RecordError> {
    let Doubt { code, level, place, measured: number, text, next } = doubt.clone();
    let (value, limit, unit) = measured(number, at)?;
    let (variant, effects) = (None, Vec::new());
    Ok(Check { code, level: level.name(), place, variant, value, limit, unit, text, next, effects })
}

type Numbers = (Option<f64>, Option<f64>, &'static str);

fn measured(measured: Option<Measured>, at: &At) -> Result<Numbers, RecordError> {
    let Some(Measured { value, limit, unit }) = measured else { return Ok((None, None, "")) };
    Ok((Some(at.key("value").number(value)?), Some(at.key("limit").number(limit)?), unit.name()))
}
