//! What a page carries besides the pieces: where it meets its neighbours, and which page it is.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::layer::Layer;
use super::layout::{Cell, Layout, name, shift};
use super::proof;
use super::sheet::Sheet;
use super::style::{BODY, HEADING, Pen};
use kurbo::{Point, Rect, Vec2};

/// Match marks along a side, as shares of the core: the same places on both neighbours.
/// The headline keeps the left part of the top free.
const UPRIGHT_MARKS: [f64; 3] = [0.2, 0.5, 0.8];
const LEVEL_MARKS: [f64; 2] = [0.54, 0.88];
/// The headline is no wider than this share of the core.
const HEADLINE: f64 = 0.46;
/// Half the width of a match mark where the strip has room for it, mm.
const MARK: f64 = 4.0;
/// Size of labels where the strip has room for it, mm.
const LABEL: f64 = BODY;

/// Without a strip, a label stands so far inside the page, in its own sizes.
const INSIDE: f64 = 0.8;
/// Where the headline may stand without a strip, as shares of the page's height.
const HEADLINES: [f64; 5] = [0.0, 0.1, 0.3, 0.45, 0.7];

/// One page among the others.
pub(super) struct Tile<'a> {
    pub(super) layout: &'a Layout,
    pub(super) cell: Cell,
    /// Places along the lines of all pieces that lie on the page, from its top left; labels keep off them
    /// where they can.
    pub(super) lines: Vec<Point>,
    /// On every page, with the page's number.
    pub(super) title: &'a str,
    pub(super) page: usize,
    pub(super) pages: usize,
}

/// Those places of a sheet that lie on a page, from its top left.
pub(super) fn on_page(lines: &[Point], layout: &Layout, cell: Cell) -> Vec<Point> {
    let (shift, paper) = (shift(&layout.sheet, cell), layout.sheet.paper.to_rect());
    lines.iter().map(|p| *p + shift).filter(|p| paper.contains(*p)).collect()
}

impl Tile<'_> {
    /// How much of a box on the page lies over lines.
    fn touched(&self, place: Rect) -> usize {
        self.lines.iter().filter(|q| place.contains(**q)).count()
    }
}

/// A side of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum PageSide {
    Left,
    Right,
    Top,
    Bottom,
}

impl PageSide {
    const ALL: [Self; 4] = [Self::Left, Self::Right, Self::Top, Self::Bottom];

    const fn neighbour(self, (row, column): Cell) -> Option<Cell> {
        match self {
            Self::Left if column > 0 => Some((row, column - 1)),
            Self::Right => Some((row, column + 1)),
            Self::Top if row > 0 => Some((row - 1, column)),
            Self::Bottom => Some((row + 1, column)),
            Self::Left | Self::Top => None,
        }
    }

    /// The core's corners on this side, from left or top.
    const fn ends(self, core: Rect) -> (Point, Point) {
        let corner = Point::new;
        match self {
            Self::Left => (corner(core.x0, core.y0), corner(core.x0, core.y1)),
            Self::Right => (corner(core.x1, core.y0), corner(core.x1, core.y1)),
            Self::Top => (corner(core.x0, core.y0), corner(core.x1, core.y0)),
            Self::Bottom => (corner(core.x0, core.y1), corner(core.x1, core.y1)),
        }
    }

    const fn is_upright(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    const fn marks(self) -> &'static [f64] {
        if self.is_upright() { &UPRIGHT_MARKS } else { &LEVEL_MARKS }
    }

    /// Where the neighbour may be named, as shares of the core: between two marks.
    const fn labels(self) -> &'static [f64] {
        match self {
            Self::Left | Self::Right => &[0.35, 0.65, 0.28, 0.42, 0.58, 0.72],
            // The headline is on the left.
            Self::Top => &[0.71, 0.64, 0.78, 0.67, 0.74, 0.95],
            Self::Bottom => &[0.71, 0.64, 0.78, 0.67, 0.74, 0.95, 0.3, 0.2, 0.4, 0.1],
        }
    }

    const fn outward(self) -> Vec2 {
        match self {
            Self::Left => Vec2::new(-1.0, 0.0),
            Self::Right => Vec2::new(1.0, 0.0),
            Self::Top => Vec2::new(0.0, -1.0),
            Self::Bottom => Vec2::new(0.0, 1.0),
        }
    }
}

