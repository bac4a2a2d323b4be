//! Where the pieces lie on the pages: as few pages as possible.
//!
//! The pages make one large grid of cores. Pieces are laid one after the other, in several orders;
//! each goes to the place that brings the fewest new pages, then where the fewest joins run
//! through its text or close to its own end, then through itself, then as drawn, then highest, then
//! leftmost. Then each piece in turn is taken up and laid again. A page counts only where a piece
//! covers part of its core.

mod lane;
mod shadow;
mod span;

use super::layout::{Cell, Layout, Score};
use super::options::Sharing;
use super::sheet::Sheet;
use engine::drawing::{Piece, QuarterTurns};
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

/// One way that a piece may lie: turned, with the box that it is written on then.
#[derive(Clone)]
pub(super) struct Stand {
    pub(super) turn: QuarterTurns,
    pub(super) piece: Piece,
    pub(super) text: Rect,
}

/// A piece in every way that it may lie; there is one at least.
type Ways = Vec<(QuarterTurns, Shadow)>;

/// The pieces of a drawing, ready to be laid on pages of any kind.
pub(super) struct Packer {
    pieces: Vec<Ways>,
    sharing: Sharing,
}

impl Packer {
    /// The first pieces, `own` of them, share no page with the others, so that a person can leave
    /// those out.
    pub(super) fn new(pieces: &[Vec<Stand>], own: usize, sharing: Sharing) -> Self {
        let crowd = |i: usize| if i < own { Crowd::Own } else { Crowd::Others };
        let way = |i: usize, s: &Stand| (s.turn, Shadow::new(&s.piece, s.text, crowd(i)));
        let ways = |(i, stands): (usize, &Vec<Stand>)| stands.iter().map(|s| way(i, s)).collect();
        Self { pieces: pieces.iter().enumerate().map(ways).collect(), sharing }
    }

    /// As many pages as all pieces would fill if they could be cut up.
    pub(super) fn least_pages(&self, sheet: &Sheet) -> usize {
        let area: f64 = self.pieces.iter().filter_map(|ways| ways.first()).map(|(_, s)| s.area()).sum();
        (area / sheet.core().area()).ceil() as usize
    }

    /// Lays the pieces on pages like this one.
    pub(super) fn pack(&self, sheet: Sheet) -> Layout {
        let core = sheet.core().size();
        let narrowest = |ways: &Ways| ways.iter().map(|(_, s)| s.bounds.width()).fold(f64::INFINITY, f64::min);
        let widest = self.pieces.iter().map(narrowest).fold(0.0, f64::max);
        let least = (widest / core.width).ceil().max(1.0) as usize;
        let columns = least..least + MORE_COLUMNS;
        let mut tables: Vec<(Score, Table)> = orders(&self.pieces)
            .iter()
            .flat_map(|order| columns.clone().map(move |columns| (order, columns)))
            .map(|(order, columns)| Table::laid_in(&self.pieces, self.sharing, &sheet, columns, order))
            .map(|table| (table.score(), table))
            .collect();
        // A stable sort: of equals, the first order stays first.
        tables.sort_by_key(|(score, _)| *score);
        tables.truncate(BETTERED);
        let best = tables.into_iter().map(|(_, table)| table.bettered()).min_by_key(Table::score);
        let table = best.unwrap_or_else(|| Table::new(&self.pieces, self.sharing, &sheet, 1));
        table.layout(sheet)
    }
}

/// New pages, texts and ends at joins, parts of the piece.
type Cost = (usize, usize, usize);

/// No place costs less.
const BEST: Cost = (0, 0, 1);

/// Where a piece lies: the number of the way, and what is added to its coordinates.
type Lies = (usize, Vec2);

/// The pages laid out side by side, and the pieces on them so far.
struct Table<'a> {
    pieces: &'a [Ways],
    sharing: Sharing,
    core: Size,
    /// What a text keeps from a join.
    air: f64,
    columns: usize,
    lies: Vec<Option<Lies>>,
    /// How many pieces each page carries a part of, row by row.
    uses: Vec<[u16; 2]>,
}

