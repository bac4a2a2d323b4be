//! Below the hip: the crotch, where the tape between the legs puts it, and two thighs.

use super::section::{Half, STEPS};
use super::{Form, part};
use crate::curve::float;
use crate::plan::parts::BodyPlan;
use kurbo::Vec2;
use nalgebra::{Matrix2, Vector2};
use std::sync::LazyLock;

/// The lower end of a body form. Levels are depths along the side, as everywhere.
#[derive(Clone, Debug)]
pub struct Lower {
    /// The level of the lowest point between the legs.
    pub crotch: f64,
    /// How far in front of the side line that point lies, mm; behind it negative.
    pub crotch_y: f64,
    /// What the tape between the legs is longer than the form, front and back, mm. Nothing but
    /// where the measurements contradict each other.
    pub residual: [f64; 2],
    /// Where the middle begins to draw in towards the crotch.
    start: f64,
    /// Where the outer sections begin to pass into thighs.
    split: f64,
    thigh: Thigh,
    /// Levels and lengths down the centre front and back.
    paths: [Vec<(f64, f64)>; 2],
}

/// A thigh just below the crotch, mm.
#[derive(Clone, Copy, Debug)]
struct Thigh {
    across: f64,
    deep: f64,
    /// Its middle.
    x: f64,
    y: f64,
}

/// The middle draws in from this share of the crotch's level on: under the pubic bone in front,
/// along the cleft at the back.
const DRAWS_IN: f64 = 0.55;
/// Half the width between the thighs at the crotch, as a share of the hip girth: 14 mm at 1000.
const HALF_BRIDGE: f64 = 0.014;
/// Parts of a path down a centre.
const PARTS: usize = 24;
const NEWTON_STEPS: usize = 14;
/// Points round a half section, from centre front to centre back.
const ROUND: usize = 2 * STEPS + 1;

impl Lower {
    /// Solves for the level and the place of the crotch, so that the paths down centre front and
    /// centre back are as long as the tape between the legs, by Newton's method.
    pub fn of(form: &Form, body: &BodyPlan) -> Self {
        let wanted = Vector2::new(body.crotch_front, body.crotch - body.crotch_front);
        let hip = form.torso.section(body.waist_to_hip);
        let (front, back) = (hip.front, hip.back);
        let least = 0.35 * body.crotch.min(2.0 * body.waist_to_hip);
        let within =
            |v: Vector2<f64>| Vector2::new(v.x.clamp(least, 0.6 * body.crotch), v.y.clamp(-0.8 * back, 0.8 * front));
        let lengths =
            |v: &Vector2<f64>| Vector2::new(length(&path(form, Half::Front, v)), length(&path(form, Half::Back, v)));
        let mut at = within(Vector2::new(0.39 * body.crotch, 0.5 * (front - back)));
        for _ in 0..NEWTON_STEPS {
            let residual = lengths(&at) - wanted;
            let column = |d: Vector2<f64>| lengths(&(at + d)) - wanted - residual;
            let slope = Matrix2::from_columns(&[column(Vector2::x()), column(Vector2::y())]);
            let Some(step) = slope.lu().solve(&residual) else { break };
            at = within(at - step.cap_magnitude(40.0));
        }
        let residual = wanted - lengths(&at);
        let split = body.waist_to_hip.min(0.75 * at.x);
        Self {
            crotch: at.x,
            crotch_y: at.y,
            residual: [residual.x, residual.y],
            start: DRAWS_IN * at.x,
            split,
            thigh: Thigh::of(form, body, at.x),
            paths: [path(form, Half::Front, &at), path(form, Half::Back, &at)],
        }
    }

    /// Length down the centre front or back to a level; below the crotch, all of it.
    pub(crate) fn centre(&self, half: Half, level: f64) -> f64 {
        if level <= 0.0 {
            return level;
        }
        let path = &self.paths[if half == Half::Front { 0 } else { 1 }];
        let i = path.partition_point(|(at, _)| *at < level).clamp(1, path.len() - 1);
        let ((a, from), (b, to)) = (path[i - 1], path[i]);
        from + (to - from) * part(level, a, b)
    }

    /// Where the centre lies at a level, y to the front.
    pub(crate) fn centre_y(&self, form: &Form, half: Half, level: f64) -> f64 {
        drawn_in(form, half, level, (self.start, self.crotch, self.crotch_y))
    }

    /// A half section at any level, from centre front round the side to centre back. Below the
    /// crotch it is a thigh.
    pub(crate) fn section(&self, form: &Form, level: f64) -> [Vec2; ROUND] {
        let (front, back) = (self.half_round(form, Half::Front, level), self.half_round(form, Half::Back, level));
        std::array::from_fn(|i| if i <= STEPS { front[i] } else { back[ROUND - 1 - i] })
    }

