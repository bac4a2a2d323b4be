//! A drawing as DXF: one file to cut by, one to exchange.
//!
//! Millimetres, right side up; y points up in this format, so it is negated and the file looks
//! like the SVG. Nothing is mirrored. Neither clock nor chance reaches a file.

mod cut;
mod error;
mod frame;
mod layers;
pub(crate) mod named;
mod options;
pub(crate) mod pieces;
mod r12;
mod repair;
pub(crate) mod tags;
#[cfg(test)]
mod tests;
mod writer;

pub use cut::{CutFile, CutReport, cut};
pub use error::DxfError;
pub use options::{Curves, Options, Version};
pub use pieces::{CHORD_TOLERANCE, pieces};
