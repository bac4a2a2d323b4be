//! What is said about a file that came from anywhere.

use super::fact::{ALLOWANCE_LEFT, Fact, NOTCH_OFF, SEAM_DIFFERS, VALIDATION_OFF};
use engine::finding::{Level, Measured, Unit};
use std::fmt;

/// Where in a file.
#[derive(Clone, Debug, PartialEq)]
pub enum Place {
    /// Its header.
    Header,
    /// Its blocks.
    Blocks,
    /// What is drawn outside the blocks.
    Drawing,
    /// A line of its text, from 1.
    Line(usize),
    /// A block, a seam or an opening.
    Named(String),
}

impl Place {
    /// A block, a seam or an opening.
    pub(super) fn named(name: &str) -> Self {
        Self::Named(name.to_owned())
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Header => f.write_str("header"),
            Self::Blocks => f.write_str("blocks"),
            Self::Drawing => f.write_str("the drawing"),
            Self::Line(line) => write!(f, "line {line}"),
            Self::Named(name) => f.write_str(name),
        }
    }
}

/// A doubt about a file. It is told in millimetres: a file has no sheet whose unit it could speak.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Doubt {
    /// What was found.
    pub fact: Fact,
    /// Where.
    pub place: Place,
    /// Stable, for programs.
    pub code: &'static str,
    /// How serious it is.
    pub level: Level,
    /// Where there is a number to it.
    pub measured: Option<Measured>,
}

impl Doubt {
    pub(super) fn new(place: Place, fact: Fact) -> Self {
        let (code, level) = about(&fact);
        let measured = measured(&fact).map(|(value, limit)| Measured { value, limit, unit: Unit::Mm });
        Self { fact, place, code, level, measured }
    }
}

/// Code and level of a fact.
const fn about(fact: &Fact) -> (&'static str, Level) {
    match fact {
        Fact::Version(_) => ("dxf-version", Level::Note),
        Fact::BeyondAscii => ("dxf-not-7-bit", Level::Warning),
        Fact::NoPieces => ("dxf-no-pieces", Level::Refusal),
        Fact::InsertUnknown => ("dxf-insert-unknown", Level::Refusal),
        Fact::InsertScaled => ("dxf-insert-scaled", Level::Warning),
        Fact::Inserts(_) => ("dxf-inserts", Level::Warning),
        Fact::Strange(..) => ("dxf-strange", Level::Note),
        Fact::StyleText(_) => ("dxf-style-text", Level::Warning),
        Fact::Units(_) => ("dxf-units", Level::Refusal),
        Fact::PieceText(_) => ("dxf-piece-text", Level::Warning),
        Fact::Quantity(_) => ("dxf-quantity", Level::Warning),
        Fact::Size { .. } => ("dxf-size", Level::Warning),
        Fact::Boundaries(_) => ("dxf-boundary", Level::Refusal),
        Fact::BoundaryOpen => ("dxf-boundary-open", Level::Refusal),
        Fact::BoundaryRound => ("dxf-boundary-round", Level::Warning),
        Fact::TurnPoints(_) => ("dxf-turn-points", Level::Warning),
        Fact::CurvePoints(_) => ("dxf-curve-points", Level::Warning),
        Fact::NotchWidth { .. } => ("dxf-notch-width", Level::Warning),
        Fact::NotchOff { .. } => ("dxf-notch-off", Level::Warning),
        Fact::NotchDepth { .. } => ("dxf-notch-depth", Level::Warning),
        Fact::Grain(_) => ("dxf-grain", Level::Warning),
        Fact::Mirror => ("dxf-mirror", Level::Refusal),
        Fact::ValidationLong(_) => ("dxf-validation-long", Level::Note),
        Fact::Validation { .. } => ("dxf-validation", Level::Warning),
        Fact::Scaled(_) => ("walk-scaled", Level::Warning),
        Fact::NobodysSize { .. } => ("walk-size", Level::Warning),
        Fact::SeamDiffers { .. } => ("walk-seam-differs", Level::Warning),
        Fact::CutLinesOnly => ("walk-cut-lines-only", Level::Note),
        Fact::AllowanceNarrow { .. } => ("walk-allowance-narrow", Level::Warning),
        Fact::PiecesMissing(_) => ("walk-piece-missing", Level::Warning),
        Fact::NotMeasured { .. } => ("walk-not-measured", Level::Warning),
    }
}

/// What was measured and what it may be, mm.
fn measured(fact: &Fact) -> Option<(f64, f64)> {
    match fact {
        Fact::NotchOff { off, .. } => Some((*off, NOTCH_OFF)),
        Fact::Validation { off, .. } => Some((*off, VALIDATION_OFF)),
        Fact::SeamDiffers { a, b } => Some(((a.1 - b.1).abs(), SEAM_DIFFERS)),
        Fact::AllowanceNarrow { least, usual, .. } => Some((*least, ALLOWANCE_LEFT * usual)),
        _ => None,
    }
}
