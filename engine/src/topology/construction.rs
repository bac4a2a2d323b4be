//! A construction as a table: half pieces with their edges, seams, where openings begin.
//!
//! Nothing in here knows which pieces there are: another way to cut a garment is another table.

use super::{Side, Way};
use crate::terms::Section;
use std::fmt::Debug;

/// What tells a part from the others of its construction.
pub trait Id: Copy + Eq + Debug + Send + Sync + 'static {}

impl<T: Copy + Eq + Debug + Send + Sync + 'static> Id for T {}

/// Pieces `P`, drafted edges `E` and seams `S` of one way to cut a garment.
#[derive(Clone, Copy, Debug)]
pub struct Construction<P: Id, E: Id, S: Id> {
    /// What is drafted, each as one half, in the order that pieces are listed.
    pub pieces: &'static [HalfPiece<P, E, S>],
    /// Every seam, in the order they are listed.
    pub seams: &'static [Seam<E, S>],
    /// Where the openings begin.
    pub starts: Starts<E>,
    /// Further layers with the outline of a drafted piece.
    pub copies: &'static [Copied<P>],
}

/// Half of a symmetric piece. Its edges run clockwise, from its centre line and back to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HalfPiece<P: Id, E: Id, S: Id> {
    /// Which piece.
    pub id: P,
    /// The wearer's side that is drafted, with x positive.
    pub drafted: Side,
    /// How the sheet calls the part of a leg edge on it.
    pub section: Section,
    /// Is it ever cut as a half?
    pub cutting: Cutting,
    /// Each edge, and what it lies on.
    pub edges: &'static [(E, Lies<S>)],
}

/// Is a piece cut as a half on the fold of the cloth?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cutting {
    /// Where both of its halves are alike.
    OnFoldWhereAlike,
    /// Never: it is small, and drawn whole.
    Whole,
}

/// What an edge is part of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies<S: Id> {
    /// The top edge.
    Top,
    /// The leg edge on the same side of the wearer.
    Leg,
    /// A seam.
    Seam(S),
}

/// Two edges that are sewn to each other.
#[derive(Clone, Copy, Debug)]
pub struct Seam<E: Id, S: Id> {
    /// Which seam.
    pub id: S,
    /// Its sides, each read from where the seam begins. Every seam begins on an opening.
    pub runs: [Run<E>; 2],
    /// The notches that both sides carry.
    pub matching: Matching,
}

/// One side of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run<E: Id> {
    /// Its edge.
    pub edge: E,
    /// Which way it is read.
    pub way: Way,
}

/// The notches of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Matching {
    /// One in its middle.
    Middle,
    /// One at its end, on the centre line: the seams of both sides share it.
    Centre,
    /// A pair round the centre line: one on each side, near its end.
    Pair,
}

/// Where the walk round an opening begins: at the start of an edge, along it.
#[derive(Clone, Copy, Debug)]
pub struct Starts<E: Id> {
    /// On the wearer's left.
    pub top: E,
    /// On the leg's own side.
    pub leg: E,
}

/// A further layer.
#[derive(Clone, Copy, Debug)]
pub struct Copied<P: Id> {
    /// The layer.
    pub piece: P,
    /// The piece whose outline it has.
    pub of: P,
}

/// What is wrong with a construction, or with pieces that were made after it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// An edge that a seam or an opening needs is on no piece.
    #[error("the edge {0} is on no piece")]
    EdgeNowhere(String),
    /// An edge stands twice in the table.
    #[error("the edge {0} is there more than once")]
    EdgeTwice(String),
    /// A piece stands twice in the table.
    #[error("the piece {0} is there more than once")]
    PieceTwice(String),
    /// A layer has the outline of no drafted piece.
    #[error("the layer {0} is a copy of no drafted piece")]
    CopyOfNothing(String),
    /// An edge and a seam do not name each other.
    #[error("the edge {edge} and the seam {seam} do not name each other")]
    SeamEdge {
        /// The edge.
        edge: String,
        /// The seam.
        seam: String,
    },
    /// Both sides of a seam are to lie on the same opening where they meet it.
    #[error("at the edge {0} the opening does not run on beyond the seam")]
    RingBroken(String),
    /// An opening does not come back to where it begins.
    #[error("the opening that begins at {0} does not close")]
    RingOpen(String),
    /// An edge of an opening that no walk round it meets.
    #[error("the edge {0} is not met on the way round its opening")]
    EdgeNotMet(String),
    /// A piece has no such edge in one of its rows.
    #[error("the {piece} has no edge {edge}")]
    NotDrawn {
        /// The piece.
        piece: &'static str,
        /// The edge.
        edge: &'static str,
    },
}

impl<P: Id, E: Id, S: Id> HalfPiece<P, E, S> {
    /// The half on this side of the wearer.
    pub fn half(&self, side: Side) -> super::Half {
        if side == self.drafted { super::Half::Plus } else { super::Half::Minus }
    }

    /// The wearer's side of a half.
    pub const fn side(&self, half: super::Half) -> Side {
        match half {
            super::Half::Plus => self.drafted,
            super::Half::Minus => self.drafted.other(),
        }
    }
}