/// Draws a page: those pieces that reach into its printable part, by the `bounds` of their forms, then
/// join lines, match marks and labels.
pub(super) fn draw(tile: &Tile, bounds: &[Rect], setter: &mut Typesetter) -> Canvas {
    let sheet = &tile.layout.sheet;
    let mut canvas = Canvas::page(sheet.paper.height);
    let (shift, clip) = (shift(sheet, tile.cell), sheet.printable());
    for (i, (offset, bounds)) in tile.layout.offsets.iter().zip(bounds).enumerate() {
        let at = *offset + shift;
        if (*bounds + at).overlaps(clip) && tile.layout.shows(i, tile.cell) {
            canvas.form(i, at.to_point(), clip);
        }
    }
    canvas.decoration();
    canvas.lie_on(Some(Layer::Frames));
    for side in PageSide::ALL {
        let Some(other) = side.neighbour(tile.cell).filter(|c| tile.layout.joins(tile.cell, *c)) else { continue };
        join(&mut canvas, sheet, side);
        neighbour(&mut canvas, tile, side, &name(other), setter);
    }
    headline(&mut canvas, tile, setter);
    for proof in tile.layout.proofs.iter().filter(|p| p.cell == tile.cell) {
        proof::draw(&mut canvas, proof, tile.layout, tile.title, setter);
    }
    canvas
}

fn join(canvas: &mut Canvas, sheet: &Sheet, side: PageSide) {
    let (a, b) = side.ends(sheet.core());
    let on = (b - a).normalize() * sheet.strip;
    canvas.pen(Pen::Join);
    canvas.line(a - on, b + on);
    canvas.pen(Pen::Match);
    let half = if sheet.has_room_in_strip() { MARK.min(sheet.strip - 0.3) } else { MARK };
    let (out, beside) = (side.outward() * half, (b - a).normalize() * half);
    for share in side.marks() {
        let p = a.lerp(b, *share);
        if sheet.has_room_in_strip() {
            canvas.polygon(&[p - beside, p - out, p + beside, p + out]);
            canvas.line(p - beside, p + beside);
            canvas.line(p - out, p + out);
        } else {
            // Each page carries its half of the diamond.
            canvas.polygon(&[p - beside, p - out, p + beside]);
            canvas.line(p - out, p);
        }
    }
}

/// Size of a label in the strip, mm.
fn label_size(sheet: &Sheet) -> f64 {
    if sheet.has_room_in_strip() { LABEL.min(0.64 * sheet.strip) } else { 0.8 * LABEL }
}

/// The name of the page that joins on, in the strip beyond the join line.
fn neighbour(canvas: &mut Canvas, tile: &Tile, side: PageSide, other: &str, setter: &mut Typesetter) {
    let sheet = &tile.layout.sheet;
    let size = label_size(sheet);
    let words = format!("joins {other}");
    let (a, b) = side.ends(sheet.core());
    let direction = if side.is_upright() { Vec2::new(0.0, -1.0) } else { Vec2::new(1.0, 0.0) };
    let up = Vec2::new(direction.y, -direction.x);
    let half = direction * (0.5 * setter.face.width(&words) * size + 0.8) + up * 0.66 * size;
    let away = if sheet.has_room_in_strip() { 0.5 * sheet.strip } else { -INSIDE * size };
    let places = side.labels().iter().map(|share| a.lerp(b, *share) + side.outward() * away);
    let Some(middle) = places.min_by_key(|p| tile.touched(Rect::from_points(*p - half, *p + half))) else { return };
    if sheet.has_room_in_strip() {
        // The neighbour shows this strip again.
        canvas.patch(Rect::from_points(middle - half, middle + half), 1.0);
    }
    let setting = Setting::level(size).along(direction).anchored(Anchor::Middle);
    canvas.text(setter, middle - up * 0.36 * size, setting, &words);
}

