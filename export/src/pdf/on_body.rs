//! The garment on the body, on paper: greys that stay apart in print, and lines.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::style::{BODY, LineStyle};
use engine::curve;
use engine::drawing::on_body::{Ink, OnBody, Seen, Shape, View};
use kurbo::{Affine, Point, Rect};

/// Under a view, for what it shows, mm.
pub(crate) const NAME: f64 = 6.0;
/// So much of the body is shown above the top edge and below the gusset, mm of the body.
const AROUND: f64 = 45.0;
/// Between views in a row, mm.
const GAP: f64 = 8.0;

/// What of the body is shown in these views: the garment, and a little round it.
pub(crate) fn shown(views: &[&View]) -> Rect {
    let union = |boxes: Vec<Rect>| boxes.into_iter().reduce(|a, b| a.union(b)).unwrap_or_default();
    let all = union(views.iter().map(|v| v.bounds()).collect());
    let cloth = views.iter().flat_map(|v| &v.shapes).filter(|s| s.ink == Ink::Cloth);
    let cloth = union(cloth.map(|s| s.path.bounds()).collect());
    Rect::new(all.x0, (cloth.y0 - AROUND).max(all.y0), all.x1, (cloth.y1 + AROUND).min(all.y1))
}

/// Draws what is shown of a view in the middle of a room, its name under it. Answers how the body comes to the
/// paper, and what part of the room it takes.
pub(crate) fn view(
    canvas: &mut Canvas,
    setter: &mut Typesetter,
    (view, shown): (&View, Rect),
    room: Rect,
) -> (Affine, Rect) {
    let scale = (room.height() / shown.height()).min(room.width() / shown.width());
    let to = Affine::translate(room.center().to_vec2())
        * Affine::scale(scale)
        * Affine::translate(-shown.center().to_vec2());
    let window = to.transform_rect_bbox(shown);
    canvas.within(window, |canvas| view.shapes.iter().for_each(|s| shape(canvas, s, to)));
    let under = Point::new(room.center().x, window.y1 + 1.0 + BODY);
    canvas.text(setter, under, Setting::level(BODY).anchored(Anchor::Middle), view.seen.name());
    (to, window)
}

/// Draws all views in a row, from the left, at one scale.
pub(crate) fn row(canvas: &mut Canvas, setter: &mut Typesetter, on_body: &OnBody, place: Rect) {
    let upright: Vec<&View> = on_body.views.iter().filter(|v| v.seen != Seen::Below).collect();
    let levels = shown(&upright);
    let part = |v: &View| match v.seen {
        Seen::Below => v.bounds(),
        _ => Rect { y0: levels.y0, y1: levels.y1, ..v.bounds() },
    };
    let parts: Vec<Rect> = on_body.views.iter().map(part).collect();
    let wide: f64 = parts.iter().map(Rect::width).sum();
    let high = parts.iter().map(Rect::height).fold(0.0, f64::max);
    let gaps = GAP * parts.len().saturating_sub(1) as f64;
    let scale = ((place.width() - gaps) / wide).min((place.height() - NAME) / high);
    let mut x = place.x0;
    for (seen, part) in on_body.views.iter().zip(parts) {
        let room = Rect::new(x, place.y0, x + scale * part.width(), place.y0 + scale * high);
        view(canvas, setter, (seen, part), room);
        x = room.x1 + GAP;
    }
}

fn shape(canvas: &mut Canvas, Shape { ink, path }: &Shape, to: Affine) {
    const fn line(width: f64, dash: &'static [f64], grey: f64) -> LineStyle {
        LineStyle { width, dash, grey }
    }
    let elements = curve::elements(path).map(|element| to * element);
    let style = match ink {
        Ink::Skin | Ink::Cloth => {
            canvas.trace(elements);
            return canvas.fill_with(if *ink == Ink::Skin { 0.95 } else { 0.78 });
        }
        Ink::Contour => line(0.2, &[], 0.35),
        Ink::Crease => line(0.15, &[], 0.55),
        Ink::TopEdge | Ink::LegEdge => line(0.5, &[], 0.0),
        Ink::Seam => line(0.25, &[1.2, 0.8], 0.0),
    };
    canvas.draw_as(style);
    canvas.trace(elements);
    canvas.stroke();
}
