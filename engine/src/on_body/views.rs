//! What is seen of body and garment from each side.

use super::spline::{closed, mirrored, thinned, through};
use super::worn::{Edges, Place, Worn};
use crate::body::{Form, Lower};
use crate::curve::Path;
use crate::drawing::on_body::{Ink, Label, Part, Seen, View};
use crate::terms::WaistLevel;
use kurbo::{Point, Vec2};

/// A body with a garment on it.
pub(super) struct Scene<'a> {
    pub(super) form: &'a Form,
    pub(super) lower: &'a Lower,
    pub(super) worn: &'a Worn,
    pub(super) level: WaistLevel,
}

/// How much of the body is drawn above the waist level and below the crotch, mm.
const ABOVE: f64 = 55.0;
const BELOW: f64 = 170.0;
/// From one section drawn to the next, mm.
const STEP: f64 = 18.0;

/// A section of the right half: its level, its height, its points.
struct Slice {
    level: f64,
    z: f64,
    points: Vec<Vec2>,
}

impl Slice {
    fn side(&self) -> Point {
        Point::new(self.points.iter().map(|p| p.x).fold(0.0, f64::max), self.z)
    }

    fn inside(&self) -> Point {
        Point::new(self.points.iter().map(|p| p.x).fold(f64::INFINITY, f64::min), self.z)
    }

    /// As seen from the wearer's left, where the front is on the left.
    fn front(&self) -> Point {
        Point::new(-self.points.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max), self.z)
    }

    fn back(&self) -> Point {
        Point::new(-self.points.iter().map(|p| p.y).fold(f64::INFINITY, f64::min), self.z)
    }
}

pub(super) fn upright(p: &Place) -> Point {
    Point::new(p.x, p.z)
}

pub(super) fn sideways(p: &Place) -> Point {
    Point::new(-p.y, p.z)
}

fn from_below(p: &Place) -> Point {
    Point::new(p.x, -p.y)
}

fn seen(places: &[Place], by: fn(&Place) -> Point) -> Vec<Point> {
    thinned(&places.iter().map(by).collect::<Vec<_>>())
}

fn reversed(points: &[Point]) -> Vec<Point> {
    points.iter().rev().copied().collect()
}

