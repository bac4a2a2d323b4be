//! The file to cut by: how much there is in it, and the cautions that belong to it.

use super::{heading, wrapped};
use engine::quantity::Units;
use engine::words::{Fineness, Speech};
use export::cutter::{CutExtent, Cutting, LASER, Lines, Notches};
use export::dxf::{Curves, CutReport, Options};
use export::hpgl::UNITS;
use export::number::decimal;

/// What the pattern and its files have, as far as it is told of here.
#[derive(Clone, Copy, Debug)]
pub struct Has {
    /// Pieces that are halves.
    pub halves: bool,
    /// A file for a pen plotter.
    pub plot: bool,
}

/// A line about the outlines, what there is to say of beds and choices, then the cautions.
pub fn render(report: &CutReport, options: &Options, has: Has, units: Units) -> String {
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
    let has_notes = report.size.1 > report.pieces.height;
    let all = if has_notes { format!("; with the notes in the DXF {height} high") } else { String::new() };
    let s = if *outlines == 1 { "" } else { "s" };
    let first = format!("{outlines} outline{s} of {count} {parts}, {exact}, on {width} x {length}{all}");
    let beyond = has.plot.then(|| beyond_old_plotters(report, &options.cutting, say)).flatten();
    let further = [beds(report, &options.cutting), beyond, kerf(options.cutting.kerf)];
    let further = further.into_iter().chain(left_out(&options.cutting, has.halves)).flatten().collect::<Vec<_>>();
    let lines = std::iter::once(first.as_str()).chain(further.iter().map(String::as_str)).chain(LASER);
    heading("To cut") + &lines.map(|l| format!("  {}\n", wrapped(l, 2))).collect::<String>()
}

/// What older plotters count up to (a signed number of 16 bits, from memory), mm.
const OLD_PLOTTERS: f64 = 32767.0 / UNITS;

/// A plot that an older plotter would end at the edge of its numbers.
fn beyond_old_plotters(report: &CutReport, cutting: &Cutting, say: Speech) -> Option<String> {
    let remedy = match (report.beds.len() > 1, cutting.bed) {
        (true, None) => "--bed N draws one bed alone",
        _ => "--cut-width and --cut-length keep within it",
    };
    let is_beyond = report.size.0.max(report.size.1) > OLD_PLOTTERS;
    is_beyond.then(|| format!("the plot goes beyond {}, where older plotters stop; {remedy}", say.tape(OLD_PLOTTERS)))
}

/// What lies on which bed, where there is more than one.
fn beds(report: &CutReport, cutting: &Cutting) -> Option<String> {
    let (width, length) = cutting.sheet_width.zip(cutting.sheet_length).filter(|_| report.beds.len() > 1)?;
    let [width, length] = [width, length].map(|mm| decimal(mm, 1));
    let on = |(i, pieces): (usize, &Vec<String>)| format!("bed {}: {}", i + 1, counted(pieces));
    let each: Vec<String> = report.beds.iter().enumerate().map(on).collect();
    let next = match cutting.bed {
        None => "in the files one lies below the other; --bed N draws one alone".to_owned(),
        Some(bed) => format!("the files have bed {bed} alone"),
    };
    Some(format!("{} beds of {width} x {length} mm, {}; {next}", report.beds.len(), each.join("; ")))
}

/// Pieces of one name are told once.
fn counted(pieces: &[String]) -> String {
    let count = |name: &String| pieces.iter().filter(|other| *other == name).count();
    let is_first = |i: usize| !pieces[..i].contains(&pieces[i]);
    let each = pieces.iter().enumerate().filter(|(i, _)| is_first(*i)).map(|(_, name)| match count(name) {
        1 => name.clone(),
        n => format!("{n} {name}"),
    });
    each.collect::<Vec<_>>().join(", ")
}

/// What was chosen, and is not there.
fn left_out(cutting: &Cutting, has_halves: bool) -> [Option<String>; 3] {
    let no_marks = cutting.lines == Lines::CutAlone && cutting.notches == Notches::Marks;
    let are_halves = cutting.extent == CutExtent::Half;
    let no_slits = are_halves && has_halves && cutting.notches == Notches::Slits;
    [
        no_marks.then(|| "without notches: marks are left out; --notches slits or vees cuts them".to_owned()),
        no_slits.then(|| "halves have no slit at their fold: mark it where the cloth is folded".to_owned()),
        (are_halves && !has_halves)
            .then(|| "no piece is a half: both sides differ, so that --halves changes nothing".to_owned()),
    ]
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
