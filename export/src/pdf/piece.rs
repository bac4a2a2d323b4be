//! One piece as page content, at true size, its own origin as the origin.

use super::block::{Block, Sizes};
use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::joins::Joins;
use super::label::{Field, along, beside, within};
use super::layout::extent;
use super::style::Pen;
use super::text::LEADING;
use crate::outline::finished_apart;
use engine::drawing::{Edge, Extent, Loop, Notch, NotchKind, Number, Open, Piece, Role, TextStyle};
use kurbo::{Line, Point, Vec2};

/// An edge this close to the fold all along is the fold, mm.
const ON_FOLD: f64 = 1e-3;
/// Arrowheads, mm.
const HEAD_LENGTH: f64 = 4.0;
const HEAD_HALF_WIDTH: f64 = 1.3;

/// Round the text of a piece, in sizes: other words keep off it.
const AROUND: f64 = 0.3;

/// Draws a piece.
pub(super) fn draw(piece: &Piece, text: &Block, joins: &Joins, sizes: Sizes, setter: &mut Typesetter) -> Canvas {
    let mut canvas = Canvas::free();
    // What matters most is drawn last, so that it lies on top.
    for role in [Role::Finished, Role::SecondRow, Role::Sewing, Role::Cut] {
        if role == Role::Finished {
            // Where it runs along a line of stitches or the cut, that line stands for both.
            finished_apart(piece).into_iter().filter(|e| !on_fold(e, piece)).for_each(|e| {
                canvas.pen(Pen::Role(role));
                canvas.path(&e.path);
            });
        } else {
            piece.loops.iter().filter(|l| l.role == role).for_each(|l| outline(&mut canvas, l, piece, Pen::Role(role)));
        }
        piece.lines.iter().filter(|o| o.role == role).for_each(|o| row(&mut canvas, o, Pen::Role(role)));
    }
    piece.notches.iter().for_each(|n| mark(&mut canvas, n));
    words(canvas, piece, text, joins, sizes, setter)
}

/// Words, numbers, arrows and the fold, clear of the lines of a piece.
pub(super) fn words(
    mut canvas: Canvas,
    piece: &Piece,
    text: &Block,
    joins: &Joins,
    sizes: Sizes,
    setter: &mut Typesetter,
) -> Canvas {
    let mut field = Field::new(piece);
    block(&mut canvas, text, setter);
    field.block(text.bounds.inset(AROUND * sizes.body));
    // A number stands at its place even where pages meet, but on one side of the line that is cut.
    joins.lines(extent(piece)).for_each(|line| field.block(line));
    piece.numbers.iter().for_each(|n| number(&mut canvas, &mut field, n, sizes, setter));
    joins.strips(extent(piece)).for_each(|strip| field.block(strip));
    for (line, words) in [(piece.grain, "grain"), (piece.stretch, "greatest stretch")] {
        arrow(&mut canvas, line);
        label(&mut canvas, &mut field, line, (words, sizes.body), setter);
    }
    if let Some(mirror) = piece.mirror {
        canvas.pen(Pen::Fold);
        canvas.line(mirror.p0, mirror.p1);
        label(&mut canvas, &mut field, mirror, ("fold – lay on the fold of the cloth", sizes.body), setter);
    }
    names(&mut canvas, &mut field, piece, text, (joins, sizes), setter);
    canvas
}

/// The name of a piece on the other pages that it goes on over, where one has room for it.
fn names(
    canvas: &mut Canvas,
    field: &mut Field,
    piece: &Piece,
    text: &Block,
    (joins, sizes): (&Joins, Sizes),
    setter: &mut Typesetter,
) {
    let Some(title) = piece.text.iter().find(|line| line.style == TextStyle::Title) else { return };
    for part in joins.parts(extent(piece)).into_iter().filter(|part| !part.overlaps(text.bounds)) {
        let Some(place) = within(field, part, setter.face.width(&title.text), sizes.title) else { continue };
        canvas.text(setter, place.at, Setting::level(place.size).anchored(Anchor::Middle).heavy(), &title.text);
    }
}

/// Draws nothing but the cut line of a piece, and its name.
pub(super) fn outline_of(piece: &Piece, text: &Block, pen: Pen, setter: &mut Typesetter) -> Canvas {
    let mut canvas = Canvas::free();
    piece.loops.iter().filter(|l| l.role == Role::Cut).for_each(|l| outline(&mut canvas, l, piece, pen));
    block(&mut canvas, text, setter);
    canvas
}

