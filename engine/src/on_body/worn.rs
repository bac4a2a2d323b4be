//! From a place on a piece to a place on the body.
//!
//! A length along the centre of a piece is that length along the centre of the body, and a length
//! along the side seam is a depth along the side; between them a level line of the form rises on the
//! piece as it was drafted. Across, cloth near the centre lies as wide as it is cut, and the side
//! seam on the widest line of the form: ease and reduction are taken up, and every opening lies as
//! long as the body is there. The rings drawn are within 2 % of the worn girths of the record at the
//! top, and 3 % under to 8 % over them at the legs, where those come from the draft; a girth that was
//! measured moves no line.

use crate::body::{Form, Half, Lower, RIGID_SHARE, part};
use crate::curve::Path;
use crate::curve::float;
use crate::draft::{Draft, Panel, before_washing};
use crate::plan::Plan;
use kurbo::common::solve_itp;
use kurbo::{ParamCurve, Point, Vec2};

/// A place on the body, mm: x to the side, y to the front, z down from the waist level.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) z: f64,
    /// Is it on the outer face of the section, as seen from the side?
    pub(super) outside: bool,
}

/// The edges of half a garment as worn.
pub(super) struct Worn {
    pub(super) front: Edges,
    pub(super) back: Edges,
}

/// The edges of a half front or back with its part of the gusset.
pub(super) struct Edges {
    /// From the centre to the side.
    pub(super) top: Vec<Place>,
    /// From the top edge to the leg.
    pub(super) side: Vec<Place>,
    /// From the side seam to the lowest point of the gusset.
    pub(super) leg: Vec<Place>,
    /// From the leg edge to the centre.
    pub(super) gusset_seam: Vec<Place>,
    /// Across the gusset at its lowest point, from the leg edge to the centre.
    pub(super) lowest: Vec<Place>,
}

impl Worn {
    pub(super) fn of(draft: &Draft, plan: &Plan, form: &Form, lower: &Lower) -> Self {
        let (across, along) = before_washing(&plan.cloth);
        let tall = along * (1.0 + plan.cloth.ease_along);
        let lowest = plan.gusset.forward * plan.gusset.length * along;
        let gusset: Vec<Point> = samples(&draft.gusset.leg, GUSSET_POINTS);
        let half = |panel: &Panel, half: Half| {
            let seam = panel.gusset.start().y;
            // The gusset goes on below the panel, and is not eased.
            let below = |p: &Point| match half {
                Half::Front => p.y,
                Half::Back => draft.gusset.back.start().y - p.y,
            };
            let reach = if half == Half::Front { lowest } else { draft.gusset.back.start().y - lowest };
            let mut strip: Vec<Point> =
                gusset.iter().filter(|p| below(p) < reach).map(|p| Point::new(p.x, seam + below(p))).collect();
            let narrow = width_at(&gusset, lowest);
            strip.push(Point::new(narrow, seam + reach));
            strip.sort_by(|a, b| a.y.total_cmp(&b.y));
            let top = draft.knobs.drop_side - draft.side_raised;
            let side = Seam::of(panel, (top, draft.side_seam), (across, tall));
            let skin = Skin { form, lower, half, side, across, tall };
            skin.edges(panel, &strip)
        };
        Self { front: half(&draft.front, Half::Front), back: half(&draft.back, Half::Back) }
    }
}

const GUSSET_POINTS: usize = 16;

/// Half the gusset's width at a distance from its front seam.
fn width_at(leg: &[Point], y: f64) -> f64 {
    let i = leg.partition_point(|p| p.y < y).clamp(1, leg.len() - 1);
    let (a, b) = (leg[i - 1], leg[i]);
    a.x + (b.x - a.x) * part(y, a.y, b.y)
}

/// Points of a path, so many a segment.
fn samples(path: &Path, each: usize) -> Vec<Point> {
    let inside = path.segments().iter().flat_map(|s| (0..each).map(move |i| s.eval(i as f64 / each as f64)));
    inside.chain([path.end()]).collect()
}

/// The side seam by depth along it.
struct Seam {
    top: f64,
    foot: f64,
    /// At equal depths; x on the cloth, y along the body.
    points: Vec<Point>,
}

const SEAM_PARTS: usize = 8;

impl Seam {
    fn of(panel: &Panel, (top, length): (f64, f64), (across, tall): (f64, f64)) -> Self {
        let whole = panel.side.length();
        let at = |i: usize| panel.side.at(whole * i as f64 / SEAM_PARTS as f64).0;
        let points = (0..=SEAM_PARTS).map(at).map(|p| Point::new(p.x / across, p.y / tall)).collect();
        Self { top, foot: top + length, points }
    }

    /// At a depth; above and below the seam straight on.
    fn at(&self, depth: f64) -> Point {
        let (first, last) = (self.points[0], self.points[SEAM_PARTS]);
        if depth <= self.top {
            return first + Vec2::new(0.0, depth - self.top);
        }
        if depth >= self.foot {
            return last + Vec2::new(0.0, depth - self.foot);
        }
        let place = (depth - self.top) / (self.foot - self.top) * SEAM_PARTS as f64;
        let i = (place as usize).min(SEAM_PARTS - 1);
        self.points[i].lerp(self.points[i + 1], place - i as f64)
    }
}

/// The body under a half front or back.
struct Skin<'a> {
    form: &'a Form,
    lower: &'a Lower,
    half: Half,
    side: Seam,
    across: f64,
    tall: f64,
}

