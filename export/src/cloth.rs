//! How much cloth pieces take, laid box by box on its width: grain kept, nothing turned.

pub use crate::layout::TooLarge;
use crate::layout::{Bed, Box as Room, on_beds};
use engine::drawing::Drawing;

/// Between pieces, mm.
const GAP: f64 = 10.0;

/// A whole piece to be laid, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Which piece.
    pub name: String,
    /// The cloth that it is cut from.
    pub material: String,
    /// Across the cloth.
    pub width: f64,
    /// Along it.
    pub height: f64,
}

/// The pieces of a pair, each whole and as often as it is cut.
pub fn parts(drawing: &Drawing) -> Vec<Part> {
    let part = |piece: &engine::drawing::Piece| {
        let bounds = piece.unfolded().bounds();
        let one = Part {
            name: piece.name.clone(),
            material: piece.material.clone(),
            width: bounds.width(),
            height: bounds.height(),
        };
        vec![one; piece.quantity as usize]
    };
    drawing.pieces.iter().flat_map(part).collect()
}

/// The length of cloth of this width that all parts take, mm.
///
/// # Errors
/// [`TooLarge`] where one of them does not go on it.
pub fn length(parts: &[&Part], width: f64) -> Result<f64, TooLarge> {
    let boxes: Vec<Room<'_>> = parts.iter().map(|p| Room { name: &p.name, width: p.width, height: p.height }).collect();
    let bed = Bed { width, length: None, gap: GAP, may_turn: false };
    on_beds(&boxes, bed).map(|laid| laid.height)
}
