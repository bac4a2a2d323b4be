//! `new`: a sheet to fill in, or one of answers to questions.

pub(crate) mod drawer;
mod guided;

use super::stop::Stop;
use crate::answer::Answer;
use crate::args::Questions;
use crate::dialogue::{self, Dialogue};
use crate::output::put_beside;
use crate::sheet::read;
use crate::template::commented_sheet;
use crate::terminal::plain;
use engine::quantity::Units;
use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

pub(super) fn run(file: &Path, units: Option<Units>, questions: Questions) -> Result<Answer, Stop> {
    if questions == Questions::Asked && dialogue::is_there() && !file.exists() {
        return asked(file, units);
    }
    write_new_file(file, &commented_sheet(units.unwrap_or(Units::Cm)))?;
    let shown = plain(&file.display().to_string());
    Ok(Answer::done(format!(
        "{shown} is ready to fill in.\nNext: measure, put your numbers in, then\n  quarterpin draft {shown} -o my-pattern\n"
    )))
}

/// A short sheet, by questions.
fn asked(file: &Path, units: Option<Units>) -> Result<Answer, Stop> {
    let text = guided::sheet(&mut Dialogue::here(), units).map_err(|_| {
        Stop::plain("the questions ended before the last answer, and nothing was written", "start again when you like")
    })?;
    let sheet =
        read(&text, "sheet").map_err(|e| Stop::plain(&e.to_string(), "report it: it is a fault of the program"))?;
    write_new_file(file, &text)?;
    let shown = plain(&file.display().to_string());
    let next = match engine::record(&sheet) {
        Ok(_) => format!("Next:\n  quarterpin draft {shown} -o my-pattern\n"),
        Err(_) => format!("It makes no garment yet. What stands in the way:\n  quarterpin check {shown}\n"),
    };
    Ok(Answer::done(format!("\n{shown} is written, with what you said and nothing else.\n{next}")))
}

/// A file of text, never over something that is there.
pub(super) fn write_new_file(file: &Path, text: &str) -> Result<(), Stop> {
    write_new(file, text).map_err(|e| explain(file, &e))
}

/// Whole or not at all, and never over something that is there, even if it comes to be there just now.
fn write_new(file: &Path, text: &str) -> io::Result<()> {
    if fs::symlink_metadata(file).is_ok() {
        return Err(ErrorKind::AlreadyExists.into());
    }
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    put_beside(folder, ".quarterpin-new-", text.as_bytes())?.persist_noclobber(file).map_err(|e| e.error)?;
    Ok(())
}

fn explain(file: &Path, e: &io::Error) -> Stop {
    let shown = plain(&file.display().to_string());
    match e.kind() {
        ErrorKind::AlreadyExists => {
            Stop::plain(&format!("{shown} is there already, and is never overwritten"), "choose another name")
        }
        _ => Stop::plain(
            &format!("{shown} cannot be written: {e}"),
            "check that its folder is there and can be written to",
        ),
    }
}
