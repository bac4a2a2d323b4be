//! Places along one direction, each with what a piece would lie on there.

use super::shadow::Strip;
use super::span::Span;

/// A place for the left (or top) of a piece, and what it comes to lie on there.
pub(super) struct Lane {
    pub(super) at: f64,
    /// Those that it covers a part of.
    pub(super) strips: Vec<Strip>,
    /// Joins that come too near.
    pub(super) awkward: usize,
}

pub(super) fn lanes(places: &[f64], page: f64, span: &Span, air: f64, strips: impl Fn(f64) -> Vec<Strip>) -> Vec<Lane> {
    let covered = |at: f64| strips(at).into_iter().filter(|strip| !strip.is_empty()).collect();
    let lane = |at: &f64| Lane { at: *at, strips: covered(*at), awkward: span.awkward(*at, page, air) };
    places.iter().map(lane).collect()
}
