//! What a sewist says of a test garment, and what is done about it.
//!
//! One table: the words, other words for the same, and the remedies in order, of which the first one
//! that the garment can take is used. Where nothing else is said, a step is common practice: enough
//! to be felt, and small enough to be taken back.

use super::knob::Knob;
use super::knob::Knob::{
    Cover, DropBack, DropFront, DropSide, Ease, GussetForward, GussetLength, GussetWidth, LegPart, Legs, Reach, Scoop,
    Side, Top, TopHem, TopPart,
};
use crate::terms::Section::{Back, Front};

/// One turn of a knob, in the knob's own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// Which.
    pub knob: Knob,
    /// By how much.
    pub by: f64,
    /// What it is for.
    pub part: Part,
}

/// Is a turn what was asked for, or does it keep something else in its place?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// It answers the remark.
    Asked,
    /// It goes along.
    Along,
}

/// A remark that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each is named in the table")]
pub enum Remark {
    GapesFrontLeg,
    GapesBackLeg,
    CutsFrontLeg,
    CutsSeat,
    CutsWaist,
    RidesUp,
    BackTooBare,
    BackTooFull,
    GussetTooWide,
    GussetTooNarrow,
    GussetTooLong,
    GussetTooShort,
    GussetTooFarForward,
    GussetTooFarBack,
    TopRolls,
    GapesBackWaist,
    TopTooHigh,
    TopTooLow,
    SideTooLong,
    SideTooShort,
    WrinklesFront,
    Sags,
}

/// A row of the table.
#[derive(Debug)]
pub struct Row {
    /// Which remark.
    pub remark: Remark,
    /// As it is listed.
    pub words: &'static str,
    /// Other words for the same.
    pub also: &'static [&'static str],
    /// What is done, the first that can be.
    pub remedies: &'static [&'static [Turn]],
}

const fn asked(knob: Knob, by: f64) -> Turn {
    Turn { knob, by, part: Part::Asked }
}

const fn along(knob: Knob, by: f64) -> Turn {
    Turn { knob, by, part: Part::Along }
}

const fn row(
    remark: Remark,
    words: &'static str,
    also: &'static [&'static str],
    remedies: &'static [&'static [Turn]],
) -> Row {
    Row { remark, words, also, remedies }
}

