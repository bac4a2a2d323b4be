//! `draft`: the pattern, and a summary of it.

use super::exports::Files;
use super::reading::Read;
use super::stop::Stop;
use super::{exports, reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, FileChoices, Reading};
use crate::output::{Older, Replace, older, stem, write_all};
use crate::terminal;
use crate::terminal::{cutter, summary};
use serde_json::{Map, Value, json};
use std::path::Path;

pub(super) fn run(reading: &Reading, into: &Path, replace: Replace, choices: &FileChoices) -> Result<Answer, Stop> {
    let read = reading::read(reading)?;
    read.stop_at_warnings(reading)?;
    let files = exports::all(&read, choices)?;
    write_all(into, &files.ready, replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    let older = older(into, &stem(&read.sheet.name), &files.ready);
    let out = match reading.answer {
        AnswerAs::Json => as_json(&read, into, &files, &older)?,
        AnswerAs::Text => as_text(&read, into, &files, choices) + &terminal::older::render(&older),
    };
    Ok(Answer::done(out))
}

fn as_text(read: &Read, into: &Path, files: &Files, choices: &FileChoices) -> String {
    let names = files.ready.iter().map(|file| file.name.as_str());
    let listed: Vec<_> = names.zip(files.what.iter().copied()).collect();
    let cut = files.cut.map(|cut| cutter::render(&cut, &choices.cut, read.sheet.units)).unwrap_or_default();
    summary::render(&read.made.garment, read.sheet.units, into, &listed) + &cut
}

/// The whole record, then where its files are and what older ones lie beside them.
fn as_json(read: &Read, into: &Path, files: &Files, older: &Older) -> Result<String, Stop> {
    let mut all: Map<String, Value> =
        serde_json::from_str(&record::whole(&read.made.garment)?).map_err(|e| record::broken(&e))?;
    let file = |(ready, what): (&crate::output::Ready, &&str)| json!({ "name": ready.name, "for": what });
    all.insert("folder".to_owned(), json!(into.display().to_string()));
    all.insert("files".to_owned(), files.ready.iter().zip(&files.what).map(file).collect());
    let left: Vec<&String> = older.not_written.iter().chain(older.renamed.values().flatten()).collect();
    all.insert("older".to_owned(), json!(left));
    Ok(format!("{:#}\n", Value::Object(all)))
}
