//! A curve as chords, no more of them than its tolerance needs.

use super::{Path, float};
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, PathSeg, Point};

/// The density of chords is looked at so many times along a cubic.
const LOOKS: usize = 16;

/// A cubic whose chords do not come close enough at this number is halved instead.
const MOST: usize = 4096;

impl Path {
    /// Points on the path, both ends and the joints of its segments among them, between which chords
    /// stray from it by `tolerance`, mm, at most (Hausdorff).
    ///
    /// A chord over an arc of length s and curvature κ strays by κs²/8, so that the fewest chords lie as
    /// densely as √κ (de Boor, "A Practical Guide to Splines", the distribution of breaks). Each chord is
    /// then measured, and more are taken until all keep within.
    pub fn chords(&self, tolerance: f64) -> Vec<Point> {
        let mut points = vec![self.start()];
        for segment in self.segments() {
            match segment {
                PathSeg::Line(line) => points.push(line.p1),
                PathSeg::Quad(quad) => of_cubic(&quad.raise(), tolerance, &mut points),
                PathSeg::Cubic(cubic) => of_cubic(cubic, tolerance, &mut points),
            }
        }
        points
    }
}

fn of_cubic(c: &CubicBez, tolerance: f64, points: &mut Vec<Point>) {
    let dense = density(c);
    let total = dense[LOOKS];
    let mut count = (total / (8.0 * tolerance).sqrt()).ceil().max(1.0);
    while count < MOST as f64 {
        let ends = shares(&dense, count as usize);
        if ends.windows(2).all(|w| strays(&c.subsegment(w[0]..w[1])) <= tolerance) {
            points.extend(ends[1..].iter().map(|t| if *t < 1.0 { c.eval(*t) } else { c.p3 }));
            return;
        }
        count = (1.1 * count).ceil().max(count + 1.0);
    }
    super::flatten_measured(c, tolerance, points);
}

/// The integral of √κ over the length up to each look, by the middle of each part.
fn density(c: &CubicBez) -> [f64; LOOKS + 1] {
    let (first, second) = (c.deriv(), c.deriv().deriv());
    let mut sum = [0.0; LOOKS + 1];
    for i in 0..LOOKS {
        let t = (i as f64 + 0.5) / LOOKS as f64;
        let (v, a) = (first.eval(t).to_vec2(), second.eval(t).to_vec2());
        let speed = float::hypot(v.x, v.y).max(1e-9);
        sum[i + 1] = sum[i] + (v.cross(a).abs() / speed).sqrt() / LOOKS as f64;
    }
    sum
}

/// Parameters that part the integral equally, 0 and 1 among them.
fn shares(sum: &[f64; LOOKS + 1], count: usize) -> Vec<f64> {
    let mut ends = Vec::with_capacity(count + 1);
    let mut look = 0;
    for k in 0..count {
        let want = sum[LOOKS] * k as f64 / count as f64;
        while look + 1 < LOOKS && sum[look + 1] <= want {
            look += 1;
        }
        let part = sum[look + 1] - sum[look];
        let within = if part > 0.0 { ((want - sum[look]) / part).clamp(0.0, 1.0) } else { 0.0 };
        ends.push((look as f64 + within) / LOOKS as f64);
    }
    ends.push(1.0);
    ends
}

