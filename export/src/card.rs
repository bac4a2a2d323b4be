//! The work card: one sheet of paper, both sides. In front what is made ready, with every elastic at true
//! size; behind it what is sewn, and room for what the trial teaches.

mod block;
mod cross;
mod figure;
mod lay;
mod markdown;
mod roll;
mod ruler;
mod table;

use crate::choice::Measures;
use crate::pdf::book::{Book, Page};
use crate::pdf::canvas::{Canvas, Typesetter};
use crate::pdf::sheet::handout;
use crate::pdf::tags::Tag;
use crate::pdf::{PdfError, face, file};
use block::{BODY, Block, HEADING, TITLE};
use engine::drawing::Drawing;
use engine::drawing::card::{Card, Part, Picture};
use engine::sheet::Paper;
use engine::words::card as words;
use kurbo::{Rect, Size};
pub use markdown::markdown;

/// Left free on every side, mm.
const MARGIN: f64 = 12.0;
/// Between blocks, mm.
const AIR: f64 = 3.5;

/// The card of a drawing, on A4; on Letter where the print is on a paper of that system.
///
/// # Errors
/// [`PdfError`] where the file cannot be written.
pub fn pdf(drawing: &Drawing, paper: Paper, measures: Measures) -> Result<Vec<u8>, PdfError> {
    let mut setter = Typesetter::of(face()?);
    let size = handout(paper);
    let sides = sides(drawing, size, measures, &mut setter);
    let page = |(canvas, name): (Canvas, &str)| Page { size, content: canvas.finish(), name: name.to_owned() };
    let pages = sides.into_iter().zip(["front", "back"]).map(page).collect();
    let title = drawing.card.title.clone();
    file::write(&Book { title, forms: Vec::new(), pages, bookmarks: Vec::new(), layers: Vec::new() }, &setter)
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
    let mut words = Block::list(setter.face, words::CAUTIONS, &card.cautions, width);
    if measures == Measures::Told {
        words = words.and(Block::list(setter.face, words::MEASURES, &measured(card), width));
    }
    let (front, left) = front(drawing, size, &words, setter);
    let back = back(drawing, size, left, setter);
    vec![front, back]
}

/// What had no room in front.
#[derive(Clone, Copy)]
struct Left {
    figure: bool,
    lay: bool,
}

/// What is made ready. Answers what there was no room for.
fn front(drawing: &Drawing, size: Size, words: &Block, setter: &mut Typesetter) -> (Canvas, Left) {
    let card = &drawing.card;
    let mut side = Side::of(size, setter);
    let width = side.room.width();
    let title = Block::text(side.setter.face, &card.title, TITLE, width).heavy();
    side.say(&title, 0.0);
    let about = Block::text(side.setter.face, &card.about, BODY, width);
    side.say(&about, AIR);
    let edges = table::Table::of(side.setter.face, &card.edges, width);
    let in_hand = Block::text(side.setter.face, &card.takes(), BODY, width);
    let mut strips = ruler::Strips::of(side.setter.face, card, width);
    let lays = lay::Lays::of(side.setter.face, card, width);
    let mut room = side.room.height() - edges.height() - in_hand.height() - words.height() - 3.0 * AIR;
    let most = figure::most(&drawing.on_body, width);
    let least = figure::LEAST.min(most) + AIR;
    let has_figure = strips.fits(room - least);
    // The lay is the first to go.
    let has_lay = !lays.is_empty() && strips.fits(room - least - lays.height() - AIR);
    if has_lay {
        room -= lays.height() + AIR;
    }
    strips.fit(if has_figure { room - least } else { room });
    if has_figure {
        let tall = (room - AIR - strips.height()).min(most);
        side.add(tall, |canvas, setter, place| {
            canvas.part(Tag::Figure(words::FIGURE.to_owned()));
            figure::draw(canvas, setter, &drawing.on_body, place);
            canvas.done();
        });
        side.room.y0 += AIR;
    }
    side.add(edges.height(), |canvas, setter, place| edges.draw(canvas, setter, place.origin()));
    side.room.y0 += AIR;
    side.say(&in_hand, AIR);
    if has_lay {
        side.add(lays.height(), |canvas, setter, place| lays.draw(canvas, setter, place.origin()));
        side.room.y0 += AIR;
    }
    side.add(strips.height(), |canvas, setter, place| strips.draw(canvas, setter, place.origin()));
    side.room.y0 = side.room.y1 - words.height();
    side.say(words, 0.0);
    (side.canvas, Left { figure: !has_figure, lay: !has_lay && !lays.is_empty() })
}

/// What is sewn, and the trial; what is left of the front where there is room for it.
fn back(drawing: &Drawing, size: Size, left: Left, setter: &mut Typesetter) -> Canvas {
    let card = &drawing.card;
    let mut side = Side::of(size, setter);
    let width = side.room.width();
    let heading = format!("{}: {}", card.title, words::WORK.to_lowercase());
    let heading = Block::text(side.setter.face, &heading, HEADING, width).heavy();
    side.say(&heading, 0.0);
    let is_of_edge = |part: &Part| matches!(part.picture, Some(Picture::Edge(_)));
    let pictures = card.work.iter().any(is_of_edge).then_some(words::PICTURES);
    let setting = card.setting_up.iter().map(String::as_str).chain(pictures).collect::<Vec<_>>().join(" ");
    let setting = Block::text(side.setter.face, &setting, BODY, width);
    side.say(&setting, AIR);
    let trial = table::Trial::of(side.setter.face, card);
    let least = if left.figure { figure::LEAST + AIR } else { 0.0 };
    let room = side.room.height() - trial.height() - AIR - least;
    let work = block::Work::of(side.setter.face, &card.work, width, room);
    side.add(work.height(), |canvas, setter, place| work.draw(canvas, setter, place.origin()));
    let lays = lay::Lays::of(side.setter.face, card, width);
    let spare = |side: &Side<'_>| side.room.height() - trial.height() - 2.0 * AIR;
    let for_lay = least + lays.height();
    if left.lay && spare(&side) >= for_lay {
        side.room.y0 += AIR;
        side.add(lays.height(), |canvas, setter, place| lays.draw(canvas, setter, place.origin()));
    }
    let spare = spare(&side);
    if left.figure && spare >= figure::LEAST {
        side.room.y0 += AIR;
        let tall = spare.min(figure::most(&drawing.on_body, width));
        side.add(tall, |canvas, setter, place| {
            canvas.part(Tag::Figure(words::FIGURE.to_owned()));
            figure::draw(canvas, setter, &drawing.on_body, place);
            canvas.done();
        });
    }
    side.room.y0 = side.room.y1 - trial.height();
    side.add(trial.height(), |canvas, setter, place| trial.draw(canvas, setter, place));
    side.canvas
}

/// The measurements as one paragraph.
fn measured(card: &Card) -> Vec<String> {
    if card.measures.is_empty() {
        return Vec::new();
    }
    vec![card.measures.iter().map(|[what, value]| format!("{what} {value}")).collect::<Vec<_>>().join(" · ")]
}
