//! What cannot be written as DXF.

use crate::cutter::CutterError;
use crate::outline::Flaw;

/// A drawing that cannot be written as DXF.
#[derive(Debug, thiserror::Error)]
pub enum DxfError {
    /// The drawing is not sound.
    #[error(transparent)]
    Flaw(#[from] Flaw),
    /// The drawing cannot be laid out as asked.
    #[error(transparent)]
    Cutter(#[from] CutterError),
    /// The writer failed.
    #[error("the DXF could not be written: {0}")]
    Writer(#[from] ::dxf::DxfError),
    /// The writer's output was not what the repair pass expects.
    #[error("the DXF could not be completed: {0}")]
    Repair(&'static str),
}
