//! `check`: what the checks found, and nothing else.

use super::stop::Stop;
use super::{reading, record};
use crate::answer::{Answer, End};
use crate::args::{AnswerAs, Reading, Warnings};
use crate::terminal::checks;
use engine::finding::Level;
use export::record::Part;

pub(super) fn run(reading: &Reading) -> Result<Answer, Stop> {
    let read = reading::read(reading)?;
    let found = &read.made.garment.checks;
    let out = match reading.answer {
        AnswerAs::Json => record::parts(&read.made.garment, &[Part::Checks])?,
        AnswerAs::Text => checks::render(found, read.sheet.units),
    };
    // The warnings are the result here, so that they are shown either way.
    let is_stopped = reading.warnings == Warnings::Refused && found.iter().any(|f| f.level >= Level::Warning);
    let end = if is_stopped { End::Refused } else { End::Done };
    Ok(Answer { out, err: String::new(), end })
}
