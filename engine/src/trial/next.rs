//! The next setting of every edge: a proposal, how sure it is, and what to try.

use super::belief::Belief;
use super::contradiction::{Contradiction, contradictions};
use super::evidence::{self, Carried, Judged};
use super::limits;
use super::pair::{SPREAD, telling_most};
use super::setting::{self, Spot, rounded};
use crate::garment::{Garment, OpeningWalk};
use crate::keys::Edges;
use crate::sheet::Sheet;
use crate::terms::{Section, Verdict};

/// As likely as this, a proposal is comfortable and needs no more trials.
pub const SURE: f64 = 0.9;

/// Between these two probabilities the interval lies: eight times out of ten it holds what it should.
const INTERVAL: (f64, f64) = (0.1, 0.9);

/// Legs are started between these reductions, %. Common practice: 0 where elastic is laid on, 10
/// where it has to hold.
pub const LEG_START: (f64, f64) = (0.0, 10.0);

/// In all, a top edge is worn at these stretches, %. Common practice.
pub const TOP_STRETCH: (f64, f64) = (10.0, 20.0);

/// Settings that are tried lie under this, %: the strongest that the trade uses, and half as much
/// again.
const TRIED: f64 = 30.0;

/// What to sew next on one spot. Settings are reductions in percent.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// The edge, or both legs.
    pub spot: Spot,
    /// As the sheet has it: of each opening.
    pub now: Vec<f64>,
    /// The comfortable setting lies in here, eight times out of ten or more: where the verdicts that stand
    /// hold; while they contradict each other, with as many of them mistaken as the model says. The
    /// proposal does as well.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The middle of what is believed, which the checks may hold back.
    pub estimate: f64,
    /// The best single setting: the estimate, or one near it that is easier to sew.
    pub proposal: f64,
    /// How likely it is that this is comfortable.
    pub chance: f64,
    /// Is that enough?
    pub converged: bool,
    /// What to try on the left leg and on the right one, where both are finished alike. While verdicts
    /// contradict each other, their settings, each on the other leg.
    pub pair: Option<(f64, f64)>,
    /// Of a single edge whose verdicts contradict each other, what to sew again.
    pub again: Option<f64>,
    /// Every verdict it stands on.
    pub judged: Vec<Judged>,
    /// Trials that cannot both be right.
    pub contradictions: Vec<Contradiction>,
    /// What the checks allow; none where they allow nothing.
    pub allowed: Option<(f64, f64)>,
    /// Was the proposal held back by that?
    pub held_back: bool,
}

impl Next {
    /// The contradiction that is to be settled first: the latest one.
    pub fn to_settle(&self) -> Option<&Contradiction> {
        self.contradictions.iter().rfind(|found| found.is_open())
    }
}

/// Every edge with something sewn on, then every part of one that was judged for itself.
pub fn next(sheet: &Sheet, garment: &Garment) -> Vec<Next> {
    spots(sheet, garment).into_iter().filter_map(|spot| of_spot(sheet, garment, spot)).collect()
}

fn spots(sheet: &Sheet, garment: &Garment) -> Vec<Spot> {
    let edges = if legs_alike(garment) {
        vec![Edges::Legs, Edges::Top]
    } else {
        vec![Edges::LeftLeg, Edges::RightLeg, Edges::Top]
    };
    let judged_alone = |spot: &Spot| sheet.trials.iter().any(|trial| evidence::concerns(trial, *spot));
    let parts = edges.iter().flat_map(|edge| {
        let part = |(_, section): &(&str, Section)| Spot { edge: *edge, section: Some(*section) };
        Section::ALL.iter().map(part).filter(judged_alone).collect::<Vec<_>>()
    });
    edges.iter().map(|edge| Spot::whole(*edge)).chain(parts).collect()
}

/// Is the same sewn on to both legs, so that what one teaches holds for the other?
fn legs_alike(garment: &Garment) -> bool {
    let what = |walk: &OpeningWalk| (walk.finish, walk.elastic.as_ref().map(|e| e.name.clone()));
    let [left, right] =
        [Edges::LeftLeg, Edges::RightLeg].map(|edge| setting::walk(garment, Spot::whole(edge).opening()));
    left.map(what) == right.map(what)
}

