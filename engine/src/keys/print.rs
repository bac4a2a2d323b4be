//! `[print]`: paper.

use super::key::Single;
use super::row::{Absent, Kind, Sample};

/// Narrowest and widest roll of paper, mm.
pub const ROLL: (f64, f64) = (200.0, 6000.0);

rows! { Single = Single::Print;
    PAPER "paper": Kind::Paper(ROLL.0, ROLL.1), Absent::Nothing("A4"),
        "The paper in your printer, or the width of a roll." .example(Sample::Text("A4"));
    MARGIN "margin": Kind::Length(0.0, 100.0), Absent::Nothing("default"),
        "The edge of the paper that the printer leaves white." .example(Sample::Mm(10.0));
    OVERLAP "overlap": Kind::Length(0.0, 150.0), Absent::Nothing("default"), "How far two pages lie over each other."
        .example(Sample::Mm(10.0));
}
