//! The page for one person: figure, boxes, and both tests.

use super::figure::{self, name};
use super::ruler::{FOLD, PULL, Ruler};
use super::{Form, SMALL};
use crate::pdf::canvas::Setting;
use crate::pdf::style::{BODY, HEADING, Pen};
use crate::pdf::tags::Tag;
use crate::pdf::text::{LEADING, Words};
use engine::figure::MEASURES;
use engine::keys::{Row, body, elastic, fabric};
use engine::quantity::Units;
use engine::terms::WaistLevel;
use kurbo::{Point, Rect};

/// Columns of the table: letter, name; what is left is for words and the box. mm.
const LETTER: f64 = 6.0;
const NAME: f64 = 33.0;
const BOX: f64 = 24.0;
/// A row is no lower than this, mm: room to write.
const ROW: f64 = 6.2;
/// Air over and under the words of a row, mm.
const AIR: f64 = 0.6;
/// The figure takes what is left of the page, up to this height, mm.
const FIGURE: f64 = 90.0;

const HOW: &str = "Over bare skin or thin underwear, tape level and snug, not tight, standing relaxed. Tie a narrow \
                   elastic round the waist first and leave it there: every depth is measured from it. A to D \
                   and both stretches are needed; what else stays empty is estimated.";

pub(super) fn draw(form: &mut Form<'_>) {
    form.title("To measure by");
    form.room.y0 += 1.0;
    form.blanks(&[("name or number", 3.0), ("date", 1.5), ("measured by", 2.0)], 6.6);
    form.room.y0 += 2.0;
    let unit = match form.units {
        Units::In => "Lengths in inches and fractions, such as 29 1/2.".to_owned(),
        Units::Cm | Units::Mm => format!("Lengths in {}.", form.unit()),
    };
    form.say(&format!("{HOW} {unit}"));
    form.room.y0 += 1.0;
    let below = table_height(form) + tests_height(form) + 5.0;
    let height = (form.room.height() - below).min(FIGURE);
    let place = Rect::new(form.room.x0, form.room.y0, form.room.x1, form.room.y0 + height);
    figure::draw(form, place);
    form.room.y0 = place.y1 + 2.0;
    waist_level(form);
    for (letter, row) in MEASURES.iter().map(|(letter, key)| (*letter, key.row())) {
        measure(form, letter, row);
    }
    form.room.y0 += 2.5;
    tests(form);
}

/// Words of a row, its advice with it.
fn told(row: &Row) -> String {
    [row.how, row.advice].join(" ").trim().to_owned()
}

fn words_width(form: &Form<'_>) -> f64 {
    form.room.width() - LETTER - NAME - BOX - 2.0
}

fn row_height(form: &Form<'_>, row: &Row) -> f64 {
    let words = Words::of(form.setter.face, &told(row));
    let lines = words.lines(form.setter.face, SMALL, 0.98 * words_width(form)).count();
    // The words to be ticked stand under each other.
    let ticked = if row.name == body::WAIST_LEVEL.name() { WaistLevel::ALL.len() } else { 0 };
    (LEADING * SMALL * lines.max(ticked) as f64 + 2.0 * AIR).max(ROW)
}

fn table_height(form: &Form<'_>) -> f64 {
    let rows = MEASURES.iter().map(|(_, key)| key.row()).chain([body::WAIST_LEVEL.row()]);
    rows.map(|row| row_height(form, row)).sum::<f64>() + 3.0
}

