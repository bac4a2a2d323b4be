//! Where the pieces lie on the pages: as few pages as possible.
//!
//! The pages make one large grid of cores. Pieces are laid one after the other, in every order
//! while there are few; each goes to the place that brings the fewest new pages, then highest,
//! then leftmost. A page counts only where a piece covers part of its core.

use super::sheet::Sheet;
use engine::drawing::Piece;
use kurbo::{BezPath, PathEl, Point, Rect, Shape, Size, Vec2};
use std::collections::BTreeSet;

/// Row and column of a page, from the top left.
pub(super) type Cell = (usize, usize);

/// Between pieces, mm: room to cut each one out roughly first.
const GAP: f64 = 12.0;
/// Round everything that is drawn, for the width of lines, mm.
const REACH: f64 = 2.0;
/// The outline is looked at in steps of this, mm; no part of it is further than half a step off.
const STEP: f64 = 3.0;
/// With more pieces than this only some orders are tried.
const EVERY_ORDER: usize = 5;
/// More columns than needed for the widest piece are tried up to this number.
const MORE_COLUMNS: usize = 4;

/// Where every piece lies.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) sheet: Sheet,
    /// What is added to a piece's own coordinates, in the order of the pieces.
    pub(super) offsets: Vec<Vec2>,
    /// The pages that carry something.
    pub(super) cells: BTreeSet<Cell>,
    pub(super) columns: usize,
    pub(super) rows: usize,
}

/// A piece as far as room goes.
struct Shadow {
    outline: Vec<Point>,
    path: BezPath,
    bounds: Rect,
}

impl Shadow {
    fn new(piece: &Piece) -> Self {
        let corners: Vec<Point> =
            piece.cut().into_iter().flat_map(|l| &l.edges).flat_map(|e| e.path.flatten(0.5)).collect();
        let mut outline = Vec::new();
        for (p, q) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            let steps = (p.distance(*q) / STEP).ceil().max(1.0);
            outline.extend((0..steps as usize).map(|k| p.lerp(*q, k as f64 / steps)));
        }
        let path = polygon(&corners);
        Self { bounds: extent(piece), outline, path }
    }

    /// The pages whose core this piece covers a part of, every core being wider by half a step.
    fn cells(&self, offset: Vec2, core: Size) -> BTreeSet<Cell> {
        let mut cells = BTreeSet::new();
        let index = |v: f64, size: f64| (v / size).floor().max(0.0) as usize;
        let cell = |p: Point, d: f64| (index(p.y + d, core.height), index(p.x + d, core.width));
        let mut last = None;
        for p in &self.outline {
            let (low, high) = (cell(*p + offset, -0.5 * STEP), cell(*p + offset, 0.5 * STEP));
            if last.replace((low, high)) != Some((low, high)) {
                cells.extend([low, high, (low.0, high.1), (high.0, low.1)]);
            }
        }
        let b = self.bounds + offset;
        for row in index(b.y0, core.height)..=index(b.y1, core.height) {
            for column in index(b.x0, core.width)..=index(b.x1, core.width) {
                let middle = Point::new((column as f64 + 0.5) * core.width, (row as f64 + 0.5) * core.height);
                // A core that the outline does not enter lies inside or outside as a whole.
                if !cells.contains(&(row, column)) && self.path.contains(middle - offset) {
                    cells.insert((row, column));
                }
            }
        }
        cells
    }
}

/// The box round all that a piece draws: a finished edge may lie outside the cut line.
pub(super) fn extent(piece: &Piece) -> Rect {
    let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| e.path.bounds());
    let lines = piece.lines.iter().map(|o| o.path.bounds());
    edges.chain(lines).fold(piece.bounds(), |a, b| a.union(b)).inset(REACH)
}

/// A closed path through these corners.
pub(super) fn polygon(corners: &[Point]) -> BezPath {
    let to = |(i, p): (usize, &Point)| if i == 0 { PathEl::MoveTo(*p) } else { PathEl::LineTo(*p) };
    BezPath::from_vec(corners.iter().enumerate().map(to).chain([PathEl::ClosePath]).collect())
}

