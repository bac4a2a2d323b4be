//! Text in lines: wrapping to a width and the largest size that fits a box.

use crate::font::Face;
use engine::drawing::{TextLine, TextStyle};
use kurbo::{Rect, Size};

/// From base line to base line, in sizes.
pub(super) const LEADING: f64 = 1.3;
/// A title is so much larger than the rest.
const TITLE: f64 = 1.35;
/// Sizes that are tried on a piece, mm.
const LARGEST: f64 = 5.0;
const SMALLEST: f64 = 2.2;
const STEP: f64 = 0.1;

/// A text broken into lines no wider than `width`, all in mm. A word that is wider by itself is
/// broken where it has to be.
pub(super) fn wrap(face: &Face, text: &str, size: f64, width: f64) -> Vec<String> {
    let room = width / size;
    let text = face.settable(text);
    let blank = face.advance(' ');
    let mut lines: Vec<String> = Vec::new();
    let (mut line, mut length) = (String::new(), 0.0);
    for word in text.split(' ').filter(|w| !w.is_empty()) {
        let step = face.width(word);
        if !line.is_empty() && length + blank + step <= room {
            line.push(' ');
            line.push_str(word);
            length += blank + step;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = if step <= room { word.to_owned() } else { break_word(face, word, room, &mut lines) };
        length = if step <= room { step } else { face.width(&line) };
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// Pushes the parts of a word that fill a line; what is left starts the next one.
fn break_word(face: &Face, word: &str, room: f64, lines: &mut Vec<String>) -> String {
    let mut part = String::new();
    let mut width = 0.0;
    for c in word.chars() {
        let step = face.advance(c);
        if width + step > room && !part.is_empty() {
            lines.push(std::mem::take(&mut part));
            width = 0.0;
        }
        part.push(c);
        width += step;
    }
    part
}

/// A set line: its words and its size in mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) text: String,
    pub(super) size: f64,
    pub(super) style: TextStyle,
}

/// A text set in a box, with what it covers of it.
pub(super) struct Block {
    pub(super) rows: Vec<Row>,
    /// No wider than the box; lower where the text asks for less.
    pub(super) bounds: Rect,
}

impl Block {
    /// A text at the largest size that fits a box.
    pub(super) fn of(face: &Face, text: &[TextLine], room: Rect) -> Self {
        let rows = fit(face, text, room.size());
        let bounds = Rect::from_origin_size(room.origin(), (room.width(), height(&rows)));
        Self { rows, bounds }
    }
}

/// A block of text at the largest size that fits a box; at the smallest where none does.
fn fit(face: &Face, text: &[TextLine], room: Size) -> Vec<Row> {
    let steps = ((LARGEST - SMALLEST) / STEP).round() as u32;
    let sizes = (0..=steps).map(|k| LARGEST - f64::from(k) * STEP);
    let mut rows = Vec::new();
    for size in sizes {
        rows = set(face, text, size, room.width);
        if height(&rows) <= room.height {
            break;
        }
    }
    rows
}

fn set(face: &Face, text: &[TextLine], size: f64, width: f64) -> Vec<Row> {
    let rows = text.iter().flat_map(|line| {
        let size = if line.style == TextStyle::Title { TITLE * size } else { size };
        // Titles are set heavier, which makes them a little wider.
        let room = if line.style == TextStyle::Title { width - 0.04 * size } else { width };
        wrap(face, &line.text, size, room).into_iter().map(move |text| Row { text, size, style: line.style })
    });
    rows.collect()
}

/// The height of a block of rows, mm.
fn height(rows: &[Row]) -> f64 {
    rows.iter().map(|r| LEADING * r.size).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(words: &[&str]) -> Vec<TextLine> {
        let style = |i| if i == 0 { TextStyle::Title } else { TextStyle::Body };
        words.iter().enumerate().map(|(i, w)| TextLine { style: style(i), text: (*w).to_owned() }).collect()
    }

    #[test]
    fn no_line_is_wider_than_its_room() {
        let face = Face::sans().unwrap();
        let long = "a Donaudampfschifffahrtsgesellschaftskapitänsmützenknopf and more words than one line holds";
        for width in [10.0, 25.0, 60.0] {
            let lines = wrap(&face, long, 3.0, width);
            assert!(lines.iter().all(|l| face.width(l) * 3.0 <= width));
            let letters = |s: &str| s.chars().filter(|c| *c != ' ').collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(long));
        }
    }

    #[test]
    fn the_size_fills_the_box() {
        let face = Face::sans().unwrap();
        let lines = text(&["first pair – front", "cut 1 on the fold", "top edge: turned, soft 12"]);
        let large = fit(&face, &lines, Size::new(120.0, 60.0));
        let small = fit(&face, &lines, Size::new(40.0, 14.0));
        assert_eq!(large[1].size, LARGEST);
        assert!(small[1].size < LARGEST && height(&small) <= 14.0);
        let least = fit(&face, &lines, Size::new(10.0, 3.0));
        assert!((least.last().unwrap().size - SMALLEST).abs() < 1e-9);
    }
}
