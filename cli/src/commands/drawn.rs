//! Files that were drawn already: read back, measured, looked over.

use super::input::Kind;
use super::stop::Stop;
use super::{input, record};
use crate::answer::{Answer, End};
use crate::args::{AnswerAs, Reading, Warnings};
use crate::terminal::{checks, drawn};
use engine::finding::Level;
use export::mark::PROGRAM;
use export::number::millionth;
use export::read::{Format, LARGEST, Outlines, ReadError, Walked};
use export::record::VERSION;
use export::validate::Doubt;
use serde_json::{Value, json};
use std::io::Read;
use std::path::Path;

/// The format of a file that is not a sheet, by its ending.
pub(super) fn format(file: &Path) -> Option<Format> {
    let ending = file.extension()?.to_str()?.to_ascii_lowercase();
    match ending.as_str() {
        "dxf" => Some(Format::Dxf),
        "svg" => Some(Format::Svg),
        _ => None,
    }
}

/// `walk` on a file: every outline's edges, seams against each other, openings added up.
pub(super) fn walk(reading: &Reading, format: Format, bytes: &[u8]) -> Result<Answer, Stop> {
    // How it begins tells more than how it is called.
    let format = match Kind::of(bytes) {
        Some(Kind::Drawn(seen)) => seen,
        _ => format,
    };
    let found = export::read::read(bytes, format).map_err(|e| unreadable(&reading.sheet, &e))?;
    let walked = export::read::walk(&found);
    let doubts = export::validate::doubts(&found, &walked);
    let out = match reading.answer {
        AnswerAs::Json => as_json(&reading.sheet, &found, &walked, &doubts),
        AnswerAs::Text if doubts.is_empty() => drawn::render(&found, &walked),
        AnswerAs::Text => drawn::render(&found, &walked) + "\n" + &checks::doubts(&doubts),
    };
    // The lengths are the result, so that they are shown either way.
    let is_stopped = reading.warnings == Warnings::Refused && doubts.iter().any(|d| d.level >= Level::Warning);
    Ok(Answer { out, err: String::new(), end: if is_stopped { End::Refused } else { End::Done } })
}

/// `inspect`: is a DXF laid out after ASTM D6673?
pub(super) fn inspect(reading: &Reading) -> Result<Answer, Stop> {
    if format(&reading.sheet) == Some(Format::Svg) {
        return Err(Stop::plain("an SVG is not laid out after ASTM D6673", "inspect a DXF; `walk` takes an SVG"));
    }
    let bytes = contents(&reading.sheet)?;
    if let Some(other @ (Kind::Other(_) | Kind::Drawn(Format::Svg))) = Kind::of(&bytes) {
        let what = format!("{} is {}, and is not laid out after ASTM D6673", name(&reading.sheet), other.name());
        return Err(Stop::plain(&what, "inspect a DXF"));
    }
    let findings = export::validate::exchange(&bytes).map_err(|e| unreadable(&reading.sheet, &e))?;
    let out = match reading.answer {
        AnswerAs::Json => record::doubts(&name(&reading.sheet), &findings)?,
        AnswerAs::Text => checks::doubts(&findings) + verdict(&findings),
    };
    let limit = if reading.warnings == Warnings::Refused { Level::Warning } else { Level::Refusal };
    let end = if findings.iter().any(|f| f.level >= limit) { End::Refused } else { End::Done };
    Ok(Answer { out, err: String::new(), end })
}

fn verdict(findings: &[Doubt]) -> &'static str {
    match findings.iter().map(|f| f.level).max() {
        None | Some(Level::Note) => {
            "  Laid out after ASTM D6673, as far as can be told from the file; nothing is certified.\n"
        }
        Some(Level::Warning) => "  Laid out after ASTM D6673 but for the warnings.\n",
        Some(Level::Refusal) => "  Not laid out after ASTM D6673.\n",
    }
}

/// At most one byte more than is ever read, whatever the file claims to be.
pub(super) fn contents(file: &Path) -> Result<Vec<u8>, Stop> {
    let trouble = |cause: &dyn std::fmt::Display| {
        Stop::plain(&format!("{} cannot be read: {cause}", name(file)), "check its name and its folder")
    };
    if file.is_dir() {
        return Err(trouble(&"it is a folder"));
    }
    let mut bytes = Vec::new();
    let opened = input::open(file).map_err(|e| trouble(&e))?;
    opened.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|e| trouble(&e))?;
    Ok(bytes)
}

/// The error's own words end with what to do.
fn unreadable(file: &Path, e: &ReadError) -> Stop {
    let said = e.to_string();
    let (what, next) = said.rsplit_once(": ").unwrap_or((&said, "save it again"));
    Stop::plain(&format!("{} cannot be used: {what}", name(file)), next)
}

fn name(file: &Path) -> String {
    input::name(file).display().to_string()
}

/// Millimetres and percent with six decimals, as everywhere in the record.
fn mm(v: f64) -> Value {
    json!(millionth(v))
}

fn as_json(file: &Path, found: &Outlines, walked: &Walked, doubts: &[Doubt]) -> String {
    let lines = found.lines.iter().map(|l| {
        let edges =
            l.edges.iter().map(|e| json!({ "edge": e.name, "length": mm(e.length), "found": drawn::how(e.found) }));
        let edges: Value = edges.collect();
        json!({ "piece": l.piece, "line": l.line, "closed": l.is_closed, "length": mm(l.length), "edges": edges })
    });
    let seams = walked.seams.iter().map(|s| {
        // Of cut lines it would say nothing of the seam.
        let difference = if s.is_sewn() { mm(s.length_a - s.length_b) } else { Value::Null };
        json!({ "name": s.name, "line": s.line, "a": s.a, "b": s.b,
                "length_a": mm(s.length_a), "length_b": mm(s.length_b), "difference": difference })
    });
    let openings = walked.openings.iter().map(|o| json!({ "name": o.name, "line": o.line, "length": mm(o.length) }));
    let bands = walked.bands.iter().map(|b| {
        json!({ "band": b.band, "opening": b.opening, "upper": mm(b.upper), "lower": mm(b.lower),
                "ring": mm(b.ring), "reduction": mm(b.reduction()) })
    });
    let doubts = doubts.iter().map(|f| {
        let (value, limit) = (f.measured.map(|m| mm(m.value)), f.measured.map(|m| mm(m.limit)));
        let unit = f.measured.map_or("", |m| m.unit.name());
        let said = f.said();
        json!({ "code": f.code, "level": f.level.name(), "place": said.place, "value": value, "limit": limit,
                "unit": unit, "text": said.text, "next": said.next })
    });
    let all = json!({
        "version": VERSION,
        "program": PROGRAM,
        "file": name(file),
        "units": "mm",
        "lines": lines.collect::<Value>(),
        "seams": seams.collect::<Value>(),
        "openings": openings.collect::<Value>(),
        "bands": bands.collect::<Value>(),
        "checks": doubts.collect::<Value>(),
        "notes": found.notes,
    });
    format!("{all:#}\n")
}
