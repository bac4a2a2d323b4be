//! What can be chosen in the file to cut by.

use crate::cutter::Cutting;

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
