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
mod table;
#[cfg(test)]
mod tests;

use super::layout::Layout;
use super::options::Sharing;
use super::sheet::Sheet;
use engine::drawing::QuarterTurns;
use kurbo::Rect;
pub(super) use shadow::Outline;
use shadow::{Crowd, Shadow};
use table::{Ground, Table, Ways};

/// With more pieces than this only some orders are tried.
const EVERY_ORDER: usize = 3;
/// More columns than needed for the widest piece are tried up to this number.
const MORE_COLUMNS: usize = 3;
/// So many of the best layouts are bettered.
const BETTERED: usize = 8;

/// One way that a piece may lie: turned, with the box that it is written on then.
pub(super) struct Stand {
    pub(super) turn: QuarterTurns,
    pub(super) text: Rect,
}

/// The pieces of a drawing, ready to be laid on pages of any kind.
pub(super) struct Packer {
    outlines: Vec<Outline>,
    pieces: Vec<Ways>,
    own: usize,
    sharing: Sharing,
}

impl Packer {
    /// The first pieces, `own` of them, share no page with the others, so that a person can leave
    /// those out.
    pub(super) fn new(outlines: Vec<Outline>, stands: &[Vec<Stand>], own: usize, sharing: Sharing) -> Self {
        Self { pieces: stands.iter().map(|_| Ways::new()).collect(), outlines, own, sharing }.with(stands)
    }

    /// The same with more ways that each piece may lie.
    pub(super) fn with(mut self, more: &[Vec<Stand>]) -> Self {
        for (i, (ways, (outline, stands))) in self.pieces.iter_mut().zip(self.outlines.iter().zip(more)).enumerate() {
            let crowd = if i < self.own { Crowd::Own } else { Crowd::Others };
            ways.extend(stands.iter().map(|s| (s.turn, Shadow::new(outline, s.turn, s.text, crowd))));
        }
        self
    }

    /// As many pages as all pieces would fill if they could be cut up.
    pub(super) fn least_pages(&self, sheet: &Sheet) -> usize {
        let area: f64 = self.pieces.iter().filter_map(|ways| ways.first()).map(|(_, s)| s.area()).sum();
        (area / sheet.core().area()).ceil() as usize
    }

    /// Lays the pieces on pages like this one; none where all that was tried takes more than so many pages before
    /// it is bettered.
    pub(super) fn pack(&self, sheet: Sheet, most: usize) -> Option<Layout> {
        let core = sheet.core().size();
        let narrowest = |ways: &Ways| ways.iter().map(|(_, s)| s.bounds.width()).fold(f64::INFINITY, f64::min);
        let widest = self.pieces.iter().map(narrowest).fold(0.0, f64::max);
        let least = (widest / core.width).ceil().max(1.0) as usize;
        let columns = least..least + MORE_COLUMNS;
        let ground = Ground::new(&self.pieces, self.sharing, &sheet, (columns.end - 1, most));
        let (orders, mut tables) = (orders(&self.pieces), Vec::new());
        for columns in columns {
            // What one order begins with, the next ones begin with as well.
            let (mut begun, mut last) = (vec![Some(Table::new(&ground, columns))], &[][..]);
            for (number, order) in orders.iter().enumerate() {
                let common = order.iter().zip(last).take_while(|(a, b)| a == b).count();
                begun.truncate(common + 1);
                for i in &order[common..] {
                    begun.push(begun.last().and_then(|table| table.as_ref()?.with(*i)));
                }
                tables.extend(begun.last().into_iter().flatten().map(|table| (table.score(), number, table.clone())));
                last = order;
            }
        }
        // Of equals, the first order stays first.
        tables.sort_by_key(|(score, number, _)| (*score, *number));
        tables.truncate(BETTERED);
        let mut distinct: Vec<Table> = Vec::with_capacity(BETTERED);
        for (_, _, table) in tables {
            if !distinct.iter().any(|known| known.is_laid_like(&table)) {
                distinct.push(table);
            }
        }
        distinct.into_iter().map(Table::bettered).min_by_key(Table::score).map(|table| table.layout(sheet))
    }
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
