//! The lay on paper: a page for each cloth, to lie on the cutting table. No pattern: as large as the page
//! takes it.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::style::{BODY, LineStyle, TITLE};
use super::tags::Tag;
use super::text::{LEADING, Words, wrap};
use super::{Book, Page, PdfError, face, file};
use crate::font::Face;
use crate::outline::joined;
use engine::drawing::{Drawing, Piece, QuarterTurns};
use engine::lay::{Lay, Placed, Turn};
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::words::Speech;
use kurbo::{BezPath, Point, Rect, Shape, Size, Vec2};

/// Left free on every side, mm.
const MARGIN: f64 = 15.0;
/// For the words along two edges of the cloth, mm.
const BESIDE: f64 = 6.0;
/// The names of pieces, mm: the largest of these that goes into the piece.
const NAMES: [f64; 7] = [3.2, 2.7, 2.3, 1.9, 1.6, 1.3, 1.1];
/// How much of a piece's width a line of its name may take.
const SHARES: [f64; 3] = [0.8, 0.55, 0.0];
/// Where a name may stand in a piece, as shares of its height.
const HEIGHTS: [f64; 7] = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74];
/// From a name to the outline of its piece, in sizes of the name.
const CLEAR: f64 = 0.3;
/// Half the arrow to the upper edge of a piece and its head, in sizes of the name.
const ARROW: f64 = 1.0;
const HEAD: f64 = 0.45;

const EDGE: LineStyle = LineStyle { width: 0.3, dash: &[], grey: 0.0 };
const OUTLINE: LineStyle = LineStyle { width: 0.2, dash: &[], grey: 0.0 };
/// How light pieces are, as drawn and turned: 1 is white.
const AS_DRAWN: f64 = 0.8;
const TURNED: f64 = 0.92;

/// Every lay on a page of its own, on Letter where the print is on a paper of that system, else on A4.
///
/// # Errors
/// [`PdfError`] where the file cannot be put together.
pub fn lay(drawing: &Drawing, lays: &[Lay], units: Units, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let mut setter = Typesetter::of(face()?);
    let mut pages = Vec::new();
    for (i, lay) in lays.iter().enumerate() {
        let upright = super::sheet::handout(paper);
        let size = if lay.length < lay.cloth.width { Size::new(upright.height, upright.width) } else { upright };
        let canvas = page(drawing, lay, Speech(units), size, &mut setter);
        pages.push(Page { size, content: canvas.finish(), name: format!("lay {}", i + 1) });
    }
    let book = Book {
        title: format!("{}: lay", drawing.name),
        forms: Vec::new(),
        pages,
        bookmarks: Vec::new(),
        layers: Vec::new(),
    };
    file::write(&book, &setter)
}

fn page(drawing: &Drawing, lay: &Lay, speech: Speech, size: Size, setter: &mut Typesetter) -> Canvas {
    let mut canvas = Canvas::page(size.height);
    let mut room = size.to_rect().inset(-MARGIN);
    let words = [(drawing.name.clone(), TITLE, Tag::Title), (speech.lay(lay), BODY, Tag::Paragraph)];
    for (text, em, tag) in words.into_iter().chain([(ABOUT.to_owned(), BODY, Tag::Paragraph)]) {
        canvas.part(tag);
        for line in wrap(setter.face, &text, em, 0.97 * room.width()) {
            canvas.text(setter, Point::new(room.x0, room.y0 + em), Setting::level(em), &line);
            room.y0 += LEADING * em;
        }
        canvas.done();
        room.y0 += 0.4 * em;
    }
    let room = Rect::new(room.x0 + BESIDE, room.y0 + BESIDE, room.x1, room.y1);
    let scale = (room.width() / lay.cloth.width).min(room.height() / lay.length);
    canvas.part(Tag::Figure(format!("How the pieces lie on {}", lay.cloth.name)));
    let on_page = Scaled { corner: room.origin().to_vec2(), scale };
    cloth(&mut canvas, setter, lay, speech, &on_page);
    for placed in &lay.placed {
        if let Some(piece) = drawing.pieces.iter().find(|p| p.name == placed.piece) {
            laid(&mut canvas, setter, &piece.unfolded(), placed, &on_page);
        }
    }
    canvas.done();
    canvas
}

const ABOUT: &str = "Right side up on a single layer, arrows to the upper edge of each piece. No pattern: it is drawn \
                     smaller than it is.";

/// From the cloth to the page.
struct Scaled {
    corner: Vec2,
    scale: f64,
}

impl Scaled {
    fn point(&self, p: Point) -> Point {
        (p.to_vec2() * self.scale + self.corner).to_point()
    }
}

fn cloth(canvas: &mut Canvas, setter: &mut Typesetter, lay: &Lay, speech: Speech, on_page: &Scaled) {
    let whole = Rect::from_points(on_page.point(Point::ZERO), on_page.point(Point::new(lay.cloth.width, lay.length)));
    canvas.draw_as(EDGE);
    canvas.frame(whole);
    let setting = Setting::level(BODY).anchored(Anchor::Middle);
    let above = Point::new(whole.center().x, whole.y0 - 1.5);
    canvas.text(setter, above, setting, &format!("{} wide", speech.chosen(lay.cloth.width)));
    let beside = Point::new(whole.x0 - 1.5, whole.center().y);
    let along = setting.along(Vec2::new(0.0, -1.0));
    canvas.text(setter, beside, along, &format!("{} along the grain", speech.tape(lay.length)));
}

