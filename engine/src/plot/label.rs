//! Where the text and the arrow of greatest stretch stand: clear of every line.

use super::room::{CELL, Grid, largest};
use crate::garment::Piece;
use kurbo::{Line, Point, Rect};

/// Text keeps this far from every line, mm.
const CLEAR: f64 = 2.5;
/// The arrow of greatest stretch with its word takes this height, mm.
pub(super) const ARROW: f64 = 9.0;

/// The arrow of greatest stretch, and the box for text above it.
pub(super) fn places(piece: &Piece, grain: &Line) -> (Line, Rect) {
    let room = largest_room(piece, grain);
    let y = room.y1 - 0.5 * ARROW;
    let half = (0.5 * room.width()).min(20.0);
    let x = room.center().x;
    let arrow = Line::new(Point::new(x - half, y), Point::new(x + half, y));
    (arrow, Rect::new(room.x0, room.y0, room.x1, room.y1 - ARROW))
}

/// Every line that text has to keep clear of, as polylines.
fn lines(piece: &Piece, grain: &Line) -> Vec<Vec<Point>> {
    let outlines = [&piece.cut, &piece.sewing, &piece.finished];
    let edges = outlines.into_iter().flat_map(|o| &o.edges).chain(&piece.second_row).chain(&piece.folds);
    let mut all: Vec<Vec<Point>> = edges.map(|e| e.path.flatten(0.2)).collect();
    all.push(vec![grain.p0, grain.p1]);
    // A notch reaches in from the cut line.
    all.extend(piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * 6.0]));
    all
}

/// The largest useful rectangle inside the piece that no line comes near.
fn largest_room(piece: &Piece, grain: &Line) -> Rect {
    let mut grid = Grid::over(super::bounds(piece));
    let outline: Vec<Point> = piece.cut.edges.iter().flat_map(|e| e.path.flatten(0.2)).collect();
    grid.free_inside(&outline);
    for line in lines(piece, grain) {
        dense(&line, |p| grid.take_round(p, CLEAR + CELL));
    }
    largest(&grid)
}

/// Points along a polyline, no further apart than a cell.
fn dense(line: &[Point], mut each: impl FnMut(Point)) {
    for w in line.windows(2) {
        let steps = (w[0].distance(w[1]) / CELL).ceil().max(1.0);
        for i in 0..=steps as usize {
            each(w[0].lerp(w[1], i as f64 / steps));
        }
    }
}
