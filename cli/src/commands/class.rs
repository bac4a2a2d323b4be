//! `class`: everybody in a table of people, a folder each, and what a teacher wants beside them.

pub(crate) mod entry;
pub(in crate::commands) mod folders;
mod journal;
pub(crate) mod lay;
mod list;
pub(in crate::commands) mod make;
mod only;
mod record;
pub(crate) mod summary;
pub(crate) mod total;

use super::stop::Stop;
use crate::answer::{Answer, End};
use crate::args::{AnswerAs, ClassRequest};
use crate::output::{Ready, write_all};
use crate::people::{People, Person};
use crate::sheet::Base;
use crate::terminal::class;
use engine::sheet::Paper;
use entry::{Entry, Status};
use export::table;
use indicatif::{ProgressBar, ProgressStyle};
use journal::Journal;
use make::Maker;
use rayon::ThreadPoolBuilder;
use rayon::prelude::*;
use total::Total;

pub(super) fn run(request: &ClassRequest) -> Result<Answer, Stop> {
    let base = Base::read(&request.base).map_err(|e| Stop::unread(&e))?;
    let table_units = request.units.unwrap_or(base.units());
    let people = People::read(&request.people, table_units)
        .map_err(|e| Stop::plain(&format!("{}: {e}", request.people.display()), &e.next()))?;
    let base = people.base(base);
    let chosen = only::chosen(&people.persons, &request.only)?;
    let folders = folders::of(&people.persons);
    let journal = match &request.into {
        Some(into) => Some(Journal::open(into)?),
        None => None,
    };
    let sheet_of_anyone = make::print_of(&people, &base);
    let options = request.files.options(&sheet_of_anyone);
    table::check(&request.files.given, &options).map_err(|e| Stop::plain(&e.to_string(), &e.next()))?;
    let maker = Maker { request, base: &base, columns: &people.columns, journal: journal.as_ref() };
    let bar = ProgressBar::new(people.persons.len() as u64);
    let entries = everybody(&maker, &people.persons, &folders, &chosen, &bar);
    let laid = match request.lay {
        Some(rules) => lay::all(base.name(), &entries, (rules, &options.cut.cutting), base.units())?,
        None => Vec::new(),
    };
    let total = Total::of(&entries, &laid, base.units());
    let gone = match (&request.into, &journal) {
        (Some(into), Some(journal)) => journal.gone(into, &folders),
        _ => Vec::new(),
    };
    let left_out = left_out(&people.persons, &entries);
    let text = record::json(&entries, (&gone, &left_out), &total, &laid, base.units())?;
    let mut older = Vec::new();
    if let (Some(into), Some(journal)) = (&request.into, journal) {
        let paper = options.print.setup.paper;
        let list = list::pdf(base.name(), &entries, &left_out, &total, base.units(), paper)?;
        let mut files = vec![
            Ready { name: record::NAME.to_owned(), mark: record::MARK, bytes: text.as_bytes().to_vec() },
            Ready {
                name: summary::NAME.to_owned(),
                mark: summary::MARK,
                bytes: summary::csv(&entries, &total, base.units())?,
            },
            Ready { name: list::NAME.to_owned(), mark: list::MARK, bytes: list::with_patterns(list, &entries, into)? },
        ];
        for laid in &laid {
            files.extend(laid.files(&request.files, &options, base.units())?);
        }
        older = lay::older(into, &files);
        write_all(into, &files, request.replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
        journal.done();
    }
    let unused = people.unused();
    let shown = class::Shown {
        into: request.into.as_deref(),
        units: base.units(),
        whose: base.whose(),
        table_units,
        paper: options.print.setup.paper,
        fractions: people.persons.iter().filter(|person| person.has_fractions()).count(),
        unused: &unused,
        gone: &gone,
        older: &older,
        left_out: &left_out,
    };
    let (listed, end) = (class::render(&entries, &total, &shown), end(&entries));
    Ok(match request.answer {
        AnswerAs::Text => Answer { out: listed, err: String::new(), end },
        AnswerAs::Json => Answer { out: text, err: String::new(), end },
    })
}

/// Those who are not wanted this time, and have no files that hold.
fn left_out(persons: &[Person], entries: &[Entry]) -> Vec<String> {
    let is_there = |person: &&Person| entries.iter().any(|entry| entry.row == person.row);
    persons.iter().filter(|person| !is_there(person)).map(|person| person.called.clone()).collect()
}

/// What would become of everybody, as `--check` finds it: nothing is written.
pub(crate) fn looked_at(request: &ClassRequest, base: &Base, people: &People) -> Looked {
    let folders = folders::of(&people.persons);
    let maker = Maker { request, base, columns: &people.columns, journal: None };
    let chosen = vec![true; people.persons.len()];
    let entries = everybody(&maker, &people.persons, &folders, &chosen, &ProgressBar::hidden());
    let total = Total::of(&entries, &[], base.units());
    let paper = request.files.options(&make::print_of(people, base)).print.setup.paper;
    Looked { entries, total, paper }
}

/// A class that was only looked at.
pub(crate) struct Looked {
    pub(crate) entries: Vec<Entry>,
    pub(crate) total: Total,
    pub(crate) paper: Paper,
}

fn end(entries: &[Entry]) -> End {
    if entries.iter().all(|e| e.status == Status::Done) { End::Done } else { End::Refused }
}

/// While one person's files are waited for until they are on the disk, the next ones are made.
const THREADS_A_CORE: usize = 2;

/// Everybody, on all cores, in the order of the table.
fn everybody(
    maker: &Maker<'_>,
    persons: &[Person],
    folders: &[String],
    chosen: &[bool],
    bar: &ProgressBar,
) -> Vec<Entry> {
    if let Ok(style) = ProgressStyle::with_template("  {bar:40} {pos} of {len} people, {eta} to go") {
        bar.set_style(style);
    }
    let one = |((person, folder), is_chosen): ((&Person, &String), &bool)| {
        let entry = if *is_chosen { Some(maker.make(person, folder)) } else { maker.kept(person, folder) };
        bar.inc(1);
        entry
    };
    let all = || persons.par_iter().zip(folders).zip(chosen).map(one).collect::<Vec<_>>();
    let threads = THREADS_A_CORE * rayon::current_num_threads();
    let made = match ThreadPoolBuilder::new().num_threads(threads).build() {
        Ok(pool) => pool.install(all),
        Err(_) => all(),
    };
    bar.finish_and_clear();
    made.into_iter().flatten().collect()
}