impl<'a> Table<'a> {
    fn new(pieces: &'a [Ways], sharing: Sharing, sheet: &Sheet, columns: usize) -> Self {
        let (core, air) = (sheet.core().size(), sheet.strip + AIR);
        Self { pieces, sharing, core, air, columns, lies: vec![None; pieces.len()], uses: Vec::new() }
    }

    fn laid_in(pieces: &'a [Ways], sharing: Sharing, sheet: &Sheet, columns: usize, order: &[usize]) -> Self {
        let mut table = Self::new(pieces, sharing, sheet, columns);
        order.iter().for_each(|i| table.lay(*i));
        table
    }

    /// Every piece taken up in turn and laid where it costs less.
    fn bettered(mut self) -> Self {
        for _ in 0..ROUNDS {
            (0..self.pieces.len()).for_each(|i| self.lay_again(i));
        }
        self
    }

    fn uses_of(&self, (row, column): Cell) -> [u16; 2] {
        self.uses.get(row * self.columns + column).copied().unwrap_or_default()
    }

    /// Puts a piece somewhere, or takes it up again.
    fn put(&mut self, i: usize, lies: Option<Lies>) {
        let ways = &self.pieces[i];
        let old = std::mem::replace(&mut self.lies[i], lies);
        if let Some((way, offset)) = old {
            let (_, shadow) = &ways[way];
            for (row, column) in shadow.pages(offset, self.core) {
                self.uses[row * self.columns + column][shadow.crowd as usize] -= 1;
            }
        }
        if let Some((way, offset)) = lies {
            let (_, shadow) = &ways[way];
            for (row, column) in shadow.pages(offset, self.core) {
                let at = row * self.columns + column;
                self.uses.resize(self.uses.len().max(at + 1), [0; 2]);
                self.uses[at][shadow.crowd as usize] += 1;
            }
        }
    }

    fn lay(&mut self, i: usize) {
        let low = self.others(i).map(|b| b.y1).fold(0.0, f64::max);
        let under = Vec2::new(0.0, (low / self.core.height).ceil() * self.core.height);
        let lies = self.best_place(i).unwrap_or_else(|| (0, under - self.pieces[i][0].1.bounds.origin().to_vec2()));
        self.put(i, Some(lies));
    }

    /// Takes a piece up and lays it where it costs less, if there is such a place.
    fn lay_again(&mut self, i: usize) {
        let (old, before) = (self.lies[i], self.score());
        self.put(i, None);
        self.lay(i);
        if self.score() > before {
            self.put(i, old);
        }
    }

