//! From a sheet's file to a garment, or to the reasons why not.

use super::input::Kind;
use super::stop::Stop;
use super::{input, record};
use crate::args::{AnswerAs, Reading, Warnings};
use crate::sheet::words::{listed, nearest};
use crate::sheet::{ReadError, read_file, read_from};
use crate::terminal::{plain, refusal};
use engine::Made;
use engine::finding::{Finding, Level};
use engine::sheet::Sheet;
use std::io;
use std::path::Path;

/// A sheet that was read, and what came of it.
pub(super) struct Read {
    pub(super) sheet: Sheet,
    pub(super) made: Made,
    pub(super) source: String,
}

/// Reads the sheet and makes the garment.
pub(super) fn read(reading: &Reading) -> Result<Read, Stop> {
    of_sheet(reading, from(&reading.sheet))
}

/// The same from what was read already, called by its own name in messages.
pub(super) fn read_of(reading: &Reading, bytes: &[u8]) -> Result<Read, Stop> {
    of_sheet(reading, read_from(bytes, &input::name(&reading.sheet)))
}

fn of_sheet(reading: &Reading, found: Result<(String, Sheet), ReadError>) -> Result<Read, Stop> {
    let (source, sheet) = found.map_err(|e| unread(&e))?;
    let sheet = match &reading.variant {
        Some(name) => taking(&sheet, name)?,
        None => sheet,
    };
    match engine::make(&sheet) {
        Ok(made) => Ok(Read { sheet, made, source }),
        Err(stop) => Err(refused(reading, &sheet, &source, &stop.findings)),
    }
}

fn from(file: &Path) -> Result<(String, Sheet), ReadError> {
    if input::is_piped(file) { read_from(io::stdin(), &input::name(file)) } else { read_file(file) }
}

/// Of a file that plainly is none, that alone is said: what is wrong with its lines helps nobody.
fn unread(e: &ReadError) -> Stop {
    let (text, name) = match e {
        ReadError::Sheet { source_text, path_label, .. } => (source_text, plain(path_label)),
        ReadError::NotUtf8 { begins, path, .. } => (begins, plain(&path.display().to_string())),
        _ => return Stop::unread(e),
    };
    let Some(kind) = Kind::of(text.as_bytes()) else { return Stop::unread(e) };
    let next = match kind {
        Kind::Table => {
            "`class` makes everybody's pattern of it, `sizes` every size's; for one person's own sheet, `quarterpin open` \
             and open the table there"
        }
        _ => {
            "give the sheet that it was made from (.toml); for somebody of a class, open the table in `quarterpin open` \
             and take her own sheet from there; `walk` takes NAME-pieces.dxf, NAME-cut.dxf and NAME-cut.svg as well"
        }
    };
    Stop::plain(&format!("{name} is {}, and no sheet", kind.name()), next)
}

/// The sheet of one of its variants.
fn taking(sheet: &Sheet, name: &str) -> Result<Sheet, Stop> {
    if let Some(variant) = sheet.variants.iter().find(|a| a.name == name) {
        return Ok(sheet.taking(variant));
    }
    let names: Vec<&str> = sheet.variants.iter().map(|a| a.name.as_str()).collect();
    let next = match (nearest(name, names.iter().copied()), names.as_slice()) {
        (Some(near), _) => format!("did you mean \"{near}\"?"),
        (None, []) => "it has none; write one under [[variant]]".to_owned(),
        (None, names) => format!("it has {}", listed(names)),
    };
    Err(Stop::plain(&format!("the sheet has no variant called \"{}\"", plain(name)), &next))
}

fn refused(reading: &Reading, sheet: &Sheet, source: &str, findings: &[Finding]) -> Stop {
    let err = refusal::render(&input::name(&reading.sheet), source, findings, sheet.units);
    match reading.answer {
        AnswerAs::Text => Stop::refused(String::new(), err),
        AnswerAs::Json => match record::findings(&sheet.name, sheet.units, findings) {
            Ok(out) => Stop::refused(out, err),
            Err(stop) => stop,
        },
    }
}

impl Read {
    /// Of a sheet that is at hand.
    pub(super) fn of(source: &str) -> Option<Self> {
        let sheet = crate::sheet::read(source, "sheet").ok()?;
        let made = engine::make(&sheet).ok()?;
        Some(Self { sheet, made, source: source.to_owned() })
    }

    /// Of a text that is at hand, or of one of its variants.
    pub(super) fn at_hand(source: &str, label: &str, variant: Option<&str>) -> Result<Self, Stop> {
        let (source, sheet) = read_from(source.as_bytes(), Path::new(label)).map_err(|e| Stop::unread(&e))?;
        let sheet = match variant {
            Some(name) => taking(&sheet, name)?,
            None => sheet,
        };
        let made = engine::make(&sheet).map_err(|e| Stop::plain(&e.to_string(), "look at what stands against it"))?;
        Ok(Self { sheet, made, source })
    }

    /// Stops where warnings are not allowed and there are some.
    pub(super) fn stop_at_warnings(&self, reading: &Reading) -> Result<(), Stop> {
        let all = self.made.garment.checks.iter();
        let warnings: Vec<Finding> = all.filter(|f| f.level >= Level::Warning).cloned().collect();
        if reading.warnings == Warnings::Allowed || warnings.is_empty() {
            return Ok(());
        }
        Err(refused(reading, &self.sheet, &self.source, &warnings))
    }
}
