//! From the net draft to pieces that are cut: allowances, outlines, notches, and the openings as rings.

pub(crate) mod allowance;
pub(crate) mod pieces;
pub(crate) mod rings;
