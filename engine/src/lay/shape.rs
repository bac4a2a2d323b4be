//! A cut outline as the polygon that is laid.

use super::minkowski::{Corner, corner_turn};
use crate::curve::float;
use kurbo::{Line, ParamCurveNearest, Point, Rect, Vec2};

/// Where a piece lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    /// Its origin, mm.
    pub(super) at: Point,
    /// Is it turned by half a turn?
    pub(super) is_turned: bool,
}

/// Micrometres to the millimetre: the grid on which polygons are laid.
const GRID: f64 = 1000.0;
/// Chords of the curves stray so far from them, and are then made fewer, mm.
pub(super) const CHORD: f64 = 0.01;
/// Corners are left out where a longer chord strays no further than this from them, mm.
const FEWER: f64 = 0.06;

/// Corners of what stands for a circle.
const ROUND: usize = 24;

/// How far the polygon of a shape strays from its outline at most, mm: chords, fewer chords, grid.
pub(super) const STRAY: f64 = CHORD + FEWER + 1.0 / GRID;

/// A cut outline: the same for every piece of that outline.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shape {
    /// Within [`STRAY`] of the outline.
    pub(super) polygon: Vec<Corner>,
    /// Round the outline itself, outwards to whole micrometres, mm: what is computed from it does not
    /// hang on the last digits of the curves.
    pub(super) bounds: Rect,
}

impl Shape {
    /// Of an outline as a closed line of points within the chord tolerance of it.
    pub(super) fn of(points: &[Point], bounds: Rect) -> Self {
        let down = |mm: f64| (mm * GRID).floor() / GRID;
        let up = |mm: f64| (mm * GRID).ceil() / GRID;
        Self {
            polygon: without_straight(fewer(points, FEWER).into_iter().map(on_grid).collect()),
            bounds: Rect::new(down(bounds.x0), down(bounds.y0), up(bounds.x1), up(bounds.y1)),
        }
    }
}

fn on_grid(p: Point) -> Corner {
    let whole = |mm: f64| (mm * GRID).round() as i32;
    Corner::new(whole(p.x), whole(p.y))
}

/// A corner in mm.
pub(super) fn to_mm(p: Corner) -> Point {
    Point::new(f64::from(p.x) / GRID, f64::from(p.y) / GRID)
}

/// The polygon all round which a shape keeps a distance: about a circle, corners outside it.
pub(super) fn round(distance: f64) -> Vec<Corner> {
    let part = std::f64::consts::TAU / ROUND as f64;
    let radius = distance / float::cos(0.5 * part);
    (0..ROUND).map(|i| on_grid(Point::new(0.0, 0.0) + radius * Vec2::from_angle(i as f64 * part))).collect()
}

/// Places moved to whole micrometres.
pub(super) fn on_micrometres(places: Vec<Place>) -> Vec<Place> {
    let whole = |mm: f64| (mm * GRID).round() / GRID;
    places.into_iter().map(|p| Place { at: Point::new(whole(p.at.x), whole(p.at.y)), ..p }).collect()
}

/// As long a chord as possible from each corner that is kept to the next, of a closed line that ends where it
/// begins; it strays from what it
/// stands for by no more than the tolerance, mm.
pub(super) fn fewer(points: &[Point], tolerance: f64) -> Vec<Point> {
    let strays = |from: usize, to: usize| {
        let chord = Line::new(points[from], points[to]);
        points[from + 1..to].iter().any(|p| chord.nearest(*p, 1e-9).distance_sq > tolerance * tolerance)
    };
    let mut kept = Vec::new();
    let mut from = 0;
    while from + 1 < points.len() {
        kept.push(points[from]);
        let mut to = from + 1;
        while to + 1 < points.len() && !strays(from, to + 1) {
            to += 1;
        }
        from = to;
    }
    kept
}

/// Without corners at which nothing turns.
fn without_straight(polygon: Vec<Corner>) -> Vec<Corner> {
    let mut kept: Vec<Corner> = polygon;
    loop {
        let n = kept.len();
        let turns = |i: &usize| corner_turn(&kept, *i) != 0;
        let next: Vec<Corner> = (0..n).filter(turns).map(|i| kept[i]).collect();
        if next.len() == n {
            return kept;
        }
        kept = next;
    }
}