/// A level is found to this, mm: where the centre runs level under the body, a hundredth down is a whole
/// millimetre along.
const CLOSE: f64 = 2e-5;
/// Round the legs the cloth of the gusset bends down over this radius, mm.
const OVER_THIGH: f64 = 30.0;

impl Skin<'_> {
    fn edges(&self, panel: &Panel, strip: &[Point]) -> Edges {
        let worn = |points: Vec<Point>| points.into_iter().map(|p| self.place(p)).collect::<Vec<_>>();
        let mut leg = samples(&panel.leg, LEG_POINTS / panel.leg.segments().len().max(1));
        let corner = panel.gusset.start();
        leg.extend(strip.iter().filter(|p| p.y > corner.y + 1.0));
        let lowest = strip.last().copied().unwrap_or(corner);
        let to_centre = |from: Point| (0..=4).map(|i| from.lerp(Point::new(0.0, from.y), f64::from(i) / 4.0)).collect();
        Edges {
            top: worn(samples(&panel.top, TOP_POINTS / panel.top.segments().len().max(1))),
            side: worn(samples(&panel.side, SEAM_PARTS / panel.side.segments().len().max(1))),
            leg: worn(leg),
            gusset_seam: worn(to_centre(corner)),
            lowest: worn(to_centre(lowest)),
        }
    }

    /// Where a place on the piece lies on the body.
    fn place(&self, p: Point) -> Place {
        let (x, y) = (p.x / self.across, p.y / self.tall);
        let nearly = self.level(x, y);
        let share = (x / self.side.at(nearly).x).clamp(0.0, 1.0);
        let level = self.level(x, y - RIGID_SHARE * self.form.panel(self.half).sag(nearly, share));
        let side = self.side.at(level);
        let share = (x / side.x).clamp(0.0, 1.0);
        let arcs = Arcs::of(&self.lower.half_round(self.form, self.half, level), self.half);
        let along = x + (arcs.whole - side.x) * share * share;
        let on = arcs.at(along);
        let z = self.form.torso.height(level);
        // Between the legs the surface is a saddle: it bends down to either side.
        let (strip, turned) = self.strip(level, x);
        // Where the centre runs level the strip is all there is, from the front and from the back alike:
        // that is where both halves of the gusset meet.
        // There the power, which has no end at the side seam, would be no number.
        let weight = if turned < 1.0 { float::pow(turned, 1.0 / ((1.0 - share) * (1.0 - share))) } else { 1.0 };
        let mean = |a: f64, b: f64| a + (b - a) * weight;
        Place { x: mean(on.x, strip.x), y: mean(on.y, strip.y), z: mean(z, strip.z), outside: along >= arcs.outside }
    }

    /// The level whose line runs through a place of the piece, if level lines were parabolas.
    fn level(&self, x: f64, y: f64) -> f64 {
        let below = |level: f64| {
            let (centre, side) = (self.lower.centre(self.half, level), self.side.at(level));
            let share = (x / side.x).clamp(0.0, 1.0);
            centre + share * share * (side.y - centre) - y
        };
        let (low, high) = (-HIGHEST, self.lower.crotch);
        match (below(low), below(high)) {
            (over, _) if over >= 0.0 => low,
            (_, under) if under <= 0.0 => high,
            (over, under) => solve_itp(below, low, high, CLOSE, 1, 0.2 / (high - low), over, under),
        }
    }

    /// The same place on a strip that runs along the centre, and how far the centre has turned
    /// under the body, 0 to 1.
    fn strip(&self, level: f64, x: f64) -> (Place, f64) {
        let at = |level: f64| {
            let y = self.lower.centre_y(self.form, self.half, level);
            Vec2::new(y, self.form.torso.height(level))
        };
        let (here, above) = (at(level), at(level - TANGENT));
        let way = (here - above).normalize();
        let out = if self.half == Half::Front { Vec2::new(way.y, -way.x) } else { Vec2::new(-way.y, way.x) };
        let angle = (x / OVER_THIGH).min(1.4);
        let at = here + out * (OVER_THIGH * (1.0 - float::cos(angle)));
        (Place { x: OVER_THIGH * float::sin(angle), y: at.x, z: at.y, outside: false }, way.x * way.x)
    }
}

/// mm over which the way of the centre is read; it turns fast where it runs level.
const TANGENT: f64 = 0.01;
/// mm above the waist level that a top edge may reach.
const HIGHEST: f64 = 300.0;
const LEG_POINTS: usize = 20;
const TOP_POINTS: usize = 10;

/// A half section from one of its centres on.
struct Arcs {
    points: Vec<(f64, Vec2)>,
    /// From the centre to the side.
    whole: f64,
    /// From the centre to where the section lies furthest to the front, or to the back.
    outside: f64,
}

impl Arcs {
    fn of(half_round: &[Vec2], half: Half) -> Self {
        let mut points: Vec<(f64, Vec2)> = Vec::with_capacity(half_round.len());
        let (mut outside, mut furthest) = (0.0, f64::NEG_INFINITY);
        for at in half_round.iter().copied() {
            let along = points.last().map_or(0.0, |(along, before)| along + (at - *before).hypot());
            let out = if half == Half::Front { at.y } else { -at.y };
            if out > furthest {
                (outside, furthest) = (along, out);
            }
            points.push((along, at));
        }
        let whole = points.last().map_or(0.0, |(along, _)| *along);
        Self { points, whole, outside }
    }

    fn at(&self, along: f64) -> Vec2 {
        let i = self.points.partition_point(|(at, _)| *at < along).clamp(1, self.points.len() - 1);
        let ((a, from), (b, to)) = (self.points[i - 1], self.points[i]);
        from.lerp(to, part(along, a, b))
    }
}
