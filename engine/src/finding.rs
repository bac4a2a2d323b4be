//! What stands in the way of a garment, or should be known about it.
//!
//! A [`Finding`] is data: a [`Fact`], and what follows from it: a code, a level, a place, what was
//! measured, what would help. Its sentences are made by [`crate::words`], in the unit of the sheet.

pub mod fact;
mod help;
mod place;

pub use fact::Fact;
pub use help::{Do, Help, Misread};
pub use place::Place;

/// How serious a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Good to know.
    Note,
    /// Look before cutting.
    Warning,
    /// No garment is made.
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

/// Of what was measured, and of its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Percent.
    Percent,
    /// Kilopascal.
    KiloPascal,
    /// Degrees.
    Degrees,
    /// Standard deviations.
    Deviations,
    /// A ratio of one.
    Ratio,
}

impl Unit {
    /// The word in the record.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Percent => "%",
            Self::KiloPascal => "kPa",
            Self::Degrees => "°",
            Self::Deviations => "sd",
            Self::Ratio => "ratio",
        }
    }
}

/// What was measured, and the limit it was held against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// What was found.
    pub value: f64,
    /// What it is held against.
    pub limit: f64,
    /// Of both.
    pub unit: Unit,
}

/// One finding.
///
/// Made from a fact, which says all the rest:
///
/// ```
/// use engine::finding::fact::GussetFact;
/// use engine::finding::{Finding, Level};
/// use engine::quantity::Units;
/// use engine::words::Speech;
///
/// let found = Finding::from(GussetFact::Narrow { width: 4.0, least: 10.0 });
/// assert_eq!((found.code, found.level), ("shape.gusset_narrow", Level::Refusal));
/// assert!(Speech(Units::Cm).finding(&found).text.contains("0.4 cm"));
/// ```
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Finding {
    /// What was found.
    pub fact: Fact,
    /// Stable, for programs.
    pub code: &'static str,
    /// At least that of the fact; more where it is what causes a refusal.
    pub level: Level,
    /// Where.
    pub place: Place,
    /// The variant of the sheet that it belongs to; none for the sheet itself.
    pub variant: Option<String>,
    /// Where there is a number to it.
    pub measured: Option<Measured>,
    /// What would help, the first thing first.
    pub helps: Vec<Help>,
    /// What else was found, and has the same cause.
    pub effects: Vec<Finding>,
}

impl<F: Into<Fact>> From<F> for Finding {
    fn from(fact: F) -> Self {
        let fact = fact.into();
        let fact::About { code, level, place, measured, helps } = fact.about();
        Self { fact, code, level, place, variant: None, measured, helps, effects: Vec::new() }
    }
}

impl Finding {
    /// The same of a variant of the sheet.
    pub(crate) fn of_variant(mut self, name: &str) -> Self {
        self.variant = Some(name.to_owned());
        self.effects = self.effects.into_iter().map(|effect| effect.of_variant(name)).collect();
        self
    }

    /// Takes what comes of it; it is as serious as that.
    pub(crate) fn add_effect(&mut self, effect: Self) {
        self.level = self.level.max(effect.level);
        self.effects.push(effect);
    }

    /// This finding, its effects, and theirs.
    pub fn all(&self) -> impl Iterator<Item = &Self> {
        let effects: Vec<&Self> = self.effects.iter().flat_map(|effect| effect.all().collect::<Vec<_>>()).collect();
        std::iter::once(self).chain(effects)
    }
}
