//! What is known of other people's bodies: ranges, regressions, spreads and published bands, each
//! with its source. All lengths are millimetres.

mod breadth;
pub mod unmeasured;

pub use breadth::{hip_breadth, hip_depth, waist_breadth, waist_depth};

use crate::terms::WaistLevel;

/// Where a figure comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Study {
    /// 1,986 women, ANSUR II (Gordon et al. 2014, NATICK/TR-15/007, public release).
    Ansur2,
    /// 300 of those women, drawn at random.
    Ansur2Sample,
    /// 260 women, Heinz et al. 2003 (Journal of Statistics Education 11(2), open data).
    Heinz2003,
}

/// One of a body's measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Round the body at the waist level.
    WaistGirth,
    /// Round the body at the hip level.
    HipGirth,
    /// Down the side, from waist level to hip level.
    WaistToHip,
    /// Waist level front, between the legs, waist level back.
    CrotchLength,
    /// The front part of that.
    CrotchLengthFront,
    /// Round the thigh.
    ThighGirth,
}

/// The least and the greatest value of a measure that published bodies let expect.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Of which measure.
    pub measure: Measure,
    /// mm.
    pub least: f64,
    /// mm.
    pub most: f64,
}

impl Range {
    /// Is this length inside?
    pub fn holds(&self, mm: f64) -> bool {
        (self.least..=self.most).contains(&mm)
    }

    /// The end that a length outside lies beyond.
    pub fn nearest(&self, mm: f64) -> f64 {
        if mm > self.most { self.most } else { self.least }
    }
}

/// Ranges of [`Study::Ansur2`] (hip 80–134 cm, thigh 45–87 cm, crotch length navel to navel
/// 49–78 cm, navel to hip 5–23 cm, waist at the navel 61–133 cm), widened by what a waist level
/// above the navel adds.
pub const PUBLISHED: [Range; 4] = [
    Range { measure: Measure::WaistGirth, least: 500.0, most: 1400.0 },
    Range { measure: Measure::HipGirth, least: 700.0, most: 1500.0 },
    Range { measure: Measure::WaistToHip, least: 50.0, most: 330.0 },
    Range { measure: Measure::CrotchLength, least: 450.0, most: 1000.0 },
];

/// A mean and a standard deviation, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// mm.
    pub mean: f64,
    /// mm.
    pub deviation: f64,
    /// Whose.
    pub study: Study,
}

impl Spread {
    const fn new(mean: f64, deviation: f64, study: Study) -> Self {
        Self { mean, deviation, study }
    }

    /// How many standard deviations a length lies over the mean.
    pub fn deviations(&self, mm: f64) -> f64 {
        (mm - self.mean) / self.deviation
    }

    /// Is this length an ordinary one?
    pub fn is_ordinary(&self, mm: f64) -> bool {
        self.deviations(mm).abs() < ORDINARY
    }
}

/// From this many standard deviations on, a measure is worth a second look. Ours.
pub const RARE: f64 = 3.5;
/// Within this many it is an ordinary one. Ours.
const ORDINARY: f64 = 2.5;

/// Waist girths, computed from the data sets; none was measured half way between rib and hip bone.
pub const fn waist_girth(level: WaistLevel) -> Option<Spread> {
    match level {
        WaistLevel::Natural => Some(Spread::new(698.0, 76.0, Study::Heinz2003)),
        WaistLevel::Navel => Some(Spread::new(861.0, 100.0, Study::Ansur2)),
        WaistLevel::Midway => None,
    }
}

/// Hip girths.
pub const HIP_GIRTH: Spread = Spread::new(1021.0, 76.0, Study::Ansur2);

/// Crotch lengths. They were taken at the navel: what a higher waist level adds is added twice.
pub fn crotch_length(level: WaistLevel, waist_to_hip: f64) -> Spread {
    let above = if level == WaistLevel::Navel { 0.0 } else { (waist_to_hip - NAVEL_TO_HIP).max(0.0) };
    Spread::new(621.0 + 2.0 * above, 42.0, Study::Ansur2)
}

