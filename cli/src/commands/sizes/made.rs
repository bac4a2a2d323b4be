//! One size: read, drafted, its files in memory.

use crate::args::{FileChoices, Warnings};
use crate::commands::class::entry::{Entry, Status};
use crate::commands::class::make::{reason, warnings};
use crate::commands::exports::{self, Unmade};
use crate::output::Ready;
use crate::people::{Column, Person, Reason};
use crate::sheet::Base;
use engine::finding::Finding;
use engine::keys::Key;
use engine::lay::{self, Rules};
use engine::sheet::{Print, Sheet};
use export::table::Pattern;

/// Makes the sizes of a table.
pub(super) struct Maker<'a> {
    /// What is chosen for the files; none where sizes are only looked at.
    pub(super) files: Option<&'a FileChoices>,
    pub(super) warnings: Warnings,
    pub(super) base: &'a Base,
    pub(super) columns: &'a [Column],
}

/// What became of a size.
pub(crate) struct Size {
    pub(crate) entry: Entry,
    /// None where it is refused or cannot be read.
    pub(crate) made: Option<Made>,
}

/// A size that could be made.
pub(crate) struct Made {
    pub(crate) made: engine::Made,
    /// Measures that the table does not have.
    pub(crate) estimated: Vec<Key>,
    pub(super) files: Vec<Ready>,
}

impl Maker<'_> {
    /// How the first that can be read prints.
    pub(super) fn print(&self, persons: &[Person]) -> Print {
        let mut sheets = persons.iter().filter_map(|p| p.size(self.base, self.columns).ok());
        sheets.next().map(|sheet| sheet.print).unwrap_or_default()
    }

    pub(super) fn make(&self, person: &Person, folder: &str) -> Size {
        let (status, reasons, made) = match self.made(person, folder) {
            Ok((made, odd)) => (Status::Done, odd, Some(made)),
            Err((status, reasons)) => (status, reasons, None),
        };
        let (row, name, folder) = (person.row, person.called.clone(), folder.to_owned());
        Size { entry: Entry { row, name, folder, status, reasons, pair: None }, made }
    }

    fn made(&self, person: &Person, folder: &str) -> Result<(Made, Vec<Reason>), (Status, Vec<Reason>)> {
        let sheet = person.size(self.base, self.columns).map_err(|reasons| (Status::Unreadable, reasons))?;
        let refused = |findings: &[&Finding]| (Status::Refused, self.said(person, findings));
        let mut made = engine::make(&sheet).map_err(|e| refused(&e.findings.iter().collect::<Vec<_>>()))?;
        let odd = warnings(&made);
        if self.warnings == Warnings::Refused && !odd.is_empty() {
            return Err(refused(&odd));
        }
        let odd = person.odd().into_iter().chain(self.said(person, &odd)).collect();
        // As when the size is drafted alone: a cloth that is too narrow for it is told there.
        if self.files.is_some()
            && let Ok(lays) =
                lay::of_pairs(&made.drawing, &made.drawing, &sheet.fabric, 1, Rules::default(), &mut |_| ())
        {
            made.lay(lays);
        }
        let files = self.files(&sheet, &made, folder).map_err(|Unmade { what, next }| {
            let (code, key, place) = ("files".to_owned(), String::new(), format!("row {}", person.row));
            (Status::Refused, vec![Reason { code, key, place, text: format!("{what}; {next}") }])
        })?;
        Ok((Made { made, estimated: sheet.estimated, files }, odd))
    }

    fn files(&self, sheet: &Sheet, made: &engine::Made, folder: &str) -> Result<Vec<Ready>, Unmade> {
        let Some(files) = self.files else { return Ok(Vec::new()) };
        let pattern = Pattern { drawing: &made.drawing, garment: &made.garment };
        exports::in_turn(&pattern, files, &files.options(&sheet.print), folder)
    }

    fn said(&self, person: &Person, findings: &[&Finding]) -> Vec<Reason> {
        findings.iter().map(|finding| reason(person, finding, self.base.units())).collect()
    }
}
