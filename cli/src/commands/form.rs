//! `form`: a form to measure by.

use super::stop::Stop;
use crate::answer::Answer;
use crate::output::{Ready, Replace, write_all};
use crate::terminal::plain;
use engine::quantity::Units;
use export::form::{FormPaper, form};
use export::mark::Mark;
use std::path::Path;

pub(super) fn run(file: &Path, units: Units, paper: FormPaper, replace: Replace) -> Result<Answer, Stop> {
    let shown = plain(&file.display().to_string());
    let name = file.file_name().ok_or_else(|| Stop::plain(&format!("{shown} names no file"), "name a PDF with -o"))?;
    let folder = file.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let bytes = form(units, paper)
        .map_err(|e| Stop::plain(&format!("the form cannot be made: {e}"), "this is a fault of the program"))?;
    let ready = Ready { name: name.to_string_lossy().into_owned(), mark: Mark::PdfComment, bytes };
    write_all(folder, &[ready], replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    let unit = if units == Units::Cm { String::new() } else { format!(" --units {}", units.name()) };
    Ok(Answer::done(format!(
        "{shown} is ready to print, at 100 %.\nNext: measure, then put the numbers into a sheet: quarterpin new \
         my-sheet.toml{unit}\n"
    )))
}
