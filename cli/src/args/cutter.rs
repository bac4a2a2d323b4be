//! What a person may type about the files for cutters and plotters.

use super::words::{number, words};
use clap::Args;
use export::cutter::{Copies, CutExtent, Cutting, Lines, MOST_PAIRS, Notches, Start, Turns};
use export::dxf::{Curves, Options, Version};
use export::svg::PenLines;
use std::num::NonZeroU32;

/// The flags.
#[derive(Debug, Args)]
#[command(next_help_heading = "Cutter and plotter files (lengths in mm)")]
pub(super) struct CutterArgs {
    /// Version of the DXF to cut by
    #[arg(long, ignore_case = true, default_value = "R2000", value_parser = words(&Version::NAMED))]
    dxf_version: Version,
    /// Curves as chords, as arcs (far fewer parts) or as exact splines
    #[arg(long, default_value = "polylines", value_parser = words(&Curves::NAMED))]
    curves: Curves,
    /// How far chords and arcs may stray from the curve, from 0.005 to 1
    #[arg(long, value_name = "MM", default_value_t = 0.05, value_parser = number, allow_negative_numbers = true)]
    tolerance: f64,
    /// Width that the tool takes away, from 0 to 3; outlines are grown by half of it
    #[arg(long, value_name = "MM", default_value_t = 0.0, value_parser = number, allow_negative_numbers = true)]
    kerf: f64,
    /// Notches as pen marks, as short cuts, or cut out as a V; the file to exchange has slits or Vs
    #[arg(long, default_value = "marks", value_parser = words(&Notches::NAMED))]
    notches: Notches,
    /// Symmetric pieces as halves, for templates
    #[arg(long)]
    halves: bool,
    /// Every piece as often as so many pairs of knickers need it, up to 200
    #[arg(long, value_name = "N", value_parser = pairs)]
    pairs: Option<NonZeroU32>,
    /// Width that the cutter can use, from 50 to 20000; pieces are set apart on it
    #[arg(long, value_name = "MM", value_parser = number, allow_negative_numbers = true)]
    cut_width: Option<f64>,
    /// Length that the cutter can use, from 50 to 20000; what has no room there lies on a further bed,
    /// drawn below, and with --lay a longer lay is refused
    #[arg(long, value_name = "MM", value_parser = number, allow_negative_numbers = true)]
    cut_length: Option<f64>,
    /// Draw this bed alone, from 1, where the pieces take several
    #[arg(long, value_name = "N", value_parser = whole)]
    bed: Option<NonZeroU32>,
    /// Turn pieces by a quarter where they lie better: templates of card, which has no grain; never cloth
    #[arg(long)]
    quarter_turns: bool,
    /// Leave out every line that is not cut, and all text: for a machine with one tool. Marks of notches
    /// are left out with them, slits and Vs stay
    #[arg(long, conflicts_with = "pen_lines")]
    cut_alone: bool,
    /// Start each outline in the middle of its longest edge
    #[arg(long)]
    start_off_corner: bool,
    /// Draw sewing lines and arrows for a pen into NAME-cut.svg; a machine that is told nothing cuts them
    #[arg(long)]
    pen_lines: bool,
    /// Write NAME.plt as well: HP-GL for pen plotters and older cutters, X across the width and Y along it
    #[arg(long)]
    #[allow(dead_code, reason = "what counts is whether it was typed")]
    plotter: bool,
}

fn whole(typed: &str) -> Result<NonZeroU32, String> {
    typed.trim().parse().map_err(|_| "give a whole number, from 1".to_owned())
}

fn pairs(typed: &str) -> Result<NonZeroU32, String> {
    let number = whole(typed).ok().filter(|number| number.get() <= MOST_PAIRS);
    number.ok_or_else(|| format!("give a whole number, from 1 to {MOST_PAIRS}"))
}

impl CutterArgs {
    pub(super) fn pen(&self) -> PenLines {
        if self.pen_lines { PenLines::Drawn } else { PenLines::Left }
    }

    pub(super) fn meaning(self) -> Options {
        let cutting = Cutting {
            tolerance: self.tolerance,
            extent: if self.halves { CutExtent::Half } else { CutExtent::Full },
            kerf: self.kerf,
            notches: self.notches,
            copies: self.pairs.map_or(Copies::OnceEach, Copies::Pairs),
            sheet_width: self.cut_width,
            sheet_length: self.cut_length,
            bed: self.bed,
            turns: if self.quarter_turns { Turns::ByQuarters } else { Turns::AsDrawn },
            lines: if self.cut_alone { Lines::CutAlone } else { Lines::All },
            gap: None,
            start: if self.start_off_corner { Start::AwayFromCorners } else { Start::AsDrawn },
            lays: Vec::new(),
        };
        Options { version: self.dxf_version, curves: self.curves, cutting }
    }
}
