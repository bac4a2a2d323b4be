//! Stitches, and what a machine is set to for them.
//!
//! Numbers of ISO 4915: 301, 304 and 514 as the standard lists them; 321 for the three-step zigzag
//! is from memory, sources differ. Settings are common practice, to start from on a scrap.

use crate::terms::{ClothKind, SeamKind};

/// A type of stitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stitch {
    /// Straight.
    Lockstitch,
    /// Zigzag lockstitch.
    Zigzag,
    /// Zigzag with three stitches to each swing.
    ThreeStep,
    /// Four-thread overedge.
    Overlock,
}

impl Stitch {
    /// Its number in ISO 4915.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Lockstitch => "301",
            Self::Zigzag => "304",
            Self::ThreeStep => "321",
            Self::Overlock => "514",
        }
    }
}

/// From the least to the most that is usual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The least.
    pub from: f64,
    /// The most.
    pub to: f64,
}

impl Span {
    const fn new(from: f64, to: f64) -> Self {
        Self { from, to }
    }
}

/// A stitch and what the machine is set to for it, as its dials show it: mm in every sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sewing {
    /// The stitch.
    pub stitch: Stitch,
    /// Of a zigzag, from swing to swing, mm.
    pub width: Option<Span>,
    /// From stitch to stitch, mm; of a three-step zigzag, of each step.
    pub length: Span,
    /// Of an overlocker: how much faster the front feed runs than the back one.
    pub differential: Option<Span>,
}

impl Sewing {
    /// Holds an elastic or a fold, and gives with it.
    pub const fn zigzag() -> Self {
        Self::swinging(Stitch::Zigzag, Span::new(2.5, 4.0), Span::new(2.0, 3.0))
    }

    /// Nearly straight: for seams that give a little.
    pub const fn narrow_zigzag() -> Self {
        Self::swinging(Stitch::Zigzag, Span::new(0.5, 1.5), Span::new(2.5, 2.5))
    }

    /// Short and close, across what must not move. From memory.
    pub const fn dense_zigzag() -> Self {
        Self::swinging(Stitch::Zigzag, Span::new(2.0, 3.0), Span::new(0.3, 0.5))
    }

    /// Over a raw edge, so that it does not fray. From memory.
    pub const fn over_edge() -> Self {
        Self::swinging(Stitch::Zigzag, Span::new(3.0, 5.0), Span::new(2.0, 2.5))
    }

    /// A second row on an elastic of this width, mm: its swings stay on it.
    pub fn three_step(on: f64) -> Self {
        let most = |mm: f64| mm.min((on - 1.0).max(2.0));
        Self::swinging(Stitch::ThreeStep, Span::new(most(4.0), most(6.0)), Span::new(1.0, 1.5))
    }

    /// Straight. A knit needs it a little longer. From memory.
    pub const fn lockstitch() -> Self {
        Self { stitch: Stitch::Lockstitch, width: None, length: Span::new(2.5, 3.0), differential: None }
    }

    /// A knit is fed in a little, so that its edge does not wave; a woven is not. The length is
    /// from memory.
    pub const fn overlock(cloth: ClothKind) -> Self {
        let differential = match cloth {
            ClothKind::Knit => Span::new(1.2, 1.5),
            ClothKind::Woven => Span::new(1.0, 1.0),
        };
        let length = Span::new(2.5, 3.0);
        Self { stitch: Stitch::Overlock, width: None, length, differential: Some(differential) }
    }

    /// A seam of this kind in this cloth.
    pub const fn seam(kind: SeamKind, cloth: ClothKind) -> Self {
        match kind {
            SeamKind::Overlock => Self::overlock(cloth),
            SeamKind::Zigzag => Self::narrow_zigzag(),
            SeamKind::Lockstitch => Self::lockstitch(),
        }
    }

    const fn swinging(stitch: Stitch, width: Span, length: Span) -> Self {
        Self { stitch, width: Some(width), length, differential: None }
    }
}

/// A needle for a cloth, by the shape of its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needle {
    /// Parts the loops of a knit.
    BallPoint,
    /// Makes no missed stitches where there is much elastane.
    Stretch,
    /// Goes through fine wovens.
    Sharp,
}

/// A knit that stretches so much has much elastane: fraction. The class limits of textbooks differ;
/// from memory.
const MUCH: f64 = 0.5;

impl Needle {
    /// For a cloth that stretches so much in its stretchier direction, as a fraction.
    pub fn of(cloth: ClothKind, stretch: f64) -> Self {
        match cloth {
            ClothKind::Woven => Self::Sharp,
            ClothKind::Knit if stretch >= MUCH => Self::Stretch,
            ClothKind::Knit => Self::BallPoint,
        }
    }

    /// Its sizes, the finest for the thinnest cloth: metric and the older number.
    pub const fn sizes(self) -> (&'static str, &'static str) {
        match self {
            Self::BallPoint => ("70/10", "90/14"),
            Self::Stretch => ("75/11", "90/14"),
            Self::Sharp => ("60/8", "70/10"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, facts in the module's note.
    #[test]
    fn the_needle_follows_the_cloth() {
        assert_eq!(Needle::of(ClothKind::Woven, 0.9), Needle::Sharp);
        assert_eq!(Needle::of(ClothKind::Knit, 0.49), Needle::BallPoint);
        assert_eq!(Needle::of(ClothKind::Knit, 0.5), Needle::Stretch);
    }

    #[test]
    fn a_second_row_stays_on_its_elastic() {
        for on in [3.0, 5.0, 6.0, 12.0] {
            let width = Sewing::three_step(on).width.expect("it swings");
            assert!(width.from <= width.to && width.to < on && width.to <= 6.0, "{on}: {width:?}");
        }
    }
}
