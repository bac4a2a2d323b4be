//! Why one step waits for another.

use crate::finish::task::TaskId;

/// A reason, as data.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// What is sewn or folded has to be cut.
    IsCut,
    /// Every layer of a seam has to be cut.
    LayersAreCut,
    /// Front and back roll into the gusset only while their sides are open.
    RollsWhileOpen,
    /// The layers are joined at the front before they close round the roll.
    JoinedBeforeRoll,
    /// Only what is rolled in lies inside when the second seam closes the layers.
    RolledLiesInside,
    /// Both seams have to be closed to lie hidden when it is turned out.
    ClosedBeforeTurning,
    /// A seam is pressed once it is sewn, before another row crosses it.
    SewnBeforePressing,
    /// Layers lie as they will be worn before they are held.
    LiesBeforeHeld,
    /// Allowances are neatened together.
    NeatenedTogether,
    /// The loose end is within reach only while the lining is flat.
    EndInReach,
    /// The loose end is tacked to allowances that lie where they stay.
    TackedWherePressed,
    /// Finished edges that meet in a seam are pinned first.
    PinnedLevel,
    /// What lies in the seam can only be trimmed when it is caught.
    CaughtBeforeTrimming,
    /// The edges are neatened as they will lie, after all trimming.
    TrimmedBeforeNeatening,
    /// A seam is pressed when nothing more is cut off it.
    NothingMoreCutOff,
    /// The allowances are tacked where the iron laid them.
    TackedWhereIroned,
    /// A flat edge is finished while the seam that catches its ends is open.
    CaughtByThisSeam,
    /// A flat top is one strip: one side seam closed, one open.
    OneStrip,
    /// Put on round, the opening is a ring across pressed seams.
    OneRing,
    /// The leg edge runs over the closed and pressed gusset.
    RunsOverGusset,
    /// What is put on is ready before the edge is worked on.
    ReadyToPutOn,
    /// An elastic is marked along a rule while it is a strip.
    MarkedBeforeJoining,
    /// The marks are measured from the cut end.
    MeasuredFromEnd,
    /// The seam of a band's ends is folded with it.
    EndsFoldedWithBand,
    /// The notches of both layers lie on each other once a band is folded.
    NotchesOnEachOther,
    /// What is folded round the edge is laid before it is pinned.
    LaidBeforePinned,
    /// What is put on is spread by its marks before any stitch holds it.
    SpreadBeforeHeld,
    /// Laid on from the length in hand, it is cut where the edge ends.
    CutWhereEdgeEnds,
    /// A pair that is tried on holds together at all its seams.
    HoldsTogether,
    /// A task of a finish goes on from the one before.
    Follows(TaskId),
    /// The pair is looked over when all of it is sewn.
    AllIsSewn,
}
