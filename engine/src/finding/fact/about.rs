//! What follows from a fact.

use crate::finding::{Help, Level, Measured, Place, Unit};

/// Code, level, place, numbers and help of a fact.
pub(crate) struct About {
    pub(crate) code: &'static str,
    pub(crate) level: Level,
    pub(crate) place: Place,
    pub(crate) measured: Option<Measured>,
    pub(crate) helps: Vec<Help>,
}

pub(super) fn refusal(code: &'static str, place: impl Into<Place>) -> About {
    about(code, Level::Refusal, place)
}

pub(super) fn warning(code: &'static str, place: impl Into<Place>) -> About {
    about(code, Level::Warning, place)
}

pub(super) fn note(code: &'static str, place: impl Into<Place>) -> About {
    about(code, Level::Note, place)
}

fn about(code: &'static str, level: Level, place: impl Into<Place>) -> About {
    About { code, level, place: place.into(), measured: None, helps: Vec::new() }
}

impl About {
    /// With what was measured, and the limit it was held against.
    pub(super) const fn measured(mut self, value: f64, limit: f64, unit: Unit) -> Self {
        self.measured = Some(Measured { value, limit, unit });
        self
    }

    /// With one more thing that would help.
    pub(super) fn help(mut self, help: impl Into<Help>) -> Self {
        self.helps.push(help.into());
        self
    }

    /// At another level.
    pub(super) const fn at(mut self, level: Level) -> Self {
        self.level = level;
        self
    }
}
