//! What can be chosen for a cutter.

use crate::number::decimal;
use engine::lay::Lay;
use std::num::NonZeroU32;

/// A choice that was not made.
const NONE: &str = "none";

/// Half pieces as they are drawn, or all of each.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CutExtent {
    /// Every piece whole.
    #[default]
    Full,
    /// Symmetric pieces as halves: templates to lay on the fold of the cloth.
    Half,
}

/// How matching marks are made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Notches {
    /// Drawn by a pen, on a layer that is not cut.
    #[default]
    Marks,
    /// Short cuts into the allowance, on a layer of their own.
    Slits,
    /// Cut out of the outline as a V.
    Vees,
}

impl Notches {
    /// Every way with its name.
    pub const NAMED: [(&'static str, Self); 3] = [("marks", Self::Marks), ("slits", Self::Slits), ("vees", Self::Vees)];

    /// As it stands in the record of choices.
    pub(crate) fn in_force(self) -> (&'static str, String) {
        ("notches", named(&Self::NAMED, self).to_owned())
    }
}

/// The name of a value in its table; every value is in it.
pub(crate) fn named<T: PartialEq>(table: &[(&'static str, T)], value: T) -> &'static str {
    table.iter().find(|(_, it)| *it == value).map_or("", |(name, _)| name)
}

/// The record of the choices that made a file, for whoever finds it later; lengths in mm.
pub(crate) fn in_force(choices: &[(&str, String)]) -> String {
    let each: Vec<String> = choices.iter().map(|(name, value)| format!("{name}={value}")).collect();
    format!("choices: {}", each.join(" "))
}

/// How often each piece is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Copies {
    /// Once; how many to cut stands beside it.
    #[default]
    OnceEach,
    /// All the pieces of so many pairs of knickers.
    Pairs(NonZeroU32),
}

/// Where an outline starts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Start {
    /// As drawn: from the top edge at the centre, the gusset from its front seam.
    #[default]
    AsDrawn,
    /// In the middle of its longest edge, where a burn or a tail of the blade does least harm.
    AwayFromCorners,
}

/// Which way round a piece lies.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Turns {
    /// As drawn: cloth has a grain and a stretch.
    #[default]
    AsDrawn,
    /// By a quarter where it lies better: card and board have no grain.
    ByQuarters,
}

/// Which lines there are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lines {
    /// All, each kind on its own layer.
    #[default]
    All,
    /// Only what is cut, and no text: for a machine with one tool.
    CutAlone,
}

/// Everything that can be chosen, whatever the file.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// How far what is drawn may stray from the true curve, mm (Hausdorff distance).
    pub tolerance: f64,
    /// Half or full pieces.
    pub extent: CutExtent,
    /// Width of what the tool takes away, mm: outlines are grown by half of it.
    pub kerf: f64,
    /// How notches are made.
    pub notches: Notches,
    /// How often each piece is drawn.
    pub copies: Copies,
    /// The width that can be used, mm; without it all pieces lie in one row.
    pub sheet_width: Option<f64>,
    /// The length of it, mm; what does not go on it comes on a further one.
    pub sheet_length: Option<f64>,
    /// The one of them that is wanted, from 1; without it all are drawn.
    pub bed: Option<NonZeroU32>,
    /// May pieces be turned on it?
    pub turns: Turns,
    /// Which lines there are.
    pub lines: Lines,
    /// Between the boxes of pieces, mm; without it as far as is usual.
    pub gap: Option<f64>,
    /// Where outlines start.
    pub start: Start,
    /// Where whole pieces lie on the cloth; without it they are set apart by their boxes.
    pub lays: Vec<Lay>,
}

impl Default for Cutting {
    /// Full pieces, marks that are not cut, no kerf, chords within 0.05 mm.
    fn default() -> Self {
        Self {
            tolerance: 0.05,
            extent: CutExtent::Full,
            kerf: 0.0,
            notches: Notches::Marks,
            copies: Copies::OnceEach,
            sheet_width: None,
            sheet_length: None,
            bed: None,
            turns: Turns::AsDrawn,
            lines: Lines::All,
            gap: None,
            start: Start::AsDrawn,
            lays: Vec::new(),
        }
    }
}

/// Below, files only grow; above, it shows. mm.
const TOLERANCES: std::ops::RangeInclusive<f64> = 0.005..=1.0;

/// Lasers take away 0.05 to 0.3 mm, milling cutters up to 3 (common practice). mm.
const KERFS: std::ops::RangeInclusive<f64> = 0.0..=3.0;

/// mm.
const LENGTHS: std::ops::RangeInclusive<f64> = 50.0..=20_000.0;

/// A run of more pairs than this is a mistake of typing.
pub const MOST_PAIRS: u32 = 200;

