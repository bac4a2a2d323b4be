//! Is there cloth between what two openings of a piece need?

use super::Subject;
use super::nesting::opening_of;
use super::polygon::{TOLERANCE, cross, to_side};
use crate::curve::Path;
use crate::finding::fact::OutlineFact;
use crate::garment::Piece;
use crate::terms::Opening;
use kurbo::{Point, Rect};

/// A strip narrower than a row of zigzag cannot be sewn along both its sides, mm; about 3 mm is a usual width
/// of it on knits (common practice).
const LEAST: f64 = 3.0;

/// Two openings of a piece whose finished edges and stitches come closer to each other than cloth can be sewn.
pub(super) fn narrow(s: &Subject<'_>, piece: &Piece) -> Option<OutlineFact> {
    let drafted = s.topology.pieces.iter().find(|p| p.id == piece.id)?;
    let rows = [&piece.finished, &piece.sewing].map(|row| &row.edges);
    let mut lines: Vec<(Opening, &Path, Rect)> = rows
        .into_iter()
        .flatten()
        .filter_map(|edge| Some((opening_of(drafted, edge.id)?, &edge.path, edge.path.bounds())))
        .collect();
    lines.sort_by_key(|(opening, ..)| *opening);
    let pairs = lines.iter().enumerate().flat_map(|(at, one)| lines[at + 1..].iter().map(move |other| (one, other)));
    let close = pairs.filter(|(one, other)| one.0 != other.0 && one.2.inflate(LEAST, LEAST).overlaps(other.2));
    let (one, other, between) = close
        .filter_map(|(one, other)| Some((one.0, other.0, distance_below(LEAST, one.1, other.1)?)))
        .min_by(|a, b| a.2.total_cmp(&b.2))?;
    Some(OutlineFact::StripNarrow { piece: piece.id, openings: [one, other], between, least: LEAST })
}

/// How far two paths are apart, if less than a limit.
fn distance_below(limit: f64, one: &Path, other: &Path) -> Option<f64> {
    let (ones, others) = (by_left_end(one), by_left_end(other));
    let mut least = limit;
    for &(a, b) in &ones {
        let (left, right) = (a.x - least, b.x + least);
        for &(c, d) in others.iter().take_while(|(c, _)| c.x <= right).filter(|(_, d)| d.x >= left) {
            least = least.min(apart((a, b), (c, d)));
        }
    }
    (least < limit).then_some(least)
}

/// The chords of a path, each from left to right, in order of their left ends.
fn by_left_end(path: &Path) -> Vec<(Point, Point)> {
    let points = path.flatten(TOLERANCE);
    let mut chords: Vec<_> =
        points.windows(2).map(|w| if w[0].x <= w[1].x { (w[0], w[1]) } else { (w[1], w[0]) }).collect();
    chords.sort_by(|a, b| a.0.x.total_cmp(&b.0.x));
    chords
}

/// Between two chords: nothing where they cross, else from an end of one to the other.
fn apart((a, b): (Point, Point), (c, d): (Point, Point)) -> f64 {
    if cross((a, b), (c, d)) {
        return 0.0;
    }
    let ends = [to_side(c, (a, b)), to_side(d, (a, b)), to_side(a, (c, d)), to_side(b, (c, d))];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn line(a: (f64, f64), b: (f64, f64)) -> Path {
        Path::line(Point::from(a), Point::from(b))
    }

    #[test]
    fn lines_are_as_far_apart_as_they_are() {
        let level = line((0.0, 0.0), (100.0, 0.0));
        // Beside it, beyond its end, with an end over it, across it, on it.
        for (other, apart) in [
            (line((100.0, 2.0), (0.0, 2.0)), 2.0),
            (line((103.0, 4.0), (200.0, 4.0)), 5.0),
            (line((40.0, 1.5), (40.0, 90.0)), 1.5),
            (line((40.0, -50.0), (60.0, 50.0)), 0.0),
            (line((20.0, 0.0), (60.0, 0.0)), 0.0),
        ] {
            for (one, other) in [(&level, &other), (&other, &level)] {
                let found = distance_below(apart + 0.1, one, other).unwrap();
                assert!((found - apart).abs() < 1e-9, "{found} of {apart}");
                assert_eq!(distance_below(apart, one, other), None, "{apart}");
            }
        }
    }

    proptest! {
        /// The sweep leaves nothing out: every chord against every other one finds the same.
        #[test]
        fn the_sweep_finds_what_a_look_at_all_finds(
            one in proptest::collection::vec((0.0..200.0_f64, 0.0..200.0_f64), 2..8),
            other in proptest::collection::vec((0.0..200.0_f64, 0.0..200.0_f64), 2..8),
        ) {
            let path = |corners: &[(f64, f64)]| {
                corners.windows(2).map(|w| line(w[0], w[1])).reduce(Path::joined).unwrap()
            };
            let (a, b) = (path(&one), path(&other));
            let chords = |p: &Path| p.flatten(TOLERANCE).windows(2).map(|w| (w[0], w[1])).collect::<Vec<_>>();
            let all = chords(&a).into_iter().flat_map(|x| chords(&b).into_iter().map(move |y| apart(x, y)));
            let least = all.fold(f64::INFINITY, f64::min);
            let found = distance_below(20.0, &a, &b);
            prop_assert_eq!(found.is_some(), least < 20.0);
            prop_assert!(found.is_none_or(|found| (found - least).abs() < 1e-9), "{:?} of {}", found, least);
        }
    }
}
