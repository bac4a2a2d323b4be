//! A drawing surface in millimetres, y down, that writes page content.

use super::layer::Layer;
use super::style::{LineStyle, Pen};
use super::tags::Tag;
use crate::font::{Face, Used};
use crate::number::digits::{push_short, push_whole};
use crate::outline::polygon;
use engine::curve::Path;
use kurbo::{PathEl, Point, Rect, Vec2};

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

impl Typesetter {
    /// Nothing used yet.
    pub(crate) fn of(face: &'static Face) -> Self {
        Self { face, used: Used::of(face) }
    }
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

/// Content under way, written as it is drawn: a print has ten thousand operators.
pub(crate) struct Canvas {
    bytes: Vec<u8>,
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

/// What an operator takes.
#[derive(Clone, Copy)]
enum Operand<'a> {
    /// A length, mm.
    Mm(f64),
    /// A number without a unit.
    Plain(f64),
    Whole(i64),
    /// Of letters and digits alone.
    Name(&'a str),
    /// Lengths of dashes, mm.
    Dashes(&'a [f64]),
    /// Numbers of glyphs.
    Glyphs(&'a [u8]),
    /// The number of a part of the page.
    Part(i64),
}
use Operand::{Dashes, Glyphs, Mm, Name, Part, Plain, Whole};

impl Operand<'_> {
    fn write(self, out: &mut Vec<u8>) {
        // A thousandth of a point is a third of a micrometre.
        let points = |out: &mut Vec<u8>, mm: f64| push_short(out, mm * PT_PER_MM, 3);
        match self {
            Mm(mm) => points(out, mm),
            Plain(value) => push_short(out, value, 6),
            Whole(value) => push_whole(out, value),
            Name(name) => out.extend([b"/", name.as_bytes()].concat()),
            Dashes(lengths) => {
                out.push(b'[');
                for (i, mm) in lengths.iter().enumerate() {
                    if i > 0 {
                        out.push(b' ');
                    }
                    points(out, *mm);
                }
                out.push(b']');
            }
            Glyphs(bytes) => {
                out.push(b'(');
                for byte in bytes {
                    // ISO 32000-1, 7.3.4.2: a bare end of line would be read as another one.
                    match byte {
                        b'(' | b')' | b'\\' => out.extend([b'\\', *byte]),
                        b'\r' => out.extend(b"\\r"),
                        byte => out.push(*byte),
                    }
                }
                out.push(b')');
            }
            Part(number) => {
                out.extend_from_slice(b"<</MCID ");
                push_whole(out, number);
                out.extend_from_slice(b">>");
            }
        }
    }
}

impl Canvas {
    /// A page of this height in mm, its origin at the top left, that always shows.
    pub(crate) fn page(height: f64) -> Self {
        Self {
            bytes: Vec::new(),
            layers: Layers::Always,
            open: None,
            parts: Some(Vec::new()),
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

    /// The content.
    pub(crate) fn finish(mut self) -> Content {
        self.leave();
        // None ends the last operator.
        self.bytes.pop();
        Content { bytes: self.bytes, parts: self.parts.unwrap_or_default() }
    }

    /// What follows is a part of the page.
    pub(crate) fn part(&mut self, tag: Tag) {
        self.leave();
        let Some(parts) = &mut self.parts else { return };
        let (name, number) = (tag.name(), parts.len() as i64);
        parts.push(tag);
        (self.part, self.decorating) = (Open::Part, false);
        self.push("BDC", &[Name(name), Part(number)]);
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
            self.push("EMC", &[]);
            self.part = Open::Nothing;
        }
    }

    /// Draws a form as a part of the page, its origin at a place, inside a box.
    pub(super) fn form(&mut self, number: usize, at: Point, clip: Rect) {
        self.part(Tag::Form(number));
        self.push("q", &[]);
        self.rectangle(clip);
        self.push("W", &[]);
        self.push("n", &[]);
        let [x, y] = self.place(at);
        self.push("cm", &[Whole(1), Whole(0), Whole(0), Whole(1), x, y]);
        self.push("Do", &[Name(&form_name(number))]);
        self.push("Q", &[]);
        self.done();
    }

    /// What follows belongs to this layer (ISO 32000-1, 8.11.3.2).
    fn enter(&mut self, layer: Option<Layer>) {
        if self.open == layer {
            return;
        }
        if self.open.is_some() {
            self.push("EMC", &[]);
        }
        if let Some(layer) = layer {
            self.push("BDC", &[Name("OC"), Name(&layer.key())]);
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

    fn push(&mut self, operator: &str, operands: &[Operand]) {
        if self.parts.is_some() && self.part == Open::Nothing {
            self.part = Open::Decoration;
            self.bytes.extend_from_slice(b"/Artifact BMC\n");
        }
        for operand in operands {
            operand.write(&mut self.bytes);
            self.bytes.push(b' ');
        }
        self.bytes.extend_from_slice(operator.as_bytes());
        self.bytes.push(b'\n');
    }

    const fn place(&self, p: Point) -> [Operand<'static>; 2] {
        [Mm(p.x), Mm(self.base - p.y)]
    }

    /// Sets the pen for the strokes that follow.
    pub(crate) fn pen(&mut self, pen: Pen) {
        self.enter_for(Layer::of(pen));
        self.draw_as(pen.style());
    }

    /// Sets the look of the strokes that follow.
    pub(crate) fn draw_as(&mut self, LineStyle { width, dash, grey }: LineStyle) {
        self.push("w", &[Mm(width)]);
        self.push("d", &[Dashes(dash), Whole(0)]);
        self.push("G", &[Plain(grey)]);
        // Round ends would close the gaps of short dashes.
        self.push("J", &[Whole(0)]);
        self.push("j", &[Whole(1)]);
    }

    /// Adds a path of lines and cubics.
    pub(crate) fn trace(&mut self, elements: impl IntoIterator<Item = PathEl>) {
        let mut at = Point::ZERO;
        for element in elements {
            match element {
                PathEl::MoveTo(p) => self.push("m", &self.place(p)),
                PathEl::LineTo(p) => self.push("l", &self.place(p)),
                PathEl::CurveTo(a, b, c) => self.curve([a, b, c]),
                PathEl::QuadTo(a, b) => self.curve([at.lerp(a, 2.0 / 3.0), b.lerp(a, 2.0 / 3.0), b]),
                PathEl::ClosePath => self.push("h", &[]),
            }
            at = element.end_point().unwrap_or(at);
        }
    }

    fn curve(&mut self, [a, b, c]: [Point; 3]) {
        let [[x1, y1], [x2, y2], [x3, y3]] = [self.place(a), self.place(b), self.place(c)];
        self.push("c", &[x1, y1, x2, y2, x3, y3]);
    }

    /// Strokes what was traced.
    pub(crate) fn stroke(&mut self) {
        self.push("S", &[]);
    }

    /// Fills what was traced, in black.
    pub(super) fn fill(&mut self) {
        self.fill_with(0.0);
    }

    /// Fills what was traced; 1 is white.
    pub(crate) fn fill_with(&mut self, grey: f64) {
        self.push("g", &[Plain(grey)]);
        self.push("f", &[]);
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
        self.push("re", &[x, y, Mm(r.width()), Mm(r.height())]);
    }

    /// Strokes a rectangle, the middle of the stroke on its sides.
    pub(crate) fn frame(&mut self, r: Rect) {
        self.rectangle(r);
        self.stroke();
    }

    /// Fills a rectangle; 1 is white.
    pub(crate) fn patch(&mut self, r: Rect, grey: f64) {
        self.enter_for(Layer::Frames);
        self.push("g", &[Plain(grey)]);
        self.rectangle(r);
        self.push("f", &[]);
    }

    /// Draws something of which only what lies in a rectangle shows.
    pub(crate) fn within(&mut self, window: Rect, draw: impl FnOnce(&mut Self)) {
        self.push("q", &[]);
        self.rectangle(window);
        self.push("W", &[]);
        self.push("n", &[]);
        draw(self);
        self.push("Q", &[]);
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
        let glyphs = setter.used.encode(setter.face, &text);
        self.push("BT", &[]);
        self.push("g", &[Whole(0)]);
        match setting.weight {
            Weight::Regular => self.push("Tr", &[Whole(0)]),
            Weight::Heavy => self.heavy(setting.size),
        }
        self.push("Tf", &[Name(FONT_NAME), Mm(setting.size)]);
        self.push("Tm", &[Plain(cos), Plain(sin), Plain(-sin), Plain(cos), x, y]);
        self.push("Tj", &[Glyphs(&glyphs)]);
        self.push("ET", &[]);
        if is_own_part {
            self.done();
        }
    }

    fn heavy(&mut self, size: f64) {
        self.push("Tr", &[Whole(2)]);
        self.push("w", &[Mm(0.035 * size)]);
        self.push("d", &[Dashes(&[]), Whole(0)]);
        self.push("G", &[Whole(0)]);
    }
}
