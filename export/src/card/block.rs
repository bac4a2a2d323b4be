//! Words in lines, measured before they are set; and the order of work in two columns.

use super::{cross, roll};
use crate::font::Face;
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use crate::pdf::tags::Tag;
use crate::pdf::text::{LEADING, wrap};
use engine::drawing::card::{Line, Part, Picture};
use engine::words::card::{CROSS, ROLL};
use kurbo::{Point, Vec2};

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

    /// A numbered line; what does not fit goes on under its first word, and the stitch stands under it where
    /// there is room.
    fn numbered(face: &Face, line: &Line, width: f64, settings: Settings) -> Self {
        let paragraph = |text: &str| Self::text(face, text, BODY, (width - NUMBER) / 0.97);
        let mut block = match (&line.setting, settings) {
            (None, _) => paragraph(&line.text),
            (Some(set), Settings::Below) => paragraph(&line.text).and(paragraph(&format!("– {set}"))),
            (Some(set), Settings::RunOn) => paragraph(&format!("{} – {set}", line.text)),
        };
        block.rows.iter_mut().for_each(|row| row.indent = NUMBER);
        block.rows.insert(0, Row { text: line.number.to_string(), size: 0.0, indent: 0.0, heavy: true });
        block
    }

    pub(super) fn and(mut self, other: Self) -> Self {
        self.rows.extend(other.rows);
        self
    }

    pub(super) fn height(&self) -> f64 {
        self.rows.iter().map(|row| LEADING * row.size).sum()
    }

    /// Rows of one kind are one part of the page.
    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        let mut y = at.y;
        let mut before: Option<Tag> = None;
        for row in &self.rows {
            let tag = row.tag();
            if before.as_ref() != Some(&tag) {
                canvas.part(tag.clone());
                before = Some(tag);
            }
            // A number stands on the line that comes after it.
            let size = if row.size > 0.0 { row.size } else { BODY };
            let setting = if row.heavy { Setting::level(size).heavy() } else { Setting::level(size) };
            canvas.text(setter, Point::new(at.x + row.indent, y + size), setting, &row.text);
            y += LEADING * row.size;
        }
        canvas.done();
    }
}

impl Row {
    fn tag(&self) -> Tag {
        if self.size >= TITLE {
            Tag::Title
        } else if self.size >= HEADING {
            Tag::Heading
        } else {
            Tag::Paragraph
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

/// Where the stitch of a line is told.
#[derive(Clone, Copy)]
enum Settings {
    /// On a line of its own.
    Below,
    /// After its words.
    RunOn,
}

/// Which pictures are drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Drawn {
    All,
    /// Those of edges: the words make do without the others.
    Edges,
}

/// May a part of the work go on in the second column?
#[derive(Clone, Copy)]
enum Torn {
    Never,
    BetweenLines,
}

/// What cannot be torn apart in a column: a heading with its picture beside it, or a line.
enum Item<'c> {
    Head { block: Block, picture: Option<&'c Picture> },
    Words { block: Block, after: f64 },
}

/// Where a picture stands beside its heading, mm.
const BESIDE: f64 = 31.0;

impl Item<'_> {
    fn height(&self) -> f64 {
        match self {
            Self::Head { block, picture } => picture.map_or(0.0, height).max(block.height()),
            Self::Words { block, after } => block.height() + after,
        }
    }

    fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point, width: f64) {
        match self {
            Self::Words { block, .. } => block.draw(canvas, setter, at),
            Self::Head { block, picture } => {
                let low = self.height() - block.height();
                block.draw(canvas, setter, at + Vec2::new(0.0, low));
                let beside = at + Vec2::new(BESIDE, 0.0);
                match picture {
                    Some(Picture::Edge(profile)) => {
                        canvas.part(Tag::Figure(CROSS.to_owned()));
                        cross::draw(canvas, profile, beside, width - BESIDE);
                    }
                    Some(Picture::Roll) => {
                        canvas.part(Tag::Figure(ROLL.to_owned()));
                        roll::draw(canvas, setter, beside, BODY);
                    }
                    None => return,
                }
                canvas.done();
            }
        }
    }
}

fn height(picture: &Picture) -> f64 {
    match picture {
        Picture::Edge(profile) => cross::height(profile),
        Picture::Roll => roll::HEIGHT,
    }
}

/// The order of work in two columns. A heading keeps company with its picture and its first line.
pub(super) struct Work<'c> {
    columns: [Vec<Item<'c>>; 2],
    width: f64,
}

impl<'c> Work<'c> {
    /// As high as it may be: all pictures, stitches on lines of their own, and no part torn apart, where
    /// there is room.
    pub(super) fn of(face: &Face, parts: &'c [Part], width: f64, room: f64) -> Self {
        let told = [Settings::Below, Settings::RunOn].map(|s| [Torn::Never, Torn::BetweenLines].map(|torn| (s, torn)));
        let told: Vec<(Settings, Torn)> = told.into_iter().flatten().collect();
        let ways = [Drawn::All, Drawn::Edges].into_iter().flat_map(|drawn| told.iter().map(move |told| (drawn, *told)));
        let mut set = ways.map(|(drawn, told)| Self::set(face, parts, width, drawn, told));
        let fits = |work: &Self| work.height() <= room;
        let last = || Self::set(face, parts, width, Drawn::Edges, (Settings::RunOn, Torn::BetweenLines));
        set.find(fits).unwrap_or_else(last)
    }

    fn set(face: &Face, parts: &'c [Part], width: f64, drawn: Drawn, (settings, torn): (Settings, Torn)) -> Self {
        let width = 0.5 * (width - GUTTER);
        let groups = parts.iter().flat_map(|part| match (groups(face, part, width, drawn, settings), torn) {
            (groups, Torn::BetweenLines) => groups,
            (groups, Torn::Never) => vec![groups.into_iter().flatten().collect()],
        });
        let mut groups: Vec<Vec<Item<'c>>> = groups.collect();
        let heights: Vec<f64> = groups.iter().map(|group| column_height(group)).collect();
        let second = groups.split_off(split(&heights));
        Self { columns: [groups, second].map(|groups| groups.into_iter().flatten().collect()), width }
    }

    pub(super) fn height(&self) -> f64 {
        self.columns.iter().map(|column| column_height(column)).fold(0.0, f64::max)
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        for (number, column) in self.columns.iter().enumerate() {
            let mut at = at + Vec2::new(number as f64 * (self.width + GUTTER), 0.0);
            for item in column {
                item.draw(canvas, setter, at, self.width);
                at.y += item.height();
            }
        }
    }
}

fn column_height(items: &[Item<'_>]) -> f64 {
    items.iter().map(Item::height).sum()
}

fn groups<'c>(face: &Face, part: &'c Part, width: f64, drawn: Drawn, settings: Settings) -> Vec<Vec<Item<'c>>> {
    let heading = Block::text(face, &part.heading, HEADING, width).heavy();
    let is_drawn = |picture: &&Picture| drawn == Drawn::All || **picture != Picture::Roll;
    let head = vec![Item::Head { block: heading, picture: part.picture.as_ref().filter(is_drawn) }];
    let last = part.lines.len().saturating_sub(1);
    let mut out = vec![head];
    for (i, line) in part.lines.iter().enumerate() {
        let after = BODY * if i == last { BEFORE_HEADING } else { AFTER_LINE };
        let item = Item::Words { block: Block::numbered(face, line, width, settings), after };
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
