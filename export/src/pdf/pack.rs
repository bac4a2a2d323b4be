//! Where the pieces lie on the pages: as few pages as possible.
//!
//! The pages make one large grid of cores. Pieces are laid one after the other, in several orders;
//! each goes to the place that brings the fewest new pages, then where the fewest joins run
//! through its text or close to its own end, then through itself, then highest, then leftmost. Then each piece in turn is taken up and laid
//! again. A page counts only where a piece covers part of its core.

mod lane;
mod shadow;
mod span;

use super::layout::{Cell, Layout, Score};
use super::options::Sharing;
use super::sheet::Sheet;
use engine::drawing::Piece;
use kurbo::{Rect, Size, Vec2};
use lane::{Lane, lanes};
use shadow::{Crowd, GAP, Shadow};
use span::{AIR, places};
use std::collections::{BTreeMap, BTreeSet};

/// With more pieces than this only some orders are tried.
const EVERY_ORDER: usize = 3;
/// More columns than needed for the widest piece are tried up to this number.
const MORE_COLUMNS: usize = 3;
/// In so many of the best layouts, every piece is taken up and laid again so often.
const BETTERED: usize = 8;
const ROUNDS: usize = 2;

/// The pieces of a drawing, ready to be laid on pages of any kind.
pub(super) struct Packer {
    shadows: Vec<Shadow>,
    sharing: Sharing,
}

impl Packer {
    /// `texts` are the boxes that each piece is written on, in its own coordinates. The first pieces,
    /// `own` of them, share no page with the others, so that a person can leave those out.
    pub(super) fn new(pieces: &[Piece], texts: &[Rect], own: usize, sharing: Sharing) -> Self {
        let crowd = |i: usize| if i < own { Crowd::Own } else { Crowd::Others };
        let pieces = pieces.iter().zip(texts).enumerate();
        let shadows = pieces.map(|(i, (p, text))| Shadow::new(p, *text, crowd(i))).collect();
        Self { shadows, sharing }
    }

    /// Lays the pieces on pages like this one.
    pub(super) fn pack(&self, sheet: Sheet) -> Layout {
        let core = sheet.core().size();
        let widest = self.shadows.iter().map(|s| s.bounds.width()).fold(0.0, f64::max);
        let least = (widest / core.width).ceil().max(1.0) as usize;
        let columns = least..least + MORE_COLUMNS;
        let mut tables: Vec<(Score, Table)> = orders(&self.shadows)
            .iter()
            .flat_map(|order| columns.clone().map(move |columns| (order, columns)))
            .map(|(order, columns)| Table::laid_in(&self.shadows, self.sharing, &sheet, columns, order))
            .map(|table| (table.score(), table))
            .collect();
        // A stable sort: of equals, the first order stays first.
        tables.sort_by_key(|(score, _)| *score);
        tables.truncate(BETTERED);
        let best = tables.into_iter().map(|(_, table)| table.bettered()).min_by_key(Table::score);
        let table = best.unwrap_or_else(|| Table::new(&self.shadows, self.sharing, &sheet, 1));
        table.layout(sheet)
    }
}

/// New pages, texts and ends at joins, parts of the piece.
type Cost = (usize, usize, usize);

/// The pages laid out side by side, and the pieces on them so far.
struct Table<'a> {
    shadows: &'a [Shadow],
    sharing: Sharing,
    core: Size,
    /// What a text keeps from a join.
    air: f64,
    columns: usize,
    offsets: Vec<Option<Vec2>>,
    /// How many pieces each page carries a part of, row by row.
    uses: Vec<[u16; 2]>,
}

impl<'a> Table<'a> {
    fn new(shadows: &'a [Shadow], sharing: Sharing, sheet: &Sheet, columns: usize) -> Self {
        let (core, air) = (sheet.core().size(), sheet.strip + AIR);
        Self { shadows, sharing, core, air, columns, offsets: vec![None; shadows.len()], uses: Vec::new() }
    }

    fn laid_in(shadows: &'a [Shadow], sharing: Sharing, sheet: &Sheet, columns: usize, order: &[usize]) -> Self {
        let mut table = Self::new(shadows, sharing, sheet, columns);
        order.iter().for_each(|i| table.lay(*i));
        table
    }

