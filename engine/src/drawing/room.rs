//! The largest free rectangle on a grid of cells.

use kurbo::{Point, Rect};
use std::ops::Range;

/// The arrow of greatest stretch with its word takes this height, mm.
pub(super) const ARROW: f64 = 9.0;

/// Grid on which free room is looked for, mm.
pub(super) const CELL: f64 = 2.0;
/// The largest text block that is of use, in cells: 110 mm by 62 mm.
const WIDEST: usize = 55;
const TALLEST: usize = 31;
/// Columns in one word of a row.
const WORD: usize = 64;

/// The cells over a piece, a bit each, set where the cell is free.
pub(super) struct Grid {
    bounds: Rect,
    columns: usize,
    rows: usize,
    words: usize,
    free: Vec<u64>,
}

impl Grid {
    /// Cells over a box, none of them free.
    pub(super) fn over(bounds: Rect) -> Self {
        let cells = |length: f64| (length / CELL) as usize + 1;
        let (columns, rows) = (cells(bounds.width()), cells(bounds.height()));
        let words = columns.div_ceil(WORD);
        Self { bounds, columns, rows, words, free: vec![0; words * rows] }
    }

    fn is_free(&self, row: usize, column: usize) -> bool {
        let word = self.free.get(row * self.words + column / WORD);
        column < self.columns && word.is_some_and(|word| word >> (column % WORD) & 1 == 1)
    }

    /// A free rectangle of whole cells, grown to its right as far as it stays free, up to a width, mm.
    pub(super) fn widened(&self, room: Rect, width: f64) -> Rect {
        let index = |v: f64, low: f64| ((v - low) / CELL).round().max(0.0) as usize;
        let rows = index(room.y0, self.bounds.y0)..index(room.y1, self.bounds.y0);
        let right = index(room.x1, self.bounds.x0);
        let most = ((width - room.width()) / CELL).max(0.0) as usize;
        let free = (right..right + most).take_while(|column| rows.clone().all(|row| self.is_free(row, *column)));
        Rect { x1: room.x1 + free.count() as f64 * CELL, ..room }
    }

    fn row_middle(&self, row: usize) -> f64 {
        self.bounds.y0 + (row as f64 + 0.5) * CELL
    }

    fn column_middle(&self, column: usize) -> f64 {
        self.bounds.x0 + (column as f64 + 0.5) * CELL
    }

    /// Frees the cells whose middle is inside a closed outline.
    pub(super) fn free_inside(&mut self, outline: &[Point]) {
        let mut crossings = vec![Vec::new(); self.rows];
        for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            // One row more to either side, for the rounding of the division.
            let (low, high) = (a.y.min(b.y) - 1.5 * CELL, a.y.max(b.y) + 1.5 * CELL);
            for row in span(self.bounds.y0, low, high, self.rows) {
                let y = self.row_middle(row);
                if (a.y > y) != (b.y > y) {
                    crossings[row].push(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
                }
            }
        }
        for (row, mut row_crossings) in crossings.into_iter().enumerate() {
            row_crossings.sort_by(f64::total_cmp);
            for pair in row_crossings.chunks_exact(2) {
                let columns = self.first_beyond(pair[0])..self.first_beyond(pair[1]);
                self.each_word(row, columns, |word, mask| *word |= mask);
            }
        }
    }

    /// The first column whose middle lies to the right of x.
    fn first_beyond(&self, x: f64) -> usize {
        let near = ((x - self.bounds.x0) / CELL) as usize;
        let around = near.saturating_sub(1)..self.columns;
        around.clone().find(|c| self.column_middle(*c) > x).unwrap_or(around.end)
    }

    /// Takes every cell near a point.
    pub(super) fn take_round(&mut self, p: Point, reach: f64) {
        let columns = span(self.bounds.x0, p.x - reach, p.x + reach, self.columns);
        for row in span(self.bounds.y0, p.y - reach, p.y + reach, self.rows) {
            self.each_word(row, columns.clone(), |word, mask| *word &= !mask);
        }
    }

    fn each_word(&mut self, row: usize, columns: Range<usize>, change: impl Fn(&mut u64, u64)) {
        if columns.is_empty() {
            return;
        }
        let (first, last) = (columns.start / WORD, (columns.end - 1) / WORD);
        for (word, bits) in self.free[row * self.words..][first..=last].iter_mut().enumerate() {
            let start = columns.start.max((first + word) * WORD) - (first + word) * WORD;
            let end = columns.end.min((first + word + 1) * WORD) - (first + word) * WORD;
            change(bits, (u64::MAX << start) & (u64::MAX >> (WORD - end)));
        }
    }

    /// Adds a row to how many cells above and in it are free, column by column, up to what is of
    /// use.
    fn raise(&self, row: usize, heights: &mut [usize]) {
        let words = &self.free[row * self.words..][..self.words];
        for (heights, word) in heights.chunks_mut(WORD).zip(words) {
            for (i, height) in heights.iter_mut().enumerate() {
                *height = if word >> i & 1 == 1 { (*height + 1).min(TALLEST) } else { 0 };
            }
        }
    }
}

/// The rows or columns that begin between two places.
fn span(low: f64, from: f64, to: f64, n: usize) -> Range<usize> {
    // What lies before the first is cut off to it.
    let index = |v: f64| (((v - low) / CELL) as usize).min(n);
    index(from)..index(to)
}