    /// The boxes of the other pieces.
    fn others(&self, i: usize) -> impl Iterator<Item = Rect> + '_ {
        self.laid_beside(i).map(|(s, o)| s.bounds + o)
    }

    fn best_place(&self, i: usize) -> Option<Lies> {
        let mut best: Option<(Cost, Lies)> = None;
        for (way, (_, shadow)) in self.pieces[i].iter().enumerate() {
            let found = self.best_place_of(i, shadow, best.map(|(cost, _)| cost));
            best = found.map(|(cost, offset)| (cost, (way, offset))).or(best);
            if best.is_some_and(|(cost, _)| cost == BEST) {
                break;
            }
        }
        best.map(|(_, lies)| lies)
    }

    /// The best place of a piece in one way, where there is one that costs less than so much.
    fn best_place_of(&self, i: usize, shadow: &Shadow, under_cost: Option<Cost>) -> Option<(Cost, Vec2)> {
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
            let most = best.map(|(cost, _)| cost).or(under_cost).unwrap_or((usize::MAX, 0, 0));
            let Some(cost) = self.cost(shadow.crowd, row, column, most) else { continue };
            let offset = Vec2::new(column.at, row.at) - origin.to_vec2();
            if self.is_free(i, shadow, offset) {
                best = Some((cost, offset));
            }
            if cost == BEST && best.is_some() {
                break;
            }
        }
        best
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

    fn is_free(&self, i: usize, shadow: &Shadow, offset: Vec2) -> bool {
        self.laid_beside(i).all(|(other, there)| shadow.is_clear_of(offset, other, there))
    }

    fn laid(&self) -> impl Iterator<Item = (&Shadow, Vec2)> + '_ {
        self.laid_beside(usize::MAX)
    }

    /// All that are laid but one.
    fn laid_beside(&self, i: usize) -> impl Iterator<Item = (&Shadow, Vec2)> + '_ {
        let laid = self.pieces.iter().zip(&self.lies).enumerate().filter(move |(k, _)| *k != i);
        laid.filter_map(|(_, (ways, lies))| lies.map(|(way, offset)| (&ways[way].1, offset)))
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
        let lies = || self.lies.iter().map(|lies| lies.unwrap_or_default());
        Layout {
            sheet,
            turns: self.pieces.iter().zip(lies()).map(|(ways, (way, _))| ways[way].0).collect(),
            offsets: lies().map(|(_, offset)| offset).collect(),
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
fn orders(pieces: &[Ways]) -> Vec<Vec<usize>> {
    let n = pieces.len();
    let size = |i: usize| pieces[i].first().map_or(0.0, |(_, s)| s.bounds.area());
    if n > EVERY_ORDER {
        let turned = |k: usize| (0..n).map(move |i| (i + k) % n).collect::<Vec<_>>();
        let mut largest_first: Vec<usize> = (0..n).collect();
        largest_first.sort_by(|a, b| size(*b).total_cmp(&size(*a)));
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
        pack_turning(pieces, sharing, &[QuarterTurns::None])
    }

    fn pack_turning(pieces: &[Piece], sharing: Sharing, turns: &[QuarterTurns]) -> Layout {
        let stand = |p: &Piece, turn: QuarterTurns| Stand { turn, piece: p.turned(turn), text: turn.rect(p.text_box) };
        let stands: Vec<Vec<Stand>> = pieces.iter().map(|p| turns.iter().map(|t| stand(p, *t)).collect()).collect();
        Packer::new(&stands, pieces.len(), sharing).pack(a4())
    }

    fn outline(piece: &Piece) -> Vec<Point> {
        piece.cut().unwrap().edges.iter().flat_map(|e| e.path.flatten(0.05)).collect()
    }

    #[test]
    fn every_order_once() {
        let shadow = |p: &Piece| vec![(QuarterTurns::None, Shadow::new(p, p.text_box, Crowd::Own))];
        let pieces: Vec<Ways> = sample::drawing("x").pieces.iter().map(shadow).collect();
        let all = orders(&pieces);
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
        pieces_keep_apart(&[QuarterTurns::None]);
        pieces_keep_apart(&QuarterTurns::ALL);
    }

    fn pieces_keep_apart(turns: &[QuarterTurns]) {
        let pieces = sample::drawing("x").pieces;
        let layout = pack_turning(&pieces, Sharing::Shared, turns);
        let pieces: Vec<Piece> = pieces.iter().zip(&layout.turns).map(|(p, t)| p.turned(*t)).collect();
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

    /// Two sheets wide and a little over, a strip takes fewer pages along the page than across it.
    #[test]
    fn a_turn_saves_pages() {
        let mut strip = sample::drawing("x").pieces[2].clone();
        for edge in strip.loops.iter_mut().flat_map(|l| &mut l.edges) {
            edge.path = edge.path.map(|p| Point::new(2.0 * p.x, 0.5 * p.y));
        }
        (strip.text_box, strip.lines) = (Rect::new(-20.0, 30.0, 20.0, 60.0), vec![]);
        let pages = |turns: &[QuarterTurns]| pack_turning(&[strip.clone()], Sharing::Shared, turns).cells.len();
        assert_eq!((pages(&[QuarterTurns::None]), pages(&QuarterTurns::ALL)), (2, 1));
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
