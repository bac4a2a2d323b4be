//! The trade's own choices, each with the word that a sheet uses for it: openings and their
//! sections, cloths, seams, how something is put on. Everything else stands on them.

/// Where the waist was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaistLevel {
    /// The narrowest place.
    Natural,
    /// Half way between lowest rib and top of the hip bone (ISO 8559-1, 5.3.10).
    Midway,
    /// At the navel.
    Navel,
}

impl WaistLevel {
    /// Every level, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] =
        [("natural", Self::Natural), ("midway", Self::Midway), ("navel", Self::Navel)];
}

/// How the cloth is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothKind {
    /// Knitted: stretches, does not fray much.
    Knit,
    /// Woven: hardly stretches, frays.
    Woven,
}

impl ClothKind {
    /// Every kind, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 2] = [("knit", Self::Knit), ("woven", Self::Woven)];
}

/// How the gusset's second layer is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lining {
    /// Both gusset seams hidden between the layers.
    Enclosed,
    /// One end of the lining left loose and tacked.
    Tacked,
}

impl Lining {
    /// Every way, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 2] = [("enclosed", Self::Enclosed), ("tacked", Self::Tacked)];
}

/// How the seams are sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeamKind {
    /// Overlocker / serger.
    Overlock,
    /// A narrow zigzag.
    Zigzag,
    /// A straight stitch.
    Lockstitch,
}

impl SeamKind {
    /// Every kind, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] =
        [("overlock", Self::Overlock), ("zigzag", Self::Zigzag), ("lockstitch", Self::Lockstitch)];
}

/// One of the three openings, by the wearer's sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Opening {
    /// Round the body.
    Top,
    /// Round the wearer's left leg.
    LeftLeg,
    /// Round the wearer's right leg.
    RightLeg,
}

impl Opening {
    /// Every opening, in the order of the design.
    pub const ALL: [Self; 3] = [Self::Top, Self::LeftLeg, Self::RightLeg];

    /// The trade's words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => "top edge",
            Self::LeftLeg => "left leg",
            Self::RightLeg => "right leg",
        }
    }
}

/// One value for each opening.
#[derive(Clone, Debug, PartialEq)]
pub struct PerOpening<T> {
    /// The top edge's.
    pub top: T,
    /// The left leg's.
    pub left_leg: T,
    /// The right leg's.
    pub right_leg: T,
}

impl<T> PerOpening<T> {
    /// The value of one opening.
    pub const fn get(&self, opening: Opening) -> &T {
        match opening {
            Opening::Top => &self.top,
            Opening::LeftLeg => &self.left_leg,
            Opening::RightLeg => &self.right_leg,
        }
    }

    /// One value for each opening, by a rule.
    pub fn from_fn(mut rule: impl FnMut(Opening) -> T) -> Self {
        Self { top: rule(Opening::Top), left_leg: rule(Opening::LeftLeg), right_leg: rule(Opening::RightLeg) }
    }

    /// The same, where the rule can fail: the first failure wins.
    pub fn try_from_fn<E>(mut rule: impl FnMut(Opening) -> Result<T, E>) -> Result<Self, E> {
        Ok(Self { top: rule(Opening::Top)?, left_leg: rule(Opening::LeftLeg)?, right_leg: rule(Opening::RightLeg)? })
    }
}

/// Is the elastic put on before the last seam, or on a closed opening?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PutOn {
    /// Before the last seam.
    Flat,
    /// On a closed opening.
    Round,
}

impl PutOn {
    /// Both ways, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 2] = [("flat", Self::Flat), ("round", Self::Round)];
}

/// How many marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marks {
    /// Two.
    Halves,
    /// Four.
    Quarters,
    /// Eight.
    Eighths,
}

impl Marks {
    /// Every choice, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] =
        [("halves", Self::Halves), ("quarters", Self::Quarters), ("eighths", Self::Eighths)];
}

/// How the stretch is spread round an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// The same stretch all round, marks on seams and centres.
    Even,
    /// The elastic folded in equal parts.
    Equal,
}

impl Spread {
    /// Both ways, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 2] = [("even", Self::Even), ("equal", Self::Equal)];
}

/// Does a standing-out edging keep the finished width, or add to it?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// The edging ends at the finished edge.
    Keep,
    /// It stands out beyond it.
    Add,
}

impl Reach {
    /// Both ways, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 2] = [("keep", Self::Keep), ("add", Self::Add)];
}

/// Half of a symmetric piece, or all of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// The +x half; its centre line x = 0 lies on the fold of the cloth.
    HalfOnFold,
    /// The whole piece.
    Full,
}

/// A part of a leg edge, by the piece it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Section {
    /// On the front.
    Front,
    /// On the gusset.
    Gusset,
    /// On the back.
    Back,
}

impl Section {
    /// Every section, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] = [("front", Self::Front), ("gusset", Self::Gusset), ("back", Self::Back)];
}

/// What a test garment said of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Too loose.
    Loose,
    /// As it should be.
    Right,
    /// Too tight.
    Tight,
}

impl Verdict {
    /// Every verdict, with the word a sheet uses.
    pub const ALL: [(&'static str, Self); 3] = [("loose", Self::Loose), ("right", Self::Right), ("tight", Self::Tight)];

    /// The word a sheet uses.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Loose => "loose",
            Self::Right => "right",
            Self::Tight => "tight",
        }
    }
}
