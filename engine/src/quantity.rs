//! Quantities of a sheet: exact lengths, ratios, and the unit a person writes in.

use std::fmt;
use std::ops::{Add, Mul, Neg, Sub};

/// A length, exact to the nanometre, so that 29 1/2 in and 74.93 cm are one and the same.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0);

    /// So many nanometres.
    pub const fn from_nm(nm: i64) -> Self {
        Self(nm)
    }

    /// So many whole millimetres.
    pub const fn from_whole_mm(mm: i64) -> Self {
        Self(mm * 1_000_000)
    }

    /// The nearest nanometre to a length in millimetres, for values that are computed.
    pub fn from_mm(mm: f64) -> Self {
        Self((mm * 1e6).round() as i64)
    }

    /// In nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// In millimetres.
    pub fn mm(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// In centimetres.
    pub fn cm(self) -> f64 {
        self.0 as f64 / 1e7
    }

    /// In inches of 25.4 mm.
    pub fn inch(self) -> f64 {
        self.0 as f64 / 25.4e6
    }

    /// In the given unit.
    pub fn to(self, unit: Units) -> f64 {
        self.0 as f64 / unit.nm() as f64
    }
}

impl fmt::Debug for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.mm())
    }
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    /// Scales a length; the result is rounded to the nanometre.
    fn mul(self, factor: f64) -> Self {
        Self((self.0 as f64 * factor).round() as i64)
    }
}

/// A ratio that people write in percent: stretch, ease, reduction, shrinkage.
#[derive(Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Ratio(f64);

impl Ratio {
    /// 0 %.
    pub const ZERO: Self = Self(0.0);

    /// From percent: 60 is 60 %.
    pub const fn from_percent(percent: f64) -> Self {
        Self(percent)
    }

    /// From a fraction: 0.6 is 60 %.
    pub fn from_fraction(fraction: f64) -> Self {
        Self(fraction * 100.0)
    }

    /// In percent.
    pub const fn percent(self) -> f64 {
        self.0
    }

    /// As a fraction of one.
    pub fn fraction(self) -> f64 {
        self.0 / 100.0
    }
}

impl fmt::Debug for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} %", self.0)
    }
}

/// The unit of every length in a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Units {
    /// Centimetres.
    #[default]
    Cm,
    /// Millimetres.
    Mm,
    /// Inches of 25.4 mm.
    In,
}

impl Units {
    /// Every unit, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] = [("cm", Self::Cm), ("mm", Self::Mm), ("in", Self::In)];

    /// Nanometres in one of the unit.
    pub const fn nm(self) -> i64 {
        match self {
            Self::Cm => 10_000_000,
            Self::Mm => 1_000_000,
            Self::In => 25_400_000,
        }
    }

    /// The word a sheet uses.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cm => "cm",
            Self::Mm => "mm",
            Self::In => "in",
        }
    }

    /// In a sentence, of several.
    pub const fn plural(self) -> &'static str {
        match self {
            Self::Cm => "centimetres",
            Self::Mm => "millimetres",
            Self::In => "inches",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sixty_fourth_of_an_inch_is_a_whole_number_of_nanometres() {
        assert_eq!(Units::In.nm() % 64, 0);
        assert_eq!(Units::In.nm() / 64, 396_875);
    }

    #[test]
    fn lengths_convert_in_pairs() {
        let length = Length::from_nm(749_300_000);
        assert_eq!(length.inch(), 29.5);
        assert_eq!(length.cm(), 74.93);
        assert_eq!(length.to(Units::Mm), 749.3);
        assert_eq!(Length::from_mm(length.mm()), length);
    }
}
