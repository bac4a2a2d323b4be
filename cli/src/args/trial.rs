//! What may be typed about a trial.

use super::request::{Apply, Judgements};
use super::{AnswerAs, Request, words::words};
use chrono::NaiveDate;
use clap::Args;
use engine::sheet::{Section, Verdict};
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct TrialArgs {
    /// The measurement sheet (TOML); what was tried is written at its end
    sheet: PathBuf,
    /// How the left leg felt: loose, right or tight; or a part of it, such as back=tight
    #[arg(long, value_name = "V", value_parser = judged)]
    left: Vec<(Option<Section>, Verdict)>,
    /// How the right leg felt
    #[arg(long, value_name = "V", value_parser = judged)]
    right: Vec<(Option<Section>, Verdict)>,
    /// How the top edge felt
    #[arg(long, value_name = "V", value_parser = judged)]
    top: Vec<(Option<Section>, Verdict)>,
    /// What else was seen, such as "rides up at the back" or "gusset too wide by 1"; `--fit list` lists all
    #[arg(long, value_name = "REMARK")]
    fit: Vec<String>,
    /// Anything worth remembering
    #[arg(long)]
    note: Option<String>,
    /// The day of the trial, year first; without it, today
    #[arg(long, value_name = "DAY")]
    date: Option<NaiveDate>,
    /// Write the proposal and the remedies into the sheet; `--apply=pair` writes the two settings to try next
    #[arg(long, value_name = "WHAT", num_args = 0..=1, require_equals = true, default_missing_value = "proposal",
          value_parser = words(&Apply::ALL))]
    apply: Option<Apply>,
    /// Draw the new pieces laid over the old ones into this file (SVG)
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
}

impl TrialArgs {
    pub(super) fn meaning(self) -> Request {
        Request::Trial {
            sheet: self.sheet,
            judged: Judgements { left: self.left, right: self.right, top: self.top, fit: self.fit, note: self.note },
            date: self.date,
            apply: self.apply,
            picture: self.picture,
            answer: if self.json { AnswerAs::Json } else { AnswerAs::Text },
        }
    }
}

/// `tight`, or `back=tight`.
pub(crate) fn judged(text: &str) -> Result<(Option<Section>, Verdict), String> {
    let (part, verdict) = text.split_once('=').map_or((None, text), |(part, verdict)| (Some(part), verdict));
    let part = part.map(|part| known(part, &Section::ALL).ok_or("a part is front, gusset or back")).transpose()?;
    let verdict = known(verdict, &Verdict::ALL).ok_or("say loose, right or tight")?;
    Ok((part, verdict))
}

fn known<T: Copy>(word: &str, all: &[(&str, T)]) -> Option<T> {
    all.iter().find(|(known, _)| known.eq_ignore_ascii_case(word.trim())).map(|(_, it)| *it)
}
