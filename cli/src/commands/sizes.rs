//! `sizes`: one style over a table of sizes, nested in one print, with what grows and how.

mod chart;
pub(crate) mod lists;
pub(crate) mod made;
mod record;

use super::class::folders;
use super::stop::Stop;
use crate::answer::{Answer, End};
use crate::args::{AnswerAs, SizesRequest, Warnings};
use crate::output::{Ready, write_all};
use crate::people::People;
use crate::sheet::Base;
use crate::terminal::sizes as told;
use engine::drawing::Drawing;
use engine::growth::Growth;
use export::mark::Mark;
use export::pdf::{self, MOST_SIZES};
use export::table;
use made::{Made, Maker, Size};
use rayon::prelude::*;

/// The nested print.
const NESTED: &str = "nested.pdf";

pub(super) fn run(request: &SizesRequest) -> Result<Answer, Stop> {
    let base = Base::read(&request.base).map_err(|e| Stop::unread(&e))?;
    let table_units = request.units.unwrap_or(base.units());
    let people = People::read(&request.table, table_units)
        .map_err(|e| Stop::plain(&format!("{}: {e}", request.table.display()), &e.next()))?;
    few_enough(&people)?;
    let base = people.base(base);
    let folders = folders::of(&people.persons);
    let maker =
        Maker { files: Some(&request.files), warnings: request.warnings, base: &base, columns: &people.columns };
    let sizes: Vec<Size> =
        people.persons.par_iter().zip(&folders).map(|(person, folder)| maker.make(person, folder)).collect();
    let options = request.files.options(&maker.print(&people.persons));
    table::check(&request.files.given, &options).map_err(|e| Stop::plain(&e.to_string(), &e.next()))?;
    let gone = record::gone(&request.into, &folders);
    let done = done(&sizes);
    let growth = growth(&done);
    let list = lists::Lists { name: base.name(), units: base.units(), sizes: &sizes, done: &done, growth: &growth };
    let text = record::json(&list, &gone)?;
    if let Some(nest) = nested(base.name(), &done) {
        let nest = pdf::print(&nest, &options.print)
            .map_err(|e| Stop::plain(&format!("{NESTED} cannot be made: {e}"), "look at the flags for the print"))?;
        let files = [
            Ready { name: NESTED.to_owned(), mark: Mark::PdfComment, bytes: nest },
            Ready { name: lists::NAME.to_owned(), mark: lists::MARK, bytes: list.pdf(options.print.setup.paper)? },
            Ready { name: chart::LENGTHS.to_owned(), mark: chart::LENGTHS_MARK, bytes: chart::lengths(&list)? },
            Ready { name: chart::GROWTH.to_owned(), mark: chart::GROWTH_MARK, bytes: chart::growth(&list)? },
            Ready { name: record::NAME.to_owned(), mark: record::MARK, bytes: text.clone().into_bytes() },
        ];
        write(request, &done, &files)?;
    }
    let end = if done.len() == sizes.len() { End::Done } else { End::Refused };
    let out = match request.answer {
        AnswerAs::Text => told::render(&list, &request.into, &people.unused(), &gone),
        AnswerAs::Json => text,
    };
    Ok(Answer { out, err: String::new(), end })
}

fn few_enough(people: &People) -> Result<(), Stop> {
    let sizes = people.persons.len();
    if sizes <= MOST_SIZES {
        return Ok(());
    }
    let next = format!("at most {MOST_SIZES} lines over each other can be told apart: make several tables of it");
    Err(Stop::plain(&format!("{sizes} sizes are in the table"), &next))
}

/// The sizes of a table over a base without their files, to be looked at.
///
/// # Errors
/// More sizes than can be told apart.
pub(crate) fn looked_at(base: &Base, people: &People) -> Result<Vec<Size>, Stop> {
    few_enough(people)?;
    let folders = folders::of(&people.persons);
    let maker = Maker { files: None, warnings: Warnings::Allowed, base, columns: &people.columns };
    Ok(people.persons.par_iter().zip(&folders).map(|(person, folder)| maker.make(person, folder)).collect())
}

/// Those that could be made.
pub(crate) fn done(sizes: &[Size]) -> Vec<(&Size, &Made)> {
    sizes.iter().filter_map(|size| Some((size, size.made.as_ref()?))).collect()
}

/// How every length grows.
pub(crate) fn growth(done: &[(&Size, &Made)]) -> Growth {
    Growth::of(&done.iter().map(|(_, made)| &made.made.garment).collect::<Vec<_>>())
}

/// All sizes that could be made, over each other.
fn nested(name: &str, done: &[(&Size, &Made)]) -> Option<Drawing> {
    let drawings: Vec<(&str, &Drawing)> =
        done.iter().map(|(size, made)| (size.entry.name.as_str(), &made.made.drawing)).collect();
    Drawing::nested(name, &drawings)
}

fn write(request: &SizesRequest, done: &[(&Size, &Made)], files: &[Ready]) -> Result<(), Stop> {
    for (size, made) in done {
        write_all(&request.into.join(&size.entry.folder), &made.files, request.replace)
            .map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    }
    write_all(&request.into, files, request.replace).map_err(|e| Stop::plain(&e.to_string(), e.next()))?;
    Ok(())
}