    /// Every piece taken up in turn and laid where it costs less.
    fn bettered(mut self) -> Self {
        for _ in 0..ROUNDS {
            (0..self.shadows.len()).for_each(|i| self.lay_again(i));
        }
        self
    }

    fn uses_of(&self, (row, column): Cell) -> [u16; 2] {
        self.uses.get(row * self.columns + column).copied().unwrap_or_default()
    }

    /// Puts a piece somewhere, or takes it up again.
    fn put(&mut self, i: usize, offset: Option<Vec2>) {
        let crowd = self.shadows[i].crowd as usize;
        let old = std::mem::replace(&mut self.offsets[i], offset);
        for (row, column) in old.into_iter().flat_map(|o| self.shadows[i].pages(o, self.core)) {
            self.uses[row * self.columns + column][crowd] -= 1;
        }
        for (row, column) in offset.into_iter().flat_map(|o| self.shadows[i].pages(o, self.core)) {
            let at = row * self.columns + column;
            self.uses.resize(self.uses.len().max(at + 1), [0; 2]);
            self.uses[at][crowd] += 1;
        }
    }

    fn lay(&mut self, i: usize) {
        let low = self.others(i).map(|b| b.y1).fold(0.0, f64::max);
        let under = Vec2::new(0.0, (low / self.core.height).ceil() * self.core.height);
        let at = self.best_place(i).unwrap_or_else(|| under - self.shadows[i].bounds.origin().to_vec2());
        self.put(i, Some(at));
    }

    /// Takes a piece up and lays it where it costs less, if there is such a place.
    fn lay_again(&mut self, i: usize) {
        let (old, before) = (self.offsets[i], self.score());
        self.put(i, None);
        self.lay(i);
        if self.score() > before {
            self.put(i, old);
        }
    }

