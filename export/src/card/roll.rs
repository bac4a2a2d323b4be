//! Front and back rolled up between gusset and lining, cut across from one gusset seam to the other.

use super::cross::{LAYER, draw_ply, stitches_between};
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use engine::drawing::profile::Stuff;
use engine::words::card::{ROLL_FRONT, ROLL_LAYERS};
use kurbo::{BezPath, Point, Vec2};
use std::f64::consts::{PI, TAU};

/// From seam to seam, mm.
const SEAMS: f64 = 27.0;
/// From a seam to the raw edges of its allowances.
const ALLOWANCE: f64 = 3.0;
/// How far gusset and lining bulge from the middle, and the roll inside them.
const BULGE: f64 = 5.8;
const ROLL: f64 = 4.3;
/// From turn to turn of each of the two that are rolled up.
const PITCH: f64 = 3.4;
/// Room for the name of the front, left of it.
const FRONT: f64 = 9.6;
/// Over and under it.
const CLEAR: f64 = 1.6;

/// How high the picture is, mm.
pub(super) const HEIGHT: f64 = 2.0 * (BULGE + CLEAR);

/// Draws it from a corner on, its names in letters of this size.
pub(super) fn draw(canvas: &mut Canvas, setter: &mut Typesetter, at: Point, size: f64) {
    let middle = Point::new(at.x + FRONT + ALLOWANCE + 0.5 * SEAMS, at.y + 0.5 * HEIGHT);
    for side in [-1.0, 1.0] {
        draw_ply(canvas, Stuff::Cloth, &rolled(middle, side));
        draw_ply(canvas, Stuff::Cloth, &around(middle, side));
    }
    for side in [-1.0, 1.0] {
        let seam = middle + Vec2::new(side * 0.5 * SEAMS, 0.0);
        stitches_between(canvas, seam + Vec2::new(0.0, LAYER), seam - Vec2::new(0.0, LAYER));
    }
    let right = middle + Vec2::new(0.5 * SEAMS + ALLOWANCE + 1.2, 0.0);
    for (layer, name) in [-1.0, 0.0, 1.0].into_iter().zip(ROLL_LAYERS) {
        let foot = right + Vec2::new(0.0, layer * NAMES + BASELINE * size);
        canvas.text(setter, foot, Setting::level(size), name);
    }
    canvas.text(setter, Point::new(at.x, middle.y + BASELINE * size), Setting::level(size), ROLL_FRONT);
}

/// From name to name, mm, and from the middle of a small letter down to its line, in sizes.
const NAMES: f64 = 3.5;
const BASELINE: f64 = 0.3;

/// Gusset (above, -1) or lining, from the raw edges on one side to those on the other.
fn around(middle: Point, side: f64) -> BezPath {
    let at = |x: f64, y: f64| middle + Vec2::new(x, side * y);
    let (seam, end) = (0.5 * SEAMS, 0.5 * SEAMS + ALLOWANCE);
    let mut path = BezPath::new();
    path.move_to(at(-end, LAYER));
    path.line_to(at(-seam, LAYER));
    path.curve_to(at(-0.75 * seam, LAYER), at(-0.6 * seam, BULGE), at(0.0, BULGE));
    path.curve_to(at(0.6 * seam, BULGE), at(0.75 * seam, LAYER), at(seam, LAYER));
    path.line_to(at(end, LAYER));
    path
}

/// Front (left, -1) or back, from its raw edge into the roll.
fn rolled(middle: Point, side: f64) -> BezPath {
    const STEPS: usize = 24;
    let at = |x: f64, y: f64| middle + side * Vec2::new(x, y);
    let mut path = BezPath::new();
    path.move_to(at(0.5 * SEAMS + ALLOWANCE, 0.0));
    path.line_to(at(0.5 * SEAMS, 0.0));
    // Onto the roll from above, and round it inwards until a quarter of a pitch is left in its middle.
    let turns = (ROLL - 0.25 * PITCH) / PITCH;
    let on_roll = |step: usize| {
        let turned = step as f64 / STEPS as f64 * turns;
        let angle = 0.5 * PI + TAU * turned;
        let on = (ROLL - PITCH * turned) * Vec2::from_angle(angle);
        at(on.x, -on.y)
    };
    path.curve_to(at(0.35 * SEAMS, 0.0), at(0.25 * SEAMS, -ROLL), on_roll(0));
    (1..=STEPS).for_each(|step| path.line_to(on_roll(step)));
    path
}
