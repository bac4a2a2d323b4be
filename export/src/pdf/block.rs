//! What is written on a piece, set into the room that it has: in one of a few sizes, the same on all
//! pieces of a print.

use super::joins::Joins;
use super::text::{LEADING, Words};
use crate::font::Face;
use engine::drawing::{TextLine, TextStyle};
use kurbo::Rect;

/// Titles are set heavier, which makes them wider by so many sizes.
const HEAVIER: f64 = 0.04;

/// The sizes of text on the pieces of a print, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    pub(super) title: f64,
    pub(super) body: f64,
}

impl Sizes {
    /// From what is read at arm's length to what is read at all.
    const ALL: [Self; 3] =
        [Self { title: 4.2, body: 3.2 }, Self { title: 3.6, body: 2.8 }, Self { title: 3.2, body: 2.4 }];

    /// The largest in which all words have room, of all pieces; else the smallest.
    pub(super) fn of(face: &Face, pieces: &[(&[TextLine], Rect)]) -> Self {
        let fits = |sizes: &&Self| pieces.iter().all(|(text, room)| Block::whole(face, text, *room, **sizes).is_some());
        let [.., smallest] = Self::ALL;
        Self::ALL.iter().find(fits).copied().unwrap_or(smallest)
    }

    /// The size of a line of this style, and the width it may take of so much.
    fn measure(self, style: TextStyle, width: f64) -> (f64, f64) {
        match style {
            TextStyle::Title => (self.title, width - HEAVIER * self.title),
            TextStyle::Pattern | TextStyle::Cutting | TextStyle::Body => (self.body, width),
        }
    }
}

/// What is told of a piece that has not room for all: how often it is cut sooner than whose it is, which
/// every page says.
const SHORTER: [&[TextStyle]; 5] = [
    &[TextStyle::Title, TextStyle::Pattern, TextStyle::Cutting, TextStyle::Body],
    &[TextStyle::Title, TextStyle::Pattern, TextStyle::Cutting],
    &[TextStyle::Title, TextStyle::Cutting],
    &[TextStyle::Title, TextStyle::Pattern],
    &[TextStyle::Title],
];

/// A set line: its words and its size in mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) text: String,
    pub(super) size: f64,
    pub(super) style: TextStyle,
}

/// A text set in a box, with what it covers of it.
#[derive(Clone, Debug)]
pub(super) struct Block {
    pub(super) rows: Vec<Row>,
    /// No wider and no higher than the box.
    pub(super) bounds: Rect,
}

impl Block {
    /// As much of a text as fits a box: its lines, or its details run on in one paragraph, or what matters
    /// most of it. What is left out stands on the first page.
    pub(super) fn of(face: &Face, text: &[TextLine], room: Rect, sizes: Sizes) -> Self {
        if let Some(set) = Self::whole(face, text, room, sizes) {
            return set;
        }
        let run_on = run_on(text);
        let shorter = |styles: &&[TextStyle]| -> Option<Self> {
            let text: Vec<TextLine> = run_on.iter().filter(|line| styles.contains(&line.style)).cloned().collect();
            Self::whole(face, &text, room, sizes)
        };
        let set = SHORTER.iter().find_map(shorter);
        set.unwrap_or_else(|| Self { rows: Vec::new(), bounds: Rect::from_origin_size(room.origin(), (0.0, 0.0)) })
    }

    /// The same in the part of the box that no join of pages runs through, where all of it has room there.
    pub(super) fn clear_of(joins: &Joins, face: &Face, text: &[TextLine], room: Rect, sizes: Sizes) -> Self {
        let set = Self::of(face, text, room, sizes);
        let strips = joins.strips(room).collect::<Vec<_>>();
        if !strips.iter().any(|strip| strip.overlaps(set.bounds)) {
            return set;
        }
        let run_on = run_on(text);
        let parts = joins.parts(room);
        let mut tried = parts.iter().flat_map(|part| [(part, text), (part, run_on.as_slice())]);
        let clear = tried.find_map(|(part, text)| Self::whole(face, text, *part, sizes));
        clear.unwrap_or(set)
    }

