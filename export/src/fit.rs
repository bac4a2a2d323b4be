//! Text into a box: how large, where each line breaks.
//!
//! Exporters that do not embed a face cannot measure it; a usual width per letter stands in, on
//! the generous side.

use engine::drawing::{TextLine, TextStyle};
use kurbo::{Point, Rect};

/// The width of a letter, of its em; sans faces average 0.5 on running text.
pub(crate) const LETTER: f64 = 0.55;

/// From baseline to baseline, of the em.
const LEADING: f64 = 1.3;

/// A title is so much larger than the rest.
const TITLE: f64 = 1.4;

/// Sizes tried, mm: from what reads at arm's length. Below 2.2 reading gets hard, but small text is
/// better than text over a line.
const LARGEST: f64 = 5.0;
const SMALLEST: f64 = 1.0;
const STEP: f64 = 0.1;

/// Where a line of text is about to stand that starts at a place, y up.
pub(crate) fn covered(at: Point, size: f64, text: &str) -> Rect {
    let wide = LETTER * size * text.chars().count() as f64;
    Rect::new(at.x, at.y - DEPTH * size, at.x + wide, at.y + HEIGHT * size)
}

/// Letters stand so high over the baseline and hang so deep under it, of the em.
const HEIGHT: f64 = 0.8;
const DEPTH: f64 = 0.2;

/// One line as set.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Set {
    /// Its text.
    pub(crate) text: String,
    /// Left end of the baseline.
    pub(crate) at: Point,
    /// The em, mm.
    pub(crate) size: f64,
    /// How it is set.
    pub(crate) style: TextStyle,
}

/// The lines, as large as they go into the box, from its top left corner. What does not go in at
/// the smallest size is left out.
pub(crate) fn into_box(lines: &[TextLine], area: Rect) -> Vec<Set> {
    let steps = ((LARGEST - SMALLEST) / STEP).round() as u32;
    let sizes = (0..=steps).map(|i| LARGEST - f64::from(i) * STEP);
    let mut last = Vec::new();
    for size in sizes {
        last = set(lines, area, size);
        if last.last().is_none_or(|l| l.at.y + 0.3 * l.size <= area.y1) {
            return last;
        }
    }
    last.retain(|l| l.at.y + 0.3 * l.size <= area.y1);
    last
}

fn set(lines: &[TextLine], area: Rect, body: f64) -> Vec<Set> {
    let mut y = area.y0;
    let mut out = Vec::new();
    for line in lines {
        let size = if line.style == TextStyle::Title { body * TITLE } else { body };
        let letters = (area.width() / (LETTER * size)).floor().max(1.0) as usize;
        for text in wrap(&line.text, letters) {
            // The first baseline lies one em below the top.
            y += if out.is_empty() { size } else { size * LEADING };
            out.push(Set { text, at: Point::new(area.x0, y), size, style: line.style });
        }
    }
    out
}

/// Breaks at spaces; a word that is longer than a line is broken where it must.
pub(crate) fn wrap(text: &str, letters: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let mut word: Vec<char> = word.chars().collect();
        let used = line.chars().count();
        if used > 0 && used + 1 + word.len() > letters {
            lines.push(std::mem::take(&mut line));
        }
        if !line.is_empty() {
            line.push(' ');
        }
        while word.len() > letters {
            lines.push(word.drain(..letters).collect());
        }
        line.extend(word);
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(texts: &[&str]) -> Vec<TextLine> {
        texts.iter().map(|t| TextLine { style: TextStyle::Body, text: (*t).to_owned() }).collect()
    }

    fn stays_inside(set: &[Set], area: Rect) {
        for s in set {
            let right = s.at.x + LETTER * s.size * s.text.chars().count() as f64;
            assert!(right <= area.x1 + 1e-9, "{s:?} runs out of {area:?}");
            assert!(s.at.y - s.size >= area.y0 - 1e-9 && s.at.y + 0.3 * s.size <= area.y1 + 1e-9, "{s:?} {area:?}");
        }
    }

    #[test]
    fn short_text_is_set_large() {
        let area = Rect::new(10.0, 20.0, 110.0, 100.0);
        let set = into_box(&lines(&["front", "cut 1"]), area);
        assert_eq!(set.len(), 2);
        assert!((set[0].size - LARGEST).abs() < 1e-9);
        stays_inside(&set, area);
    }

    #[test]
    fn long_text_wraps_and_shrinks_but_keeps_every_word() {
        let area = Rect::new(0.0, 0.0, 40.0, 30.0);
        let text = "side seam allowance seven millimetres, legs finished by an edging that stands out";
        let set = into_box(&lines(&[text, text]), area);
        stays_inside(&set, area);
        let back: Vec<&str> = set.iter().flat_map(|s| s.text.split_whitespace()).collect();
        assert_eq!(back.len(), 2 * text.split_whitespace().count());
        assert!(set.iter().all(|s| s.size >= 2.2));
    }

    #[test]
    fn a_box_that_is_far_too_small_holds_what_it_can() {
        let area = Rect::new(0.0, 0.0, 12.0, 6.0);
        let set = into_box(&lines(&["unbreakablewordofmanyletters and more", "and more", "and more"]), area);
        stays_inside(&set, area);
        assert!(!set.is_empty());
    }

    #[test]
    fn letters_count_not_bytes() {
        assert_eq!(wrap("πρώτη δοκιμή", 12), ["πρώτη δοκιμή"]);
        assert_eq!(wrap("abcdefgh ij", 4), ["abcd", "efgh", "ij"]);
        assert!(wrap("  ", 4).is_empty());
    }
}
