//! Which key is meant, and where it stands.

use super::row::Row;
use crate::terms::Opening;
use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};

/// A key of the sheet where it stands; shown dotted, such as `finish.left_leg.bite`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    home: Home,
    row: ByName,
}

/// Where a key stands; shown dotted, such as `finish.left_leg`, `elastic."soft 8"`, `trial.2`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Home {
    /// A section that is there once.
    Single(Single),
    /// How these edges are finished.
    Finish(Edges),
    /// The elastic of this name.
    Elastic(String),
    /// The block of an alternative, counted from 1.
    Alternative(usize),
    /// The block of a variant, counted from 1.
    Variant(usize),
    /// The block of a trial, counted from 1.
    Trial(usize),
}

/// The sections that are there once, and are no finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Single {
    /// The sheet itself.
    Sheet,
    /// Measures of the body.
    Body,
    /// The cloth.
    Fabric,
    /// The base, and what is changed of it.
    Style,
    /// The gusset.
    Gusset,
    /// How seams are sewn.
    Seams,
    /// The print.
    Print,
}

/// The edges that a section of finishes is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edges {
    /// The top edge.
    Top,
    /// Both legs.
    Legs,
    /// The left leg alone.
    LeftLeg,
    /// The right leg alone.
    RightLeg,
}

impl Edges {
    /// Every section of finishes, in the order of a sheet; what comes later lies over it.
    pub const ALL: [Self; 4] = [Self::Top, Self::Legs, Self::LeftLeg, Self::RightLeg];

    /// Every choice, with the words an alternative or a trial uses.
    pub const WORDS: [(&'static str, Self); 4] = [
        (Self::Top.name(), Self::Top),
        (Self::Legs.name(), Self::Legs),
        (Self::LeftLeg.name(), Self::LeftLeg),
        (Self::RightLeg.name(), Self::RightLeg),
    ];

    /// The openings these edges are.
    pub const fn openings(self) -> &'static [Opening] {
        match self {
            Self::Top => &[Opening::Top],
            Self::Legs => &[Opening::LeftLeg, Opening::RightLeg],
            Self::LeftLeg => &[Opening::LeftLeg],
            Self::RightLeg => &[Opening::RightLeg],
        }
    }

    /// The word of an alternative or a trial.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => Opening::Top.name(),
            Self::Legs => "legs",
            Self::LeftLeg => Opening::LeftLeg.name(),
            Self::RightLeg => Opening::RightLeg.name(),
        }
    }

    /// Dotted, as in the head of the section.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Top => "finish.top",
            Self::Legs => "finish.legs",
            Self::LeftLeg => "finish.left_leg",
            Self::RightLeg => "finish.right_leg",
        }
    }
}

impl From<Opening> for Edges {
    fn from(opening: Opening) -> Self {
        match opening {
            Opening::Top => Self::Top,
            Opening::LeftLeg => Self::LeftLeg,
            Opening::RightLeg => Self::RightLeg,
        }
    }
}

impl Single {
    /// As in the head of the section.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Sheet => "sheet",
            Self::Body => "body",
            Self::Fabric => "fabric",
            Self::Style => "style",
            Self::Gusset => "gusset",
            Self::Seams => "seams",
            Self::Print => "print",
        }
    }
}

impl Home {
    /// The path of its section in the table.
    pub const fn path(&self) -> &'static str {
        match self {
            Self::Single(single) => single.path(),
            Self::Finish(edges) => edges.path(),
            Self::Elastic(_) => "elastic",
            Self::Alternative(_) => "alternative",
            Self::Variant(_) => "variant",
            Self::Trial(_) => "trial",
        }
    }
}

impl fmt::Display for Home {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Single(_) | Self::Finish(_) => f.write_str(self.path()),
            Self::Elastic(name) => write!(f, "{}.\"{name}\"", self.path()),
            Self::Alternative(n) | Self::Variant(n) | Self::Trial(n) => write!(f, "{}.{n}", self.path()),
        }
    }
}

