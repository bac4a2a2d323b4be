//! Words in lines, measured before they are set; and the order of work in two columns.

use super::cross;
use crate::font::Face;
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use crate::pdf::text::{LEADING, wrap};
use engine::drawing::card::Part;
use kurbo::{Point, Rect};

/// Sizes of text, mm; the smallest is nine points, to be read beside a machine.
pub(super) const BODY: f64 = 3.2;
pub(super) const HEADING: f64 = 3.9;
pub(super) const TITLE: f64 = 5.6;

/// Lines of one size, each with its place from the left.
#[derive(Default)]
pub(super) struct Block {
    rows: Vec<Row>,
}

struct Row {
    text: String,
    size: f64,
    indent: f64,
    heavy: bool,
}

impl Block {
    /// A paragraph; nothing of no words.
    pub(super) fn text(face: &Face, text: &str, size: f64, width: f64) -> Self {
        let lines = if text.is_empty() { Vec::new() } else { wrap(face, text, size, 0.97 * width) };
        Self { rows: lines.into_iter().map(|text| Row { text, size, indent: 0.0, heavy: false }).collect() }
    }

    pub(super) fn heavy(mut self) -> Self {
        self.rows.iter_mut().for_each(|row| row.heavy = true);
        self
    }

    /// Under a heading, one paragraph for everything; nothing of nothing.
    pub(super) fn list(face: &Face, heading: &str, lines: &[String], width: f64) -> Self {
        if lines.is_empty() {
            return Self::default();
        }
        Self::text(face, heading, HEADING, width).heavy().and(Self::text(face, &lines.join(" "), BODY, width))
    }

    /// A numbered line; what does not fit goes on under its first word.
    fn numbered(face: &Face, number: usize, text: &str, width: f64) -> Self {
        let mut block = Self::text(face, text, BODY, (width - NUMBER) / 0.97);
        block.rows.iter_mut().for_each(|row| row.indent = NUMBER);
        block.rows.insert(0, Row { text: number.to_string(), size: 0.0, indent: 0.0, heavy: true });
        block
    }

    pub(super) fn and(mut self, other: Self) -> Self {
        self.rows.extend(other.rows);
        self
    }

    pub(super) fn height(&self) -> f64 {
        self.rows.iter().map(|row| LEADING * row.size).sum()
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        let mut y = at.y;
        for row in &self.rows {
            // A number stands on the line that comes after it.
            let size = if row.size > 0.0 { row.size } else { BODY };
            let setting = if row.heavy { Setting::level(size).heavy() } else { Setting::level(size) };
            canvas.text(setter, Point::new(at.x + row.indent, y + size), setting, &row.text);
            y += LEADING * row.size;
        }
    }
}

/// Room for a number, mm.
const NUMBER: f64 = 6.6;
/// Between the columns, mm.
const GUTTER: f64 = 7.0;
/// After a line and before a heading, in sizes.
const AFTER_LINE: f64 = 0.22;
const BEFORE_HEADING: f64 = 0.6;

/// What cannot be torn apart in a column.
enum Item<'c> {
    Words { block: Block, after: f64 },
    Picture(&'c engine::drawing::profile::Profile),
}

impl Item<'_> {
    fn height(&self) -> f64 {
        match self {
            Self::Words { block, after } => block.height() + after,
            Self::Picture(profile) => cross::height(profile),
        }
    }
}

/// The order of work in two columns. A heading keeps company with its picture and its first line.
pub(super) fn work(canvas: &mut Canvas, setter: &mut Typesetter, parts: &[Part], place: Rect) {
    let width = 0.5 * (place.width() - GUTTER);
    let groups: Vec<Vec<Item<'_>>> = parts.iter().flat_map(|part| groups(&setter.face, part, width)).collect();
    let heights: Vec<f64> = groups.iter().map(|group| group.iter().map(Item::height).sum()).collect();
    let split = split(&heights);
    for (column, groups) in [&groups[..split], &groups[split..]].into_iter().enumerate() {
        let mut at = Point::new(place.x0 + column as f64 * (width + GUTTER), place.y0);
        for item in groups.iter().flatten() {
            match item {
                Item::Words { block, .. } => block.draw(canvas, setter, at),
                Item::Picture(profile) => cross::draw(canvas, profile, at, width),
            }
            at.y += item.height();
        }
    }
}

fn groups<'c>(face: &Face, part: &'c Part, width: f64) -> Vec<Vec<Item<'c>>> {
    let mut head = vec![Item::Words { block: Block::text(face, &part.heading, HEADING, width).heavy(), after: 0.0 }];
    head.extend(part.picture.iter().map(Item::Picture));
    let last = part.lines.len().saturating_sub(1);
    let mut out = vec![head];
    for (i, line) in part.lines.iter().enumerate() {
        let after = BODY * if i == last { BEFORE_HEADING } else { AFTER_LINE };
        let item = Item::Words { block: Block::numbered(face, line.number, &line.text, width), after };
        match out.as_mut_slice() {
            [head] if i == 0 => head.push(item),
            _ => out.push(vec![item]),
        }
    }
    out
}

/// How many groups stand in the first column, so that the longer column is as short as it can be.
fn split(heights: &[f64]) -> usize {
    let longer = |n: &usize| heights[..*n].iter().sum::<f64>().max(heights[*n..].iter().sum());
    (0..=heights.len()).min_by(|a, b| longer(a).total_cmp(&longer(b))).unwrap_or(0)
}
