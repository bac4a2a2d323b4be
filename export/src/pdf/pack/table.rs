//! Pages side by side, and the pieces that lie on them so far.

use super::lane::{Lane, lanes, within};
use super::shadow::{Crowd, GAP, Shadow};
use super::span::{AIR, places};
use crate::pdf::layout::{Cell, Layout, Score};
use crate::pdf::options::Sharing;
use crate::pdf::sheet::Sheet;
use engine::drawing::QuarterTurns;
use kurbo::{Rect, Size, Vec2};
use std::collections::{BTreeMap, BTreeSet};

/// Every piece is taken up and laid again so often.
const ROUNDS: usize = 2;

/// A piece in every way that it may lie; there is one at least.
pub(super) type Ways = Vec<(QuarterTurns, Shadow)>;

/// New pages, texts and ends at joins, parts of the piece.
type Cost = (usize, usize, usize);

/// No place costs less.
const BEST: Cost = (0, 0, 1);

/// Where a piece lies: the number of the way, and what is added to its coordinates.
type Lies = (usize, Vec2);

/// What all tables of one kind of page have in common.
pub(super) struct Ground<'a> {
    pieces: &'a [Ways],
    sharing: Sharing,
    core: Size,
    /// What a text keeps from a join.
    air: f64,
    /// No piece needs to end lower than this.
    depth: f64,
    /// A table of more pages is not looked at any further.
    most: usize,
    /// Of every piece in every way: where it may begin by the joins alone, across and down.
    by_joins: Vec<Vec<[Vec<Lane>; 2]>>,
}

impl<'a> Ground<'a> {
    /// For tables of up to so many columns, and of so many pages at most.
    pub(super) fn new(pieces: &'a [Ways], sharing: Sharing, sheet: &Sheet, (columns, most): (usize, usize)) -> Self {
        let (core, air) = (sheet.core().size(), sheet.strip + AIR);
        let longest = |ways: &Ways| ways.iter().map(|(_, s)| s.bounds.height()).fold(0.0, f64::max);
        // All of them under each other, each with a new page begun.
        let depth = pieces.iter().map(|ways| core.height + longest(ways)).sum();
        let ground = Self { pieces, sharing, core, air, depth, most, by_joins: Vec::new() };
        let width = columns as f64 * core.width;
        let by_joins = |(_, shadow): &(QuarterTurns, Shadow)| {
            let [across, down] = shadow.spans();
            let (xs, ys) = (places(core.width, &across, air, width), places(core.height, &down, air, depth));
            [ground.across(shadow, xs), ground.down(shadow, ys)]
        };
        let all = pieces.iter().map(|ways| ways.iter().map(by_joins).collect()).collect();
        Self { by_joins: all, ..ground }
    }

    fn across(&self, shadow: &Shadow, xs: impl IntoIterator<Item = f64>) -> Vec<Lane> {
        let ([across, _], page) = (shadow.spans(), self.core.width);
        lanes(xs, page, &across, self.air, |x| shadow.columns(x, page))
    }

    fn down(&self, shadow: &Shadow, ys: impl IntoIterator<Item = f64>) -> Vec<Lane> {
        let ([_, down], page) = (shadow.spans(), self.core.height);
        lanes(ys, page, &down, self.air, |y| shadow.rows(y, page))
    }
}

/// The pages laid out side by side, and the pieces on them so far.
#[derive(Clone)]
pub(super) struct Table<'a> {
    ground: &'a Ground<'a>,
    columns: usize,
    lies: Vec<Option<Lies>>,
    /// How often a piece has come to lie elsewhere, and how often when each was last laid.
    moves: usize,
    settled: Vec<usize>,
    /// How many pieces each page carries a part of, row by row.
    uses: Vec<[u16; 2]>,
}

/// A lane, and how many pages at least are new there.
struct Course<'l> {
    lane: &'l Lane,
    new: usize,
}

impl<'l> Course<'l> {
    fn all(lanes: Vec<&'l Lane>, used: &[bool]) -> Vec<Self> {
        let is_used = |page: usize| used.get(page).copied().unwrap_or_default();
        let course =
            |lane: &'l Lane| Self { lane, new: lane.strips.iter().filter(|strip| !is_used(strip.page)).count() };
        lanes.into_iter().map(course).collect()
    }
}

impl<'a> Table<'a> {
    pub(super) fn new(ground: &'a Ground<'a>, columns: usize) -> Self {
        let count = ground.pieces.len();
        Self { ground, columns, lies: vec![None; count], moves: 0, settled: vec![0; count], uses: Vec::new() }
    }

