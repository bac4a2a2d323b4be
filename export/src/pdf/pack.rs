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

use super::layout::{Layout, Score};
use super::options::Sharing;
use super::sheet::Sheet;
use engine::drawing::{Piece, QuarterTurns};
use kurbo::Rect;
use shadow::{Crowd, Shadow};
use table::{Table, Ways};

/// With more pieces than this only some orders are tried.
const EVERY_ORDER: usize = 3;
/// More columns than needed for the widest piece are tried up to this number.
const MORE_COLUMNS: usize = 3;
/// So many of the best layouts are bettered.
const BETTERED: usize = 8;

/// One way that a piece may lie: turned, with the box that it is written on then.
#[derive(Clone)]
pub(super) struct Stand {
    pub(super) turn: QuarterTurns,
    pub(super) piece: Piece,
    pub(super) text: Rect,
}

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
        let mut distinct: Vec<Table> = Vec::with_capacity(BETTERED);
        for (_, table) in tables {
            if !distinct.iter().any(|known| known.is_laid_like(&table)) {
                distinct.push(table);
            }
        }
        let best = distinct.into_iter().map(Table::bettered).min_by_key(Table::score);
        let table = best.unwrap_or_else(|| Table::new(&self.pieces, self.sharing, &sheet, 1));
        table.layout(sheet)
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
