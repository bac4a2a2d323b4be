//! `new`: a commented sheet to fill in.

use super::stop::Stop;
use crate::answer::Answer;
use crate::template::commented_sheet;
use engine::quantity::Units;
use std::fs;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

pub(super) fn run(file: &Path, units: Units) -> Result<Answer, Stop> {
    write_new_file(file, &commented_sheet(units))?;
    let shown = file.display();
    Ok(Answer::done(format!(
        "{shown} is ready to fill in.\nNext: measure, put your numbers in, then\n  quarterpin draft {shown} -o my-pattern\n"
    )))
}

/// A file of text, never over something that is there.
pub(super) fn write_new_file(file: &Path, text: &str) -> Result<(), Stop> {
    write_new(file, text).map_err(|e| explain(file, &e))
}

/// Never over something that is there, even if it comes to be there just now.
fn write_new(file: &Path, text: &str) -> io::Result<()> {
    let mut made = fs::OpenOptions::new().write(true).create_new(true).open(file)?;
    made.write_all(text.as_bytes()).inspect_err(|_| {
        let _ = fs::remove_file(file);
    })
}

fn explain(file: &Path, e: &io::Error) -> Stop {
    let shown = file.display();
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