    /// The same with one more piece, where that is not too many pages.
    pub(super) fn with(&self, i: usize) -> Option<Self> {
        let mut table = self.clone();
        table.lay(i);
        table.moved(i);
        (table.cells().count() <= self.ground.most).then_some(table)
    }

    /// Every piece taken up in turn and laid where it costs less.
    pub(super) fn bettered(mut self) -> Self {
        for _ in 0..ROUNDS {
            (0..self.lies.len()).for_each(|i| self.lay_again(i));
        }
        self
    }

    /// A piece has come to lie elsewhere.
    fn moved(&mut self, i: usize) {
        self.moves += 1;
        self.settled[i] = self.moves;
    }

    /// Do the pieces lie in the same places?
    pub(super) fn is_laid_like(&self, other: &Self) -> bool {
        self.columns == other.columns && self.lies == other.lies
    }

    fn uses_of(&self, (row, column): Cell) -> [u16; 2] {
        self.uses.get(row * self.columns + column).copied().unwrap_or_default()
    }

    /// Puts a piece somewhere, or takes it up again.
    fn put(&mut self, i: usize, lies: Option<Lies>) {
        let ways = &self.ground.pieces[i];
        let old = std::mem::replace(&mut self.lies[i], lies);
        if let Some((way, offset)) = old {
            let (_, shadow) = &ways[way];
            for (row, column) in shadow.pages(offset, self.ground.core) {
                self.uses[row * self.columns + column][shadow.crowd as usize] -= 1;
            }
        }
        if let Some((way, offset)) = lies {
            let (_, shadow) = &ways[way];
            for (row, column) in shadow.pages(offset, self.ground.core) {
                let at = row * self.columns + column;
                self.uses.resize(self.uses.len().max(at + 1), [0; 2]);
                self.uses[at][shadow.crowd as usize] += 1;
            }
        }
    }

    fn lay(&mut self, i: usize) {
        let low = self.others(i).map(|b| b.y1).fold(0.0, f64::max);
        let under = Vec2::new(0.0, (low / self.ground.core.height).ceil() * self.ground.core.height);
        let lies =
            self.best_place(i).unwrap_or_else(|| (0, under - self.ground.pieces[i][0].1.bounds.origin().to_vec2()));
        self.put(i, Some(lies));
    }

    /// Takes a piece up and lays it where it costs less, if there is such a place.
    fn lay_again(&mut self, i: usize) {
        // Where nothing has moved since, it would come to lie there again.
        if self.settled[i] == self.moves {
            return;
        }
        let (old, before) = (self.lies[i], self.score());
        self.put(i, None);
        self.lay(i);
        if self.score() > before {
            self.put(i, old);
        }
        if self.lies[i] == old { self.settled[i] = self.moves } else { self.moved(i) }
    }

