//! The pattern to look at: pieces as drawn, side by side, with what their lines mean.

use super::{document, group, ids, legend};
use crate::outline::{self, Flaw};
use engine::drawing::Drawing;
use kurbo::{Point, Size, Vec2};

/// Round everything, mm.
const MARGIN: f64 = 12.0;
/// Between pieces, mm; an edging that stands out is drawn beyond the cut line.
const GAP: f64 = 20.0;

/// The drawing as a document of its own; width, height and view box in millimetres.
///
/// Every piece is a group with the piece's name as its id, with one sub-group per kind of line; its
/// cut outline is one closed path, curves kept.
///
/// # Errors
/// [`Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn svg(drawing: &Drawing) -> Result<String, Flaw> {
    outline::check(drawing)?;
    let tallest = drawing.pieces.iter().map(|p| p.bounds().height()).fold(0.0, f64::max);
    let wide: f64 = drawing.pieces.iter().map(|p| p.bounds().width() + GAP).sum();
    let width = (wide - GAP).max(legend::WIDTH) + 2.0 * MARGIN;
    let height = MARGIN + tallest + GAP + legend::HEIGHT + MARGIN;
    let names: Vec<&str> = drawing.pieces.iter().map(|p| p.name.as_str()).collect();
    let description = format!("Pieces to cut, true size in millimetres: {}", names.join(", "));
    let mut document = document::begin(drawing, &description, None, Size::new(width, height));
    let mut left = MARGIN;
    for (piece, id) in drawing.pieces.iter().zip(ids::of(names)) {
        let bounds = piece.bounds();
        let shift = Vec2::new(left - bounds.x0, MARGIN - bounds.y0);
        document = document.add(group::piece(piece, &id, shift));
        left += bounds.width() + GAP;
    }
    document = document.add(legend::legend(drawing, Point::new(MARGIN, MARGIN + tallest + GAP)));
    Ok(document::written(&document))
}
