//! What a person can choose about the files, and which files have a use for it.

use crate::dxf::{self, Curves};
use crate::pdf;
use crate::svg::PenLines;
use engine::lay::Rules;
use engine::sheet::Paper;

/// Everything that is chosen, each exporter's own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Options {
    /// Of the print.
    pub print: pdf::Options,
    /// Of the files for cutters and plotters.
    pub cut: dxf::Options,
    /// Of the lay.
    pub lay: Rules,
    /// Of the file for home cutting machines alone.
    pub pen: PenLines,
    /// Which of the files.
    pub only: Only,
    /// Of the work card: with the measurements?
    pub measures: Measures,
}

/// Which of the files are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Only {
    /// All of them.
    #[default]
    All,
    /// All but the work card.
    Pattern,
    /// The work card alone.
    Card,
}

impl Only {
    /// With the words for them.
    pub const NAMED: [(&'static str, Self); 3] = [("all", Self::All), ("pattern", Self::Pattern), ("card", Self::Card)];
}

/// Does the work card tell the measurements of the body?
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Measures {
    /// It is handed on: no.
    #[default]
    Left,
    /// It stays with the maker: yes.
    Told,
}

/// One choice; on the command line a flag of the same name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// The paper to print on.
    Paper,
    /// What is left free on every side of a page.
    Margin,
    /// How far two pages lie over each other.
    Overlap,
    /// Which way round the pages are.
    Turn,
    /// Pages of its own for every piece.
    KeepApart,
    /// One large page in place of many.
    OnePage,
    /// The version of the DXF.
    DxfVersion,
    /// Chords, arcs or splines.
    Curves,
    /// How far chords and arcs stray from the curve.
    Tolerance,
    /// The width that the tool takes away.
    Kerf,
    /// Marks, slits or Vs.
    Notches,
    /// Symmetric pieces as halves.
    Halves,
    /// Every piece as often as so many pairs need it.
    Pairs,
    /// The width that the cutter can use.
    CutWidth,
    /// The length that it can use.
    CutLength,
    /// One bed of several.
    Bed,
    /// Pieces turned by a quarter where they lie better.
    QuarterTurns,
    /// Only the lines that are cut.
    CutAlone,
    /// Outlines begin away from corners.
    StartOffCorner,
    /// Pieces as they lie on the cloth.
    Lay,
    /// Between two pieces on the cloth.
    Gap,
    /// How long a short lay is looked for.
    LaySteps,
    /// Lines for a pen inside the pieces.
    PenLines,
    /// A file for pen plotters as well.
    Plotter,
    /// Some of the files alone.
    Only,
    /// The measurements on the work card.
    Measures,
}

impl Choice {
    /// Every choice with its name.
    pub const NAMED: [(&'static str, Self); 26] = [
        ("paper", Self::Paper),
        ("margin", Self::Margin),
        ("overlap", Self::Overlap),
        ("turn", Self::Turn),
        ("keep-apart", Self::KeepApart),
        ("one-page", Self::OnePage),
        ("dxf-version", Self::DxfVersion),
        ("curves", Self::Curves),
        ("tolerance", Self::Tolerance),
        ("kerf", Self::Kerf),
        ("notches", Self::Notches),
        ("halves", Self::Halves),
        ("pairs", Self::Pairs),
        ("cut-width", Self::CutWidth),
        ("cut-length", Self::CutLength),
        ("bed", Self::Bed),
        ("quarter-turns", Self::QuarterTurns),
        ("cut-alone", Self::CutAlone),
        ("start-off-corner", Self::StartOffCorner),
        ("lay", Self::Lay),
        ("gap", Self::Gap),
        ("lay-steps", Self::LaySteps),
        ("pen-lines", Self::PenLines),
        ("plotter", Self::Plotter),
        ("only", Self::Only),
        ("measures", Self::Measures),
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        // Every choice is in the table: a test holds it.
        Self::NAMED.iter().find(|(_, choice)| *choice == self).map_or("", |(name, _)| name)
    }
}

/// A choice that a file follows.
#[derive(Clone, Copy, Debug)]
pub struct Follows {
    /// Which.
    pub choice: Choice,
    /// Where it has no use for it all the same.
    pub unless: Option<&'static Moot>,
}

/// A case in which a file has no use for a choice.
#[derive(Debug)]
pub struct Moot {
    /// Is it the case?
    pub holds: fn(&[Choice], &Options) -> bool,
    /// Why the choice changes nothing then.
    pub because: &'static str,
    /// What would have to be chosen in its place.
    pub instead: &'static str,
}

/// Followed whatever else is chosen.
pub(crate) const fn always(choice: Choice) -> Follows {
    Follows { choice, unless: None }
}

/// Followed but for one case.
pub(crate) const fn unless(choice: Choice, case: &'static Moot) -> Follows {
    Follows { choice, unless: Some(case) }
}

/// A roll has one way round.
pub(crate) static ROLL: Moot = Moot {
    holds: |_, options| matches!(options.print.setup.paper, Paper::Roll(_)),
    because: "a roll cannot be turned",
    instead: "--paper A4, or another sheet",
};

/// Boxes lie as far apart as they always do.
pub(crate) static BOXES: Moot = Moot {
    holds: |given, _| !given.contains(&Choice::Lay),
    because: "pieces are set apart by their boxes",
    instead: "--lay",
};

/// Without an end, a row has room for everything.
pub(crate) static ROW: Moot = Moot {
    holds: |given, _| !given.contains(&Choice::CutWidth) && !given.contains(&Choice::Lay),
    because: "pieces lie in one row",
    instead: "--cut-width",
};

/// There is one bed, or none.
pub(crate) static ENDLESS: Moot = Moot {
    holds: |given, _| {
        [Choice::CutWidth, Choice::CutLength].iter().any(|it| !given.contains(it)) || given.contains(&Choice::Lay)
    },
    because: "there is one bed",
    instead: "--cut-width and --cut-length, and without --lay",
};

/// Boxes on a width are turned, nothing else.
pub(crate) static KEPT: Moot = Moot {
    holds: |given, _| !given.contains(&Choice::CutWidth) || given.contains(&Choice::Lay),
    because: "pieces are turned only where they are set apart on a width: cloth has a grain",
    instead: "--cut-width, and without --lay",
};

/// The card and the record tell the cloth in any case, by its own width.
pub(crate) static TOLD_ANYWAY: Moot = Moot {
    holds: |given, _| !given.contains(&Choice::CutWidth) && !given.contains(&Choice::Kerf),
    because: "the cloth is told without it",
    instead: "--cut-width or --kerf",
};

/// Splines stray from nothing.
pub(crate) static EXACT: Moot = Moot {
    holds: |_, options| options.cut.curves == Curves::Splines,
    because: "splines are exactly the curve",
    instead: "--curves polylines or arcs",
};

#[cfg(test)]
mod tests {
    use super::Choice;

    #[test]
    fn every_choice_has_a_name_of_its_own() {
        for (i, (name, choice)) in Choice::NAMED.iter().enumerate() {
            assert_eq!(choice.name(), *name);
            assert_eq!(*choice as usize, i, "in the order of the choices, so that none is left out");
        }
        assert_eq!(Choice::Measures as usize + 1, Choice::NAMED.len());
    }
}
