//! How openings are completed: one file per finish, one line each in [`FINISHES`].
//!
//! A finish says where its lines run, as signed distances from the finished edge (outward
//! positive, mm), how the edge looks cut across, what it demands of cloth and hands, and what is
//! done at the machine in which order. Everything else (offsets, lengths, checks, the order of
//! work, pictures) follows from that.

mod band;
mod binding;
mod encased;
mod hem;
mod lapped;
pub mod profile;
mod raw;
mod reduction;
pub mod task;
mod trim;
mod tunnel;
mod turned;

pub use reduction::Reductions;
pub use task::Task;

use crate::finish::profile::Profile;
use crate::keys::{Field, PerEdge, finish};
use crate::terms::{ClothKind, Opening, PutOn, Reach};
use std::fmt;

/// Every finish, in the order that help texts list them.
pub static FINISHES: &[&dyn Finish] = &[
    &trim::Trim,
    &turned::Turned,
    &encased::Encased,
    &lapped::Lapped,
    &binding::Binding,
    &tunnel::Tunnel,
    &hem::Hem,
    &band::Band,
    &raw::Raw,
    #[cfg(test)]
    &tests::Scallop,
];

/// One way to complete an opening.
pub trait Finish: Sync {
    /// The word in a sheet.
    fn name(&self) -> &'static str;

    /// What others call it.
    fn also(&self) -> &'static [&'static str] {
        &[]
    }

    /// One line for help and for the piece: what happens to the edge.
    fn summary(&self) -> &'static str;

    /// What goes onto the edge?
    fn takes(&self) -> Takes;

    /// The keys of a finish section that mean something here, beside those that every finish has
    /// and those that everything with a length of its own has ([`FinishKind::takes_key`]).
    fn keys(&self) -> &'static [Field<PerEdge>];

    /// Can it be put on before the last seam, on a closed opening, or both?
    fn ways(&self) -> Ways {
        Ways::FlatOrRound
    }

    /// How much shorter than its line what goes onto the edge is to start with.
    fn reductions(&self) -> Reductions {
        Reductions::SEWN_DOWN
    }

    /// Is the elastic itself folded along its middle?
    fn folds_elastic(&self) -> bool {
        false
    }

    /// Is the elastic seen whole, so that it may be as wide as a lace?
    fn shows_elastic(&self) -> bool {
        false
    }

    /// What it demands of the cloth.
    fn demands(&self) -> Demand {
        Demand::AnyCloth
    }

    /// Where its lines run.
    fn lines(&self, settings: &Settings) -> Lines;

    /// How much of the row is left open to thread an elastic through, mm; none where none is.
    fn gap(&self, _: &Settings) -> Option<f64> {
        None
    }

    /// The edge cut across, as worn.
    fn profile(&self, settings: &Settings) -> Profile;

    /// What is done at the edge, each after the one before, once cloth and elastic are ready.
    fn tasks(&self, settings: &Settings) -> Vec<Task>;
}

/// What goes onto the edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// An elastic of the sheet, with a length basis, sewn on.
    Elastic,
    /// An elastic of the sheet, with a length basis, threaded through and joined after.
    Threaded,
    /// A strip of the cloth with a length basis: a piece of its own, cut doubled to
    /// [`Settings::band_width`], and called a band in words and files.
    Strip,
    /// Nothing but thread.
    Nothing,
}

impl Takes {
    /// Does it name one of the sheet's elastics?
    pub const fn elastic(self) -> bool {
        matches!(self, Self::Elastic | Self::Threaded)
    }

    /// Is it held nowhere along the edge, so that it has one stretch all round?
    pub const fn runs_freely(self) -> bool {
        matches!(self, Self::Threaded)
    }

    /// Does it have a length of its own, shorter than its line or not?
    pub const fn length(self) -> bool {
        !matches!(self, Self::Nothing)
    }
}

/// When it can be put on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ways {
    /// Before the last seam of the opening, or after all of them.
    FlatOrRound,
    /// On a closed opening only.
    RoundOnly,
}

impl Ways {
    /// What is taken where the sheet does not say.
    pub const fn usual(self) -> PutOn {
        match self {
            Self::FlatOrRound => PutOn::Flat,
            Self::RoundOnly => PutOn::Round,
        }
    }
}

/// What a finish demands of the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Demand {
    /// Any cloth that is sewn.
    AnyCloth,
    /// Cloth that gives, because the edge itself has to pass over the body.
    Knit,
    /// Cloth whose raw edge holds.
    NoFraying,
}

impl Demand {
    /// Is this cloth enough?
    pub fn met_by(self, cloth: ClothKind) -> bool {
        self == Self::AnyCloth || cloth == ClothKind::Knit
    }
}

