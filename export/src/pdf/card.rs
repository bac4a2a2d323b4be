//! The work card: one sheet of paper, both sides. In front what is made ready, with every elastic at true
//! size; behind it what is sewn, and room for what the trial teaches.

mod block;
mod cross;
mod figure;
mod ruler;
mod table;

use super::book::{Book, Page};
use super::canvas::{Canvas, Typesetter};
use super::error::PdfError;
use super::{content, file};
use crate::choice::Measures;
use crate::font::{Face, Used};
use block::{BODY, Block, HEADING, TITLE};
use engine::drawing::Drawing;
use engine::drawing::card::Card;
use engine::sheet::Paper;
use engine::words::card as words;
use kurbo::{Rect, Size};

/// Left free on every side, mm.
const MARGIN: f64 = 12.0;
/// Between blocks, mm.
const AIR: f64 = 3.5;

/// The card of a drawing, on A4; on Letter where the print is on a paper of that system.
///
/// # Errors
/// [`PdfError`] where the file cannot be written.
pub fn card(drawing: &Drawing, paper: Paper, measures: Measures) -> Result<Vec<u8>, PdfError> {
    let face = Face::sans().map_err(|e| PdfError::Font(e.to_string()))?;
    let mut setter = Typesetter { face, used: Used::default() };
    let size = size(paper);
    let sides = sides(drawing, size, measures, &mut setter);
    let page = |(canvas, name): (Canvas, &str)| {
        let front = content(canvas)?;
        Ok(Page { size, placed: Vec::new(), clip: Rect::ZERO, front, name: name.to_owned() })
    };
    let pages = sides.into_iter().zip(["front", "back"]).map(page).collect::<Result<Vec<_>, PdfError>>()?;
    file::write(Book { drawing, forms: Vec::new(), pages, bookmarks: Vec::new() }, &setter)
}

fn size(paper: Paper) -> Size {
    let paper = match paper {
        Paper::Letter | Paper::Legal | Paper::Tabloid => Paper::Letter,
        _ => Paper::A4,
    };
    let (width, height) = paper.size_mm();
    Size::new(width, height.unwrap_or(width))
}

/// One side of the paper under way.
struct Side<'a> {
    canvas: Canvas,
    setter: &'a mut Typesetter,
    /// What is left of it.
    room: Rect,
}

impl<'a> Side<'a> {
    fn of(size: Size, setter: &'a mut Typesetter) -> Self {
        Self { canvas: Canvas::page(size.height), setter, room: size.to_rect().inset(-MARGIN) }
    }

    /// Draws something over the whole width from the top of what is left.
    fn add(&mut self, height: f64, draw: impl FnOnce(&mut Canvas, &mut Typesetter, Rect)) {
        let place = Rect::new(self.room.x0, self.room.y0, self.room.x1, self.room.y0 + height);
        draw(&mut self.canvas, self.setter, place);
        self.room.y0 = place.y1;
    }

    /// Words over the whole width, and air after them.
    fn say(&mut self, block: &Block, air: f64) {
        self.add(block.height(), |canvas, setter, place| block.draw(canvas, setter, place.origin()));
        self.room.y0 += air;
    }
}

fn sides(drawing: &Drawing, size: Size, measures: Measures, setter: &mut Typesetter) -> Vec<Canvas> {
    let card = &drawing.card;
    let width = size.width - 2.0 * MARGIN;
    let cautions = Block::list(&setter.face, words::CAUTIONS, &card.cautions, width);
    let (front, left_over) = front(drawing, size, &cautions, setter);
    let back = back(card, size, measures, left_over.then_some(&cautions), setter);
    vec![front, back]
}

/// What is made ready. Answers whether the cautions are still to be said.
fn front(drawing: &Drawing, size: Size, cautions: &Block, setter: &mut Typesetter) -> (Canvas, bool) {
    let card = &drawing.card;
    let mut side = Side::of(size, setter);
    let width = side.room.width();
    let title = Block::text(&side.setter.face, &card.title, TITLE, width).heavy();
    side.say(&title, 0.0);
    let about = Block::text(&side.setter.face, &card.about, BODY, width);
    side.say(&about, AIR);
    let edges = table::Table::of(&side.setter.face, &card.edges, width);
    let in_hand = Block::text(&side.setter.face, &card.in_hand.join(" "), BODY, width);
    let mut strips = ruler::Strips::of(&side.setter.face, card, width);
    let fixed = edges.height() + in_hand.height() + 2.0 * AIR;
    let room = side.room.height() - fixed - figure::LEAST;
    strips.fit(room);
    let spare = room - strips.height();
    let with_cautions = spare >= cautions.height() + AIR;
    let more = spare - if with_cautions { cautions.height() + AIR } else { 0.0 };
    side.add((figure::LEAST + more).min(figure::MOST), |canvas, setter, place| {
        figure::draw(canvas, setter, &drawing.on_body, place);
    });
    side.add(edges.height(), |canvas, setter, place| edges.draw(canvas, setter, place.origin()));
    side.room.y0 += AIR;
    side.say(&in_hand, AIR);
    side.add(strips.height(), |canvas, setter, place| strips.draw(canvas, setter, place.origin()));
    if with_cautions {
        side.room.y0 = side.room.y1 - cautions.height();
        side.say(cautions, 0.0);
    }
    (side.canvas, !with_cautions)
}

/// What is sewn, and the trial.
fn back(card: &Card, size: Size, measures: Measures, cautions: Option<&Block>, setter: &mut Typesetter) -> Canvas {
    let mut side = Side::of(size, setter);
    let width = side.room.width();
    let heading = Block::text(&side.setter.face, words::WORK, HEADING, width).heavy();
    side.say(&heading, 0.0);
    let setting = Block::text(&side.setter.face, &card.setting_up.join(" "), BODY, width);
    side.say(&setting, AIR);
    let trial = table::Trial::of(&side.setter.face, card);
    let measured = match measures {
        Measures::Told => Block::list(&side.setter.face, words::MEASURES, &measured(card), width),
        Measures::Left => Block::default(),
    };
    let below = trial.height() + measured.height() + cautions.map_or(0.0, Block::height) + 3.0 * AIR;
    let room = side.room.height() - below;
    side.add(room, |canvas, setter, place| block::work(canvas, setter, &card.work, place));
    if let Some(cautions) = cautions {
        side.say(cautions, AIR);
    }
    side.add(trial.height(), |canvas, setter, place| trial.draw(canvas, setter, place));
    side.room.y0 += AIR;
    side.say(&measured, 0.0);
    side.canvas
}

/// The measurements as one paragraph.
fn measured(card: &Card) -> Vec<String> {
    if card.measures.is_empty() {
        return Vec::new();
    }
    vec![card.measures.iter().map(|[what, value]| format!("{what} {value}")).collect::<Vec<_>>().join(" · ")]
}
