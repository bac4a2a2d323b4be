//! A lay measured again, on the outlines themselves.

use super::shape::{self, Shape};
use super::{LayError, Placed, Turn};
use crate::check::polygon::{Bands, Place, cross};
use crate::curve::Path;
use crate::drawing::Piece;
use kurbo::{BezPath, Line, ParamCurveNearest, Point, Rect, Shape as _};

/// Chords of what is measured stray so far from the outline, mm.
pub(super) const FINE: f64 = 0.005;

/// The whole cut outline of a piece.
pub(super) struct Outline {
    /// Its curves.
    pub(super) path: BezPath,
    points: Vec<Point>,
    coarse: Vec<Point>,
    bounds: Rect,
}

impl Outline {
    pub(super) fn of(piece: &Piece) -> Self {
        let whole = piece.unfolded();
        let edges = whole.cut().map(|l| l.edges.as_slice()).unwrap_or_default();
        let path = Path::new(edges.iter().flat_map(|e| e.path.segments()).copied().collect());
        Self {
            points: path.flatten(FINE),
            coarse: path.flatten(shape::CHORD),
            bounds: path.bounds(),
            path: path.to_bez_path(),
        }
    }

    /// As it is laid.
    pub(super) fn shape(&self) -> Shape {
        Shape::of(&self.coarse, self.bounds)
    }
}

/// Every piece on the cloth, and every two of them at least the gap apart.
///
/// # Errors
/// [`LayError::Unsound`] for the first piece of which that is not so.
pub(super) fn check(
    outlines: &[Outline],
    placed: &[Placed],
    (width, length): (f64, f64),
    gap: f64,
) -> Result<(), LayError> {
    let laid: Vec<Laid> = placed.iter().map(|p| Laid::of(&outlines[p.wanted], p)).collect();
    let cloth = Rect::new(0.0, 0.0, width, length).inflate(1e-6, 1e-6);
    for (i, one) in laid.iter().enumerate() {
        let is_on = cloth.union(one.bounds) == cloth;
        // The curves lie nearer than the chords by what these stray.
        let is_clear = laid[..i].iter().all(|other| one.keeps(gap + 2.0 * FINE - 1e-6, other));
        if !is_on || !is_clear {
            return Err(LayError::Unsound { piece: placed[i].piece.clone() });
        }
    }
    Ok(())
}

/// An outline at its place.
struct Laid {
    points: Vec<Point>,
    bounds: Rect,
}

impl Laid {
    fn of(outline: &Outline, placed: &Placed) -> Self {
        let sign = match placed.turn {
            Turn::AsDrawn => 1.0,
            Turn::Half => -1.0,
        };
        let there = |p: Point| placed.at + sign * p.to_vec2();
        let b = outline.bounds;
        Self {
            points: outline.points.iter().map(|p| there(*p)).collect(),
            bounds: Rect::from_points(there(b.origin()), there(Point::new(b.x1, b.y1))),
        }
    }

    /// Is another at least so far away?
    fn keeps(&self, gap: f64, other: &Self) -> bool {
        if is_empty(self.bounds.inflate(gap, gap).intersect(other.bounds)) {
            return true;
        }
        let lies_in = |a: &Self, b: &Self| Bands::of(&b.points).place(a.points[0]) != Place::Outside;
        let (own, others) = (self.sides_near(other, gap), other.sides_near(self, gap));
        own.iter().all(|a| others.iter().all(|b| distance(*a, *b) >= gap))
            && !lies_in(self, other)
            && !lies_in(other, self)
    }

    /// The sides that come so near the box of another.
    fn sides_near(&self, other: &Self, gap: f64) -> Vec<Line> {
        let near = other.bounds.inflate(gap, gap);
        let sides = self.points.windows(2).map(|w| Line::new(w[0], w[1]));
        sides.filter(|l| !is_empty(near.intersect(l.bounding_box().inflate(1e-9, 1e-9)))).collect()
    }
}

fn is_empty(rect: Rect) -> bool {
    rect.width() <= 0.0 || rect.height() <= 0.0
}

/// Between two sides, mm.
fn distance(a: Line, b: Line) -> f64 {
    if cross((a.p0, a.p1), (b.p0, b.p1)) {
        return 0.0;
    }
    let from = |p: Point, l: Line| l.nearest(p, 1e-9).distance_sq;
    [from(a.p0, b), from(a.p1, b), from(b.p0, a), from(b.p1, a)].into_iter().fold(f64::INFINITY, f64::min).sqrt()
}