/// Which page this is, in the strip at the top left; without a strip, inside the page where it
/// touches least.
fn headline(canvas: &mut Canvas, tile: &Tile, setter: &mut Typesetter) {
    let sheet = &tile.layout.sheet;
    let (printable, strip) = (sheet.printable(), sheet.strip);
    let in_strip = sheet.has_room_in_strip();
    let (large, small) = (if in_strip { HEADING.min(0.92 * strip) } else { LABEL }, label_size(sheet));
    let cell = name(tile.cell);
    let first = setter.face.width(&cell) * large + 1.5;
    let room = HEADLINE * sheet.core().width() - first;
    let count = format!(" – page {} of {}", tile.page, tile.pages);
    let words = shortened(tile.title, &count, room / small, setter);
    let width = first + setter.face.width(&words) * small + 0.8;
    let height = if in_strip { 0.96 * strip } else { 2.0 * INSIDE * large };
    let corner = Rect::from_origin_size(printable.origin(), (width, height));
    let at = if in_strip {
        // It is set over the strip, which the page above shows again.
        canvas.patch(corner, 1.0);
        corner
    } else {
        HEADLINES
            .map(|share| corner + Vec2::new(0.0, share * (printable.height() - height)))
            .into_iter()
            .min_by_key(|place| tile.touched(*place))
            .unwrap_or(corner)
    };
    // In the strip there is just room for what reaches under the base line as well.
    let base = at.y0 + if in_strip { 0.5 * strip + 0.28 * large } else { 0.5 * height + 0.36 * large };
    canvas.text(setter, Point::new(at.x0 + 0.3, base), Setting::level(large).heavy(), &cell);
    canvas.text(setter, Point::new(at.x0 + first, base), Setting::level(small), &words);
}

/// A title with what follows it, the title cut where there is no room for all.
fn shortened(title: &str, rest: &str, room: f64, setter: &Typesetter) -> String {
    let title = setter.face.settable(title);
    let whole = format!("{title}{rest}");
    if setter.face.width(&whole) <= room {
        return whole;
    }
    let mut kept = String::new();
    let left = room - setter.face.width(rest) - setter.face.advance('…');
    let mut width = 0.0;
    for c in title.chars() {
        width += setter.face.advance(c);
        if width > left {
            break;
        }
        kept.push(c);
    }
    format!("{}…{rest}", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::super::options::{PageSetup, Turn};
    use super::*;
    use engine::sheet::Paper;

    #[test]
    fn rows_are_letters_and_columns_numbers() {
        assert_eq!([name((0, 0)), name((1, 2)), name((25, 9)), name((26, 0))], ["A1", "B3", "Z10", "AA1"]);
    }

    #[test]
    fn marks_of_neighbours_lie_at_one_place_of_the_sheet() {
        let setup = PageSetup { paper: Paper::Letter, margin_mm: 8.0, overlap_mm: 12.0 };
        let sheet = Sheet::new(&setup, Turn::Level).unwrap();
        let place = |cell: Cell, side: PageSide, share: f64| {
            let (a, b) = side.ends(sheet.core());
            a.lerp(b, share) - shift(&sheet, cell)
        };
        for share in UPRIGHT_MARKS {
            assert!(place((2, 1), PageSide::Right, share).distance(place((2, 2), PageSide::Left, share)) < 1e-9);
        }
        for share in LEVEL_MARKS {
            assert!(place((2, 1), PageSide::Bottom, share).distance(place((3, 1), PageSide::Top, share)) < 1e-9);
        }
    }
}
