//! How every kind of line looks: one table. Kinds differ by dash and weight, so that a black and
//! white print can be read; grey only sets what helps apart from what is cut or sewn.

use engine::drawing::Role;

/// Sizes of text, mm: the name on a first page, headings and what is looked for, everything else.
pub(crate) const TITLE: f64 = 7.0;
pub(crate) const HEADING: f64 = 4.2;
pub(crate) const BODY: f64 = 3.2;

/// How a line is drawn. Millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct LineStyle {
    /// Width of the stroke.
    pub(crate) width: f64,
    /// On, off, on, …; empty for a solid line.
    pub(crate) dash: &'static [f64],
    /// 0 black … 1 white.
    pub(crate) grey: f64,
}

/// Every kind of line in the print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Pen {
    /// A line of a piece.
    Role(Role),
    /// The outline of the second of two garments.
    Second,
    /// The cut line of a size among others.
    Size(usize),
    /// The centre line that lies on the fold of the cloth.
    Fold,
    /// Matching marks of a piece.
    Notch,
    /// Grain line and direction of greatest stretch.
    Arrow,
    /// Where two tiles meet.
    Join,
    /// The marks that bring two tiles together.
    Match,
    /// The outline of the test squares, and rules of the first page.
    Exact,
    /// Pieces in the page map.
    Map,
    /// Pages in the page map, and rules between rows.
    Grid,
    /// A body.
    Body,
    /// A tape on a body.
    Tape,
    /// A ruler held upright beside a body.
    Ruler,
}

impl Pen {
    /// The outlines of two garments that are shown together.
    pub(crate) const OF_GARMENTS: [Self; 2] = [Self::Role(Role::Cut), Self::Second];

    /// Its look.
    pub(crate) const fn style(self) -> LineStyle {
        const fn line(width: f64, dash: &'static [f64], grey: f64) -> LineStyle {
            LineStyle { width, dash, grey }
        }
        match self {
            Self::Role(Role::Cut) => line(0.5, &[], 0.0),
            Self::Role(Role::Sewing) => line(0.3, &[4.0, 2.0], 0.0),
            Self::Role(Role::SecondRow) => line(0.4, &[0.4, 1.6], 0.0),
            Self::Role(Role::Finished) => line(0.18, &[5.0, 1.5, 0.6, 1.5], 0.25),
            Self::Second => line(0.4, &[2.5, 1.5], 0.0),
            Self::Size(n) => line(0.4, SIZES[n % SIZES.len()], 0.0),
            Self::Fold => line(0.6, &[9.0, 2.0, 1.5, 2.0], 0.0),
            Self::Notch => line(0.5, &[], 0.0),
            Self::Arrow => line(0.25, &[], 0.0),
            Self::Join => line(0.15, &[2.0, 1.0], 0.35),
            Self::Match => line(0.15, &[], 0.0),
            Self::Exact => line(0.15, &[], 0.0),
            Self::Map => line(0.3, &[], 0.0),
            Self::Grid => line(0.2, &[], 0.45),
            Self::Body => line(0.3, &[], 0.35),
            Self::Tape => line(0.45, &[1.8, 0.9], 0.0),
            Self::Ruler => line(0.7, &[], 0.0),
        }
    }
}

/// How the cut lines of sizes that lie over each other are dashed, the first size first: neighbours differ
/// most. More sizes than these cannot be told apart.
pub(crate) const SIZES: [&[f64]; 12] = [
    &[],
    &[6.0, 2.0],
    &[1.5, 1.2],
    &[9.0, 1.5, 1.5, 1.5],
    &[3.0, 3.0],
    &[12.0, 2.0, 0.6, 2.0],
    &[0.6, 1.4],
    &[14.0, 4.0],
    &[5.0, 1.2, 0.6, 1.2, 0.6, 1.2],
    &[2.5, 1.0, 2.5, 4.0],
    &[10.0, 1.5, 3.0, 1.5, 3.0, 1.5],
    &[4.0, 1.0, 0.6, 1.0],
];

/// The lines that the first page explains, with their words.
pub(crate) const LEGEND: [(Pen, &str); 6] = [
    (Pen::Role(Role::Cut), "cut line: the outer solid line"),
    (Pen::Fold, "fold: lay it on the fold of the cloth, do not cut"),
    (Pen::Role(Role::Sewing), "sewing line: the first row of stitches"),
    (Pen::Role(Role::SecondRow), "second row of stitches"),
    (Pen::Role(Role::Finished), "finished edge: where the garment ends"),
    (Pen::Join, "where two pages meet"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_piece_line_can_be_told_apart_without_colour() {
        let pens = LEGEND.map(|(pen, _)| pen.style());
        for (i, a) in pens.iter().enumerate() {
            for b in &pens[i + 1..] {
                assert_ne!(a.dash, b.dash);
            }
        }
    }

    #[test]
    fn no_two_sizes_are_dashed_alike() {
        for (i, dashes) in SIZES.iter().enumerate() {
            assert!(!SIZES[i + 1..].contains(dashes) && dashes.len() % 2 == 0, "{dashes:?}");
        }
    }
}
