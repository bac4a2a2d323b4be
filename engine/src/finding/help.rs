//! What would help, as data: which key to change and which way, or what to get or to do.

use crate::finish::FinishKind;
use crate::keys::{Key, finish, head};
use crate::quantity::Units;
use crate::terms::Opening;

/// How a number comes to be another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misread {
    /// It was measured in this unit.
    MeasuredIn(Units),
    /// It was converted from inches and then taken for inches again.
    ConvertedTwice,
}

/// One thing that would help.
#[derive(Clone, Debug, PartialEq)]
pub enum Help {
    /// Take this measure again.
    Measure(Key),
    /// Take it and write it into the sheet.
    Write(Key),
    /// Look whether this number was misread.
    ReadAs {
        /// The number's key.
        key: Key,
        /// How, most likely.
        misread: Misread,
        /// Its length then, mm.
        mm: f64,
    },
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

impl Help {
    /// The word in the record.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Measure(_) => "measure",
            Self::Write(_) => "write",
            Self::ReadAs { .. } => "read as",
            Self::SetUnits { .. } => "set units",
            Self::Swapped(..) => "swapped",
            Self::Larger(_) => "larger",
            Self::Smaller(_) => "smaller",
            Self::NearerZero(_) => "nearer zero",
            Self::Between(..) => "between",
            Self::Choose(..) | Self::Finish(..) => "choose",
            Self::TakeOut(_) => "take out",
            Self::Free(_) => "free",
            Self::Sample => "sample",
            Self::UsualOverlap => "usual overlap",
            Self::Do(what) => what.name(),
        }
    }

    /// The keys of the sheet that it is about.
    pub fn keys(&self) -> Vec<Key> {
        match self {
            Self::Measure(key)
            | Self::Write(key)
            | Self::ReadAs { key, .. }
            | Self::Larger(key)
            | Self::Smaller(key)
            | Self::NearerZero(key)
            | Self::Between(key, ..)
            | Self::Choose(key, _)
            | Self::TakeOut(key) => vec![key.clone()],
            Self::SetUnits { .. } => vec![head::UNITS.into()],
            Self::Swapped(a, b) => vec![a.clone(), b.clone()],
            Self::Free(keys) => keys.to_vec(),
            Self::Finish(opening, _) => vec![finish::KIND.on(*opening)],
            Self::Sample | Self::UsualOverlap | Self::Do(_) => Vec::new(),
        }
    }

    /// Words of the sheet, of which one is to be chosen.
    pub fn words(&self) -> Vec<&'static str> {
        match self {
            Self::Choose(_, words) => words.to_vec(),
            Self::Finish(_, kinds) => kinds.iter().map(|kind| kind.name()).collect(),
            Self::ReadAs { misread: Misread::MeasuredIn(unit), .. } | Self::SetUnits { likely: unit, .. } => {
                vec![unit.name()]
            }
            _ => Vec::new(),
        }
    }
}

macro_rules! dos {
    ($($variant:ident $name:literal),+ $(,)?) => {
        /// What helps without a key of its own.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Do {
            $(#[doc = concat!("In the record: ", $name, ".")] $variant),+
        }

        impl Do {
            /// The word in the record.
            const fn name(self) -> &'static str {
                match self {
                    $(Self::$variant => $name),+
                }
            }
        }
    };
}

dos! {
    Nothing "nothing",
    NothingIfMeant "nothing if meant",
    NothingIfRight "nothing if right",
    LetStandForAChild "let stand for a child",
    RaiseTopAtSide "raise top at side",
    BaseCutHigher "base cut higher",
    MilderCurves "milder curves",
    NarrowerElastic "narrower elastic",
    FoldOverElastic "fold-over elastic",
    NarrowerFinish "narrower finish",
    OtherFinish "other finish",
    FinishOnCloth "finish on cloth",
    FaceWithBias "face with bias",
    FoldLess "fold less",
    ReduceLess "reduce less",
    ReduceMore "reduce more",
    LongerElastic "longer elastic",
    StretchierElastic "stretchier elastic",
    LatexFreeElastic "latex free elastic",
    AskWearer "ask wearer",
    SoftAndLoose "soft and loose",
    StretchierCloth "stretchier cloth",
    MoveEdge "move edge",
    LocalRules "local rules",
    Trial "trial",
    CarryPullTestOn "carry pull test on",
    NameElastic "name elastic",
    AddElastic "add elastic",
    OneSectionLess "one section less",
    OtherWayRound "other way round",
    Report "report",
}

impl From<Do> for Help {
    fn from(what: Do) -> Self {
        Self::Do(what)
    }
}
