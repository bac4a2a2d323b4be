//! `walk`: every seam, crossing and opening, measured.

use super::input::Kind;
use super::stop::Stop;
use super::{drawn, input, reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, MarkLists, Reading};
use crate::terminal::marks::{self, Gap};
use crate::terminal::walk;
use engine::garment::Garment;
use export::number::millionth;
use export::record::Part;
use serde_json::{Value, json};

pub(super) fn run(reading: &Reading, lists: MarkLists) -> Result<Answer, Stop> {
    let by_name = drawn::format(&reading.sheet);
    // What is piped in has no name to be known by.
    let piped = input::is_piped(&reading.sheet).then(|| drawn::contents(&reading.sheet)).transpose()?;
    let format = by_name.or_else(|| match Kind::of(piped.as_deref()?) {
        Some(Kind::Drawn(format)) => Some(format),
        _ => None,
    });
    if let Some(format) = format {
        if reading.variant.is_some() {
            return Err(Stop::plain("a drawing has no variants", "walk it without --variant"));
        }
        let bytes = piped.map_or_else(|| drawn::contents(&reading.sheet), Ok)?;
        return drawn::walk(reading, format, &bytes);
    }
    let read = match piped {
        Some(bytes) => reading::read_of(reading, &bytes)?,
        None => reading::read(reading)?,
    };
    read.stop_at_warnings(reading)?;
    let garment = &read.made.garment;
    let gaps = match lists {
        MarkLists::Shown => Some(marks::gaps(garment)),
        MarkLists::Left => None,
    };
    let out = match reading.answer {
        AnswerAs::Json => as_json(garment, gaps.as_deref())?,
        AnswerAs::Text => {
            let units = read.sheet.units;
            walk::render(garment, units) + &gaps.map(|gaps| marks::render(&gaps, units)).unwrap_or_default()
        }
    };
    Ok(Answer::done(out))
}

fn as_json(garment: &Garment, gaps: Option<&[Gap]>) -> Result<String, Stop> {
    let parts = record::parts(garment, &[Part::Seams, Part::Crossings, Part::Openings])?;
    let Some(gaps) = gaps else { return Ok(parts) };
    record::with(&parts, [("marks", gaps.iter().map(gap).collect())])
}

/// Millimetres with six decimals, as everywhere in the record.
fn gap(gap: &Gap) -> Value {
    let length = millionth(gap.length);
    json!({ "piece": gap.piece.name(), "edge": gap.edge.name(), "from": gap.from.id(), "to": gap.to.id(), "length": length })
}
