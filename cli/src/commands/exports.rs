//! The files of a pattern: a walk along the table of exporters.

use super::lays;
use super::reading::Read;
use super::stop::Stop;
use crate::args::FileChoices;
use crate::output::{Ready, stem};
use engine::lay::Lay;
use export::choice::{Choice, Options};
use export::cutter::{Copies, Cutting};
use export::dxf::CutReport;
use export::table::{self, ExportError, Exporter, Made, Pattern};
use std::num::NonZeroU32;
use std::panic::resume_unwind;
use std::thread;

/// Every file of a pattern, made but not yet written.
pub(super) struct Files {
    pub(super) ready: Vec<Ready>,
    /// What each is for.
    pub(super) what: Vec<&'static str>,
    /// About the file to cut by.
    pub(super) cut: Option<CutReport>,
}

/// Makes every file, all at once: none needs another.
pub(super) fn all(read: &Read, choices: &FileChoices) -> Result<Files, Stop> {
    let mut options = choices.options(&read.sheet.print);
    let pattern = Pattern { drawing: &read.made.drawing, garment: &read.made.garment };
    table::check(&choices.given, &options).map_err(|e| Stop::plain(&e.to_string(), &e.next()))?;
    if choices.given.contains(&Choice::Lay) {
        as_laid(&mut options.cut.cutting, &read.made.garment.lays);
    }
    let exporters = table::written(&choices.given, &options);
    let made: Vec<Result<Made, ExportError>> = thread::scope(|scope| {
        let running: Vec<_> = exporters.iter().map(|e| scope.spawn(|| e.write(&pattern, &options))).collect();
        running.into_iter().map(|run| run.join().unwrap_or_else(|panic| resume_unwind(panic))).collect()
    });
    let stem = stem(&read.sheet.name);
    let mut files = Files { ready: Vec::new(), what: Vec::new(), cut: None };
    for (exporter, made) in exporters.into_iter().zip(made) {
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
    lays::lay(&mut read, choices)?;
    let files = all(&read, choices)?;
    Ok((read.sheet.name, files.ready))
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
