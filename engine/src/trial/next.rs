//! The next setting of every edge: a proposal, how sure it is, and what to try.

use super::belief::{BAND, Belief};
use super::evidence::{self, Judged};
use super::limits;
use super::pair::telling_most;
use super::setting::{self, Spot, rounded};
use crate::garment::{Garment, OpeningWalk};
use crate::keys::Edges;
use crate::sheet::Sheet;
use crate::terms::{Section, Verdict};

/// As likely as this, a proposal is comfortable and needs no more trials.
pub const SURE: f64 = 0.9;

/// Between these two probabilities the interval lies.
const INTERVAL: (f64, f64) = (0.05, 0.95);

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
    /// The comfortable setting lies in here, nine times out of ten.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The best single setting.
    pub proposal: f64,
    /// How likely it is that this is comfortable.
    pub chance: f64,
    /// Is that enough?
    pub converged: bool,
    /// What to try on the left leg and on the right one, where both are finished alike.
    pub pair: Option<(f64, f64)>,
    /// Every verdict it stands on.
    pub judged: Vec<Judged>,
    /// Numbers of trials that cannot both be right.
    pub contradictions: Vec<Contradiction>,
    /// What the checks allow; none where they allow nothing.
    pub allowed: Option<(f64, f64)>,
    /// Was the proposal held back by that?
    pub held_back: bool,
}

/// Two verdicts that no single comfortable setting explains.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradiction {
    /// One.
    pub one: Judged,
    /// And the other.
    pub other: Judged,
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
    let start = start(walk, spot);
    let belief = Belief::usual(start).after(&evidence::told(sheet, walk, spot));
    let within = |percent: f64| percent.clamp(least, most);
    let wanted = if judged.is_empty() { 0.5 * (start.0 + start.1) } else { belief.quantile(0.5) };
    let proposal = within(rounded(wanted));
    let (low, high) =
        if judged.is_empty() { start } else { (belief.quantile(INTERVAL.0), belief.quantile(INTERVAL.1)) };
    let chance = belief.chance(proposal);
    let converged = chance >= SURE;
    let pair = (spot.edge == Edges::Legs).then(|| match (converged, judged.is_empty()) {
        (true, _) => (proposal, proposal),
        (false, true) => (within(LEG_START.0), within(LEG_START.1)),
        (false, false) => telling_most(&belief, (least, most.min(TRIED).max(least))),
    });
    let held_back = (rounded(wanted) - proposal).abs() > 1e-9;
    let contradictions = contradictions(&judged);
    Some(Next {
        spot,
        now,
        low: within(low),
        high: within(high),
        proposal,
        chance,
        converged,
        pair,
        judged,
        contradictions,
        allowed,
        held_back,
    })
}

/// Where the trade starts, %.
fn start(walk: &OpeningWalk, spot: Spot) -> (f64, f64) {
    if spot.edge != Edges::Top {
        return LEG_START;
    }
    let at = |stretch| setting::at_stretch(stretch, walk.worn.cloth_stretch);
    (at(TOP_STRETCH.0), at(TOP_STRETCH.1))
}

/// Every two that cannot both be right, however wide the band of comfort.
fn contradictions(judged: &[Judged]) -> Vec<Contradiction> {
    let mut all = Vec::new();
    for (i, one) in judged.iter().enumerate() {
        for other in &judged[i + 1..] {
            let (a, b) = (comfortable(one), comfortable(other));
            if a.0.max(b.0) > a.1.min(b.1) {
                all.push(Contradiction { one: one.clone(), other: other.clone() });
            }
        }
    }
    all
}

/// Where the comfortable setting lies if a verdict is right.
fn comfortable(judged: &Judged) -> (f64, f64) {
    let (at, doubt) = (judged.setting, judged.carried.doubt());
    match judged.verdict {
        Verdict::Right => (at - BAND.1 - doubt, at + BAND.1 + doubt),
        Verdict::Loose => (at + BAND.0 - doubt, f64::INFINITY),
        Verdict::Tight => (f64::NEG_INFINITY, at - BAND.0 + doubt),
    }
}
