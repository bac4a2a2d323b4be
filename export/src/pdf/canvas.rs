//! A drawing surface in millimetres, y down, that writes page content.

use super::layer::Layer;
use super::style::{LineStyle, Pen};
use super::tags::Tag;
use crate::font::{Face, Used};
use crate::outline::polygon;
use engine::curve::Path;
use kurbo::{PathEl, Point, Rect, Vec2};
use lopdf::content::Operation;
use lopdf::{Object, StringFormat, dictionary};

/// Points of 1/72 in per millimetre.
pub(crate) const PT_PER_MM: f64 = 72.0 / 25.4;

/// The name under which the face is known in every content.
pub(crate) const FONT_NAME: &str = "F1";

/// Where a text stands on its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Anchor {
    /// It starts there.
    Start,
    /// Its middle is there.
    Middle,
}

/// The face and the glyphs used of it so far; shared by all surfaces of one file.
pub(crate) struct Typesetter {
    pub(crate) face: &'static Face,
    pub(crate) used: Used,
}

/// How text is set: size in millimetres, direction of reading as a unit vector (y down).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Setting {
    pub(crate) size: f64,
    pub(crate) direction: Vec2,
    pub(crate) anchor: Anchor,
    /// Headings are drawn with a thicker pen.
    pub(crate) weight: Weight,
}

/// How heavy a text is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Weight {
    /// As the face is.
    Regular,
    /// With its outline stroked.
    Heavy,
}

impl Setting {
    /// Level text of this size that starts at its place.
    pub(crate) const fn level(size: f64) -> Self {
        Self { size, direction: Vec2::new(1.0, 0.0), anchor: Anchor::Start, weight: Weight::Regular }
    }

    pub(crate) const fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    pub(crate) const fn heavy(mut self) -> Self {
        self.weight = Weight::Heavy;
        self
    }

    pub(crate) const fn along(mut self, direction: Vec2) -> Self {
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

/// What of a page is open, as readers of its parts see it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Open {
    Nothing,
    Part,
    Decoration,
}

/// What is drawn on a page, and what its parts are, in reading order.
pub(crate) struct Content {
    pub(crate) bytes: Vec<u8>,
    pub(crate) parts: Vec<Tag>,
}

/// The name of a form in page content.
pub(super) fn form_name(number: usize) -> String {
    format!("Piece{number}")
}

/// Content under way.
pub(crate) struct Canvas {
    operations: Vec<Operation>,
    layers: Layers,
    open: Option<Layer>,
    /// The parts so far; none on a form, which is a part as a whole.
    parts: Option<Vec<Tag>>,
    part: Open,
    /// Are words no parts of their own?
    decorating: bool,
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
    pub(crate) fn page(height: f64) -> Self {
        let (operations, parts) = (Vec::new(), Some(Vec::new()));
        Self {
            operations,
            layers: Layers::Always,
            open: None,
            parts,
            part: Open::Nothing,
            decorating: false,
            base: height,
        }
    }

    /// What follows lies on this layer, or always shows.
    pub(crate) fn lie_on(&mut self, layer: Option<Layer>) {
        self.layers = layer.map_or(Layers::Always, Layers::One);
    }

    /// A surface whose origin stays the origin, for a piece: every kind of line on its layer.
    pub(crate) fn free() -> Self {
        Self { layers: Layers::ByKind, parts: None, ..Self::page(0.0) }
    }

    /// The content; none where it cannot be written.
    pub(crate) fn finish(mut self) -> Result<Content, lopdf::Error> {
        self.leave();
        let bytes = lopdf::content::Content { operations: self.operations }.encode()?;
        Ok(Content { bytes, parts: self.parts.unwrap_or_default() })
    }

    /// What follows is a part of the page.
    pub(crate) fn part(&mut self, tag: Tag) {
        self.leave();
        let Some(parts) = &mut self.parts else { return };
        let (name, number) = (tag.name(), parts.len() as i64);
        parts.push(tag);
        (self.part, self.decorating) = (Open::Part, false);
        let number = Object::Dictionary(dictionary! { "MCID" => number });
        self.push("BDC", vec![Object::Name(name.into()), number]);
    }

    /// The part ends here. What is drawn until the next is none; every line of text is a paragraph.
    pub(crate) fn done(&mut self) {
        self.leave();
    }

    /// What follows is no part, text included: joins and page names.
    pub(super) fn decoration(&mut self) {
        self.leave();
        self.decorating = true;
    }

    fn leave(&mut self) {
        self.enter(None);
        if self.part != Open::Nothing {
            self.push("EMC", vec![]);
            self.part = Open::Nothing;
        }
    }

