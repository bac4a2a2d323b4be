//! The stack of level sections from waist level to hip level, and straight on beyond both.

use super::girth::Girths;
use super::section::{Half, Section};
use crate::curve::float;
use crate::plan::parts::BodyPlan;

/// The torso of a body form.
#[derive(Clone, Debug)]
pub struct Torso {
    girths: Girths,
    waist_to_hip: f64,
    waist: Shares,
    hip: Shares,
    /// Heights under the waist level at equal steps of depth along the side.
    heights: [f64; LEVELS],
    /// Lengths along the centre front and the centre back down to the same levels.
    centres: [[f64; LEVELS]; 2],
    /// Depths of the front and the back at the same levels.
    depths: [[f64; LEVELS]; 2],
}

/// Levels from waist to hip at which the paths down the body are measured.
const LEVELS: usize = 17;

/// A section's measures as shares of its girth.
#[derive(Clone, Copy, Debug)]
struct Shares {
    half_breadth: f64,
    front: f64,
    back: f64,
}

/// The front's share of the depth at the waist.
const FRONT_OF_WAIST: f64 = 0.5;
/// The most that the front takes of the depth at the hip: the seat has at least the rest.
const FRONT_OF_HIP: f64 = 0.5;
/// How gently the one rule passes into the other, as a share of the depth.
const PASSING: f64 = 0.05;

impl Torso {
    pub(super) fn of(b: &BodyPlan) -> Self {
        Self::with(b, Girths::of(b))
    }

    /// Its front as deep as its back, and widening evenly: a cone, if the sections are round.
    #[cfg(test)]
    pub(super) fn cone(b: &BodyPlan) -> Self {
        let mut torso = Self::with(b, Girths::evenly(b));
        torso.hip =
            Shares::of(&Section::with_girth(b.hip, 0.5 * b.hip_breadth, 0.5 * b.hip_depth, 0.5 * b.hip_depth), b.hip);
        torso.measure();
        torso
    }

    fn with(b: &BodyPlan, girths: Girths) -> Self {
        let front_at_waist = FRONT_OF_WAIST * b.waist_depth;
        // The front is as deep at the hip as at the waist, and the back takes the rest; where a
        // belly makes the waist deeper than that, the front of the hip lies behind it.
        let front_at_hip = lesser(front_at_waist, FRONT_OF_HIP * b.hip_depth, PASSING * b.hip_depth);
        let waist = Section::with_girth(b.waist, 0.5 * b.waist_breadth, front_at_waist, b.waist_depth - front_at_waist);
        let hip = Section::with_girth(b.hip, 0.5 * b.hip_breadth, front_at_hip, b.hip_depth - front_at_hip);
        let mut torso = Self {
            girths,
            waist_to_hip: b.waist_to_hip,
            waist: Shares::of(&waist, b.waist),
            hip: Shares::of(&hip, b.hip),
            heights: [0.0; LEVELS],
            centres: [[0.0; LEVELS]; 2],
            depths: [[0.0; LEVELS]; 2],
        };
        torso.measure();
        torso
    }

    /// The paths down the side and the centres, level by level.
    fn measure(&mut self) {
        let step = self.waist_to_hip / (LEVELS - 1) as f64;
        let mut above = self.section(0.0);
        for (depths, half) in self.depths.iter_mut().zip([Half::Front, Half::Back]) {
            depths[0] = above.depth(half);
        }
        for i in 1..LEVELS {
            let here = self.section(step * i as f64);
            let height = height(step, here.half_breadth - above.half_breadth);
            self.heights[i] = self.heights[i - 1] + height;
            for (centre, half) in self.centres.iter_mut().zip([Half::Front, Half::Back]) {
                centre[i] = centre[i - 1] + float::hypot(height, here.depth(half) - above.depth(half));
            }
            for (depths, half) in self.depths.iter_mut().zip([Half::Front, Half::Back]) {
                depths[i] = here.depth(half);
            }
            above = here;
        }
    }

    /// The girth at a depth along the side: the tape's, exactly.
    pub fn girth(&self, depth: f64) -> f64 {
        self.girths.at(depth)
    }

