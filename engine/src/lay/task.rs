//! What is laid, and where on a strip of cloth it can lie.

use super::nofit::Table;
use super::shape::{Place, Shape};
use kurbo::Rect;

/// What is to be laid.
pub(super) struct Task<'a> {
    pub(super) shapes: &'a [Shape],
    pub(super) table: &'a Table,
    /// The shape of each piece.
    pub(super) pieces: &'a [usize],
    /// Of the cloth, mm.
    pub(super) width: f64,
    /// May pieces be turned by half a turn?
    pub(super) may_turn: bool,
}

impl Task<'_> {
    /// Where the origin of a piece can be on a strip of some length.
    pub(super) fn room(&self, piece: usize, is_turned: bool, length: f64) -> Rect {
        let b = self.bounds(piece, is_turned);
        let (x1, y1) = ((self.width - b.x1).max(-b.x0), (length - b.y1).max(-b.y0));
        Rect::new(-b.x0, -b.y0, x1, y1)
    }

    /// Round a piece about its origin.
    pub(super) fn bounds(&self, piece: usize, is_turned: bool) -> Rect {
        let b = self.shapes[self.pieces[piece]].bounds;
        if is_turned { Rect::new(-b.x1, -b.y1, -b.x0, -b.y0) } else { b }
    }

    /// How long a strip these places take, mm.
    pub(super) fn length(&self, places: &[Place]) -> f64 {
        let ends = places.iter().enumerate().map(|(i, p)| p.at.y + self.bounds(i, p.is_turned).y1);
        ends.fold(0.0, f64::max)
    }

    /// No strip is shorter than its tallest piece, mm.
    pub(super) fn tallest(&self) -> f64 {
        self.pieces.iter().map(|s| self.shapes[*s].bounds.height()).fold(0.0, f64::max)
    }
}
