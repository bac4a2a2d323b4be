//! A drawing as DXF: one file to cut by, one to exchange.
//!
//! Millimetres, right side up; y points up in this format, so it is negated and the file looks
//! like the SVG. Nothing is mirrored. Neither clock nor chance reaches a file.

mod cut;
mod frame;
mod layers;
pub(crate) mod named;
pub(crate) mod pieces;
mod r12;
mod repair;
pub(crate) mod tags;
#[cfg(test)]
mod tests;
mod writer;

use crate::cutter::{self, CutterError, Cutting, Notches, OptionError};
use crate::outline::{self, Flaw};
use engine::drawing::Drawing;

/// In the file to exchange, curves become chords that stray from them by no more than this, mm. A
/// narrow hollow gusset wants so little, to keep its area within 0.05 % as well.
pub const CHORD_TOLERANCE: f64 = 0.02;

/// Our own mark, in a comment at the head of every file.
pub const MARK: &str = "quarterpin";

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

/// Which version of the format.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Version {
    /// The oldest in use: neither units, light polylines nor splines.
    R12,
    /// The first that says what its units are; nearly every reader takes it.
    #[default]
    R2000,
}

/// How curves are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Curves {
    /// As chords: every reader takes them.
    #[default]
    Polylines,
    /// As arcs that run on into each other: fewer parts, and a smoother course of the tool.
    Arcs,
    /// As one spline, exactly the curve; not in [`Version::R12`].
    Splines,
}

/// What can be chosen in the file to cut by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Options {
    /// Of the format.
    pub version: Version,
    /// How curves are drawn.
    pub curves: Curves,
    /// What is drawn, and where.
    pub cutting: Cutting,
}

/// A file to cut by, and what there is to say about it.
#[derive(Clone, Debug, PartialEq)]
pub struct CutFile {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many outlines there are to cut.
    pub outlines: usize,
    /// How many chords, arcs and lines, or cubics, they have together.
    pub parts: usize,
    /// Width and height of everything on the plane, mm.
    pub size: (f64, f64),
}

/// For a plotter or laser: one closed outline per piece on the layer `CUT`, everything else on
/// layers of its own and before it.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece;
/// [`DxfError::Cutter`] for a choice that makes no sense or a piece that does not go on the sheet.
pub fn cut(drawing: &Drawing, options: &Options) -> Result<CutFile, DxfError> {
    if (options.version, options.curves) == (Version::R12, Curves::Splines) {
        return Err(CutterError::from(OptionError::SplinesInR12).into());
    }
    let plane = cutter::lay(drawing, &options.cutting)?;
    let (bytes, parts) = cut::write(&plane, options)?;
    Ok(CutFile { bytes, outlines: plane.outlines, parts, size: plane.size })
}

/// For exchange with other programs: laid out after ASTM D6673, as R12 with polylines, one block
/// per piece, halves with a mirror line. Notches are slits, or Vs where that is asked for; the layout
/// has none that are only drawn.
///
/// # Errors
/// [`DxfError::Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn pieces(drawing: &Drawing, notches: Notches) -> Result<Vec<u8>, DxfError> {
    outline::check(drawing)?;
    Ok(pieces::write(drawing, notches))
}
