//! The first page: how to print and put together. Is the print true to size, which pages there are,
//! what the lines mean, how many sheets are needed, and which pieces there are.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::layer::Layer;
use super::layout::Layout;
use super::overlay::Overlay;
use super::sheet::{self, Sheet};
use super::style::{BODY, HEADING, LEGEND, Pen, TITLE};
use super::tags::Tag;
use super::text::{LEADING, Words, wrap};
use super::{map, on_body, proof};
use engine::drawing::{Piece, Role, TextStyle};
use engine::sheet::Paper;
use kurbo::{Point, Rect};

/// Between things, mm.
const AIR: f64 = 6.0;
/// A heavy letter reaches so far to the left of where it starts, mm.
const BEARING: f64 = 0.3;
/// Between paragraphs, in sizes.
const BETWEEN: f64 = 0.4;
/// Beside the squares the legend needs this width, mm.
const LEGEND_WIDTH: f64 = 66.0;
/// The words beside the map need this width, mm.
const HINT_WIDTH: f64 = 62.0;
/// Size of the text and height of the page map, mm: the first with which everything is on one page.
const TRIED: [(f64, f64); 5] = [(BODY, 88.0), (BODY, 66.0), (BODY, 56.0), (2.8, 56.0), (2.4, 44.0)];

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
/// In place of the first two hints where one page holds everything.
const ONE_PAGE: &str = "All pieces are on one page.";

/// Where the drawing has variants.
const VARIANTS: &str = "This print holds variants as well, each on a layer of its own. One shows at a time: pick it \
                        in your reader’s list of layers before you print. Until you do, it is the sheet itself; pages \
                        that stay empty then need not be printed.";

/// Where two garments are shown together.
const TOGETHER: &str = "Both garments lie on the same axes, cut lines alone, each on a layer of its own. This print is \
                        to be looked at and measured, not to be cut.";
/// Where sizes lie over each other.
const SIZES: &str = "All sizes lie over each other, each by its own dash and on a layer of its own. To print one size \
                     alone, hide the others in your reader’s list of layers; sewing lines and finished edges are \
                     hidden until you show them there.";
/// What is cut where there are several.
const CUT_ONE: &str = "Cut the cloth along the line of your size. A piece marked “fold” is half a piece: lay that line \
                       on the fold of the cloth. Notches stand on the line of their own size.";

/// What the numbers beside the edges are.
const NUMBERS: &str = "marks of the elastic or band, counted from its cut end: pin number on number; L and R: the \
                       wearer’s left and right";

/// How high the picture of the garment is, with the names of its views, mm: at least, and at most.
const ON_BODY: (f64, f64) = (36.0, 60.0);
/// Over it.
const BODY_FORM: &str = "On the body";
/// What it shows, for who does not see it.
const BODY_FORM_SHOWN: &str = "The garment on the body, from the front, the side, the back and from below";
/// Under it, so that nobody takes it for a portrait.
const NO_LIKENESS: &str = "A form made from the tape measurements; no likeness.";

/// What the first page tells of.
struct Told<'a> {
    overlay: &'a Overlay,
    layout: &'a Layout,
    paper: Paper,
    /// Size of the text, mm.
    size: f64,
    /// The map is no higher than this, mm.
    map: f64,
}

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

    /// Sets a paragraph over the whole width; it is not torn apart, unless a page is too short for it.
    fn paragraph(&mut self, text: &str, setting: Setting, tag: Tag) {
        let words = Words::of(self.setter.face, text);
        let lines: Vec<&str> = words.lines(self.setter.face, setting.size, 0.97 * self.area().width()).collect();
        self.need((LEADING * setting.size * lines.len() as f64).min(self.area().height()));
        self.canvas.part(tag);
        for line in lines {
            self.need(LEADING * setting.size);
            let at = Point::new(self.area().x0 + BEARING, self.y + setting.size);
            self.canvas.text(self.setter, at, setting, line);
            self.y += LEADING * setting.size;
        }
        self.canvas.done();
    }

    fn heading(&mut self, text: &str) {
        // A heading keeps company with some lines of its block.
        self.need(4.0 * LEADING * HEADING);
        self.paragraph(text, Setting::level(HEADING).heavy(), Tag::Heading);
    }
}

