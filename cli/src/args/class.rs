//! What a person may type about a class.

use super::cutter::CutterArgs;
use super::lay::LayArgs;
use super::paper::PaperArgs;
use super::request::{AnswerAs, ClassRequest, Redo, Warnings};
use super::words::{folder, words};
use super::{FileChoices, files};
use crate::output::Replace;
use clap::Args;
use engine::quantity::Units;
use export::choice::Choice;
use std::path::PathBuf;

/// The flags.
#[derive(Debug, Args)]
pub(super) struct ClassArgs {
    /// The table of people: CSV (commas, semicolons or tabs), .xlsx or .ods, a header row first
    people: PathBuf,
    /// The sheet that everybody's measures are laid over; whose body stands in it does not matter
    #[arg(long, value_name = "BASE")]
    sheet: PathBuf,
    /// The folder for the class: one inside it for each person; it is made if it is not there
    #[arg(short, long, value_name = "DIR", value_parser = folder(), required_unless_present = "check")]
    out: Option<PathBuf>,
    /// The unit of the table, where no row, column or cell says its own [default: the base's]
    #[arg(long, value_parser = words(&Units::ALL))]
    units: Option<Units>,
    /// These people alone: a row, rows from 3-8, or a name; can be given again and again
    #[arg(long = "only", id = "people_wanted", value_name = "ROW|NAME")]
    only: Vec<String>,
    /// Make the files of those anew who have not changed since the last time
    #[arg(long)]
    again: bool,
    /// Tell what is odd, and write nothing, wherever -o points
    #[arg(long, conflicts_with = "again")]
    check: bool,
    /// Replace files that this program did not write
    #[arg(long)]
    force: bool,
    /// Take a warning for a refusal of that person
    #[arg(long)]
    strict: bool,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    lay: LayArgs,
    #[command(flatten)]
    paper: PaperArgs,
    #[command(flatten)]
    cutter: CutterArgs,
}

impl ClassArgs {
    pub(super) fn meaning(self, given: Vec<Choice>) -> ClassRequest {
        // The pieces of everybody are laid together, and nobody's own.
        let (of_lay, given): (Vec<Choice>, Vec<Choice>) =
            given.into_iter().partition(|choice| matches!(choice, Choice::Lay | Choice::Gap | Choice::LaySteps));
        let lay = (!of_lay.is_empty()).then(|| self.lay.meaning());
        let files: FileChoices = files::choices(self.paper, self.cutter, given);
        ClassRequest {
            people: self.people,
            base: self.sheet,
            into: self.out.filter(|_| !self.check),
            units: self.units,
            only: self.only,
            lay,
            redo: if self.again { Redo::All } else { Redo::Changed },
            replace: if self.force { Replace::Any } else { Replace::OwnOnly },
            warnings: if self.strict { Warnings::Refused } else { Warnings::Allowed },
            answer: if self.json { AnswerAs::Json } else { AnswerAs::Text },
            files,
        }
    }
}
