//! One person: read, drafted, written.

use super::entry::{Cloth, Entry, Files, Pair, Status};
use super::journal::Journal;
use super::record::Kept;
use crate::args::{ClassRequest, Redo, Warnings};
use crate::commands::exports::{self, Unmade};
use crate::commands::lays;
use crate::output::{Ready, Replace, WriteError, write_of};
use crate::people::{Column, People, Person, Reason};
use crate::sheet::Base;
use engine::Made;
use engine::drawing::Piece;
use engine::finding::fact::BodyFact;
use engine::finding::{Fact, Finding, Level};
use engine::lay;
use engine::quantity::Units;
use engine::sheet::{Print, Sheet};
use engine::shopping::Needs;
use engine::words::{Said, Speech};
use export::mark::Mark;
use export::table::{self, Exporter, Pattern};
use export::{cloth, pdf};
use sha2::{Digest, Sha256};
use std::path::Path;

/// Makes what is wanted of everybody.
pub(super) struct Maker<'a> {
    pub(super) request: &'a ClassRequest,
    pub(super) base: &'a Base,
    pub(super) columns: &'a [Column],
    /// None where the class is only checked.
    pub(super) journal: Option<&'a Journal>,
}

/// How the first who can be read prints: all do so, but for those whose row says otherwise.
pub(in crate::commands) fn print_of(people: &People, base: &Base) -> Print {
    let mut sheets = people.persons.iter().filter_map(|p| p.sheet(base, &people.columns).ok());
    sheets.next().map(|sheet| sheet.print).unwrap_or_default()
}

/// Why somebody's files are not there.
enum Without {
    /// They cannot be made.
    Unmade(String),
    /// They have no room in her folder.
    Unwritten(String),
}

/// What is made of somebody before any file.
struct Drafted {
    sheet: Sheet,
    made: Made,
    digest: String,
}

impl Maker<'_> {
    /// Makes the files of somebody, unless they are there and nothing has changed.
    pub(super) fn make(&self, person: &Person, folder: &str) -> Entry {
        let drafted = match self.draft(person) {
            Ok(drafted) => drafted,
            Err((status, mut reasons)) => {
                reasons.extend(self.older(person, folder));
                return entry(person, folder, status, reasons, None);
            }
        };
        let odd = self.odd(person, &drafted.made);
        let kept = self.kept_of(folder, &drafted);
        let made = match (kept, &self.request.into, self.journal) {
            (Some(kept), ..) if self.request.redo == Redo::Changed => Ok((Files::Unchanged, kept.pages)),
            (_, Some(into), Some(journal)) => self.write(&drafted, into, folder, journal).map(|n| (Files::Written, n)),
            _ => self.pages(&drafted).map(|pages| (Files::None, pages)).map_err(Without::Unmade),
        };
        let because = |text| {
            let reason =
                Reason { code: "files".to_owned(), key: String::new(), place: format!("row {}", person.row), text };
            let older = if kept.is_some() { None } else { self.older(person, folder) };
            std::iter::once(reason).chain(older).collect()
        };
        match made {
            Ok((files, pages)) => {
                entry(person, folder, Status::Done, odd, Some(drafted.pair(files, pages, self.request)))
            }
            Err(Without::Unmade(text)) => entry(person, folder, Status::Refused, because(text), None),
            // She sews all the same: what she needs is bought with everybody's.
            Err(Without::Unwritten(text)) => {
                // What was made of the same before still holds.
                let (files, pages) = kept.map_or((Files::None, 0), |kept| (Files::Unchanged, kept.pages));
                let pair = drafted.pair(files, pages, self.request);
                entry(person, folder, Status::Unwritten, because(text), Some(pair))
            }
        }
    }

    /// Where nothing is made, what lies in her folder is of other measurements.
    fn older(&self, person: &Person, folder: &str) -> Option<Reason> {
        let dir = self.request.into.as_ref()?.join(folder);
        let is_there = table::EXPORTERS.iter().any(|e| dir.join(e.file(folder)).is_file());
        is_there.then(|| Reason {
            code: "files.older".to_owned(),
            key: String::new(),
            place: format!("row {}", person.row),
            text: format!("the files in {folder} are of an earlier run; do not use them"),
        })
    }

    /// Somebody who is not wanted this time: told of where her files are there and up to date.
    pub(super) fn kept(&self, person: &Person, folder: &str) -> Option<Entry> {
        let drafted = self.draft(person).ok()?;
        let kept = self.kept_of(folder, &drafted)?;
        let odd = self.odd(person, &drafted.made);
        let pair = drafted.pair(Files::Unchanged, kept.pages, self.request);
        Some(entry(person, folder, Status::Done, odd, Some(pair)))
    }

    fn draft(&self, person: &Person) -> Result<Drafted, (Status, Vec<Reason>)> {
        let sheet = person.sheet(self.base, self.columns).map_err(|reasons| (Status::Unreadable, reasons))?;
        let made = engine::make(&sheet)
            .map_err(|refused| (Status::Refused, self.said(person, &refused.findings.iter().collect::<Vec<_>>())))?;
        let found = warnings(&made);
        if self.request.warnings == Warnings::Refused && !found.is_empty() {
            return Err((Status::Refused, self.said(person, &found)));
        }
        let digest = self.digest(&sheet);
        Ok(Drafted { sheet, made, digest })
    }

    /// What her files are made of: her sheet, the choices, the kinds of files, and the program.
    fn digest(&self, sheet: &Sheet) -> String {
        let kinds: Vec<&str> = self.exporters(sheet).iter().map(|e| e.ending).collect();
        let all = format!("{}\n{kinds:?}\n{:?}\n{sheet:?}", env!("CARGO_PKG_VERSION"), self.request.files);
        Sha256::digest(all).iter().take(16).map(|byte| format!("{byte:02x}")).collect()
    }

    /// What was made before, where it still holds and every file is there.
    fn kept_of(&self, folder: &str, drafted: &Drafted) -> Option<&Kept> {
        let kept = self.journal?.before(folder)?;
        let dir = self.request.into.as_ref()?.join(folder);
        let mut names = self.exporters(&drafted.sheet).into_iter().map(|e| e.file(folder));
        (kept.digest == drafted.digest && names.all(|name| dir.join(name).is_file())).then_some(kept)
    }

    fn exporters(&self, sheet: &Sheet) -> Vec<&'static Exporter> {
        table::written(&self.request.files.given, &self.request.files.options(&sheet.print))
    }

    fn files(&self, drafted: &Drafted, stem: &str) -> Result<Vec<Ready>, String> {
        let pattern = Pattern { drawing: &drafted.made.drawing, garment: &drafted.made.garment };
        let options = self.request.files.options(&drafted.sheet.print);
        exports::in_turn(&pattern, &self.request.files, &options, stem)
            .map_err(|Unmade { what, next }| format!("{what}; {next}"))
    }

    fn pages(&self, drafted: &Drafted) -> Result<usize, String> {
        self.files(drafted, "pattern").map(|files| pages_of(&files))
    }

    fn write(&self, drafted: &Drafted, into: &Path, folder: &str, journal: &Journal) -> Result<usize, Without> {
        let files = self.files(drafted, folder).map_err(Without::Unmade)?;
        let pages = pages_of(&files);
        let noted = |noted: std::io::Result<()>| noted.map_err(|e| Without::Unwritten(e.to_string()));
        noted(journal.begin(folder))?;
        // The folder is hers, whatever the sheet in it was called before.
        let replace = match self.request.replace {
            Replace::OwnOnly => Replace::OwnOfAnySheet,
            other => other,
        };
        write_of(&drafted.sheet.name, &into.join(folder), &files, replace)
            .map_err(|e: WriteError| Without::Unwritten(format!("{e}; {}", e.next())))?;
        let kept = Kept { digest: drafted.digest.clone(), pages };
        noted(journal.end(folder, &kept))?;
        Ok(pages)
    }

    /// What is worth a second look about her row and her garment.
    fn odd(&self, person: &Person, made: &Made) -> Vec<Reason> {
        person.odd().into_iter().chain(self.said(person, &doubts(made))).collect()
    }

    /// Findings as they are told of somebody of a table.
    fn said(&self, person: &Person, findings: &[&Finding]) -> Vec<Reason> {
        findings.iter().map(|finding| reason(person, finding, self.base.units())).collect()
    }
}

