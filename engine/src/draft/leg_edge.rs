//! Solving the shape for a wanted length of leg edge.

use super::{Draft, draft, draft_on};
use crate::body::Form;
use crate::finding::Finding;
use crate::finding::fact::DraftFact;
use crate::plan::{Knobs, Plan};
use nalgebra::Vector3;

/// Drafts so that the leg edge has the wanted length, where the sheet asks for one.
///
/// Moves the knobs that the sheet leaves free (side seam, scoop, cover) by the smallest step that
/// meets the length: Newton's method with the minimum-norm step of the one equation, each knob in
/// units of its own range. What comes back is measured: a residual over 0.001 mm is refused.
///
/// # Errors
/// The draft's own, or the reachable range where the length is out of reach.
pub fn solve_leg_edge(plan: &Plan) -> Result<Draft, Finding> {
    let Some(wanted) = plan.knobs.leg_edge else { return draft(plan) };
    let range = Range::of(&plan.knobs);
    let form = Form::of(&plan.body);
    let length = |at: &Vector3<f64>| {
        draft_on(&form, plan, &range.knobs(&plan.knobs, at)).map(|d| d.washed_leg_ring(&plan.cloth))
    };
    let mut at = range.start;
    for _ in 0..MAX_STEPS {
        let Ok(now) = length(&at) else { break };
        let residual = wanted - now;
        if residual.abs() < RESIDUAL {
            return draft_on(&form, plan, &range.knobs(&plan.knobs, &at));
        }
        let slope = within(range.slope(&at, now, &length), &at, residual);
        if slope.norm_squared() < 1e-9 {
            break;
        }
        let step = slope * (residual / slope.norm_squared());
        at = (at + step.cap_magnitude(0.25))
            .zip_map(&range.free, |v, free| if free > 0.0 { v.clamp(0.0, 1.0) } else { v });
    }
    let (least, most) = range.reach(&length).ok_or_else(|| out_of_reach(wanted, None))?;
    match between(wanted, (least.at, most.at), &length) {
        Some(at) => draft_on(&form, plan, &range.knobs(&plan.knobs, &at)),
        None => Err(out_of_reach(wanted, Some((least.length, most.length)))),
    }
}

/// Halving on the straight way from the shortest to the longest leg edge, where Newton's method
/// stalled at the corner of the ranges: the length is continuous, so it is met on the way.
fn between(
    wanted: f64,
    (mut short, mut long): (Vector3<f64>, Vector3<f64>),
    length: &impl Fn(&Vector3<f64>) -> Result<f64, Finding>,
) -> Option<Vector3<f64>> {
    for _ in 0..MAX_STEPS {
        let middle = (short + long) * 0.5;
        let residual = wanted - length(&middle).ok()?;
        if residual.abs() < RESIDUAL {
            return Some(middle);
        }
        if residual > 0.0 { short = middle } else { long = middle }
    }
    None
}

/// A place in the ranges, and the leg edge there.
#[derive(Clone, Copy)]
struct Reached {
    length: f64,
    at: Vector3<f64>,
}

/// Without the knobs that are at the end of their range and would have to go beyond it: their
/// part of the step falls to the others.
fn within(slope: Vector3<f64>, at: &Vector3<f64>, residual: f64) -> Vector3<f64> {
    slope.zip_map(at, |s, v| {
        let outward = s * residual;
        if (v >= 1.0 && outward > 0.0) || (v <= 0.0 && outward < 0.0) { 0.0 } else { s }
    })
}

const MAX_STEPS: u32 = 60;
/// mm.
const RESIDUAL: f64 = 1e-3;
/// Of a knob's range.
const DIFFERENCE: f64 = 1e-4;

/// The three knobs in units of their ranges: side seam 0.5 to 1.5 of the base's, scoop and cover
/// 0 to 1.
struct Range {
    start: Vector3<f64>,
    /// 1 where a knob may move.
    free: Vector3<f64>,
}

impl Range {
    fn of(knobs: &Knobs) -> Self {
        let free = |is: bool| if is { 1.0 } else { 0.0 };
        Self {
            start: Vector3::new(0.5, knobs.scoop, knobs.cover),
            free: Vector3::new(free(knobs.free.side_seam), free(knobs.free.scoop), free(knobs.free.cover)),
        }
    }

    fn knobs(&self, base: &Knobs, at: &Vector3<f64>) -> Knobs {
        Knobs { side_seam: base.side_seam * (0.5 + at.x), scoop: at.y, cover: at.z, ..base.clone() }
    }

    /// Change of length per knob, 0 where it is not free or at the end of its range.
    fn slope(
        &self,
        at: &Vector3<f64>,
        now: f64,
        length: &impl Fn(&Vector3<f64>) -> Result<f64, Finding>,
    ) -> Vector3<f64> {
        Vector3::from_fn(|i, _| {
            let mut beside = *at;
            let step = if at[i] + DIFFERENCE > 1.0 { -DIFFERENCE } else { DIFFERENCE };
            beside[i] += step;
            self.free[i] * length(&beside).map_or(0.0, |l| (l - now) / step)
        })
    }

    /// Least and greatest length over a grid of the free knobs.
    fn reach(&self, length: &impl Fn(&Vector3<f64>) -> Result<f64, Finding>) -> Option<(Reached, Reached)> {
        let steps = |i: usize| -> Vec<f64> {
            if self.free[i] > 0.0 { (0..=4).map(|k| f64::from(k) / 4.0).collect() } else { vec![self.start[i]] }
        };
        let mut found: Option<(Reached, Reached)> = None;
        for (x, y) in steps(0).into_iter().flat_map(|x| steps(1).into_iter().map(move |y| (x, y))) {
            for z in steps(2) {
                let at = Vector3::new(x, y, z);
                if let Ok(length) = length(&at) {
                    let here = Reached { length, at };
                    let (least, most) = found.unwrap_or((here, here));
                    let shorter = if here.length < least.length { here } else { least };
                    found = Some((shorter, if here.length > most.length { here } else { most }));
                }
            }
        }
        found
    }
}

fn out_of_reach(wanted: f64, reach: Option<(f64, f64)>) -> Finding {
    DraftFact::LegEdgeOutOfReach { wanted, reach }.into()
}
