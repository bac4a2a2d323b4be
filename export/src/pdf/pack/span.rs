//! A piece along one direction: where it may begin on a row of pages, and what is awkward there.

/// A part of a piece that reaches over a join is no shorter than this where that can be, mm.
pub(super) const LEAST: f64 = 20.0;
/// Between a text and the strip that the next page shows again, mm.
pub(super) const AIR: f64 = 1.0;

/// A piece along one direction, from its left or its top, mm.
pub(super) struct Span {
    pub(super) length: f64,
    /// Where its text stands.
    pub(super) text: (f64, f64),
}

impl Span {
    /// How many joins of pages come too near, where the piece begins at a place: to its text, and
    /// to either of its ends, where a page would hold next to nothing of it.
    pub(super) fn awkward(&self, at: f64, page: f64, air: f64) -> usize {
        // A hair less, for places that keep just that.
        let (air, least) = (air - 1e-6, LEAST - 1e-6);
        // A join at its very end is none of this piece.
        let (start, end) = (at + 1e-6, at + self.length - 1e-6);
        let text = joins((at + self.text.0 - air).max(start), (at + self.text.1 + air).min(end), page);
        text + joins(start, at + least, page) + joins(at + self.length - least, end, page)
    }
}

/// How many joins of pages so long lie between two places, neither left of (or above) the first page.
fn joins(from: f64, to: f64, page: f64) -> usize {
    // Cut off, which is rounded down here.
    ((to / page) as usize).saturating_sub((from / page) as usize)
}

/// Places for the left (or top) of a piece on pages `page` long, up to `end`: with one end on a join, with its
/// text beside a join; where it is a little longer than whole pages, also with enough of it over a join.
pub(super) fn places(page: f64, span: &Span, air: f64, end: f64) -> Vec<f64> {
    let size = span.length;
    let over = size % page;
    let a_little = over > 1e-6 && over < LEAST && size > page;
    let joins = (0..).map(|k| f64::from(k) * page).take_while(|x| *x <= end + 1e-6);
    let usual = |x: f64| [x, x - size, x + air - span.text.0, x - air - span.text.1];
    let of =
        |x: f64| usual(x).into_iter().chain(a_little.then_some([x - LEAST, x + LEAST - size]).into_iter().flatten());
    joins.flat_map(of).filter(|x| *x >= 0.0 && x + size <= end + 1e-6).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pdf::options::{PageSetup, Turn};
    use crate::pdf::sheet::Sheet;

    #[test]
    fn a_text_keeps_off_the_strips_that_are_printed_twice() {
        let sheet = Sheet::new(&PageSetup::default(), Turn::Upright).unwrap();
        let (page, air) = (sheet.core().width(), sheet.strip + AIR);
        // Wider than a page, with its text in the middle, where the join would run by itself.
        let span = Span { length: 1.7 * page, text: (0.9 * page, 1.2 * page) };
        let places = places(page, &span, air, 2.0 * page);
        let best = places.iter().min_by_key(|at| span.awkward(**at, page, air)).unwrap();
        assert_eq!(span.awkward(*best, page, air), 0);
        assert!(best + span.text.0 - page >= sheet.strip, "{best}");
        // A text against a join counts, and so does one that begins in the strip beyond it.
        assert_eq!(span.awkward(0.0, page, air), 1);
        assert_eq!(span.awkward(0.1 * page + sheet.strip - 0.1, page, air), 1);
    }
}