/// How far a cubic strays from its chord: exactly, where it does not turn back along it.
///
/// Across the chord it is 3t(1 − t)((1 − t)a + tb), a and b being how far its control points lie off.
fn strays(c: &CubicBez) -> f64 {
    let chord = c.p3 - c.p0;
    let length = chord.hypot();
    if length == 0.0 {
        return (c.p1 - c.p0).hypot().max((c.p2 - c.p0).hypot());
    }
    let unit = chord / length;
    let back = [c.p1, c.p2].iter().map(|p| (*p - c.p0).dot(unit)).map(|x| (-x).max(x - length)).fold(0.0, f64::max);
    let [a, b] = [c.p1, c.p2].map(|p| (p - c.p0).cross(unit));
    let off = |t: f64| (3.0 * t * (1.0 - t) * ((1.0 - t) * a + t * b)).abs();
    // Where it is farthest: the roots of 3(a − b)t² − 2(2a − b)t + a.
    let (lead, half) = (3.0 * (a - b), 2.0 * a - b);
    let root = (half * half - lead * a).max(0.0).sqrt();
    // Without cancellation: the one root by its sum, the other by the product.
    let sum = half + root.copysign(half);
    let farthest = [sum / lead, a / sum].map(|t| if t.is_finite() { off(t.clamp(0.0, 1.0)) } else { 0.0 });
    back.max(farthest[0]).max(farthest[1])
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurveArclen;
    use proptest::prelude::*;

    fn cubic() -> impl Strategy<Value = CubicBez> {
        let point = || (-100.0..100.0, -100.0..100.0).prop_map(|(x, y): (f64, f64)| Point::new(x, y));
        (point(), point(), point(), point()).prop_map(|(a, b, c, d)| CubicBez::new(a, b, c, d))
    }

    /// The farthest of many points of the curve from its own chord.
    fn off(c: &CubicBez, points: &[Point]) -> f64 {
        let to_part = |p: Point, a: Point, b: Point| {
            let along = b - a;
            let share = ((p - a).dot(along) / along.hypot2().max(1e-30)).clamp(0.0, 1.0);
            p.distance(a + along * share)
        };
        let nearest = |p: Point| points.windows(2).map(|w| to_part(p, w[0], w[1])).fold(f64::INFINITY, f64::min);
        (0..=400).map(|i| nearest(c.eval(f64::from(i) / 400.0))).fold(0.0, f64::max)
    }

    proptest! {
        #[test]
        fn chords_keep_within_their_tolerance(c in cubic(), decade in -3..1) {
            let tolerance = 10.0_f64.powi(decade);
            let points = Path::new(vec![PathSeg::Cubic(c)]).chords(tolerance);
            prop_assert_eq!((points[0], points[points.len() - 1]), (c.p0, c.p3));
            let off = off(&c, &points);
            prop_assert!(off <= tolerance * (1.0 + 1e-9), "{off} for {tolerance}");
        }
    }

    /// Found by setting two numbers of a sheet to their ends: kurbo counted more halvings than 64.
    #[test]
    fn a_curve_out_of_all_measure_has_places_too() {
        for reach in [1e6, 1e12, 1e30, 1e200, f64::INFINITY, f64::NAN] {
            let c = CubicBez::new((0.0, 0.0), (reach, 0.0), (reach, reach), (0.0, reach));
            let t = crate::curve::parameter_at(&PathSeg::Cubic(c), 10.0);
            assert!((0.0..=1.0).contains(&t), "{t} for {reach}");
        }
    }

    /// Found by numbers from the whole of what each key takes: ten seconds of halving.
    #[test]
    fn a_curve_out_of_all_measure_becomes_few_points() {
        for reach in [1e6, 1e12, 1e200, f64::INFINITY, f64::NAN] {
            let c = CubicBez::new((0.0, 0.0), (reach, 0.0), (reach, reach), (0.0, reach));
            let points = Path::new(vec![PathSeg::Cubic(c)]).flatten(0.001);
            assert!(points.len() < 5000, "{} for {reach}", points.len());
        }
    }

    /// A quarter of a circle of radius r takes (π/2)·√(r/8ε) chords.
    #[test]
    fn chords_are_no_denser_than_they_need() {
        let (r, k) = (100.0, 0.552_284_749_8 * 100.0);
        let quarter = CubicBez::new((r, 0.0), (r, k), (k, r), (0.0, r));
        for tolerance in [0.1, 0.01, 0.002] {
            let count = Path::new(vec![PathSeg::Cubic(quarter)]).chords(tolerance).len() - 1;
            let needed = quarter.arclen(1e-9) / (8.0 * r * tolerance).sqrt();
            assert!((count as f64) < 1.15 * needed + 1.0, "{count} for {needed}");
        }
    }
}
