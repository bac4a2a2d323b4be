//! Where the text and the arrow of greatest stretch stand: clear of every line.

use crate::garment::Piece;
use kurbo::{Line, Point, Rect};

/// Text keeps this far from every line, mm.
const CLEAR: f64 = 4.0;
/// Grid on which free room is looked for, mm.
const CELL: f64 = 2.0;
/// The largest text block that is of use, mm.
const WIDEST: f64 = 110.0;
const TALLEST: f64 = 62.0;
/// The arrow of greatest stretch with its word takes this height, mm.
const ARROW: f64 = 9.0;

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
    let edges = outlines.into_iter().flat_map(|o| &o.edges).chain(&piece.second_row);
    let mut all: Vec<Vec<Point>> = edges.map(|e| e.path.flatten(0.2)).collect();
    all.push(vec![grain.p0, grain.p1]);
    // A notch reaches in from the cut line.
    all.extend(piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * 6.0]));
    all
}

/// The largest useful rectangle inside the piece that no line comes near.
fn largest_room(piece: &Piece, grain: &Line) -> Rect {
    let bounds = super::bounds(piece);
    let (columns, rows) = ((bounds.width() / CELL) as usize + 1, (bounds.height() / CELL) as usize + 1);
    let taken = taken(piece, grain, bounds, columns, rows);
    let mut best = (0.0, Rect::new(bounds.x0, bounds.y0, bounds.x0, bounds.y0));
    let mut heights = vec![0usize; columns];
    for row in 0..rows {
        for column in 0..columns {
            heights[column] = if taken[row * columns + column] { 0 } else { heights[column] + 1 };
        }
        for from in 0..columns {
            let mut height = usize::MAX;
            for (to, free) in heights.iter().enumerate().skip(from).take((WIDEST / CELL) as usize) {
                height = height.min(*free).min((TALLEST / CELL) as usize);
                if height == 0 {
                    break;
                }
                let (w, h) = ((to - from + 1) as f64 * CELL, height as f64 * CELL);
                let score = w * h * if h > ARROW + 8.0 { 1.0 } else { 0.1 };
                if score > best.0 {
                    let (x, y) = (bounds.x0 + from as f64 * CELL, bounds.y0 + (row + 1) as f64 * CELL);
                    best = (score, Rect::new(x, y - h, x + w, y));
                }
            }
        }
    }
    best.1
}

/// Cells that are outside the piece or near a line.
fn taken(piece: &Piece, grain: &Line, bounds: Rect, columns: usize, rows: usize) -> Vec<bool> {
    let outline: Vec<Point> = piece.cut.edges.iter().flat_map(|e| e.path.flatten(0.2)).collect();
    let mut taken = vec![false; columns * rows];
    for row in 0..rows {
        let y = bounds.y0 + (row as f64 + 0.5) * CELL;
        let mut crossings = crossings(&outline, y);
        crossings.sort_by(f64::total_cmp);
        for column in 0..columns {
            let x = bounds.x0 + (column as f64 + 0.5) * CELL;
            taken[row * columns + column] = crossings.iter().filter(|c| **c < x).count() % 2 == 0;
        }
    }
    let reach = CLEAR + CELL;
    for p in lines(piece, grain).iter().flat_map(|l| dense(l)) {
        let index = |v: f64, low: f64, n: usize| (((v - low) / CELL).floor().max(0.0) as usize).min(n);
        for row in index(p.y - reach, bounds.y0, rows)..index(p.y + reach, bounds.y0, rows) {
            for column in index(p.x - reach, bounds.x0, columns)..index(p.x + reach, bounds.x0, columns) {
                taken[row * columns + column] = true;
            }
        }
    }
    taken
}

fn crossings(outline: &[Point], y: f64) -> Vec<f64> {
    (0..outline.len())
        .filter_map(|i| {
            let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
            ((a.y > y) != (b.y > y)).then(|| a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
        })
        .collect()
}

/// Points no further apart than a cell.
fn dense(line: &[Point]) -> Vec<Point> {
    line.windows(2)
        .flat_map(|w| {
            let steps = (w[0].distance(w[1]) / CELL).ceil().max(1.0);
            (0..=steps as usize).map(move |i| w[0].lerp(w[1], i as f64 / steps))
        })
        .collect()
}
