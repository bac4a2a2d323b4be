//! Keys of the sheet as places. Stands in for the table of keys, with the same names.

use crate::terms::Opening;
use std::fmt;

/// A key of the sheet where it stands; shown dotted, such as `finish.left_leg.bite`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Key {
    /// In a section that is there once.
    Single(Single),
    /// In the finish of an opening.
    Finish(Opening, PerEdge),
    /// In the section of the elastic of this name.
    Elastic(String, PerElastic),
}

/// A key of a section that is there once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Single(&'static str);

/// A key of a finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PerEdge(&'static str);

/// A key of an elastic.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PerElastic(&'static str);

impl From<Single> for Key {
    fn from(key: Single) -> Self {
        Self::Single(key)
    }
}

impl PerEdge {
    /// The key for this opening.
    pub const fn on(self, opening: Opening) -> Key {
        Key::Finish(opening, self)
    }
}

impl PerElastic {
    /// The key of the elastic of this name.
    pub fn of(self, elastic: &str) -> Key {
        Key::Elastic(elastic.to_owned(), self)
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Single(Single(path)) => f.write_str(path),
            Self::Finish(Opening::Top, PerEdge(name)) => write!(f, "finish.top.{name}"),
            Self::Finish(Opening::LeftLeg, PerEdge(name)) => write!(f, "finish.left_leg.{name}"),
            Self::Finish(Opening::RightLeg, PerEdge(name)) => write!(f, "finish.right_leg.{name}"),
            Self::Elastic(elastic, PerElastic(name)) => write!(f, "elastic.\"{elastic}\".{name}"),
        }
    }
}

macro_rules! keys {
    ($($section:ident: $($id:ident = $path:literal),+;)+) => {
        $(#[allow(missing_docs)]
        pub mod $section {
            $(pub const $id: super::Single = super::Single(concat!(stringify!($section), ".", $path));)+
        })+
    };
}

keys! {
    sheet: UNITS = "units";
    body: WAIST_GIRTH = "waist_girth", HIP_GIRTH = "hip_girth", WAIST_TO_HIP = "waist_to_hip",
        CROTCH_LENGTH = "crotch_length", CROTCH_LENGTH_FRONT = "crotch_length_front", THIGH_GIRTH = "thigh_girth",
        CHILD = "child";
    fabric: STRETCH_ACROSS = "stretch_across", EASE_ACROSS = "ease_across", EASE_ALONG = "ease_along";
    style: TOP_DROP_FRONT = "top_drop_front", TOP_DROP_SIDE = "top_drop_side", TOP_DROP_BACK = "top_drop_back",
        SIDE_SEAM = "side_seam", FRONT_SCOOP = "front_scoop", BACK_COVER = "back_cover", LEG_EDGE = "leg_edge";
    gusset: LENGTH = "length", WIDTH = "width", FRONT_WIDTH = "front_width", BACK_WIDTH = "back_width";
    seams: KIND = "kind";
}

#[allow(missing_docs)]
pub mod finish {
    use super::PerEdge;
    pub const KIND: PerEdge = PerEdge("kind");
    pub const ELASTIC: PerEdge = PerEdge("elastic");
    pub const REDUCTION: PerEdge = PerEdge("reduction");
    pub const LENGTH: PerEdge = PerEdge("length");
    pub const PUT_ON: PerEdge = PerEdge("put_on");
    pub const SPREAD: PerEdge = PerEdge("spread");
    pub const SECTIONS: PerEdge = PerEdge("sections");
    pub const OVERLAP: PerEdge = PerEdge("overlap");
}

#[allow(missing_docs)]
pub mod elastic {
    use super::PerElastic;
    pub const WIDTH: PerElastic = PerElastic("width");
    pub const STRETCH: PerElastic = PerElastic("stretch");
    pub const GROWTH: PerElastic = PerElastic("growth");
    pub const LATEX: PerElastic = PerElastic("latex");
    pub const PULL: PerElastic = PerElastic("pull");
}