    /// The boxes of the other pieces.
    fn others(&self, i: usize) -> impl Iterator<Item = Rect> + '_ {
        self.laid_beside(i).map(|(s, o)| s.bounds + o)
    }

    fn best_place(&self, i: usize) -> Option<Lies> {
        let mut best: Option<(Cost, Lies)> = None;
        let more = self.ground.most.saturating_sub(self.cells().count());
        let too_much = (more.saturating_add(1), 0, 0);
        for way in 0..self.ground.pieces[i].len() {
            let found = self.best_place_of(i, way, best.map_or(too_much, |(cost, _)| cost));
            best = found.map(|(cost, offset)| (cost, (way, offset))).or(best);
            if best.is_some_and(|(cost, _)| cost == BEST) {
                break;
            }
        }
        best.map(|(_, lies)| lies)
    }

    /// The best place of a piece in one way, where there is one that costs less than so much.
    fn best_place_of(&self, i: usize, way: usize, too_much: Cost) -> Option<(Cost, Vec2)> {
        let (ground, shadow) = (self.ground, &self.ground.pieces[i][way].1);
        let (size, origin) = (shadow.bounds.size(), shadow.bounds.origin());
        let width = self.columns as f64 * ground.core.width;
        let low = self.others(i).map(|b| b.y1).fold(0.0, f64::max);
        let depth = (low + ground.core.height + size.height).min(ground.depth);
        let beside = ground.across(shadow, self.others(i).map(|b| b.x1 + GAP));
        let under = ground.down(shadow, self.others(i).map(|b| b.y1 + GAP));
        let [across, down] = &ground.by_joins[i][way];
        let columns = within([across, &beside], size.width, width);
        let rows = within([down, &under], size.height, depth);
        let [used_rows, used_columns] = self.used(shadow.crowd);
        let (rows, columns) = (Course::all(rows, &used_rows), Course::all(columns, &used_columns));
        let mut best: Option<(Cost, Vec2)> = None;
        for (row, column) in rows.iter().flat_map(|row| columns.iter().map(move |column| (row, column))) {
            let most = best.map_or(too_much, |(cost, _)| cost);
            let Some(cost) = self.cost(shadow.crowd, row, column, most) else { continue };
            let (row, column) = (row.lane, column.lane);
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

    /// Which rows and which columns of pages carry a part of this crowd.
    fn used(&self, crowd: Crowd) -> [Vec<bool>; 2] {
        let mut used = [vec![false; self.uses.len().div_ceil(self.columns)], vec![false; self.columns]];
        for (i, _) in self.uses.iter().enumerate().filter(|(_, n)| n[crowd as usize] > 0) {
            used[0][i / self.columns] = true;
            used[1][i % self.columns] = true;
        }
        used
    }

    /// What a piece brings where two lanes cross, where that is less than `most`.
    fn cost(&self, crowd: Crowd, row: &Course, column: &Course, most: Cost) -> Option<Cost> {
        let least = row.new.max(column.new);
        let (row, column) = (row.lane, column.lane);
        // It lies on a page of every row and of every column at least.
        let awkward = row.awkward + column.awkward;
        if (least, awkward, row.strips.len().max(column.strips.len())) >= most {
            return None;
        }
        let (mut new, mut parts) = (0, 0);
        for (r, c) in row.strips.iter().flat_map(|r| column.strips.iter().map(move |c| (r, c))) {
            if !r.meets(c) {
                continue;
            }
            let uses = self.uses_of((r.page, c.page));
            match (uses[crowd as usize] > 0, uses[1 - crowd as usize] > 0, self.ground.sharing) {
                (_, true, _) | (true, _, Sharing::Apart) => return None,
                (true, _, Sharing::Shared) => {}
                (false, ..) => new += 1,
            }
            parts += 1;
            if new > most.0 {
                return None;
            }
        }
        let cost = (new, awkward, parts);
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
        let laid = self.ground.pieces.iter().zip(&self.lies).enumerate().filter(move |(k, _)| *k != i);
        laid.filter_map(|(_, (ways, lies))| lies.map(|(way, offset)| (&ways[way].1, offset)))
    }

    fn cells(&self) -> impl Iterator<Item = Cell> + '_ {
        let used = self.uses.iter().enumerate().filter(|(_, n)| n.iter().any(|n| *n > 0));
        used.map(|(i, _)| (i / self.columns, i % self.columns))
    }

    pub(super) fn score(&self) -> Score {
        let (rows, columns) = grid(self.cells());
        let low = self.laid().map(|(s, o)| o.y + s.bounds.y1).fold(0.0, f64::max);
        let awkward = |(s, o): (&Shadow, Vec2)| {
            let ([across, down], at) = (s.spans(), s.bounds.origin() + o);
            across.awkward(at.x, self.ground.core.width, self.ground.air)
                + down.awkward(at.y, self.ground.core.height, self.ground.air)
        };
        let awkward = self.laid().map(awkward).sum();
        let parts = self.uses.iter().flatten().map(|n| usize::from(*n)).sum();
        (self.cells().count(), awkward, parts, rows * columns, (low * 10.0) as u64)
    }

    fn owners(&self) -> Option<BTreeMap<Cell, BTreeSet<usize>>> {
        let mut owners: BTreeMap<Cell, BTreeSet<usize>> = BTreeMap::new();
        for (i, (shadow, offset)) in self.laid().enumerate() {
            shadow.pages(offset, self.ground.core).for_each(|page| {
                owners.entry(page).or_default().insert(i);
            });
        }
        (self.ground.sharing == Sharing::Apart).then_some(owners)
    }

    pub(super) fn layout(&self, sheet: Sheet) -> Layout {
        let (rows, columns) = grid(self.cells());
        let lies = || self.lies.iter().map(|lies| lies.unwrap_or_default());
        Layout {
            tiles: None,
            sheet,
            turns: self.ground.pieces.iter().zip(lies()).map(|(ways, (way, _))| ways[way].0).collect(),
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
