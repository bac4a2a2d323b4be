//! The fair curve: a cubic spline with continuous curvature through what it has to keep, and with as
//! little variation of curvature as that leaves.

use crate::curve::float;
use kurbo::{CubicBez, PathSeg, Point, Vec2};
use nalgebra::{SMatrix, SVector};

/// Spans of the spline.
pub(super) const SPANS: usize = 11;
const BREAKS: usize = SPANS + 1;
const CONTROLS: usize = SPANS + 3;
/// Conditions that both coordinates have.
pub(super) const CONDITIONS: usize = 13;
const SIZE: usize = CONTROLS + CONDITIONS;

type Controls = SMatrix<f64, CONTROLS, 2>;

/// What is kept at a break.
#[derive(Clone, Copy, Default)]
pub(super) enum Condition {
    /// The curve passes there, mm.
    Through(Point),
    /// It has this derivative by arc length; of unit length, that is its direction.
    Along(Vec2),
    /// It has this second derivative by arc length, 1/mm: curvature times the normal.
    Bent(Vec2),
    /// Nothing yet.
    #[default]
    Free,
}

/// A condition and its break.
pub(super) type Kept = (usize, Condition);

/// A cubic spline over spans of given lengths. Its parameter is nearly its arc length.
pub(super) struct Spline {
    /// Of each span, in units of the mean span.
    spans: [f64; SPANS],
    /// The four basis functions that live on each span, in powers from its start.
    basis: [[Powers; 4]; SPANS],
    controls: Controls,
}

/// Coefficients of 1, s, s², s³.
type Powers = [f64; 4];

/// Solves for the spline that keeps every condition with the least Σ wᵢ·∫|x‴|².
///
/// By arc length |x‴|² = κ′² + κ⁴: the curve of least variation of curvature (Moreton and Séquin
/// 1992), with the third derivative of a cubic constant on each span. The stationary point is one
/// linear system (quadratic objective, linear conditions) in both coordinates; `upright` is a break
/// where x alone has no slope, put in afterwards with the multiplier that it needs.
///
/// None where the conditions contradict each other.
pub(super) fn solve(
    lengths: &[f64; SPANS],
    weights: &[f64; SPANS],
    kept: &[Kept; CONDITIONS],
    upright: usize,
) -> Option<Spline> {
    let unit = lengths.iter().sum::<f64>() / SPANS as f64;
    let spans = lengths.map(|l| l / unit);
    let mut spline = Spline { spans, basis: basis(&spans), controls: Controls::zeros() };
    let mut matrix = SMatrix::<f64, SIZE, SIZE>::zeros();
    let mut right = SMatrix::<f64, SIZE, 3>::zeros();
    for (j, (weight, span)) in weights.iter().zip(&spans).enumerate() {
        for (a, p) in spline.basis[j].iter().enumerate() {
            for (b, q) in spline.basis[j].iter().enumerate() {
                matrix[(j + a, j + b)] += weight * span * p[3] * q[3];
            }
        }
    }
    for (i, (at, condition)) in kept.iter().enumerate() {
        let row = CONTROLS + i;
        let (order, value) = match *condition {
            Condition::Through(p) => (0, p.to_vec2()),
            Condition::Along(v) => (1, v * unit),
            Condition::Bent(v) => (2, v * unit * unit),
            Condition::Free => {
                matrix[(row, row)] = 1.0;
                continue;
            }
        };
        for (column, coefficient) in spline.row(*at, order) {
            matrix[(row, column)] = coefficient;
            matrix[(column, row)] = coefficient;
        }
        (right[(row, 0)], right[(row, 1)]) = (value.x, value.y);
    }
    let mut slope = SVector::<f64, CONTROLS>::zeros();
    for (column, coefficient) in spline.row(upright, 1) {
        (slope[column], right[(column, 2)]) = (coefficient, coefficient);
    }
    let solved = matrix.lu().solve(&right)?;
    let answer = solved.fixed_rows::<CONTROLS>(0);
    let (x, y, turn) = (answer.column(0), answer.column(1), answer.column(2));
    let x = x - turn * (slope.dot(&x) / slope.dot(&turn));
    spline.controls = Controls::from_columns(&[x, y.into_owned()]);
    spline.controls.iter().all(|c| c.is_finite()).then_some(spline)
}

