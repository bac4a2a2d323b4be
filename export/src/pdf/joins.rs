//! Joins of pages as they run through a piece: what is written there is torn in two, and printed twice.

use super::layout::Layout;
use kurbo::Rect;

/// To either side of a line that is cut, mm: no scissors follow it more closely.
const CUT: f64 = 1.0;

/// In the piece's own coordinates, mm.
#[derive(Default)]
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
        let own = || (layout.columns, layout.rows, layout.sheet.core().size());
        let (columns, rows, core) = layout.tiles.unwrap_or_else(own);
        let along = |pages: usize, page: f64, offset: f64, from: f64, to: f64| {
            let all = (1..pages).map(|k| k as f64 * page - offset);
            all.filter(|at| (from..to).contains(at)).collect()
        };
        Self {
            upright: along(columns, core.width, offset.x, bounds.x0, bounds.x1),
            level: along(rows, core.height, offset.y, bounds.y0, bounds.y1),
            strip: layout.sheet.strip,
        }
    }

    /// What of a room is printed once: its parts, the largest first.
    pub(super) fn parts(&self, room: Rect) -> Vec<Rect> {
        let across = self.between(&self.upright, (room.x0, room.x1));
        let down = self.between(&self.level, (room.y0, room.y1));
        let part = |(x0, x1): (f64, f64)| down.iter().map(move |(y0, y1)| Rect::new(x0, *y0, x1, *y1));
        let mut parts: Vec<Rect> = across.into_iter().flat_map(part).collect();
        parts.sort_by(|a, b| b.area().total_cmp(&a.area()));
        parts
    }

    /// What lies between the strips along joins.
    fn between(&self, joins: &[f64], (from, to): (f64, f64)) -> Vec<(f64, f64)> {
        let starts = std::iter::once(from).chain(joins.iter().map(|at| (at + self.strip).max(from)));
        let ends = joins.iter().map(|at| (at - self.strip).min(to)).chain([to]);
        starts.zip(ends).filter(|(start, end)| end > start).collect()
    }

    /// What is printed twice in these bounds.
    pub(super) fn strips(&self, bounds: Rect) -> impl Iterator<Item = Rect> {
        self.along(bounds, self.strip)
    }

    /// The lines in these bounds along which pages are cut.
    pub(super) fn lines(&self, bounds: Rect) -> impl Iterator<Item = Rect> {
        self.along(bounds, CUT)
    }

    fn along(&self, bounds: Rect, strip: f64) -> impl Iterator<Item = Rect> {
        let upright = self.upright.iter().map(move |x| Rect { x0: x - strip, x1: x + strip, ..bounds });
        upright.chain(self.level.iter().map(move |y| Rect { y0: y - strip, y1: y + strip, ..bounds }))
    }
}

#[cfg(test)]
mod tests {
    use super::super::label::{Field, beside};
    use super::super::layout::extent;
    use super::super::sample;
    use super::*;
    use kurbo::Vec2;

    #[test]
    fn a_room_falls_into_what_is_printed_once() {
        let joins = Joins { upright: vec![50.0, 120.0], level: vec![2.0], strip: 5.0 };
        let room = Rect::new(10.0, 0.0, 110.0, 20.0);
        assert_eq!(joins.parts(room), [Rect::new(55.0, 7.0, 110.0, 20.0), Rect::new(10.0, 7.0, 45.0, 20.0)]);
        let none = Joins { upright: Vec::new(), level: Vec::new(), strip: 5.0 };
        assert_eq!(none.parts(room), [room]);
    }

    /// A number that is cut in two is read as none.
    #[test]
    fn a_number_stands_on_one_side_of_a_join() {
        let piece = &sample::drawing("x").pieces[0];
        let fold = piece.mirror.unwrap();
        let at = fold.p0.midpoint(fold.p1);
        let is_cut = |level: Vec<f64>| {
            let joins = Joins { upright: Vec::new(), level, strip: 5.0 };
            let (mut field, size) = (Field::new(piece), 3.2);
            joins.lines(extent(piece)).for_each(|line| field.block(line));
            let place = beside(&mut field, at, Vec2::new(1.0, 0.0), 2.5, size);
            (place.at.y - 0.36 * size - at.y).abs() < 0.5 * size
        };
        assert!(is_cut(Vec::new()), "without a join it stands level with its place");
        assert!(!is_cut(vec![at.y]));
    }
}
