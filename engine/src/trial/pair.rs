//! Which two settings, on the two legs of the next test garment, teach most.

use super::belief::{Belief, likelihood};
use crate::terms::Verdict;

const VERDICTS: [Verdict; 3] = [Verdict::Loose, Verdict::Right, Verdict::Tight];

/// Less than this cannot be spread by hand, %: such an elastic is laid on flat. Common practice.
pub const SPREAD: f64 = 2.0;

/// A test garment is worn: a setting is tried only where it is at least this share as likely to be
/// comfortable as the likeliest.
const WEARABLE: f64 = 0.5;

/// Two settings in %, the lower first, out of the whole percents between two limits that can be worn: those
/// after whose verdicts the comfortable reduction is expected to be known best, by its variance.
///
/// The variance left is E[c²] − Σ (Σ c·p)²/Σ p over the nine answers; only the sum differs from
/// pair to pair, and the largest wins. Of equals, the first in rising order.
pub fn telling_most(belief: &Belief, (low, high): (f64, f64)) -> (f64, f64) {
    let settings = wearable(belief, whole_percents(low, high));
    let answers: Vec<[Vec<f64>; 3]> = settings.iter().map(|s| VERDICTS.map(|v| likely(belief, *s, v))).collect();
    let mut best = (f64::NEG_INFINITY, (low, low));
    for (i, first) in settings.iter().enumerate() {
        let weighted = answers[i].each_ref().map(|told| weigh(belief, told));
        for (second, told) in settings.iter().zip(&answers).skip(i) {
            // Alike, or so far apart that hands sew them otherwise.
            if (1e-9..SPREAD).contains(&(second - first)) {
                continue;
            }
            let known: f64 = weighted.iter().map(|first| known_after(first, told)).sum();
            // Sums in another order differ in their last digits.
            if known > best.0 + 1e-9 {
                best = (known, (*first, *second));
            }
        }
    }
    best.1
}

/// Every whole percent between two that can be sewn, at least the lower.
fn whole_percents(low: f64, high: f64) -> Vec<f64> {
    let whole = (low.ceil() as i32..=high.floor() as i32).map(f64::from);
    let whole: Vec<f64> = whole.filter(|percent| *percent == 0.0 || percent.abs() >= SPREAD).collect();
    if whole.is_empty() { vec![low] } else { whole }
}

fn wearable(belief: &Belief, settings: Vec<f64>) -> Vec<f64> {
    let chances: Vec<f64> = settings.iter().map(|s| belief.chance(*s)).collect();
    let least = WEARABLE * chances.iter().copied().fold(0.0, f64::max);
    settings.into_iter().zip(chances).filter(|(_, chance)| *chance >= least).map(|(setting, _)| setting).collect()
}

fn likely(belief: &Belief, setting: f64, verdict: Verdict) -> Vec<f64> {
    belief.weights().map(|(c, _)| likelihood(setting, verdict, c)).collect()
}

/// How likely each comfortable reduction is together with an answer, and that times the reduction.
fn weigh(belief: &Belief, answer: &[f64]) -> Vec<(f64, f64)> {
    belief.weights().zip(answer).map(|((c, weight), likely)| (weight * likely, c * weight * likely)).collect()
}

/// What is known after one answer on the first leg and each of three on the second.
fn known_after(first: &[(f64, f64)], second: &[Vec<f64>; 3]) -> f64 {
    let of = |answer: &Vec<f64>| {
        let sums = first.iter().zip(answer).fold((0.0, 0.0), |sum, ((p, cp), l)| (sum.0 + p * l, sum.1 + cp * l));
        if sums.0 > 0.0 { sums.1 * sums.1 / sums.0 } else { 0.0 }
    };
    second.iter().map(of).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::belief::Told;

    /// Both legs too tight at 5 %: once 0 and 1 % were to be tried next, which no hand sews otherwise.
    #[test]
    fn two_settings_are_alike_or_can_be_told_apart_while_they_are_sewn() {
        for tight in [3.0, 5.0, 8.0, 12.0] {
            let told = [Told { verdicts: vec![(tight, Verdict::Tight); 2], doubt: 0.0 }];
            let (low, high) = telling_most(&Belief::usual((0.0, 10.0)).after(&told), (0.0, 15.0));
            assert!(low == high || high - low >= SPREAD, "{low} and {high} after {tight}");
            assert!([low, high].iter().all(|s| *s == 0.0 || *s >= SPREAD), "{low} and {high} after {tight}");
        }
    }
}
