//! From a sheet's file to a garment, or to the reasons why not.

use super::{Stop, record};
use crate::args::{AnswerAs, Reading, Warnings};
use crate::terminal::refusal;
use engine::garment::{Finding, Level};
use engine::sheet::Sheet;
use engine::{Made, Refused};

/// A sheet that was read, and what came of it.
pub(super) struct Read {
    pub(super) sheet: Sheet,
    pub(super) made: Made,
    source: String,
}

/// Reads the sheet and makes the garment.
pub(super) fn read(reading: &Reading) -> Result<Read, Stop> {
    let (source, sheet) = crate::sheet::read_file(&reading.sheet).map_err(|e| Stop::unusable(e.render(true)))?;
    match engine::make(&sheet) {
        Ok(made) => Ok(Read { sheet, made, source }),
        Err(Refused(findings)) => Err(refused(reading, &sheet.name, &source, &findings)),
    }
}

fn refused(reading: &Reading, name: &str, source: &str, findings: &[Finding]) -> Stop {
    let err = refusal::render(&reading.sheet, source, findings);
    match reading.answer {
        AnswerAs::Text => Stop::refused(String::new(), err),
        AnswerAs::Json => match record::findings(name, findings) {
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

    /// Stops where warnings are not allowed and there are some.
    pub(super) fn stop_at_warnings(&self, reading: &Reading) -> Result<(), Stop> {
        let all = self.made.garment.checks.iter();
        let warnings: Vec<Finding> = all.filter(|f| f.level >= Level::Warning).cloned().collect();
        if reading.warnings == Warnings::Allowed || warnings.is_empty() {
            return Ok(());
        }
        Err(refused(reading, &self.sheet.name, &self.source, &warnings))
    }
}
