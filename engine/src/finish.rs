//! How openings are completed: one file per finish, one line each in [`FINISHES`].
//!
//! A finish says where its lines run, as signed distances from the finished edge (outward
//! positive, mm). Everything else (offsets, lengths, checks, order of work) follows from that.

mod hem;
mod trim;
mod turned;

use crate::sheet::{Opening, Reach};
use std::fmt;

/// Every finish, in the order that help texts list them.
pub static FINISHES: &[&dyn Finish] = &[&trim::Trim, &turned::Turned, &hem::Hem];

/// One way to complete an opening.
pub trait Finish: Sync {
    /// The word in a sheet.
    fn name(&self) -> &'static str;

    /// One line for help and for the piece: what happens to the edge.
    fn summary(&self) -> &'static str;

    /// Does it take an elastic of the sheet?
    fn takes(&self) -> Takes;

    /// The keys of a finish section that mean something here, beside `kind`, `put_on`, and those
    /// that every elastic has.
    fn keys(&self) -> &'static [&'static str];

    /// Where its lines run.
    fn lines(&self, settings: &Settings) -> Lines;
}

/// What goes onto the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// An elastic of the sheet, with a length basis.
    Elastic,
    /// Nothing but thread.
    Nothing,
}

/// What a finish works with: the sheet's keys with their defaults, mm.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Settings {
    pub opening: Opening,
    /// The elastic's width; 0 without one.
    pub width: f64,
    /// Its decorative part.
    pub picot: f64,
    /// From the raw edge to the inner swing of the zigzag.
    pub bite: f64,
    pub reach: Reach,
    pub lap: f64,
    pub room: f64,
    pub catch: f64,
    pub turn: f64,
    pub depth: f64,
    pub band_width: f64,
    /// The allowance of a seam, where a finish is sewn on by one.
    pub seam: f64,
}

/// Where the lines of a finish run, as signed distances from the finished edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Lines {
    /// Where the scissors go.
    pub cut: f64,
    /// The first row of stitches, if there is one.
    pub sewing: Option<f64>,
    /// The second row.
    pub second: Option<f64>,
    /// The line an elastic's or band's length is taken along.
    pub measured: Option<f64>,
    /// Is the cloth folded at the finished edge, so that what lies beyond comes to lie inside?
    pub turned_in: TurnedIn,
    /// From where to where the elastic lies, as worn.
    pub elastic: Option<(f64, f64)>,
    /// Does elastic lie against the skin?
    pub skin: Skin,
}

/// Is the allowance folded in?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TurnedIn {
    /// Folded at the finished edge; mirrored there where it meets a seam.
    AtFinishedEdge,
    /// Left as cut.
    No,
}

/// Does elastic lie against the skin?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Skin {
    Touches,
    Covered,
}

/// One finish of the table, by its name.
#[derive(Clone, Copy)]
pub struct FinishKind(&'static dyn Finish);

impl FinishKind {
    /// Every finish of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        FINISHES.iter().map(|f| Self(*f))
    }

    /// The finish of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::all().find(|f| f.name() == name)
    }
}

impl std::ops::Deref for FinishKind {
    type Target = dyn Finish;
    fn deref(&self) -> &Self::Target {
        self.0
    }
}

impl PartialEq for FinishKind {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

impl Eq for FinishKind {}

impl fmt::Debug for FinishKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