/// What a finish works with: the sheet's keys with their defaults, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The opening it is for.
    pub opening: Opening,
    /// The elastic's width; 0 without one.
    pub width: f64,
    /// Its decorative part.
    pub picot: f64,
    /// From the raw edge to the inner swing of the zigzag.
    pub bite: f64,
    /// Whether an edging that stands out adds to the finished width.
    pub reach: Reach,
    /// How far a lapped elastic lies on the cloth.
    pub lap: f64,
    /// How far the ends of a ring of elastic lie over each other.
    pub overlap: f64,
    /// Room for the elastic to move in a tunnel.
    pub room: f64,
    /// Cloth beyond the stitches that hold a tunnel.
    pub catch: f64,
    /// Turned under at the raw edge of a tunnel; 0 on jersey.
    pub turn: f64,
    /// How deep a hem is folded in.
    pub depth: f64,
    /// The finished width of a band.
    pub band_width: f64,
    /// The allowance of a seam, where a finish is sewn on by one.
    pub seam: f64,
}

impl Settings {
    /// What is usual for an opening, where a sheet does not say: common practice. Width and picot
    /// part are those of the elastic; the seam allowance is the sheet's. Bands take no more of the
    /// side seam than leaves two fifths of it between them.
    pub fn usual(opening: Opening, cloth: ClothKind, (width, picot): (f64, f64), seam: f64, side_seam: f64) -> Self {
        let leg = opening != Opening::Top;
        Self {
            opening,
            width,
            picot,
            bite: 3.0,
            reach: Reach::Keep,
            lap: 6.0_f64.min(width),
            overlap: 20.0,
            room: 3.0,
            catch: 2.0,
            // The edge of a jersey does not fray; that of a woven is turned under.
            turn: if cloth == ClothKind::Woven { 6.0 } else { 0.0 },
            depth: if leg { 7.0 } else { 10.0 },
            band_width: if leg { 20.0_f64.min(0.24 * side_seam) } else { 30.0_f64.min(0.36 * side_seam) },
            seam,
        }
    }
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
    /// Where cloth, or elastic round the cloth, lies folded once it is: rows after that are measured from it.
    pub fold: Option<f64>,
    /// From where to where the elastic (or the band) lies, as worn.
    pub elastic: Option<(f64, f64)>,
    /// Does elastic lie against the skin?
    pub skin: Skin,
}

impl Lines {
    /// How far what is sewn on stands out beyond the finished edge, mm.
    pub fn beyond(&self) -> f64 {
        self.elastic.map_or(0.0, |(_, outer)| outer.max(0.0))
    }

    /// How far inside the finished edge anything of the finish reaches as worn, mm.
    pub fn depth(&self) -> f64 {
        let folded = if self.is_folded() { self.cut } else { 0.0 };
        let rows = [self.sewing, self.second].into_iter().flatten().map(f64::abs);
        let elastic = self.elastic.map_or(0.0, |(inner, _)| -inner);
        rows.fold(folded.max(elastic), f64::max)
    }

    /// Does the cut edge lie open as worn, neither folded in nor under what is sewn on?
    pub fn shows_raw_edge(&self) -> bool {
        let is_under = |(inner, outer): (f64, f64)| inner <= self.cut && self.cut <= outer;
        !self.is_folded() && !self.elastic.is_some_and(is_under)
    }

    /// Is the cloth folded at the finished edge?
    pub fn is_folded(&self) -> bool {
        self.turned_in == TurnedIn::AtFinishedEdge && self.cut > 0.0
    }
}

/// Is the allowance folded in?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TurnedIn {
    /// Folded at the finished edge; mirrored there where it meets a seam that can be sewn after.
    AtFinishedEdge,
    /// Left as cut.
    No,
}

/// Does elastic lie against the skin?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Skin {
    /// It does.
    Touches,
    /// Cloth lies between.
    Covered,
}

/// What every finish takes.
const EVERY_FINISH: [Field<PerEdge>; 2] = [finish::KIND, finish::PUT_ON];

/// What everything takes that is shorter than its line or not: an elastic or a band.
const WITH_LENGTH: [Field<PerEdge>; 5] =
    [finish::REDUCTION, finish::LENGTH, finish::MARKS, finish::SPREAD, finish::SECTIONS];

/// What asks for parts of their own.
const IN_PARTS: [Field<PerEdge>; 2] = [finish::SPREAD, finish::SECTIONS];

/// What every finish with an elastic takes besides.
const WITH_ELASTIC: [Field<PerEdge>; 3] = [finish::ELASTIC, finish::FROM, finish::OVERLAP];

/// One finish of the table, by its name.
#[derive(Clone, Copy)]
pub struct FinishKind(&'static dyn Finish);

impl FinishKind {
    /// Every finish of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        FINISHES.iter().map(|f| Self(*f))
    }

    /// The finishes that this cloth can take, by name.
    pub fn for_cloth(cloth: ClothKind) -> Vec<&'static str> {
        Self::all().filter(|f| f.demands().met_by(cloth)).map(|f| f.name()).collect()
    }

    /// Does this key of a finish mean something here?
    pub fn takes_key(self, key: Field<PerEdge>) -> bool {
        let takes = self.takes();
        EVERY_FINISH.contains(&key)
            || (takes.length() && WITH_LENGTH.contains(&key) && !(takes.runs_freely() && IN_PARTS.contains(&key)))
            || (takes.elastic() && WITH_ELASTIC.contains(&key))
            || self.keys().contains(&key)
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

#[cfg(test)]
mod tests;