/// The mean depth from navel to hip level ([`Study::Ansur2`]).
const NAVEL_TO_HIP: f64 = 146.0;

/// The thigh girth by least squares on the hip girth; the deviation is that of the residuals.
pub fn thigh_girth(hip: f64) -> Spread {
    Spread::new(0.691 * hip - 89.0, 19.0, Study::Ansur2)
}

/// The front part of a crotch length; the deviation is that of the share.
pub fn crotch_length_front(crotch: f64) -> Spread {
    Spread::new(0.449 * crotch, 0.033 * crotch, Study::Ansur2)
}

/// The front's share of the crotch length, where it was not measured ([`Study::Ansur2`]: 0.449).
pub const FRONT_SHARE: f64 = 0.45;
/// Half of all bodies are further than this off the share ([`Study::Ansur2`]).
pub const FRONT_SHARE_OFF_BY: f64 = 15.0;

/// Beyond this ratio of waist to hip no published body is near ([`Study::Ansur2`]: up to about 1.1).
pub const MOST_WAIST_OVER_HIP: f64 = 1.3;
/// Beyond this one few are ([`Study::Ansur2`]: the largest).
pub const RARE_WAIST_OVER_HIP: f64 = 1.1;
/// And below this one none is either.
pub const LEAST_WAIST_OVER_HIP: f64 = 0.55;

/// How far a waist level sits above the navel, as a share of the front's length down to the gusset.
/// From drawing the bodies of [`Study::Ansur2`].
pub const fn above_navel(level: WaistLevel) -> f64 {
    match level {
        WaistLevel::Navel => 0.0,
        WaistLevel::Midway => 0.10,
        WaistLevel::Natural => 0.19,
    }
}

/// How a contact pressure is felt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Comfort {
    /// Hardly felt.
    Negligible,
    /// Can be worn all day.
    AllDay,
    /// Can be too much in casual wear.
    CriticalForCasualWear,
    /// For shaping wear only.
    ShapingOnly,
    /// Can be too much in any wear.
    Critical,
}

impl Comfort {
    /// Where each band begins, kPa, for knitted wear: *Anthropometry, Apparel Sizing and Design*,
    /// Table 13.5. No threshold for the leg edge of a brief was found in print.
    pub const BANDS: [(f64, Self); 5] = [
        (0.0, Self::Negligible),
        (0.4, Self::AllDay),
        (CRITICAL_KPA, Self::CriticalForCasualWear),
        (2.0, Self::ShapingOnly),
        (3.3, Self::Critical),
    ];

    /// The band that a pressure in kPa falls into.
    pub fn of(kpa: f64) -> Self {
        Self::BANDS.iter().rev().find(|(from, _)| kpa >= *from).map_or(Self::Negligible, |(_, band)| *band)
    }
}

/// Where published bands begin to be critical for casual wear, kPa.
pub const CRITICAL_KPA: f64 = 1.3;

/// Pressure sensors on people read up to this much lower than the formula, percent
/// (J. Wound Care 30(4), 2021).
pub const SENSORS_READ_LOWER: f64 = 42.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_bands_start_where_they_are_printed() {
        assert_eq!(Comfort::of(0.39), Comfort::Negligible);
        assert_eq!(Comfort::of(0.4), Comfort::AllDay);
        assert_eq!(Comfort::of(1.3), Comfort::CriticalForCasualWear);
        assert_eq!(Comfort::of(2.0), Comfort::ShapingOnly);
        assert_eq!(Comfort::of(3.31), Comfort::Critical);
    }

    /// Half of a normal spread lies beyond 0.674 standard deviations (a table of the normal
    /// distribution), so that the share and its median error belong together.
    #[test]
    fn the_front_share_and_its_error_agree() {
        let mean_crotch = 621.0;
        assert!((0.674 * crotch_length_front(mean_crotch).deviation - FRONT_SHARE_OFF_BY).abs() < 2.0);
    }
}
