//! `new`: a sheet to fill in, or one of answers to questions.

mod answers;
pub(crate) mod drawer;
mod guided;
mod measures;

use super::stop::Stop;
use crate::answer::Answer;
use crate::args::Questions;
use crate::dialogue::{self, Answers, Dialogue, Silence};
use crate::output::put_beside;
use crate::sheet::read_in;
use crate::template::commented_sheet;
use crate::terminal::plain;
use drawer::Stock;
use engine::quantity::Units;
use std::fs;
use std::io::{self, BufRead, ErrorKind, Write};
use std::path::Path;

pub(super) fn run(file: &Path, units: Option<Units>, questions: Questions) -> Result<Answer, Stop> {
    if questions == Questions::Asked && dialogue::is_there() && !file.exists() {
        return asked(file, units);
    }
    write_new_file(file, commented_sheet(units.unwrap_or(Units::Cm)))?;
    let shown = plain(&file.display().to_string());
    Ok(Answer::done(format!(
        "{shown} is ready to fill in.\nNext: measure, put your numbers in, then\n  quarterpin draft {shown} -o my-pattern\n"
    )))
}

/// A short sheet, by questions.
fn asked(file: &Path, units: Option<Units>) -> Result<Answer, Stop> {
    let answers = Answers::beside(file, guided::QUESTIONS, units.map(Units::name));
    let kept = answers.file().map(Path::to_owned);
    let mut dialogue = Dialogue::here();
    let text = questions(&mut dialogue, answers, units, file).map_err(|_| interrupted(kept.as_deref()))?;
    let sheet = read_in(&text, "sheet", file.parent())
        .map_err(|e| Stop::plain(&e.to_string(), "report it: it is a fault of the program"))?;
    write_new_file(file, &text)?;
    dialogue.done();
    let shown = plain(&file.display().to_string());
    let next = match engine::record(&sheet) {
        Ok(_) => format!("Next:\n  quarterpin draft {shown} -o my-pattern\n"),
        Err(_) => format!("It makes no garment yet. What stands in the way:\n  quarterpin check {shown}\n"),
    };
    Ok(Answer::done(format!("\n{shown} is written: what you said, and usual numbers of the elastics.\n{next}")))
}

/// Goes on with answers of before, if there are any and she likes to, and asks for the rest.
fn questions<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    mut before: Answers,
    units: Option<Units>,
    file: &Path,
) -> Result<String, Silence> {
    if before.left() > 0 {
        let ask = format!("{} answers are kept from before. Go on after them? [yes]", before.left());
        if !dialogue.until(&ask, answers::yes)? {
            before.forget(units.map(Units::name));
        }
    } else {
        let kept = if before.file().is_some() {
            "your answers are kept, and you can go on later"
        } else {
            "nothing is written"
        };
        dialogue.say(&format!(
            "A few questions, and a short sheet of your answers. Enter takes what stands in brackets; Ctrl-C ends, and \
             {kept}."
        ))?;
    }
    let units = before.choice().and_then(|word| answers::known(word, &Units::ALL));
    dialogue.keep(before);
    let stock = Stock::beside(file);
    if let Some(trouble) = &stock.trouble {
        dialogue.say(&format!("Your drawer cannot be used, and the elastics of the program are offered: {trouble}"))?;
    }
    guided::sheet(dialogue, units, &stock)
}

fn interrupted(kept: Option<&Path>) -> Stop {
    match kept.filter(|kept| kept.exists()) {
        Some(kept) => Stop::plain(
            &format!("the questions ended before the last answer; your answers are kept in {}", kept.display()),
            "run the same command again to go on",
        ),
        None => Stop::plain(
            "the questions ended before the last answer, and nothing was written",
            "start again when you like",
        ),
    }
}

/// A new file, never over something that is there.
pub(super) fn write_new_file(file: &Path, content: impl AsRef<[u8]>) -> Result<(), Stop> {
    write_new(file, content.as_ref()).map_err(|e| explain(file, &e))
}

/// Whole or not at all, and never over something that is there, even if it comes to be there just now.
fn write_new(file: &Path, content: &[u8]) -> io::Result<()> {
    if fs::symlink_metadata(file).is_ok() {
        return Err(ErrorKind::AlreadyExists.into());
    }
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    put_beside(folder, ".quarterpin-new-", content)?.persist_noclobber(file).map_err(|e| e.error)?;
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