/// Lays the pieces on pages like this one.
pub(super) fn pack(pieces: &[Piece], sheet: Sheet) -> Layout {
    let shadows: Vec<Shadow> = pieces.iter().map(Shadow::new).collect();
    let core = sheet.core().size();
    let widest = shadows.iter().map(|s| s.bounds.width()).fold(0.0, f64::max);
    let least = (widest / core.width).ceil().max(1.0) as usize;
    let mut best: Option<(Score, Layout)> = None;
    for order in orders(pieces.len()) {
        for columns in least..least + MORE_COLUMNS {
            let layout = lay(&shadows, &order, columns, sheet);
            let score = score(&layout, &shadows);
            if best.as_ref().is_none_or(|(s, _)| score < *s) {
                best = Some((score, layout));
            }
        }
    }
    let best = best.map_or_else(|| lay(&shadows, &[], 1, sheet), |(_, layout)| layout);
    nudged(&shadows, best)
}

/// Steps in which a piece is moved, as a part of a core, and how many either way.
const NUDGE: f64 = 1.0 / 16.0;
const NUDGES: i32 = 8;

/// The same layout with each piece moved a little where that saves a page: often a crumb of a
/// piece just reaches over.
fn nudged(shadows: &[Shadow], mut layout: Layout) -> Layout {
    let core = layout.sheet.core().size();
    let mut cells: Vec<BTreeSet<Cell>> = shadows.iter().zip(&layout.offsets).map(|(s, o)| s.cells(*o, core)).collect();
    for i in 0..shadows.len() {
        let others: BTreeSet<Cell> =
            cells.iter().enumerate().filter(|(k, _)| *k != i).flat_map(|(_, c)| c).copied().collect();
        let from = layout.offsets[i];
        let mut best = (cells[i].difference(&others).count(), 0);
        for (x, y) in (-NUDGES..=NUDGES).flat_map(|x| (-NUDGES..=NUDGES).map(move |y| (x, y))) {
            let step = Vec2::new(f64::from(x) * core.width, f64::from(y) * core.height) * NUDGE;
            if !fits(shadows, &layout, i, from + step) {
                continue;
            }
            let mine = shadows[i].cells(from + step, core);
            let score = (mine.difference(&others).count(), x.abs() + y.abs());
            if score < best {
                best = score;
                layout.offsets[i] = from + step;
                cells[i] = mine;
            }
        }
    }
    layout.cells = cells.into_iter().flatten().collect();
    layout.rows = layout.cells.iter().map(|c| c.0 + 1).max().unwrap_or(0);
    layout.columns = layout.cells.iter().map(|c| c.1 + 1).max().unwrap_or(0);
    layout
}

/// May this piece lie here, in the grid and clear of the others?
fn fits(shadows: &[Shadow], layout: &Layout, i: usize, offset: Vec2) -> bool {
    let here = shadows[i].bounds + offset;
    let core = layout.sheet.core().size();
    let width = layout.columns as f64 * core.width;
    let height = layout.rows as f64 * core.height;
    let near = here.inset(GAP - 1e-6);
    let others = shadows.iter().zip(&layout.offsets).enumerate().filter(|(k, _)| *k != i);
    let clear = others.map(|(_, (s, o))| s.bounds + *o).all(|b| near.intersect(b).area() <= 0.0);
    here.x0 >= 0.0 && here.y0 >= 0.0 && here.x1 <= width && here.y1 <= height && clear
}

/// Fewer pages, then a smaller grid, then less height, in whole tenths of a millimetre.
type Score = (usize, usize, u64);

fn score(layout: &Layout, shadows: &[Shadow]) -> Score {
    let low = layout.offsets.iter().zip(shadows).map(|(o, s)| o.y + s.bounds.y1).fold(0.0, f64::max);
    (layout.cells.len(), layout.rows * layout.columns, (low * 10.0) as u64)
}

fn lay(shadows: &[Shadow], order: &[usize], columns: usize, sheet: Sheet) -> Layout {
    let core = sheet.core().size();
    let width = columns as f64 * core.width;
    let mut taken: Vec<Rect> = Vec::new();
    let mut cells: BTreeSet<Cell> = BTreeSet::new();
    let mut offsets = vec![Vec2::ZERO; shadows.len()];
    for &i in order {
        let shadow = &shadows[i];
        let at = place(shadow, &taken, &cells, width, core);
        offsets[i] = at - shadow.bounds.origin();
        taken.push(shadow.bounds + offsets[i]);
        cells.extend(shadow.cells(offsets[i], core));
    }
    let rows = cells.iter().map(|c| c.0 + 1).max().unwrap_or(0);
    let columns = cells.iter().map(|c| c.1 + 1).max().unwrap_or(0);
    Layout { sheet, offsets, cells, columns, rows }
}