    /// All lines of a text, where they fit a box.
    pub(super) fn whole(face: &Face, text: &[TextLine], room: Rect, sizes: Sizes) -> Option<Self> {
        let mut rows = Vec::new();
        for line in text {
            let (size, width) = sizes.measure(line.style, room.width());
            let words = Words::of(face, &line.text);
            if words.longest() * size > width {
                return None;
            }
            rows.extend(words.lines(face, size, width).map(|text| Row {
                text: text.to_owned(),
                size,
                style: line.style,
            }));
        }
        let height: f64 = rows.iter().map(|r| LEADING * r.size).sum();
        let width = rows.iter().map(|r| face.width(&r.text) * r.size + HEAVIER * r.size).fold(0.0, f64::max);
        let bounds = Rect::from_origin_size(room.origin(), (width.min(room.width()), height));
        (height <= room.height()).then_some(Self { rows, bounds })
    }
}

/// The same text with its details as one line.
fn run_on(text: &[TextLine]) -> Vec<TextLine> {
    let (details, others): (Vec<TextLine>, Vec<TextLine>) =
        text.iter().cloned().partition(|line| line.style == TextStyle::Body);
    let details: Vec<&str> = details.iter().map(|line| line.text.as_str()).collect();
    let last = TextLine { style: TextStyle::Body, text: details.join("; ") };
    others.into_iter().chain(Some(last).filter(|line| !line.text.is_empty())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(words: &[&str]) -> Vec<TextLine> {
        let style = |i| if i == 0 { TextStyle::Title } else { TextStyle::Body };
        words.iter().enumerate().map(|(i, w)| TextLine { style: style(i), text: (*w).to_owned() }).collect()
    }

    fn room(width: f64, height: f64) -> Rect {
        Rect::new(0.0, 0.0, width, height)
    }

    #[test]
    fn one_narrow_piece_sets_the_sizes_of_all() {
        let face = Face::sans().unwrap();
        let lines = text(&["front", "cut 1 on the fold", "top edge: turned, soft 12"]);
        let sizes = |rooms: &[Rect]| Sizes::of(face, &rooms.iter().map(|r| (lines.as_slice(), *r)).collect::<Vec<_>>());
        assert_eq!(sizes(&[room(120.0, 60.0)]), Sizes::ALL[0]);
        assert_eq!(sizes(&[room(120.0, 60.0), room(38.0, 12.5)]), Sizes::ALL[1]);
        assert_eq!(sizes(&[room(4.0, 4.0)]), Sizes::ALL[2]);
    }

    #[test]
    fn how_often_a_piece_is_cut_is_told_sooner_than_whose_it_is() {
        let face = Face::sans().unwrap();
        let styles = [TextStyle::Title, TextStyle::Pattern, TextStyle::Cutting, TextStyle::Body];
        let lines: Vec<TextLine> = ["leg band", "Tamsin", "cut 2", "seam allowance 7 mm"]
            .into_iter()
            .zip(styles)
            .map(|(text, style)| TextLine { style, text: text.to_owned() })
            .collect();
        let set = |height| Block::of(face, &lines, room(60.0, height), Sizes::ALL[2]).rows;
        let told = |height| set(height).into_iter().map(|row| row.text).collect::<Vec<_>>();
        assert_eq!(told(11.0), ["leg band", "Tamsin", "cut 2"]);
        assert_eq!(told(8.0), ["leg band", "cut 2"]);
        assert_eq!(told(5.0), ["leg band"]);
    }

    #[test]
    fn nothing_is_set_beyond_its_box() {
        let face = Face::sans().unwrap();
        let lines = text(&["front", "cut 1 on the fold", "top edge: turned, soft 12"]);
        let of = |room| Block::of(face, &lines, room, Sizes::ALL[2]);
        // Two lines fit where three do not, the title alone where two do not, and nothing at all.
        let low = of(room(120.0, 8.0));
        assert!(low.rows.len() == 2 && low.rows[1].text.contains("fold; top edge"), "{low:?}");
        assert_eq!(of(room(120.0, 5.0)).rows.len(), 1);
        assert_eq!(of(room(5.0, 3.0)).rows.len(), 0);
        for width in (4..60).map(f64::from) {
            let set = of(room(width, 30.0));
            assert!(set.bounds.height() <= 30.0);
            assert!(set.rows.iter().all(|r| face.width(&r.text) * r.size <= width), "{set:?}");
        }
    }
}
