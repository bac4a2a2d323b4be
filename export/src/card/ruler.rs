//! Elastics at true size: a ruler from cut end to cut end, folded into rows, with the marks on it.

use super::block::{BODY, Block};
use crate::font::Face;
use crate::pdf::canvas::{Anchor, Canvas, Setting, Typesetter};
use crate::pdf::style::LineStyle;
use crate::pdf::tags::Tag;
use engine::drawing::card::{Card, Strip, StripMark};
use engine::quantity::Units;
use engine::words::card::{RULER, STRIP_ROW, STRIPS};
use kurbo::{Point, Vec2};

/// From one row to the next, mm: where there is room, and at least.
const PITCHES: [f64; 2] = [11.0, 8.7];
/// From the top of a row to its line.
const LINE: f64 = 3.4;
/// Between the words of a strip and its first row: a number close under a word is read as its footnote.
const UNDER: f64 = 1.2;
/// After a strip.
const AFTER: f64 = 1.6;
/// Left of the line.
const LEFT: f64 = 2.0;

const RULE: LineStyle = LineStyle { width: 0.15, dash: &[], grey: 0.0 };
const EDGE: LineStyle = LineStyle { width: 0.5, dash: &[], grey: 0.0 };

/// How a ruler is parted, mm: its rows, its figures, its ticks.
struct Scale {
    row: f64,
    unit: f64,
    /// Figures at so many units.
    figure: usize,
    /// Ticks to a unit.
    ticks: usize,
    /// What a figure counts for one unit.
    counts: usize,
}

impl Scale {
    const fn of(units: Units) -> Self {
        match units {
            Units::Cm => Self { row: STRIP_ROW.0, unit: 10.0, figure: 3, ticks: 2, counts: 1 },
            Units::Mm => Self { row: STRIP_ROW.0, unit: 10.0, figure: 3, ticks: 2, counts: 10 },
            Units::In => Self { row: 25.4 * STRIP_ROW.1, unit: 25.4, figure: 1, ticks: 8, counts: 1 },
        }
    }
}

/// All strips of a card.
pub(super) struct Strips<'c> {
    head: Block,
    strips: Vec<Measured<'c>>,
    scale: Scale,
    pitch: f64,
}

struct Measured<'c> {
    strip: &'c Strip,
    head: Block,
    /// Is it drawn? Its marks are told in any case.
    drawn: bool,
}

impl<'c> Strips<'c> {
    pub(super) fn of(face: &Face, card: &'c Card, width: f64) -> Self {
        let head = if card.strips.is_empty() {
            Block::default()
        } else {
            Block::list(face, STRIPS, std::slice::from_ref(&card.strips_use), width)
        };
        let measured = |strip: &'c Strip| {
            let text = format!("{}. {}", strip.heading, strip.told);
            Measured { strip, head: Block::text(face, &text, BODY, width), drawn: true }
        };
        let strips = card.strips.iter().map(measured).collect();
        Self { head, strips, scale: Scale::of(card.units), pitch: PITCHES[0] }
    }

    /// Can all be drawn in a room of this height?
    pub(super) fn fits(&mut self, room: f64) -> bool {
        self.pitch = PITCHES[1];
        self.height() <= room
    }

    /// Draws them closer together, and leaves rulers out, the last first, until the others fit: marks are told
    /// in any case.
    pub(super) fn fit(&mut self, room: f64) {
        self.pitch = PITCHES[0];
        self.pitch = PITCHES[usize::from(self.height() > room)];
        // One without marks is measured as well with a tape.
        let (plain, marked): (Vec<usize>, Vec<usize>) =
            (0..self.strips.len()).rev().partition(|i| self.strips[*i].strip.marks.is_empty());
        for i in plain.into_iter().chain(marked) {
            if self.height() <= room {
                return;
            }
            self.strips[i].drawn = false;
        }
    }

    pub(super) fn height(&self) -> f64 {
        self.head.height() + self.strips.iter().map(|s| self.one_height(s)).sum::<f64>()
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        self.head.draw(canvas, setter, at);
        let mut at = at + Vec2::new(0.0, self.head.height());
        for measured in &self.strips {
            measured.head.draw(canvas, setter, at);
            if measured.drawn {
                let under = at + Vec2::new(LEFT, measured.head.height() + UNDER);
                canvas.part(Tag::Figure(RULER.to_owned()));
                self.one(canvas, setter, measured.strip, under);
                canvas.done();
            }
            at.y += self.one_height(measured);
        }
    }

    fn one_height(&self, of: &Measured<'_>) -> f64 {
        let ruler = if of.drawn { UNDER + rows(of.strip, &self.scale) as f64 * self.pitch } else { 0.0 };
        of.head.height() + ruler + AFTER
    }

    fn one(&self, canvas: &mut Canvas, setter: &mut Typesetter, strip: &Strip, at: Point) {
        let count = rows(strip, &self.scale);
        for n in 0..count {
            let from = n as f64 * self.scale.row;
            let to = if n + 1 == count { strip.length } else { from + self.scale.row };
            let row = Row { from, to, row: self.scale.row, at: at + Vec2::new(0.0, n as f64 * self.pitch + LINE) };
            row.ruler(canvas, setter, &self.scale);
            row.ends(canvas, strip.length);
            // A mark on the border of two rows stands in both.
            for mark in strip.marks.iter().filter(|m| (from..=to).contains(&m.at)) {
                row.mark(canvas, setter, mark);
            }
        }
    }
}

