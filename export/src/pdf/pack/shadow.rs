//! A piece as far as room goes: which parts of the sheet it covers, and what comes too near it.

use super::span::Span;
use crate::pdf::layout::{Cell, extent};
use engine::drawing::{Loop, Piece, QuarterTurns, Role};
use kurbo::{Point, Rect, Size, Vec2};

/// Between pieces, mm: room to cut each one out roughly first.
pub(super) const GAP: f64 = 12.0;
/// A cell is about this wide and high, mm.
const CELL: f64 = 4.0;
/// Words in a row of cells.
const WORDS: usize = 4;
/// More cells than this are not kept in a row; on larger pieces they are larger.
const MOST: usize = 240;
/// Points along an outline lie no further apart than this, mm.
const STEP: f64 = 0.5;
/// Every so many of these points is held against another piece.
const SPARSE: usize = 6;
/// So many of those, one beside the other, are left out together where they are far from it.
const STRETCH: usize = 16;

type Row = [u64; WORDS];

/// Pieces that may share a page with each other, and with no others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Crowd {
    /// Those of the sheet's own finishes.
    Own,
    /// Those that only variants have.
    Others,
}

/// What a piece covers, as drawn.
pub(in crate::pdf) struct Outline {
    /// Round all that is drawn.
    bounds: Rect,
    /// Its cut lines, as corners.
    cuts: Vec<Vec<Point>>,
    /// Close to each other on them.
    points: Vec<Point>,
}

impl Outline {
    pub(in crate::pdf) fn of(piece: &Piece) -> Self {
        let corners = |l: &Loop| -> Vec<Point> { l.edges.iter().flat_map(|e| e.path.flatten(0.1)).collect() };
        let cuts: Vec<Vec<Point>> = piece.loops.iter().filter(|l| l.role == Role::Cut).map(corners).collect();
        let points = cuts.iter().flat_map(|corners| dense(corners)).collect();
        Self { bounds: extent(piece), cuts, points }
    }

    fn turned(&self, by: QuarterTurns) -> Self {
        let all = |points: &Vec<Point>| points.iter().map(|p| by.point(*p)).collect();
        Self { bounds: by.rect(self.bounds), cuts: self.cuts.iter().map(all).collect(), points: all(&self.points) }
    }
}

/// A filled outline on cells, a bit each.
struct Mask {
    origin: Point,
    cell: Size,
    /// Cells to the millimetre: a division takes several times as long.
    per_mm: Size,
    rows: Vec<Row>,
}

impl Mask {
    /// None of the cells of this grid.
    fn empty(origin: Point, cell: Size, rows: usize) -> Self {
        let per_mm = Size::new(cell.width.recip(), cell.height.recip());
        Self { origin, cell, per_mm, rows: vec![[0; WORDS]; rows] }
    }

    fn cell_at(&self, p: Point) -> (isize, isize) {
        // Rounded down, without the call that `floor` is on older processors.
        let down = |v: f64| v as isize - isize::from(v < (v as isize) as f64);
        let from = p - self.origin;
        (down(from.y * self.per_mm.height), down(from.x * self.per_mm.width))
    }

    fn set(&mut self, (row, column): (isize, isize)) {
        let within = (0..(WORDS * 64) as isize).contains(&column);
        if let (true, Some(row)) = (within, usize::try_from(row).ok().and_then(|r| self.rows.get_mut(r))) {
            row[column as usize / 64] |= 1 << (column as usize % 64);
        }
    }

    /// Round all cells.
    fn bounds(&self) -> Rect {
        let size = Size::new((WORDS * 64) as f64 * self.cell.width, self.rows.len() as f64 * self.cell.height);
        Rect::from_origin_size(self.origin, size)
    }

    fn has(&self, p: Point) -> bool {
        let from = p - self.origin;
        if from.x < 0.0 || from.y < 0.0 {
            return false;
        }
        // Cut off, which is rounded down here.
        let (row, column) = ((from.y * self.per_mm.height) as usize, (from.x * self.per_mm.width) as usize);
        column < WORDS * 64 && self.rows.get(row).is_some_and(|r| r[column / 64] >> (column % 64) & 1 == 1)
    }