/// Strokes a loop in runs, leaving out its part on the fold.
pub(super) fn outline(canvas: &mut Canvas, l: &Loop, piece: &Piece, pen: Pen) {
    canvas.pen(pen);
    let mut end: Option<Point> = None;
    for edge in l.edges.iter().filter(|e| !on_fold(e, piece)) {
        let joins = end.is_some_and(|p| p.distance(edge.path.start()) < ON_FOLD);
        canvas.trace(engine::curve::elements(&edge.path).skip(usize::from(joins)));
        end = Some(edge.path.end());
    }
    let closed = l.edges.first().zip(end).is_some_and(|(e, p)| p.distance(e.path.start()) < ON_FOLD);
    if closed && piece.extent == Extent::Full {
        canvas.trace([kurbo::PathEl::ClosePath]);
    }
    canvas.stroke();
}

/// Does this edge lie on the fold of the cloth, where nothing is cut or sewn?
pub(super) fn on_fold(edge: &Edge, piece: &Piece) -> bool {
    let Some(mirror) = piece.mirror else { return false };
    let direction = mirror.p1 - mirror.p0;
    let away = |p: &Point| ((*p - mirror.p0).cross(direction) / direction.hypot().max(ON_FOLD)).abs();
    edge.path.flatten(0.1).iter().all(|p| away(p) < ON_FOLD)
}

/// Strokes an open line.
pub(super) fn row(canvas: &mut Canvas, open: &Open, pen: Pen) {
    canvas.pen(pen);
    canvas.path(&open.path);
}

/// Strokes a notch.
pub(super) fn mark(canvas: &mut Canvas, notch: &Notch) {
    let NotchKind::Slit = notch.kind;
    canvas.pen(Pen::Notch);
    canvas.line(notch.at, notch.at + notch.inward * notch.depth);
}

/// The piece's text in its box.
fn block(canvas: &mut Canvas, text: &Block, setter: &mut Typesetter) {
    let mut y = text.bounds.y0;
    for row in &text.rows {
        let setting = Setting::level(row.size);
        let setting = if row.style == TextStyle::Title { setting.heavy() } else { setting };
        canvas.text(setter, Point::new(text.bounds.x0, y + row.size), setting, &row.text);
        y += LEADING * row.size;
    }
}

/// A line with an arrowhead at both ends.
fn arrow(canvas: &mut Canvas, line: Line) {
    let direction = line.p1 - line.p0;
    if direction.hypot() < 1e-6 {
        return;
    }
    let unit = direction.normalize();
    canvas.pen(Pen::Arrow);
    canvas.line(line.p0 + unit * HEAD_LENGTH * 0.5, line.p1 - unit * HEAD_LENGTH * 0.5);
    for (tip, back) in [(line.p0, unit), (line.p1, -unit)] {
        let side = Vec2::new(-back.y, back.x) * HEAD_HALF_WIDTH;
        let foot = tip + back * HEAD_LENGTH;
        canvas.solid(&[tip, foot + side, foot - side]);
    }
}

/// The number of a mark, inside the piece and near its place.
fn number(canvas: &mut Canvas, field: &mut Field, n: &Number, sizes: Sizes, setter: &mut Typesetter) {
    let place = beside(field, n.at, n.inward, setter.face.width(&n.text), sizes.body);
    let setting = Setting::level(place.size).anchored(Anchor::Middle).heavy();
    canvas.text(setter, place.at, setting, &n.text);
}

/// Words of this size along a line, where they touch nothing.
fn label(canvas: &mut Canvas, field: &mut Field, line: Line, (words, size): (&str, f64), setter: &mut Typesetter) {
    let width = setter.face.width(words);
    let place = along(field, line, width, size);
    let setting = Setting::level(place.size).along(place.direction).anchored(Anchor::Middle);
    canvas.text(setter, place.at, setting, words);
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;
    use crate::font::Face;

    /// Two dashes over each other are read as neither.
    #[test]
    fn a_finished_edge_along_the_stitches_is_not_drawn_again() {
        let face = Face::sans().unwrap();
        let drawn = |piece: &Piece| {
            let sizes = Sizes { title: 4.2, body: 3.2 };
            let text = Block::of(face, &piece.text, piece.text_box, sizes);
            let joins = Joins::default();
            draw(piece, &text, &joins, sizes, &mut Typesetter::of(face)).finish().bytes
        };
        let mut bare = sample::drawing("x").pieces[0].clone();
        bare.loops.retain(|l| l.role != Role::Finished);
        let sewing = bare.loops.iter().find(|l| l.role == Role::Sewing).unwrap().clone();
        let (mut along, mut apart) = (bare.clone(), bare.clone());
        along.loops.push(Loop { role: Role::Finished, ..sewing.clone() });
        assert!(drawn(&along) == drawn(&bare));
        let outward = |p: Point| p + Vec2::new(2.0, 2.0);
        let moved = sewing.edges.iter().map(|e| Edge { path: e.path.map(outward), ..e.clone() });
        apart.loops.push(Loop { role: Role::Finished, edges: moved.collect() });
        assert!(drawn(&apart) != drawn(&bare));
    }
}
