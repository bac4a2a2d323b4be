//! The lay as a picture: the pieces on their cloth, which way round they lie, and how much it takes.

use super::document;
use super::shape::{centred, clean, closed, number, text, upwards};
use crate::fit;
use crate::outline::joined;
use engine::drawing::{Drawing, Piece, QuarterTurns};
use engine::lay::{Lay, Placed, Turn};
use engine::quantity::Units;
use engine::words::Speech;
use kurbo::{Point, Rect, Size, Vec2};
use svg::node::element::{Group, Path, Rectangle, Title};

/// A picture, not a pattern: so much smaller than the cloth.
const SCALE: f64 = 0.2;
/// Round everything and between two lays, mm on the cloth.
const MARGIN: f64 = 90.0;
/// The em of what is written about a lay, and from line to line, mm on the cloth.
const WORDS: f64 = 20.0;
const LINE: f64 = 30.0;
/// The em of a piece's name, and from line to line, mm on the cloth.
const NAME: f64 = 15.0;
const NAME_LINE: f64 = 18.0;
/// Half the length of the arrow at a name, its head, and its distance beside it, mm on the cloth.
const ARROW: f64 = 12.0;
const HEAD: f64 = 6.0;
const BESIDE: f64 = 12.0;
/// A name takes no more than this share of its piece's width.
const SHARE: f64 = 0.42;

const INK: &str = "#1f2a36";
const CLOTH: &str = "#f3efe8";
const AS_DRAWN: &str = "#b4bfcb";
const TURNED: &str = "#d5dce3";

/// Every lay under another, at a fifth of its size.
pub fn lay(drawing: &Drawing, lays: &[Lay], units: Units) -> String {
    let speech = Speech(units);
    let widest = lays.iter().map(|l| l.cloth.width).fold(0.0, f64::max);
    let mut all = Group::new().set("transform", format!("scale({})", number(SCALE)));
    let mut top = MARGIN;
    for lay in lays {
        let lines = fit::wrap(&speech.lay(lay), (widest / (WORDS * fit::LETTER)) as usize);
        for line in &lines {
            all = all.add(text(line, Point::new(MARGIN, top), WORDS));
            top += LINE;
        }
        all = all.add(cloth(drawing, lay, speech, Vec2::new(MARGIN, top + LINE)));
        top += LINE + lay.length + MARGIN;
    }
    let size = Size::new(widest + 2.0 * MARGIN, top) * SCALE;
    let about = "How the pieces lie on the cloth, at a fifth of its size: no pattern.";
    document::written(&document::begin(drawing, about, None, size).add(all))
}

/// The cloth with its pieces, its upper left corner at a place.
fn cloth(drawing: &Drawing, lay: &Lay, speech: Speech, corner: Vec2) -> Group {
    let (width, length) = (lay.cloth.width, lay.length);
    let middle = corner.to_point() + Vec2::new(0.5 * width, 0.5 * length);
    let title = format!("{}, {}", lay.cloth.name, speech.chosen(width));
    let mut group = Group::new()
        .set("data-cloth", clean(&lay.cloth.name))
        .add(Title::new(clean(&title)))
        .add(sheet(corner, Size::new(width, length)))
        .add(centred(&format!("{} wide", speech.chosen(width)), Point::new(middle.x, corner.y - 0.5 * WORDS), WORDS))
        .add(upwards("selvedge, along the grain", Point::new(corner.x - 0.5 * WORDS, middle.y), WORDS))
        .add(upwards(&speech.tape(length), Point::new(corner.x + width + 1.3 * WORDS, middle.y), WORDS));
    for placed in &lay.placed {
        if let Some(piece) = drawing.pieces.iter().find(|p| p.name == placed.piece) {
            group = group.add(laid(&piece.unfolded(), placed, corner));
        }
    }
    group
}

fn sheet(corner: Vec2, size: Size) -> Rectangle {
    Rectangle::new()
        .set("x", number(corner.x))
        .set("y", number(corner.y))
        .set("width", number(size.width))
        .set("height", number(size.height))
        .set("fill", CLOTH)
        .set("stroke", INK)
        .set("stroke-width", "1")
}

/// A whole piece at its place, with its name and an arrow to its upper edge.
fn laid(piece: &Piece, placed: &Placed, corner: Vec2) -> Group {
    let (turned, tone, up) = match placed.turn {
        Turn::AsDrawn => (piece.clone(), AS_DRAWN, -1.0),
        Turn::Half => (piece.turned(QuarterTurns::Two), TURNED, 1.0),
    };
    let shift = corner + placed.at.to_vec2();
    let group = Group::new().set("data-piece", clean(&piece.name)).add(Title::new(clean(&piece.name)));
    let group = turned.cut().into_iter().fold(group, |group, l| {
        let path = Path::new().set("d", closed(&joined(l), shift)).set("fill", tone);
        group.add(path.set("stroke", INK).set("stroke-width", "1.5"))
    });
    let at = Point::new(turned.bounds().center().x, turned.text_box.center().y) + shift;
    named(group, &piece.name, at, turned.bounds(), up)
}

/// The name, on as many lines as its piece is narrow for, under an arrow; beside it on a low piece.
fn named(group: Group, name: &str, at: Point, bounds: Rect, up: f64) -> Group {
    let longest_word = name.split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
    let letters = (SHARE * bounds.width() / (NAME * fit::LETTER)) as usize;
    let lines = fit::wrap(name, letters.max(longest_word));
    let high = NAME_LINE * lines.len() as f64;
    let (words, arrow_at) = if bounds.height() < 2.0 * (high + 2.0 * ARROW) {
        let longest = lines.iter().map(|l| l.chars().count()).max().unwrap_or(0) as f64;
        let left = 0.5 * longest * NAME * fit::LETTER + BESIDE;
        (at, at - Vec2::new(left, 0.0))
    } else {
        (at + Vec2::new(0.0, ARROW), at - Vec2::new(0.0, 0.5 * high))
    };
    let first = words.y - 0.5 * (high - NAME_LINE) + 0.35 * NAME;
    let group = lines.iter().enumerate().fold(group, |group, (i, line)| {
        group.add(centred(line, Point::new(words.x, first + NAME_LINE * i as f64), NAME))
    });
    group.add(arrow(arrow_at, up))
}

fn arrow(middle: Point, up: f64) -> Path {
    let (tip, foot) = (middle + Vec2::new(0.0, up * ARROW), middle - Vec2::new(0.0, up * ARROW));
    let barb = |side: f64| tip + Vec2::new(side * 0.6 * HEAD, -up * HEAD);
    let point = |p: Point| format!("{} {}", number(p.x), number(p.y));
    let d = format!("M{} L{} M{} L{} L{}", point(foot), point(tip), point(barb(-1.0)), point(tip), point(barb(1.0)));
    Path::new().set("d", d).set("fill", "none").set("stroke", INK).set("stroke-width", "1.5")
}
