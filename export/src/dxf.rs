//! A drawing as DXF: one file to cut by, one to exchange.
//!
//! Millimetres, right side up; y points up in this format, so it is negated and the file looks
//! like the SVG. Nothing is mirrored. Neither clock nor chance reaches a file.

mod cut;
mod entity;
mod pieces;
mod repair;
mod tags;
#[cfg(test)]
mod tests;
mod words;

use crate::outline::{self, Flaw};
use engine::drawing::Drawing;

/// Curves become chords that stray from them by no more than this, mm. A cutter needs no more than
/// 0.05; a narrow hollow gusset wants less, to keep its area within 0.05 % as well.
pub const CHORD_TOLERANCE: f64 = 0.02;

/// Our own mark, in a comment at the head of every file.
pub const MARK: &str = "quarterpin";

/// A drawing that cannot be written as DXF.
#[derive(Debug, thiserror::Error)]
pub enum DxfError {
    /// The drawing is not sound.
    #[error(transparent)]
    Flaw(#[from] Flaw),
    /// The writer failed.
    #[error("the DXF could not be written: {0}")]
    Writer(#[from] ::dxf::DxfError),
    /// The writer's output was not what the repair pass expects.
    #[error("the DXF could not be completed: {0}")]
    Repair(&'static str),
}

/// For a plotter or laser: full pieces, one closed outline each on the layer `CUT`, everything
/// else on layers of its own.
///
/// The version is R2000: the first that says what its units are and that has light polylines, and
/// nearly every reader takes it.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn cut(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    let whole = drawing.unfolded();
    outline::check(&whole)?;
    repair::r2000(&cut::write(&whole)?)
}

/// For exchange with other programs: laid out after ASTM D6673, as R12 with polylines, one block
/// per piece, halves with a mirror line.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn pieces(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    outline::check(drawing)?;
    repair::r12(&pieces::write(drawing)?)
}