    /// Sets the cells whose middle is inside a closed outline.
    fn fill(&mut self, corners: &[Point]) {
        let (origin, cell, count) = (self.origin, self.cell, self.rows.len());
        let middle = |row: usize| origin.y + (row as f64 + 0.5) * cell.height;
        let row_of = |y: f64| ((y - origin.y) / cell.height).max(0.0) as usize;
        let mut crossings: Vec<(usize, f64)> = Vec::new();
        for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            // A row more on either side, for roundings.
            let rows = row_of(a.y.min(b.y)).saturating_sub(1)..(row_of(a.y.max(b.y)) + 2).min(count);
            let crossed = rows.map(|row| (row, middle(row))).filter(|(_, y)| (a.y > *y) != (b.y > *y));
            crossings.extend(crossed.map(|(row, y)| (row, a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))));
        }
        crossings.sort_by(|(row, x), (other, y)| row.cmp(other).then(x.total_cmp(y)));
        for row in crossings.chunk_by(|(a, _), (b, _)| a == b) {
            for pair in row.chunks_exact(2) {
                let (number, y) = (pair[0].0, middle(pair[0].0));
                let (_, from) = self.cell_at(Point::new(pair[0].1 + 0.5 * cell.width, y));
                let (_, to) = self.cell_at(Point::new(pair[1].1 - 0.5 * cell.width, y));
                (from..=to).for_each(|column| self.set((number as isize, column)));
            }
        }
    }

    /// Every cell, and those within so many cells of one.
    fn grown(&self, rows: usize, columns: usize) -> Vec<Row> {
        let wide: Vec<Row> = self.rows.iter().map(|r| spread(r, columns)).collect();
        let or = |i: usize| {
            let near = &wide[i.saturating_sub(rows)..(i + rows + 1).min(wide.len())];
            near.iter().fold([0; WORDS], |a, b| joined(&a, b))
        };
        (0..wide.len()).map(or).collect()
    }
}

fn joined(a: &Row, b: &Row) -> Row {
    std::array::from_fn(|i| a[i] | b[i])
}

fn met(a: &Row, b: &Row) -> Row {
    std::array::from_fn(|i| a[i] & b[i])
}

/// A row with so many cells more to either side of each.
fn spread(row: &Row, columns: usize) -> Row {
    (0..columns).fold(*row, |r, _| {
        let carried = |i: usize| {
            let from_left = if i > 0 { r[i - 1] >> 63 } else { 0 };
            let from_right = r.get(i + 1).map_or(0, |next| next << 63);
            r[i] | r[i] << 1 | from_left | r[i] >> 1 | from_right
        };
        std::array::from_fn(carried)
    })
}

/// A piece on cells.
pub(super) struct Shadow {
    /// Round all that is drawn.
    pub(super) bounds: Rect,
    /// Where its text stands.
    pub(super) text: Rect,
    /// Whom it shares pages with.
    pub(super) crowd: Crowd,
    cell: Size,
    /// At `[k][r]`, all cells of 2^k rows from row r on.
    stacked: Vec<Vec<Row>>,
    /// All cells of all rows.
    whole: Row,
    /// The cells nearer than the gap, with room for it on every side.
    near: Mask,
    /// Along the outline.
    outline: Vec<Stretch>,
}

/// Points of an outline, one beside the other, and a box round them.
struct Stretch {
    bounds: Rect,
    points: Vec<Point>,
}

impl Stretch {
    fn of(points: &[Point]) -> Self {
        let first = points.first().copied().unwrap_or_default();
        let bounds = points.iter().fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
        Self { bounds, points: points.to_vec() }
    }
}

