//! A drawing as HP-GL, for pen plotters and older cutters: a pen for each kind of line.
//!
//! Written by hand: IN, SP, PU, PD, SI and LB are all there is to it, and CO where nothing may be drawn that is
//! not cut. One unit is 0.025 mm
//! (40 units to the millimetre, 1016 to the inch), y points up.

use crate::cutter::trace::{self, Trace};
use crate::cutter::{self, Closing, CutterError, Cutting, Layer, Lines, Notches, Stroke, Words, in_force};
use crate::fit;
use crate::mark::BLANK;
use crate::number::decimal;
use crate::number::digits::push_whole;
use crate::plain::seven_bit;
use engine::drawing::Drawing;
use kurbo::Point;
use std::io::Write;

/// Units to the millimetre.
pub const UNITS: f64 = 40.0;

/// So many points to an instruction: the buffers of old plotters are short.
const POINTS: usize = 40;

/// Ends a label.
const END_OF_TEXT: char = '\u{3}';

/// A label's letters stand one and a half of their width apart, capitals are 0.7 em high.
const ADVANCE: f64 = 1.5;
const CAPITALS: f64 = 0.7;

/// The pen of a kind of line; the blade, where there is one, in place 1.
const fn pen(layer: Layer) -> u8 {
    match layer {
        Layer::Cut => 1,
        Layer::Slit => 2,
        Layer::Sewing => 3,
        Layer::SecondRow => 4,
        Layer::Finished | Layer::Fold => 5,
        Layer::Notch => 6,
        Layer::Grain | Layer::Stretch => 7,
        Layer::Text => 8,
    }
}

/// What each pen draws, in words.
const PENS: [(u8, &str); 8] = [
    (pen(Layer::Cut), "outlines"),
    (pen(Layer::Slit), "slits"),
    (pen(Layer::Sewing), "sewing lines"),
    (pen(Layer::SecondRow), "second rows"),
    (pen(Layer::Finished), "finished edges and folds"),
    (pen(Layer::Notch), "notches"),
    (pen(Layer::Grain), "arrows of grain and stretch"),
    (pen(Layer::Text), "text"),
];

/// The drawing as laid out for a cutter, curves as chords: text and marks first, outlines last.
///
/// # Errors
/// [`CutterError`] as for the file to cut by.
pub fn hpgl(drawing: &Drawing, cutting: &Cutting) -> Result<Vec<u8>, CutterError> {
    let is_all = cutting.lines == Lines::All;
    let notes = if is_all { notes(drawing, cutting) } else { Vec::new() };
    let plane = cutter::lay(drawing, cutting, &notes)?;
    let mut out = b"IN;\n".to_vec();
    // It tells programs whose file this is. A pen plotter holds no pen while it is written; a machine that never
    // lays its one tool down gets a comment (HP-GL/2), which older ones pass over up to its semicolon.
    if is_all {
        out.extend_from_slice(b"SP0;\n");
        label(&Words { at: Point::ZERO, size: UNSEEN, text: BLANK.to_owned() }, &mut out);
    } else {
        let _ = writeln!(out, "CO\"{BLANK}\";\nSP{};", pen(Layer::Cut));
    }
    let mut strokes: Vec<&Stroke> = plane.strokes.iter().collect();
    // A pen is taken once; the order of pieces stays within it.
    strokes.sort_by_key(|s| s.layer);
    let mut held = Layer::Text;
    if is_all {
        let _ = writeln!(out, "SP{};", pen(Layer::Text));
        plane.words.iter().for_each(|words| label(words, &mut out));
    }
    for stroke in strokes {
        if is_all && pen(stroke.layer) != pen(held) {
            let _ = writeln!(out, "PU;SP{};", pen(stroke.layer));
        }
        held = stroke.layer;
        line(&trace::chords(stroke, cutting.tolerance - ROUNDING), stroke.closing, &mut out);
    }
    out.extend_from_slice(b"PU;SP0;\n");
    Ok(out)
}

/// What is written beside the pieces: the format knows neither comments nor names of pens.
fn notes(drawing: &Drawing, cutting: &Cutting) -> Vec<String> {
    let blade = match cutting.notches {
        Notches::Marks | Notches::Vees => "a blade goes in place 1 alone",
        Notches::Slits => "a blade goes in places 2 and 1 alone",
    };
    let pens: Vec<String> = PENS.iter().map(|(pen, lines)| format!("{pen} {lines}")).collect();
    let mut notes = cutter::told(drawing, cutting, &format!("Pens: {}; {blade}.", pens.join(", ")));
    let choices = [vec![cutting.tolerance_in_force()], cutting.in_force()].concat();
    notes.push(in_force(&choices));
    notes
}

/// The em of letters that take no room, mm; the format gives sizes in centimetres, by decimals.
const UNSEEN: f64 = 0.01;

/// Half the diagonal of a unit is lost in rounding, mm.
const ROUNDING: f64 = 0.018;

fn label(w: &Words, out: &mut Vec<u8>) {
    // SI takes centimetres.
    let (width, height) = (0.1 * w.size * fit::LETTER / ADVANCE, 0.1 * w.size * CAPITALS);
    let text = seven_bit(&w.text);
    let (x, y) = units(w.at);
    let _ = writeln!(out, "SI{},{};PU{x},{y};LB{text}{END_OF_TEXT}", decimal(width, 4), decimal(height, 4));
}