/// A whole piece at its place, with its name under an arrow to its upper edge.
fn laid(canvas: &mut Canvas, setter: &mut Typesetter, piece: &Piece, placed: &Placed, on_page: &Scaled) {
    let (turned, tone, up) = match placed.turn {
        Turn::AsDrawn => (piece.clone(), AS_DRAWN, -1.0),
        Turn::Half => (piece.turned(QuarterTurns::Two), TURNED, 1.0),
    };
    let there = |p: Point| on_page.point(p + placed.at.to_vec2());
    let Some(outline) = turned.cut() else { return };
    let path = joined(outline).map(there);
    let shape = path.to_bez_path();
    canvas.draw_as(OUTLINE);
    canvas.trace(shape.elements().iter().copied());
    canvas.fill_with(tone);
    canvas.path(&path);
    let name = Name::inside(&shape, &piece.name, setter.face);
    let (x, top) = (name.room.center().x, name.room.y0 + CLEAR * name.em);
    arrow(canvas, Point::new(x, top + ARROW * name.em), up * ARROW * name.em);
    for (i, line) in name.lines.iter().enumerate() {
        let y = top + name.em * (2.0 * ARROW + 1.0 + LEADING * i as f64);
        canvas.text(setter, Point::new(x, y), Setting::level(name.em).anchored(Anchor::Middle), line);
    }
}

/// The name of a piece under its arrow, inside its outline.
struct Name {
    em: f64,
    lines: Vec<String>,
    /// What both take, with air round them.
    room: Rect,
}

impl Name {
    /// As large as it goes into a shape, as near to its middle as it does; the smallest where none does.
    fn inside(shape: &BezPath, name: &str, face: &Face) -> Self {
        let (bounds, words) = (shape.bounding_box(), Words::of(face, name));
        let set = |em: f64, share: f64, height: f64| {
            let width = (share * bounds.width()).max(words.longest() * em);
            let lines: Vec<String> = words.lines(face, em, width).map(str::to_owned).collect();
            let longest = lines.iter().map(|line| face.width(line)).fold(0.0, f64::max);
            let high = 2.0 * ARROW + LEADING * lines.len() as f64;
            let size = Size::new(longest + 2.0 * CLEAR, high + 2.0 * CLEAR) * em;
            let middle = Point::new(bounds.center().x, bounds.y0 + height * bounds.height());
            Self { em, lines, room: Rect::from_center_size(middle, size) }
        };
        let every = NAMES.iter().flat_map(|em| SHARES.iter().flat_map(|s| HEIGHTS.iter().map(|h| (*em, *s, *h))));
        let mut sets = every.map(|(em, share, height)| set(em, share, height));
        let smallest = || set(NAMES[NAMES.len() - 1], SHARES[0], HEIGHTS[0]);
        sets.find(|name| is_inside(shape, name.room)).unwrap_or_else(smallest)
    }
}

/// Corners and the middles of the sides are.
fn is_inside(shape: &BezPath, room: Rect) -> bool {
    let steps = [0.0, 0.5, 1.0];
    let at = |x: f64, y: f64| Point::new(room.x0 + x * room.width(), room.y0 + y * room.height());
    steps.iter().all(|x| steps.iter().all(|y| shape.contains(at(*x, *y))))
}

fn arrow(canvas: &mut Canvas, middle: Point, half: f64) {
    let (tip, foot) = (middle + Vec2::new(0.0, half), middle - Vec2::new(0.0, half));
    canvas.draw_as(OUTLINE);
    canvas.line(foot, tip);
    let back = -half * HEAD;
    canvas.line(tip, tip + Vec2::new(0.6 * back, back));
    canvas.line(tip, tip + Vec2::new(-0.6 * back, back));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pdf::pages;
    use crate::sample;
    use engine::lay::{Cloth, Rules, Wanted, Ways, on_cloth};

    #[test]
    fn a_page_for_every_cloth_and_the_same_twice() {
        let drawing = sample::drawing();
        let wanted: Vec<Wanted<'_>> =
            drawing.pieces.iter().map(|piece| Wanted { piece, taken: piece, times: 2 }).collect();
        let cloth = |width| Cloth { name: "jersey".to_owned(), width, ways: Ways::Both };
        let rules = Rules { steps: Some(200), ..Rules::default() };
        let lays = [600.0, 1500.0].map(|width| on_cloth(&wanted, cloth(width), rules, &mut |_| ()).unwrap());
        let print = || lay(&drawing, &lays, Units::Cm, Paper::A4).unwrap();
        assert_eq!(pages(&print()), Some(2));
        assert!(print() == print());
    }

    #[test]
    fn a_name_stands_inside_its_piece_where_it_can() {
        let face = Face::sans().unwrap();
        let triangle = crate::outline::polygon(&[(0.0, 0.0), (30.0, 0.0), (15.0, 40.0)].map(Point::from));
        let short = Name::inside(&triangle, "Ana: gusset lining", face);
        assert!(is_inside(&triangle, short.room), "{:?}", short.room);
        let long = Name::inside(&triangle, &"Anastasia-Alexandrina".repeat(3), face);
        assert!((long.em - NAMES[NAMES.len() - 1]).abs() < 1e-9 && long.em < short.em);
    }
}
