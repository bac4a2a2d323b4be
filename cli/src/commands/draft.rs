//! `draft`: the pattern, and a summary of it.

use super::stop::Stop;
use super::{exports, reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, FileChoices, Reading};
use crate::output::{Replace, write_all};
use crate::terminal::{cutter, summary};
use std::path::Path;

pub(super) fn run(reading: &Reading, into: &Path, replace: Replace, choices: &FileChoices) -> Result<Answer, Stop> {
    let read = reading::read(reading)?;
    read.stop_at_warnings(reading)?;
    let files = exports::all(&read, choices)?;
    write_all(into, &files.ready, replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    let out = match reading.answer {
        AnswerAs::Json => record::whole(&read.made.garment)?,
        AnswerAs::Text => {
            let names = files.ready.iter().map(|file| file.name.as_str());
            let listed: Vec<_> = names.zip(files.what).collect();
            let cut = files.cut.map(|cut| cutter::render(&cut, &choices.cut, read.sheet.units)).unwrap_or_default();
            summary::render(&read.made.garment, read.sheet.units, into, &listed) + &cut
        }
    };
    Ok(Answer::done(out))
}
