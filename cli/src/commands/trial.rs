//! `trial`: what a test garment taught, written into its sheet, and what to sew next.

mod ask;
pub(crate) mod at_hand;
mod record;
mod remarks;
mod write;

use super::reading::{self, Read};
use super::stop::Stop;
use super::{compare, input};
use crate::answer::Answer;
use crate::args::{AnswerAs, Apply, Judgements, Reading, Warnings};
use crate::dialogue;
use crate::own_file::OwnFile;
use crate::sheet::Edit;
use crate::terminal::{plain, refusal, trial as page};
use chrono::NaiveDate;
use engine::finding::Finding;
use engine::keys::Edges;
use engine::sheet::{Section, Sheet, Trial, Verdict};
use engine::trial::setting::Spot;
use engine::trial::{Take, learn, row};
use std::path::Path;

pub(super) fn run(
    sheet: &Path,
    judged: &Judgements,
    date: Option<NaiveDate>,
    (apply, picture): (Option<Apply>, Option<&Path>),
    answer: AnswerAs,
) -> Result<Answer, Stop> {
    if judged.fit.iter().any(|remark| remark == remarks::LIST) {
        return Ok(Answer::done(page::known_remarks()));
    }
    let reading = Reading { sheet: sheet.to_owned(), answer, warnings: Warnings::Allowed, variant: None };
    let asks = judged.is_empty() && apply.is_none() && answer == AnswerAs::Text && dialogue::is_there();
    let asked = if asks { ask::judgements(&reading::read(&reading)?)? } else { judged.clone() };
    let writes = !asked.is_unjudged() || apply.is_some();
    if writes && input::is_piped(sheet) {
        return Err(Stop::plain("a trial is written into its sheet, and standard input is none", "name the file"));
    }
    // Nobody changes the sheet between the reading and the writing. What is no file, reading says.
    let own = (writes && sheet.is_file()).then(|| OwnFile::take(sheet)).transpose();
    let own = own.map_err(|e| Stop::plain(&plain(&e.to_string()), e.next()))?;
    let read = reading::read(&reading)?;
    let said = remarks::meant(&asked.fit, read.sheet.units)?;
    let rows = rows(&read, &asked)?;
    of_this_garment(&read, &asked, apply)?;
    let date = date.unwrap_or_else(|| chrono::Local::now().date_naive()).to_string();
    let mut tried = read.sheet.clone();
    tried.trials.extend(rows.into_iter().map(|row| Trial { date: Some(date.clone()), ..row }));
    let take = if apply == Some(Apply::Pair) { Take::Pair } else { Take::Proposal };
    let lesson = learn(&tried, &read.made.garment, &said, take).map_err(|found| refused(sheet, &read, &found))?;
    let new_trials = tried.trials.len() - read.sheet.trials.len();
    let changes = if apply.is_some() { lesson.changes.as_slice() } else { &[] };
    let new = if apply.is_some() { Sheet { trials: tried.trials.clone(), ..lesson.sheet.clone() } } else { tried };
    let edit = Edit { sheet: &new, new_trials, changes, date: &date };
    if let Some(file) = picture {
        let made = engine::make(&lesson.sheet).map_err(|stop| refused(sheet, &read, &stop.findings))?;
        compare::picture(file, ("as it is", &read.made.drawing), ("with the changes", &made.drawing))?;
    }
    let undo = match own {
        Some(own) if new_trials > 0 || !changes.is_empty() => Some(write::write(sheet, &own, &read.source, edit)?),
        _ => None,
    };
    let out = match answer {
        AnswerAs::Json => record::json(&lesson),
        AnswerAs::Text => {
            let applied = apply.is_some();
            let told =
                page::Told { sheet, undo: undo.as_deref(), new: &new, new_trials, fit: &asked.fit, applied, picture };
            page::render(&lesson, &read.made.garment, &told)
        }
    };
    Ok(Answer::done(out))
}

/// A remark alone is applied only where it was not said of another garment before: it would change the sheet
/// again, with nothing sewn in between.
fn of_this_garment(read: &Read, judged: &Judgements, apply: Option<Apply>) -> Result<(), Stop> {
    if apply.is_none() || !(judged.left.is_empty() && judged.right.is_empty() && judged.top.is_empty()) {
        return Ok(());
    }
    let Some(remark) = judged.fit.iter().find(|remark| is_old(read, remark)) else { return Ok(()) };
    Err(Stop::plain(
        &format!("“{}” was said of another garment than the sheet makes now; nothing was written", plain(remark)),
        "sew this one first; then say it again with how an edge felt, such as `--left right`",
    ))
}

/// Is a remark noted last with a trial of a garment that had other edges than the one of today?
fn is_old(read: &Read, remark: &str) -> bool {
    let says = |trial: &&Trial| trial.note.iter().flat_map(|note| note.split("; ")).any(|said| said == remark);
    let Some(last) = read.sheet.trials.iter().rfind(says) else { return false };
    let spot = Spot { edge: last.edge, section: last.section };
    let now = row(&read.sheet, &read.made.garment, spot, last.verdict);
    let both = last.length.zip(now.length).map(|(then, now)| (then.mm(), now.mm()));
    both.is_some_and(|(then, now)| (then - now).abs() > SAME)
}

/// Lengths of trials are written as a tape shows them, mm.
const SAME: f64 = 1.0;

/// A block for every edge, or part of one, that was judged.
fn rows(read: &Read, judged: &Judgements) -> Result<Vec<Trial>, Stop> {
    let of = [(Edges::LeftLeg, &judged.left), (Edges::RightLeg, &judged.right), (Edges::Top, &judged.top)];
    let all = of.into_iter().flat_map(|(edge, said)| said.iter().map(move |said| (edge, *said)));
    all.map(|(edge, said)| one(read, edge, said, judged)).collect()
}

fn one(
    read: &Read,
    edge: Edges,
    (section, verdict): (Option<Section>, Verdict),
    judged: &Judgements,
) -> Result<Trial, Stop> {
    if (edge, section) == (Edges::Top, Some(Section::Gusset)) {
        return Err(Stop::plain("the top edge has no gusset", "judge its front or back, such as --top back=tight"));
    }
    let row = row(&read.sheet, &read.made.garment, Spot { edge, section }, verdict);
    let words: Vec<&str> = judged.fit.iter().chain(&judged.note).map(String::as_str).collect();
    Ok(Trial { note: (!words.is_empty()).then(|| words.join("; ")), ..row })
}

/// The new sheet makes no garment; nothing was written.
fn refused(path: &Path, read: &Read, found: &[Finding]) -> Stop {
    Stop::refused(String::new(), refusal::render(path, &read.source, found, read.sheet.units))
}
