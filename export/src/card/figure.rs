//! The garment on the body from the front and the back, its edges named.

use super::block::BODY;
use crate::font::Face;
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use crate::pdf::on_body::{self, NAME, shown};
use crate::pdf::style::LineStyle;
use engine::drawing::on_body::{Label, OnBody, Part, Seen, View};
use kurbo::{Affine, Point, Rect};

/// How high the picture is at least, mm, with its words.
pub(super) const LEAST: f64 = 30.0;
/// Beside a view, for the names of its edges.
const BESIDE: f64 = 22.0;

const LEADER: LineStyle = LineStyle { width: 0.15, dash: &[], grey: 0.0 };

/// The views that are shown.
fn views(on_body: &OnBody) -> Vec<&View> {
    on_body.views.iter().filter(|v| matches!(v.seen, Seen::Front | Seen::Back)).collect()
}

/// How high the picture is where it may be as wide as this, mm.
pub(super) fn most(on_body: &OnBody, width: f64) -> f64 {
    let views = views(on_body);
    let room = width / views.len().max(1) as f64 - 2.0 * BESIDE;
    let shown = shown(&views);
    if shown.width() > 0.0 { room / shown.width() * shown.height() + NAME } else { 0.0 }
}

/// Draws the views side by side, at one scale.
pub(super) fn draw(canvas: &mut Canvas, setter: &mut Typesetter, on_body: &OnBody, place: Rect) {
    let views = views(on_body);
    let shown = shown(&views);
    let wide = place.width() / views.len().max(1) as f64;
    for (i, view) in views.into_iter().enumerate() {
        let x0 = place.x0 + i as f64 * wide;
        one(canvas, setter, (view, shown), Rect::new(x0, place.y0, x0 + wide, place.y1));
    }
}

fn one(canvas: &mut Canvas, setter: &mut Typesetter, (view, shown): (&View, Rect), place: Rect) {
    let room = Rect::new(place.x0 + BESIDE, place.y0, place.x1 - BESIDE, place.y1 - NAME);
    let (to, window) = on_body::view(canvas, setter, (view, shown), room);
    labels(canvas, setter, &view.labels, to, window);
}

/// Names beside the view, each level with its place as far as there is room, with a line to it.
fn labels(canvas: &mut Canvas, setter: &mut Typesetter, labels: &[Label], to: Affine, window: Rect) {
    let middle = window.center().x;
    let mut sides: [Vec<(Point, &str)>; 2] = [Vec::new(), Vec::new()];
    for label in labels {
        let at = to * label.at;
        let right = at.x > middle + 0.1 || label.part == Part::Gusset;
        sides[usize::from(right)].push((at, label.part.name()));
    }
    for (side, list) in sides.iter_mut().enumerate() {
        // The lowest keeps its place: a line down to it would cross what lies between.
        list.sort_by(|a, b| b.0.y.total_cmp(&a.0.y));
        let mut y = f64::INFINITY;
        for (at, name) in list {
            y = at.y.min(y - 1.25 * BODY);
            let word = name_beside(setter.face, name, side, window, y);
            canvas.text(setter, word.0, Setting::level(BODY), name);
            canvas.draw_as(LEADER);
            canvas.line(word.1, *at);
        }
    }
}

/// Where a name starts, and where its line does.
fn name_beside(face: &Face, name: &str, side: usize, window: Rect, y: f64) -> (Point, Point) {
    let base = y + 0.35 * BODY;
    if side == 1 {
        let x = window.x1 + 3.0;
        return (Point::new(x, base), Point::new(x - 0.8, y));
    }
    let x = window.x0 - 3.0 - face.width(name) * BODY;
    (Point::new(x, base), Point::new(window.x0 - 3.0 + 0.8, y))
}
