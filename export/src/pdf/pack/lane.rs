//! Places along one direction, each with what a piece would lie on there.

use super::shadow::Strip;
use super::span::Span;

/// Nearer than this, two places are one, mm.
const SAME: f64 = 0.1;

/// A place for the left (or top) of a piece, and what it comes to lie on there.
pub(super) struct Lane {
    pub(super) at: f64,
    /// Those that it covers a part of.
    pub(super) strips: Vec<Strip>,
    /// Joins that come too near.
    pub(super) awkward: usize,
}

pub(super) fn lanes(
    places: impl IntoIterator<Item = f64>,
    page: f64,
    span: &Span,
    air: f64,
    strips: impl Fn(f64) -> Vec<Strip>,
) -> Vec<Lane> {
    let lane = |at: f64| {
        let mut covered = strips(at);
        covered.retain(|strip| !strip.is_empty());
        Lane { at, strips: covered, awkward: span.awkward(at, page, air) }
    };
    places.into_iter().map(lane).collect()
}

/// All of these lanes on which a piece so long ends in time, in order; of those at one place the first.
pub(super) fn within(lanes: [&[Lane]; 2], length: f64, end: f64) -> Vec<&Lane> {
    let is_within = |lane: &&Lane| lane.at + length <= end + 1e-6;
    let mut all: Vec<&Lane> = Vec::with_capacity(lanes[0].len() + lanes[1].len());
    all.extend(lanes.into_iter().flatten().filter(is_within));
    all.sort_by(|a, b| a.at.total_cmp(&b.at));
    all.dedup_by(|a, b| a.at - b.at < SAME);
    all
}