fn units(p: Point) -> (i64, i64) {
    // Lengths are below 10⁵ mm (outlines are checked), so that nothing is cut off.
    ((p.x * UNITS).round() as i64, (p.y * UNITS).round() as i64)
}

fn push_point(out: &mut Vec<u8>, (x, y): (i64, i64)) {
    push_whole(out, x);
    out.push(b',');
    push_whole(out, y);
}

fn line(trace: &Trace, closing: Closing, out: &mut Vec<u8>) {
    let mut points: Vec<(i64, i64)> = trace.vertices.iter().map(|(p, _)| units(*p)).collect();
    if closing == Closing::Closed {
        points.extend(points.first().copied());
    }
    points.dedup();
    let Some((first, rest)) = points.split_first() else { return };
    out.extend_from_slice(b"PU");
    push_point(out, *first);
    for some in rest.chunks(POINTS) {
        out.extend_from_slice(b";PD");
        for (i, p) in some.iter().enumerate() {
            if i > 0 {
                out.push(b',');
            }
            push_point(out, *p);
        }
    }
    out.extend_from_slice(b";\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mark::Mark;
    use crate::sample;

    #[test]
    fn outlines_close_and_come_last() {
        let text = String::from_utf8(hpgl(&sample::drawing(), &Cutting::default()).unwrap()).unwrap();
        assert!(text.starts_with("IN;\nSP0;\nSI") && text.ends_with("PU;SP0;\n") && text.is_ascii());
        let cut = text.split("SP1;\n").nth(1).unwrap();
        let outlines: Vec<&str> = cut.lines().filter(|l| l.contains("PD")).collect();
        assert_eq!(outlines.len(), 2);
        for outline in outlines {
            let first = outline.strip_prefix("PU").unwrap().split(';').next().unwrap();
            assert!(outline.ends_with(&format!(",{first};")), "{outline}");
            assert!(outline.split(';').all(|i| i.matches(',').count() < 2 * POINTS));
        }
    }

    #[test]
    fn what_each_pen_draws_is_written_beside_the_pieces() {
        let lay = |notches| {
            let cutting = Cutting { notches, sheet_width: Some(2000.0), ..Cutting::default() };
            String::from_utf8(hpgl(&sample::drawing(), &cutting).unwrap()).unwrap()
        };
        let (marks, slits) = (lay(Notches::Marks), lay(Notches::Slits));
        assert!(marks.contains("Pens: 1 outlines, 2 slits, 3 sewing lines,"), "{marks}");
        assert!(marks.contains("a blade goes in place 1 alone") && slits.contains("in places 2 and 1 alone"));
        assert!(marks.contains("choices: tolerance=0.05 kerf=0 notches=marks"), "{marks}");
        // Every pen that is taken is told of.
        for pen in marks.split("SP").skip(1).filter_map(|rest| rest.split(';').next()?.parse::<u8>().ok()) {
            assert!(pen == 0 || PENS.iter().any(|(told, _)| *told == pen), "{pen}");
        }
    }

    /// The mark of the others is smaller than a unit.
    #[test]
    fn a_machine_with_one_tool_gets_one_pen_and_no_words() {
        let made = |lines| {
            let cutting = Cutting { lines, notches: Notches::Slits, ..Cutting::default() };
            String::from_utf8(hpgl(&sample::drawing(), &cutting).unwrap()).unwrap()
        };
        let text = made(Lines::CutAlone);
        let pens: Vec<&str> = text.split("SP").skip(1).filter_map(|rest| rest.split(';').next()).collect();
        assert_eq!(pens, ["1", "0"]);
        assert!(!text.contains("LB") && Mark::HpglLabel.is_in(text.as_bytes()));
        // Whoever passes over what is no instruction it knows finds nothing else but lines.
        let words = text.split(';').map(|it| it.trim().get(..2).unwrap_or_default());
        assert!(words.into_iter().all(|word| ["", "IN", "CO", "SP", "PU", "PD"].contains(&word)), "{text}");
        let size = made(Lines::All);
        let size = size.split("SI").nth(1).and_then(|rest| rest.split(';').next()).unwrap();
        assert!(size.split(',').all(|cm| (0.0..1.0).contains(&(10.0 * UNITS * cm.parse::<f64>().unwrap()))), "{size}");
    }

    #[test]
    fn awkward_names_end_no_label() {
        let mut drawing = sample::awkward();
        drawing.pieces[0].text[1].text = "a\u{3}PD0,0;".to_owned();
        let text = String::from_utf8(hpgl(&drawing, &Cutting::default()).unwrap()).unwrap();
        let labels = text.matches("LB").count();
        assert_eq!(text.matches(END_OF_TEXT).count(), labels);
        assert!(text.is_ascii());
    }

    #[test]
    fn the_same_bytes_every_time() {
        let once = hpgl(&sample::drawing(), &Cutting::default()).unwrap();
        assert_eq!(once, hpgl(&sample::drawing(), &Cutting::default()).unwrap());
    }
}
