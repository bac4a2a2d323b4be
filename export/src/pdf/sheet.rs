//! The paper: what of a page can be printed, and which part of it is its own.
//!
//! Neighbouring pages share a strip of the overlap's width. The line where they meet runs along
//! the middle of that strip, so a page's own part, its core, is the printable part less half the
//! overlap on each side. Everything is printed once in a core, and once more beside it.

use super::canvas::PT_PER_MM;
use super::error::PdfError;
use super::options::{PageSetup, Turn};
use engine::sheet::Paper;
use kurbo::{Rect, Size};

/// What is read beside the print, and not put together: a page of Letter where the print is on a
/// paper of that system, else of A4.
pub(crate) fn handout(paper: Paper) -> Size {
    let paper = match paper {
        Paper::Letter | Paper::Legal | Paper::Tabloid => Paper::Letter,
        _ => Paper::A4,
    };
    let (width, height) = paper.size_mm();
    Size::new(width, height.unwrap_or(width))
}

impl PageSetup {
    /// Is enough of the paper left to print on?
    ///
    /// # Errors
    /// [`PdfError`], as the print would have it.
    pub fn check(&self) -> Result<(), PdfError> {
        Sheet::new(self, Turn::Upright).map(|_| ())
    }
}

/// One page of paper, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sheet {
    /// The whole page.
    pub(super) paper: Size,
    pub(super) margin: f64,
    /// Half the overlap: from the edge of the printable part to the core.
    pub(super) strip: f64,
}

/// A page of a roll is no longer than this: readers stop at 14,400 points (ISO 32000-1, annex C).
pub(super) const LONGEST: f64 = 14_400.0 / PT_PER_MM;
/// Labels and match marks lie in the strip where it is as wide as this, mm.
const LEAST_STRIP: f64 = 2.5;
/// The least printable width and height that the first page can be set on, mm.
const LEAST: f64 = 110.0;

impl Sheet {
    /// A page of this paper, checked. A roll is as long as it may be.
    pub(super) fn new(setup: &PageSetup, turn: Turn) -> Result<Self, PdfError> {
        for (what, value) in [("margin", setup.margin_mm), ("overlap", setup.overlap_mm)] {
            if !value.is_finite() || value < 0.0 {
                return Err(PdfError::NotALength { what, value });
            }
        }
        let (width, height) = setup.paper.size_mm();
        let paper = match (height, turn) {
            (None, _) => Size::new(width, LONGEST),
            (Some(height), Turn::Upright) => Size::new(width, height),
            (Some(height), Turn::Level) => Size::new(height, width),
        };
        let sheet = Self { paper, margin: setup.margin_mm, strip: 0.5 * setup.overlap_mm };
        sheet.checked(setup)
    }

    fn checked(self, setup: &PageSetup) -> Result<Self, PdfError> {
        let paper = name(setup.paper);
        let printable = self.printable();
        let least = printable.width().min(printable.height());
        if least < LEAST {
            let most = 0.5 * (self.paper.width.min(self.paper.height) - LEAST);
            return Err(PdfError::MarginTooWide { paper, margin: self.margin, least: LEAST, most });
        }
        if setup.overlap_mm > 0.5 * least {
            return Err(PdfError::OverlapTooWide { paper, overlap: setup.overlap_mm, most: 0.5 * least });
        }
        Ok(self)
    }

    /// The part inside the margins, from the top left of the page.
    pub(super) fn printable(&self) -> Rect {
        Rect::from_origin_size((0.0, 0.0), self.paper).inset(-self.margin)
    }

    /// The page's own part.
    pub(super) fn core(&self) -> Rect {
        self.printable().inset(-self.strip)
    }

    /// Has the strip at the edge room for labels and whole match marks?
    pub(super) fn has_room_in_strip(&self) -> bool {
        self.strip >= LEAST_STRIP
    }

    /// One page whose core is as large as so many of this one's.
    pub(super) fn joined(mut self, columns: usize, rows: usize) -> Self {
        let core = self.core().size();
        let beside = 2.0 * (self.margin + self.strip);
        self.paper = Size::new(columns as f64 * core.width + beside, rows as f64 * core.height + beside);
        self
    }

    /// The same page, only so high that its core has this height.
    pub(super) fn cut_to(mut self, core: f64) -> Self {
        self.paper.height = core + 2.0 * (self.margin + self.strip);
        self
    }
}

/// The paper as a person calls it.
pub(super) fn name(paper: Paper) -> String {
    let named = Paper::NAMED.iter().find(|(_, p)| *p == paper);
    named.map_or_else(|| format!("a roll {} mm wide", paper.size_mm().0), |(name, _)| (*name).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(margin_mm: f64, overlap_mm: f64) -> PageSetup {
        PageSetup { paper: Paper::A4, margin_mm, overlap_mm }
    }

    #[test]
    fn a_page_keeps_margin_and_strip_on_every_side() {
        let sheet = Sheet::new(&setup(10.0, 10.0), Turn::Upright).unwrap();
        assert_eq!(sheet.core(), Rect::new(15.0, 15.0, 195.0, 282.0));
    }

    #[test]
    fn a_bad_setup_says_what_to_change() {
        let refused = |m, o| Sheet::new(&setup(m, o), Turn::Upright).unwrap_err().to_string();
        assert!(refused(60.0, 10.0).contains("at most 50.0 mm"));
        assert!(refused(10.0, 120.0).contains("at most 95.0 mm"));
        assert!(refused(f64::NAN, 10.0).contains("margin"));
        assert!(refused(10.0, -1.0).contains("overlap"));
    }
}
