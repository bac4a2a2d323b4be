//! What is done in a step, as data: lengths in mm, the words are made elsewhere.

use crate::elastic::{Mark, Meeting};
use crate::finish::task::Act;
use crate::stitch::Stitch;
use crate::terms::{Extent, Opening, PutOn};
use crate::topology::{PieceId, SectionId};

/// What is done, with everything that its words need.
#[derive(Clone, Debug, PartialEq)]
pub enum Doing {
    /// A piece is cut.
    Cut {
        /// How many.
        quantity: u32,
        /// Of which cloth.
        material: String,
        /// As a half on the fold, or whole.
        extent: Extent,
        /// How it lies on the cloth.
        stretch: StretchRuns,
        /// How they are made.
        notches: Notches,
    },
    /// A gusset seam is sewn.
    GussetSeam {
        /// Front or back.
        panel: PieceId,
        /// How the layers lie.
        how: Layers,
        /// Of the seam.
        allowance: f64,
        /// How its ends are secured.
        ends: Ends,
    },
    /// Front and back are rolled up between the layers.
    RollIn,
    /// They are drawn out again.
    TurnOut,
    /// Raw edges are zigzagged over.
    Neaten(Neatened),
    /// The gusset is pressed.
    PressGusset {
        /// Of the seam.
        allowance: f64,
        /// Where the allowances go.
        towards: GussetLies,
    },
    /// The lining's loose end is tacked down.
    TackLining,
    /// Both layers are held along the leg edges, so far inside the raw edges.
    HoldLayers {
        /// From the raw edges.
        inside: f64,
    },
    /// Finished edges are pinned on each other before their seam is sewn.
    Align {
        /// Which.
        edges: Vec<Opening>,
    },
    /// A side seam is sewn.
    SideSeam {
        /// Do its layers lie on each other already?
        laid: Laid,
        /// Of the seam.
        allowance: f64,
        /// How its ends are secured.
        ends: Ends,
    },
    /// What stands out of a seam is trimmed.
    TrimEnds {
        /// Which.
        edges: Vec<Opening>,
        /// How the ends of the seam are secured: what is tacked later is not cut off now.
        ends: Ends,
    },
    /// A side seam is pressed.
    PressSide {
        /// Of the seam.
        allowance: f64,
    },
    /// Allowances are held down at finished edges.
    TackAllowances {
        /// Which.
        edges: Vec<Opening>,
        /// How the ends of the seam are secured until then.
        ends: Ends,
    },
    /// An elastic is cut to length.
    CutElastic {
        /// Which elastic.
        name: String,
        /// How long.
        length: f64,
        /// How its ends are joined.
        joins: Joins,
        /// What it grows by in sewing, %.
        growth: f64,
    },
    /// An elastic that was laid on is cut off, leaving so much in the allowance.
    CutOff {
        /// Left in the allowance.
        into: f64,
    },
    /// An elastic is made a ring.
    JoinRing {
        /// Of its ends.
        overlap: f64,
    },
    /// The ends of a band are sewn together.
    SeamBand {
        /// Of the seam.
        allowance: f64,
    },
    /// A band is folded to its finished width.
    FoldBand {
        /// As finished.
        width: f64,
    },
    /// An elastic or a band is marked.
    Mark {
        /// What is marked.
        what: Strip,
        /// Flat or round.
        put_on: PutOn,
        /// Of the seam.
        allowance: f64,
        /// Where.
        marks: Vec<Distance>,
    },
    /// It is pinned to the edge.
    Pin {
        /// What is pinned.
        what: Strip,
        /// How it lies on the edge, where that is not done already.
        lies: Option<Act>,
        /// Flat or round.
        put_on: PutOn,
        /// Where its ends or its joint lie.
        ends: Meeting,
        /// What meets what.
        marks: Vec<Mark>,
    },
    /// A task of the finish; where its row runs, and how far it stretches what it holds.
    Finish {
        /// What is done, in order.
        acts: Vec<Act>,
        /// Where its row runs.
        runs: Option<Runs>,
        /// How far it stretches what it holds.
        spread: Option<Spread>,
    },
    /// The pair is looked over.
    LastLook,
}

