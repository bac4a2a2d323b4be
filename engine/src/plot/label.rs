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
    let grid = Grid::over(bounds);
    let taken = taken(piece, grain, &grid);
    // How many cells above and in a row are free, column by column.
    let mut heights = vec![0usize; grid.columns];
    let mut best = (0.0, 0, heights.clone());
    for (row, cells) in taken.chunks_exact(grid.columns).enumerate() {
        for (height, taken) in heights.iter_mut().zip(cells) {
            *height = if *taken { 0 } else { (*height + 1).min((TALLEST / CELL) as usize) };
        }
        let score = best_score(&heights);
        if score > best.0 {
            best = (score, row, heights.clone());
        }
    }
    let (score, row, heights) = best;
    if score <= 0.0 {
        return Rect::from_origin_size(bounds.origin(), (0.0, 0.0));
    }
    let (columns, height) = first_of(score, &heights).unwrap_or_default();
    let (x, y) = (bounds.x0 + columns.start as f64 * CELL, bounds.y0 + (row + 1) as f64 * CELL);
    Rect::new(x, y - height as f64 * CELL, x + columns.len() as f64 * CELL, y)
}

/// Columns no further apart than this are taken together.
const WIDEST_COLUMNS: usize = (WIDEST / CELL) as usize;

/// The score of the best rectangle under a row of heights: a stack of rising heights, each with the
/// first column that it reaches back to.
fn best_score(heights: &[usize]) -> f64 {
    let mut best = 0.0_f64;
    let mut rising: Vec<(usize, usize)> = Vec::new();
    for (column, height) in heights.iter().copied().chain([0]).enumerate() {
        let mut from = column;
        while let Some((start, tall)) = rising.pop_if(|(_, tall)| *tall >= height) {
            best = best.max(score((column - start).min(WIDEST_COLUMNS), tall));
            from = start;
        }
        rising.push((from, height));
    }
    best
}

/// The first rectangle of this score, from the left: its columns and its height.
fn first_of(wanted: f64, heights: &[usize]) -> Option<(std::ops::Range<usize>, usize)> {
    (0..heights.len()).find_map(|from| {
        let mut height = usize::MAX;
        heights[from..].iter().take(WIDEST_COLUMNS).enumerate().find_map(|(k, free)| {
            height = height.min(*free);
            (score(k + 1, height) >= wanted).then_some((from..from + k + 1, height))
        })
    })
}

/// How useful a rectangle of so many cells is: never less where it is wider or taller.
fn score(columns: usize, rows: usize) -> f64 {
    let (w, h) = (columns as f64 * CELL, rows as f64 * CELL);
    w * h * if h > ARROW + 8.0 { 1.0 } else { 0.1 }
}

/// The cells over a piece.
struct Grid {
    bounds: Rect,
    columns: usize,
    rows: usize,
}

impl Grid {
    fn over(bounds: Rect) -> Self {
        let cells = |length: f64| (length / CELL) as usize + 1;
        Self { bounds, columns: cells(bounds.width()), rows: cells(bounds.height()) }
    }

    /// The columns whose cells, or the rows, that begin between two places.
    fn span(low: f64, from: f64, to: f64, n: usize) -> std::ops::Range<usize> {
        let index = |v: f64| (((v - low) / CELL).floor().max(0.0) as usize).min(n);
        index(from)..index(to)
    }
}

/// Cells that are outside the piece or near a line.
fn taken(piece: &Piece, grain: &Line, grid: &Grid) -> Vec<bool> {
    let mut taken = outside(piece, grid);
    let reach = CLEAR + CELL;
    for p in lines(piece, grain).iter().flat_map(|l| dense(l)) {
        let columns = Grid::span(grid.bounds.x0, p.x - reach, p.x + reach, grid.columns);
        for row in Grid::span(grid.bounds.y0, p.y - reach, p.y + reach, grid.rows) {
            let start = row * grid.columns;
            taken[start + columns.start..start + columns.end].fill(true);
        }
    }
    taken
}

/// Cells whose middle is outside the cut line, row by row.
fn outside(piece: &Piece, grid: &Grid) -> Vec<bool> {
    let outline: Vec<Point> = piece.cut.edges.iter().flat_map(|e| e.path.flatten(0.2)).collect();
    let mut crossings = vec![Vec::new(); grid.rows];
    let middle = |low: f64, i: usize| low + (i as f64 + 0.5) * CELL;
    for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        let (low, high) = (a.y.min(b.y), a.y.max(b.y));
        // One row more to either side, for the rounding of the division.
        let rows = Grid::span(grid.bounds.y0, low - 1.5 * CELL, high + 1.5 * CELL, grid.rows);
        for row in rows {
            let y = middle(grid.bounds.y0, row);
            if (a.y > y) != (b.y > y) {
                crossings[row].push(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
            }
        }
    }
    let mut outside = Vec::with_capacity(grid.rows * grid.columns);
    for mut row in crossings {
        row.sort_by(f64::total_cmp);
        outside.extend((0..grid.columns).map(|column| {
            let x = middle(grid.bounds.x0, column);
            row.iter().take_while(|c| **c < x).count() % 2 == 0
        }));
    }
    outside
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Every rectangle under the row, one by one.
    fn every_one(heights: &[usize]) -> f64 {
        let mut best = 0.0_f64;
        for from in 0..heights.len() {
            for to in from..heights.len().min(from + WIDEST_COLUMNS) {
                let height = heights[from..=to].iter().copied().min().unwrap_or(0);
                best = best.max(score(to - from + 1, height));
            }
        }
        best
    }

    proptest! {
        #[test]
        fn the_best_room_is_the_best_of_all(heights in prop::collection::vec(0usize..=31, 1..120)) {
            let best = best_score(&heights);
            prop_assert_eq!(best, every_one(&heights));
            let (columns, height) = first_of(best, &heights).expect("it is there");
            prop_assert!(heights[columns.clone()].iter().all(|h| *h >= height));
            prop_assert_eq!(score(columns.len(), height), best);
        }
    }
}
