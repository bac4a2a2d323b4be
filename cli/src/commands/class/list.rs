//! `class.pdf`: for the teacher, on paper: everybody at a glance, and what to buy.

use super::entry::{Entry, Pair, Status};
use super::total::Total;
use crate::commands::stop::Stop;
use crate::terminal::class::{Rest, cloth, odd, part};
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::shopping::SAMPLE;
use engine::words::number::Fineness;
use engine::words::{Speech, shopping};
use export::list::{List, Part, Start, Table, list};
use export::mark::Mark;
use export::pdf::{Part as Bound, bind};
use std::fs;
use std::path::Path;

pub(super) const NAME: &str = "class.pdf";
pub(super) const MARK: Mark = Mark::PdfComment;

/// Whose page it is.
const HERS: &str = "For the teacher alone: it tells what is odd about measurements. Show it to nobody else.";

pub(super) fn pdf(
    name: &str,
    entries: &[Entry],
    left_out: &[String],
    total: &Total,
    units: Units,
    paper: Paper,
) -> Result<Vec<u8>, Stop> {
    let made = entries.iter().filter(|e| e.status == Status::Done).count();
    let about = format!(
        "{made} of {} people have their pattern: {} pages to print in all. Lengths in {}.",
        entries.len(),
        total.pages,
        units.name()
    );
    let mut parts = vec![Part::Paragraph(about)];
    parts.extend(part(left_out).map(|text| Part::Paragraph(text + ".")));
    parts.extend([Part::Paragraph(HERS.to_owned()), Part::Table(people(entries, units))]);
    let odd = odd(entries, "everybody", Rest::InSummary);
    if !odd.is_empty() {
        parts.push(Part::Heading("Odd, to look at".to_owned(), Start::Here));
        parts.extend(odd.into_iter().map(Part::Paragraph));
    }
    parts.push(Part::Heading("To buy".to_owned(), Start::NewPage));
    parts.push(Part::Table(to_buy(total, units)));
    parts.push(Part::Paragraph(remark(Speech(units))));
    let list_of = List { title: format!("Class: {name}"), parts };
    list(&list_of, paper)
        .map_err(|e| Stop::plain(&format!("{NAME} cannot be made: {e}"), "choose another paper with --paper"))
}

fn remark(speech: Speech) -> String {
    format!(
        "Rounded up to what shops sell. Elastic: 5 % over for ends and joins, and {} of each for a sample of every \
         pair, common practice. Cloth is laid along its grain. Thread: all threads of a stitch together, with 15 % \
         over; ratios differ with cloth and tension.",
        speech.about(SAMPLE)
    )
}

fn people(entries: &[Entry], units: Units) -> Table {
    let heads = [
        ("row", 0.5),
        ("name", 2.2),
        ("base", 1.2),
        ("top edge", 1.0),
        ("left leg", 1.0),
        ("right leg", 1.0),
        ("elastic to have", 2.6),
        ("pages", 0.7),
        ("pattern", 2.4),
    ];
    Table {
        heads: heads.map(|(head, share)| (head.to_owned(), share)).to_vec(),
        rows: entries.iter().map(|entry| person(entry, Speech(units))).collect(),
    }
}

fn person(entry: &Entry, speech: Speech) -> Vec<String> {
    let mut cells = vec![entry.row.to_string(), entry.name.clone()];
    let why = || entry.reasons.iter().map(|r| r.text.as_str()).collect::<Vec<_>>().join(" | ");
    match &entry.pair {
        Some(Pair { base, edges, needs, pages, .. }) => {
            cells.push((*base).to_owned());
            cells.extend(edges.iter().map(|mm| speech.bare(*mm, Fineness::Tape)));
            let elastics: Vec<String> = needs
                .elastics
                .iter()
                .map(|e| format!("{} {}", e.name, speech.bare(e.to_have(), Fineness::Tape)))
                .collect();
            cells.push(elastics.join("; "));
            cells.push(pages.to_string());
            cells.push(match entry.status {
                Status::Done => format!("folder {}", entry.folder),
                other => format!("{}: {}", other.name(), why()),
            });
        }
        None => {
            cells.extend(std::iter::repeat_n(String::new(), 6));
            let what = if entry.status == Status::Refused { "refused" } else { "cannot be read" };
            cells.push(format!("{what}: {}", why()));
        }
    }
    cells
}

fn to_buy(total: &Total, units: Units) -> Table {
    let speech = Speech(units);
    let mut rows: Vec<Vec<String>> = Vec::new();
    rows.extend(
        total
            .shopping
            .elastics
            .iter()
            .map(|e| vec!["elastic".to_owned(), shopping::elastic(e, speech), shopping::elastic_parts(e, speech)]),
    );
    rows.extend(total.cloths.iter().map(|c| vec!["cloth".to_owned(), cloth(c, speech), String::new()]));
    rows.extend(
        total
            .shopping
            .threads
            .iter()
            .map(|t| vec!["thread".to_owned(), shopping::thread(t, units), shopping::thread_parts(t, units)]),
    );
    rows.extend(total.shopping.needles.iter().map(|n| vec!["needle".to_owned(), shopping::needle(n), String::new()]));
    rows.extend(total.cost().map(|cost| vec!["cost".to_owned(), cost, String::new()]));
    let heads = [("what", 0.8), ("how much", 4.0), ("of that", 4.0)];
    Table { heads: heads.map(|(head, share)| (head.to_owned(), share)).to_vec(), rows }
}

/// More people than this print from their folders: the file would be too large to handle.
const BOUND: usize = 60;

/// The list with everybody's card behind it, then everybody's pattern.
pub(super) fn with_patterns(list: Vec<u8>, entries: &[Entry], into: &Path) -> Result<Vec<u8>, Stop> {
    let made: Vec<&Entry> = entries.iter().filter(|e| e.status == Status::Done).collect();
    if made.len() > BOUND {
        return Ok(list);
    }
    let mut parts = vec![Bound { title: "For the teacher".to_owned(), bytes: list }];
    for (ending, what) in [("-card.pdf", "card"), (".pdf", "pattern")] {
        for entry in &made {
            let file = into.join(&entry.folder).join(format!("{}{ending}", entry.folder));
            // A file that was not wanted is not there.
            let Ok(bytes) = fs::read(file) else { continue };
            parts.push(Bound { title: format!("{}, {what}", entry.name), bytes });
        }
    }
    bind(parts).map_err(|e| Stop::plain(&format!("{NAME} cannot be made: {e}"), "print from the folders"))
}
