//! Pieces as they lie on a cloth.

use crate::sheet::Fabric;
use kurbo::Point;

/// What pieces are laid on.
#[derive(Clone, Debug, PartialEq)]
pub struct Cloth {
    /// What it is called.
    pub name: String,
    /// Usable, from selvedge to selvedge, mm.
    pub width: f64,
    /// Which way round pieces lie on it.
    pub ways: Ways,
}

/// Which way round pieces lie on a cloth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ways {
    /// Up or down, as it takes less cloth.
    #[default]
    Both,
    /// All the same way, on cloth with a nap or a print that has an upper end.
    One,
}

impl Cloth {
    /// The cloth of a sheet under the name on its pieces, where its width is known.
    pub fn of(fabric: &Fabric, name: &str) -> Option<Self> {
        let ways = if fabric.nap == Some(true) { Ways::One } else { Ways::Both };
        Some(Self { name: name.to_owned(), width: fabric.width?.mm(), ways })
    }
}

/// Pieces on a length of cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct Lay {
    /// The cloth.
    pub cloth: Cloth,
    /// Of cloth, mm.
    pub length: f64,
    /// How much of it the pieces are, percent.
    pub use_percent: f64,
    /// Of knickers.
    pub pairs: u32,
    /// The least distance between two pieces, mm.
    pub gap: f64,
    /// Steps that the search could take.
    pub steps: u64,
    /// Every piece, in the order wanted.
    pub placed: Vec<Placed>,
}

impl Lay {
    /// Does a piece of it lie upside down?
    pub fn is_any_turned(&self) -> bool {
        self.placed.iter().any(|p| p.turn == Turn::Half)
    }
}

/// A whole piece on the cloth: turned about its origin, then moved there.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Its name.
    pub piece: String,
    /// Which of those wanted it is.
    pub wanted: usize,
    /// Its origin: x across the cloth from one selvedge, y along it, mm.
    pub at: Point,
    /// Which way round it lies.
    pub turn: Turn,
}

/// Which way round a piece lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// As drawn.
    AsDrawn,
    /// Turned by half a turn.
    Half,
}

impl Turn {
    /// By so many degrees.
    pub const fn degrees(self) -> f64 {
        match self {
            Self::AsDrawn => 0.0,
            Self::Half => 180.0,
        }
    }
}
