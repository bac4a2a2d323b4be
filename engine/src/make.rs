//! The way through the house: sheet, plan, draft, finishes, walk, checks, drawing.

use crate::drawing::Drawing;
use crate::garment::{Finding, Garment};
use crate::sheet::Sheet;

/// A garment and the drawing of it.
#[derive(Clone, Debug)]
pub struct Made {
    /// The record.
    pub garment: Garment,
    /// What exporters draw.
    pub drawing: Drawing,
}

/// The sheet was understood, but this garment cannot be made: every reason, with what to change.
/// Every finding has the level `Refusal`; its `place` is a key of the sheet (`gusset.front_width`)
/// or a part of the garment.
#[derive(Clone, Debug, thiserror::Error)]
#[error("the garment is refused: {}", .0.iter().map(|f| f.text.as_str()).collect::<Vec<_>>().join("; "))]
pub struct Refused(pub Vec<Finding>);

/// Makes a garment from a sheet.
///
/// # Errors
/// [`Refused`] where the measurements and the style cannot become a garment.
pub fn make(_sheet: &Sheet) -> Result<Made, Refused> {
    Err(Refused(Vec::new()))
}
