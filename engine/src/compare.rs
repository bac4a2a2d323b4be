//! Two garments side by side: what they stand on, and how far apart their pieces lie.

use crate::curve::Path;
use crate::drawing::{Piece, Role};
use crate::garment::{Garment, Used, Value};
use crate::keys::Key;
use crate::make::Made;
use kurbo::Point;

/// Everything in which the second garment differs from the first.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// Values in use that differ, those that only one of them has included.
    pub used: Vec<Differs>,
    /// Codes and places of checks that only the first one has.
    pub checks_gone: Vec<(String, String)>,
    /// Those that only the second one has.
    pub checks_new: Vec<(String, String)>,
    /// Titles of the steps of work that only the first one has.
    pub steps_gone: Vec<String>,
    /// Those that only the second one has.
    pub steps_new: Vec<String>,
    /// Every piece that either has.
    pub pieces: Vec<Pieces>,
}

/// A value in use.
#[derive(Clone, Debug, PartialEq)]
pub struct Differs {
    /// Of which key.
    pub key: Key,
    /// In the first garment.
    pub first: Option<Value>,
    /// In the second.
    pub second: Option<Value>,
}

/// One piece of both garments. Whole, inside the cut line.
#[derive(Clone, Debug, PartialEq)]
pub struct Pieces {
    /// Its name.
    pub name: String,
    /// Area in the first garment, mm²; none where it has no such piece.
    pub first: Option<f64>,
    /// In the second.
    pub second: Option<f64>,
    /// The largest distance of the two cut lines as they are drawn, mm: every point of either has
    /// the other within that (Hausdorff distance).
    pub apart: Option<f64>,
}

/// Compares two garments.
pub fn compare(first: &Made, second: &Made) -> Comparison {
    let (a, b) = (&first.garment, &second.garment);
    Comparison {
        used: used(a, b),
        checks_gone: only(&checks(a), &checks(b)),
        checks_new: only(&checks(b), &checks(a)),
        steps_gone: only(&steps(a), &steps(b)),
        steps_new: only(&steps(b), &steps(a)),
        pieces: pieces(first, second),
    }
}

fn used(a: &Garment, b: &Garment) -> Vec<Differs> {
    let value = |all: &[Used], key: &Key| all.iter().find(|used| used.key == *key).map(|used| used.value.clone());
    let more = b.used.iter().filter(|used| value(&a.used, &used.key).is_none());
    let keys = a.used.iter().chain(more).map(|used| &used.key);
    keys.map(|key| Differs { key: key.clone(), first: value(&a.used, key), second: value(&b.used, key) })
        .filter(|differs| differs.first != differs.second)
        .collect()
}

fn checks(garment: &Garment) -> Vec<(String, String)> {
    garment.checks.iter().map(|f| (f.code.to_owned(), f.place.to_string())).collect()
}

fn steps(garment: &Garment) -> Vec<String> {
    garment.order_of_work.iter().map(crate::words::work::title).collect()
}

fn only<T: PartialEq + Clone>(these: &[T], those: &[T]) -> Vec<T> {
    these.iter().filter(|one| !those.contains(one)).cloned().collect()
}

fn pieces(first: &Made, second: &Made) -> Vec<Pieces> {
    let drawn = |made: &Made, name: &str| made.drawing.pieces.iter().find(|p| p.name == name).map(Piece::unfolded);
    let area = |made: &Made, name: &str| made.garment.pieces.iter().find(|p| p.id.name() == name).map(|p| p.area_mm2);
    let more = second.drawing.pieces.iter().filter(|p| drawn(first, &p.name).is_none());
    let one = |piece: &Piece| {
        let name = &piece.name;
        let lines = (drawn(first, name).and_then(|p| cut_line(&p)), drawn(second, name).and_then(|p| cut_line(&p)));
        Pieces {
            name: name.clone(),
            first: area(first, name),
            second: area(second, name),
            apart: if let (Some(a), Some(b)) = lines { Some(apart(&a, &b)) } else { None },
        }
    };
    first.drawing.pieces.iter().chain(more).map(one).collect()
}

