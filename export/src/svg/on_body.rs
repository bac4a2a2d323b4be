//! The garment on the body, as a picture: soft tones that stay apart in black and white, and lines.

use super::document;
use super::shape::{centred, data, number};
use engine::drawing::Drawing;
use engine::drawing::on_body::{Ink, Shape, View};
use kurbo::{Point, Size, Vec2};
use svg::node::element::{Group, Path};

/// Round everything and between views, mm on the body.
const MARGIN: f64 = 30.0;
const GAP: f64 = 50.0;
/// A picture, not a pattern: so much smaller than the body.
const SCALE: f64 = 0.25;
/// A hundredth of a millimetre on the body is a quarter of that in the picture.
const DECIMALS: u32 = 2;
/// Words under the views, mm on the body.
const WORDS: f64 = 16.0;
const LINE: f64 = 26.0;

/// What the picture is, so that nobody takes it for a likeness.
const ABOUT: &str = "A form made from the tape measurements, at a quarter of its size; no likeness.";

/// The views side by side, at a quarter of the body's size.
pub fn on_body(drawing: &Drawing) -> String {
    let views = &drawing.on_body.views;
    let bounds: Vec<_> = views.iter().map(View::bounds).collect();
    let tallest = bounds.iter().map(kurbo::Rect::height).fold(0.0, f64::max);
    let wide: f64 = bounds.iter().map(|b| b.width() + GAP).sum();
    let inner = Size::new((wide - GAP).max(0.0) + 2.0 * MARGIN, tallest + 2.0 * MARGIN + 2.0 * LINE + GAP);
    let mut all = Group::new().set("transform", format!("scale({})", number(SCALE)));
    let mut left = MARGIN;
    for (view, bounds) in views.iter().zip(&bounds) {
        let shift = Vec2::new(left - bounds.x0, MARGIN + 0.5 * (tallest - bounds.height()) - bounds.y0);
        let under = Point::new(left + 0.5 * bounds.width(), MARGIN + tallest + 1.4 * LINE);
        all = all.add(group(view, shift)).add(centred(view.seen.name(), under, WORDS));
        left += bounds.width() + GAP;
    }
    let foot = Point::new(0.5 * inner.width, MARGIN + tallest + 3.0 * LINE);
    let document = document::begin(drawing, "The garment on the body", None, inner * SCALE);
    document::written(&document.add(all.add(centred(ABOUT, foot, WORDS))))
}

fn group(view: &View, shift: Vec2) -> Group {
    let id = format!("on-body-{}", view.seen.name().replace(' ', "-"));
    view.shapes.iter().fold(Group::new().set("id", id), |group, shape| group.add(drawn(shape, shift)))
}

/// Colour and, of lines, width in mm on the body.
const fn look(ink: Ink) -> (&'static str, &'static str) {
    match ink {
        Ink::Skin => ("#efe6df", ""),
        Ink::Cloth => ("#b4bfcb", ""),
        Ink::Contour => ("#5b524c", "1.6"),
        Ink::Crease => ("#a3968c", "1.2"),
        Ink::TopEdge | Ink::LegEdge => ("#1f2a36", "2.6"),
        Ink::Seam => ("#1f2a36", "1.4"),
    }
}

fn drawn(shape: &Shape, shift: Vec2) -> Path {
    let (colour, width) = look(shape.ink);
    let line = data(&shape.path, shift, DECIMALS);
    if shape.ink.is_tone() {
        return Path::new().set("d", line + " Z").set("fill", colour).set("stroke", "none");
    }
    let path = Path::new().set("d", line).set("fill", "none").set("stroke", colour);
    let path = path.set("stroke-width", width).set("stroke-linecap", "round").set("stroke-linejoin", "round");
    if shape.ink == Ink::Seam { path.set("stroke-dasharray", "6 4") } else { path }
}