    /// The boxes of the other pieces.
    fn others(&self, i: usize) -> impl Iterator<Item = Rect> + '_ {
        let laid = self.shadows.iter().zip(&self.offsets).enumerate();
        laid.filter(move |(k, _)| *k != i).filter_map(|(_, (s, o))| o.map(|o| s.bounds + o))
    }

    fn best_place(&self, i: usize) -> Option<Vec2> {
        let shadow = &self.shadows[i];
        let (width, origin) = (self.columns as f64 * self.core.width, shadow.bounds.origin());
        let low = self.others(i).map(|b| b.y1).fold(0.0, f64::max);
        let beside: Vec<f64> = self.others(i).map(|b| b.x1 + GAP).collect();
        let under: Vec<f64> = self.others(i).map(|b| b.y1 + GAP).collect();
        let [across, down] = shadow.spans();
        let xs = places(self.core.width, &across, self.air, width, &beside);
        let depth = low + self.core.height + shadow.bounds.height();
        let ys = places(self.core.height, &down, self.air, depth, &under);
        let columns = lanes(&xs, self.core.width, &across, self.air, |x| shadow.columns(x, self.core.width));
        let rows = lanes(&ys, self.core.height, &down, self.air, |y| shadow.rows(y, self.core.height));
        let mut best: Option<(Cost, Vec2)> = None;
        for (row, column) in rows.iter().flat_map(|row| columns.iter().map(move |column| (row, column))) {
            let most = best.map_or((usize::MAX, 0, 0), |(score, _)| score);
            let Some(score) = self.cost(shadow.crowd, row, column, most) else { continue };
            let offset = Vec2::new(column.at, row.at) - origin.to_vec2();
            if self.is_free(i, offset) {
                best = Some((score, offset));
            }
            if score == (0, 0, 1) && best.is_some() {
                break;
            }
        }
        best.map(|(_, offset)| offset)
    }

    /// What a piece brings where two lanes cross, where that is less than `most`.
    fn cost(&self, crowd: Crowd, row: &Lane, column: &Lane, most: Cost) -> Option<Cost> {
        let (mut new, mut parts) = (0, 0);
        for (r, c) in row.strips.iter().flat_map(|r| column.strips.iter().map(move |c| (r, c))) {
            if !r.meets(c) {
                continue;
            }
            let uses = self.uses_of((r.page, c.page));
            match (uses[crowd as usize] > 0, uses[1 - crowd as usize] > 0, self.sharing) {
                (_, true, _) | (true, _, Sharing::Apart) => return None,
                (true, _, Sharing::Shared) => {}
                (false, ..) => new += 1,
            }
            parts += 1;
            if new > most.0 {
                return None;
            }
        }
        let cost = (new, row.awkward + column.awkward, parts);
        (cost < most).then_some(cost)
    }

    fn is_free(&self, i: usize, offset: Vec2) -> bool {
        let laid = self.shadows.iter().zip(&self.offsets).enumerate().filter(|(k, _)| *k != i);
        laid.filter_map(|(_, (s, o))| o.map(|o| (s, o))).all(|(s, o)| self.shadows[i].is_clear_of(offset, s, o))
    }

    fn laid(&self) -> impl Iterator<Item = (&Shadow, Vec2)> + '_ {
        self.shadows.iter().zip(&self.offsets).filter_map(|(s, o)| o.map(|o| (s, o)))
    }

    fn cells(&self) -> impl Iterator<Item = Cell> + '_ {
        let used = self.uses.iter().enumerate().filter(|(_, n)| n.iter().any(|n| *n > 0));
        used.map(|(i, _)| (i / self.columns, i % self.columns))
    }

    fn score(&self) -> Score {
        let (rows, columns) = grid(self.cells());
        let low = self.laid().map(|(s, o)| o.y + s.bounds.y1).fold(0.0, f64::max);
        let awkward = |(s, o): (&Shadow, Vec2)| {
            let ([across, down], at) = (s.spans(), s.bounds.origin() + o);
            across.awkward(at.x, self.core.width, self.air) + down.awkward(at.y, self.core.height, self.air)
        };
        let awkward = self.laid().map(awkward).sum();
        let parts = self.uses.iter().flatten().map(|n| usize::from(*n)).sum();
        (self.cells().count(), awkward, parts, rows * columns, (low * 10.0) as u64)
    }

    fn owners(&self) -> Option<BTreeMap<Cell, BTreeSet<usize>>> {
        let mut owners: BTreeMap<Cell, BTreeSet<usize>> = BTreeMap::new();
        for (i, (shadow, offset)) in self.laid().enumerate() {
            shadow.pages(offset, self.core).for_each(|page| {
                owners.entry(page).or_default().insert(i);
            });
        }
        (self.sharing == Sharing::Apart).then_some(owners)
    }

    fn layout(&self, sheet: Sheet) -> Layout {
        let (rows, columns) = grid(self.cells());
        let offsets = self.offsets.iter().map(|o| o.unwrap_or_default()).collect();
        Layout {
            sheet,
            offsets,
            cells: self.cells().collect(),
            columns,
            rows,
            score: self.score(),
            proofs: Vec::new(),
            only: self.owners(),
        }
    }
}

fn grid(cells: impl Iterator<Item = Cell>) -> (usize, usize) {
    cells.fold((0, 0), |(rows, columns), (r, c)| (rows.max(r + 1), columns.max(c + 1)))
}

