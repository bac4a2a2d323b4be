//! Words beside a line, where they touch no other line and no text.

use engine::drawing::{Piece, Role};
use kurbo::{Line, Point, Rect, Vec2};

/// Air round words, mm.
const AIR: f64 = 0.8;
/// Lines are kept as points this far apart, mm: closer than any word is high.
const STEP: f64 = 0.8;
/// Words may be set this small, as a share of the wanted size.
const SHRINK: [f64; 2] = [1.0, 0.75];
/// Places along the line that are tried, as shares: its middle first.
const PLACES: [f64; 9] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.15, 0.85];

/// What is taken: points of lines, and boxes of text.
pub(super) struct Field {
    points: Near,
    boxes: Vec<[Point; 4]>,
    inside: Ring,
    /// What lies between the lines of stitches.
    sewn: Ring,
}

/// A closed polygon. It is asked so often that its sides are not handed to what solves curves.
struct Ring(Vec<Point>);

impl Ring {
    /// By the sides that a ray to the right crosses, each counted by the way it runs.
    fn contains(&self, p: Point) -> bool {
        let crossed = |(a, b): (&Point, &Point)| match (a.y <= p.y, b.y <= p.y) {
            (true, false) if (*b - *a).cross(p - *a) > 0.0 => 1,
            (false, true) if (*b - *a).cross(p - *a) < 0.0 => -1,
            _ => 0,
        };
        let sides = self.0.iter().zip(self.0.iter().cycle().skip(1));
        sides.map(crossed).sum::<i32>() != 0
    }
}

/// Where words stand: the middle of their base line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub(super) at: Point,
    pub(super) direction: Vec2,
    pub(super) size: f64,
}

impl Field {
    /// Everything that a piece draws.
    pub(super) fn new(piece: &Piece) -> Self {
        let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| &e.path);
        let paths = edges.chain(piece.lines.iter().map(|o| &o.path));
        let mut points: Vec<Point> = paths.flat_map(|p| dense(&p.flatten(0.2))).collect();
        points.extend(piece.notches.iter().flat_map(|n| dense(&[n.at, n.at + n.inward * n.depth])));
        for l in [piece.grain, piece.stretch] {
            points.extend(dense(&[l.p0, l.p1]));
        }
        let outline = |role: Role| {
            let edges = piece.loops.iter().filter(|l| l.role == role).flat_map(|l| &l.edges);
            Ring(edges.flat_map(|e| e.path.flatten(0.5)).collect())
        };
        Self { points: Near::of(&points), boxes: Vec::new(), inside: outline(Role::Cut), sewn: outline(Role::Sewing) }
    }

    /// A box that is written on.
    pub(super) fn block(&mut self, r: Rect) {
        self.boxes.push([(r.x0, r.y0), (r.x1, r.y0), (r.x1, r.y1), (r.x0, r.y1)].map(Point::from));
    }

    /// How many points and boxes are touched; none is best. Out of the piece counts as much as
    /// anything may. No answer where it is `most` or more.
    fn touched(&self, corners: &[Point; 4], unit: Vec2, most: usize) -> Option<usize> {
        let (origin, side) = (corners[0], Vec2::new(-unit.y, unit.x));
        let local = |p: &Point| ((*p - origin).dot(unit), (*p - origin).dot(side));
        let (w, h) = local(&corners[2]);
        let (low, high) = (h.min(0.0) - AIR, h.max(0.0) + AIR);
        let hit = |p: &&Point| {
            let (x, y) = local(p);
            (-AIR..=w + AIR).contains(&x) && (low..=high).contains(&y)
        };
        let boxes = self.boxes.iter().filter(|b| overlap(b, corners)).count();
        // Round all that can be hit, however it is turned.
        let around = corners[1..].iter().fold(Rect::from_points(corners[0], corners[0]), |r, c| r.union_pt(*c));
        let lines = self.points.within(around.inset(1.5 * AIR)).filter(hit).take(most).count();
        let touched = lines + 50 * boxes;
        // The slowest to find out comes last.
        let out = || corners.iter().filter(|c| !self.inside.contains(**c)).count();
        (touched < most).then(|| touched + 100 * out()).filter(|touched| *touched < most)
    }
}

/// Points in squares, so that those in a box are found without looking at all others.
struct Near {
    origin: Point,
    columns: usize,
    /// Square by square, row by row.
    points: Vec<Point>,
    /// Where each square begins among them, and where the last one ends.
    starts: Vec<usize>,
}

/// The side of a square, mm: about as long as a word.
const SQUARE: f64 = 10.0;

impl Near {
    fn of(points: &[Point]) -> Self {
        let first = points.first().copied().unwrap_or_default();
        let bounds = points.iter().fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
        let count = |length: f64| (length / SQUARE) as usize + 1;
        let (columns, rows) = (count(bounds.width()), count(bounds.height()));
        let number = |p: &Point| {
            let (column, row) = square(*p, bounds.origin());
            row * columns + column
        };
        let mut starts = vec![0; columns * rows + 1];
        points.iter().for_each(|p| starts[number(p) + 1] += 1);
        (0..columns * rows).for_each(|square| starts[square + 1] += starts[square]);
        let (mut free, mut sorted) = (starts.clone(), vec![Point::ZERO; points.len()]);
        for p in points {
            let place = &mut free[number(p)];
            sorted[*place] = *p;
            *place += 1;
        }
        Self { origin: bounds.origin(), columns, points: sorted, starts }
    }