    /// Draws a form as a part of the page, its origin at a place, inside a box.
    pub(super) fn form(&mut self, number: usize, at: Point, clip: Rect) {
        self.part(Tag::Form(number));
        self.push("q", vec![]);
        self.rectangle(clip);
        self.push("W", vec![]);
        self.push("n", vec![]);
        let [x, y] = self.place(at);
        self.push("cm", [1, 0, 0, 1].map(Object::Integer).into_iter().chain([x, y]).collect());
        self.push("Do", vec![Object::Name(form_name(number).into_bytes())]);
        self.push("Q", vec![]);
        self.done();
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
        if self.parts.is_some() && self.part == Open::Nothing {
            self.part = Open::Decoration;
            self.operations.push(Operation::new("BMC", vec![Object::Name(b"Artifact".to_vec())]));
        }
        self.operations.push(Operation::new(operator, operands));
    }

    fn place(&self, p: Point) -> [Object; 2] {
        [number(p.x), number(self.base - p.y)]
    }

    /// Sets the pen for the strokes that follow.
    pub(crate) fn pen(&mut self, pen: Pen) {
        self.enter_for(Layer::of(pen));
        self.draw_as(pen.style());
    }

    /// Sets the look of the strokes that follow.
    pub(crate) fn draw_as(&mut self, LineStyle { width, dash, grey }: LineStyle) {
        self.push("w", vec![number(width)]);
        self.push("d", vec![Object::Array(dash.iter().map(|v| number(*v)).collect()), Object::Integer(0)]);
        self.push("G", vec![plain(grey)]);
        // Round ends would close the gaps of short dashes.
        self.push("J", vec![Object::Integer(0)]);
        self.push("j", vec![Object::Integer(1)]);
    }

    /// Adds a path of lines and cubics.
    pub(crate) fn trace(&mut self, elements: impl IntoIterator<Item = PathEl>) {
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
    pub(crate) fn stroke(&mut self) {
        self.push("S", vec![]);
    }

    /// Fills what was traced, in black.
    pub(super) fn fill(&mut self) {
        self.fill_with(0.0);
    }

    /// Fills what was traced; 1 is white.
    pub(crate) fn fill_with(&mut self, grey: f64) {
        self.push("g", vec![plain(grey)]);
        self.push("f", vec![]);
    }

    /// Strokes one open path.
    pub(crate) fn path(&mut self, path: &Path) {
        self.trace(engine::curve::elements(path));
        self.stroke();
    }

    /// Strokes one line.
    pub(crate) fn line(&mut self, a: Point, b: Point) {
        self.trace([PathEl::MoveTo(a), PathEl::LineTo(b)]);
        self.stroke();
    }

    /// Strokes a closed polygon.
    pub(crate) fn polygon(&mut self, corners: &[Point]) {
        self.trace(polygon(corners));
        self.stroke();
    }

    /// Fills a closed polygon in black.
    pub(crate) fn solid(&mut self, corners: &[Point]) {
        self.trace(polygon(corners));
        self.fill();
    }

    fn rectangle(&mut self, r: Rect) {
        let [x, y] = self.place(Point::new(r.x0, r.y1));
        self.push("re", vec![x, y, number(r.width()), number(r.height())]);
    }

    /// Strokes a rectangle, the middle of the stroke on its sides.
    pub(crate) fn frame(&mut self, r: Rect) {
        self.rectangle(r);
        self.stroke();
    }

    /// Fills a rectangle; 1 is white.
    pub(crate) fn patch(&mut self, r: Rect, grey: f64) {
        self.enter_for(Layer::Frames);
        self.push("g", vec![plain(grey)]);
        self.rectangle(r);
        self.push("f", vec![]);
    }

    /// Draws something of which only what lies in a rectangle shows.
    pub(crate) fn within(&mut self, window: Rect, draw: impl FnOnce(&mut Self)) {
        self.push("q", vec![]);
        self.rectangle(window);
        self.push("W", vec![]);
        self.push("n", vec![]);
        draw(self);
        self.push("Q", vec![]);
    }

    /// Sets one line of text; `at` is on its base line. Black.
    pub(crate) fn text(&mut self, setter: &mut Typesetter, at: Point, setting: Setting, text: &str) {
        let is_own_part = self.parts.is_some() && self.part != Open::Part && !self.decorating;
        if is_own_part {
            self.part(Tag::Paragraph);
        }
        self.enter_for(Layer::Text);
        let text = setter.face.settable(text);
        let width = setter.face.width(&text) * setting.size;
        let text = crate::font::seen(&text);
        let back = match setting.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * width,
        };
        let [x, y] = self.place(at - setting.direction * back);
        let (cos, sin) = (setting.direction.x, -setting.direction.y);
        let glyphs = Object::String(setter.used.encode(setter.face, &text), StringFormat::Literal);
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
        if is_own_part {
            self.done();
        }
    }

    fn heavy(&mut self, size: f64) {
        self.push("Tr", vec![Object::Integer(2)]);
        self.push("w", vec![number(0.035 * size)]);
        self.push("d", vec![Object::Array(vec![]), Object::Integer(0)]);
        self.push("G", vec![Object::Integer(0)]);
    }
}
