//! Text in lines: wrapping to a width and the largest size that fits a box.

use crate::font::Face;
use engine::drawing::{TextLine, TextStyle};
use kurbo::{Rect, Size};
use std::ops::Range;

/// From base line to base line, in sizes.
pub(super) const LEADING: f64 = 1.3;
/// A title is so much larger than the rest.
const TITLE: f64 = 1.35;
/// Sizes that are tried on a piece, mm.
const LARGEST: f64 = 5.0;
const SMALLEST: f64 = 2.2;
const STEP: f64 = 0.1;

/// A text in words, measured once, so that it can be broken for many sizes and widths.
pub(super) struct Words {
    /// As it is set, one blank between words.
    text: String,
    /// Where each word is in it, and its width in em.
    words: Vec<(Range<usize>, f64)>,
}

impl Words {
    pub(super) fn of(face: &Face, text: &str) -> Self {
        let settable = face.settable(text);
        let (mut text, mut words) = (String::with_capacity(settable.len()), Vec::new());
        for word in settable.split(' ').filter(|w| !w.is_empty()) {
            if !text.is_empty() {
                text.push(' ');
            }
            let start = text.len();
            text.push_str(word);
            words.push((start..text.len(), face.width(word)));
        }
        Self { text, words }
    }

    /// The lines, no wider than `width`, all in mm. A word that is wider by itself is broken where
    /// it has to be. No words make one empty line.
    pub(super) fn lines(&self, face: &Face, size: f64, width: f64) -> impl Iterator<Item = &str> {
        self.breaks(face, width / size).into_iter().map(|line| &self.text[line])
    }

    /// How many [lines](Self::lines) there are.
    pub(super) fn count(&self, face: &Face, size: f64, width: f64) -> usize {
        self.breaks(face, width / size).len()
    }

    /// Where each line is in the text; `room` in em.
    fn breaks(&self, face: &Face, room: f64) -> Vec<Range<usize>> {
        let blank = face.advance(' ');
        let mut lines = Vec::new();
        let mut open: Option<(Range<usize>, f64)> = None;
        for (word, step) in &self.words {
            if let Some((line, length)) = &mut open {
                if *length + blank + step <= room {
                    line.end = word.end;
                    *length += blank + step;
                    continue;
                }
                lines.push(line.clone());
            }
            open = Some(if *step <= room { (word.clone(), *step) } else { self.broken(face, word, room, &mut lines) });
        }
        match open {
            Some((line, _)) => lines.push(line),
            None => lines.push(0..0),
        }
        lines
    }

    /// Pushes the parts of a word that fill a line; what is left starts the next one.
    fn broken(
        &self,
        face: &Face,
        word: &Range<usize>,
        room: f64,
        lines: &mut Vec<Range<usize>>,
    ) -> (Range<usize>, f64) {
        let (mut start, mut width) = (word.start, 0.0);
        for (at, c) in self.text[word.clone()].char_indices().map(|(i, c)| (word.start + i, c)) {
            let step = face.advance(c);
            if width + step > room && at > start {
                lines.push(start..at);
                (start, width) = (at, 0.0);
            }
            width += step;
        }
        (start..word.end, width)
    }
}

/// A text broken into lines no wider than `width`, all in mm, as [`Words::lines`] does.
pub(super) fn wrap(face: &Face, text: &str, size: f64, width: f64) -> Vec<String> {
    Words::of(face, text).lines(face, size, width).map(str::to_owned).collect()
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

/// A block of text at the largest size that fits a box; at the smallest where none does, its body
/// run on in one paragraph.
fn fit(face: &Face, text: &[TextLine], room: Size) -> Vec<Row> {
    let lines: Vec<(Words, TextStyle)> = text.iter().map(|l| (Words::of(face, &l.text), l.style)).collect();
    let (lines, body) = match largest(face, &lines, room) {
        Some(body) => (lines, body),
        None => {
            let lines = run_on(text).iter().map(|l| (Words::of(face, &l.text), l.style)).collect::<Vec<_>>();
            let body = largest(face, &lines, room).unwrap_or(SMALLEST);
            (lines, body)
        }
    };
    let rows = lines.iter().flat_map(|(words, style)| {
        let (size, width) = measure(*style, body, room.width);
        words.lines(face, size, width).map(move |text| Row { text: text.to_owned(), size, style: *style })
    });
    rows.collect()
}

/// The largest size of the body at which all lines fit a box.
fn largest(face: &Face, lines: &[(Words, TextStyle)], room: Size) -> Option<f64> {
    let steps = ((LARGEST - SMALLEST) / STEP).round() as u32;
    let mut sizes = (0..=steps).map(|k| LARGEST - f64::from(k) * STEP);
    let height = |(words, style): &(Words, TextStyle), body: f64| {
        let (size, width) = measure(*style, body, room.width);
        LEADING * size * words.count(face, size, width) as f64
    };
    sizes.find(|body| lines.iter().map(|l| height(l, *body)).sum::<f64>() <= room.height)
}

/// The titles, then everything else as one line.
fn run_on(text: &[TextLine]) -> Vec<TextLine> {
    let (titles, body): (Vec<TextLine>, Vec<TextLine>) =
        text.iter().cloned().partition(|line| line.style == TextStyle::Title);
    let body = body.iter().map(|line| line.text.as_str()).collect::<Vec<_>>().join("; ");
    titles.into_iter().chain([TextLine { style: TextStyle::Body, text: body }]).collect()
}

/// The size of a line of this style, where the body has that size, and the width it may take.
fn measure(style: TextStyle, body: f64, width: f64) -> (f64, f64) {
    match style {
        // Titles are set heavier, which makes them a little wider.
        TextStyle::Title => (TITLE * body, width - 0.04 * TITLE * body),
        _ => (body, width),
    }
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
        // Two lines fit where three do not.
        let low = fit(&face, &lines, Size::new(120.0, 7.0));
        assert!(low.len() == 2 && height(&low) <= 7.0 && low[1].text.contains("fold; top edge"), "{low:?}");
        let least = fit(&face, &lines, Size::new(10.0, 3.0));
        assert!((least.last().unwrap().size - SMALLEST).abs() < 1e-9);
    }
}