    /// All that lie in a box, and some beside it.
    fn within(&self, area: Rect) -> impl Iterator<Item = &Point> {
        let (first, top) = square(area.origin(), self.origin);
        let (last, low) = square(Point::new(area.x1, area.y1), self.origin);
        let rows = (self.starts.len() - 1) / self.columns;
        let [from, to] = [first, last + 1].map(|column| column.min(self.columns));
        (top..(low + 1).min(rows)).flat_map(move |row| {
            let [from, to] = [from, to].map(|column| self.starts[row * self.columns + column]);
            &self.points[from..to]
        })
    }
}

/// The column and the row of a place, the nearest where it lies to the left of all or above them.
fn square(p: Point, origin: Point) -> (usize, usize) {
    let from = p - origin;
    ((from.x / SQUARE) as usize, (from.y / SQUARE) as usize)
}

/// Do two rectangles, however turned, share a part? By the axis that would part them.
pub(super) fn overlap(a: &[Point; 4], b: &[Point; 4]) -> bool {
    let axes = [a[1] - a[0], a[3] - a[0], b[1] - b[0], b[3] - b[0]];
    let span = |q: &[Point; 4], axis: Vec2| {
        let along = q.map(|p| p.to_vec2().dot(axis));
        (along.into_iter().fold(f64::INFINITY, f64::min), along.into_iter().fold(f64::NEG_INFINITY, f64::max))
    };
    axes.iter().filter(|axis| axis.hypot() > 0.0).all(|axis| {
        let ((a0, a1), (b0, b1)) = (span(a, *axis), span(b, *axis));
        a0 <= b1 && b0 <= a1
    })
}

/// A place for words beside a line: `em` their width in sizes, `size` the wanted size in mm. The
/// place is taken from then on.
pub(super) fn along(field: &mut Field, line: Line, em: f64, size: f64) -> Place {
    let mut best: Option<(usize, Place, [Point; 4])> = None;
    for size in SHRINK.map(|s| s * size) {
        for (share, side) in PLACES.iter().flat_map(|s| [(*s, 1.0), (*s, -1.0)]) {
            let (place, corners) = candidate(line, share, side, em, size);
            let most = best.as_ref().map_or(usize::MAX, |(touched, _, _)| *touched);
            if let Some(touched) = field.touched(&corners, place.direction, most) {
                best = Some((touched, place, corners));
            }
        }
        if best.as_ref().is_some_and(|(t, _, _)| *t == 0) {
            break;
        }
    }
    let (_, place, corners) = best.unwrap_or_else(|| {
        let (place, corners) = candidate(line, 0.5, 1.0, em, size);
        (0, place, corners)
    });
    field.boxes.push(corners);
    place
}

/// How far into the piece a number may stand from its place, and how far aside, in sizes: near and
/// straight ahead first.
const INWARD: [f64; 9] = [1.2, 1.7, 2.3, 3.0, 3.8, 4.8, 6.0, 7.5, 9.0];
const ASIDE: [f64; 7] = [0.0, 0.9, -0.9, 1.8, -1.8, 3.0, -3.0];
/// Where its middle is over that place, in widths of it: a wide one may begin or end there.
const OVER: [f64; 3] = [0.0, -0.5, 0.5];

