//! Text in lines, wrapped to a width.

use crate::font::Face;
use std::ops::Range;

/// From base line to base line, in sizes.
pub(crate) const LEADING: f64 = 1.3;

/// A text in words, measured once, so that it can be broken for many sizes and widths.
pub(crate) struct Words {
    /// As it is set, one blank between words.
    text: String,
    /// Where each word is in it, and its width in em.
    words: Vec<(Range<usize>, f64)>,
}

impl Words {
    pub(crate) fn of(face: &Face, text: &str) -> Self {
        let settable = face.settable(text);
        let mut text = String::with_capacity(settable.len());
        let mut words: Vec<(Range<usize>, f64)> = Vec::new();
        for word in settable.split(' ').filter(|w| !w.is_empty()) {
            if !text.is_empty() {
                text.push(' ');
            }
            let start = text.len();
            text.push_str(word);
            match words.last_mut() {
                Some((before, width)) if belongs(&text[before.clone()], word) => {
                    before.end = text.len();
                    *width += face.advance(' ') + face.width(word);
                }
                _ => words.push((start..text.len(), face.width(word))),
            }
        }
        Self { text, words }
    }

    /// The lines, no wider than `width`, all in mm. A word that is wider by itself is broken where
    /// it has to be. No words make one empty line.
    pub(crate) fn lines(&self, face: &Face, size: f64, width: f64) -> impl Iterator<Item = &str> {
        self.breaks(face, width / size).into_iter().map(|line| &self.text[line])
    }

    /// The width of the longest word, in em.
    pub(crate) fn longest(&self) -> f64 {
        self.words.iter().map(|(_, width)| *width).fold(0.0, f64::max)
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

/// Does a word stay with the number before it, as its unit or the fraction of it?
fn belongs(before: &str, word: &str) -> bool {
    let unit = word.trim_end_matches([',', ';', ':', '.']);
    let is_fraction = word.contains('/') && word.starts_with(|c: char| c.is_ascii_digit());
    before.ends_with(|c: char| c.is_ascii_digit()) && (is_fraction || ["cm", "mm", "in", "%"].contains(&unit))
}

/// A text broken into lines no wider than `width`, all in mm, as [`Words::lines`] does.
pub(crate) fn wrap(face: &Face, text: &str, size: f64, width: f64) -> Vec<String> {
    Words::of(face, text).lines(face, size, width).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_keeps_its_unit() {
        let face = Face::sans().unwrap();
        for width in (10..40).map(f64::from) {
            let lines = wrap(face, "cut 29 11/16 in of it, in 8.7 %; fold 2 cm.", 3.0, width);
            for line in &lines {
                assert!(["cm", "%", "11/16"].iter().all(|start| !line.starts_with(start)), "{lines:?}");
            }
        }
    }

    #[test]
    fn no_line_is_wider_than_its_room() {
        let face = Face::sans().unwrap();
        let long = "a Donaudampfschifffahrtsgesellschaftskapitänsmützenknopf and more words than one line holds";
        for width in [10.0, 25.0, 60.0] {
            let lines = wrap(face, long, 3.0, width);
            assert!(lines.iter().all(|l| face.width(l) * 3.0 <= width));
            let letters = |s: &str| s.chars().filter(|c| *c != ' ').collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(long));
        }
    }
}
