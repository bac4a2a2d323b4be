//! What was found, of a garment or of a file.

use super::number::{At, RecordError};
use crate::validate::Doubt;
use engine::finding::{Finding, Help, Level, Measured};
use engine::words::Said;
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
    /// The same as data, the first thing first.
    helps: Vec<Way>,
    /// What else comes of it.
    effects: Vec<Check<'g>>,
}

/// One thing that would help.
#[derive(Serialize)]
struct Way {
    /// Stable, for programs.
    #[serde(rename = "do")]
    what: &'static str,
    /// Keys of the sheet that it is about.
    keys: Vec<String>,
    /// Words of the sheet, of which one is to be chosen.
    words: Vec<&'static str>,
    /// Between these, mm.
    between: Option<[f64; 2]>,
    /// What the value would be, mm.
    value: Option<f64>,
}

fn way(help: &Help, at: &At) -> Result<Way, RecordError> {
    let between = match help {
        Help::Between(_, least, most) => Some([at.number(*least)?, at.number(*most)?]),
        _ => None,
    };
    let value = match help {
        Help::ReadAs { mm, .. } => Some(at.number(*mm)?),
        _ => None,
    };
    let keys = help.keys().iter().map(ToString::to_string).collect();
    Ok(Way { what: help.name(), keys, words: help.words(), between, value })
}

/// Every finding of a garment.
pub(super) fn findings<'g>(found: &'g [Finding], at: &At) -> Result<Vec<Check<'g>>, RecordError> {
    found.iter().enumerate().map(|(i, one)| finding(one, &at.item(i))).collect()
}

fn finding<'g>(found: &'g Finding, at: &At) -> Result<Check<'g>, RecordError> {
    let Said { place, text, next } = at.speech.finding(found);
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
        helps: found.helps.iter().map(|help| way(help, &at.key("helps"))).collect::<Result<_, _>>()?,
        effects: findings(&found.effects, &at.key("effects"))?,
    })
}

/// Every doubt about a file.
pub(super) fn doubts<'g>(found: &'g [Doubt], at: &At) -> Result<Vec<Check<'g>>, RecordError> {
    found.iter().enumerate().map(|(i, one)| doubt(one, &at.item(i))).collect()
}

fn doubt<'g>(doubt: &Doubt, at: &At) -> Result<Check<'g>, RecordError> {
    let Said { place, text, next } = doubt.said();
    let (value, limit, unit) = measured(doubt.measured, at)?;
    let (variant, helps, effects) = (None, Vec::new(), Vec::new());
    let (code, level) = (doubt.code, doubt.level.name());
    Ok(Check { code, level, place, variant, value, limit, unit, text, next, helps, effects })
}

/// What stopped a command before there was a garment, or a file, to speak of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// Stable, for programs.
    pub code: &'static str,
    /// Where: a line, a key, a file; may be empty.
    pub place: String,
    /// What is wrong.
    pub text: String,
    /// What to do.
    pub next: String,
}

/// Every trouble, in the shape of a finding.
pub(super) fn troubles(found: &[Trouble]) -> Vec<Check<'_>> {
    found.iter().map(trouble).collect()
}

fn trouble(Trouble { code, place, text, next }: &Trouble) -> Check<'_> {
    let [place, text, next] = [place, text, next].map(String::clone);
    let (variant, value, limit, helps, effects) = (None, None, None, Vec::new(), Vec::new());
    Check { code, level: Level::Refusal.name(), place, variant, value, limit, unit: "", text, next, helps, effects }
}

type Numbers = (Option<f64>, Option<f64>, &'static str);

fn measured(measured: Option<Measured>, at: &At) -> Result<Numbers, RecordError> {
    let Some(Measured { value, limit, unit }) = measured else { return Ok((None, None, "")) };
    Ok((Some(at.key("value").number(value)?), Some(at.key("limit").number(limit)?), unit.name()))
}