impl Spline {
    /// Controls and factors whose sum is the derivative of an order at a break.
    fn row(&self, at: usize, order: usize) -> impl Iterator<Item = (usize, f64)> + use<> {
        let (span, s) = if at < SPANS { (at, 0.0) } else { (SPANS - 1, self.spans[SPANS - 1]) };
        let basis = self.basis[span];
        (0..4).map(move |a| (span + a, derivative(&basis[a], s, order)))
    }

    /// Derivative of an order at s from the start of a span, in its own units.
    fn at(&self, span: usize, s: f64, order: usize) -> Vec2 {
        (0..4).fold(Vec2::ZERO, |sum, a| {
            let (c, factor) = (self.controls.row(span + a), derivative(&self.basis[span][a], s, order));
            sum + Vec2::new(c[0], c[1]) * factor
        })
    }

    /// The place at a break, mm.
    pub(super) fn point(&self, at: usize) -> Point {
        self.row(at, 0).fold(Point::ZERO, |p, (i, f)| p + Vec2::new(self.controls[(i, 0)], self.controls[(i, 1)]) * f)
    }

    /// The derivative at the start of a span.
    pub(super) fn heading(&self, span: usize) -> Vec2 {
        self.at(span, 0.0, 1)
    }

    /// Signed curvature in the middle of a span, hollow positive, 1/mm.
    pub(super) fn bend(&self, span: usize) -> f64 {
        self.curvature(span, 0.5 * self.spans[span])
    }

    /// Signed curvature at the start of a span, hollow positive, 1/mm.
    pub(super) fn bend_at(&self, span: usize) -> f64 {
        self.curvature(span, 0.0)
    }

    fn curvature(&self, span: usize, s: f64) -> f64 {
        let (v, a) = (self.at(span, s, 1), self.at(span, s, 2));
        -v.cross(a) / float::cube(v.hypot()).max(1e-12)
    }

    /// Arc length of a span, mm, by Gauss's three points.
    pub(super) fn length(&self, span: usize) -> f64 {
        let h = self.spans[span];
        let speed = |share: f64| self.at(span, share * h, 1).hypot();
        let side = 0.5 * (0.6_f64).sqrt();
        h * (5.0 * speed(0.5 - side) + 8.0 * speed(0.5) + 5.0 * speed(0.5 + side)) / 18.0
    }

    /// A span as a cubic.
    fn cubic(&self, span: usize) -> CubicBez {
        let third = self.spans[span] / 3.0;
        let (a, b) = (self.point(span), self.point(span + 1));
        let (v, w) = (self.at(span, 0.0, 1), self.at(span, self.spans[span], 1));
        CubicBez::new(a, a + v * third, b - w * third, b)
    }

    /// Spans as cubics, head to tail.
    pub(super) fn cubics(&self, spans: std::ops::Range<usize>) -> Vec<PathSeg> {
        spans.map(|j| PathSeg::Cubic(self.cubic(j))).collect()
    }
}

/// Derivative of a polynomial.
fn derivative([a, b, c, d]: &Powers, s: f64, order: usize) -> f64 {
    match order {
        0 => a + s * (b + s * (c + s * d)),
        1 => b + s * (2.0 * c + s * 3.0 * d),
        _ => 2.0 * c + 6.0 * d * s,
    }
}

/// The cubic B-splines on every span (Cox and de Boor's recursion, de Boor, *A Practical Guide to
/// Splines*, ch. IX), carried out on polynomials; the end knots are fourfold.
fn basis(spans: &[f64; SPANS]) -> [[Powers; 4]; SPANS] {
    let mut breaks = [0.0; BREAKS];
    for (j, span) in spans.iter().enumerate() {
        breaks[j + 1] = breaks[j] + span;
    }
    let knot = |i: isize| breaks[i.clamp(0, SPANS as isize) as usize];
    std::array::from_fn(|j| {
        let (mut row, j, start) = ([[1.0, 0.0, 0.0, 0.0], [0.0; 4], [0.0; 4], [0.0; 4]], j as isize, breaks[j]);
        for degree in 1..4_isize {
            let before = row;
            row = [[0.0; 4]; 4];
            for r in 0..degree {
                // The function of the degree below that starts at knot `first`.
                let first = j - degree + 1 + r;
                let (from, to) = (knot(first), knot(first + degree));
                let rising = times(&before[r as usize], (start - from) / (to - from), 1.0 / (to - from));
                let falling = times(&before[r as usize], (to - start) / (to - from), -1.0 / (to - from));
                add(&mut row[r as usize + 1], &rising);
                add(&mut row[r as usize], &falling);
            }
        }
        row
    })
}

