//! Pieces turned by quarter turns, for paper: the grain line turns with them.

use super::{Edge, Loop, Notch, Number, Open, Piece};
use kurbo::{Line, Point, Rect, Vec2};

/// Turned clockwise as seen, by so many quarters of a whole turn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum QuarterTurns {
    /// As drawn.
    #[default]
    None,
    /// What was up points to the right.
    One,
    /// Upside down.
    Two,
    /// What was up points to the left.
    Three,
}

impl QuarterTurns {
    /// All of them; first as drawn.
    pub const ALL: [Self; 4] = [Self::None, Self::One, Self::Two, Self::Three];

    /// A direction, turned; y runs down.
    pub const fn direction(self, v: Vec2) -> Vec2 {
        match self {
            Self::None => v,
            Self::One => Vec2::new(-v.y, v.x),
            Self::Two => Vec2::new(-v.x, -v.y),
            Self::Three => Vec2::new(v.y, -v.x),
        }
    }

    /// A place, turned about the origin.
    pub const fn point(self, p: Point) -> Point {
        let v = self.direction(Vec2::new(p.x, p.y));
        Point::new(v.x, v.y)
    }

    /// A box, turned about the origin.
    pub fn rect(self, r: Rect) -> Rect {
        Rect::from_points(self.point(r.origin()), self.point(Point::new(r.x1, r.y1)))
    }

    fn line(self, l: Line) -> Line {
        Line::new(self.point(l.p0), self.point(l.p1))
    }
}

impl Piece {
    /// The same piece turned about its origin. Its text keeps its room, and is set upright there.
    pub fn turned(&self, by: QuarterTurns) -> Self {
        if by == QuarterTurns::None {
            return self.clone();
        }
        let Self {
            name,
            material,
            quantity,
            extent,
            mirror,
            grain,
            stretch,
            loops,
            lines,
            notches,
            numbers,
            text,
            text_box,
        } = self;
        let path = |path: &crate::curve::Path| path.map(|p| by.point(p));
        let edge = |e: &Edge| Edge { name: e.name.clone(), path: path(&e.path), start: e.start };
        let outline = |l: &Loop| Loop { role: l.role, edges: l.edges.iter().map(edge).collect() };
        let open = |o: &Open| Open { role: o.role, edge: o.edge.clone(), path: path(&o.path) };
        let notch = |n: &Notch| Notch { at: by.point(n.at), inward: by.direction(n.inward), ..n.clone() };
        let number = |n: &Number| Number { at: by.point(n.at), inward: by.direction(n.inward), ..n.clone() };
        Self {
            name: name.clone(),
            material: material.clone(),
            quantity: *quantity,
            extent: *extent,
            mirror: mirror.map(|l| by.line(l)),
            grain: by.line(*grain),
            stretch: by.line(*stretch),
            loops: loops.iter().map(outline).collect(),
            lines: lines.iter().map(open).collect(),
            notches: notches.iter().map(notch).collect(),
            numbers: numbers.iter().map(number).collect(),
            text: text.clone(),
            text_box: by.rect(*text_box),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;

    #[test]
    fn four_quarters_are_a_whole_turn_and_nothing_is_mirrored() {
        let sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let piece = &crate::make(&sheet).unwrap().drawing.pieces[0];
        let quarter = piece.turned(QuarterTurns::One);
        assert_eq!(quarter.turned(QuarterTurns::Three), *piece);
        assert_eq!(quarter.turned(QuarterTurns::One), piece.turned(QuarterTurns::Two));
        let (b, t) = (piece.bounds(), quarter.bounds());
        assert!((b.width() - t.height()).abs() < 1e-9 && (b.height() - t.width()).abs() < 1e-9);
        // What was up points to the right: the grain line runs level.
        assert!((quarter.grain.p0.y - quarter.grain.p1.y).abs() < 1e-9 && quarter.grain.p0.x > quarter.grain.p1.x);
        let area = |p: &Piece| -> f64 {
            let corners: Vec<Point> = p.cut().unwrap().edges.iter().flat_map(|e| e.path.flatten(0.1)).collect();
            let sides = corners.iter().zip(corners.iter().cycle().skip(1));
            sides.map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum()
        };
        assert!((area(piece) - area(&quarter)).abs() < 1e-3 && area(piece) > 0.0, "clockwise as seen, still");
    }
}