impl Key {
    /// A key by its row, in this place.
    pub const fn new(home: Home, row: &'static Row) -> Self {
        Self { home, row: ByName(row) }
    }

    /// Where it stands.
    pub const fn home(&self) -> &Home {
        &self.home
    }

    /// Its row of the table.
    pub const fn row(&self) -> &'static Row {
        self.row.0
    }

    /// As it is written in its section.
    pub const fn name(&self) -> &'static str {
        self.row.0.name
    }

    /// What it is called on a page: `waist girth`, `left leg: reduction`, `soft 8: width`.
    pub fn label(&self) -> String {
        let name = self.row().label();
        match &self.home {
            Home::Single(Single::Gusset) => format!("gusset: {name}"),
            Home::Single(Single::Seams) => format!("seams: {name}"),
            Home::Single(_) => name,
            Home::Finish(edges) => format!("{}: {name}", edges.name()),
            Home::Elastic(elastic) => format!("{elastic}: {name}"),
            Home::Alternative(_) | Home::Variant(_) | Home::Trial(_) => format!("{}: {name}", self.home),
        }
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.home, self.name())
    }
}

/// A row of the table, and what is needed to say which key is meant: nothing (`Field<Single>` is a
/// key), the edges, the elastic's name, or the number of a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Field<Where> {
    place: Where,
    row: ByName,
}

/// Stands in a section of finishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerEdge;

/// Stands in the section of an elastic.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerElastic;

/// Stands in the blocks of alternatives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerAlternative;

/// Stands in the blocks of variants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerVariant;

/// Stands in the blocks of trials.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerTrial;

impl<Where> Field<Where> {
    pub(super) const fn new(place: Where, row: &'static Row) -> Self {
        Self { place, row: ByName(row) }
    }

    /// The row.
    pub const fn row(&self) -> &'static Row {
        self.row.0
    }

    /// As it is written in a sheet.
    pub const fn name(&self) -> &'static str {
        self.row.0.name
    }
}

impl From<Field<Single>> for Key {
    fn from(field: Field<Single>) -> Self {
        Self::new(Home::Single(field.place), field.row())
    }
}

impl Field<PerEdge> {
    /// The key for these edges.
    pub fn on(self, edges: impl Into<Edges>) -> Key {
        Key::new(Home::Finish(edges.into()), self.row())
    }

    /// The key in this block of an alternative, counted from 1.
    pub const fn in_alternative(self, number: usize) -> Key {
        Key::new(Home::Alternative(number), self.row())
    }
}

impl Field<PerElastic> {
    /// The key of the elastic of this name.
    pub fn of(self, elastic: &str) -> Key {
        Key::new(Home::Elastic(elastic.to_owned()), self.row())
    }
}

impl Field<PerAlternative> {
    /// The key in this block, counted from 1.
    pub const fn in_alternative(self, number: usize) -> Key {
        Key::new(Home::Alternative(number), self.row())
    }
}

impl Field<PerVariant> {
    /// The key in this block, counted from 1.
    pub const fn in_variant(self, number: usize) -> Key {
        Key::new(Home::Variant(number), self.row())
    }
}

impl Field<PerTrial> {
    /// The key in this block, counted from 1.
    pub const fn in_trial(self, number: usize) -> Key {
        Key::new(Home::Trial(number), self.row())
    }
}

/// A row, told apart by its name: within one section names are unique.
#[derive(Clone, Copy, Debug)]
struct ByName(&'static Row);

impl PartialEq for ByName {
    fn eq(&self, other: &Self) -> bool {
        self.0.name == other.0.name
    }
}

impl Eq for ByName {}

impl PartialOrd for ByName {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for ByName {
    fn cmp(&self, other: &Self) -> Ordering {
        self.0.name.cmp(other.0.name)
    }
}

impl Hash for ByName {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.name.hash(state);
    }
}
