//! Variants of the same garment: their pieces lie over each other, so that pieces of one name
//! share their place on the paper, and a reader shows one variant at a time.

use super::layer::Layer;
use super::layout::extent;
use engine::drawing::{Drawing, Piece};
use kurbo::Rect;
use std::borrow::Cow;

/// What may be drawn in one place on the paper.
pub(super) struct Place<'d> {
    /// Round all of it, in the coordinates that it has in common.
    pub(super) bounds: Rect,
    pub(super) shown: Vec<Drawn<'d>>,
}

/// A piece, and the layer that it shows on; none where it always shows.
pub(super) struct Drawn<'d> {
    pub(super) piece: &'d Piece,
    pub(super) on: Option<Layer>,
}

/// A drawing with its variants, place by place.
pub(super) struct Overlay<'d> {
    /// One piece for every place, with all the lines that may be drawn there.
    pub(super) whole: Cow<'d, Drawing>,
    /// In the order of those pieces.
    pub(super) places: Vec<Place<'d>>,
    /// So many of them, the first ones, are pieces of the sheet itself.
    pub(super) own: usize,
}

impl<'d> Overlay<'d> {
    pub(super) fn of(drawing: &'d Drawing) -> Self {
        let ways = ways(drawing);
        let mut places: Vec<Place<'d>> = Vec::new();
        for piece in ways.iter().flat_map(|pieces| pieces.iter()) {
            if !places.iter().any(|place| place.shown.iter().any(|shown| shown.piece.name == piece.name)) {
                places.push(place(&piece.name, &ways));
            }
        }
        let own = drawing.pieces.len();
        if drawing.variants.is_empty() {
            return Self { whole: Cow::Borrowed(drawing), places, own };
        }
        let whole = Drawing { pieces: places.iter().filter_map(merged).collect(), ..drawing.clone() };
        Self { whole: Cow::Owned(whole), places, own }
    }
}

/// The pieces of every way to make it; first those of the sheet itself.
fn ways(drawing: &Drawing) -> Vec<&[Piece]> {
    let others = drawing.variants.iter().map(|a| a.pieces.as_slice());
    std::iter::once(drawing.pieces.as_slice()).chain(others).collect()
}

fn place<'d>(name: &str, ways: &[&'d [Piece]]) -> Place<'d> {
    let named = |pieces: &&'d [Piece]| pieces.iter().find(|p| p.name == name);
    let mut shown: Vec<Drawn<'d>> = Vec::new();
    for (way, piece) in ways.iter().map(named).enumerate() {
        shown.extend(piece.map(|piece| Drawn { piece, on: Some(Layer::Way(way)) }));
    }
    let is_common = shown.len() == ways.len() && shown.iter().all(|s| s.piece == shown[0].piece);
    if is_common {
        shown.truncate(1);
        shown.iter_mut().for_each(|s| s.on = None);
    }
    let boxes = shown.iter().map(|s| extent(s.piece));
    Place { bounds: boxes.reduce(|a, b| a.union(b)).unwrap_or_default(), shown }
}

/// All lines of a place in one piece, as far as room on paper goes.
fn merged(place: &Place<'_>) -> Option<Piece> {
    let (first, others) = place.shown.split_first()?;
    let mut piece = first.piece.clone();
    for Drawn { piece: other, .. } in others {
        piece.loops.extend_from_slice(&other.loops);
        piece.lines.extend_from_slice(&other.lines);
        piece.text_box = piece.text_box.union(other.text_box);
    }
    Some(piece)
}
