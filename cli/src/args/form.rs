//! What a person may type about the form to measure by.

use super::Request;
use super::words::words;
use crate::output::Replace;
use clap::Args;
use engine::quantity::Units;
use export::form::FormPaper;
use std::path::PathBuf;

/// The flags.
#[derive(Debug, Args)]
pub(super) struct FormArgs {
    /// The PDF to write
    #[arg(short, long, value_name = "FILE")]
    out: PathBuf,
    /// The unit to write lengths in
    #[arg(long, default_value = "cm", value_parser = words(&Units::ALL))]
    units: Units,
    /// The paper to print on
    #[arg(long, default_value = "a4", ignore_case = true, value_parser = words(&FormPaper::NAMED))]
    paper: FormPaper,
    /// Replace a file that this program did not write
    #[arg(long)]
    force: bool,
}

impl FormArgs {
    pub(super) fn meaning(self) -> Request {
        let replace = if self.force { Replace::Any } else { Replace::OwnOnly };
        Request::Form { file: self.out, units: self.units, paper: self.paper, replace }
    }
}
