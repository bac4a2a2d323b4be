//! `man`: manual pages, of the same definitions as the help.

use super::stop::Stop;
use crate::answer::Answer;
use crate::args::Typed;
use crate::output::{Ready, Replace, write_all};
use crate::terminal::plain;
use clap::{Command, CommandFactory};
use clap_mangen::Man;
use export::mark::{BLANK, Mark};
use std::io;
use std::path::Path;

pub(super) fn run(into: &Path, replace: Replace) -> Result<Answer, Stop> {
    let mut command = Typed::command().disable_help_subcommand(true);
    command.build();
    let all = std::iter::once(&command).chain(command.get_subcommands());
    let pages: Vec<Ready> = all.map(page).collect::<Result<_, _>>().map_err(|e| cannot(&e))?;
    write_all(into, &pages, replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    let count = pages.len();
    let shown = plain(&into.display().to_string());
    Ok(Answer::done(format!("{count} pages are in {shown}; read one with\n  man {shown}/{}\n", pages[0].name)))
}

fn page(command: &Command) -> io::Result<Ready> {
    let man = Man::new(command.clone());
    // Our mark: a line of the format that is not shown.
    let mut bytes = format!(".\\\" {BLANK}\n").into_bytes();
    man.render(&mut bytes)?;
    Ok(Ready { name: man.get_filename(), mark: Mark::RoffComment, bytes })
}

fn cannot(e: &io::Error) -> Stop {
    Stop::plain(&format!("the pages cannot be made: {e}"), "report it: it is a fault of the program")
}
