//! The order of work: a list at a glance, or every step in full.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{HEADING, heading, plain, wrapped};
use crate::args::Reasons;
use engine::garment::Step;
use engine::quantity::Units;
use engine::words::{Fineness, Speech, work as words};

const TITLE: &str = "Order of work";

/// One line for each step; nothing at all where there are none.
pub fn in_short(steps: &[Step], units: Units) -> String {
    if steps.is_empty() {
        return String::new();
    }
    let speech = Speech(units);
    let length = format!("length, {}", speech.unit());
    let mut table = Columns::new(&[("step", Right), ("what", Left), (&length, Right), ("stitch", Left)]);
    for (n, step) in (1..).zip(steps) {
        let length = words::sewn_length(step).map(|mm| speech.bare(mm, Fineness::Tape)).unwrap_or_default();
        let stitch = step.sewing.map(|s| words::stitch(s.stitch)).unwrap_or_default();
        table.line([format!("{n}"), words::title(step), length, stitch]);
    }
    heading(&format!("{TITLE} (in full: quarterpin work)")) + &table.text()
}

/// Every step in full.
pub fn render(steps: &[Step], units: Units, reasons: Reasons) -> String {
    let full = |(n, step): (usize, &Step)| in_full(n, step, steps, Speech(units), reasons);
    let needle = steps.iter().find_map(|step| step.needle);
    let needle = needle.map(|of| wrapped(&words::setting_up(of), 0) + "\n").unwrap_or_default();
    heading(TITLE).trim_start().to_owned() + &needle + &(1..).zip(steps).map(full).collect::<String>()
}

fn in_full(n: usize, step: &Step, all: &[Step], speech: Speech, reasons: Reasons) -> String {
    let length = words::sewn_length(step).map(|mm| format!(" ({})", speech.tape(mm))).unwrap_or_default();
    let mut text = format!("{n:3}  {HEADING}{}{HEADING:#}{length}\n", plain(&words::title(step)));
    text += &line(&words::does(step, speech));
    if let Some(sewing) = &step.sewing {
        text += &line(&format!("machine: {}", words::sewing(sewing)));
    }
    if let Some(caution) = step.caution {
        text += &line(&format!("care: {}", words::caution(caution)));
    }
    if reasons == Reasons::Shown {
        text += &why(step, all);
    }
    text
}

const INDENT: usize = 5;

fn line(text: &str) -> String {
    format!("{}{}\n", " ".repeat(INDENT), wrapped(text, INDENT))
}

/// The steps that this one waits for, by number and title, each with its reason.
fn why(step: &Step, all: &[Step]) -> String {
    let told = |need: &engine::garment::Need| {
        let place = all.iter().position(|s| s.id == need.step);
        let before = place.map_or_else(|| need.step.name(), |i| format!("{}, {}", i + 1, words::title(&all[i])));
        line(&format!("after {before}: {}", words::because(need.because)))
    };
    step.needs.iter().map(told).collect()
}