/// The top left corner of a piece's box.
fn place(shadow: &Shadow, taken: &[Rect], cells: &BTreeSet<Cell>, width: f64, core: Size) -> Point {
    let (w, h) = (shadow.bounds.width(), shadow.bounds.height());
    let low = taken.iter().map(|t| t.y1).fold(0.0, f64::max);
    let mut xs: Vec<f64> = taken.iter().map(|t| t.x1 + GAP).collect();
    xs.extend((0..).map(|k| f64::from(k) * core.width).take_while(|x| *x < width));
    let mut ys: Vec<f64> = taken.iter().map(|t| t.y1 + GAP).collect();
    ys.extend((0..).map(|k| f64::from(k) * core.height).take_while(|y| *y <= low + core.height));
    let mut best: Option<((usize, u64, u64), Point)> = None;
    for (x, y) in xs.iter().flat_map(|x| ys.iter().map(move |y| (*x, *y))) {
        let here = Rect::new(x, y, x + w, y + h);
        // One box may not come nearer to another than the gap; a hair is for rounding.
        let near = here.inset(GAP - 1e-6);
        let free = taken.iter().all(|t| near.intersect(*t).area() <= 0.0);
        if x + w > width + 1e-6 && x > 0.0 || !free {
            continue;
        }
        let mine = shadow.cells(Point::new(x, y) - shadow.bounds.origin(), core);
        let new = mine.difference(cells).count();
        let score = (new, (y * 10.0) as u64, (x * 10.0) as u64);
        if best.as_ref().is_none_or(|(s, _)| score < *s) {
            best = Some((score, Point::new(x, y)));
        }
    }
    best.map_or_else(|| Point::new(0.0, low + GAP), |(_, p)| p)
}

/// Every order of a few things; of many, every rotation there and back.
fn orders(n: usize) -> Vec<Vec<usize>> {
    if n > EVERY_ORDER {
        let turned = |k: usize| (0..n).map(move |i| (i + k) % n).collect::<Vec<_>>();
        return (0..n).flat_map(|k| [turned(k), turned(k).into_iter().rev().collect()]).collect();
    }
    let mut orders: Vec<Vec<usize>> = vec![vec![]];
    for _ in 0..n {
        let longer = |order: &Vec<usize>| {
            let rest = (0..n).filter(|i| !order.contains(i)).collect::<Vec<_>>();
            rest.into_iter().map(|i| [order.as_slice(), &[i]].concat()).collect::<Vec<_>>()
        };
        orders = orders.iter().flat_map(longer).collect();
    }
    orders
}

#[cfg(test)]
mod tests {
    use super::super::{PageSetup, sample, sheet::Turn};
    use super::*;
    use engine::sheet::Paper;

    fn a4() -> Sheet {
        Sheet::new(&PageSetup { paper: Paper::A4, margin_mm: 10.0, overlap_mm: 10.0 }, Turn::Upright).unwrap()
    }

    #[test]
    fn every_order_once() {
        let all = orders(4);
        assert_eq!(all.len(), 24);
        assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), 24);
    }

    #[test]
    fn pieces_keep_apart_and_every_part_has_a_page() {
        let pieces = sample::drawing("x").pieces;
        let layout = pack(&pieces, a4());
        let boxes: Vec<Rect> = pieces.iter().zip(&layout.offsets).map(|(p, o)| p.bounds() + *o).collect();
        for (i, a) in boxes.iter().enumerate() {
            assert!(a.x0 >= 0.0 && a.y0 >= 0.0);
            assert!(boxes[i + 1..].iter().all(|b| a.inset(GAP).intersect(*b).area() == 0.0));
        }
        let core = layout.sheet.core().size();
        for (piece, offset) in pieces.iter().zip(&layout.offsets) {
            for p in piece.cut().unwrap().edges.iter().flat_map(|e| e.path.flatten(0.05)) {
                let p = p + *offset;
                let cell = ((p.y / core.height) as usize, (p.x / core.width) as usize);
                assert!(layout.cells.contains(&cell), "{p:?} has no page");
            }
        }
    }

    #[test]
    fn a_page_in_the_middle_of_a_piece_is_printed_too() {
        let mut piece = sample::drawing("x").pieces[0].clone();
        let grow = |p: Point| Point::new(p.x * 6.0, p.y * 6.0);
        for edge in piece.loops.iter_mut().flat_map(|l| &mut l.edges) {
            edge.path = edge.path.map(grow);
        }
        let layout = pack(&[piece], a4());
        assert!(layout.cells.contains(&(1, 1)), "{:?}", layout.cells);
    }
}
