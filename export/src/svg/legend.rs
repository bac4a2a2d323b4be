//! Under the pieces: what the lines mean, and a bar to measure.

use super::pen::Pen;
use super::shape::{centred, double_arrow, line, text};
use engine::drawing::Drawing;
use kurbo::{Line, Point, Vec2};
use svg::node::element::Group;

const ROW: f64 = 6.0;
const SAMPLE: f64 = 20.0;
const SIZE: f64 = 3.5;
/// Where the bar starts, right of the legend, mm.
const BAR_LEFT: f64 = 105.0;
/// mm.
const BAR: f64 = 50.0;

/// How much room it takes, mm.
pub(super) const HEIGHT: f64 = ROW * (Pen::ALL.len() as f64 + 0.5);
pub(super) const WIDTH: f64 = 200.0;

/// The legend with its top left corner at a place.
pub(super) fn legend(drawing: &Drawing, at: Point) -> Group {
    let rows = Pen::ALL.into_iter().enumerate();
    let legend = rows.fold(Group::new().set("id", "legend"), |group, (i, pen)| {
        let y = at.y + ROW * (i as f64 + 0.5);
        sample(group, pen, Point::new(at.x, y)).add(text(
            pen.words(),
            Point::new(at.x + SAMPLE + 4.0, y + 0.35 * SIZE),
            SIZE,
        ))
    });
    bar(legend, at + Vec2::new(BAR_LEFT, 0.5 * ROW)).add(text(
        &headline(drawing),
        at + Vec2::new(BAR_LEFT, 4.0 * ROW),
        1.3 * SIZE,
    ))
}

fn headline(drawing: &Drawing) -> String {
    let date = drawing.date.iter().map(|d| format!(", {d}")).collect::<String>();
    format!("{}{date}", drawing.name)
}

fn sample(group: Group, pen: Pen, left: Point) -> Group {
    let l = Line::new(left, left + Vec2::new(SAMPLE, 0.0));
    match pen {
        Pen::Grain | Pen::Stretch | Pen::Fold => double_arrow(pen, l, Vec2::ZERO).into_iter().fold(group, Group::add),
        Pen::Notch => {
            let slit = Line::new(l.midpoint() - Vec2::new(0.0, 2.0), l.midpoint() + Vec2::new(0.0, 2.0));
            group.add(pen.path(line(slit, Vec2::ZERO)))
        }
        _ => group.add(pen.path(line(l, Vec2::ZERO))),
    }
}

/// A line of 50 mm between two ticks.
fn bar(group: Group, left: Point) -> Group {
    let right = left + Vec2::new(BAR, 0.0);
    let tick = Vec2::new(0.0, 2.0);
    let lines = [Line::new(left, right), Line::new(left - tick, left + tick), Line::new(right - tick, right + tick)];
    let drawn = lines.into_iter().fold(group, |g, l| g.add(Pen::Grain.path(line(l, Vec2::ZERO))));
    drawn.add(centred("50 mm: measure before cutting", left.midpoint(right) + Vec2::new(0.0, 6.5), SIZE))
}
