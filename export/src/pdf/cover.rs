//! The first page: is the print true to size, which pages there are, what the lines mean, and
//! the notes. What does not fit goes on to further pages.

use super::canvas::{Canvas, Setting, Typesetter};
use super::layer::Layer;
use super::layout::Layout;
use super::sheet::Sheet;
use super::style::LEGEND;
use super::text::{LEADING, Words, wrap};
use super::{map, proof};
use crate::font::Face;
use engine::drawing::{Drawing, Note, Shown};
use kurbo::{Point, Rect};

/// Between things, mm.
const AIR: f64 = 6.0;
/// Sizes of text, mm.
const TITLE: f64 = 7.0;
const HEADING: f64 = 4.2;
const BODY: f64 = 3.2;
/// Notes may be set smaller where they then fit on the page.
const NOTES: [f64; 5] = [3.2, 3.0, 2.8, 2.6, 2.4];
/// Between paragraphs of a note, in sizes.
const BETWEEN: f64 = 0.3;
/// Beside the squares the legend needs this width, mm.
const LEGEND_WIDTH: f64 = 66.0;
/// The page map is no higher than this, mm.
const MAP_HEIGHT: f64 = 88.0;
/// The words beside the map need this width, mm.
const HINT_WIDTH: f64 = 62.0;

const TRUE_SIZE: &str = "Print at 100 % (actual size), never “fit to page”. Measure both squares before cutting.";

/// How to put the pages together, a paragraph each.
const HINTS: [&str; 4] = [
    "Rows of pages are letters, columns are numbers. Only pages that carry something are printed.",
    "Of two neighbouring pages, cut one along the dashed line where they meet, through the diamonds. Lay it on the \
     other so that the diamonds are whole again and the lines run on, and stick it down.",
    "Cut the cloth along the outer solid line. A piece marked “fold” is half a piece: lay that line on the fold of \
     the cloth.",
    "Each piece lies right side up. Both arrows on it matter: the grain line, and the direction of greatest stretch.",
];
/// In place of the second hint where pages do not lie over each other.
const EDGE_TO_EDGE: &str = "Cut the pages along the dashed lines where they meet, through the diamonds. Lay them edge \
                            to edge so that the diamonds are whole again and the lines run on, and stick them down.";
/// In place of the second hint where one page holds everything.
const ONE_PAGE: &str = "All pieces are on one page.";
/// The same, where the large pages have squares of their own.
const STANDS_ALONE: &str = "All pieces are on one large page. It has both test squares again and can be printed \
                            alone: measure them on it before cutting. This first page is for reading.";
/// Where there are several of those.
const EACH_STANDS_ALONE: &str = "Every large page has both test squares again: measure them there before cutting. \
                                 This first page is for reading.";

/// Where the drawing has variants.
const VARIANTS: &str = "This print holds variants as well, each on a layer of its own. One shows at a time: pick it \
                        in your reader’s list of layers before you print. Until you do, it is the sheet itself; pages that stay empty then need not be printed.";

/// Text flowing down pages.
struct Flow<'a> {
    sheet: Sheet,
    setter: &'a mut Typesetter,
    done: Vec<Canvas>,
    canvas: Canvas,
    y: f64,
}

impl Flow<'_> {
    fn area(&self) -> Rect {
        self.sheet.printable()
    }

    /// Goes on to a new page unless there is so much room left.
    fn need(&mut self, height: f64) {
        if self.y + height > self.area().y1 && self.y > self.area().y0 {
            let full = std::mem::replace(&mut self.canvas, Canvas::page(self.sheet.paper.height));
            self.done.push(full);
            self.y = self.area().y0;
        }
    }

    /// Sets a paragraph over the whole width.
    fn paragraph(&mut self, text: &str, setting: Setting) {
        let words = Words::of(&self.setter.face, text);
        let lines: Vec<&str> = words.lines(&self.setter.face, setting.size, self.width()).collect();
        self.set(&lines, setting);
    }

    /// Sets lines from the left.
    fn set(&mut self, lines: &[&str], setting: Setting) {
        for line in lines {
            self.need(LEADING * setting.size);
            self.canvas.text(self.setter, Point::new(self.area().x0, self.y + setting.size), setting, line);
            self.y += LEADING * setting.size;
        }
    }

    /// How wide a paragraph may be, mm.
    fn width(&self) -> f64 {
        0.96 * self.area().width()
    }
}

/// Draws the first page, and more where the notes are long.
pub(super) fn draw(
    drawing: &Drawing,
    own: usize,
    layout: &Layout,
    sheet: Sheet,
    setter: &mut Typesetter,
) -> Vec<Canvas> {
    let y = sheet.printable().y0;
    let mut flow = Flow { sheet, setter, done: Vec::new(), canvas: Canvas::page(sheet.paper.height), y };
    flow.paragraph(&drawing.name, Setting::level(TITLE).heavy());
    let more = match drawing.pieces.len() - own {
        0 => String::new(),
        n => format!(", and {n} that only variants have"),
    };
    let kind = format!("{own} pattern pieces at true size{more}");
    let line = drawing.date.as_ref().map_or_else(|| kind.clone(), |date| format!("{kind} – {date}"));
    flow.paragraph(&line, Setting::level(BODY));
    flow.y += 0.5 * AIR;
    flow.paragraph(TRUE_SIZE, Setting::level(HEADING).heavy());
    flow.y += 0.4 * AIR;
    squares_and_legend(&mut flow);
    map_and_hints(&mut flow, drawing, layout);
    notes(&mut flow, &drawing.notes);
    flow.done.push(flow.canvas);
    flow.done
}

