//! What can be found in a file.

use kurbo::Point;

/// A notch lies on the boundary within this, mm.
pub(super) const NOTCH_OFF: f64 = 0.2;

/// A line keeps this near to its validation curve, mm: half the usual tolerance of a cutter.
pub(super) const VALIDATION_OFF: f64 = 0.1;

/// Sides of a seam that differ by more are not from rounding or chords, mm.
pub(super) const SEAM_DIFFERS: f64 = 0.1;

/// Another size than that at which a file was written: more than roundings make of it.
pub(super) const SCALED: f64 = 1e-3;

/// Nobody's openings are shorter or longer, mm: a file that has such ones is drawn in other units than it says.
pub(super) const SOMEBODYS: std::ops::RangeInclusive<f64> = 150.0..=3000.0;

/// So much of an allowance is there all along its edge: where rows are trued at seams it is less than
/// elsewhere, on our own files 0.86 of it at least.
pub(super) const ALLOWANCE_LEFT: f64 = 0.7;

/// What was found. Lengths are millimetres, layers as they are named in the file.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// Another version than the layout was made for, if one is said.
    Version(Option<String>),
    /// Letters beyond 7 bits.
    BeyondAscii,
    /// No block at all.
    NoPieces,
    /// An insert of a block that is not there.
    InsertUnknown,
    /// An insert that scales its piece.
    InsertScaled,
    /// A piece that is inserted so many times, and not once.
    Inserts(usize),
    /// So many entities that are no part of the layout.
    Strange(Strange, usize),
    /// A keyed text of the whole file is not there.
    StyleText(&'static str),
    /// Units that are none.
    Units(String),
    /// A keyed text of the piece is not there.
    PieceText(&'static str),
    /// A quantity that is no number.
    Quantity(String),
    /// A piece in another size than the sample.
    Size {
        /// Of the piece.
        size: String,
        /// Of the file.
        sample: String,
    },
    /// So many boundaries, and not one.
    Boundaries(usize),
    /// The boundary is not closed.
    BoundaryOpen,
    /// The boundary has arcs.
    BoundaryRound,
    /// So many corners without a turn point.
    TurnPoints(usize),
    /// So many vertices of curves without a point.
    CurvePoints(usize),
    /// A notch without a width.
    NotchWidth {
        /// Where it is.
        at: Point,
        /// Its layer.
        layer: &'static str,
    },
    /// A notch beside the boundary.
    NotchOff {
        /// Where it is.
        at: Point,
        /// From the boundary.
        off: f64,
    },
    /// A notch without a depth.
    NotchDepth {
        /// Where it is.
        at: Point,
    },
    /// So many grain lines, and not one.
    Grain(usize),
    /// A mirror line that is no straight side of the boundary with all of it on one side.
    Mirror,
    /// Lines and validation curves that are too long to be compared.
    ValidationLong(Layers),
    /// Lines and validation curves that lie apart.
    Validation {
        /// Of both.
        layers: Layers,
        /// The furthest apart.
        off: f64,
    },
    /// A file of ours that is drawn at another size: so many times its own.
    Scaled(f64),
    /// An opening as long as nobody has it, mm.
    NobodysSize {
        /// On which lines.
        line: String,
        /// All round.
        length: f64,
    },
    /// The two sides of a seam, with their lengths.
    SeamDiffers {
        /// One side.
        a: (String, f64),
        /// The other.
        b: (String, f64),
    },
    /// Only cut lines are there, which do not tell whether a seam fits.
    CutLinesOnly,
    /// A cut line that comes nearer to its sewing line than it lies elsewhere along the edge.
    AllowanceNarrow {
        /// Of which edge.
        edge: String,
        /// Where it is nearest, mm.
        least: f64,
        /// Along most of the edge, mm.
        usual: f64,
    },
    /// Pieces that are not in the file, so that nothing that they have a part in is measured.
    PiecesMissing(Vec<&'static str>),
    /// A seam or an opening whose edges are not found.
    NotMeasured {
        /// Sewing, cut or finished lines.
        line: &'static str,
        /// The pieces that it is of.
        pieces: Vec<&'static str>,
    },
}

/// What is no part of the layout.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strange {
    /// A kind of entity.
    Kind(String),
    /// A layer.
    Layer(String),
}

/// The layer of a line, and that of its validation curves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Layers {
    /// Of the line.
    pub line: &'static str,
    /// Of the curves.
    pub curves: &'static str,
}
