//! What can be chosen in the file to cut by.

use crate::cutter::{Cutting, named};

/// Which version of the format.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Version {
    /// The oldest in use: neither units, light polylines nor splines.
    R12,
    /// The first that says what its units are; nearly every reader takes it.
    #[default]
    R2000,
}

impl Version {
    /// Every version with its name.
    pub const NAMED: [(&'static str, Self); 2] = [("R12", Self::R12), ("R2000", Self::R2000)];
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

impl Curves {
    /// Every way with its name.
    pub const NAMED: [(&'static str, Self); 3] =
        [("polylines", Self::Polylines), ("arcs", Self::Arcs), ("splines", Self::Splines)];
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

impl Options {
    /// Every choice that the file follows, by its name.
    pub(super) fn in_force(&self) -> Vec<(&'static str, String)> {
        let mut all = vec![
            ("dxf-version", named(&Version::NAMED, self.version).to_owned()),
            ("curves", named(&Curves::NAMED, self.curves).to_owned()),
        ];
        // Splines stray from nothing.
        all.extend((self.curves != Curves::Splines).then(|| self.cutting.tolerance_in_force()));
        all.extend(self.cutting.in_force());
        all
    }
}
