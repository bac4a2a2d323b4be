//! The page for a class: twelve people in a table.

use super::figure::name;
use super::{Form, SMALL};
use crate::pdf::canvas::{Anchor, Setting};
use crate::pdf::style::{BODY, Pen};
use crate::pdf::tags::Tag;
use engine::figure::MEASURES;
use kurbo::{Point, Rect, Vec2};

/// People.
const PEOPLE: usize = 12;
/// Height of the column heads, mm: names stand upright in it.
const HEADS: f64 = 36.0;
/// Width of the first column, mm.
const WHO: f64 = 42.0;

const CARE: &str = "Names may be left out: a number will do, kept on a list apart. Measurements are personal: show \
                    them to nobody else, and destroy the list when the pairs are made.";

pub(super) fn draw(form: &mut Form<'_>) {
    form.title("A class to measure");
    form.room.y0 += 1.0;
    form.blanks(&[("class", 3.0), ("date", 1.5), ("waist taken at", 2.0)], 6.6);
    form.room.y0 += 2.0;
    let unit = form.unit();
    form.say(&format!("Lengths in {unit}; the letters are those of the figure on the first page. {CARE}"));
    form.room.y0 += 2.0;
    let place = form.room;
    table(form, place);
    form.room.y0 = place.y1;
}

fn table(form: &mut Form<'_>, place: Rect) {
    let column = (place.width() - WHO) / MEASURES.len() as f64;
    let heads = place.y0 + HEADS;
    let row = (place.y1 - heads) / PEOPLE as f64;
    form.canvas.pen(Pen::Exact);
    form.canvas.frame(place);
    for i in 0..PEOPLE {
        let y = heads + row * i as f64;
        form.canvas.line(Point::new(place.x0, y), Point::new(place.x1, y));
    }
    for i in 0..MEASURES.len() {
        let x = place.x0 + WHO + column * i as f64;
        form.canvas.line(Point::new(x, place.y0), Point::new(x, place.y1));
    }
    form.canvas.part(Tag::Paragraph);
    let who = Point::new(place.x0 + 1.5, heads - 2.0);
    form.canvas.text(form.setter, who, Setting::level(BODY), "name or number");
    for (i, (letter, key)) in MEASURES.iter().enumerate() {
        let middle = place.x0 + WHO + column * (i as f64 + 0.5);
        let setting = Setting::level(BODY).anchored(Anchor::Middle).heavy();
        form.canvas.text(form.setter, Point::new(middle, heads - 1.6), setting, &letter.to_string());
        let upwards = Setting::level(SMALL).along(Vec2::new(0.0, -1.0));
        let at = Point::new(middle + 0.36 * SMALL, heads - 2.0 - 1.4 * BODY);
        form.canvas.text(form.setter, at, upwards, &name(key.row()));
    }
    for i in 0..PEOPLE {
        let at = Point::new(place.x0 + 1.5, heads + row * (i as f64 + 0.5) + 0.36 * SMALL);
        form.canvas.text(form.setter, at, Setting::level(SMALL), &(i + 1).to_string());
    }
    form.canvas.done();
}
