//! Test squares: on the first page, and again on every large page, so that a copy shop can print
//! that page alone and the person who cuts can measure it.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::label;
use super::layout::{self, Layout, Proof, Shape};
use super::sheet;
use super::style::{BODY, HEADING, Pen};
use super::tags::Tag;
use super::text::{LEADING, wrap};
use crate::outline::polygon;
use engine::drawing::{Drawing, Piece};
use kurbo::{Point, Rect, Shape as _, Size, Vec2};

/// The two test squares, mm, with their labels.
const SQUARES: [(f64, &str); 2] = [(50.0, "50 mm"), (50.8, "2 in")];
/// Between the squares, mm.
const BETWEEN: f64 = 6.0;
/// A name has so many lines at most.
const NAME_LINES: usize = 3;
/// Between a proof and anything of a piece, mm: room to cut the piece out roughly.
const AIR: f64 = 8.0;
/// Places are tried this far apart, mm.
const STEP: f64 = 4.0;

const TRUE_SIZE: &str = "Printed at 100 %? Measure both squares before cutting.";
const ALT: &str = "Two test squares: one of 50 mm, one of 2 in. Measure both before cutting.";

impl Shape {
    const ALL: [Self; 2] = [Self::Beside, Self::Under];

    fn step(self) -> Vec2 {
        let step = SQUARES[0].0 + BETWEEN;
        if self == Self::Beside { Vec2::new(step, 0.0) } else { Vec2::new(0.0, step) }
    }

    /// What both squares cover.
    fn squares(self) -> Size {
        let far = Point::ORIGIN + self.step() + Vec2::new(SQUARES[1].0, SQUARES[1].0);
        Size::new(far.x, far.y)
    }
}

/// Draws both squares side by side; answers what they cover.
pub(super) fn squares(canvas: &mut Canvas, setter: &mut Typesetter, at: Point) -> Rect {
    squares_as(Shape::Beside, canvas, setter, at)
}

fn squares_as(shape: Shape, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) -> Rect {
    canvas.part(Tag::Figure(ALT.to_owned()));
    for (i, (side, label)) in SQUARES.into_iter().enumerate() {
        let square = Rect::from_origin_size(at + shape.step() * i as f64, (side, side));
        canvas.pen(Pen::Exact);
        canvas.frame(square);
        canvas.text(setter, square.center(), Setting::level(HEADING).anchored(Anchor::Middle).heavy(), label);
        let below = square.center() + (0.0, 1.5 * HEADING);
        canvas.text(setter, below, Setting::level(BODY).anchored(Anchor::Middle), "measure before cutting");
    }
    canvas.done();
    Rect::from_origin_size(at, shape.squares())
}

/// The lines over and under the squares.
struct Words {
    name: Vec<String>,
    advice: Vec<String>,
}

impl Words {
    fn of(name: &str, width: f64, setter: &Typesetter) -> Self {
        let mut name = wrap(setter.face, name, HEADING, 0.96 * width);
        name.truncate(NAME_LINES);
        Self { name, advice: wrap(setter.face, TRUE_SIZE, BODY, width) }
    }

    /// From the top to the squares, mm.
    fn above(&self) -> f64 {
        LEADING * HEADING * self.name.len() as f64 + 2.0
    }

    fn below(&self) -> f64 {
        LEADING * BODY * self.advice.len() as f64 + 1.0
    }
}

/// Puts a proof on every page of a layout of large pages: where it is free of pieces, else on a
/// strip of its own where the page may grow; nowhere where neither can be.
pub(super) fn add(layout: &mut Layout, drawing: &Drawing, growth: Growth, setter: &Typesetter) {
    let sizes = Shape::ALL.map(|shape| {
        let squares = shape.squares();
        let words = Words::of(&drawing.name, squares.width, setter);
        (shape, Size::new(squares.width, squares.height + words.above() + words.below()))
    });
    let field = Field::new(drawing, layout);
    for cell in &layout.cells {
        let core = layout.sheet.core() - layout::shift(&layout.sheet, *cell);
        let found = sizes.iter().find_map(|(shape, size)| field.free(core, *size).map(|place| (*shape, place)));
        layout.proofs.extend(found.map(|(shape, place)| Proof { cell: *cell, place, shape }));
    }
    if growth == Growth::Allowed && layout.proofs.is_empty() && layout.cells.len() == 1 {
        let (shape, size) = sizes[0];
        let core = layout.sheet.core().size();
        let taller = layout.sheet.cut_to(core.height + AIR + size.height);
        if taller.paper.height <= sheet::LONGEST && core.width >= size.width {
            let place = Rect::from_origin_size((0.0, core.height + AIR), size);
            layout.sheet = taller;
            layout.proofs.extend(layout.cells.iter().map(|cell| Proof { cell: *cell, place, shape }));
        }
    }
}

