//! The pieces laid on the cloth, with a progress bar where somebody sees it.

use super::reading::Read;
use super::stop::Stop;
use crate::args::FileChoices;
use engine::drawing::Drawing;
use engine::lay::{self, Lay, LayError, Progress, Rules};
use engine::quantity::Length;
use engine::words::Speech;
use export::choice::Choice;
use export::cutter::{self, Copies, CutterError, Cutting};
use indicatif::{ProgressBar, ProgressStyle};

/// A garment may have no lay: the cloth's width is not known, or a piece does not go on it.
pub(super) type Untold = Option<LayError>;

/// How the pieces of a garment lie.
#[derive(Default)]
pub(super) struct Found {
    pub(super) lays: Vec<Lay>,
    /// What stands against it where nobody asked for it.
    pub(super) untold: Untold,
}

/// Lays the pieces of a garment, as many pairs as are chosen.
pub(super) fn find(read: &Read, choices: &FileChoices) -> Result<Found, Stop> {
    let is_given = |choice| choices.given.contains(&choice);
    let is_asked = [Choice::Lay, Choice::Gap, Choice::LaySteps].into_iter().any(is_given);
    let cutting = &choices.cut.cutting;
    let mut fabric = read.sheet.fabric.clone();
    if let Some(width) = cutting.sheet_width.filter(|_| is_given(Choice::Lay)) {
        fabric.width = Some(Length::from_mm(width));
    }
    if fabric.width.is_none() && is_asked {
        let next = "write fabric.width into the sheet, or give --cut-width together with --lay";
        return Err(Stop::plain("the width of the cloth is not known, so that nothing can be laid on it", next));
    }
    // What makes no sense is told by the files for cutters.
    if cutting.check().is_err() {
        return Ok(Found::default());
    }
    let drawing = &read.made.drawing;
    let (taken, rules) = match is_given(Choice::Lay).then(|| for_cutter(drawing, cutting, choices.lay)) {
        None => (drawing.clone(), choices.lay),
        Some(Ok(by_cutter)) => by_cutter,
        // Likewise.
        Some(Err(_)) => return Ok(Found::default()),
    };
    let mut bar: Option<ProgressBar> = None;
    let laid = lay::of_pairs(drawing, &taken, &fabric, pairs(cutting.copies), rules, &mut |progress| {
        if progress.of > LONG {
            tell(bar.get_or_insert_with(new_bar), progress);
        }
    });
    if let Some(bar) = bar {
        bar.finish_and_clear();
    }
    match laid {
        Ok(lays) => Ok(Found { lays, untold: None }),
        Err(error) if is_asked => {
            let (what, next) = Speech(read.sheet.units).not_laid(&error);
            let by_flag = "give a larger --cut-width, or none: then the sheet's width of cloth holds";
            Err(Stop::plain(&what, if is_given(Choice::CutWidth) { by_flag } else { next }))
        }
        Err(error) => Ok(Found { lays: Vec::new(), untold: Some(error) }),
    }
}

/// What a lay that files for cutters follow is laid by: the pieces as the tool takes them out, and a gap
/// in which their lines have room.
pub(crate) fn for_cutter(drawing: &Drawing, cutting: &Cutting, rules: Rules) -> Result<(Drawing, Rules), CutterError> {
    Ok((cutter::taken(drawing, cutting)?, Rules { gap: cutting.gap_of_lay(rules.gap), ..rules }))
}

/// So many pairs are laid.
pub(crate) const fn pairs(copies: Copies) -> u32 {
    match copies {
        Copies::OnceEach => 1,
        Copies::Pairs(pairs) => pairs.get(),
    }
}

/// A search of so many steps takes a moment.
const LONG: u64 = 5_000;

/// Seen on a terminal alone.
fn new_bar() -> ProgressBar {
    let style = ProgressStyle::with_template("laying the pieces {wide_bar} {percent} % {msg}");
    ProgressBar::new(1).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
}

fn tell(bar: &ProgressBar, progress: Progress) {
    bar.set_length(progress.of);
    bar.set_position(progress.step);
    bar.set_message(format!("{:.0} mm", progress.length));
}
