//! Leg edges: one hollow at the front, two cubics over the seat at the back.

use super::panel::Upper;
use super::{Gusset, Panel};
use crate::curve::Path;
use crate::finding::Finding;
use crate::finding::fact::DraftFact;
use kurbo::{CubicBez, PathSeg, Point, Vec2};

/// The front leg falls at least this much per mm across, or it would run almost level.
const LEAST_FALL: f64 = 0.25;
/// And at least this much more than the square off the side seam, or there would be no hollow.
const FALL_OVER_SQUARE: f64 = 0.14;

/// How much the foot of the side seam has to come up for the front leg to fall enough, mm; 0 or
/// less where it does.
pub(super) fn lacking_fall(front: &Upper, gusset_width: f64) -> f64 {
    let (foot, square) = (front.foot(), front.square());
    let run = foot.x - 0.5 * gusset_width;
    let needed = LEAST_FALL.max(square.y / -square.x + FALL_OVER_SQUARE);
    needed * run - (front.y_gusset - foot.y)
}

/// The share of the way to the tangents' meeting point that the handles reach.
const SCOOP_FROM: f64 = 0.34;
const SCOOP_TO: f64 = 0.86;

/// One cubic from the side seam into the gusset's side: both handles lie on the legs of the
/// triangle of its tangents, short of the apex, so that it has no inflection.
pub(super) fn with_front_leg(front: Upper, gusset: &Gusset, scoop: f64) -> Result<Panel, Finding> {
    let foot = front.foot();
    let corner = Point::new(gusset.front.end().x, front.y_gusset);
    let (leaving, arriving) = (front.square(), gusset.leg.start_direction());
    let cross = leaving.cross(arriving);
    let to_corner = corner - foot;
    let first = to_corner.cross(arriving) / cross;
    let last = leaving.cross(to_corner) / cross;
    let least = 0.02 * to_corner.hypot();
    if !(cross.abs() > 1e-6 && first > least && last > least) || corner.x > foot.x - SHORTEST_RUN {
        return Err(no_hollow(2.0 * corner.x, 2.0 * foot.x));
    }
    let reach = SCOOP_FROM + (SCOOP_TO - SCOOP_FROM) * scoop;
    // On a flat triangle the short leg's handle reaches further, or the curve would be sharp there.
    let short = 1.0 - (1.0 - reach) * (last / first).min(1.0).sqrt();
    let leg = CubicBez::new(foot, foot + leaving * first * reach, corner - arriving * last * short, corner);
    Ok(front.with_leg(Path::cubic(leg)))
}

/// The least run of a leg edge across the piece, mm.
const SHORTEST_RUN: f64 = 15.0;

fn no_hollow(width: f64, front: f64) -> Finding {
    DraftFact::GussetTooWide { width, most: front - 2.0 * SHORTEST_RUN }.into()
}

/// Where the back leg passes the middle of its chord, as a share of the chord, outward positive.
const BARE: f64 = -0.20;
const FULL: f64 = 0.13;
/// End speeds of the spline in chord lengths; under one keeps the ends quick to turn.
const END_SPEED: f64 = 1.0;

/// Two cubics that meet over the seat with one tangent and one curvature: the C² spline through
/// the meeting point with clamped ends.
pub(super) fn with_back_leg(back: Upper, gusset: &Gusset, cover: f64) -> Result<Panel, Finding> {
    let foot = back.foot();
    let corner = Point::new(gusset.back.start().x, back.y_gusset);
    if corner.x > foot.x - SHORTEST_RUN || corner.y < foot.y + SHORTEST_RUN {
        return Err(back_leg_refusal(corner, foot));
    }
    let chord = corner - foot;
    let outward = Vec2::new(chord.y, -chord.x);
    let seat = foot + chord * 0.5 + outward * (BARE + (FULL - BARE) * cover);
    // On the back piece the gusset's side arrives from above: its direction at the back seam,
    // turned round by the half turn between gusset and back.
    let side = gusset.leg.end_direction();
    let arriving = Vec2::new(-side.x, side.y);
    let leaving = back.square();
    Ok(back.with_leg(clamped_spline([foot, seat, corner], leaving, arriving)))
}

fn back_leg_refusal(corner: Point, foot: Point) -> Finding {
    DraftFact::BackLeg { room: (foot.x - corner.x).min(corner.y - foot.y), least: SHORTEST_RUN }.into()
}

/// The C² cubic spline through three points with unit end directions (de Boor, *A Practical Guide
/// to Splines*, ch. IV; knots at chord lengths).
fn clamped_spline([a, b, c]: [Point; 3], leaving: Vec2, arriving: Vec2) -> Path {
    let (h, k) = ((b - a).hypot(), (c - b).hypot());
    let (start, end) = (leaving * END_SPEED, arriving * END_SPEED);
    let sum = 3.0 * ((b - a) / (h * h) + (c - b) / (k * k)) - start / h - end / k;
    let middle = sum / (2.0 * (1.0 / h + 1.0 / k));
    let segment = |p: Point, v: Vec2, q: Point, w: Vec2, h: f64| {
        PathSeg::Cubic(CubicBez::new(p, p + v * (h / 3.0), q - w * (h / 3.0), q))
    };
    Path::new(vec![segment(a, start, b, middle, h), segment(b, middle, c, end, k)])
}
