//! The order of work: a list at a glance, or every step in full.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{HEADING, TIE, heading, plain, wrapped};
use crate::args::Reasons;
use engine::garment::Step;
use engine::quantity::Units;
use engine::words::{Fineness, Speech};

const TITLE: &str = "Order of work";

/// One line for each step; nothing at all where there are none.
pub fn in_short(steps: &[Step], units: Units) -> String {
    if steps.is_empty() {
        return String::new();
    }
    let say = Speech(units);
    let length = format!("along {}", say.unit());
    let mut table = Columns::new(&[("step", Right), ("what", Left), (&length, Right), ("stitch, ISO 4915", Left)]);
    for (i, step) in steps.iter().enumerate() {
        let length = step.length.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default();
        table.line([(i + 1).to_string(), step.title.clone(), length, step.stitch.clone().unwrap_or_default()]);
    }
    heading(&format!("{TITLE} (in full: quarterpin work)")) + &table.text()
}

/// Every step in full.
pub fn render(steps: &[Step], units: Units, reasons: Reasons) -> String {
    let steps: String = (1..).zip(steps).map(|(n, step)| in_full(n, step, steps, Speech(units), reasons)).collect();
    heading(TITLE).trim_start().to_owned() + &steps
}

fn in_full(n: usize, step: &Step, all: &[Step], say: Speech, reasons: Reasons) -> String {
    let facts = [step.length.map(|mm| say.tape(mm)), step.stitch.as_ref().map(|code| format!("stitch {code}"))];
    let facts: Vec<String> = facts.into_iter().flatten().collect();
    let facts = if facts.is_empty() { String::new() } else { format!(" ({})", facts.join(", ")) };
    let mut text = format!(
        "{n:3}  {HEADING}{}{HEADING:#}{facts}\n     {}\n",
        plain(&step.title),
        wrapped(&tied(&step.does), INDENT)
    );
    if let Some(caution) = &step.caution {
        text.push_str(&format!("     {}\n", wrapped(&format!("care: {caution}"), INDENT)));
    }
    if reasons == Reasons::Shown {
        text.push_str(&why(step, all));
    }
    text
}

const INDENT: usize = 5;

/// The steps that this one waits for, by number and title, each with its reason.
fn why(step: &Step, all: &[Step]) -> String {
    step.needs
        .iter()
        .map(|need| {
            let place = all.iter().position(|s| s.step == need.before);
            let told = place.map_or_else(|| need.before.clone(), |i| format!("{}, {}", i + 1, all[i].title));
            format!("     {}\n", wrapped(&format!("after {told}: {}", need.because), INDENT))
        })
        .collect()
}

/// A number and its unit stay on one line.
fn tied(text: &str) -> String {
    [" mm", " in)", " %"]
        .iter()
        .fold(text.to_owned(), |text, unit| text.replace(unit, &unit.replace(' ', &TIE.to_string())))
}
