//! A drawing surface in millimetres, y down, that writes page content.

use super::layer::Layer;
use super::style::{LineStyle, Pen};
use crate::font::{Face, Used};
use crate::outline::polygon;
use engine::curve::Path;
use kurbo::{PathEl, Point, Rect, Vec2};
use lopdf::content::{Content, Operation};
use lopdf::{Object, StringFormat};

/// Points of 1/72 in per millimetre.
pub(super) const PT_PER_MM: f64 = 72.0 / 25.4;

/// The name under which the face is known in every content.
pub(super) const FONT_NAME: &str = "F1";

/// Where a text stands on its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    /// It starts there.
    Start,
    /// Its middle is there.
    Middle,
}

/// The face and the glyphs used of it so far; shared by all surfaces of one file.
pub(super) struct Typesetter {
    pub(super) face: Face,
    pub(super) used: Used,
}

/// How text is set: size in millimetres, direction of reading as a unit vector (y down).
#[derive(Clone, Copy, Debug)]
pub(super) struct Setting {
    pub(super) size: f64,
    pub(super) direction: Vec2,
    pub(super) anchor: Anchor,
    /// Headings are drawn with a thicker pen.
    pub(super) weight: Weight,
}

/// How heavy a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    /// As the face is.
    Regular,
    /// With its outline stroked.
    Heavy,
}

impl Setting {
    /// Level text of this size that starts at its place.
    pub(super) const fn level(size: f64) -> Self {
        Self { size, direction: Vec2::new(1.0, 0.0), anchor: Anchor::Start, weight: Weight::Regular }
    }

    pub(super) const fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    pub(super) const fn heavy(mut self) -> Self {
        self.weight = Weight::Heavy;
        self
    }

    pub(super) const fn along(mut self, direction: Vec2) -> Self {
        self.direction = direction;
        self
    }
}

/// Which layer content comes to lie on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Layers {
    /// On none: it always shows.
    Always,
    /// All on one.
    One(Layer),
    /// That of the pen; text on its own.
    ByKind,
}

/// Content under way.
pub(super) struct Canvas {
    operations: Vec<Operation>,
    layers: Layers,
    open: Option<Layer>,
    /// The y of this surface that lies at y = 0 of the file.
    base: f64,
}

fn number(mm: f64) -> Object {
    // A thousandth of a point is a third of a micrometre.
    let pt = (mm * PT_PER_MM * 1000.0).round() / 1000.0;
    if pt.fract() == 0.0 { Object::Integer(pt as i64) } else { Object::Real(pt as f32) }
}

fn plain(value: f64) -> Object {
    Object::Real(((value * 1e6).round() / 1e6) as f32)
}

impl Canvas {
    /// A page of this height in mm, its origin at the top left, that always shows.
    pub(super) fn page(height: f64) -> Self {
        Self { operations: Vec::new(), layers: Layers::Always, open: None, base: height }
    }

    /// A page that is shown and hidden as one.
    pub(super) fn page_on(layer: Layer, height: f64) -> Self {
        Self { layers: Layers::One(layer), ..Self::page(height) }
    }

    /// What follows lies on this layer, or always shows.
    pub(super) fn lie_on(&mut self, layer: Option<Layer>) {
        self.layers = layer.map_or(Layers::Always, Layers::One);
    }

    /// A surface whose origin stays the origin, for a piece: every kind of line on its layer.
    pub(super) fn free() -> Self {
        Self { layers: Layers::ByKind, ..Self::page(0.0) }
    }

    /// The content as bytes; none where it cannot be written.
    pub(super) fn finish(mut self) -> Result<Vec<u8>, lopdf::Error> {
        self.enter(None);
        Content { operations: self.operations }.encode()
    }

    /// What follows belongs to this layer (ISO 32000-1, 8.11.3.2).
    fn enter(&mut self, layer: Option<Layer>) {
        if self.open == layer {
            return;
        }
        if self.open.is_some() {
            self.push("EMC", vec![]);
        }
        if let Some(layer) = layer {
            self.push("BDC", vec![Object::Name(b"OC".to_vec()), Object::Name(layer.key().into_bytes())]);
        }
        self.open = layer;
    }

    /// The layer of something that by itself lies on this one.
    fn enter_for(&mut self, kind: Layer) {
        self.enter(match self.layers {
            Layers::Always => None,
            Layers::One(layer) => Some(layer),
            Layers::ByKind => Some(kind),
        });
    }

    fn push(&mut self, operator: &str, operands: Vec<Object>) {
        self.operations.push(Operation::new(operator, operands));
    }

    fn place(&self, p: Point) -> [Object; 2] {
        [number(p.x), number(self.base - p.y)]
    }

    /// Sets the pen for the strokes that follow.
    pub(super) fn pen(&mut self, pen: Pen) {
        self.enter_for(Layer::of(pen));
        self.draw_as(pen.style());
    }

