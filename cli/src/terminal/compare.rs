//! Two garments side by side.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{heading, plain, wrapped};
use engine::compare::Comparison;
use engine::garment::{Garment, OpeningWalk, Value};
use engine::quantity::Units;
use engine::words::number::{fixed, percent, short};
use engine::words::{Fineness, Speech};
use std::path::Path;

/// The page: names, then both garments.
pub fn render(
    found: &Comparison,
    (names, first, second): (&[String; 2], &Garment, &Garment),
    units: Units,
    written: &[&Path],
) -> String {
    let say = Speech(units);
    let head = heading(&plain(&format!("{} against {}", names[0], names[1]))).trim_start().to_owned();
    let drawn: String =
        written.iter().map(|file| format!("\nWritten: {}\n", plain(&file.display().to_string()))).collect();
    let checks = |all: &[(String, String)]| all.iter().map(|(c, p)| format!("{p} [{c}]")).collect::<Vec<_>>();
    let only = [
        listed("Checks only of the first", &checks(&found.checks_gone)),
        listed("Checks only of the second", &checks(&found.checks_new)),
        listed("Steps only of the first", &found.steps_gone),
        listed("Steps only of the second", &found.steps_new),
    ];
    [head, values(found, say), openings(first, second, say), pieces(found, say), only.concat(), drawn].concat()
}

fn listed(title: &str, lines: &[String]) -> String {
    let all: String = lines.iter().map(|line| format!("  {}\n", wrapped(line, 4))).collect();
    if all.is_empty() { all } else { heading(title) + &all }
}

fn values(found: &Comparison, say: Speech) -> String {
    if found.used.is_empty() {
        return "  every value in use is the same\n".to_owned();
    }
    let mut table = Columns::new(&[("value", Left), ("first", Right), ("second", Right)]);
    let shown = |value: &Option<Value>| match value {
        None => "–".to_owned(),
        Some(Value::Mm(mm)) => say.tool(*mm),
        Some(Value::Percent(p)) => percent(*p),
        Some(Value::Number(n)) => short(*n, 3),
        Some(Value::Word(word)) => word.clone(),
    };
    for differs in &found.used {
        table.line([differs.key.to_string(), shown(&differs.first), shown(&differs.second)]);
    }
    table.text()
}

fn openings(first: &Garment, second: &Garment, say: Speech) -> String {
    let unit = say.unit();
    let mut table = Columns::new(&[
        ("opening", Left),
        ("finish", Left),
        (&format!("edge {unit}"), Right),
        (&format!("joined {unit}"), Right),
        (&format!("cut {unit}"), Right),
        ("worn stretch", Right),
    ]);
    let tape = |mm: Option<f64>| mm.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default();
    for (a, b) in first.openings.iter().zip(&second.openings) {
        let both = |of: &dyn Fn(&OpeningWalk) -> String| {
            let (a, b) = (of(a), of(b));
            if a == b { a } else { format!("{a} | {b}") }
        };
        table.line([
            a.opening.name().to_owned(),
            both(&|o| o.finish.name().to_owned()),
            both(&|o| tape(Some(o.finished))),
            both(&|o| tape(o.elastic.as_ref().map(|e| e.finished_length).or(o.band.as_ref().map(|b| b.length)))),
            both(&|o| tape(o.elastic.as_ref().map(|e| e.cut_length).or(o.band.as_ref().map(|b| b.cut_length)))),
            both(&|o| percent(o.worn.stretch.round())),
        ]);
    }
    heading("Openings, first | second") + &table.text()
}

/// A square inch, mm².
const IN2: f64 = 25.4 * 25.4;

fn pieces(found: &Comparison, say: Speech) -> String {
    let apart = format!("cut lines apart by {}", say.unit());
    // Square millimetres are too many to read.
    let (unit, mm2) = match say.0 {
        Units::In => ("area in²", IN2),
        Units::Cm | Units::Mm => ("area cm²", 100.0),
    };
    let mut table = Columns::new(&[("piece", Left), (unit, Right), (unit, Right), (&apart, Right)]);
    let area = |area: Option<f64>| area.map(|area| fixed(area / mm2, 0)).unwrap_or_default();
    for piece in &found.pieces {
        let apart = piece.apart.map(|mm| say.bare(mm, Fineness::Tool)).unwrap_or_default();
        table.line([piece.name.clone(), area(piece.first), area(piece.second), apart]);
    }
    heading("Pieces, first and second (as they are drawn, on the same axes)") + &table.text()
}
