//! The same on the text of a sheet that is at hand: what is to be written comes back as text.

use super::{of_this_garment, record, remarks, rows, write};
use crate::args::{Apply, Judgements};
use crate::commands::Stop;
use crate::commands::reading::Read;
use crate::sheet::Edit;
use engine::sheet::{Sheet, Trial};
use engine::trial::{Take, learn};
use engine::words::Speech;
use std::path::Path;

/// What comes of trials and remarks.
pub(crate) struct Learned {
    /// As `trial --json` answers.
    pub(crate) json: String,
    /// The text of the sheet with what was recorded, and applied where that was asked.
    pub(crate) text: String,
}

/// Judges the garment of a text that lies at `label`, on a day, and says what to sew next.
///
/// # Errors
/// [`Stop`] where the sheet makes no garment, a remark is not known, or the text cannot be changed safely.
pub(crate) fn learned(
    source: &str,
    label: &str,
    judged: &Judgements,
    date: &str,
    apply: Option<Apply>,
) -> Result<Learned, Stop> {
    let read = Read::at_hand(source, label, None)?;
    let said = remarks::meant(&judged.fit, read.sheet.units)?;
    let rows = rows(&read, judged)?;
    of_this_garment(&read, judged, apply)?;
    let new_trials = rows.len();
    let mut tried = read.sheet.clone();
    tried.trials.extend(rows.into_iter().map(|row| Trial { date: Some(date.to_owned()), ..row }));
    let take = if apply == Some(Apply::Pair) { Take::Pair } else { Take::Proposal };
    let lesson = learn(&tried, &read.made.garment, &said, take).map_err(|found| {
        Stop::plain(&Speech(read.sheet.units).refused(&found), "take a remark out, or change the sheet first")
    })?;
    let (new, changes) = match apply {
        Some(_) => (Sheet { trials: tried.trials, ..lesson.sheet.clone() }, lesson.changes.as_slice()),
        None => (tried, &[] as &[_]),
    };
    let edit = Edit { sheet: &new, new_trials, changes, date };
    let text = if new_trials > 0 || !changes.is_empty() {
        write::text(Path::new(label).parent(), source, edit)?
    } else {
        source.to_owned()
    };
    Ok(Learned { json: record::json(&lesson), text })
}