    /// Sets the look of the strokes that follow.
    pub(super) fn draw_as(&mut self, LineStyle { width, dash, grey }: LineStyle) {
        self.push("w", vec![number(width)]);
        self.push("d", vec![Object::Array(dash.iter().map(|v| number(*v)).collect()), Object::Integer(0)]);
        self.push("G", vec![plain(grey)]);
        // Round ends would close the gaps of short dashes.
        self.push("J", vec![Object::Integer(0)]);
        self.push("j", vec![Object::Integer(1)]);
    }

    /// Adds a path of lines and cubics.
    pub(super) fn trace(&mut self, elements: impl IntoIterator<Item = PathEl>) {
        let mut at = Point::ZERO;
        for element in elements {
            match element {
                PathEl::MoveTo(p) => self.push("m", self.place(p).into()),
                PathEl::LineTo(p) => self.push("l", self.place(p).into()),
                PathEl::CurveTo(a, b, c) => self.push("c", [a, b, c].iter().flat_map(|p| self.place(*p)).collect()),
                PathEl::QuadTo(a, b) => {
                    let (p, q) = (at.lerp(a, 2.0 / 3.0), b.lerp(a, 2.0 / 3.0));
                    self.push("c", [p, q, b].iter().flat_map(|p| self.place(*p)).collect());
                }
                PathEl::ClosePath => self.push("h", vec![]),
            }
            at = element.end_point().unwrap_or(at);
        }
    }

    /// Strokes what was traced.
    pub(super) fn stroke(&mut self) {
        self.push("S", vec![]);
    }

    /// Fills what was traced, in black.
    pub(super) fn fill(&mut self) {
        self.fill_with(0.0);
    }

    /// Fills what was traced; 1 is white.
    pub(super) fn fill_with(&mut self, grey: f64) {
        self.push("g", vec![plain(grey)]);
        self.push("f", vec![]);
    }

    /// Strokes one open path.
    pub(super) fn path(&mut self, path: &Path) {
        self.trace(engine::curve::elements(path));
        self.stroke();
    }

    /// Strokes one line.
    pub(super) fn line(&mut self, a: Point, b: Point) {
        self.trace([PathEl::MoveTo(a), PathEl::LineTo(b)]);
        self.stroke();
    }

    /// Strokes a closed polygon.
    pub(super) fn polygon(&mut self, corners: &[Point]) {
        self.trace(polygon(corners));
        self.stroke();
    }

    /// Fills a closed polygon in black.
    pub(super) fn solid(&mut self, corners: &[Point]) {
        self.trace(polygon(corners));
        self.fill();
    }

    fn rectangle(&mut self, r: Rect) {
        let [x, y] = self.place(Point::new(r.x0, r.y1));
        self.push("re", vec![x, y, number(r.width()), number(r.height())]);
    }

    /// Strokes a rectangle, the middle of the stroke on its sides.
    pub(super) fn frame(&mut self, r: Rect) {
        self.rectangle(r);
        self.stroke();
    }

    /// Fills a rectangle; 1 is white.
    pub(super) fn patch(&mut self, r: Rect, grey: f64) {
        self.enter_for(Layer::Frames);
        self.push("g", vec![plain(grey)]);
        self.rectangle(r);
        self.push("f", vec![]);
    }

    /// Draws something of which only what lies in a rectangle shows.
    pub(super) fn within(&mut self, window: Rect, draw: impl FnOnce(&mut Self)) {
        self.push("q", vec![]);
        self.rectangle(window);
        self.push("W", vec![]);
        self.push("n", vec![]);
        draw(self);
        self.push("Q", vec![]);
    }

    /// Sets one line of text; `at` is on its base line. Black.
    pub(super) fn text(&mut self, setter: &mut Typesetter, at: Point, setting: Setting, text: &str) {
        self.enter_for(Layer::Text);
        let text = setter.face.settable(text);
        let width = setter.face.width(&text) * setting.size;
        let back = match setting.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * width,
        };
        let [x, y] = self.place(at - setting.direction * back);
        let (cos, sin) = (setting.direction.x, -setting.direction.y);
        let glyphs = Object::String(setter.used.encode(&setter.face, &text), StringFormat::Literal);
        self.push("BT", vec![]);
        self.push("g", vec![Object::Integer(0)]);
        match setting.weight {
            Weight::Regular => self.push("Tr", vec![Object::Integer(0)]),
            Weight::Heavy => self.heavy(setting.size),
        }
        self.push("Tf", vec![Object::Name(FONT_NAME.as_bytes().to_vec()), number(setting.size)]);
        self.push("Tm", vec![plain(cos), plain(sin), plain(-sin), plain(cos), x, y]);
        self.push("Tj", vec![glyphs]);
        self.push("ET", vec![]);
    }

    fn heavy(&mut self, size: f64) {
        self.push("Tr", vec![Object::Integer(2)]);
        self.push("w", vec![number(0.035 * size)]);
        self.push("d", vec![Object::Array(vec![]), Object::Integer(0)]);
        self.push("G", vec![Object::Integer(0)]);
    }
}
