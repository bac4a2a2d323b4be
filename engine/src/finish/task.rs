//! One thing done at an edge, as data: what hands and machine do, in terms that finishes share.
//! Their words, in full and in brief, are in `words::act`.

use crate::stitch::Sewing;

/// Which of an edge's tasks it is; unique at its edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum TaskId {
    /// Folding the edge, or laying it into a fold.
    Fold,
    /// Holding it for the first row.
    Baste,
    /// The first row of stitches.
    Row1,
    /// Pressing.
    Press,
    /// The second row.
    Row2,
    /// Threading the elastic through.
    Thread,
    /// Trying the garment on.
    TryOn,
    /// Joining the ends of a threaded elastic.
    Join,
    /// Closing the gap it was threaded through.
    Close,
}

impl TaskId {
    /// Short and stable, as the record names it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fold => "fold",
            Self::Baste => "baste",
            Self::Row1 => "row 1",
            Self::Press => "press",
            Self::Row2 => "row 2",
            Self::Thread => "thread",
            Self::TryOn => "try on",
            Self::Join => "join",
            Self::Close => "close",
        }
    }
}

/// A side of the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothSide {
    /// The one to be seen.
    Right,
    /// The one turned to the body.
    Wrong,
}

/// The face of an elastic that lies up, away from the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Up {
    /// The soft one, which will lie on the skin; the face to be seen lies on the cloth.
    Soft,
    /// The one to be seen.
    Shown,
    /// Either: it will be covered.
    Either,
}

/// Which long edge of an elastic meets the raw edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meets {
    /// Both are alike.
    EitherEdge,
    /// The plain one, its picots towards the garment.
    PlainEdge,
}

impl Meets {
    /// With picots, or without.
    pub fn of(picot: f64) -> Self {
        if picot > 0.0 { Self::PlainEdge } else { Self::EitherEdge }
    }
}

/// What hands and machine do; lengths in mm. A task is one or more of them, done in order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// Lay the elastic on a side of the cloth, an edge of it on the raw edge.
    LayOnRawEdge(ClothSide, Up, Meets),
    /// Lay the elastic on the right side, so much of it on the cloth and the rest beyond the raw edge,
    /// a picot edge outwards.
    LayOver(f64, Meets),
    /// Lay the folded band on the right side, raw edges together.
    LayBand,
    /// Fold the elastic along its crease, the face to be seen outside, and lay the raw edge in.
    LayInCrease,
    /// Turn the raw edge under by this much.
    TurnUnder(f64),
    /// Fold the allowance in along the finished edge, so much of it, all layers as one.
    FoldIn(f64),
    /// Flip the elastic out, to stand beyond the cloth; its soft face comes to lie on the skin.
    FlipOut,
    /// Turn cloth and elastic to the inside along the first row, soft face on the skin.
    TurnSoftOnSkin,
    /// Fold cloth and elastic to the inside along the elastic's inner edge, which covers it.
    FoldOverElastic,
    /// Turn the band out, the allowances towards the garment.
    TurnBandOut,
    /// Press.
    Press,
    /// Hold with long stitches that come out again.
    Baste,
    /// A zigzag along the raw edge, its inner swing this far inside.
    ZigzagAtRawEdge(f64),
    /// A zigzag along the raw edge of elastic and cloth.
    ZigzagOnRawEdge,
    /// A zigzag along the finished edge, on the elastic's edge towards the garment.
    ZigzagInnerEdge(Meets),
    /// A zigzag along the edge of the elastic that lies on the cloth.
    ZigzagEdgeOnCloth,
    /// A zigzag over the raw edge that lies under the elastic.
    ZigzagRawEdgeBelow,
    /// A zigzag over the raw edge itself.
    ZigzagOverEdge,
    /// Topstitch from the right side through cloth and elastic, close to the fold.
    Topstitch,
    /// From the right side, close to the elastic's edge inside.
    StitchNearElastic,
    /// From the right side through all layers, near the raw edge inside.
    StitchNearRawEdge,
    /// Through all layers, close to the open edges of a folded elastic.
    StitchFolded,
    /// From the right side, giving with the cloth.
    StitchHem,
    /// Stitch the tunnel, leaving a gap of this length to thread through.
    StitchTunnel(f64),
    /// Sew the band on, this far from the raw edges.
    SewBandOn(f64),
    /// Thread the elastic through, untwisted.
    Thread,
    /// Try on, and let the elastic out or draw it in.
    TryOn,
    /// Lap the ends of the elastic by so much and sew them.
    LapEnds(f64),
    /// Let the elastic slip in and stitch the gap closed.
    CloseGap,
}

impl Act {
    /// Does it say how something lies on the edge? That has to be known before it is pinned.
    pub const fn lays(self) -> bool {
        matches!(self, Self::LayOnRawEdge(..) | Self::LayOver(..) | Self::LayBand | Self::LayInCrease)
    }
}

/// What to take care of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Elastane scorches.
    Iron,
    /// An overlocker cuts what lies beyond the allowance.
    Knife,
    /// A lockstitch on a knit cracks.
    Cracks,
    /// Nothing of the roll may be caught.
    Roll,
    /// An elastic can come out longer than it was.
    Grows,
    /// A ring of elastic can be twisted.
    Twist,
    /// Cloth lies under the scissors.
    ClothBelow,
    /// Stitches lie beside the scissors.
    StitchesBeside,
    /// An edge can be too tight.
    TooTight,
}

/// One thing done at an edge, after the one before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// Which one.
    pub id: TaskId,
    /// In order.
    pub acts: Vec<Act>,
    /// The line it follows, as a distance from the finished edge, mm.
    pub along: Option<f64>,
    /// Where something is sewn by machine.
    pub sewing: Option<Sewing>,
    /// Where it helps.
    pub caution: Option<Caution>,
}

impl Task {
    /// Something done by hand.
    pub fn by_hand(id: TaskId, acts: impl Into<Vec<Act>>) -> Self {
        Self { id, acts: acts.into(), along: None, sewing: None, caution: None }
    }

    /// Pressing, after which the edge lies as it will be worn.
    pub fn press(first: Act) -> Self {
        Self { caution: Some(Caution::Iron), ..Self::by_hand(TaskId::Press, [first, Act::Press]) }
    }

    /// A row of stitches along a line.
    pub fn row(id: TaskId, sewing: Sewing, along: f64, acts: impl Into<Vec<Act>>) -> Self {
        Self { along: Some(along), sewing: Some(sewing), ..Self::by_hand(id, acts) }
    }

    /// The same, sewn with this stitch across or to and fro, along no line of the pattern.
    pub fn sewn(mut self, sewing: Sewing) -> Self {
        self.sewing = Some(sewing);
        self
    }
}
