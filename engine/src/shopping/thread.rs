//! How much thread a stitch takes: all of its threads together, as a multiple of the length sewn.
//!
//! By the numbers of ISO 4915. Ratios differ with the thickness of the cloth and the tension: a cone
//! that runs out is dearer than one that is left over, so the larger figure is taken where two are
//! known.

use crate::stitch::Stitch;

/// What is wound off and cut away beyond what is sewn, as a share: a published example takes 621 cm
/// where 540 are sewn in.
pub const WASTE: f64 = 0.15;

/// Thread by length of seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ratio {
    /// Times the length that is sewn.
    pub times: f64,
    /// How well it is known.
    pub sure: Sureness,
}

/// How well a ratio is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sureness {
    /// Read in published tables of thread consumption.
    Published,
    /// From memory of such tables, not confirmed.
    FromMemory,
    /// No figure is known; that of a stitch like it is taken.
    LikeAnother,
}

impl Sureness {
    /// The word in the record.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::FromMemory => "from memory",
            Self::LikeAnother => "as the zigzag",
        }
    }
}

impl Stitch {
    /// How much thread it takes.
    pub const fn thread(self) -> Ratio {
        match self {
            // 2 + 2·thickness·stitches per length: 2.2 for 0.01 in at 10 stitches an inch, 2.5 in tables.
            Self::Lockstitch => Ratio { times: 2.5, sure: Sureness::Published },
            // Tables differ: 5.5 as published, 7 from memory.
            Self::Zigzag => Ratio { times: 7.0, sure: Sureness::FromMemory },
            Self::ThreeStep => Ratio { times: 7.0, sure: Sureness::LikeAnother },
            // From 18 to 20.
            Self::Overlock => Ratio { times: 20.0, sure: Sureness::FromMemory },
        }
    }
}

impl Ratio {
    /// What so much sewing takes, waste included; both in the same unit.
    pub fn length(self, sewn: f64) -> f64 {
        sewn * self.times * (1.0 + WASTE)
    }
}
