//! What comes of reading: outlines, or why not.

use super::edges::EdgeLength;

/// What the file is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// DXF, as text.
    Dxf,
    /// SVG.
    Svg,
}

/// A file that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Too large.
    #[error("it has {0} bytes, and more than 20 million are not read: save only the outlines")]
    TooLarge(u64),
    /// More of something than any pattern has.
    #[error("it has more than {most} {what}, as no pattern has: save only the outlines")]
    TooMany {
        /// In the plural.
        what: &'static str,
        /// As many are read.
        most: usize,
    },
    /// A number that is no length.
    #[error("a number of its paths has more than {digits} digits before the point: save it again at its own size")]
    TooFar {
        /// As many may be there.
        digits: usize,
    },
    /// The binary form of the format.
    #[error("it is a binary DXF: save it as a text file (ASCII) of R12 or R2000")]
    Binary,
    /// Not text.
    #[error("it is not text: save it again as DXF or SVG")]
    NotText,
    /// Not pairs of code and value.
    #[error("line {0} should hold a group code and does not: save it again as DXF")]
    NotTags(usize),
    /// Nothing says that it is complete.
    #[error("its end is missing (the mark EOF), so that a part of it may be lost: copy or save it again")]
    CutOff,
    /// It is not an SVG.
    #[error("it is not a sound SVG ({0}): save it again as plain SVG")]
    NotSvg(String),
    /// No outlines.
    #[error(
        "there are no outlines in it: polylines or splines on the layers CUT and SEWING, or on layer 1 and 14 of blocks, or paths in an SVG under the names that ours have (data-line, or ids such as front-cut)"
    )]
    NoOutlines,
}

/// One line of a piece, as found.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadLine {
    /// The piece, or what stands in its place: the block, the group, `outline 3`.
    pub piece: String,
    /// `cut`, `sewing`, `finished`, `second row`.
    pub line: String,
    /// Does it end where it starts?
    pub is_closed: bool,
    /// Its edges in order, lengths in mm.
    pub edges: Vec<EdgeLength>,
    /// All along, mm.
    pub length: f64,
}

/// Everything found in a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outlines {
    /// In the file's order.
    pub lines: Vec<ReadLine>,
    /// What was not taken, or taken with a doubt.
    pub notes: Vec<String>,
    /// How many millimetres are drawn for one of ours, where the file tells: our SVGs have one unit for each,
    /// lines of our DXFs say how long they were written.
    pub scale: Option<f64>,
}
