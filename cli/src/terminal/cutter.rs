//! The file to cut by: how much there is in it, and the cautions that belong to it.

use super::{heading, wrapped};
use engine::quantity::Units;
use engine::words::{Fineness, Speech};
use export::cutter::{Cutting, LASER, Lines, Notches};
use export::dxf::{Curves, CutReport, Options};
use export::number::decimal;

/// A line about the outlines, then the cautions.
pub fn render(report: &CutReport, options: &Options, units: Units) -> String {
    let say = Speech(units);
    let parts = match options.curves {
        Curves::Polylines => "chords and lines",
        Curves::Arcs => "arcs and lines",
        Curves::Splines => "cubics",
    };
    let (width, length) = (say.bare(report.pieces.width, Fineness::Tape), say.tape(report.pieces.height));
    let height = say.tape(report.size.1);
    let CutReport { outlines, parts: count, .. } = report;
    let exact = match options.curves {
        Curves::Splines => "exactly the curve".to_owned(),
        Curves::Polylines | Curves::Arcs => {
            format!("within {} mm of the curve", decimal(options.cutting.tolerance, 3))
        }
    };
    let all = match report.size.1 > report.pieces.height {
        true => format!("; with the notes in the DXF {height} high"),
        false => String::new(),
    };
    let first = format!("{outlines} outlines of {count} {parts}, {exact}, on {width} x {length}{all}");
    let further = [beds(report, &options.cutting, &say), left_out(&options.cutting), kerf(options.cutting.kerf)];
    let lines = std::iter::once(first.as_str()).chain(further.iter().flatten().map(String::as_str)).chain(LASER);
    heading("To cut") + &lines.map(|l| format!("  {}\n", wrapped(l, 2))).collect::<String>()
}

/// How many beds it takes, where there is more than one.
fn beds(report: &CutReport, cutting: &Cutting, say: &Speech) -> Option<String> {
    let (width, length) = cutting.sheet_width.zip(cutting.sheet_length).filter(|_| report.beds > 1)?;
    let (width, length) = (say.bare(width, Fineness::Tape), say.tape(length));
    Some(format!("{} beds of {width} x {length}, one below the other in the files: cut each on its own", report.beds))
}

/// What a machine with one tool does not get.
fn left_out(cutting: &Cutting) -> Option<String> {
    let is_without = cutting.lines == Lines::CutAlone && cutting.notches == Notches::Marks;
    is_without.then(|| "without notches: marks are left out; --notches slits or vees cuts them".to_owned())
}

/// Lasers and knives take away more than this, mm (common practice: 0.1 to 0.3).
const LEAST_KERF: f64 = 0.05;

/// What the kerf makes of the outlines; nothing where none was given.
fn kerf(mm: f64) -> Option<String> {
    let grown = format!("kerf {} mm: outlines are grown by {} mm all round", decimal(mm, 3), decimal(0.5 * mm, 4));
    let is_small = mm < LEAST_KERF;
    let doubt = if is_small { "; that is little for any tool: the flag is in mm" } else { "" };
    (mm > 0.0).then(|| grown + doubt)
}
