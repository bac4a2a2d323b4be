//! What a cutter is to do: which lines, on which layers, where on the plane. No file format yet.
//!
//! The plane has y pointing up and looks like the drawing; nothing is mirrored.

mod notches;
mod notes;
mod options;
mod plane;
mod start;
#[cfg(test)]
mod tests;
pub(crate) mod trace;

pub(crate) use notches::{VEE, mouth};
pub use notes::LASER;
pub(crate) use notes::told;
pub use options::{Copies, CutExtent, Cutting, Notches, OptionError, Start};
pub(crate) use plane::{Closing, Layer, Plane, Stroke, Words, lay};

use crate::layout::TooWide;
use crate::outline::Flaw;

/// What cannot be laid out for a cutter.
#[derive(Debug, thiserror::Error)]
pub enum CutterError {
    /// The drawing is not sound.
    #[error(transparent)]
    Flaw(#[from] Flaw),
    /// A choice that makes no sense.
    #[error(transparent)]
    Option(#[from] OptionError),
    /// A piece does not go on the sheet.
    #[error(transparent)]
    TooWide(#[from] TooWide),
    /// A hollow is narrower than the kerf.
    #[error(
        "piece `{piece}`, edge `{edge}`: the outline is too tight to be grown by half the kerf: give a smaller one"
    )]
    Kerf {
        /// Which piece.
        piece: String,
        /// Which edge.
        edge: String,
    },
}
