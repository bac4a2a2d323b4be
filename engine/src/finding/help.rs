//! What would help, as data: which key to change and which way, or what to get or to do.

use crate::finish::FinishKind;
use crate::quantity::Units;
use crate::sheet::keys::Key;
use crate::terms::Opening;

/// One thing that would help.
#[derive(Clone, Debug, PartialEq)]
pub enum Help {
    /// Take this measure again.
    Measure(Key),
    /// Take it and write it into the sheet.
    Write(Key),
    /// Look whether this number was measured in that unit.
    CheckUnit(Key, Units),
    /// The whole sheet was measured in another unit.
    SetUnits {
        /// As written.
        written: Units,
        /// Most likely meant.
        likely: Units,
    },
    /// Look whether the two were swapped.
    Swapped(Key, Key),
    /// Give it a larger value.
    Larger(Key),
    /// Give it a smaller value.
    Smaller(Key),
    /// Give it a value nearer to 0.
    NearerZero(Key),
    /// Give it a value in this range, mm.
    Between(Key, f64, f64),
    /// One of these words.
    Choose(Key, &'static [&'static str]),
    /// Take the key out.
    TakeOut(Key),
    /// Leave one of these to the program.
    Free([Key; 3]),
    /// One of these finishes.
    Finish(Opening, Vec<FinishKind>),
    /// Sew a sample of the elastic.
    Sample,
    /// A shorter overlap: the usual one.
    UsualOverlap,
    /// Something at the edge or in the basket.
    Do(Do),
}

/// What helps without a key of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Do {
    Nothing,
    NothingIfMeant,
    NothingIfRight,
    LetStandForAChild,
    RaiseTopAtSide,
    MilderCurves,
    NarrowerElastic,
    NarrowerFinish,
    OtherFinish,
    FinishOnCloth,
    FaceWithBias,
    FoldLess,
    ReduceLess,
    ReduceMore,
    LongerElastic,
    StretchierElastic,
    LatexFreeElastic,
    AskWearer,
    SoftAndLoose,
    StretchierCloth,
    MoveEdge,
    LocalRules,
    Trial,
    CarryPullTestOn,
    NameElastic,
    AddElastic,
    OneSectionLess,
    OtherWayRound,
    Report,
}

impl From<Do> for Help {
    fn from(what: Do) -> Self {
        Self::Do(what)
    }
}