/// A choice that makes no sense.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum OptionError {
    /// A tolerance out of range.
    #[error("a tolerance of {0} mm makes no sense: give one from 0.005 to 1 mm")]
    Tolerance(f64),
    /// A kerf out of range.
    #[error("a kerf of {0} mm makes no sense: give the width of the cut, from 0 to 3 mm")]
    Kerf(f64),
    /// A sheet width out of range.
    #[error("a width of {0} mm makes no sense: give the width that the cutter can use in mm, from 50 to 20000")]
    Width(f64),
    /// A sheet length out of range.
    #[error("a length of {0} mm makes no sense: give the length that the cutter can use in mm, from 50 to 20000")]
    Length(f64),
    /// A lay that does not go on the cutter.
    #[error(
        "the lay is {0:.0} mm long and the length to cut on {1:.0} mm: leave out --lay, so that pieces go on several beds, or lay fewer pairs at a time, or leave out --cut-length where the cloth is fed on"
    )]
    LongLay(f64, f64),
    /// A bed beyond the last.
    #[error(
        "there is no bed {0}: the pieces take {1}, so give --bed with a number up to that, or leave it out for all"
    )]
    NoBed(u32, usize),
    /// Too many pairs.
    #[error("{0} pairs in one file are too many: give at most 200")]
    Pairs(u32),
    /// Halves on a cloth.
    #[error("halves are templates and cannot be laid on the cloth: leave out --halves or --lay")]
    LaidHalves,
    /// The oldest version has no splines.
    #[error("R12 has no splines: take curves as polylines or arcs, or the version R2000")]
    SplinesInR12,
}

impl Cutting {
    /// Refuses what makes no sense.
    ///
    /// # Errors
    /// The first [`OptionError`].
    pub fn check(&self) -> Result<(), OptionError> {
        if !TOLERANCES.contains(&self.tolerance) {
            return Err(OptionError::Tolerance(self.tolerance));
        }
        if !KERFS.contains(&self.kerf) {
            return Err(OptionError::Kerf(self.kerf));
        }
        if !self.lays.is_empty() && self.extent == CutExtent::Half {
            return Err(OptionError::LaidHalves);
        }
        if let Some(width) = self.sheet_width.filter(|width| !LENGTHS.contains(width)) {
            return Err(OptionError::Width(width));
        }
        if let Some(length) = self.sheet_length {
            if !LENGTHS.contains(&length) {
                return Err(OptionError::Length(length));
            }
            if let Some(lay) = self.lays.iter().find(|lay| lay.length > length) {
                return Err(OptionError::LongLay(lay.length.ceil(), length));
            }
        }
        match self.copies {
            Copies::Pairs(pairs) if pairs.get() > MOST_PAIRS => Err(OptionError::Pairs(pairs.get())),
            _ => Ok(()),
        }
    }

    /// Every choice but the tolerance, which not every format has a use for, by its name.
    pub(crate) fn in_force(&self) -> Vec<(&'static str, String)> {
        let yes_no = |is: bool| if is { "yes" } else { "no" }.to_owned();
        let length = |mm: Option<f64>| mm.map_or_else(|| NONE.to_owned(), |mm| decimal(mm, 3));
        let pairs = match self.copies {
            Copies::OnceEach => NONE.to_owned(),
            Copies::Pairs(pairs) => pairs.to_string(),
        };
        vec![
            ("kerf", decimal(self.kerf, 3)),
            self.notches.in_force(),
            ("halves", yes_no(self.extent == CutExtent::Half)),
            ("pairs", pairs),
            ("cut-width", length(self.sheet_width)),
            ("cut-length", length(self.sheet_length)),
            ("bed", self.bed.map_or_else(|| "all".to_owned(), |n| n.to_string())),
            ("quarter-turns", yes_no(self.turns == Turns::ByQuarters)),
            ("cut-alone", yes_no(self.lines == Lines::CutAlone)),
            ("start-off-corner", yes_no(self.start == Start::AwayFromCorners)),
            ("lay", yes_no(!self.lays.is_empty())),
            ("gap", self.gap_in_force()),
            ("lay-steps", self.of_lay(|lay| lay.steps.to_string())),
        ]
    }

    /// Of the lay, else of the boxes.
    fn gap_in_force(&self) -> String {
        let gap = self.lays.first().map(|lay| lay.gap).or(self.gap);
        gap.map_or_else(|| NONE.to_owned(), |mm| decimal(mm, 3))
    }

    /// The least distance that a lay keeps between two pieces, mm: what is asked for, but no less than
    /// lines that stray from their curves need so that none crosses another.
    pub fn gap_of_lay(&self, asked: f64) -> f64 {
        asked.max(2.0 * self.tolerance)
    }

    /// What all lays have in common.
    fn of_lay(&self, told: impl Fn(&Lay) -> String) -> String {
        self.lays.first().map_or_else(|| NONE.to_owned(), told)
    }

    /// The tolerance likewise.
    pub(crate) fn tolerance_in_force(&self) -> (&'static str, String) {
        ("tolerance", decimal(self.tolerance, 4))
    }

    /// How often a piece is drawn of which a pair needs so many.
    pub(super) fn times(&self, quantity: u32) -> u32 {
        match self.copies {
            Copies::OnceEach => 1,
            Copies::Pairs(pairs) => quantity.saturating_mul(pairs.get()),
        }
    }
}
