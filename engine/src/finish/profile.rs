//! An edge cut across, as worn: which layer lies where, from the skin outwards.
//!
//! Drawn from the same settings that cut the piece, so that a picture of it shows the numbers
//! that are used.

/// An edge cut across.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Cloth, elastic and band.
    pub plies: Vec<Ply>,
    /// Rows of stitches through them.
    pub rows: Vec<Stitches>,
}

/// What a ply is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// The garment's own.
    Cloth,
    /// Put on at the edge.
    Elastic,
    /// A strip of cloth put on at the edge.
    Band,
}

/// One strip of material, from one end to the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Ply {
    /// What it is.
    pub stuff: Stuff,
    /// Distance from the finished edge (outward positive, mm), and the layer, counted from the
    /// skin in whole numbers. Between two places on one layer it lies flat; between layers it is folded.
    pub course: Vec<(f64, f64)>,
}

/// A row of stitches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stitches {
    /// Distance from the finished edge, mm.
    pub at: f64,
    /// The lowest and the highest layer it holds.
    pub through: (f64, f64),
}

/// How much of the garment a profile shows inside its innermost line, mm.
pub const SHOWN: f64 = 12.0;

impl Ply {
    /// Cloth from inside the garment along a course.
    pub fn cloth(course: &[(f64, f64)]) -> Self {
        Self { stuff: Stuff::Cloth, course: course.to_vec() }
    }

    /// An elastic lying flat on one layer.
    pub fn elastic(from: f64, to: f64, layer: f64) -> Self {
        Self { stuff: Stuff::Elastic, course: vec![(from, layer), (to, layer)] }
    }

    /// Its width when it is laid out flat, mm.
    pub fn unfolded(&self) -> f64 {
        self.course.windows(2).map(|w| (w[1].0 - w[0].0).abs()).sum()
    }
}

impl Stitches {
    /// A row at a distance, through the layers from the lower to the upper.
    pub const fn new(at: f64, lower: f64, upper: f64) -> Self {
        Self { at, through: (lower, upper) }
    }
}
