//! Measures that a size table leaves out, from the girths that it has.
//!
//! A size is nobody's body: what its table does not say is taken as the mean of bodies of such a
//! girth. Half of all bodies are off by two thirds of the deviation or more.

use super::{NAVEL_TO_HIP, Spread, Study, above_navel};
use crate::terms::WaistLevel;

/// The hip girth by least squares on the waist girth at that level, mm. Half way between rib and hip
/// bone nobody measured: the mean of the other two is taken there.
pub fn hip_girth(waist: f64, level: WaistLevel) -> Spread {
    let natural = Spread::new(438.0 + 0.743 * waist, 41.0, Study::Heinz2003);
    let navel = Spread::new(544.5 + 0.552 * waist, 45.0, Study::Ansur2Sample);
    match level {
        WaistLevel::Natural => natural,
        WaistLevel::Navel => navel,
        WaistLevel::Midway => Spread { mean: 0.5 * (natural.mean + navel.mean), ..navel },
    }
}

/// The depth from waist level to hip level, mm: at the navel it hardly follows the girths
/// (correlation −0.1).
pub fn waist_to_hip(hip: f64, level: WaistLevel) -> Spread {
    Spread::new(NAVEL_TO_HIP + rise(navel_crotch_length(hip), level), 26.0, Study::Ansur2Sample)
}

/// The crotch length by least squares on the hip girth, mm.
pub fn crotch_length(hip: f64, level: WaistLevel) -> Spread {
    let navel = navel_crotch_length(hip);
    Spread::new(navel + 2.0 * rise(navel, level), 33.0, Study::Ansur2Sample)
}

fn navel_crotch_length(hip: f64) -> f64 {
    249.4 + 0.365 * hip
}

/// How far the level lies above the navel, mm, where the crotch length was taken at the navel.
/// [`above_navel`] is a share of the front down to the gusset, which begins at the level itself.
fn rise(navel_crotch: f64, level: WaistLevel) -> f64 {
    let gusset_in_front = 0.4 * (70.0 + 0.105 * navel_crotch);
    let share = above_navel(level);
    share / (1.0 - share) * (super::FRONT_SHARE * navel_crotch - gusset_in_front)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::population::{HIP_GIRTH, waist_girth};

    /// A line of least squares runs through the means: those of other tables of the same people.
    #[test]
    fn the_lines_run_through_the_means() {
        let heinz = waist_girth(WaistLevel::Natural).unwrap().mean;
        assert!((hip_girth(heinz, WaistLevel::Natural).mean - 957.0).abs() < 2.0);
        let ansur = waist_girth(WaistLevel::Navel).unwrap().mean;
        assert!((hip_girth(ansur, WaistLevel::Navel).mean - HIP_GIRTH.mean).abs() < 3.0);
        let crotch = crotch_length(HIP_GIRTH.mean, WaistLevel::Navel).mean;
        assert!((crotch - crate::population::crotch_length(WaistLevel::Navel, 146.0).mean).abs() < 2.0);
    }

    /// The trade lays a natural waist some 20 cm above the hip (common practice: 18 to 22).
    #[test]
    fn a_higher_waist_is_further_from_the_hip() {
        let [navel, midway, natural] = [WaistLevel::Navel, WaistLevel::Midway, WaistLevel::Natural];
        let depth = |level| waist_to_hip(980.0, level).mean;
        assert!(depth(navel) < depth(midway) && depth(midway) < depth(natural));
        assert!((180.0..220.0).contains(&depth(natural)), "{}", depth(natural));
        let gained = crotch_length(980.0, natural).mean - crotch_length(980.0, navel).mean;
        assert!((gained - 2.0 * (depth(natural) - depth(navel))).abs() < 1e-9);
    }
}