/// May a page become longer?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Growth {
    Allowed,
    None,
}

/// Draws the proof of a page; it always shows.
pub(super) fn draw(canvas: &mut Canvas, proof: &Proof, layout: &Layout, name: &str, setter: &mut Typesetter) {
    canvas.lie_on(None);
    let place = proof.place + layout::shift(&layout.sheet, proof.cell);
    let words = Words::of(name, place.width(), setter);
    let lines = |lines: &[String], setting: Setting, canvas: &mut Canvas, setter: &mut Typesetter, top: f64| {
        for (i, line) in lines.iter().enumerate() {
            let base = top + setting.size + LEADING * setting.size * i as f64;
            canvas.text(setter, Point::new(place.x0, base), setting, line);
        }
    };
    canvas.part(Tag::Heading);
    lines(&words.name, Setting::level(HEADING).heavy(), canvas, setter, place.y0);
    let squares = squares_as(proof.shape, canvas, setter, place.origin() + (0.0, words.above()));
    canvas.part(Tag::Paragraph);
    lines(&words.advice, Setting::level(BODY), canvas, setter, squares.y1 + 1.0);
    canvas.done();
}

/// Places round a proof, for labels to keep off it.
pub(super) fn outline(proof: &Proof) -> Vec<Point> {
    let Rect { x0, y0, x1, y1 } = proof.place;
    label::dense(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)].map(Point::from))
}

/// What is taken of a sheet: cells that a line runs through, summed from the top left, so that a
/// box is looked up in four of them.
struct Field<'a> {
    sums: Vec<u32>,
    columns: usize,
    rows: usize,
    pieces: Vec<(&'a Piece, Vec2)>,
}

impl<'a> Field<'a> {
    fn new(drawing: &'a Drawing, layout: &Layout) -> Self {
        let pieces: Vec<_> = drawing.pieces.iter().zip(layout.offsets.iter().copied()).collect();
        let points = layout::lines(drawing, layout);
        let far = points.iter().fold(Vec2::ZERO, |far, p| Vec2::new(far.x.max(p.x), far.y.max(p.y)));
        let cell = |v: f64| (v / STEP).max(0.0) as usize;
        let (columns, rows) = (cell(far.x) + 2, cell(far.y) + 2);
        let mut sums = vec![0; columns * rows];
        // A cell holds what lies over and left of its far corner; the first row and column stay empty.
        points.iter().for_each(|p| sums[(cell(p.y) + 1) * columns + cell(p.x) + 1] = 1);
        for at in columns..sums.len() {
            if at % columns > 0 {
                sums[at] = sums[at] + sums[at - 1] + sums[at - columns] - sums[at - columns - 1];
            }
        }
        Self { sums, columns, rows, pieces }
    }

    /// Does no line run through a box, to whole cells?
    fn is_clear(&self, r: Rect) -> bool {
        let at = |v: f64, most: usize| ((v / STEP).max(0.0) as usize).min(most);
        let (x0, x1) = (at(r.x0, self.columns - 1), at(r.x1 + STEP, self.columns - 1));
        let (y0, y1) = (at(r.y0, self.rows - 1), at(r.y1 + STEP, self.rows - 1));
        let sum = |x: usize, y: usize| self.sums[y * self.columns + x];
        sum(x1, y1) + sum(x0, y0) == sum(x0, y1) + sum(x1, y0)
    }

    /// Is a place, which no line runs near, on a piece?
    fn covers(&self, p: Point) -> bool {
        let corners = |piece: &Piece| -> Vec<Point> {
            piece.cut().into_iter().flat_map(|l| &l.edges).flat_map(|e| e.path.flatten(0.5)).collect()
        };
        self.pieces.iter().any(|(piece, offset)| {
            let near = layout::extent(piece).contains(p - *offset);
            near && polygon(&corners(piece)).contains(p - *offset)
        })
    }

    /// The highest free place of a size in a part of the sheet, of those the furthest right.
    fn free(&self, core: Rect, size: Size) -> Option<Rect> {
        // No further out than one size beside everything.
        let right = core.x1.min(self.columns as f64 * STEP + 2.0 * AIR + size.width) - size.width;
        let down = ((core.height() - size.height) / STEP).floor();
        let across = ((right - core.x0) / STEP).floor();
        if down < 0.0 || across < 0.0 {
            return None;
        }
        let places = (0..=down as usize).flat_map(|j| (0..=across as usize).map(move |i| (i as f64, j as f64)));
        let boxes = places.map(|(i, j)| Rect::from_origin_size((right - STEP * i, core.y0 + STEP * j), size));
        boxes.into_iter().find(|r| self.is_clear(r.inset(AIR)) && !self.covers(r.center()))
    }
}
