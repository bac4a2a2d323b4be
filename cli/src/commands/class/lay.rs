//! The whole class on its cloths: the pieces of everybody laid together, by cloth and width.

use super::entry::Entry;
use super::folders::free;
use crate::args::FileChoices;
use crate::commands::lays::{for_cutter, pairs};
use crate::commands::stop::Stop;
use crate::file_name::stem;
use crate::output::{Ready, begun};
use engine::drawing::{Drawing, Piece};
use engine::lay::{self, Cloth, Lay, LayError, Rules, Wanted};
use engine::quantity::Units;
use engine::words::Speech;
use export::choice::{Choice, Options};
use export::cutter::{Copies, Cutting};
use export::mark::Mark;
use export::table::ExportError;
use export::{dxf, hpgl, pdf, svg};
use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::num::NonZeroU32;
use std::path::Path;

/// So many people are laid together: a longer lay is cut in parts anyway, and takes ever longer to find.
const TOGETHER: usize = 24;

/// Some of the class on one cloth.
pub(crate) struct Laid {
    /// The pieces, each called after the person whose it is.
    pub(crate) drawing: Drawing,
    pub(crate) lay: Lay,
    /// Whose folders they are, in the order of the table.
    pub(crate) people: Vec<String>,
    /// What its files are called.
    name: String,
}

/// What is to be laid together.
struct Task<'a> {
    name: String,
    cloth: &'a Cloth,
    /// A person's folder and her pieces on this cloth.
    people: Vec<(&'a str, Vec<&'a Piece>)>,
}

/// Lays the pieces of everybody who is done.
///
/// # Errors
/// A piece that does not go on its cloth, with the person.
pub(super) fn all(name: &str, entries: &[Entry], by: (Rules, &Cutting), units: Units) -> Result<Vec<Laid>, Stop> {
    let tasks = tasks(entries);
    let bar = ProgressBar::new(0);
    if let Ok(style) = ProgressStyle::with_template("  laying the pieces {bar:40} {percent} %, {eta} to go") {
        bar.set_style(style);
    }
    let laid = tasks.par_iter().map(|task| one(name, task, by, &bar)).collect::<Result<Vec<_>, _>>();
    bar.finish_and_clear();
    laid.map_err(|error| {
        let (what, next) = Speech(units).not_laid(&error);
        Stop::plain(&what, next)
    })
}

/// What every file of a lay begins with.
const START: &str = "lay-";

/// Files of a lay of an earlier run that lie in the folder of a class still.
pub(super) fn older(into: &Path, written: &[Ready]) -> Vec<String> {
    begun(into, START, written)
}

fn tasks(entries: &[Entry]) -> Vec<Task<'_>> {
    let made = || entries.iter().filter_map(|e| Some((e.folder.as_str(), e.pair.as_ref()?)));
    let mut cloths: Vec<&Cloth> = Vec::new();
    for (cloth, _) in made().flat_map(|(_, pair)| &pair.cloth.pieces) {
        if !cloths.contains(&cloth) {
            cloths.push(cloth);
        }
    }
    let mut taken = BTreeSet::new();
    let mut tasks = Vec::new();
    for cloth in cloths {
        let own = made().map(|(folder, pair)| {
            let pieces = pair.cloth.pieces.iter().filter(|(on, _)| on == cloth).map(|(_, piece)| piece);
            (folder, pieces.collect::<Vec<_>>())
        });
        let people: Vec<(&str, Vec<&Piece>)> = own.filter(|(_, pieces)| !pieces.is_empty()).collect();
        for part in people.chunks(TOGETHER) {
            let name = free(&format!("{START}{}-{:.0}", stem(&cloth.name), cloth.width), &mut taken);
            tasks.push(Task { name, cloth, people: part.to_vec() });
        }
    }
    tasks
}

fn one(class: &str, task: &Task<'_>, (rules, cutting): (Rules, &Cutting), bar: &ProgressBar) -> Result<Laid, LayError> {
    let called = |(folder, pieces): &(&str, Vec<&Piece>)| {
        let named = |piece: &&Piece| Piece { name: format!("{folder}: {}", piece.name), ..(*piece).clone() };
        pieces.iter().map(named).collect::<Vec<_>>()
    };
    let pieces: Vec<Piece> = task.people.iter().flat_map(called).collect();
    let drawing = Drawing::of_pieces(&format!("{class}: {}", task.cloth.name), pieces);
    // A kerf too wide for a hollow is told by the files for cutters.
    let (taken, rules) = for_cutter(&drawing, cutting, rules).unwrap_or_else(|_| (drawing.clone(), rules));
    let both = drawing.pieces.iter().zip(&taken.pieces);
    let wanted: Vec<Wanted<'_>> = both
        .map(|(piece, taken)| Wanted { piece, taken, times: piece.quantity.saturating_mul(pairs(cutting.copies)) })
        .collect();
    let mut before = 0;
    let lay = lay::on_cloth(&wanted, task.cloth.clone(), rules, &mut |progress| {
        if before == 0 {
            bar.inc_length(progress.of);
        }
        bar.inc(progress.step - before);
        before = progress.step.max(1);
    })?;
    let people = u32::try_from(task.people.len()).unwrap_or(u32::MAX);
    let lay = Lay { pairs: people.saturating_mul(pairs(cutting.copies)), ..lay };
    let people = task.people.iter().map(|(folder, _)| (*folder).to_owned()).collect();
    Ok(Laid { drawing, lay, people, name: task.name.clone() })
}

/// How the name of a file ends, how it is known again, and what is in it.
type Written = (&'static str, Mark, Vec<u8>);

impl Laid {
    /// A picture, the same as a print, and files to cut by.
    pub(super) fn files(&self, choices: &FileChoices, options: &Options, units: Units) -> Result<Vec<Ready>, Stop> {
        let lays = vec![self.lay.clone()];
        let mut cut = options.cut.clone();
        if cut.cutting.copies == Copies::OnceEach {
            cut.cutting.copies = Copies::Pairs(NonZeroU32::MIN);
        }
        cut.cutting.lays.clone_from(&lays);
        let (drawing, cutting) = (&self.drawing, &cut.cutting);
        let made = || -> Result<Vec<Written>, ExportError> {
            let mut made = vec![
                (".svg", Mark::SvgComment, svg::lay(drawing, &lays, units).into_bytes()),
                (".pdf", Mark::PdfComment, pdf::lay(drawing, &lays, units, options.print.setup.paper)?),
                ("-cut.dxf", Mark::DxfComment, dxf::cut(drawing, &cut)?.bytes),
                ("-cut.svg", Mark::SvgComment, svg::cut(drawing, cutting, options.pen)?.into_bytes()),
            ];
            if choices.given.contains(&Choice::Plotter) {
                made.push((".plt", Mark::HpglLabel, hpgl::hpgl(drawing, cutting)?));
            }
            Ok(made)
        };
        let ready = |(ending, mark, bytes): Written| Ready { name: format!("{}{ending}", self.name), mark, bytes };
        let next = "look at the flags for cutters in `quarterpin class --help`";
        let made = made().map_err(|e| Stop::plain(&format!("{} cannot be made: {e}", self.name), next))?;
        Ok(made.into_iter().map(ready).collect())
    }
}