fn squares_and_legend(flow: &mut Flow) {
    let area = flow.area();
    let squares = proof::squares(&mut flow.canvas, flow.setter, Point::new(area.x0 + 0.5, flow.y));
    let (x, low) = (squares.x1 + AIR, squares.y1);
    let beside = area.x1 - x >= LEGEND_WIDTH;
    let (left, top) = if beside { (x + 2.0, flow.y) } else { (area.x0, low + AIR) };
    let bottom = legend(flow, left, top);
    flow.y = low.max(bottom) + AIR;
}

/// Draws the legend; answers where it ends.
fn legend(flow: &mut Flow, left: f64, top: f64) -> f64 {
    const SAMPLE: f64 = 19.0;
    let width = flow.area().x1 - left - SAMPLE - 3.0;
    let mut y = top;
    for (pen, words) in LEGEND {
        let lines = wrap(&flow.setter.face, words, 2.8, width);
        flow.canvas.pen(pen);
        flow.canvas.line(Point::new(left, y + 1.9), Point::new(left + SAMPLE, y + 1.9));
        for line in lines {
            flow.canvas.text(flow.setter, Point::new(left + SAMPLE + 3.0, y + 2.9), Setting::level(2.8), &line);
            y += LEADING * 2.8;
        }
        y += 1.2;
    }
    y
}

fn map_and_hints(flow: &mut Flow, drawing: &Drawing, layout: &Layout) {
    let area = flow.area();
    let beside = area.width() >= 2.2 * HINT_WIDTH;
    let width = if beside { area.width() - HINT_WIDTH - AIR } else { area.width() };
    let room = Rect::new(area.x0, 0.0, area.x0 + width, MAP_HEIGHT.min(area.height() * 0.6));
    flow.need(room.height());
    let top = flow.y;
    let drawn = map::draw(&mut flow.canvas, flow.setter, drawing, layout, room + kurbo::Vec2::new(0.0, top));
    let words = |hint: &&str| layout.cells.len() > 1 || !hint.starts_with("Of two") && !hint.starts_with("Rows");
    let mut hints: Vec<&str> = HINTS.iter().filter(|h| words(h)).copied().collect();
    let proofs = layout.proofs.len();
    match layout.cells.len() {
        1 => hints.insert(0, if proofs == 1 { STANDS_ALONE } else { ONE_PAGE }),
        _ if !layout.sheet.has_room_in_strip() => hints[1] = EDGE_TO_EDGE,
        _ => {}
    }
    if proofs > 1 && proofs == layout.cells.len() {
        hints.insert(0, EACH_STANDS_ALONE);
    }
    if !drawing.variants.is_empty() {
        hints.insert(0, VARIANTS);
    }
    if !beside {
        flow.y = drawn.y1 + AIR;
        hints.iter().for_each(|h| flow.paragraph(h, Setting::level(BODY)));
        flow.y += 0.5 * AIR;
        return;
    }
    let left = drawn.x1.max(area.x0) + AIR;
    let mut y = top;
    let set = |hint: &&str| [wrap(&flow.setter.face, hint, BODY, area.x1 - left), vec![String::new()]].concat();
    let lines: Vec<String> = hints.iter().flat_map(set).collect();
    for line in lines {
        let step = if line.is_empty() { 0.4 } else { LEADING };
        flow.canvas.text(flow.setter, Point::new(left, y + BODY), Setting::level(BODY), &line);
        y += step * BODY;
    }
    flow.y = drawn.y1.max(y) + AIR;
}

/// A note, measured.
struct Measured {
    heading: Words,
    lines: Vec<Words>,
    shown: Shown,
}

impl Measured {
    fn of(face: &Face, note: &Note) -> Self {
        let lines = note.lines.iter().map(|line| Words::of(face, line)).collect();
        Self { heading: Words::of(face, &note.heading), lines, shown: note.shown }
    }

    fn height(&self, face: &Face, size: f64, width: f64) -> f64 {
        let body: f64 = self.lines.iter().map(|l| l.count(face, size, width) as f64 + BETWEEN / LEADING).sum();
        let heading = 1.2 * self.heading.count(face, 1.2 * size, width) as f64;
        LEADING * size * (body + heading) + 0.6 * size
    }
}

fn notes(flow: &mut Flow, notes: &[Note]) {
    let width = flow.width();
    let left = flow.area().y1 - flow.y;
    let face = &flow.setter.face;
    let notes: Vec<Measured> = notes.iter().map(|n| Measured::of(face, n)).collect();
    let fits = |size: &f64| notes.iter().map(|n| n.height(face, *size, width)).sum::<f64>() <= left;
    // What does not fit when it is smallest fits in no other size either.
    let some = NOTES.last().is_some_and(&fits);
    let size = NOTES.into_iter().filter(|_| some).find(fits).unwrap_or(NOTES[1]);
    let mut hidden = (0..).map(Layer::Line);
    for note in notes {
        // A heading keeps company with a line of its block.
        flow.need(LEADING * (HEADING + size) + size);
        let heading: Vec<&str> = note.heading.lines(&flow.setter.face, 1.2 * size, width).collect();
        flow.set(&heading, Setting::level(1.2 * size).heavy());
        for line in &note.lines {
            // A paragraph is not torn apart, unless a page is too short for it.
            let lines: Vec<&str> = line.lines(&flow.setter.face, size, width).collect();
            flow.need((LEADING * size * lines.len() as f64).min(flow.area().height()));
            let layer = if note.shown == Shown::LineByLine { hidden.next() } else { None };
            flow.canvas.lie_on(layer);
            flow.set(&lines, Setting::level(size));
            flow.canvas.lie_on(None);
            flow.y += BETWEEN * size;
        }
        flow.y += 0.6 * size;
    }
}
