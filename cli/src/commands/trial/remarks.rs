//! Fit remarks as they are typed.

use super::Stop;
use crate::sheet::typed_length;
use crate::sheet::words::nearest;
use crate::terminal::plain;
use engine::quantity::Units;
use engine::trial::remark::{REMARKS, Remark};
use engine::trial::remedy::{By, Said};

/// Typed for a remark, it lists all of them.
pub(super) const LIST: &str = "list";

/// What every remark means.
pub(super) fn meant(typed: &[String], units: Units) -> Result<Vec<Said>, Stop> {
    typed.iter().map(|words| one(words, units).map_err(|why| Stop::plain(&plain(&why), NEXT))).collect()
}

const NEXT: &str = "`quarterpin trial SHEET --fit list` lists every remark";

/// One remark, with how much where that is said: `by 1.5`, `by its edging`.
pub(super) fn one(words: &str, units: Units) -> Result<Said, String> {
    let (remark, by) = words.rsplit_once(" by ").map_or((words, None), |(remark, by)| (remark, Some(by)));
    let remark = Remark::of(remark).ok_or_else(|| unknown(remark))?;
    let by = by.map(|by| amount(by, units).ok_or_else(|| format!("“{by}” is no length in {}", units.plural())));
    Ok(Said { remark, by: by.transpose()? })
}

fn amount(text: &str, units: Units) -> Option<By> {
    if matches!(text.trim(), "its edging" | "the edging" | "its edgings" | "the edgings") {
        return Some(By::ItsEdging);
    }
    let length = typed_length(text, units)?;
    (0.5..=100.0).contains(&length.mm()).then_some(By::Mm(length.mm()))
}

fn unknown(words: &str) -> String {
    let known = REMARKS.iter().flat_map(|row| std::iter::once(row.words).chain(row.also.iter().copied()));
    match nearest(words, known) {
        Some(near) => format!("“{words}” is no remark that is known; did you mean “{near}”?"),
        None => format!("“{words}” is no remark that is known"),
    }
}