/// Draws the first page, and more only where the paper leaves too little room.
pub(super) fn draw(
    overlay: &Overlay,
    layout: &Layout,
    sheet: Sheet,
    paper: Paper,
    setter: &mut Typesetter,
) -> Vec<Canvas> {
    let mut best: Option<Cover> = None;
    for (size, map) in TRIED {
        let cover = Told { overlay, layout, paper, size, map }.draw(sheet, setter);
        let is_all = cover.pages.len() == 1 && cover.shows_body;
        // A smaller map makes room for the body; the words grow no smaller for it.
        let is_better = best.as_ref().is_none_or(|best| best.pages.len() > 1 || is_all && size >= BODY);
        if is_better {
            best = Some(cover);
        }
        if is_all {
            break;
        }
    }
    best.map_or_else(Vec::new, |cover| cover.pages)
}

/// What was drawn in one way.
struct Cover {
    pages: Vec<Canvas>,
    /// Is the garment on the body there, if it is to be?
    shows_body: bool,
}

impl Told<'_> {
    fn draw(&self, sheet: Sheet, setter: &mut Typesetter) -> Cover {
        let (y, drawing) = (sheet.printable().y0, &self.overlay.whole);
        let mut flow = Flow { sheet, setter, done: Vec::new(), canvas: Canvas::page(sheet.paper.height), y };
        flow.paragraph(&drawing.name, Setting::level(TITLE).heavy(), Tag::Title);
        flow.paragraph(&self.contents(), Setting::level(self.size), Tag::Paragraph);
        flow.y += 0.5 * AIR;
        flow.heading(TRUE_SIZE);
        flow.y += 0.4 * AIR;
        self.squares_and_legend(&mut flow);
        self.map_and_hints(&mut flow);
        self.pieces(&mut flow);
        self.trials(&mut flow);
        let shows_body = self.on_body(&mut flow);
        flow.done.push(flow.canvas);
        Cover { pages: flow.done, shows_body }
    }

    /// What the print holds, and how much paper it takes.
    fn contents(&self) -> String {
        let (drawing, own) = (&self.overlay.whole, self.overlay.own);
        let more = match drawing.pieces.len() - own {
            0 => String::new(),
            n => format!(", and {n} that only variants have"),
        };
        let date = drawing.date.as_ref().map(|date| format!(" – {date}")).unwrap_or_default();
        let sheets = match self.layout.cells.len() {
            1 => "1 sheet".to_owned(),
            n => format!("{n} sheets"),
        };
        let paper = sheet::name(self.paper);
        let sizes = match drawing.sizes.len() {
            0 => String::new(),
            n => format!(" in {n} sizes"),
        };
        format!(
            "{own} pattern pieces{sizes} at true size{more}{date}. Paper needed: {sheets} of {paper}, and this page."
        )
    }

    fn squares_and_legend(&self, flow: &mut Flow) {
        let area = flow.area();
        let squares = proof::squares(&mut flow.canvas, flow.setter, Point::new(area.x0 + 0.5, flow.y));
        let (x, low) = (squares.x1 + AIR, squares.y1);
        let beside = area.x1 - x >= LEGEND_WIDTH;
        let (left, top) = if beside { (x + 2.0, flow.y) } else { (area.x0, low + AIR) };
        let bottom = self.legend(flow, left, top);
        flow.y = low.max(bottom) + AIR;
    }

    /// Draws the legend; answers where it ends.
    fn legend(&self, flow: &mut Flow, left: f64, top: f64) -> f64 {
        const SAMPLE: f64 = 19.0;
        const GAP: f64 = 3.0;
        let (width, size) = (flow.area().x1 - left - SAMPLE - GAP, self.size);
        let mut y = top;
        for (pen, words) in self.key() {
            flow.canvas.part(Tag::Paragraph);
            match pen {
                Some(pen) => {
                    flow.canvas.pen(pen);
                    flow.canvas.line(Point::new(left, y + 0.66 * size), Point::new(left + SAMPLE, y + 0.66 * size));
                }
                None => {
                    let middle = Point::new(left + 0.5 * SAMPLE, y + size);
                    let setting = Setting::level(BODY).heavy().anchored(Anchor::Middle);
                    flow.canvas.text(flow.setter, middle, setting, "1  2  3");
                }
            }
            for line in wrap(flow.setter.face, &words, size, width) {
                let at = Point::new(left + SAMPLE + GAP, y + size);
                flow.canvas.text(flow.setter, at, Setting::level(size), &line);
                y += LEADING * size;
            }
            y += BETWEEN * size;
        }
        flow.canvas.done();
        y
    }

    /// What each kind of line means: of sizes and of two garments, each by its dash. Last the numbers, without
    /// a line.
    fn key(&self) -> Vec<(Option<Pen>, String)> {
        if let Some(names) = &self.overlay.together {
            let outlines = Pen::OF_GARMENTS.into_iter().map(Some).zip(names.iter().cloned());
            let join = LEGEND.iter().filter(|(pen, _)| *pen == Pen::Join);
            return outlines.chain(join.map(|(pen, words)| (Some(*pen), (*words).to_owned()))).collect();
        }
        let sizes = &self.overlay.whole.sizes;
        let of_sizes = sizes.iter().enumerate().map(|(n, size)| (Some(Pen::Size(n)), format!("size {}", size.name)));
        let usual = LEGEND.iter().filter(|(pen, _)| sizes.is_empty() || *pen != Pen::Role(Role::Cut));
        let usual = usual.map(|(pen, words)| (Some(*pen), (*words).to_owned()));
        let numbered = self.overlay.whole.pieces.iter().any(|piece| !piece.numbers.is_empty());
        of_sizes.chain(usual).chain(numbered.then(|| (None, NUMBERS.to_owned()))).collect()
    }

    fn map_and_hints(&self, flow: &mut Flow) {
        let area = flow.area();
        let beside = area.width() >= 2.2 * HINT_WIDTH;
        let width = if beside { area.width() - HINT_WIDTH - AIR } else { area.width() };
        let room = Rect::new(area.x0, 0.0, area.x0 + width, self.map.min(area.height() * 0.6));
        flow.need(room.height());
        let top = flow.y;
        let room = room + kurbo::Vec2::new(0.0, top);
        flow.canvas.part(Tag::Figure(self.map_in_words()));
        let drawn = map::draw(&mut flow.canvas, flow.setter, &self.overlay.whole, self.layout, room);
        flow.canvas.done();
        let setting = Setting::level(self.size);
        if !beside {
            flow.y = drawn.y1 + AIR;
            self.hints().iter().for_each(|h| flow.paragraph(h, setting, Tag::Paragraph));
            flow.y += 0.5 * AIR;
            return;
        }
        let left = drawn.x1.max(area.x0) + AIR;
        let mut y = top;
        for hint in self.hints() {
            flow.canvas.part(Tag::Paragraph);
            for line in wrap(flow.setter.face, hint, self.size, area.x1 - left) {
                flow.canvas.text(flow.setter, Point::new(left, y + self.size), setting, &line);
                y += LEADING * self.size;
            }
            y += BETWEEN * self.size;
        }
        flow.canvas.done();
        flow.y = drawn.y1.max(y) + AIR;
    }

    /// Those that hold for this print.
    fn hints(&self) -> Vec<&'static str> {
        let [rows, join, cut, arrows] = HINTS;
        let mut hints = match (self.layout.cells.len(), self.layout.sheet.has_room_in_strip()) {
            (1, _) => vec![ONE_PAGE, cut, arrows],
            (_, true) => vec![rows, join, cut, arrows],
            (_, false) => vec![rows, EDGE_TO_EDGE, cut, arrows],
        };
        if !self.overlay.whole.variants.is_empty() {
            hints.insert(0, VARIANTS);
        }
        if self.overlay.together.is_some() {
            hints.retain(|hint| ![cut, arrows].contains(hint));
            hints.insert(0, TOGETHER);
        }
        if !self.overlay.whole.sizes.is_empty() {
            hints.insert(0, SIZES);
            hints.iter_mut().filter(|hint| **hint == cut).for_each(|hint| *hint = CUT_ONE);
        }
        hints
    }

    fn map_in_words(&self) -> String {
        let names: Vec<String> = self.layout.cells.iter().map(|cell| super::layout::name(*cell)).collect();
        let pieces: Vec<&str> = self.overlay.whole.pieces.iter().map(|p| p.name.as_str()).collect();
        format!("Map of the pages {}, and where these pieces lie on them: {}", names.join(", "), pieces.join(", "))
    }

    /// Everything that is written on the pieces: on a narrow one some of it has no room.
    fn pieces(&self, flow: &mut Flow) {
        flow.heading("Pieces");
        let setting = Setting::level(self.size);
        for piece in self.overlay.whole.pieces.iter().take(self.overlay.own) {
            flow.paragraph(&listed(piece), setting, Tag::Paragraph);
            flow.y += BETWEEN * self.size;
        }
        flow.y += self.size;
    }

    /// What the trials taught, a line each, which can be hidden.
    fn trials(&self, flow: &mut Flow) {
        let trials = &self.overlay.whole.trials;
        let mut hidden = (0..).map(Layer::Line);
        if trials.lines.is_empty() {
            return;
        }
        flow.heading(&trials.heading);
        for line in &trials.lines {
            flow.canvas.lie_on(hidden.next());
            flow.paragraph(line, Setting::level(self.size), Tag::Paragraph);
            flow.canvas.lie_on(None);
            flow.y += BETWEEN * self.size;
        }
    }

    /// The garment on the body, where the page has room left for it. Answers whether nothing of it is missing.
    fn on_body(&self, flow: &mut Flow) -> bool {
        if self.overlay.together.is_some() || self.overlay.whole.on_body.views.is_empty() {
            return true;
        }
        let area = flow.area();
        // A hair less than there is, so that what stands under it stays on the page.
        let high = (area.y1 - flow.y - LEADING * (HEADING + self.size) - 0.5).min(ON_BODY.1);
        if high < ON_BODY.0 {
            return false;
        }
        flow.heading(BODY_FORM);
        flow.y += 0.4 * AIR;
        flow.canvas.part(Tag::Figure(BODY_FORM_SHOWN.to_owned()));
        let place = Rect::new(area.x0, flow.y, area.x1, flow.y + high - 0.4 * AIR);
        on_body::row(&mut flow.canvas, flow.setter, &self.overlay.whole.on_body, place);
        flow.canvas.done();
        flow.y = place.y1;
        flow.paragraph(NO_LIKENESS, Setting::level(self.size), Tag::Paragraph);
        true
    }
}

/// A piece in one line: its name, and what is written on it but the pattern's name.
fn listed(piece: &Piece) -> String {
    let lines = |style: TextStyle| piece.text.iter().filter(move |l| l.style == style).map(|l| l.text.as_str());
    let told: Vec<&str> = lines(TextStyle::Cutting).chain(lines(TextStyle::Body)).collect();
    let name: Vec<&str> = lines(TextStyle::Title).collect();
    if told.is_empty() { name.join(" ") } else { format!("{}: {}", name.join(" "), told.join("; ")) }
}