    /// The front or the back of such a section, from the centre to the side.
    pub(crate) fn half_round(&self, form: &Form, half: Half, level: f64) -> [Vec2; STEPS + 1] {
        let thigh = self.thigh_at(half, level);
        if level >= self.crotch {
            return std::array::from_fn(thigh);
        }
        let torso = form.torso.section(level).points(half);
        let outer = smooth((level - self.split) / (self.crotch - self.split));
        let centre = 1.0 - quarter((level - self.start) / (self.crotch - self.start));
        std::array::from_fn(|from_centre| {
            let whole = torso[from_centre];
            if from_centre == 0 {
                return whole.lerp(Vec2::new(0.0, self.crotch_y), centre);
            }
            let near = float::cube(1.0 - from_centre as f64 / STEPS as f64);
            whole.lerp(thigh(from_centre), outer + (centre - outer) * near)
        })
    }

    /// The points of the thigh that go with those of the torso.
    fn thigh_at(&self, half: Half, level: f64) -> impl Fn(usize) -> Vec2 {
        let below = ((level - self.crotch) / 100.0).max(0.0);
        // Thighs taper, and close up a little under the crotch; both begin gently.
        let taper = 1.0 - TAPER * below * below / (below + 1.0);
        let close = 0.35 + 0.65 * float::exp(-1.2 * below * below);
        let t = self.thigh;
        let across = t.across * taper;
        let x = (t.x - t.across) * close + across;
        move |from_centre| {
            let unit = ROUNDED[if half == Half::Front { from_centre } else { ROUND - 1 - from_centre }];
            Vec2::new(x - across * unit.x, t.y + t.deep * taper * unit.y)
        }
    }
}

/// A thigh of one unit across and deep.
static ROUNDED: LazyLock<[Vec2; ROUND]> = LazyLock::new(|| {
    std::array::from_fn(|i| {
        let (sin, cos) = float::sincos(std::f64::consts::TAU * i as f64 / (ROUND - 1) as f64);
        Vec2::new(squarer(cos), squarer(sin))
    })
});

/// Of a thigh's size, lost per 100 mm further down.
const TAPER: f64 = 0.075;
/// Thighs are squarer than ellipses, as torsos are, and so much longer round.
const SQUARER: f64 = 0.25;
const LONGER: f64 = 1.03;

fn squarer(unit: f64) -> f64 {
    unit * (1.0 - SQUARER) + SQUARER * unit.signum() * unit.abs().sqrt()
}

/// Where the thigh's outer side lies, as a share of the hip's half breadth.
const OUTER: f64 = 1.01;

impl Thigh {
    /// As broad as half the hip leaves room for, and as deep as its girth then asks for
    /// (perimeter of an ellipse by Ramanujan's first formula, solved by halving).
    fn of(form: &Form, body: &BodyPlan, crotch: f64) -> Self {
        let hip = form.torso.section(crotch);
        let bridge = HALF_BRIDGE * body.hip;
        let across = 0.5 * (OUTER * hip.half_breadth - bridge);
        let (mut low, mut high) = (0.3 * across, 3.0 * across);
        for _ in 0..30 {
            let deep = 0.5 * (low + high);
            let girth = LONGER
                * std::f64::consts::PI
                * (3.0 * (across + deep) - ((3.0 * across + deep) * (across + 3.0 * deep)).sqrt());
            if girth < body.thigh { low = deep } else { high = deep }
        }
        let deep = 0.5 * (low + high);
        // The thigh's front runs on from the belly's.
        Self { across, deep, x: bridge + across, y: (hip.front - deep).min(0.25 * deep) }
    }
}

/// The path down a centre to the crotch: closer together where it turns in.
fn path(form: &Form, half: Half, at: &Vector2<f64>) -> Vec<(f64, f64)> {
    let (crotch, y) = (at.x, at.y);
    let shape = (DRAWS_IN * crotch, crotch, y);
    let mut out = Vec::with_capacity(PARTS + 1);
    let (mut sum, mut before) = (0.0, None);
    for i in 0..=PARTS {
        let left = 1.0 - i as f64 / PARTS as f64;
        let level = crotch * (1.0 - left * left);
        let here = Vec2::new(drawn_in(form, half, level, shape), form.torso.height(level));
        if let Some(last) = before {
            let step: Vec2 = here - last;
            sum += step.hypot();
        }
        before = Some(here);
        out.push((level, sum));
    }
    out
}

fn length(path: &[(f64, f64)]) -> f64 {
    path.last().map_or(0.0, |(_, length)| *length)
}

/// The centre draws in from its depth to the crotch along a quarter of a superellipse.
fn drawn_in(form: &Form, half: Half, level: f64, (start, crotch, crotch_y): (f64, f64, f64)) -> f64 {
    let depth = form.torso.depth(half, level);
    let outer = if half == Half::Front { depth } else { -depth };
    crotch_y + (outer - crotch_y) * quarter((level - start) / (crotch - start))
}

/// A quarter of the superellipse x³ + y² = 1, from 1 at 0 to 0 at 1.
fn quarter(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    (1.0 - t * t * t).sqrt()
}

fn smooth(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}
