//! What a cutter is to do: which lines, on which layers, where on the plane. No file format yet.
//!
//! The plane has y pointing up and looks like the drawing; nothing is mirrored.

mod arrange;
mod error;
mod lay;
mod notches;
mod notes;
mod options;
mod plane;
mod set;
mod start;
#[cfg(test)]
mod tests;
pub(crate) mod trace;

pub use error::CutterError;
pub(crate) use lay::lay;
pub(crate) use notches::{VEE, mouth};
pub use notes::{LASER, has_halves};
pub(crate) use notes::{layered, told};
pub use options::{Copies, CutExtent, Cutting, Lines, MOST_PAIRS, Notches, OptionError, Start, Turns};
pub(crate) use options::{in_force, named};
pub(crate) use plane::{Closing, Layer, Plane, Stroke, Words};
pub use set::taken;
