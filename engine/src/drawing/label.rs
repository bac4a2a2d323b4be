//! Where the text and the arrow of greatest stretch stand: clear of every line.

use super::room::{ARROW, CELL, Grid, largest};
use crate::garment::Piece;
use crate::terms::Extent;
use kurbo::{Line, Point, Rect};

/// Text keeps this far from every line, mm.
const CLEAR: f64 = 2.5;
/// Text under this height reads badly, mm.
const TEXT: f64 = 12.0;
/// In a low room, the arrow and its word take this width beside the text, mm.
const BESIDE: f64 = 50.0;
/// A low room is looked for so far, mm.
const LOW: f64 = 230.0;
/// The arrow is no longer than this, mm.
const LONGEST: f64 = 40.0;

/// The arrow of greatest stretch, and the box for text: above the arrow, or beside it where the
/// room is low and wide, as on a band.
pub(super) fn places(piece: &Piece, grain: &Line) -> (Line, Rect) {
    let outline: Vec<Point> = piece.cut.edges.iter().flat_map(|e| e.path.flatten(0.2)).collect();
    places_among(&outline, piece.bounds(), &lines(piece, grain))
}

/// The same inside an outline, clear of these lines.
pub(super) fn places_among(outline: &[Point], bounds: Rect, lines: &[Vec<Point>]) -> (Line, Rect) {
    let room = largest_room(outline, bounds, lines);
    let is_low = room.height() < ARROW + TEXT && room.width() > 2.5 * BESIDE;
    let (arrow, text) = if is_low {
        let middle = room.x1 - BESIDE;
        (Rect::new(middle, room.y0, room.x1, room.y1), Rect::new(room.x0, room.y0, middle, room.y1))
    } else {
        let line = room.y1 - ARROW;
        (Rect::new(room.x0, line, room.x1, room.y1), Rect::new(room.x0, room.y0, room.x1, line))
    };
    let half = 0.5 * arrow.width().min(LONGEST);
    let (centre, y) = (arrow.center().x, arrow.y1 - 0.5 * arrow.height().min(ARROW));
    (Line::new(Point::new(centre - half, y), Point::new(centre + half, y)), text)
}

/// Every line that text has to keep clear of, as polylines.
fn lines(piece: &Piece, grain: &Line) -> Vec<Vec<Point>> {
    let outlines = [&piece.cut, &piece.sewing, &piece.finished];
    let edges = outlines.into_iter().flat_map(|o| &o.edges).chain(&piece.second_row).chain(&piece.folds);
    let mut all: Vec<Vec<Point>> = edges.map(|e| e.path.flatten(0.2)).collect();
    all.push(vec![grain.p0, grain.p1]);
    // A notch reaches in from the cut line.
    all.extend(piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * 6.0]));
    all
}

/// The largest useful rectangle inside the outline that no line comes near.
fn largest_room(outline: &[Point], bounds: Rect, lines: &[Vec<Point>]) -> Rect {
    let mut grid = Grid::over(bounds);
    grid.free_inside(outline);
    for line in lines {
        dense(line, |p| grid.take_round(p, CLEAR + CELL));
    }
    let room = largest(&grid);
    // A low room takes its text in long lines.
    if room.height() < ARROW + TEXT { grid.widened(room, LOW) } else { room }
}

/// Points along a polyline, no further apart than a cell.
fn dense(line: &[Point], mut each: impl FnMut(Point)) {
    for w in line.windows(2) {
        let steps = (w[0].distance(w[1]) / CELL).ceil().max(1.0);
        for i in 0..=steps as usize {
            each(w[0].lerp(w[1], i as f64 / steps));
        }
    }
}

/// Along the wales, near the fold of a half piece and on the centre of a whole one.
pub(super) fn grain(p: &Piece) -> Line {
    let b = p.bounds();
    let height = b.height();
    let (x, from, to) = match (p.extent, p.id) {
        (Extent::HalfOnFold, _) => (10.0, 0.25, 0.75),
        (Extent::Full, id) if id.is_gusset() => (0.0, 0.10, 0.28),
        // On a band, between its fold and the row of stitches under it.
        (Extent::Full, _) if !p.folds.is_empty() => (0.0, 0.5, 0.74),
        (Extent::Full, _) => (0.0, 0.62, 0.88),
    };
    // The top edge dips: start under the lowest point of the centre.
    let centre = p.finished.edges.first().map_or(b.y0, |e| e.path.start().y);
    let y = |share: f64| centre + (b.y0 + height - centre) * share;
    Line::new(Point::new(x, y(from)), Point::new(x, y(to)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;
    use crate::topology::PieceId;

    /// A band this wide leaves room for two lines of text at most.
    const NARROW: f64 = 15.0;

    #[test]
    fn on_a_narrow_band_text_arrow_and_lines_keep_apart() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let mut band = support::finish("band", "");
        band.width = Some(support::mm(NARROW));
        (sheet.finish.left_leg, sheet.finish.right_leg) = (band.clone(), band);
        let garment = crate::record(&sheet).unwrap();
        let piece = garment.pieces.iter().find(|p| p.id == PieceId::LegBand).unwrap();
        let grain = grain(piece);
        let (arrow, text) = places(piece, &grain);
        let with_word = Rect::from_points(arrow.p0, arrow.p1).inset(0.5 * ARROW);
        assert!(text.intersect(with_word).area() <= 0.0, "{text:?} and {arrow:?}");
        assert!(text.width() > 100.0 && text.height() > 5.0, "{text:?}");
        let taken: Vec<Point> = lines(piece, &grain).iter().flat_map(|l| all(l)).collect();
        for room in [text, Rect::from_points(arrow.p0, arrow.p1)] {
            let near = taken.iter().find(|p| room.inset(CLEAR - CELL).contains(**p));
            assert!(near.is_none(), "{near:?} near {room:?}");
        }
        // Rows and fold run level here: the grain line lies between two of them.
        let levels = lines(piece, &arrow).into_iter().filter(|l| l.len() == 2 && (l[0].y - l[1].y).abs() < 1e-6);
        let crossed: Vec<_> = levels.filter(|l| l[0].y > grain.p0.y && l[0].y < grain.p1.y).collect();
        assert!(crossed.iter().all(|l| l[0] == arrow.p0), "the grain line crosses {crossed:?}");
    }

    fn all(line: &[Point]) -> Vec<Point> {
        let mut points = Vec::new();
        dense(line, |p| points.push(p));
        points
    }
}
