//! Small line drawings, one idea each, as SVG: what a code or a term is about. Drawn in the manner of
//! the edges cut across; schematic, unless a caption says otherwise.

mod hollow;
mod joins;
mod length;
mod marks;
mod worn;

use crate::number::decimal;
use crate::profile::{INK, RIM, STITCHES, look};
use engine::drawing::profile::Stuff;
use kurbo::{BezPath, Line, PathEl, Point, Shape, Vec2};
use std::fmt::Write as _;
use svg::node::element::{Group, Path, Rectangle, SVG, Text, Title};

pub use hollow::{flutes, fold_on_a_hollow, waves};
pub use joins::{crossing, edging_at_the_gusset, lines};
pub use length::{fold_test, reduction};
pub use marks::{notches, quarters};
pub use worn::{ease, worn_stretch};

/// A drawing under way, mm.
#[derive(Clone, Debug)]
pub struct Sketch {
    title: &'static str,
    caption: &'static str,
    group: Group,
}

/// Width, and height of the drawn part, mm.
const SIZE: (f64, f64) = (130.0, 78.0);
/// Height of a line of text, mm.
const LINE: f64 = 4.4;
/// Size of text, mm.
const WORDS: f64 = 3.2;

/// How many letters of a caption fit on a line.
const LETTERS: usize = 68;

/// How a thin line is drawn.
#[derive(Clone, Copy, Debug)]
enum Pen {
    /// What the drawing is about.
    Solid,
    /// Where something was, or is meant to be.
    Dashed,
    /// Stitches.
    Stitches,
    /// The body.
    Body,
}

impl Sketch {
    fn new(title: &'static str, caption: &'static str) -> Self {
        Self { title, caption, group: Group::new() }
    }

    /// Cloth or elastic seen from above or from its edge: a broad stroke with a dark rim.
    fn strip(mut self, path: &BezPath, stuff: Stuff, width: f64) -> Self {
        let (_, ground, texture, dashes) = look(stuff);
        let d = written_path(path);
        let stroke = |colour: &str, width: f64| {
            let path = Path::new().set("d", d.as_str()).set("fill", "none").set("stroke", colour);
            path.set("stroke-width", number(width)).set("stroke-linejoin", "round")
        };
        let dashed = stroke(texture, width).set("stroke-dasharray", dashes);
        self.group = self.group.add(stroke(INK, width + 2.0 * RIM)).add(stroke(ground, width)).add(dashed);
        self
    }

    /// A filled shape of cloth.
    fn cloth(mut self, outline: &BezPath) -> Self {
        let (_, ground, ..) = look(Stuff::Cloth);
        self.group = self.group.add(Path::new().set("d", written_path(outline)).set("fill", ground));
        self
    }

    fn line(mut self, path: &BezPath, pen: Pen) -> Self {
        let (colour, width, dashes) = match pen {
            Pen::Solid => (INK, 0.5, "none"),
            Pen::Dashed => (INK, 0.3, "1.6 1.2"),
            Pen::Stitches => (STITCHES, 0.5, "2 1"),
            Pen::Body => ("#8a6f5c", 0.8, "none"),
        };
        let path = Path::new().set("d", written_path(path)).set("fill", "none").set("stroke", colour);
        self.group = self.group.add(path.set("stroke-width", number(width)).set("stroke-dasharray", dashes));
        self
    }

    /// Words that start at a point, or end or have their middle there.
    fn words(mut self, text: &str, (x, y): (f64, f64), anchor: &'static str) -> Self {
        self.group = self.group.add(words(text, (x, y), WORDS).set("text-anchor", anchor));
        self
    }

    /// How long something is: a level line with a tick at both ends, its words above.
    fn span(self, (from, to): (f64, f64), y: f64, text: &str) -> Self {
        let mut path = segment((from, y), (to, y));
        path.extend(segment((from, y - 1.2), (from, y + 1.2)));
        path.extend(segment((to, y - 1.2), (to, y + 1.2)));
        self.line(&path, Pen::Solid).words(text, (0.5 * (from + to), y - 1.6), "middle")
    }

    /// The whole document.
    pub fn written(&self) -> String {
        let caption = crate::fit::wrap(self.caption, LETTERS);
        let height = SIZE.1 + LINE * (caption.len() as f64 + 1.0);
        let mut document = SVG::new()
            .set("width", format!("{}mm", number(SIZE.0)))
            .set("height", format!("{}mm", number(height)))
            .set("viewBox", format!("0 0 {} {}", number(SIZE.0), number(height)))
            .set("font-family", "sans-serif")
            .add(Title::new(self.title))
            .add(Rectangle::new().set("width", "100%").set("height", "100%").set("fill", "#fff"))
            .add(words(self.title, (6.0, 8.0), 4.6).set("font-weight", "bold"))
            .add(self.group.clone());
        for (i, line) in caption.iter().enumerate() {
            document = document.add(words(line, (6.0, SIZE.1 + LINE * i as f64), WORDS));
        }
        format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n")
    }
}

fn words(text: &str, (x, y): (f64, f64), size: f64) -> Text {
    Text::new(text).set("x", number(x)).set("y", number(y)).set("font-size", number(size)).set("fill", INK)
}

fn number(value: f64) -> String {
    decimal(value, 2)
}

fn segment(from: (f64, f64), to: (f64, f64)) -> BezPath {
    Line::new(from, to).to_path(0.1)
}

/// A level line at a height.
fn level((from, to): (f64, f64), y: f64) -> BezPath {
    segment((from, y), (to, y))
}

/// A line through points.
fn through(points: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for point in points {
        if path.elements().is_empty() { path.move_to(point) } else { path.line_to(point) }
    }
    path
}

/// A point of a circle, `turn` degrees from the right, downwards.
fn round(centre: Point, radius: f64, turn: f64) -> Point {
    centre + Vec2::from_angle(turn.to_radians()) * radius
}

fn written_path(path: &BezPath) -> String {
    let mut d = String::new();
    let mut put = |letter: char, points: &[Point]| {
        d.push(letter);
        for p in points {
            let _ = write!(d, "{} {} ", number(p.x), number(p.y));
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => put('M', &[p]),
            PathEl::LineTo(p) => put('L', &[p]),
            PathEl::QuadTo(a, p) => put('Q', &[a, p]),
            PathEl::CurveTo(a, b, p) => put('C', &[a, b, p]),
            PathEl::ClosePath => put('Z', &[]),
        }
    }
    d
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sketch_keeps_inside_its_paper_and_says_what_it_shows() {
        let all = [
            flutes(),
            fold_on_a_hollow(),
            waves(),
            crossing(),
            edging_at_the_gusset(),
            lines(),
            fold_test(),
            reduction(),
            notches(),
            quarters(),
            ease(),
            worn_stretch(),
        ];
        for sketch in all {
            let text = sketch.written();
            let read = roxmltree::Document::parse(&text).unwrap();
            let inside = |n: roxmltree::Node<'_, '_>, name: &str, most: f64| {
                n.attribute(name).is_none_or(|v| v.parse::<f64>().is_ok_and(|v| (0.0..=most).contains(&v)))
            };
            let words = read.descendants().filter(|n| n.has_tag_name("text")).collect::<Vec<_>>();
            assert!(words.iter().all(|n| inside(*n, "x", SIZE.0) && inside(*n, "y", 120.0)), "{}", sketch.title);
            assert!(!sketch.caption.is_empty() && text.contains(sketch.title));
        }
    }
}
