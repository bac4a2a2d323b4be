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
    let mut sizes = (0..=steps).map(|i| LARGEST - f64::from(i) * STEP);
    let words: Vec<Vec<usize>> = lines.iter().map(|l| lengths(&l.text)).collect();
    let size = sizes.find(|size| foot(lines, &words, area, *size) <= area.y1).unwrap_or(SMALLEST);
    let mut last = set(lines, area, size);
    last.retain(|l| l.at.y + 0.3 * l.size <= area.y1);
    last
}

/// How many letters each word has.
fn lengths(text: &str) -> Vec<usize> {
    text.split_whitespace().map(|word| word.chars().count()).collect()
}

/// How far down the lines come at a size, as [`set`] sets them.
fn foot(lines: &[TextLine], words: &[Vec<usize>], area: Rect, body: f64) -> f64 {
    let (mut y, mut foot) = (area.y0, f64::NEG_INFINITY);
    for (line, words) in lines.iter().zip(words) {
        let (size, letters) = measure(line.style, area, body);
        for _ in 0..count(words, letters) {
            y += if foot == f64::NEG_INFINITY { size } else { size * LEADING };
            foot = y + 0.3 * size;
        }
    }
    foot
}

/// The em of a line, and how many letters of it go into the box.
fn measure(style: TextStyle, area: Rect, body: f64) -> (f64, usize) {
    let size = if style == TextStyle::Title { body * TITLE } else { body };
    (size, (area.width() / (LETTER * size)).floor().max(1.0) as usize)
}

/// Into how many lines words of so many letters are broken, as [`wrap`] breaks them.
fn count(words: &[usize], letters: usize) -> usize {
    let (mut lines, mut used) = (0, 0);
    for word in words {
        if used > 0 && used + 1 + word > letters {
            lines += 1;
            used = 0;
        }
        used += usize::from(used > 0);
        // A word that is longer than a line fills some; its rest, or all of a full last line, stays open.
        let full = word.saturating_sub(1) / letters;
        lines += full;
        used = if full > 0 { word - full * letters } else { used + word };
    }
    lines + usize::from(used > 0)
}

fn set(lines: &[TextLine], area: Rect, body: f64) -> Vec<Set> {
    let mut y = area.y0;
    let mut out = Vec::new();
    for line in lines {
        let (size, letters) = measure(line.style, area, body);
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
    fn lines_are_counted_as_they_are_broken() {
        for text in ["", "a", "side seam allowance", "Donaudampfschiff ab c", "abcdefgh ij", "  a   bb ccc dddd eeeee "]
        {
            for letters in 1..24 {
                assert_eq!(count(&lengths(text), letters), wrap(text, letters).len(), "{text} {letters}");
            }
        }
    }

    #[test]
    fn letters_count_not_bytes() {
        assert_eq!(wrap("πρώτη δοκιμή", 12), ["πρώτη δοκιμή"]);
        assert_eq!(wrap("abcdefgh ij", 4), ["abcd", "efgh", "ij"]);
        assert!(wrap("  ", 4).is_empty());
    }
}