    /// The section at a depth along the side.
    pub fn section(&self, depth: f64) -> Section {
        let t = (depth / self.waist_to_hip).clamp(0.0, 1.0);
        let way = t * t * (3.0 - 2.0 * t);
        let girth = self.girths.at(depth);
        let mean = |waist: f64, hip: f64| girth * (waist + (hip - waist) * way);
        Section::with_girth(
            girth,
            mean(self.waist.half_breadth, self.hip.half_breadth),
            mean(self.waist.front, self.hip.front),
            mean(self.waist.back, self.hip.back),
        )
    }

    /// How far a level lies under the waist level, straight down, mm.
    pub fn height(&self, depth: f64) -> f64 {
        along(&self.heights, depth, self.waist_to_hip)
    }

    /// Depth of the front or the back at a level, as [`Section::depth`], interpolated.
    pub(super) fn depth(&self, half: Half, depth: f64) -> f64 {
        let [front, back] = &self.depths;
        let table = if half == Half::Front { front } else { back };
        between(table, depth.clamp(0.0, self.waist_to_hip) / self.waist_to_hip)
    }

    /// Length along the centre front or centre back from waist level to the level at this depth.
    pub fn centre(&self, half: Half, depth: f64) -> f64 {
        let [front, back] = &self.centres;
        along(if half == Half::Front { front } else { back }, depth, self.waist_to_hip)
    }

    /// Depth along the side of the level that a centre reaches at this length: the inverse of
    /// [`Torso::centre`], to 1e-9 mm.
    pub fn level_at_centre(&self, half: Half, length: f64) -> f64 {
        let (mut low, mut high) = (0.0, self.waist_to_hip);
        if length <= 0.0 {
            return length;
        }
        let whole = self.centre(half, high);
        if length >= whole {
            return high + length - whole;
        }
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.centre(half, middle) < length { low = middle } else { high = middle }
        }
        0.5 * (low + high)
    }

    /// Waist level to hip level along the side, mm.
    pub fn waist_to_hip(&self) -> f64 {
        self.waist_to_hip
    }
}

/// A metre by 2^-44.
const HALVINGS: u32 = 44;

impl Shares {
    fn of(section: &Section, girth: f64) -> Self {
        Self { half_breadth: section.half_breadth / girth, front: section.front / girth, back: section.back / girth }
    }
}

/// The first of two up to the second, and beyond it no more than `gentle` over it, with one slope.
fn lesser(a: f64, b: f64, gentle: f64) -> f64 {
    let over = (a - b).max(0.0);
    a - over * over / (over + gentle)
}

/// How far a step along the side goes down that goes out by so much.
///
/// Girths that widen faster than the side is long are a slip of the tape; from a slope of 4 in 5
/// on the root is continued by what stays positive, with one slope.
fn height(step: f64, out: f64) -> f64 {
    let slope = (out / step).abs();
    step * if slope <= STEEPEST { (1.0 - slope * slope).sqrt() } else { 0.6 * float::exp(-(slope - STEEPEST) / 0.45) }
}

const STEEPEST: f64 = 0.8;

/// Between equal steps from 0 to `end` by cubics with one tangent (Catmull–Rom); beyond either
/// end straight on, one for one.
fn along(table: &[f64; LEVELS], depth: f64, end: f64) -> f64 {
    if depth <= 0.0 {
        return depth;
    }
    if depth >= end {
        return table[LEVELS - 1] + depth - end;
    }
    between(table, depth / end)
}

/// At a share of the way down, 0 to 1.
fn between(table: &[f64; LEVELS], share: f64) -> f64 {
    let place = share * (LEVELS - 1) as f64;
    let i = (place as usize).min(LEVELS - 2);
    let t = place - i as f64;
    let (a, b) = (table[i], table[i + 1]);
    let before = if i == 0 { 2.0 * a - b } else { table[i - 1] };
    let after = if i + 2 == LEVELS { 2.0 * b - a } else { table[i + 2] };
    let (p, q) = (0.5 * (b - before), 0.5 * (after - a));
    a + t * (p + t * (3.0 * (b - a) - 2.0 * p - q + t * (2.0 * (a - b) + p + q)))
}