/// Every remark.
pub static REMARKS: [Row; 22] = [
    row(
        Remark::GapesFrontLeg,
        "gapes at the front leg",
        &["front leg gapes", "front leg stands off", "loose at the front leg", "gaps at the front leg"],
        &[&[asked(LegPart(Front), 4.0)], &[asked(Legs, 3.0)], &[asked(Ease, -2.0)]],
    ),
    row(
        Remark::GapesBackLeg,
        "gapes at the back leg",
        &["back leg gapes", "back leg stands off", "loose at the back leg", "gaps at the back leg"],
        &[&[asked(LegPart(Back), 4.0)], &[asked(Legs, 3.0)], &[asked(Ease, -2.0)]],
    ),
    row(
        Remark::CutsFrontLeg,
        "cuts in at the front leg",
        &["front leg cuts in", "digs in at the front leg", "tight at the front leg", "cuts in at the groin"],
        &[&[asked(LegPart(Front), -4.0)], &[asked(Legs, -3.0)], &[asked(Scoop, 0.08)]],
    ),
    row(
        Remark::CutsSeat,
        "cuts in at the seat",
        &["cuts in at the back leg", "digs in at the seat", "tight at the seat", "back leg cuts in"],
        &[&[asked(LegPart(Back), -4.0)], &[asked(Legs, -3.0)], &[asked(Cover, 0.08)]],
    ),
    row(
        Remark::CutsWaist,
        "cuts in at the waist",
        &["cuts in at the top", "waist cuts in", "digs in at the waist", "top too tight", "tight at the waist"],
        &[&[asked(Top, -4.0)], &[asked(Ease, 2.0)]],
    ),
    row(
        Remark::RidesUp,
        "rides up at the back",
        &["rides up", "back rides up", "creeps up", "creeps up at the back", "rides up behind"],
        &[&[asked(Cover, 0.08)]],
    ),
    row(
        Remark::BackTooBare,
        "back too bare",
        &["too bare at the back", "not enough cover at the back", "seat too bare", "back too skimpy"],
        &[&[asked(Cover, 0.1)]],
    ),
    row(
        Remark::BackTooFull,
        "back too full",
        &["too full at the back", "too much cover at the back", "seat too full"],
        &[&[asked(Cover, -0.1)]],
    ),
    row(
        Remark::GussetTooWide,
        "gusset too wide",
        &["crotch too wide", "wide between the legs", "bulky between the legs"],
        &[&[asked(Reach, 1.0)], &[asked(GussetWidth, -8.0)]],
    ),
    row(
        Remark::GussetTooNarrow,
        "gusset too narrow",
        &["crotch too narrow", "narrow between the legs"],
        &[&[asked(GussetWidth, 8.0)]],
    ),
    row(
        Remark::GussetTooLong,
        "gusset too long",
        &["crotch piece too long", "lining too long"],
        &[&[asked(GussetLength, -10.0)]],
    ),
    row(
        Remark::GussetTooShort,
        "gusset too short",
        &["crotch piece too short", "lining too short"],
        &[&[asked(GussetLength, 10.0)]],
    ),
    row(
        Remark::GussetTooFarForward,
        "gusset too far forward",
        &["gusset too far to the front", "gusset sits too far forward", "crotch too far forward"],
        &[&[asked(GussetForward, -10.0)]],
    ),
    row(
        Remark::GussetTooFarBack,
        "gusset too far back",
        &["gusset sits too far back", "crotch too far back", "gusset too far to the back"],
        &[&[asked(GussetForward, 10.0)]],
    ),
    row(
        Remark::TopRolls,
        "top rolls",
        &["waist rolls", "top edge rolls", "top rolls over", "waistband rolls"],
        &[&[asked(Top, -3.0)], &[asked(TopHem, 3.0)]],
    ),
    row(
        Remark::GapesBackWaist,
        "gapes at the back waist",
        &["back waist gapes", "gaps at the back waist", "top gapes at the back", "stands off at the back waist"],
        &[&[asked(TopPart(Back), 4.0)], &[asked(Top, 3.0)], &[asked(DropBack, 8.0)]],
    ),
    row(
        Remark::TopTooHigh,
        "too high",
        &["top too high", "waist too high", "sits too high"],
        &[&[asked(DropFront, 10.0), asked(DropSide, 10.0), asked(DropBack, 10.0), along(Side, -10.0)]],
    ),
    row(
        Remark::TopTooLow,
        "too low",
        &["top too low", "waist too low", "sits too low"],
        &[&[asked(DropFront, -10.0), asked(DropSide, -10.0), asked(DropBack, -10.0), along(Side, 10.0)]],
    ),
    row(
        Remark::SideTooLong,
        "side too long",
        &["side seam too long", "sides too long", "leg too low at the side"],
        &[&[asked(Side, -10.0)]],
    ),
    row(
        Remark::SideTooShort,
        "side too short",
        &["side seam too short", "sides too short", "leg too high at the side"],
        &[&[asked(Side, 10.0)]],
    ),
    row(
        Remark::WrinklesFront,
        "wrinkles across the front",
        &["front wrinkles", "folds across the front", "creases across the front"],
        &[&[asked(DropFront, 8.0)]],
    ),
    row(Remark::Sags, "sags", &["seat sags", "bags", "hangs down", "baggy", "seat bags"], &[&[asked(Ease, -2.0)]]),
];

impl Remark {
    /// Its row of the table.
    pub fn row(self) -> &'static Row {
        &REMARKS[self as usize]
    }

    /// The remark that these words mean, whatever small words stand between them.
    pub fn of(words: &str) -> Option<Self> {
        let wanted = bare(words);
        let means = |row: &&Row| std::iter::once(&row.words).chain(row.also).any(|known| bare(known) == wanted);
        REMARKS.iter().find(means).map(|row| row.remark)
    }
}

/// Words that make no difference.
const SMALL: [&str; 12] = ["the", "a", "it", "is", "at", "of", "in", "on", "its", "to", "my", "are"];

fn bare(words: &str) -> Vec<String> {
    let lower = words.to_lowercase();
    let all = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty() && !SMALL.contains(word));
    all.map(str::to_owned).collect()
}
