//! Trials and fit remarks, on the code of the command `trial`.

use super::Trouble;
use super::desk::{Answer, Desk};
use super::files::from_stop;
use crate::args::{Apply, Judgements, judged};
use crate::commands::trial::at_hand::{Learned, learned};
use chrono::NaiveDate;
use engine::sheet::{Section, Verdict};
use serde::Deserialize;
use serde_json::{Value, json};

/// What a test garment was like.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Trial {
    #[serde(default)]
    left: Vec<String>,
    #[serde(default)]
    right: Vec<String>,
    #[serde(default)]
    top: Vec<String>,
    #[serde(default)]
    fit: Vec<String>,
    note: Option<String>,
    date: Option<String>,
    /// Of what is applied: the two settings to try, in place of the proposal.
    #[serde(default)]
    pair: bool,
}

type Judged = Vec<(Option<Section>, Verdict)>;

fn meant(said: &[String]) -> Result<Judged, Trouble> {
    said.iter().map(|one| judged(one)).collect::<Result<_, _>>().map_err(Trouble::asked_wrongly)
}

impl Trial {
    fn judgements(&self) -> Result<Judgements, Trouble> {
        Ok(Judgements {
            left: meant(&self.left)?,
            right: meant(&self.right)?,
            top: meant(&self.top)?,
            fit: self.fit.clone(),
            note: self.note.clone().filter(|note| !note.trim().is_empty()),
        })
    }

    fn day(&self) -> Result<String, Trouble> {
        let Some(date) = self.date.as_ref().filter(|date| !date.is_empty()) else {
            return Ok(chrono::Local::now().date_naive().to_string());
        };
        let day = date.parse::<NaiveDate>();
        day.map(|day| day.to_string())
            .map_err(|_| Trouble::refused(format!("“{date}” is no day"), "year first: 2026-03-02"))
    }

    fn learned(&self, desk: &Desk, apply: Option<Apply>) -> Result<Learned, Trouble> {
        let open = desk.sheet()?;
        let (text, label) = open.readable()?;
        learned(text, &label, &self.judgements()?, &self.day()?, apply).map_err(from_stop)
    }
}

fn lesson(learned: &Learned) -> Answer {
    serde_json::from_str(&learned.json).map_err(|e| Trouble::fault(e.to_string()))
}

/// What trials and remarks say; nothing is kept.
pub(super) fn ask(desk: &Desk, trial: &Trial) -> Answer {
    lesson(&trial.learned(desk, None)?)
}

/// Records a trial, as a step that can be undone.
pub(super) fn record(desk: &mut Desk, trial: &Trial) -> Answer {
    kept(desk, trial, None, "a trial")
}

/// Writes what it proposes into the sheet, as a step that can be undone.
pub(super) fn apply(desk: &mut Desk, trial: &Trial) -> Answer {
    let apply = if trial.pair { Apply::Pair } else { Apply::Proposal };
    kept(desk, trial, Some(apply), "what the trials propose")
}

fn kept(desk: &mut Desk, trial: &Trial, apply: Option<Apply>, label: &str) -> Answer {
    let learned = trial.learned(desk, apply)?;
    let lesson: Value = lesson(&learned)?;
    desk.step(Some(label.to_owned()), |_| Ok(learned.text))?;
    Ok(json!({ "state": desk.state(), "lesson": lesson }))
}
