//! Splines as cubics.

use kurbo::{CubicBez, Line, PathSeg, Point};

/// Between two knots, a spline that is not made of cubics end to end becomes so many chords.
const CHORDS: usize = 64;

/// Splines of more are not read.
const HIGHEST: usize = 10;

/// The segments of a spline without weights; nothing comes back where its numbers do not fit.
pub(super) fn segments(degree: usize, knots: &[f64], points: &[Point]) -> Option<Vec<PathSeg>> {
    let n = points.len();
    let is_ordered = knots.windows(2).all(|w| w[0] <= w[1]) && knots.iter().all(|k| k.is_finite());
    if !(1..=HIGHEST).contains(&degree) || n <= degree || knots.len() != n + degree + 1 || !is_ordered {
        return None;
    }
    if degree == 3 && is_end_to_end(knots) {
        let cubic = |w: &[Point]| PathSeg::Cubic(CubicBez::new(w[0], w[1], w[2], w[3]));
        return Some(points.windows(4).step_by(3).map(cubic).collect());
    }
    let mut at = vec![points_at(degree, knots, points, knots[degree])];
    for span in knots[degree..=n].windows(2).filter(|w| w[1] > w[0]) {
        let u = |i: usize| span[0] + (span[1] - span[0]) * i as f64 / CHORDS as f64;
        at.extend((1..=CHORDS).map(|i| points_at(degree, knots, points, u(i))));
    }
    Some(at.windows(2).map(|w| PathSeg::Line(Line::new(w[0], w[1]))).collect())
}

/// Does every knot but the first and last stand three times, and those four times?
fn is_end_to_end(knots: &[f64]) -> bool {
    let mut rest = knots;
    let mut counts = Vec::new();
    while let Some(first) = rest.first() {
        let count = rest.iter().take_while(|k| *k == first).count();
        counts.push(count);
        rest = &rest[count..];
    }
    let last = counts.len() - 1;
    last > 0 && counts.iter().enumerate().all(|(i, c)| *c == if i == 0 || i == last { 4 } else { 3 })
}

/// De Boor's algorithm.
fn points_at(degree: usize, knots: &[f64], points: &[Point], u: f64) -> Point {
    // The last span that begins before here and has a length: knots are in order.
    let begun = knots[degree + 1..points.len()].partition_point(|k| *k <= u) + degree;
    let first = knots[..begun].partition_point(|k| *k < knots[begun]);
    let span = if knots[begun + 1] > knots[begun] { begun } else { first.saturating_sub(1).max(degree) };
    let mut d: Vec<Point> = points[span - degree..=span].to_vec();
    for r in 1..=degree {
        for j in (r..=degree).rev() {
            let i = span - degree + j;
            let width = knots[i + degree + 1 - r] - knots[i];
            let share = if width > 0.0 { (u - knots[i]) / width } else { 0.0 };
            d[j] = d[j - 1].lerp(d[j], share);
        }
    }
    d[degree]
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurve;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    #[test]
    fn cubics_end_to_end_come_back_as_they_are() {
        let points: Vec<Point> = (0..7).map(|i| p(f64::from(i), f64::from(i * i % 5))).collect();
        let knots = [0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0, 2.0];
        let segments = segments(3, &knots, &points).unwrap();
        assert_eq!(segments.len(), 2);
        assert_eq!((segments[1].start(), segments[1].end()), (points[3], points[6]));
    }

    #[test]
    fn one_cubic_by_de_boor_is_the_cubic() {
        let points = [p(0.0, 0.0), p(10.0, 30.0), p(40.0, -20.0), p(60.0, 5.0)];
        let knots = [0.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0];
        let cubic = CubicBez::new(points[0], points[1], points[2], points[3]);
        for i in 0..=10 {
            let u = f64::from(i) / 10.0;
            assert!(points_at(3, &knots, &points, u).distance(cubic.eval(u)) < 1e-12);
        }
    }

    #[test]
    fn a_uniform_spline_keeps_inside_its_hull_and_bad_numbers_are_refused() {
        let points: Vec<Point> = (0..6).map(|i| p(f64::from(i) * 10.0, f64::from(i % 2) * 10.0)).collect();
        let knots: Vec<f64> = (0..10).map(f64::from).collect();
        let all = segments(3, &knots, &points).unwrap();
        assert_eq!(all.len(), 3 * CHORDS);
        assert!(all.iter().all(|s| (0.0..=10.0).contains(&s.start().y)));
        assert!(segments(3, &knots[1..], &points).is_none());
        assert!(segments(0, &knots, &points).is_none());
        assert!(segments(3, &[5.0, 4.0, 3.0, 2.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0], &points).is_none());
    }
}