impl Drafted {
    fn pair(self, files: Files, pages: usize, request: &ClassRequest) -> Pair {
        let is_laid = request.lay.is_some();
        let Self { sheet, made, digest } = self;
        let parts = cloth::parts(&made.drawing);
        let on_cloth = |piece: Piece| lay::Cloth::of(&sheet.fabric, &piece.material).map(|cloth| (cloth, piece));
        let pieces = made.drawing.pieces.into_iter().filter(|_| is_laid).filter_map(on_cloth).collect();
        Pair {
            digest,
            pages,
            files,
            base: sheet.style.base.name(),
            edges: Pair::edges_of(&made.garment),
            times: lays::pairs(request.files.cut.cutting.copies) as usize,
            needs: Needs::of(&made.garment),
            cloth: Cloth { width: sheet.fabric.width.map(|w| w.mm()), price: sheet.fabric.price, parts, pieces },
        }
    }
}

fn entry(person: &Person, folder: &str, status: Status, reasons: Vec<Reason>, pair: Option<Pair>) -> Entry {
    Entry { row: person.row, name: person.called.clone(), folder: folder.to_owned(), status, reasons, pair }
}

/// What is odd about somebody: beside warnings, measures that are rare with her others, since who fills in a table
/// of many people has none of them in view.
fn doubts(made: &Made) -> Vec<&Finding> {
    let is_odd = |f: &&Finding| f.level >= Level::Warning || matches!(f.fact, Fact::Body(BodyFact::Unusual { .. }));
    made.garment.checks.iter().filter(is_odd).collect()
}

/// What of a garment is worth a second look.
pub(in crate::commands) fn warnings(made: &Made) -> Vec<&Finding> {
    made.garment.checks.iter().filter(|f| f.level >= Level::Warning).collect()
}

/// All that is to be printed.
pub(in crate::commands) fn pages_of(files: &[Ready]) -> usize {
    files.iter().filter(|f| f.mark == Mark::PdfComment).filter_map(|f| pdf::pages(&f.bytes)).sum()
}

/// A finding as it is told of somebody of a table.
pub(in crate::commands) fn reason(person: &Person, finding: &Finding, units: Units) -> Reason {
    let say = Speech(units);
    let Said { place, text, next } = say.finding(finding);
    let cell = person.cell_of(&place).map(|cell| format!(", {cell}")).unwrap_or_default();
    let next = if next.is_empty() { String::new() } else { format!("; {next}") };
    Reason {
        code: finding.code.to_owned(),
        key: say.place(finding),
        place: format!("row {}{cell}", person.row),
        text: format!("{text}{next}"),
    }
}