/// A place for level words beside a place on an edge: between the lines of stitches, if they have
/// room there. It is taken from then on.
pub(super) fn beside(field: &mut Field, at: Point, inward: Vec2, em: f64, size: f64) -> Place {
    let across = Vec2::new(-inward.y, inward.x);
    let half = Vec2::new(0.5 * em * size, 0.5 * size);
    let steps = INWARD.iter().flat_map(|far| ASIDE.iter().map(move |aside| (*far, *aside)));
    let steps = steps.flat_map(|(far, aside)| OVER.iter().map(move |over| (far, aside, *over)));
    let middles = steps
        .map(|(far, aside, over)| at + (inward * far + across * aside) * size + Vec2::new(2.0 * over * half.x, 0.0));
    // One of the first will do as a rule: where the others lie is not asked before.
    let is_sewn = |p: &Point| field.sewn.contains(*p);
    let outside = middles.clone().filter(|p| !is_sewn(p));
    let mut best: Option<(usize, Point, [Point; 4])> = None;
    for middle in middles.filter(is_sewn).chain(outside) {
        let corners = [(-1.0, 1.0), (1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
        let corners = corners.map(|(x, y)| middle + Vec2::new(x * half.x, y * half.y));
        let most = best.as_ref().map_or(usize::MAX, |(touched, ..)| *touched);
        if let Some(touched) = field.touched(&corners, Vec2::new(1.0, 0.0), most) {
            best = Some((touched, middle, corners));
        }
        if best.as_ref().is_some_and(|(touched, ..)| *touched == 0) {
            break;
        }
    }
    let middle = best.map_or(at, |(_, middle, corners)| {
        field.boxes.push(corners);
        middle
    });
    Place { at: middle + Vec2::new(0.0, 0.36 * size), direction: Vec2::new(1.0, 0.0), size }
}

/// Where words are tried in a room, as shares of its width and of its height: the middle first.
const SHARES: [f64; 7] = [0.5, 0.36, 0.64, 0.22, 0.78, 0.1, 0.9];

/// A place for level words in a part of the piece where they touch nothing, if there is one. It is taken
/// from then on.
pub(super) fn within(field: &mut Field, room: Rect, em: f64, size: f64) -> Option<Place> {
    let half = Vec2::new(0.5 * em * size + AIR, 0.5 * size + AIR);
    let free = Rect::new(room.x0 + half.x, room.y0 + half.y, room.x1 - half.x, room.y1 - half.y);
    if free.x1 < free.x0 || free.y1 < free.y0 {
        return None;
    }
    let places = SHARES.iter().flat_map(|down| SHARES.iter().map(move |across| (*across, *down)));
    places.map(|(across, down)| free.origin() + Vec2::new(across * free.width(), down * free.height())).find_map(
        |middle| {
            let corners = [(-1.0, 1.0), (1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
            let corners = corners.map(|(x, y)| middle + Vec2::new(x * half.x, y * half.y));
            field.touched(&corners, Vec2::new(1.0, 0.0), 1)?;
            field.boxes.push(corners);
            Some(Place { at: middle + Vec2::new(0.0, 0.36 * size), direction: Vec2::new(1.0, 0.0), size })
        },
    )
}

fn candidate(line: Line, share: f64, side: f64, em: f64, size: f64) -> (Place, [Point; 4]) {
    let unit = reading(line.p1 - line.p0);
    // Up from the base line, as read.
    let up = Vec2::new(unit.y, -unit.x);
    // Above the line the base line is near it, below the capitals are.
    let shift = if side > 0.0 { AIR + 0.4 + 0.22 * size } else { -(AIR + 0.4 + 0.75 * size) };
    let at = line.p0.lerp(line.p1, share) + up * shift;
    let half = 0.5 * em * size;
    let (low, high) = (up * (-0.22 * size), up * (0.75 * size));
    let corners = [at - unit * half + low, at + unit * half + low, at + unit * half + high, at - unit * half + high];
    (Place { at, direction: unit, size }, corners)
}

/// Text reads to the right, or upwards.
pub(super) fn reading(direction: Vec2) -> Vec2 {
    let unit = if direction.hypot() > 0.0 { direction.normalize() } else { Vec2::new(1.0, 0.0) };
    let upright = unit.x.abs() < 1e-9;
    if unit.x < 0.0 && !upright || upright && unit.y > 0.0 { -unit } else { unit }
}

/// Points along a polyline, close enough that no word slips between them.
pub(super) fn dense(line: &[Point]) -> Vec<Point> {
    let between = |w: &[Point]| {
        let steps = (w[0].distance(w[1]) / STEP).ceil().max(1.0);
        (0..=steps as usize).map(|i| w[0].lerp(w[1], i as f64 / steps)).collect::<Vec<_>>()
    };
    line.windows(2).flat_map(between).collect()
}

#[cfg(test)]
mod tests {
    use super::super::sample;
    use super::*;

    #[test]
    fn words_keep_clear_of_lines_and_of_each_other() {
        let piece = &sample::drawing("x").pieces[0];
        let mut field = Field::new(piece);
        field.block(piece.text_box);
        for line in [piece.grain, piece.stretch, piece.mirror.unwrap()] {
            let before = field.boxes.len();
            along(&mut field, line, 8.0, 3.2);
            let corners = field.boxes[before];
            assert_eq!(field.boxes[..before].iter().filter(|b| overlap(b, &corners)).count(), 0);
            field.boxes.pop();
            assert_eq!(field.touched(&corners, reading(line.p1 - line.p0), usize::MAX), Some(0));
            field.boxes.push(corners);
        }
    }

    /// kurbo solves for the crossings itself.
    #[test]
    fn a_ring_contains_what_kurbo_says() {
        use kurbo::Shape as _;
        let piece = &sample::drawing("x").pieces[0];
        let field = Field::new(piece);
        for ring in [&field.inside, &field.sewn] {
            let path = crate::outline::polygon(&ring.0);
            let area = path.bounding_box().inset(5.0);
            let places = (0..5_000).map(|i| {
                let (x, y) = (f64::from(i % 71) / 70.3, f64::from(i / 71) / 70.7);
                area.origin() + Vec2::new(x * area.width(), y * area.height())
            });
            let inside = places.filter(|p| {
                assert_eq!(ring.contains(*p), path.contains(*p), "{p:?}");
                ring.contains(*p)
            });
            assert!((1_000..4_500).contains(&inside.count()));
        }
    }

    #[test]
    fn text_is_never_upside_down() {
        for (x, y) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (-1.0, 1.0)] {
            let unit = reading(Vec2::new(x, y));
            assert!(unit.x > 1e-9 || unit.y < 0.0, "{unit:?}");
        }
    }
}
