//! The work card: what lies beside the machine while one pair is sewn, ready to be read. Its words are
//! made in `words::card`, in the sheet's unit; lengths to be drawn are millimetres.

use crate::curve::Path;
use crate::finish::profile::Profile;
use crate::quantity::Units;

/// Everything on the card.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Card {
    /// The sheet's name.
    pub title: String,
    /// Date, base and cloth.
    pub about: String,
    /// The unit of its words, and of its rulers.
    pub units: Units,
    /// What goes onto each edge: the cells under [`COLUMNS`](crate::words::card::COLUMNS).
    pub edges: Vec<[String; 6]>,
    /// What one pair takes of each elastic.
    pub in_hand: String,
    /// What its pieces take of each cloth, as they were laid; empty where they were not.
    pub cloth: String,
    /// How whole pieces lie on each cloth, to be drawn small; none where they were not laid.
    pub lays: Vec<Laid>,
    /// Elastics at true size.
    pub strips: Vec<Strip>,
    /// What to do with them.
    pub strips_use: String,
    /// Needle and stitches.
    pub setting_up: Vec<String>,
    /// The order of work.
    pub work: Vec<Part>,
    /// The edges to be judged when the trial is worn.
    pub trial: Vec<String>,
    /// What to take care of.
    pub cautions: Vec<String>,
    /// Measurements of the person and what they are called: for the maker's own file alone.
    pub measures: Vec<[String; 2]>,
}

impl Card {
    /// What is taken of elastic and cloth.
    pub fn takes(&self) -> String {
        let told = [&self.in_hand, &self.cloth].into_iter().filter(|text| !text.is_empty());
        told.cloned().collect::<Vec<_>>().join(" ")
    }
}

/// A length of cloth with whole pieces on it, right side up on one layer. The grain runs down it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// From selvedge to selvedge, mm.
    pub width: f64,
    /// mm.
    pub length: f64,
    /// On it.
    pub pieces: Vec<LaidPiece>,
    /// What is said beside it, a line each.
    pub told: Vec<String>,
}

/// A piece as it lies on the cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidPiece {
    /// Its name.
    pub name: String,
    /// What stands for that where there is no room for more; pieces of one name share it.
    pub letter: char,
    /// Its cut line, whole, mm from the upper left corner of the cloth.
    pub outline: Path,
    /// Does it lie upside down?
    pub is_turned: bool,
}

/// An elastic at true size, laid out slack, from one cut end to the other.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// For which edge, of which elastic.
    pub heading: String,
    /// Cut length, mm.
    pub length: f64,
    /// Where it is marked, from the first cut end.
    pub marks: Vec<StripMark>,
    /// The same in words.
    pub told: String,
}

/// A mark of a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct StripMark {
    /// Its number, from 1.
    pub number: usize,
    /// From the first cut end, mm.
    pub at: f64,
}

/// What is done at one place in one go.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Where.
    pub heading: String,
    /// What is drawn of it.
    pub picture: Option<Picture>,
    /// Each with its number.
    pub lines: Vec<Line>,
}

/// What is drawn beside a heading.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// An edge cut across, where its finish is first met.
    Edge(Profile),
    /// Front and back rolled up between gusset and lining. The words make do without.
    Roll,
}

/// One line of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Counted through the card.
    pub number: usize,
    /// What is done.
    pub text: String,
    /// The stitch and what the machine is set to, where something is sewn.
    pub setting: Option<String>,
}
