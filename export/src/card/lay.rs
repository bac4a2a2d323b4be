//! How whole pieces lie on the cloth, small: selvedges left and right, names as their pieces lie.

use super::block::{BODY, Block};
use crate::font::Face;
use crate::pdf::canvas::{Anchor, Canvas, Setting, Typesetter};
use crate::pdf::style::LineStyle;
use crate::pdf::tags::Tag;
use engine::drawing::card::{Card, Laid, LaidPiece};
use engine::words::card::{GRAIN, LAY};
use kurbo::{Affine, BezPath, Point, Rect, Shape, Size, Vec2};

/// The cloth is drawn no wider and no longer than this, mm.
const MOST: Size = Size::new(100.0, 42.0);
/// Left of it, for the arrow of the grain with its word, mm.
const GRAIN_WIDTH: f64 = 8.0;
/// Between the cloth and what is said beside it, mm.
const BESIDE: f64 = 5.0;
/// The arrow and its head, mm.
const ARROW: f64 = 12.0;
const HEAD: f64 = 1.6;
/// Round a name inside its piece, mm.
const CLEAR: f64 = 0.8;
/// Left white round it, mm.
const BARE: f64 = 0.5;
/// How high letters with tails are, and those without, in sizes; and where the middle of that is over their line.
const TAILED: (f64, f64) = (0.98, 0.25);
const UPRIGHT: (f64, f64) = (0.76, 0.37);
/// Letters without tails.
const TAILLESS: &str = "ABCDEFGHIKLMNOPRSTUVWXYZabcdefhiklmnorstuvwxz ";
/// Where a name is tried, as shares of the height and of the width of its piece.
const HEIGHTS: [f64; 7] = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74];
const ASIDE: [f64; 3] = [0.5, 0.35, 0.65];

const SELVEDGE: LineStyle = LineStyle { width: 0.5, dash: &[], grey: 0.0 };
const CUT_END: LineStyle = LineStyle { width: 0.2, dash: &[1.5, 1.0], grey: 0.0 };
const OUTLINE: LineStyle = LineStyle { width: 0.2, dash: &[], grey: 0.0 };
/// How light pieces are, as drawn and turned: 1 is white.
const AS_DRAWN: f64 = 0.78;
const TURNED: f64 = 0.93;

/// All lays of a card, one under another.
pub(super) struct Lays<'c> {
    lays: Vec<(Picture<'c>, Block)>,
}

impl<'c> Lays<'c> {
    pub(super) fn of(face: &Face, card: &'c Card, width: f64) -> Self {
        let one = |laid: &'c Laid| {
            let picture = Picture::of(face, laid);
            let beside = width - GRAIN_WIDTH - picture.size().width - BESIDE;
            let told = laid.told.iter().map(String::as_str).chain([picture.key.as_str()]);
            let block = told.map(|text| Block::text(face, text, BODY, beside)).fold(Block::default(), Block::and);
            (picture, block)
        };
        Self { lays: card.lays.iter().map(one).collect() }
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.lays.is_empty()
    }

    /// With air between them.
    pub(super) fn height(&self) -> f64 {
        let each: f64 = self.lays.iter().map(Self::one_height).sum();
        each + super::AIR * self.lays.len().saturating_sub(1) as f64
    }

    fn one_height((picture, told): &(Picture<'c>, Block)) -> f64 {
        picture.size().height.max(told.height()).max(ARROW)
    }

    pub(super) fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        let mut at = at;
        for one in &self.lays {
            let (picture, told) = one;
            canvas.part(Tag::Figure(LAY.to_owned()));
            grain(canvas, setter, at);
            picture.draw(canvas, setter, at + Vec2::new(GRAIN_WIDTH, 0.0));
            canvas.done();
            told.draw(canvas, setter, at + Vec2::new(GRAIN_WIDTH + picture.size().width + BESIDE, 0.0));
            at.y += Self::one_height(one) + super::AIR;
        }
    }
}

/// An arrow along the selvedge, with its word beside it.
fn grain(canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
    let (tip, foot) = (at + Vec2::new(5.5, 0.3), at + Vec2::new(5.5, ARROW));
    canvas.draw_as(OUTLINE);
    canvas.line(foot, tip);
    for side in [-0.45, 0.45] {
        canvas.line(tip, tip + Vec2::new(side * HEAD, HEAD));
    }
    let along = Setting::level(BODY).along(Vec2::new(0.0, -1.0)).anchored(Anchor::Middle);
    canvas.text(setter, Point::new(at.x + BODY, 0.5 * (tip.y + foot.y)), along, GRAIN);
}

/// One cloth, at its scale.
struct Picture<'c> {
    laid: &'c Laid,
    scale: f64,
    /// Which name each piece has room for, and where.
    names: Vec<Option<(String, Point)>>,
    /// What the letters stand for.
    key: String,
}

impl<'c> Picture<'c> {
    fn of(face: &Face, laid: &'c Laid) -> Self {
        let scale = (MOST.width / laid.width).min(MOST.height / laid.length);
        let named = |piece: &LaidPiece| {
            let shape = Affine::scale(scale) * piece.outline.to_bez_path();
            let letter = piece.letter.to_string();
            [piece.name.clone(), letter].into_iter().find_map(|name| {
                let at = inside(&shape, Size::new(face.width(&name), letters(&name).0) * BODY)?;
                Some((name, at))
            })
        };
        let names: Vec<Option<(String, Point)>> = laid.pieces.iter().map(named).collect();
        let mut key: Vec<String> = Vec::new();
        for (piece, name) in laid.pieces.iter().zip(&names) {
            let told = format!("{} {}", piece.letter, piece.name);
            if name.as_ref().is_some_and(|(name, _)| *name != piece.name) && !key.contains(&told) {
                key.push(told);
            }
        }
        let key = if key.is_empty() { String::new() } else { format!("{}.", key.join(", ")) };
        Self { laid, scale, names, key }
    }

