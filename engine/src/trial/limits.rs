//! Between which settings the checks have nothing against an edge.

use super::setting::{self, Spot};
use crate::finding::{Finding, Place};
use crate::garment::Garment;
use crate::make::record;
use crate::population::Comfort;
use crate::sheet::Sheet;

/// What speaks against a setting of an edge: it bites or stands off, does not go on, waves.
const AGAINST: [&str; 4] = ["worn.tight", "worn.loose", "opening.elastic_cannot_pass", "elastic.longer_than_edge"];

/// Settings beyond these are not looked at, %: a longer elastic waves, and a shorter one than this is
/// a fault of measuring.
const SIGHT: (i32, i32) = (0, 40);

/// The smallest and the largest setting in whole percents that the checks allow; none where they
/// allow none.
///
/// What is allowed lies in one piece: more reduction is never looser. From a setting that is
/// allowed, each end is found by halving.
pub fn allowed(sheet: &Sheet, garment: &Garment, spot: Spot) -> Option<(f64, f64)> {
    let bare = Sheet { variants: Vec::new(), trials: Vec::new(), ..sheet.clone() };
    let is_allowed = |percent: i32| allows(&bare, garment, spot, f64::from(percent));
    let inside = [5, 0, 10, 15, 20, 30, 2, 8, 25].into_iter().find(|percent| is_allowed(*percent))?;
    let end = |mut good: i32, mut bad: i32| {
        while (bad - good).abs() > 1 {
            let middle = (good + bad) / 2;
            if is_allowed(middle) { good = middle } else { bad = middle }
        }
        f64::from(good)
    };
    Some((end(inside, SIGHT.0 - 1), end(inside, SIGHT.1 + 1)))
}

fn allows(sheet: &Sheet, garment: &Garment, spot: Spot, percent: f64) -> bool {
    let Ok(made) = record(&setting::set(sheet, garment, spot, percent)) else { return false };
    let opening = spot.opening();
    let of_edge = |found: &&Finding| match &found.place {
        Place::Opening(at) => *at == opening,
        Place::Section(at) => at.opening == opening,
        _ => false,
    };
    let critical = |walk: &crate::garment::OpeningWalk| {
        walk.worn.pressure_kpa.is_some_and(|kpa| Comfort::of(kpa) == Comfort::Critical)
    };
    !made.checks.iter().filter(of_edge).any(|found| AGAINST.contains(&found.code))
        && !setting::walk(&made, opening).is_some_and(critical)
}
