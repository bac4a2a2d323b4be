//! What can be asked of a print.

use engine::sheet::{Paper, Print};

/// The paper and how it is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PageSetup {
    /// The paper in the printer.
    pub paper: Paper,
    /// Left free on every side, mm.
    pub margin_mm: f64,
    /// Width of the strip that neighbouring pages share, mm; 0 lays them edge to edge.
    pub overlap_mm: f64,
}

/// Margin and overlap where nothing is said, mm: home printers leave 5 to 10 mm white, and a
/// strip of a finger's width can be glued (common practice).
const CENTIMETRE: f64 = 10.0;

impl PageSetup {
    /// As a sheet says it, else the usual.
    pub fn of(print: &Print) -> Self {
        let usual = Self::default();
        Self {
            paper: print.paper.unwrap_or(usual.paper),
            margin_mm: print.margin.map_or(usual.margin_mm, |l| l.mm()),
            overlap_mm: print.overlap.map_or(usual.overlap_mm, |l| l.mm()),
        }
    }
}

impl Default for PageSetup {
    /// A4, with a centimetre of margin and of overlap.
    fn default() -> Self {
        Self { paper: Paper::A4, margin_mm: CENTIMETRE, overlap_mm: CENTIMETRE }
    }
}

/// How a page is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Turn {
    /// Higher than wide.
    Upright,
    /// Wider than high.
    Level,
}

/// Which way round the pages are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Turning {
    /// Whichever takes fewer pages.
    #[default]
    Fewest,
    /// Higher than wide.
    Portrait,
    /// Wider than high.
    Landscape,
}

impl Turning {
    /// With the words for them.
    pub const NAMED: [(&'static str, Self); 3] =
        [("auto", Self::Fewest), ("portrait", Self::Portrait), ("landscape", Self::Landscape)];

    /// A roll cannot be turned.
    pub(super) const fn turns(self, paper: Paper) -> &'static [Turn] {
        match (paper, self) {
            (Paper::Roll(_), _) | (_, Self::Portrait) => &[Turn::Upright],
            (_, Self::Landscape) => &[Turn::Level],
            (_, Self::Fewest) => &[Turn::Upright, Turn::Level],
        }
    }
}

/// May two pieces share a page?
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sharing {
    /// Wherever that saves paper.
    #[default]
    Shared,
    /// Every piece has pages of its own.
    Apart,
}

/// How the pattern is parted into pages.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pages {
    /// Pages of the paper's size, to be put together.
    #[default]
    Tiles,
    /// What those pages make together, as one large page.
    One,
}

/// How a pattern is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// The paper and how it is used.
    pub setup: PageSetup,
    /// Which way round the pages are.
    pub turning: Turning,
    /// May two pieces share a page?
    pub sharing: Sharing,
    /// How the pattern is parted into pages.
    pub pages: Pages,
}

impl From<PageSetup> for Options {
    /// With everything else as it is by itself.
    fn from(setup: PageSetup) -> Self {
        Self { setup, ..Self::default() }
    }
}
