//! What stands in the way of a garment, or should be known about it: each with a code and a next step.

/// How serious a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Level {
    Note,
    Warning,
    Refusal,
}

impl Level {
    /// The word in the record.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Refusal => "refusal",
        }
    }
}

/// One finding of a check.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Finding {
    pub code: &'static str,
    pub level: Level,
    pub place: String,
    pub value: Option<f64>,
    pub limit: Option<f64>,
    /// Of value and limit; empty where there is neither.
    pub unit: &'static str,
    pub text: String,
    /// What to do.
    pub next: String,
}

/// A refusal without a measured value.
pub(crate) fn refusal(code: &'static str, place: &str, text: String, next: &str) -> Finding {
    finding(code, Level::Refusal, place, text, next)
}

/// A finding without a measured value.
pub(crate) fn finding(code: &'static str, level: Level, place: &str, text: String, next: &str) -> Finding {
    Finding { code, level, place: place.to_owned(), value: None, limit: None, unit: "", text, next: next.to_owned() }
}

impl Finding {
    /// With what was measured, and the limit it was held against.
    pub(crate) fn measured(mut self, value: f64, limit: f64, unit: &'static str) -> Self {
        (self.value, self.limit, self.unit) = (Some(value), Some(limit), unit);
        self
    }
}