/// mm; so little makes no row of its own, but lengthens the one before.
const SHORT: f64 = 3.5;

fn rows(strip: &Strip, scale: &Scale) -> usize {
    ((strip.length - SHORT) / scale.row).ceil().max(1.0) as usize
}

/// A part of a strip, its line on this place.
struct Row {
    from: f64,
    to: f64,
    /// As long as it can be, mm.
    row: f64,
    at: Point,
}

impl Row {
    fn place(&self, along: f64) -> Point {
        self.at + Vec2::new(along - self.from, 0.0)
    }

    fn ruler(&self, canvas: &mut Canvas, setter: &mut Typesetter, scale: &Scale) {
        canvas.draw_as(RULE);
        canvas.line(self.place(self.from), self.place(self.to));
        let step = scale.unit / scale.ticks as f64;
        let first = (self.from / step - 1e-6).ceil() as usize;
        let last = (self.to / step + 1e-6).floor() as usize;
        for n in first..=last {
            let along = n as f64 * step;
            let depth = if n.is_multiple_of(scale.ticks) {
                2.2
            } else if (2 * n).is_multiple_of(scale.ticks) {
                1.5
            } else {
                0.9
            };
            canvas.draw_as(RULE);
            canvas.line(self.place(along), self.place(along) + Vec2::new(0.0, depth));
            let units = n / scale.ticks;
            let is_start = (along - self.from).abs() < 1e-6;
            if n.is_multiple_of(scale.ticks) && (units.is_multiple_of(scale.figure) || is_start) {
                let under = self.place(along) + Vec2::new(0.0, 2.4 + 0.75 * BODY);
                let setting = Setting::level(BODY).anchored(Anchor::Middle);
                canvas.text(setter, under, setting, &(units * scale.counts).to_string());
            }
        }
    }

    /// A bar where the elastic is cut; an arrow where it goes on in the next row.
    fn ends(&self, canvas: &mut Canvas, whole: f64) {
        canvas.draw_as(EDGE);
        for end in [0.0, whole].into_iter().filter(|end| (self.from..=self.to).contains(end)) {
            canvas.line(self.place(end) - Vec2::new(0.0, 3.0), self.place(end) + Vec2::new(0.0, 2.2));
        }
        if self.to < whole {
            let tip = self.place(self.to) + Vec2::new(3.0, -1.2);
            canvas.solid(&[tip, tip + Vec2::new(-2.2, -1.0), tip + Vec2::new(-2.2, 1.0)]);
        }
    }

    /// A point that stands on the line, its number beside it.
    fn mark(&self, canvas: &mut Canvas, setter: &mut Typesetter, mark: &StripMark) {
        let tip = self.place(mark.at);
        canvas.solid(&[tip, tip + Vec2::new(-0.9, -1.7), tip + Vec2::new(0.9, -1.7)]);
        // At the end of a row it stands before the point, clear of the arrow.
        let number = mark.number.to_string();
        let wide = setter.face.width(&number) * BODY;
        let beside = if self.from + self.row - mark.at < NEAR_END { -1.2 - wide } else { 1.3 };
        canvas.text(setter, tip + Vec2::new(beside, -0.5), Setting::level(BODY).heavy(), &number);
    }
}

/// mm; no number has room so near the end of a row.
const NEAR_END: f64 = 5.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// A ruler that ends on a figure of its own never makes an empty row.
    #[test]
    fn rows_hold_the_whole_length() {
        let strip = |length| Strip { heading: String::new(), length, marks: Vec::new(), told: String::new() };
        for (units, row) in [(Units::Cm, 180.0), (Units::Mm, 180.0), (Units::In, 177.8)] {
            let scale = Scale::of(units);
            for (length, count) in [(1.0, 1), (row, 1), (row + 3.4, 1), (row + 3.6, 2), (3.5 * row, 4)] {
                assert_eq!(rows(&strip(length), &scale), count, "{units:?} {length}");
            }
        }
    }

    /// A number of a mark is nearer to its own line than to the words over it.
    #[test]
    fn a_number_is_no_footnote() {
        let capitals = 0.73 * BODY;
        assert!(UNDER + LINE - 0.5 - capitals > 3.0 * 0.5);
    }
}