/// A row of the table; answers the place for what is written in.
fn row(form: &mut Form<'_>, letter: &str, row: &Row) -> Rect {
    let (height, top) = (row_height(form, row), form.room.y0);
    let (left, right) = (form.room.x0, form.room.x1);
    form.canvas.part(Tag::Paragraph);
    let base = Point::new(left, top + AIR + BODY);
    form.canvas.text(form.setter, base, Setting::level(BODY).heavy(), letter);
    let base = Point::new(left + LETTER, top + AIR + BODY);
    form.canvas.text(form.setter, base, Setting::level(BODY), &name(row));
    let words = Rect::new(left + LETTER + NAME, top + AIR, right - BOX - 2.0, top + height);
    form.lines(&told(row), Setting::level(SMALL), words);
    form.canvas.done();
    form.room.y0 += height;
    form.canvas.pen(Pen::Grid);
    form.canvas.line(Point::new(left, form.room.y0), Point::new(right, form.room.y0));
    Rect::new(right - BOX, top + 0.5 * (height - ROW) + 0.4, right, top + 0.5 * (height + ROW) - 0.4)
}

fn measure(form: &mut Form<'_>, letter: char, of: &Row) {
    let place = row(form, &letter.to_string(), of);
    form.blank(place);
}

/// A word to be ticked for each place where the waist can be taken.
fn waist_level(form: &mut Form<'_>) {
    let place = row(form, "", body::WAIST_LEVEL.row());
    let words = WaistLevel::ALL.map(|(word, _)| word);
    let step = LEADING * SMALL;
    let mut y = place.center().y - 0.5 * step * words.len() as f64;
    for word in words {
        form.canvas.part(Tag::Paragraph);
        form.blank(Rect::from_origin_size((place.x0, y + 0.4), (0.8 * SMALL, 0.8 * SMALL)));
        form.canvas.text(form.setter, Point::new(place.x0 + 4.0, y + SMALL), Setting::level(SMALL), word);
        form.canvas.done();
        y += step;
    }
}

/// What the tests take, mm.
fn tests_height(form: &Form<'_>) -> f64 {
    let lines = |text: &str| {
        let words = Words::of(form.setter.face, text);
        words.lines(form.setter.face, SMALL, 0.98 * form.room.width()).count() as f64 * LEADING * SMALL
    };
    let words = [fold_words(form), pull_words(form)];
    words.iter().map(|w| lines(w) + LEADING * HEADING + Ruler::HEIGHT + 6.2 + 2.0).sum()
}

fn fold_words(form: &Form<'_>) -> String {
    let ruler = Ruler::of(form.units);
    format!(
        "{} Here: the fold from 0 to {}, then pull and read the percent.",
        fabric::STRETCH_ACROSS.row().how,
        ruler.start(FOLD)
    )
}

fn pull_words(form: &Form<'_>) -> String {
    let ruler = Ruler::of(form.units);
    format!(
        "{} Here: pin it up, mark {} on it, hang a bag on its end and fill it until the marks reach a percent; weigh \
         the bag.",
        elastic::PULL.row().how,
        ruler.start(PULL)
    )
}

fn tests(form: &mut Form<'_>) {
    let ruler = Ruler::of(form.units);
    form.heading("Fold test, at true size: print at 100 %");
    form.say(&fold_words(form));
    ruler.draw(form, FOLD);
    form.blanks(&[("cloth", 2.5), ("across, %", 1.0), ("along, %", 1.0), ("width", 1.0)], 6.2);
    form.room.y0 += 2.0;
    form.heading("Pull test of an elastic, at true size");
    form.say(&pull_words(form));
    ruler.draw(form, PULL);
    form.blanks(&[("elastic", 2.5), ("width", 1.0), ("25 %, g", 1.0), ("50 %, g", 1.0), ("100 %, g", 1.0)], 6.2);
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::keys::{Field, Single};

    /// What the form calls needed is what the table of keys does.
    #[test]
    fn what_is_needed_is_said() {
        let is_needed = |key: &Field<Single>| key.row().is_needed();
        let letters: String = MEASURES.iter().filter(|(_, key)| is_needed(key)).map(|(letter, _)| *letter).collect();
        assert_eq!(letters, "ABCD");
        assert!([fabric::STRETCH_ACROSS, fabric::STRETCH_ALONG].iter().all(is_needed));
        assert!(HOW.contains("A to D and both stretches are needed"), "{HOW}");
    }
}