    fn size(&self) -> Size {
        Size::new(self.laid.width, self.laid.length) * self.scale
    }

    fn draw(&self, canvas: &mut Canvas, setter: &mut Typesetter, at: Point) {
        let there = |p: Point| at + p.to_vec2();
        for (piece, name) in self.laid.pieces.iter().zip(&self.names) {
            let path = piece.outline.map(|p| there((p.to_vec2() * self.scale).to_point()));
            canvas.draw_as(OUTLINE);
            canvas.trace(path.to_bez_path());
            canvas.fill_with(if piece.is_turned { TURNED } else { AS_DRAWN });
            canvas.path(&path);
            let Some((name, middle)) = name else { continue };
            // No letter stands on a tone.
            let wide = setter.face.width(name) * BODY;
            let (high, over) = letters(name);
            let under = Size::new(wide + 2.0 * BARE, high * BODY + 2.0 * BARE);
            canvas.patch(Rect::from_center_size(there(*middle), under), 1.0);
            // A name lies on the cloth as its piece does.
            let up = if piece.is_turned { -1.0 } else { 1.0 };
            let setting = Setting::level(BODY).along(Vec2::new(up, 0.0)).anchored(Anchor::Middle);
            canvas.text(setter, there(*middle) + Vec2::new(0.0, up * over * BODY), setting, name);
        }
        let cloth = Rect::from_origin_size(at, self.size());
        canvas.draw_as(SELVEDGE);
        canvas.line(cloth.origin(), Point::new(cloth.x0, cloth.y1));
        canvas.line(Point::new(cloth.x1, cloth.y0), Point::new(cloth.x1, cloth.y1));
        canvas.draw_as(CUT_END);
        canvas.line(cloth.origin(), Point::new(cloth.x1, cloth.y0));
        canvas.line(Point::new(cloth.x0, cloth.y1), Point::new(cloth.x1, cloth.y1));
    }
}

/// How high a name is, and where its middle is over its line, in sizes.
fn letters(name: &str) -> (f64, f64) {
    if name.chars().all(|c| TAILLESS.contains(c)) { UPRIGHT } else { TAILED }
}

/// The middle of a word of this size where it has room in a shape, near its middle.
fn inside(shape: &BezPath, word: Size) -> Option<Point> {
    let bounds = shape.bounding_box();
    let places = HEIGHTS.iter().flat_map(|down| ASIDE.iter().map(move |across| (*across, *down)));
    let place = |(x, y): (f64, f64)| Point::new(bounds.x0 + x * bounds.width(), bounds.y0 + y * bounds.height());
    let size = word + Size::new(2.0 * CLEAR, 2.0 * CLEAR);
    places.map(place).find(|at| {
        let room = Rect::from_center_size(*at, size);
        (0..=8).all(|i| {
            let x = room.x0 + f64::from(i) / 8.0 * room.width();
            [room.y0, at.y, room.y1].iter().all(|y| shape.contains(Point::new(x, *y)))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::polygon;
    use engine::curve::Path;
    use kurbo::{Line, PathSeg};

    fn square(name: &str, letter: char, side: f64, x: f64) -> LaidPiece {
        let corners = [(x, 0.0), (x + side, 0.0), (x + side, side), (x, side), (x, 0.0)].map(Point::from);
        let sides = corners.windows(2).map(|w| PathSeg::Line(Line::new(w[0], w[1])));
        LaidPiece { name: name.to_owned(), letter, outline: Path::new(sides.collect()), is_turned: false }
    }

    #[test]
    fn a_small_piece_has_its_letter_and_the_smallest_none() {
        let face = Face::sans().unwrap();
        let pieces =
            vec![square("front", 'F', 400.0, 0.0), square("gusset", 'G', 90.0, 500.0), square("x", 'X', 20.0, 700.0)];
        let laid = Laid { width: 1500.0, length: 400.0, pieces, told: Vec::new() };
        let picture = Picture::of(face, &laid);
        let names: Vec<Option<&str>> =
            picture.names.iter().map(|n| n.as_ref().map(|(name, _)| name.as_str())).collect();
        assert_eq!(names, [Some("front"), Some("G"), None]);
        assert_eq!(picture.key, "G gusset.");
        assert!(picture.size().width <= MOST.width && picture.size().height <= MOST.height);
    }

    #[test]
    fn a_name_keeps_off_the_outline() {
        let triangle = polygon(&[(0.0, 0.0), (30.0, 0.0), (15.0, 30.0)].map(Point::from));
        let at = inside(&triangle, Size::new(8.0, TAILED.0 * BODY)).unwrap();
        assert!([-1.0, 1.0].iter().all(|side| triangle.contains(at + Vec2::new(side * (4.0 + CLEAR), 0.0))));
        assert!(inside(&triangle, Size::new(40.0, TAILED.0 * BODY)).is_none());
    }
}
