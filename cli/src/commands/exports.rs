//! The files of a pattern: a walk along the table of exporters.

use super::lays::{self, Untold};
use super::reading::Read;
use super::stop::Stop;
use crate::args::FileChoices;
use crate::output::{Ready, stem};
use engine::lay::Lay;
use export::choice::{Choice, Options};
use export::cutter::{Copies, Cutting};
use export::dxf::CutReport;
use export::table::{self, ExportError, Exporter, Made, Pattern};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::num::NonZeroU32;

/// Every file of a pattern, made but not yet written.
pub(super) struct Files {
    pub(super) ready: Vec<Ready>,
    /// What each is for.
    pub(super) what: Vec<&'static str>,
    /// About the file to cut by.
    pub(super) cut: Option<CutReport>,
    /// Why the pieces could not be laid on the cloth, where nobody asked for it.
    pub(super) untold: Untold,
}

/// Makes every file, all at once: none needs another. Meanwhile the pieces are laid on the cloth, and the few
/// files that tell of it are made; how they lie is among what the garment is from then on.
pub(super) fn all(read: &mut Read, choices: &FileChoices) -> Result<Files, Stop> {
    let options = choices.options(&read.sheet.print);
    table::check(&choices.given, &options).map_err(|e| Stop::plain(&e.to_string(), &e.next()))?;
    let exporters = table::written(&choices.given, &options);
    let waits = |e: &&Exporter| e.waits_for_lay(&choices.given);
    let (waiting, others): (Vec<&Exporter>, Vec<&Exporter>) = exporters.iter().copied().partition(waits);
    let laid = || on_cloth(waiting, read, choices, &options);
    let (mut made, laid) = rayon::join(|| at_once(others, &read.made, &options), laid);
    let laid = laid?;
    read.made = laid.garment;
    made.extend(laid.files);
    let stem = stem(&read.sheet.name);
    let mut files = Files { ready: Vec::new(), what: Vec::new(), cut: None, untold: laid.untold };
    for exporter in exporters {
        let Some(made) = made.remove(exporter.ending) else { continue };
        let (ready, report) =
            named(exporter, &stem, made).map_err(|Unmade { what, next }| Stop::plain(&what, &next))?;
        files.ready.push(ready);
        files.what.push(exporter.purpose);
        files.cut = report.or(files.cut);
    }
    Ok(files)
}

/// Every file of a pattern from the text of a sheet, in memory, of one of its variants where that is named,
/// with the sheet's name; for the page. `label` is what the sheet is called in messages.
pub(crate) fn pattern(
    source: &str,
    label: &str,
    variant: Option<&str>,
    choices: &FileChoices,
) -> Result<(String, Vec<Ready>), Stop> {
    let mut read = Read::at_hand(source, label, variant)?;
    let files = all(&mut read, choices)?;
    Ok((read.sheet.name, files.ready))
}

/// A garment whose pieces are laid on the cloth, as far as they can be.
struct OnCloth<'e> {
    garment: engine::Made,
    files: ByEnding<'e>,
    untold: Untold,
}

/// Lays the pieces, and makes the files that wait for it.
fn on_cloth<'e>(
    waiting: Vec<&'e Exporter>,
    read: &Read,
    choices: &FileChoices,
    options: &Options,
) -> Result<OnCloth<'e>, Stop> {
    let found = lays::find(read, choices)?;
    let (mut garment, mut options) = (read.made.clone(), options.clone());
    if !found.lays.is_empty() {
        garment.lay(found.lays);
    }
    if choices.given.contains(&Choice::Lay) {
        as_laid(&mut options.cut.cutting, &garment.garment.lays);
    }
    let files = at_once(waiting, &garment, &options);
    Ok(OnCloth { garment, files, untold: found.untold })
}

/// Files that are made, by the ends of their names.
type ByEnding<'e> = BTreeMap<&'e str, Result<Made, ExportError>>;

/// What some exporters make of a garment.
fn at_once<'e>(exporters: Vec<&'e Exporter>, garment: &engine::Made, options: &Options) -> ByEnding<'e> {
    let pattern = Pattern { drawing: &garment.drawing, garment: &garment.garment };
    exporters.into_par_iter().map(|e| (e.ending, e.write(&pattern, options))).collect()
}

/// A lay has every piece of at least one pair.
fn as_laid(cutting: &mut Cutting, lays: &[Lay]) {
    cutting.lays = lays.to_vec();
    if cutting.copies == Copies::OnceEach {
        cutting.copies = Copies::Pairs(NonZeroU32::MIN);
    }
}

/// Makes every file, one after the other: where others are at work on other patterns meanwhile.
pub(super) fn in_turn(
    pattern: &Pattern<'_>,
    choices: &FileChoices,
    options: &Options,
    stem: &str,
) -> Result<Vec<Ready>, Unmade> {
    let one =
        |exporter: &'static Exporter| named(exporter, stem, exporter.write(pattern, options)).map(|(ready, _)| ready);
    table::written(&choices.given, options).into_iter().map(one).collect()
}

/// A file that cannot be made, and what to do.
pub(super) struct Unmade {
    pub(super) what: String,
    pub(super) next: String,
}

fn named(
    exporter: &Exporter,
    stem: &str,
    made: Result<Made, ExportError>,
) -> Result<(Ready, Option<CutReport>), Unmade> {
    let name = exporter.file(stem);
    match made {
        Ok(Made { bytes, report }) => Ok((Ready { name, mark: exporter.mark, bytes }, report)),
        Err(e) => Err(Unmade {
            what: format!("{name} cannot be made: {e}"),
            next: format!("no file was written; {}", exporter.advice),
        }),
    }
}
