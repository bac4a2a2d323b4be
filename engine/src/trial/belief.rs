//! What is believed of one edge's comfortable reduction, on a fixed grid.
//!
//! The model, all of it. A person has one comfortable reduction c for an edge, with today's elastic
//! and cloth. Before any trial, c is where the trade starts ([`Belief::usual`]). A setting x is
//! judged `right` where |x − c| is within the band of comfort, `loose` below, `tight` above. The
//! band's half-width is not the same for everybody: anything in [`BAND`], all alike likely. One
//! verdict in [`WRONG`] is mistaken, for either of the other two alike. Settings under another
//! elastic or cloth are shifted by one unknown amount, common to all of them, evenly likely within
//! a stated doubt.
//!
//! Sources: that leg elastics are put on at 0 to 10 %, ready-made ones 10 to 20 %, that soft waist
//! elastics go on 5 to 8 % and firm ones 12 to 15 % shorter, is common practice; those ranges are 3
//! to 10 points wide, from which the band's width is taken. How often a verdict is mistaken is an
//! assumption, on the careful side. Only plain arithmetic, so that every machine gives the same.

use crate::terms::Verdict;

/// Half-width of the band of comfort, least and most, percentage points.
pub const BAND: (f64, f64) = (1.5, 4.5);

/// In the middle of it: within this a proposal counts as comfortable.
pub const HALF_BAND: f64 = 0.5 * (BAND.0 + BAND.1);

/// How often a verdict is mistaken.
pub const WRONG: f64 = 0.15;

const LEAST: f64 = -10.0;
const STEP: f64 = 0.25;
const POINTS: usize = 201;

/// The comfortable reduction at a point of the grid, %.
fn at(point: usize) -> f64 {
    LEAST + STEP * point as f64
}

/// Verdicts that were told under the same circumstances: setting in %, as of today, and verdict.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// Setting and verdict.
    pub verdicts: Vec<(f64, Verdict)>,
    /// How far all of the settings together may be off, percentage points.
    pub doubt: f64,
}

/// A distribution of the comfortable reduction.
#[derive(Clone, Debug, PartialEq)]
pub struct Belief(Vec<f64>);

impl Belief {
    /// Before any trial: level between two reductions in %, falling off on both sides, never to
    /// nothing where anybody has been comfortable.
    pub fn usual((low, high): (f64, f64)) -> Self {
        let corners = [(low - 10.0, 0.02), (low, 1.0), (high, 1.0), (high + 15.0, 0.5), (high + 30.0, 0.05)];
        Self((0..POINTS).map(|i| between(&corners, at(i))).collect()).levelled()
    }

    /// After these verdicts.
    pub fn after(&self, told: &[Told]) -> Self {
        told.iter().fold(self.clone(), |belief, group| belief.times(&likelihood_of(group, WRONG)))
    }

    /// After these verdicts, none of them mistaken; none where nothing is left that all of them allow.
    pub fn at_their_word(&self, told: &[Told]) -> Option<Self> {
        let belief = told.iter().fold(self.clone(), |belief, group| belief.times(&likelihood_of(group, 0.0)));
        belief.0.iter().all(|weight| weight.is_finite()).then_some(belief)
    }

    fn times(&self, likelihood: &[f64]) -> Self {
        Self(self.0.iter().zip(likelihood).map(|(a, b)| a * b).collect()).levelled()
    }

    /// Adding up to one.
    fn levelled(self) -> Self {
        let all: f64 = self.0.iter().sum();
        Self(self.0.into_iter().map(|weight| weight / all).collect())
    }

    /// The reduction in % that c lies under with this probability.
    pub fn quantile(&self, probability: f64) -> f64 {
        let mut below = 0.0;
        for (i, weight) in self.0.iter().enumerate() {
            if below + weight >= probability {
                return at(i) + STEP * ((probability - below) / weight - 0.5);
            }
            below += weight;
        }
        at(POINTS - 1)
    }

    /// How likely it is that a setting is comfortable.
    pub fn chance(&self, setting: f64) -> f64 {
        self.weights().filter(|(c, _)| (c - setting).abs() <= HALF_BAND).map(|(_, weight)| weight).sum()
    }

    /// Every reduction of the grid in %, and how likely it is.
    pub fn weights(&self) -> impl Iterator<Item = (f64, f64)> {
        self.0.iter().enumerate().map(|(i, weight)| (at(i), *weight))
    }
}

/// How likely a verdict on a setting is where `comfortable` is the comfortable reduction.
pub fn likelihood(setting: f64, verdict: Verdict, comfortable: f64) -> f64 {
    likely(setting, verdict, comfortable, WRONG)
}

fn likely(setting: f64, verdict: Verdict, comfortable: f64, wrong: f64) -> f64 {
    let off = setting - comfortable;
    let right = ((BAND.1 - off.abs()) / (BAND.1 - BAND.0)).clamp(0.0, 1.0);
    let meant = match verdict {
        Verdict::Right => right,
        Verdict::Loose if off < 0.0 => 1.0 - right,
        Verdict::Tight if off > 0.0 => 1.0 - right,
        Verdict::Loose | Verdict::Tight => 0.0,
    };
    (1.0 - wrong) * meant + 0.5 * wrong * (1.0 - meant)
}

fn likelihood_of(told: &Told, wrong: f64) -> Vec<f64> {
    let mut all = vec![1.0; POINTS];
    for (setting, verdict) in &told.verdicts {
        for (i, one) in all.iter_mut().enumerate() {
            *one *= likely(*setting, *verdict, at(i), wrong);
        }
        // However many there are, the numbers stay in range.
        let most = all.iter().copied().fold(0.0, f64::max);
        all.iter_mut().for_each(|one| *one /= most);
    }
    shifted(&all, told.doubt)
}

/// The mean over every shift within a doubt.
fn shifted(all: &[f64], doubt: f64) -> Vec<f64> {
    let reach = (doubt / STEP).round() as usize;
    let around = |i: usize| &all[i.saturating_sub(reach)..(i + reach + 1).min(POINTS)];
    (0..POINTS).map(|i| around(i).iter().sum::<f64>() / around(i).len() as f64).collect()
}

/// On a line through corners in rising order, level beyond them.
fn between(corners: &[(f64, f64)], x: f64) -> f64 {
    let first = corners.first().map_or(0.0, |c| c.1);
    let last = corners.last().map_or(0.0, |c| c.1);
    let inside = corners.windows(2).find(|w| x >= w[0].0 && x < w[1].0);
    let on = |w: &[(f64, f64)]| w[0].1 + (w[1].1 - w[0].1) * (x - w[0].0) / (w[1].0 - w[0].0);
    inside.map_or(if x < corners[0].0 { first } else { last }, on)
}
