//! The file to cut by: how much there is in it, and the cautions that belong to it.

use super::{heading, wrapped};
use engine::quantity::Units;
use engine::words::{Fineness, Speech};
use export::cutter::LASER;
use export::dxf::{Curves, CutReport, Options};

/// A line about the outlines, then the cautions.
pub fn render(report: &CutReport, options: &Options, units: Units) -> String {
    let say = Speech(units);
    let parts = match options.curves {
        Curves::Polylines => "chords and lines",
        Curves::Arcs => "arcs and lines",
        Curves::Splines => "cubics",
    };
    let (width, height) = (say.bare(report.size.0, Fineness::Tape), say.tape(report.size.1));
    let CutReport { outlines, parts: count, .. } = report;
    let exact = match options.curves {
        Curves::Splines => "exactly the curve".to_owned(),
        Curves::Polylines | Curves::Arcs => {
            format!("within {} of the curve", say.with_unit(options.cutting.tolerance, Fineness::Exact))
        }
    };
    let first = format!("{outlines} outlines of {count} {parts}, {exact}, on {width} x {height}");
    let lines = std::iter::once(first.as_str()).chain(LASER);
    heading("To cut") + &lines.map(|l| format!("  {}\n", wrapped(l, 2))).collect::<String>()
}