/// The most useful rectangle of free cells: the highest and then leftmost of the best.
pub(super) fn largest(grid: &Grid) -> Rect {
    let bounds = grid.bounds;
    let mut heights = vec![0usize; grid.columns];
    let mut best = (0.0, 0, heights.clone());
    for row in 0..grid.rows {
        grid.raise(row, &mut heights);
        if let Some(score) = better(&heights, best.0) {
            best = (score, row, heights.clone());
        }
    }
    let (score, row, heights) = best;
    let Some((columns, height)) = first_of(score, &heights) else {
        return Rect::from_origin_size(bounds.origin(), (0.0, 0.0));
    };
    let (x, y) = (bounds.x0 + columns.start as f64 * CELL, bounds.y0 + (row + 1) as f64 * CELL);
    Rect::new(x, y - height as f64 * CELL, x + columns.len() as f64 * CELL, y)
}

/// How useful a rectangle of so many cells is: never less where it is wider or taller.
fn score(columns: usize, rows: usize) -> f64 {
    let (w, h) = (columns as f64 * CELL, rows as f64 * CELL);
    w * h * if h > ARROW + 8.0 { 1.0 } else { 0.1 }
}

/// The score of the best rectangle under a row of heights, if it is over this one.
fn better(heights: &[usize], over: f64) -> Option<f64> {
    // Anything lower or narrower than this cannot be it.
    let least = (1..=TALLEST).find(|h| score(WIDEST, *h) > over)?;
    let narrowest = (1..=WIDEST).find(|w| score(*w, TALLEST) > over)?;
    let runs = heights.split(|h| *h < least).filter(|run| run.len() >= narrowest);
    let best = runs.map(best_score).fold(0.0, f64::max);
    (best > over).then_some(best)
}

/// The score of the best rectangle under a run of heights: a stack of rising heights, each with
/// the first column that it reaches back to.
fn best_score(heights: &[usize]) -> f64 {
    let mut best = 0.0_f64;
    let mut rising: Vec<(usize, usize)> = Vec::new();
    for (column, height) in heights.iter().copied().chain([0]).enumerate() {
        let mut from = column;
        while let Some((start, tall)) = rising.pop_if(|(_, tall)| *tall >= height) {
            best = best.max(score((column - start).min(WIDEST), tall));
            from = start;
        }
        rising.push((from, height));
    }
    best
}

/// The first rectangle of this score, from the left: its columns and its height.
fn first_of(wanted: f64, heights: &[usize]) -> Option<(Range<usize>, usize)> {
    (0..heights.len()).filter(|_| wanted > 0.0).find_map(|from| {
        let mut height = usize::MAX;
        heights[from..].iter().take(WIDEST).enumerate().find_map(|(k, free)| {
            height = height.min(*free);
            (score(k + 1, height) >= wanted).then_some((from..from + k + 1, height))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Every rectangle under the row, one by one.
    fn every_one(heights: &[usize]) -> f64 {
        let mut best = 0.0_f64;
        for from in 0..heights.len() {
            for to in from..heights.len().min(from + WIDEST) {
                let height = heights[from..=to].iter().copied().min().unwrap_or(0);
                best = best.max(score(to - from + 1, height));
            }
        }
        best
    }

    proptest! {
        #[test]
        fn the_best_room_is_the_best_of_all(heights in prop::collection::vec(0usize..=TALLEST, 1..120), over in 0.0..3000.0) {
            let best = every_one(&heights);
            prop_assert_eq!(better(&heights, over), (best > over).then_some(best));
            if best > 0.0 {
                let (columns, height) = first_of(best, &heights).expect("it is there");
                prop_assert!(heights[columns.clone()].iter().all(|h| *h >= height));
                prop_assert_eq!(score(columns.len(), height), best);
            }
        }

        /// A cell is free where a ray from its middle crosses the outline an odd number of times,
        /// and no taken point is near.
        #[test]
        fn cells_are_free_inside_and_away_from_points(
            corners in prop::collection::vec((0.0..300.0, 0.0..90.0), 3..9),
            (px, py) in (0.0..300.0, 0.0..90.0),
        ) {
            let outline: Vec<Point> = corners.into_iter().map(Point::from).collect();
            let mut grid = Grid::over(Rect::new(0.0, 0.0, 300.0, 90.0));
            grid.free_inside(&outline);
            grid.take_round(Point::new(px, py), 6.0);
            let near = |i: usize, v: f64| {
                let low = i as f64 * CELL;
                low > v - 6.0 - CELL && low <= v + 6.0 - CELL || i == 0 && v < 6.0
            };
            for row in 0..grid.rows {
                let mut heights = vec![0; grid.columns];
                grid.raise(row, &mut heights);
                for (column, height) in heights.into_iter().enumerate() {
                    let middle = Point::new(grid.column_middle(column), grid.row_middle(row));
                    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
                    let crossed = sides.filter(|(a, b)| (a.y > middle.y) != (b.y > middle.y));
                    let left = crossed.filter(|(a, b)| a.x + (middle.y - a.y) / (b.y - a.y) * (b.x - a.x) < middle.x);
                    let free = left.count() % 2 == 1 && !(near(column, px) && near(row, py));
                    prop_assert_eq!(height == 1, free, "{} {}", row, column);
                }
            }
        }
    }
}
