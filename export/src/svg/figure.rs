//! The place of one measure on the body, as a line figure.

use super::shape::{number, open};
use engine::figure::{Held, MEASURES, Tape, View, views};
use engine::keys::Row;
use kurbo::Vec2;
use svg::node::Text as Content;
use svg::node::element::{Circle, Description, Group, Path, SVG, Title};

/// Round the figure, mm on the body.
const MARGIN: f64 = 24.0;

/// The view that shows how this key of the body is measured, lines in the colour of the text around; none
/// for keys without a place on the body. What the tape is drawn with has the class `tape`.
pub fn figure(key: &Row) -> Option<String> {
    let (letter, _) = MEASURES.iter().find(|(_, field)| field.name() == key.name)?;
    let views = views();
    let view = views.iter().find(|view| view.tapes.iter().any(|tape| tape.letter == *letter))?;
    let tape = view.tapes.iter().find(|tape| tape.letter == *letter)?;
    Some(drawn(view, tape, key))
}

fn drawn(view: &View, tape: &Tape, key: &Row) -> String {
    let bounds = view.bounds().inflate(MARGIN, MARGIN);
    let line =
        |width: f64| Path::new().set("fill", "none").set("stroke", "currentColor").set("stroke-width", number(width));
    let contours =
        view.contours.iter().fold(Group::new(), |all, path| all.add(line(2.0).set("d", open(path, Vec2::ZERO))));
    let held = line(if tape.held == Held::Tape { 7.0 } else { 4.0 }).set("d", open(&tape.path, Vec2::ZERO));
    let held = if tape.held == Held::Ruler { held.set("stroke-dasharray", "14 7") } else { held };
    let ends = [tape.path.start(), tape.path.end()].into_iter().fold(Group::new(), |all, end| {
        all.add(Circle::new().set("cx", number(end.x)).set("cy", number(end.y)).set("r", 7).set("fill", "currentColor"))
    });
    let corners = [bounds.x0, bounds.y0, bounds.width(), bounds.height()].map(number);
    let about =
        format!("The body from the {}; the heavy line shows where it is measured. {}", view.seen.name(), key.how);
    let document = SVG::new()
        .set("viewBox", corners.join(" "))
        .set("role", "img")
        .add(Title::new(key.label()))
        .add(Description::new().add(Content::new(about)))
        .add(contours.set("opacity", "0.55"))
        .add(Group::new().set("class", "tape").add(held).add(ends));
    format!("{document}\n")
}

#[cfg(test)]
mod tests {
    use super::figure;
    use engine::figure::MEASURES;
    use engine::keys::{body, style};

    #[test]
    fn every_measure_has_a_figure_of_its_own() {
        let mut all: Vec<String> = MEASURES.iter().map(|(_, field)| figure(field.row()).unwrap()).collect();
        assert!(all.iter().all(|svg| svg.matches("class=\"tape\"").count() == 1 && !svg.contains("NaN")));
        all.sort();
        all.dedup();
        assert_eq!(all.len(), MEASURES.len());
        assert!(figure(style::BASE.row()).is_none() && figure(body::CHILD.row()).is_none());
    }
}
