//! What a person may type about a table of sizes.

use super::cutter::CutterArgs;
use super::files;
use super::paper::PaperArgs;
use super::request::{AnswerAs, SizesRequest, Warnings};
use super::words::{folder, words};
use crate::output::Replace;
use clap::Args;
use engine::quantity::Units;
use export::choice::Choice;
use std::path::PathBuf;

/// The flags.
#[derive(Debug, Args)]
pub(super) struct SizesArgs {
    /// The table of sizes: CSV (commas, semicolons or tabs), .xlsx or .ods; a row for each size, in their
    /// order, under a header row with a column “size”
    table: PathBuf,
    /// The style: the sheet that every size's measures are laid over
    #[arg(long, value_name = "BASE")]
    sheet: PathBuf,
    /// The folder for the files: one inside it for each size; it is made if it is not there
    #[arg(short, long, value_name = "DIR", value_parser = folder())]
    out: PathBuf,
    /// The unit of the table, where no row, column or cell says its own [default: the base's]
    #[arg(long, value_parser = words(&Units::ALL))]
    units: Option<Units>,
    /// Replace files that this program did not write
    #[arg(long)]
    force: bool,
    /// Take a warning for a refusal of that size
    #[arg(long)]
    strict: bool,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    paper: PaperArgs,
    #[command(flatten)]
    cutter: CutterArgs,
}

impl SizesArgs {
    pub(super) fn meaning(self, given: Vec<Choice>) -> SizesRequest {
        SizesRequest {
            table: self.table,
            base: self.sheet,
            into: self.out,
            units: self.units,
            replace: if self.force { Replace::Any } else { Replace::OwnOnly },
            warnings: if self.strict { Warnings::Refused } else { Warnings::Allowed },
            answer: if self.json { AnswerAs::Json } else { AnswerAs::Text },
            files: files::choices(self.paper, self.cutter, given),
        }
    }
}
