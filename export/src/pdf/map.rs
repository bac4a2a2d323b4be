//! The page map: a small picture of all pages and of what lies on them.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::label;
use super::layout::{self, Cell, Layout};
use super::style::{BODY, Pen};
use engine::drawing::{Drawing, Piece};
use kurbo::{Point, Rect, Size, Vec2};

/// The map is no larger than this share of true size.
const LARGEST: f64 = 0.25;
/// Names of pages and pieces, mm.
const NAME: f64 = BODY;

/// Draws the map into a box, as large as it fits; answers what it covers.
pub(super) fn draw(
    canvas: &mut Canvas,
    setter: &mut Typesetter,
    drawing: &Drawing,
    layout: &Layout,
    room: Rect,
) -> Rect {
    let core = layout.sheet.core().size();
    let whole = Size::new(core.width * layout.columns.max(1) as f64, core.height * layout.rows.max(1) as f64);
    let scale = (room.width() / whole.width).min(room.height() / whole.height).min(LARGEST);
    let on_map = |p: Point| room.origin() + p.to_vec2() * scale;
    let cell_box = |(row, column): Cell| {
        let at = on_map(Point::new(column as f64 * core.width, row as f64 * core.height));
        Rect::from_origin_size(at, core * scale)
    };
    canvas.pen(Pen::Grid);
    layout.cells.iter().for_each(|c| canvas.frame(cell_box(*c)));
    let mut points = Vec::new();
    canvas.pen(Pen::Map);
    for (piece, offset) in drawing.pieces.iter().zip(&layout.offsets) {
        for edge in piece.cut().into_iter().flat_map(|l| &l.edges) {
            let path = edge.path.map(|p| on_map(p + *offset));
            points.extend(label::dense(&path.flatten(0.1)));
            canvas.path(&path);
        }
    }
    let mut boxes = Vec::new();
    for (piece, offset) in drawing.pieces.iter().zip(&layout.offsets) {
        boxes.push(piece_name(canvas, setter, piece, on_map(heart(piece) + *offset), room));
    }
    for cell in &layout.cells {
        page_name(canvas, setter, &layout::name(*cell), cell_box(*cell), &points, &boxes);
    }
    Rect::from_origin_size(room.origin(), whole * scale)
}

/// A place well inside a piece.
fn heart(piece: &Piece) -> Point {
    piece.text_box.center()
}

fn piece_name(canvas: &mut Canvas, setter: &mut Typesetter, piece: &Piece, heart: Point, room: Rect) -> Rect {
    let setting = Setting::level(NAME).anchored(Anchor::Middle);
    let half = 0.5 * setter.face.width(&setter.face.settable(&piece.name)) * NAME;
    // Near the edge of the map it stands beside the middle of its piece.
    let at = Point::new(heart.x.min(room.x1 - half).max(room.x0 + half), heart.y);
    let covered = Rect::new(at.x - half, at.y - 0.6 * NAME, at.x + half, at.y + 0.6 * NAME);
    // On a narrow piece the name is wider than its picture.
    canvas.patch(covered.inset((0.4, -0.1)), 1.0);
    canvas.text(setter, at + (0.0, 0.36 * NAME), setting, &piece.name);
    covered
}

/// In a corner of its page, or elsewhere on it, where it touches least.
fn page_name(canvas: &mut Canvas, setter: &mut Typesetter, name: &str, cell: Rect, points: &[Point], boxes: &[Rect]) {
    let half = Vec2::new(0.5 * setter.face.width(name) * NAME, 0.5 * NAME);
    let inner = cell.inset((-half.x - 1.0, -half.y - 0.9));
    let middle = inner.center();
    // Corners first, then ever further in.
    let shares = [0.0, 1.0, 0.5, 0.15, 0.85, 0.3, 0.7];
    let place = |x: f64, y: f64| Point::new(inner.x0 + x * inner.width(), inner.y0 + y * inner.height());
    let places = shares.iter().flat_map(|y| shares.iter().map(|x| place(*x, *y)));
    let touched = |p: &Point| {
        let here = Rect::from_points(*p - half, *p + half).inset(0.6);
        let lines = points.iter().filter(|q| here.contains(**q)).count();
        let names = boxes.iter().filter(|b| b.intersect(here).area() > 0.0).count();
        lines + 10 * names
    };
    let at = places.min_by_key(touched).unwrap_or(middle);
    canvas.text(setter, at + (0.0, 0.36 * NAME), Setting::level(NAME).anchored(Anchor::Middle).heavy(), name);
}
