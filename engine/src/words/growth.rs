//! What is listed over the sizes of a table, in words.

use crate::growth::{Step, What};

/// Where a list is shortened.
pub const BOTH_SIDES: &str = "What is alike on both sides is listed for the left one.";

impl What {
    /// What kind of length it is.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Measure(_) => "measure",
            Self::Edge(_) => "edge",
            Self::Seam(_) => "seam",
            Self::Across(_) | Self::Along(_) => "piece as drawn",
            Self::Elastic(_) => "elastic to cut",
            Self::Mark(..) => "mark on the elastic",
        }
    }

    /// Which one: `waist girth`, `left leg`, `front, across`.
    pub fn name(&self) -> String {
        match self {
            Self::Measure(key) => key.name().replace('_', " "),
            Self::Edge(opening) | Self::Elastic(opening) => opening.name().to_owned(),
            Self::Seam(seam) => seam.name().to_owned(),
            Self::Across(piece) => format!("{}, across", piece.name()),
            Self::Along(piece) => format!("{}, along", piece.name()),
            Self::Mark(opening, number, place) => format!("{}, mark {number}: {}", opening.name(), place.name()),
        }
    }
}

impl Step {
    /// The word beside a step; none where there is nothing to say.
    pub const fn word(self) -> Option<&'static str> {
        match self {
            Self::Even => None,
            Self::Uneven => Some("uneven"),
            Self::Against => Some("the other way"),
        }
    }
}