impl Scene<'_> {
    pub(super) fn views(&self) -> Vec<View> {
        let slices = self.slices();
        vec![
            self.upright(Seen::Front, &slices, &self.worn.front),
            self.side(&slices),
            self.upright(Seen::Back, &slices, &self.worn.back).mirrored(),
            self.below(),
        ]
    }

    fn slice(&self, level: f64) -> Slice {
        let mut points = self.lower.section(self.form, level).to_vec();
        let wider = self.above(level);
        points.iter_mut().for_each(|p| *p *= wider);
        Slice { level, z: self.form.torso.height(level), points }
    }

    /// Above the waist level the form is drawn on as bodies are: out again from the narrowest
    /// place, further in from the navel. No garment is drafted on it.
    fn above(&self, level: f64) -> f64 {
        let up = (-level).max(0.0) / ABOVE;
        match self.level {
            WaistLevel::Natural => 1.0 + 0.04 * up * up,
            WaistLevel::Midway => 1.0 - 0.01 * up,
            WaistLevel::Navel => 1.0 - 0.05 * up,
        }
    }

    fn slices(&self) -> Vec<Slice> {
        let crotch = self.lower.crotch;
        let down = (crotch / STEP).ceil();
        let above = (1..=3).rev().map(|i| -ABOVE * f64::from(i) / 3.0);
        // The waist level itself is left out: the tape makes a kink there that no body has.
        let torso = (1..=down as u32).map(|i| crotch * f64::from(i) / (down + 0.5));
        let legs = [0.5, 4.0, 12.0, 30.0, 60.0, 90.0, 130.0, BELOW].map(|d| crotch + d);
        above.chain(torso).chain(legs).map(|level| self.slice(level)).collect()
    }

    /// Torso and thigh meet at the level of the crotch with a corner; outer contours run past it.
    fn apart_from_crotch<'s>(&self, slices: &'s [Slice]) -> impl Iterator<Item = &'s Slice> + use<'s> {
        let crotch = self.lower.crotch;
        slices.iter().filter(move |s| !(crotch - 24.0..crotch + 20.0).contains(&s.level))
    }

    /// From the front or the back: the half to the right of the middle, and its mirror image.
    fn upright(&self, from: Seen, slices: &[Slice], edges: &Edges) -> View {
        let mut view = View::of(from);
        let outer = thinned(&self.apart_from_crotch(slices).map(Slice::side).collect::<Vec<_>>());
        let crotch = Point::new(0.0, self.form.torso.height(self.lower.crotch));
        let legs = slices.iter().filter(|s| s.level > self.lower.crotch + 2.0).map(Slice::inside);
        let inner = thinned(&std::iter::once(crotch).chain(legs).collect::<Vec<_>>());
        let top = [Point::new(0.0, outer[0].y), outer[0]];
        view.add(Ink::Skin, mirrored(&[&top, &outer, &reversed(&inner)]));
        if from == Seen::Back {
            view.add_both(Ink::Crease, &self.seat_fold());
            view.add(Ink::Crease, through(&[crotch - Vec2::new(0.0, 70.0), crotch - Vec2::new(0.0, 35.0), crotch]));
        }
        let [top, side, leg, seam] =
            [&edges.top, &edges.side, &edges.leg, &edges.gusset_seam].map(|e| seen(e, upright));
        let lowest = seen(&edges.lowest, upright);
        view.add(Ink::Cloth, mirrored(&[&top, &side, &leg, &lowest]));
        view.add_both(Ink::Contour, &through(&outer));
        view.add_both(Ink::Contour, &through(&inner));
        view.add(Ink::Seam, across(&reversed(&seam)));
        view.add(Ink::TopEdge, across(&top));
        view.add_both(Ink::LegEdge, &through(&leg));
        // Behind, the lower half of it lies level with the crease under the seat.
        let down = if from == Seen::Back { 0.2 } else { 0.5 };
        let gusset = seam[seam.len() - 1].lerp(lowest[0], down).y;
        view.labels = labels(&top, &side, &leg, Point::new(0.0, gusset));
        view
    }

    /// Where the seat ends on the thigh.
    fn seat_fold(&self) -> Path {
        let fold = self.slice(self.lower.crotch + 6.0);
        let (inner, outer) = (fold.inside(), fold.side());
        let at = |share: f64, down: f64| Point::new(inner.x + (outer.x - inner.x) * share, fold.z + down);
        through(&[at(0.0, 2.0), at(0.22, 9.0), at(0.45, 7.0), at(0.62, 0.0)])
    }

    fn side(&self, slices: &[Slice]) -> View {
        let mut view = View::of(Seen::Side);
        let every_front: Vec<Point> = self.apart_from_crotch(slices).map(Slice::front).collect();
        let every_back: Vec<Point> = self.apart_from_crotch(slices).map(Slice::back).collect();
        let (front, back) = (thinned(&every_front), thinned(&every_back));
        view.add(Ink::Skin, closed(&[&front, &reversed(&back)]));
        let (before, behind) = (&self.worn.front, &self.worn.back);
        let top: Vec<Point> = before.top.iter().chain(behind.top.iter().rev().skip(1)).map(sideways).collect();
        let top = thinned(&top);
        let legs = [outer_part(&before.leg), outer_part(&behind.leg)];
        let leg: Vec<Point> = reversed(&legs[1]).into_iter().chain(legs[0].iter().skip(1).copied()).collect();
        let leg = thinned(&leg);
        let down = thinned(&contour(&every_back, top.last(), leg.first()));
        let up = reversed(&thinned(&contour(&every_front, top.first(), leg.last())));
        view.add(Ink::Cloth, closed(&[&top, &down, &leg, &up]));
        view.add(Ink::Contour, through(&front));
        view.add(Ink::Contour, through(&back));
        view.add(Ink::Seam, through(&seen(&before.side, sideways)));
        view.add(Ink::TopEdge, through(&top));
        view.add(Ink::LegEdge, through(&leg));
        view
    }

    /// From below: the garment with its leg openings, and the gusset between them.
    fn below(&self) -> View {
        let mut view = View::of(Seen::Below);
        let hull = self.form.torso.section(self.form.torso.waist_to_hip());
        let fullest = self.slice(self.form.torso.waist_to_hip().min(0.7 * self.lower.crotch));
        let mut whole: Vec<Point> = fullest.points.iter().map(|p| Point::new(p.x, -p.y)).collect();
        whole[0].y = -hull.front;
        if let Some(last) = whole.last_mut() {
            last.y = hull.back;
        }
        let whole = thinned(&whole);
        view.add(Ink::Cloth, mirrored(&[&whole]));
        view.add_both(Ink::Contour, &through(&whole));
        let (front, back) = (&self.worn.front, &self.worn.back);
        // The halves of the gusset meet at its lowest point.
        let opening: Vec<Point> = front.leg.iter().chain(back.leg.iter().rev().skip(1)).map(from_below).collect();
        let opening = thinned(&opening);
        view.add_both(Ink::Skin, &closed(&[&opening]));
        for seam in [&front.gusset_seam, &back.gusset_seam] {
            view.add(Ink::Seam, across(&reversed(&seen(seam, from_below))));
        }
        view.add_both(Ink::LegEdge, &through(&opening));
        view
    }
}

/// What an edge is called, at the middle of it: lines of the wearer's left half.
fn labels(top: &[Point], side: &[Point], leg: &[Point], gusset: Point) -> Vec<Label> {
    let middle = |line: &[Point]| through(line).at(0.5 * through(line).length()).0;
    let other = |p: Point| Point::new(-p.x, p.y);
    let label = |part, at| Label { part, at };
    vec![
        label(Part::TopEdge, other(middle(top))),
        label(Part::SideSeam, middle(side)),
        label(Part::LeftLeg, middle(leg)),
        label(Part::RightLeg, other(middle(leg))),
        label(Part::Gusset, gusset),
    ]
}

/// A line from the centre on, with its mirror image: one line across the centre.
fn across(half: &[Point]) -> Path {
    let other = half.iter().skip(1).rev().map(|p| Point::new(-p.x, p.y));
    through(&other.chain(half.iter().copied()).collect::<Vec<_>>())
}

/// The part of a leg edge that is seen from the side: from the side seam on to where it goes round.
fn outer_part(leg: &[Place]) -> Vec<Point> {
    let seen: Vec<Point> = leg.iter().take_while(|p| p.outside).map(sideways).collect();
    let Some(side) = seen.first().map(|p| p.x) else { return seen };
    let furthest = seen.iter().map(|p| (p.x - side).abs()).fold(0.0, f64::max);
    let end = seen.iter().position(|p| (p.x - side).abs() >= furthest).map_or(0, |i| i + 1);
    seen.into_iter().take(end).collect()
}

/// The part of a contour between two heights, ends included.
fn contour(all: &[Point], from: Option<&Point>, to: Option<&Point>) -> Vec<Point> {
    let (Some(from), Some(to)) = (from, to) else { return Vec::new() };
    let between = all.iter().filter(|p| p.y > from.y + 3.0 && p.y < to.y - 3.0);
    std::iter::once(from).chain(between).chain([to]).copied().collect()
}
