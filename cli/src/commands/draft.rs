//! `draft`: the pattern, and a summary of it.

use super::exports::{self, EXPORTS};
use super::{Stop, reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, PaperUse, Reading, Replace};
use crate::output::write_all;
use crate::terminal::summary;
use std::path::Path;

pub(super) fn run(reading: &Reading, into: &Path, replace: Replace, paper: &PaperUse) -> Result<Answer, Stop> {
    let read = reading::read(reading)?;
    read.stop_at_warnings(reading)?;
    let files = exports::all(&read, paper)?;
    let written = write_all(into, &files, replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    let out = match reading.answer {
        AnswerAs::Json => record::whole(&read.made.garment)?,
        AnswerAs::Text => {
            let files: Vec<_> = written.iter().zip(EXPORTS.iter().map(|kind| kind.what)).collect();
            summary::render(&read.made.garment, read.sheet.units, &files)
        }
    };
    Ok(Answer::done(out))
}