/// Where the cloth's greatest stretch runs when a piece is laid on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StretchRuns {
    /// The piece is cut so.
    RoundTheBody,
    /// A band is cut so.
    AlongTheStrip,
}

/// How the notches of a piece are made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notches {
    /// The piece has none.
    None,
    /// Snipped or chalked.
    Snipped,
    /// Chalked on these edges, which show; snipped elsewhere.
    ChalkedOn(Vec<Opening>),
}

/// How the layers of a gusset seam lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layers {
    /// One layer on the panel.
    Single,
    /// The panel between gusset and lining.
    PanelBetween,
    /// The panel between them, with the roll inside.
    AroundRoll,
    /// The lining folded away.
    LiningAside,
}

/// Where the gusset's allowances are pressed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GussetLies {
    /// Onto front and back.
    AwayFromGusset,
    /// Between gusset and lining.
    BetweenLayers,
    /// Onto the gusset, under its lining.
    TowardsGusset,
}

/// Whether the layers of a seam lie on each other when it is sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Laid {
    /// They are laid now.
    Now,
    /// They were laid and pinned before.
    Pinned,
}

/// What is neatened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Neatened {
    /// Of a seam, both together.
    Allowances,
    /// The end of the lining that is tacked down later.
    LiningEnd,
}

/// How the ends of a seam are secured where they reach an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Sewn to and fro.
    ToAndFro,
    /// The overlock chain is caught by the row that crosses it.
    ChainCrossed,
    /// The chain lies under the tack that comes later.
    ChainTacked,
    /// No row crosses it: the chain is run back into the seam.
    ChainRunBack,
}

impl Ends {
    /// Of a seam of this stitch that ends at such edges: the most that any of them asks for.
    pub(super) fn of(stitch: Stitch, edges: impl IntoIterator<Item = EdgeAtEnd>) -> Self {
        if stitch != Stitch::Overlock {
            return Self::ToAndFro;
        }
        match edges.into_iter().max() {
            Some(EdgeAtEnd::LeftRaw) => Self::ChainRunBack,
            Some(EdgeAtEnd::Finished) => Self::ChainTacked,
            Some(EdgeAtEnd::CrossedLater) | None => Self::ChainCrossed,
        }
    }
}

/// What is at the end of a seam, by how much it asks of the seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum EdgeAtEnd {
    CrossedLater,
    Finished,
    LeftRaw,
}

/// How the ends of an elastic are joined, with what it takes, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Joins {
    /// Lapped to a ring by this much.
    Ring(f64),
    /// Run through the seam allowance at both ends.
    InSeam(f64),
    /// Lapped by this much after it was threaded and tried on.
    Threaded(f64),
}

/// What is put on an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strip {
    /// An elastic.
    Elastic,
    /// A band of the cloth.
    Band,
}

/// Where a row runs, from what can be seen while it is sewn, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Runs {
    /// Its middle, on the flat cloth, from the raw edge.
    FromRawEdge(f64),
    /// The inner swing of a zigzag, on the flat cloth, from the raw edge.
    SwingFromRawEdge(f64),
    /// Its middle, from the fold.
    FromFold(f64),
    /// Its middle, from the outer edge of the elastic.
    FromOuterEdge(f64),
}

/// How far a mark lies from the cut end of an elastic, or from the end or the seam of a band, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Distance {
    /// The mark's number round the edge, from 1.
    pub number: usize,
    /// How far, mm.
    pub along: f64,
}

/// How what is put on is spread along the edge.
#[derive(Clone, Debug, PartialEq)]
pub enum Spread {
    /// Laid on as it is, from at least so much in hand, mm.
    LaidOn(f64),
    /// Stretched alike all round, %.
    Alike(f64),
    /// Stretched section by section, %.
    BySection(Vec<(SectionId, f64)>),
}
