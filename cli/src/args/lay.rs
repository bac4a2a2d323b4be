//! What a person may type about the lay.

use super::words::number;
use clap::Args;
use engine::lay::{GAP, Rules};

/// Further apart, pieces are not laid but spread, mm.
const GAPS: std::ops::RangeInclusive<f64> = 0.0..=100.0;

/// The flags.
#[derive(Debug, Args)]
#[command(next_help_heading = "Lay on the cloth (lengths in mm)")]
pub(super) struct LayArgs {
    /// Write NAME-lay.svg, and lay the files for cutters as the pieces lie on the cloth: on
    /// --cut-width where it is given, else on the sheet's width of cloth
    #[arg(long)]
    #[allow(dead_code, reason = "what counts is whether it was typed")]
    lay: bool,
    /// The least distance between two pieces on the cloth, from 0 to 100; in files for cutters after the
    /// kerf, and without --lay between their boxes, which lie 10 apart on --cut-width and 20 in a row
    #[arg(long, value_name = "MM", default_value_t = GAP, value_parser = gap, allow_negative_numbers = true)]
    gap: f64,
    /// Look for a short lay in so many steps, each one piece looked after; more take longer and may
    /// find a shorter one [default: by the number of pieces]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(1..=100_000_000))]
    lay_steps: Option<u64>,
}

fn gap(typed: &str) -> Result<f64, String> {
    let mm = number(typed)?;
    if GAPS.contains(&mm) { Ok(mm) } else { Err("give a length from 0 to 100 mm".to_owned()) }
}

impl LayArgs {
    pub(super) const fn meaning(self) -> Rules {
        Rules { gap: self.gap, steps: self.lay_steps }
    }
}
