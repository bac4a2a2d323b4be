//! `draft`: the pattern, and a summary of it.

use super::exports::Files;
use super::reading::Read;
use super::stop::Stop;
use super::{exports, reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, FileChoices, Reading};
use crate::output::{Older, Ready, Replace, older, stem, write_of};
use crate::terminal;
use crate::terminal::cutter::{self, Has};
use crate::terminal::{cloth, summary};
use export::choice::Choice;
use export::cutter::{CutExtent, has_halves};
use serde_json::json;
use std::path::Path;

pub(super) fn run(reading: &Reading, into: &Path, replace: Replace, choices: &FileChoices) -> Result<Answer, Stop> {
    let mut read = reading::read(reading)?;
    read.stop_at_warnings(reading)?;
    let files = exports::all(&mut read, choices)?;
    write_of(&read.sheet.name, into, &files.ready, replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
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
    let cut = files.cut.as_ref();
    let has = Has { halves: has_halves(&read.made.drawing), plot: choices.given.contains(&Choice::Plotter) };
    let told = cut.map(|cut| cutter::render(cut, &choices.cut, has, read.sheet.units)).unwrap_or_default();
    // Files for cutters that are not laid like the cloth are of another width and length.
    let is_apart = !choices.given.contains(&Choice::Lay);
    let for_cloth = cut.filter(|cut| cut.beds.len() == 1 && choices.cut.cutting.extent == CutExtent::Full);
    let apart = choices.cut.cutting.sheet_width.filter(|_| is_apart).zip(for_cloth.map(|cut| cut.pieces.height));
    let wider = choices.cut.cutting.sheet_width.filter(|_| !is_apart).zip(read.sheet.fabric.width.map(|w| w.mm()));
    let wider = wider.filter(|(width, cloth)| width > cloth);
    let cloth = cloth::render(&read.made.garment, files.untold.as_ref(), apart, wider, read.sheet.units);
    summary::render(&read.made.garment, read.sheet.units, into, &listed) + &cloth + &told
}

/// The whole record, then where its files are and what older ones lie beside them.
fn as_json(read: &Read, into: &Path, files: &Files, older: &Older) -> Result<String, Stop> {
    let file = |(ready, what): (&Ready, &&str)| json!({ "name": ready.name, "for": what });
    let left: Vec<&String> = older.not_written.iter().chain(older.renamed.values().flatten()).collect();
    let more = [
        ("folder", json!(into.display().to_string())),
        (WRITTEN, files.ready.iter().zip(&files.what).map(file).collect()),
        ("older", json!(left)),
    ];
    record::with(&record::whole(&read.made.garment)?, more)
}

/// The answer where it was stopped: nothing was written.
pub(super) fn stopped(stop: Stop, shape: AnswerAs) -> Answer {
    let answer = stop.told(shape);
    if shape == AnswerAs::Text {
        return answer;
    }
    match record::with(&answer.out, [(WRITTEN, json!([]))]) {
        Ok(out) => Answer { out, ..answer },
        Err(_) => answer,
    }
}

/// The key of the files that were written.
const WRITTEN: &str = "files";