/// A polynomial times a + b·s.
fn times(p: &Powers, a: f64, b: f64) -> Powers {
    [a * p[0], a * p[1] + b * p[0], a * p[2] + b * p[1], a * p[3] + b * p[2]]
}

fn add(sum: &mut Powers, p: &Powers) {
    for (s, v) in sum.iter_mut().zip(p) {
        *s += v;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::curve::curvature;

    fn through(places: [(usize, Point); 4], start: Vec2, end: Vec2) -> [Kept; CONDITIONS] {
        let mut kept = [(0, Condition::Free); CONDITIONS];
        for (k, (at, p)) in kept.iter_mut().zip(places) {
            *k = (at, Condition::Through(p));
        }
        kept[4] = (0, Condition::Along(start));
        kept[5] = (SPANS, Condition::Along(end));
        kept
    }

    fn solved(kept: &[Kept; CONDITIONS], lengths: &[f64; SPANS]) -> Spline {
        let Some(spline) = solve(lengths, &[1.0; SPANS], kept, 5) else { panic!("the conditions agree") };
        spline
    }

    fn cubics(spline: &Spline) -> Vec<CubicBez> {
        spline.cubics(0..SPANS).iter().map(PathSeg::to_cubic).collect()
    }

    /// A circle has no variation of curvature at all: conditions taken from one give it back, as
    /// nearly as cubics of a fifth of a right angle can.
    #[test]
    fn places_on_a_circle_give_the_circle() {
        // From the top round to the bottom, upright half way; y down, hollow to the right.
        let (radius, unit) = (100.0, std::f64::consts::PI / 10.0);
        let place = |i: usize| Point::ZERO + Vec2::from_angle(-unit * i as f64 - 0.5 * std::f64::consts::PI) * radius;
        let heading = |i: usize| Vec2::from_angle(-unit * i as f64 - std::f64::consts::PI);
        let kept = through([0, 5, 8, SPANS].map(|i| (i, place(i))), heading(0), heading(SPANS));
        let spline = solved(&kept, &[radius * unit; SPANS]);
        for c in cubics(&spline) {
            for t in [0.0, 0.3, 0.7, 1.0] {
                let bend = curvature(&c, t);
                assert!((bend * radius - 1.0).abs() < 0.06, "a radius of {}", 1.0 / bend);
            }
        }
    }

    #[test]
    fn the_curve_keeps_its_places_and_its_curvature_at_every_break() {
        let places = [(0, Point::new(200.0, -90.0)), (5, Point::new(32.0, 50.0)), (7, Point::new(60.0, 134.0))];
        let last = (SPANS, Point::new(220.0, 260.0));
        let kept = through([places[0], places[1], places[2], last], Vec2::new(-1.0, 0.1), Vec2::new(0.9, 0.4));
        let spline = solved(&kept, &[40.0; SPANS]);
        for (at, p) in places.into_iter().chain([last]) {
            assert!(spline.point(at).distance(p) < 1e-9, "{at}");
        }
        for pair in cubics(&spline).windows(2) {
            let (before, after) = (curvature(&pair[0], 1.0), curvature(&pair[1], 0.0));
            assert!((before - after).abs() < 1e-9, "{before} and {after}");
            assert!(pair[0].p3.distance(pair[1].p0) < 1e-9);
        }
    }

    #[test]
    fn conditions_that_contradict_each_other_have_no_curve() {
        let mut kept =
            through([0, 5, 8, SPANS].map(|i| (i, Point::new(i as f64, 0.0))), Vec2::new(1.0, 0.0), Vec2::new(1.0, 0.0));
        kept[6] = (5, Condition::Through(Point::new(5.0, 9.0)));
        assert!(solve(&[10.0; SPANS], &[1.0; SPANS], &kept, 5).is_none());
    }
}
