//! What cannot be laid out for a cutter.

use super::options::OptionError;
use crate::layout::TooLarge;
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
    TooLarge(#[from] TooLarge),
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
