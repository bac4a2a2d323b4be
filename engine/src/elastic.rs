//! Elastics and bands as they are cut, joined and marked. Lengths are millimetres, ratios percent.

use crate::sheet::Basis;
use crate::topology::{MarkPlace, PieceId};

/// How an elastic is cut and marked.
#[derive(Clone, Debug, PartialEq)]
pub struct ElasticCut {
    /// Its name in the sheet.
    pub name: String,
    /// Its whole width, mm.
    pub width: f64,
    /// Percent of its line.
    pub reduction: f64,
    /// What the length was taken from.
    pub basis: Basis,
    /// Joined, mm.
    pub finished_length: f64,
    /// With what the joining needs, mm.
    pub cut_length: f64,
    /// How its ends are joined.
    pub joining: Joining,
    /// What it grows in sewing by its sample, and is cut short by, %; none without a sample.
    pub growth: Option<f64>,
    /// How much to have in hand where it is laid on flat and cut after sewing, mm.
    pub in_hand: Option<f64>,
    /// What a metre of it costs; on a sheet in inches, a yard.
    pub price: Option<f64>,
    /// Its matching marks in order.
    pub marks: Vec<Mark>,
}

impl ElasticCut {
    /// Where a mark lies on the elastic as it is cut, from its first cut end, mm: a mark where the ends meet
    /// lies near both.
    pub fn from_cut_end(&self, mark: &Mark) -> Vec<f64> {
        let before = match self.joining.ends {
            Ends::Lapped(by) => 0.5 * by,
            Ends::ThroughAllowances(width) => width,
            Ends::Seamed | Ends::CaughtInSeam => 0.0,
        };
        let other = (mark.along_elastic < NEAR).then_some(self.cut_length - before);
        std::iter::once(before + mark.along_elastic).chain(other).collect()
    }
}

/// Nearer than this, a mark is where the ends meet, mm.
pub(crate) const NEAR: f64 = 1e-6;

/// How and where the ends of an elastic or a band meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joining {
    /// What is done with them.
    pub ends: Ends,
    /// Where.
    pub at: Meeting,
    /// How far mark 1 is from there on what is put on, mm.
    pub to_first_mark: f64,
}

/// What is done with the ends of an elastic or a band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ends {
    /// Lapped over each other by so much, mm.
    Lapped(f64),
    /// Run through both allowances of the seam there, each this wide, mm.
    ThroughAllowances(f64),
    /// Seamed to each other.
    Seamed,
    /// Caught in the seam there.
    CaughtInSeam,
}

impl Ends {
    /// How much of an elastic lies before the place where its ends meet, in the seam allowance, mm.
    pub const fn in_allowance(self) -> f64 {
        match self {
            Self::ThroughAllowances(width) => width,
            Self::Lapped(_) | Self::Seamed | Self::CaughtInSeam => 0.0,
        }
    }
}

/// Where on its opening the ends of an elastic or a band meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// On the centre line.
    CentreBack,
    /// In the middle of a leg's back part.
    MiddleOfBack,
    /// Of a top, whose last seam it is.
    RightSideSeam,
    /// Of a leg.
    SideSeam,
}

/// All of one elastic on a garment.
#[derive(Clone, Debug, PartialEq)]
pub struct ElasticTotal {
    /// Its name in the sheet.
    pub name: String,
    /// Its whole width, mm.
    pub width: f64,
    /// Cut lengths of one pair, added up, mm.
    pub cut_length: f64,
    /// What to have of it for one pair, mm: the same, but where it is laid on flat and cut after sewing, as
    /// much as that takes in hand.
    pub in_hand: f64,
}

/// A matching mark on elastic and edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its number, from 1, counted from where the ends of what is put on meet.
    pub number: usize,
    /// Where on the edge it is matched.
    pub place: MarkPlace,
    /// From where the ends meet, along what is put on, mm.
    pub along_elastic: f64,
    /// From the same place along the ring's measured line, mm.
    pub along_edge: f64,
}

/// How a band is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct BandCut {
    /// Its piece.
    pub piece: PieceId,
    /// Joined, mm.
    pub length: f64,
    /// Finished, doubled, mm.
    pub width: f64,
    /// With the seams at its ends, mm.
    pub cut_length: f64,
    /// Percent of its line.
    pub reduction: f64,
    /// Where its ends meet.
    pub joining: Joining,
    /// Its matching marks in order.
    pub marks: Vec<Mark>,
}