impl Shadow {
    /// Of an outline, turned, with the box that is written on then.
    pub(super) fn new(outline: &Outline, turn: QuarterTurns, text: Rect, crowd: Crowd) -> Self {
        let Outline { bounds, cuts, points } = outline.turned(turn);
        let count = |length: f64| (length / CELL).ceil().clamp(1.0, MOST as f64);
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let cell = Size::new(bounds.width() / columns, bounds.height() / rows);
        // Half a step of grace on either side of the points, and the flattening's own tolerance.
        let mut mask = Mask::empty(bounds.origin(), cell, rows as usize);
        cuts.iter().for_each(|corners| mask.fill(corners));
        let mut last = None;
        for p in &points {
            let [from, to] = [-STEP, STEP].map(|d| mask.cell_at(*p + Vec2::new(d, d)));
            // Most points lie in the same cell as the one before.
            if last.replace((from, to)) != Some((from, to)) {
                [from, (from.0, to.1), (to.0, from.1), to].into_iter().for_each(|cell| mask.set(cell));
            }
        }
        let near = near(&mask, cell);
        let sparse: Vec<Point> = points.into_iter().step_by(SPARSE).collect();
        let stretches: Vec<&[Point]> = sparse.chunks(STRETCH).collect();
        let outline = scattered(stretches.len()).map(|i| Stretch::of(stretches[i])).collect();
        let whole = mask.rows.iter().fold([0; WORDS], |a, b| joined(&a, b));
        Self { bounds, text, crowd, cell, stacked: stacked(mask.rows), whole, near, outline }
    }

    /// As much as its cells cover, mm².
    pub(super) fn area(&self) -> f64 {
        let cells: u32 = self.stacked[0].iter().flatten().map(|word| word.count_ones()).sum();
        f64::from(cells) * self.cell.area()
    }

    /// The pages whose core this piece covers a part of, when it lies here.
    pub(super) fn pages(&self, offset: Vec2, core: Size) -> impl Iterator<Item = Cell> + '_ {
        let (left, top) = (self.bounds.x0 + offset.x, self.bounds.y0 + offset.y);
        let columns = self.columns(left, core.width);
        self.rows(top, core.height).into_iter().flat_map(move |row| {
            let columns = columns.clone().into_iter();
            columns.filter_map(move |column| row.meets(&column).then_some((row.page, column.page)))
        })
    }

    /// The piece across and down.
    pub(super) fn spans(&self) -> [Span; 2] {
        let (b, t) = (self.bounds, self.text - self.bounds.origin().to_vec2());
        [Span { length: b.width(), text: (t.x0, t.x1) }, Span { length: b.height(), text: (t.y0, t.y1) }]
    }

    /// The rows of pages under this piece where its top is so far down, with its cells in each.
    pub(super) fn rows(&self, top: f64, page: f64) -> Vec<Strip> {
        strips(top, self.bounds.height(), page, |from, to| self.band(from, to))
    }

    /// The columns of pages under this piece where its left is so far across, with the cells of each.
    pub(super) fn columns(&self, left: f64, page: f64) -> Vec<Strip> {
        strips(left, self.bounds.width(), page, |from, to| {
            let (first, end) = cells(from, to, self.cell.width, WORDS * 64);
            met(&between(first, end), &self.whole)
        })
    }

    /// All cells of the rows between two depths under the top of the piece.
    fn band(&self, from: f64, to: f64) -> Row {
        let (first, end) = cells(from, to, self.cell.height, self.stacked[0].len());
        if first >= end {
            return [0; WORDS];
        }
        let level = (end - first).ilog2() as usize;
        joined(&self.stacked[level][first], &self.stacked[level][end - (1 << level)])
    }

    /// Is there the gap between this piece, lying here, and another?
    pub(super) fn is_clear_of(&self, offset: Vec2, other: &Self, there: Vec2) -> bool {
        let near = (self.bounds + offset).inset(GAP - 1e-6);
        let apart = near.intersect(other.bounds + there).area() <= 0.0;
        let hits = |a: &Self, b: &Self, shift: Vec2| {
            let there = b.near.bounds() - shift;
            // Where they lie over each other, one of the first shows it.
            a.outline.iter().filter_map(|s| s.points.first()).any(|p| b.near.has(*p + shift))
                || a.outline.iter().any(|s| s.bounds.overlaps(there) && s.points.iter().any(|p| b.near.has(*p + shift)))
        };
        apart || !hits(self, other, offset - there) && !hits(other, self, there - offset)
    }
}