fn cut_line(piece: &Piece) -> Option<Path> {
    let cut = piece.loops.iter().find(|l| l.role == Role::Cut)?;
    cut.edges.iter().map(|edge| edge.path.clone()).reduce(Path::joined)
}

/// Between points of a line that are looked at, mm: the distance is right to half of it.
const STEP: f64 = 0.5;

/// The Hausdorff distance of two lines, mm, to a quarter of a millimetre.
pub fn apart(a: &Path, b: &Path) -> f64 {
    let (a, b) = (points(a), points(b));
    furthest(&a, &b).max(furthest(&b, &a))
}

/// Along a line, no further apart than a step.
fn points(path: &Path) -> Vec<Point> {
    let flat = path.flatten(0.01);
    let between = |w: &[Point]| {
        let parts = (w[0].distance(w[1]) / STEP).ceil().max(1.0) as usize;
        (0..parts).map(|i| w[0].lerp(w[1], i as f64 / parts as f64)).collect::<Vec<_>>()
    };
    flat.windows(2).flat_map(between).chain(flat.last().copied()).collect()
}

/// How far the furthest of some points lies from a line through others.
fn furthest(points: &[Point], line: &[Point]) -> f64 {
    let to_line = |p: &Point| {
        let square = |w: &[Point]| {
            let (along, off) = (w[1] - w[0], *p - w[0]);
            let t = if along.hypot2() > 0.0 { (off.dot(along) / along.hypot2()).clamp(0.0, 1.0) } else { 0.0 };
            (off - along * t).hypot2()
        };
        line.windows(2).map(square).fold(f64::INFINITY, f64::min)
    };
    points.iter().map(to_line).fold(0.0, f64::max).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;
    use kurbo::Vec2;

    fn brief() -> Made {
        crate::make(&support::sheet(&support::ordinary(), Base::named("brief").unwrap())).unwrap()
    }

    #[test]
    fn a_garment_does_not_differ_from_itself() {
        let found = compare(&brief(), &brief());
        assert!(found.used.is_empty() && found.checks_new.is_empty() && found.steps_gone.is_empty());
        assert!(found.pieces.iter().all(|p| p.apart == Some(0.0) && p.first == p.second), "{:?}", found.pieces);
    }

    /// A line moved by (3, 4) lies 5 away from itself at its ends, and a square in a larger one a
    /// corner's distance (by hand).
    #[test]
    fn distances_are_those_of_plain_shapes() {
        let line = Path::line(Point::new(0.0, 0.0), Point::new(30.0, 0.0));
        let moved = line.map(|p| p + Vec2::new(3.0, 4.0));
        assert!((apart(&line, &moved) - 5.0).abs() < 1e-9);
        let square = |r: f64| {
            let corners = [(-r, -r), (r, -r), (r, r), (-r, r), (-r, -r)].map(|(x, y)| Point::new(x, y));
            corners.windows(2).map(|w| Path::line(w[0], w[1])).reduce(Path::joined).unwrap()
        };
        assert!((apart(&square(10.0), &square(13.0)) - 3.0 * 2f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn a_wider_gusset_lies_as_far_apart_as_it_is_wider() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let old = crate::make(&sheet).unwrap();
        sheet.gusset.width = Some(support::mm(70.0));
        let new = crate::make(&sheet).unwrap();
        let found = compare(&old, &new);
        let gusset = found.pieces.iter().find(|p| p.name == "gusset").unwrap();
        assert!(gusset.second > gusset.first && gusset.apart.is_some_and(|mm| (2.0..5.0).contains(&mm)), "{gusset:?}");
        let keys: Vec<String> = found.used.iter().map(|d| d.key.to_string()).collect();
        assert_eq!(keys, ["gusset.width", "gusset.front_width", "gusset.back_width"]);
    }
}
