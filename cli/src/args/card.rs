//! What a person may type about the work card, and about which files there are.

use super::words::words;
use clap::Args;
use export::choice::{Measures, Only};

/// The flags.
#[derive(Debug, Args)]
#[command(next_help_heading = "Work card")]
pub(super) struct CardArgs {
    /// Write the work card alone, or the pattern without it
    #[arg(long, default_value = "all", value_parser = words(&Only::NAMED))]
    only: Only,
    /// Tell the measurements of the body on the card: for the maker's file, not to hand on
    #[arg(long)]
    measures: bool,
}

impl CardArgs {
    pub(super) const fn meaning(self) -> (Only, Measures) {
        (self.only, if self.measures { Measures::Told } else { Measures::Left })
    }
}