fn of_spot(sheet: &Sheet, garment: &Garment, spot: Spot) -> Option<Next> {
    let walk = setting::walk(garment, spot.opening())?;
    setting::of(walk, spot.section)?;
    let at = |o: &crate::terms::Opening| setting::of(setting::walk(garment, *o)?, spot.section);
    let now = spot.edge.openings().iter().filter_map(at).collect();
    let judged = evidence::judged(sheet, walk, spot);
    let allowed = limits::allowed(sheet, garment, spot);
    let (least, most) = allowed.unwrap_or((0.0, TRIED));
    let within = |percent: f64| percent.clamp(least, most);
    let start = start(walk, spot);
    let belief = Belief::usual(start).after(&evidence::told(&judged));
    let wanted = if judged.is_empty() { 0.5 * (start.0 + start.1) } else { belief.quantile(0.5) };
    let estimate = within(rounded(wanted));
    let contradictions = contradictions(&judged);
    let again = contradictions.iter().rfind(|c| c.is_open());
    let (low, high) = if judged.is_empty() { start } else { interval(start, &belief, &judged, &contradictions) };
    let (low, high) = (within(low).min(estimate), within(high).max(estimate));
    let kept = |setting: &f64| (low..=high).contains(setting) && within(*setting) == *setting;
    let right = judged.iter().filter(|one| one.verdict == Verdict::Right && one.carried == Carried::AsSewn);
    let known: Vec<f64> = right.map(|one| rounded(one.setting)).filter(kept).collect();
    let proposal = if judged.is_empty() { estimate } else { easier(&belief, estimate, &known, kept(&0.0)) };
    let chance = belief.chance(proposal);
    let converged = chance >= SURE && again.is_none();
    let pair = (spot.edge == Edges::Legs).then(|| match (converged, again) {
        (true, _) => (proposal, proposal),
        (false, Some(again)) => other_way_round(again, within),
        (false, None) if judged.is_empty() => (within(LEG_START.0), within(LEG_START.1)),
        (false, None) => telling_most(&belief, (least, most.min(TRIED).max(least))),
    });
    let again = again.filter(|_| pair.is_none()).map(|c| within(nearer(proposal, c)));
    Some(Next {
        spot,
        now,
        low,
        high,
        estimate,
        proposal,
        chance,
        converged,
        pair,
        again,
        held_back: (rounded(wanted) - estimate).abs() > 1e-9,
        contradictions,
        judged,
        allowed,
    })
}

/// A setting that is easier to sew than another one is taken in its place where it is at least this
/// share as likely to be comfortable.
const NEARLY: f64 = 0.9;

/// Of settings that are about as likely to be comfortable, the one that is known: what was right is kept,
/// and next to nothing is nothing.
pub(super) fn easier(belief: &Belief, estimate: f64, known: &[f64], may_be_flat: bool) -> f64 {
    let flat = (may_be_flat && estimate < SPREAD).then_some(0.0);
    let mut known = known.to_vec();
    known.sort_by(|a, b| (a - estimate).abs().total_cmp(&(b - estimate).abs()));
    let least = NEARLY * belief.chance(estimate);
    known.into_iter().chain(flat).find(|setting| belief.chance(*setting) >= least).unwrap_or(estimate)
}

/// Where comfort lies if the verdicts that nothing has refuted hold; while they contradict each
/// other, where it lies with some of them mistaken.
fn interval(start: (f64, f64), belief: &Belief, judged: &[Judged], found: &[Contradiction]) -> (f64, f64) {
    let is_refuted = |one: &Judged| found.iter().filter_map(|c| c.refuted.as_ref()).any(|r| r.trial == one.trial);
    let standing = evidence::told(judged.iter().filter(|one| !is_refuted(one)));
    let is_settled = !found.iter().any(Contradiction::is_open);
    let at_their_word = if is_settled { Belief::usual(start).at_their_word(&standing) } else { None };
    let of = at_their_word.as_ref().unwrap_or(belief);
    (of.quantile(INTERVAL.0), of.quantile(INTERVAL.1))
}

/// Both settings in question, each on the leg that it was not judged on.
fn other_way_round(again: &Contradiction, within: impl Fn(f64) -> f64) -> (f64, f64) {
    let (one, other) = (&again.one, &again.other);
    let [first, second] = [one, other].map(|judged| within(rounded(judged.setting)));
    if one.edge == Edges::LeftLeg || other.edge == Edges::RightLeg { (second, first) } else { (first, second) }
}

/// Of both settings in question the one that is easier to wear.
fn nearer(proposal: f64, again: &Contradiction) -> f64 {
    let [one, other] = [&again.one, &again.other].map(|judged| rounded(judged.setting));
    if (one - proposal).abs() <= (other - proposal).abs() { one } else { other }
}

/// Where the trade starts, %.
fn start(walk: &OpeningWalk, spot: Spot) -> (f64, f64) {
    if spot.edge != Edges::Top {
        return LEG_START;
    }
    let at = |stretch| setting::at_stretch(stretch, walk.worn.cloth_stretch);
    (at(TOP_STRETCH.0), at(TOP_STRETCH.1))
}
