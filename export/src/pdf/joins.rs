//! Joins of pages as they run through a piece: what is written there is torn in two, and printed twice.

use super::layout::Layout;
use kurbo::{Rect, Vec2};

/// In the piece's own coordinates, mm.
pub(super) struct Joins {
    upright: Vec<f64>,
    level: Vec<f64>,
    /// Half the width of what is printed twice.
    strip: f64,
}

impl Joins {
    /// Those of a layout through one of its pieces, which lies in these bounds.
    pub(super) fn through(layout: &Layout, piece: usize, bounds: Rect) -> Self {
        let offset = layout.offsets.get(piece).copied().unwrap_or_default();
        let core = layout.sheet.core().size();
        let along = |pages: usize, page: f64, offset: f64, from: f64, to: f64| {
            let all = (1..pages).map(|k| k as f64 * page - offset);
            all.filter(|at| (from..to).contains(at)).collect()
        };
        Self {
            upright: along(layout.columns, core.width, offset.x, bounds.x0, bounds.x1),
            level: along(layout.rows, core.height, offset.y, bounds.y0, bounds.y1),
            strip: layout.sheet.strip,
        }
    }

    /// By how much words are moved within their room, so that no join runs through them; not at all where there is
    /// no such place.
    pub(super) fn aside(&self, words: Rect, room: Rect) -> Vec2 {
        let across = self.shift(&self.upright, (words.x0, words.x1), room.x1);
        let down = self.shift(&self.level, (words.y0, words.y1), room.y1);
        Vec2::new(across, down)
    }

    fn shift(&self, joins: &[f64], (from, to): (f64, f64), end: f64) -> f64 {
        let is_clear = |by: &f64| joins.iter().all(|at| to + by <= at - self.strip || from + by >= at + self.strip);
        let beyond = joins.iter().map(|at| at + self.strip - from);
        let tried = std::iter::once(0.0).chain(beyond).filter(|by| *by >= 0.0 && to + by <= end);
        tried.filter(is_clear).min_by(f64::total_cmp).unwrap_or(0.0)
    }

    /// What is printed twice in these bounds.
    pub(super) fn strips(&self, bounds: Rect) -> impl Iterator<Item = Rect> {
        let strip = self.strip;
        let upright = self.upright.iter().map(move |x| Rect { x0: x - strip, x1: x + strip, ..bounds });
        upright.chain(self.level.iter().map(move |y| Rect { y0: y - strip, y1: y + strip, ..bounds }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_go_to_the_first_place_that_is_clear() {
        let joins = Joins { upright: vec![50.0, 120.0], level: Vec::new(), strip: 5.0 };
        let room = Rect::new(10.0, 0.0, 110.0, 20.0);
        let aside = |x0: f64, x1: f64| joins.aside(Rect::new(x0, 0.0, x1, 10.0), room);
        assert_eq!(aside(10.0, 45.0), Vec2::ZERO);
        // Just beyond the strip along the first join.
        assert_eq!(aside(10.0, 46.0), Vec2::new(45.0, 0.0));
        // Too wide for any place: it stays.
        assert_eq!(aside(10.0, 100.0), Vec2::ZERO);
    }
}