/// A row or a column of pages, and cells of a piece along it.
#[derive(Clone, Copy)]
pub(super) struct Strip {
    /// Its number, from the top or from the left.
    pub(super) page: usize,
    cells: Row,
}

impl Strip {
    /// Does the piece cover nothing of it?
    pub(super) fn is_empty(&self) -> bool {
        self.cells == [0; WORDS]
    }

    /// Does a piece cover a part of the page where a row and a column cross?
    pub(super) fn meets(&self, other: &Self) -> bool {
        (0..WORDS).any(|i| self.cells[i] & other.cells[i] != 0)
    }
}

/// The pages, each so long, that a stretch of a piece lies on, with the cells between two places
/// along it.
fn strips(start: f64, length: f64, page: f64, cells: impl Fn(f64, f64) -> Row) -> Vec<Strip> {
    let index = |v: f64| (v / page).max(0.0) as usize;
    let strip = |i: usize| {
        let from = i as f64 * page - start;
        Strip { page: i, cells: cells(from, from + page) }
    };
    (index(start)..=index(start + length)).map(strip).collect()
}

/// All cells from one to another, which is not among them.
fn between(first: usize, end: usize) -> Row {
    std::array::from_fn(|word| {
        let bits = |n: usize| match n.saturating_sub(word * 64) {
            n if n < 64 => (1 << n) - 1,
            _ => u64::MAX,
        };
        bits(end) & !bits(first)
    })
}

/// The cells that a stretch covers a part of; a hair over a limit does not count.
fn cells(from: f64, to: f64, size: f64, count: usize) -> (usize, usize) {
    let first = (from / size + 1e-6).floor().max(0.0) as usize;
    let end = (to / size - 1e-6).ceil().max(0.0) as usize;
    (first, end.min(count))
}

fn dense(corners: &[Point]) -> Vec<Point> {
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let points = |(p, q): (&Point, &Point)| {
        let (p, q) = (*p, *q);
        let steps = (p.distance(q) / STEP).ceil().max(1.0);
        (0..steps as usize).map(move |k| p.lerp(q, k as f64 / steps))
    };
    sides.flat_map(points).collect()
}

/// So many places along an outline in an order that is soon near every part of it.
fn scattered(n: usize) -> impl Iterator<Item = usize> {
    // About the golden section of the way round, and in no common measure with it.
    let start = (n * 34 / 55).max(1);
    let stride = (start..=start + n).find(|stride| common_measure(*stride, n) == 1).unwrap_or(1);
    (0..n).map(move |i| i * stride % n)
}

fn common_measure(a: usize, b: usize) -> usize {
    if b == 0 { a } else { common_measure(b, a % b) }
}

fn stacked(rows: Vec<Row>) -> Vec<Vec<Row>> {
    let mut levels = vec![rows];
    for level in 0.. {
        let (reach, below) = (1 << level, &levels[level]);
        if below.len() <= reach {
            break;
        }
        let next = (0..below.len() - reach).map(|r| joined(&below[r], &below[r + reach])).collect();
        levels.push(next);
    }
    levels
}

/// The cells within the gap of a mask, on a grid that has room for them.
fn near(mask: &Mask, cell: Size) -> Mask {
    // One more than the gap takes: a cell counts as a whole.
    let reach = |size: f64| (GAP / size).ceil() as usize + 1;
    let (rows, columns) = (reach(cell.height), reach(cell.width).min((WORDS * 64 - MOST) / 2));
    let mut wide = Mask::empty(
        mask.origin - Vec2::new(columns as f64 * cell.width, rows as f64 * cell.height),
        cell,
        mask.rows.len() + 2 * rows,
    );
    for (row, cells) in wide.rows[rows..].iter_mut().zip(&mask.rows) {
        *row = std::array::from_fn(|i| cells[i] << columns | if i > 0 { cells[i - 1] >> (64 - columns) } else { 0 });
    }
    wide.rows = wide.grown(rows, columns);
    wide
}