/// Every order of a few things; of many, the largest first, and every rotation there and back.
fn orders(shadows: &[Shadow]) -> Vec<Vec<usize>> {
    let n = shadows.len();
    if n > EVERY_ORDER {
        let turned = |k: usize| (0..n).map(move |i| (i + k) % n).collect::<Vec<_>>();
        let mut largest_first: Vec<usize> = (0..n).collect();
        largest_first.sort_by(|a, b| shadows[*b].bounds.area().total_cmp(&shadows[*a].bounds.area()));
        let rotations = (0..n).flat_map(|k| [turned(k), turned(k).into_iter().rev().collect()]);
        return std::iter::once(largest_first).chain(rotations).collect();
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
    use super::super::layout::{REACH, extent};
    use super::super::options::{PageSetup, Turn};
    use super::super::sample;
    use super::span::LEAST;
    use super::*;
    use engine::sheet::Paper;
    use kurbo::Point;

    fn a4() -> Sheet {
        Sheet::new(&PageSetup { paper: Paper::A4, margin_mm: 10.0, overlap_mm: 10.0 }, Turn::Upright).unwrap()
    }

    fn pack(pieces: &[Piece], sharing: Sharing) -> Layout {
        let texts: Vec<Rect> = pieces.iter().map(|p| p.text_box).collect();
        Packer::new(pieces, &texts, pieces.len(), sharing).pack(a4())
    }

    fn outline(piece: &Piece) -> Vec<Point> {
        piece.cut().unwrap().edges.iter().flat_map(|e| e.path.flatten(0.05)).collect()
    }

    #[test]
    fn every_order_once() {
        let pieces = sample::drawing("x").pieces;
        let shadows: Vec<Shadow> = pieces.iter().map(|p| Shadow::new(p, p.text_box, Crowd::Own)).collect();
        let all = orders(&shadows);
        assert_eq!(all.len(), 6);
        assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), 6);
    }

    #[test]
    fn kept_apart_no_two_pieces_share_a_page() {
        let pieces = sample::drawing("x").pieces;
        let layout = pack(&pieces, Sharing::Apart);
        let core = layout.sheet.core().size();
        let pages = |i: usize| -> BTreeSet<Cell> {
            Shadow::new(&pieces[i], pieces[i].text_box, Crowd::Own).pages(layout.offsets[i], core).collect()
        };
        for i in 0..pieces.len() {
            assert!((i + 1..pieces.len()).all(|k| pages(i).is_disjoint(&pages(k))));
        }
        assert!(layout.cells.len() >= pack(&pieces, Sharing::Shared).cells.len());
    }

    #[test]
    fn pieces_keep_apart_and_every_part_has_a_page() {
        let pieces = sample::drawing("x").pieces;
        let layout = pack(&pieces, Sharing::Shared);
        let lines: Vec<Vec<Point>> = pieces
            .iter()
            .zip(&layout.offsets)
            .map(|(p, o)| super::super::label::dense(&outline(p)).into_iter().map(|p| p + *o).collect())
            .collect();
        for (i, a) in lines.iter().enumerate() {
            assert!(a.iter().all(|p| p.x >= 0.0 && p.y >= 0.0));
            for p in a {
                assert!(lines[i + 1..].iter().flatten().all(|q| p.distance(*q) > GAP - 1.0));
            }
        }
        let core = layout.sheet.core().size();
        for (piece, offset) in pieces.iter().zip(&layout.offsets) {
            for p in outline(piece) {
                let p = p + *offset;
                let cell = ((p.y / core.height) as usize, (p.x / core.width) as usize);
                assert!(layout.cells.contains(&cell), "{p:?} has no page");
            }
        }
    }

    #[test]
    fn no_page_holds_next_to_nothing_of_a_piece() {
        let sheet = a4();
        let core = sheet.core().size();
        for over in [0.5, 5.0, 15.0] {
            let mut piece = sample::drawing("x").pieces[0].clone();
            piece.lines.clear();
            let grown = (core.height + over - 2.0 * REACH) / (extent(&piece).height() - 2.0 * REACH);
            for edge in piece.loops.iter_mut().flat_map(|l| &mut l.edges) {
                edge.path = edge.path.map(|p| Point::new(p.x, p.y * grown));
            }
            let layout = pack(std::slice::from_ref(&piece), Sharing::Shared);
            let bounds = extent(&piece) + layout.offsets[0];
            assert!(bounds.height() > core.height);
            let first = (bounds.y0 / core.height).floor().mul_add(-core.height, bounds.y0);
            let last = (bounds.y1 / core.height).floor().mul_add(-core.height, bounds.y1);
            assert!(core.height - first > LEAST - 1e-3 && last > LEAST - 1e-3, "{over}: {first}, {last}");
            let least = (bounds.width() / core.width).ceil() as usize * 2;
            assert!(layout.cells.len() <= least, "{over}: {:?}", layout.cells);
        }
    }

    #[test]
    fn a_page_in_the_middle_of_a_piece_is_printed_too() {
        let mut piece = sample::drawing("x").pieces[0].clone();
        let grow = |p: Point| Point::new(p.x * 6.0, p.y * 6.0);
        for edge in piece.loops.iter_mut().flat_map(|l| &mut l.edges) {
            edge.path = edge.path.map(grow);
        }
        let layout = pack(&[piece], Sharing::Shared);
        assert!(layout.cells.contains(&(1, 1)), "{:?}", layout.cells);
    }
}
