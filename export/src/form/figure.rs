//! The figure: three views of the body form, with every tape and ruler in its place.

use super::Form;
use crate::pdf::canvas::{Anchor, Setting};
use crate::pdf::style::{BODY, Pen};
use crate::pdf::tags::Tag;
use engine::figure::{Held, MEASURES, Seen, View, views};
use engine::keys::Row;
use kurbo::{Point, Rect, Vec2};

/// Under each view, mm: its name.
const CAPTION: f64 = 5.0;
/// Round each view, mm: room for letters.
const AIR: f64 = 6.0;

/// Draws the views side by side into a box, all at one scale.
pub(super) fn draw(form: &mut Form<'_>, place: Rect) {
    let views = views();
    let (wide, tall) =
        views.iter().map(View::bounds).fold((0.0, 0.0_f64), |(wide, tall), b| (wide + b.width(), tall.max(b.height())));
    let gaps = 2.0 * AIR * views.len() as f64;
    let scale = ((place.height() - CAPTION - 2.0) / tall).min((place.width() - gaps) / wide);
    let left_over = place.width() - gaps - scale * wide;
    form.canvas.part(Tag::Figure(in_words()));
    let mut x = place.x0;
    for view in &views {
        let bounds = view.bounds();
        let room = scale * bounds.width() + 2.0 * AIR + left_over / views.len() as f64;
        let middle = x + 0.5 * room;
        let on_page = |p: Point| {
            Point::new(middle + scale * (p.x - bounds.center().x), place.y0 + 1.0 + scale * (p.y - bounds.y0))
        };
        one(form, view, on_page);
        let caption = Point::new(middle, place.y1 - 1.0);
        let setting = Setting::level(BODY).anchored(Anchor::Middle);
        form.canvas.text(form.setter, caption, setting, caption_of(view.seen));
        x += room;
    }
    form.canvas.done();
}

fn one(form: &mut Form<'_>, view: &View, on_page: impl Fn(Point) -> Point) {
    form.canvas.pen(Pen::Body);
    for contour in &view.contours {
        form.canvas.path(&contour.map(&on_page));
    }
    for tape in &view.tapes {
        form.canvas.pen(if tape.held == Held::Ruler { Pen::Arrow } else { Pen::Tape });
        let path = tape.path.map(&on_page);
        form.canvas.path(&path);
        if tape.held == Held::Ruler {
            form.canvas.pen(Pen::Ruler);
            for end in [path.start(), path.end()] {
                form.canvas.line(end - Vec2::new(0.0, 4.0), end + Vec2::new(0.0, 4.0));
            }
        }
        let at = on_page(tape.letter_at) + tape.aside * BODY + Vec2::new(0.0, 0.36 * BODY);
        let setting = Setting::level(BODY).anchored(Anchor::Middle).heavy();
        form.canvas.text(form.setter, at, setting, &tape.letter.to_string());
    }
}

/// From the side, front and back are told by nothing but this.
const fn caption_of(seen: Seen) -> &'static str {
    match seen {
        Seen::Side => "side, the front on the left",
        Seen::Front | Seen::Back | Seen::Below => seen.name(),
    }
}

/// For those who do not see it.
fn in_words() -> String {
    let each = MEASURES.iter().map(|(letter, key)| format!("{letter} {}", name(key.row())));
    let all: Vec<String> = each.collect();
    format!("A body from the front, the side and the back, with the place of each measure: {}", all.join(", "))
}

/// The key's name as it is spoken.
pub(super) fn name(row: &Row) -> String {
    row.name.replace('_', " ")
}
