//! Sizes that lie over each other: what each draws of a piece, and where its name stands beside its line.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::label::{dense, overlap, reading};
use super::overlay::{Place, Shows};
use super::piece::{mark, on_fold, outline, row};
use super::style::Pen;
use engine::drawing::{Piece, Role, Size};
use kurbo::{Point, Rect, Vec2};

/// The name of a size along its line, mm, and how much of that its letters stand high.
const NAME: f64 = 2.6;
const HIGH: f64 = 0.8;
/// Between a name and its own line, and to any line at least, mm.
const BESIDE: f64 = 0.6;
const CLEAR: f64 = 0.4;
/// Places along an edge that are tried.
const TRIED: u32 = 40;

/// The lines and notches of one size of a piece, with the size's name where there is room for it.
pub(super) fn draw(piece: &Piece, size: usize, name: Option<(&str, Room)>, setter: &mut Typesetter) -> Canvas {
    let mut canvas = Canvas::free();
    for role in [Role::Finished, Role::SecondRow, Role::Sewing, Role::Cut] {
        let pen = if role == Role::Cut { Pen::Size(size) } else { Pen::Role(role) };
        piece.loops.iter().filter(|l| l.role == role).for_each(|l| outline(&mut canvas, l, piece, pen));
        piece.lines.iter().filter(|o| o.role == role).for_each(|o| row(&mut canvas, o, pen));
    }
    piece.notches.iter().for_each(|n| mark(&mut canvas, n));
    if let Some((name, room)) = name {
        let setting = Setting::level(NAME).anchored(Anchor::Middle).along(room.direction);
        canvas.text(setter, room.middle + room.down() * (0.36 * NAME), setting, name);
    }
    canvas
}

/// Where a name stands: a box along its line.
#[derive(Clone, Copy)]
pub(super) struct Room {
    middle: Point,
    /// As it is read.
    direction: Vec2,
    half: Vec2,
}

impl Room {
    fn down(self) -> Vec2 {
        Vec2::new(-self.direction.y, self.direction.x)
    }

    fn corners(self) -> [Point; 4] {
        let (along, down) = (self.direction * self.half.x, self.down() * self.half.y);
        [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| self.middle + along * x + down * y)
    }

    fn inflated(self, by: f64) -> Self {
        Self { half: self.half + Vec2::new(by, by), ..self }
    }

    /// How far a point lies outside.
    fn away(self, p: Point) -> f64 {
        let from = p - self.middle;
        let outside = |along: f64, half: f64| (along.abs() - half).max(0.0);
        Vec2::new(outside(from.dot(self.direction), self.half.x), outside(from.dot(self.down()), self.half.y)).hypot()
    }
}

/// Where the names of sizes stand beside their cut lines, the sizes in their order: all at the same place of
/// the same edge, where the lines lie furthest apart. Where nowhere is room for all, those of every second one,
/// of every third, and so on; at last that of the innermost line alone, from which the others are counted.
pub(super) fn names(place: &Place, sizes: &[Size], setter: &Typesetter) -> Vec<Option<Room>> {
    let drawn: Vec<(usize, &Piece)> = place
        .shown
        .iter()
        .filter_map(|s| match s.shows {
            Shows::Lines(n) => Some((n, &s.piece)),
            Shows::All | Shows::Words | Shows::Outline(_) => None,
        })
        .collect();
    let width = |n: usize| sizes.get(n).map_or(0.0, |s| setter.face.width(&setter.face.settable(&s.name)) * NAME);
    let lines: Vec<Vec<Point>> = drawn.iter().map(|(_, piece)| points(piece)).collect();
    let every = (1..=drawn.len().max(1)).map(|step| drawn.iter().step_by(step).copied().collect::<Vec<_>>());
    // Sizes may come from the largest on: then the innermost line is that of the last.
    let last = drawn.last().map(|last| vec![*last]);
    let found = every.chain(last).find_map(|named| {
        let rooms = together(&named, &lines, &width)?;
        Some(named.iter().map(|(n, _)| *n).zip(rooms).collect::<Vec<_>>())
    });
    let mut out = vec![None; sizes.len()];
    for (n, room) in found.into_iter().flatten() {
        out[n] = Some(room);
    }
    out
}

/// Where the names of these sizes keep furthest from all lines, at one place of an edge.
fn together(named: &[(usize, &Piece)], lines: &[Vec<Point>], width: &impl Fn(usize) -> f64) -> Option<Vec<Room>> {
    let mut best: (f64, Option<Vec<Room>>) = (CLEAR, None);
    for (edge, share) in tried(named.first().map(|(_, piece)| *piece)) {
        let rooms: Option<Vec<Room>> = named.iter().map(|(n, piece)| beside(piece, &edge, share, width(*n))).collect();
        let Some(rooms) = rooms else { continue };
        let free = clearance(&rooms, lines, best.0);
        if free > best.0 {
            best = (free, Some(rooms));
        }
    }
    best.1
}

/// Edges of the cut line with places along them.
fn tried(piece: Option<&Piece>) -> Vec<(String, f64)> {
    let edges =
        piece.into_iter().flat_map(|p| p.cut().into_iter().flat_map(move |l| l.edges.iter().map(move |e| (p, e))));
    let names = edges.filter(|(piece, edge)| !on_fold(edge, piece)).map(|(_, edge)| edge.name.clone());
    names.flat_map(|name| (2..TRIED - 1).map(move |i| (name.clone(), f64::from(i) / f64::from(TRIED)))).collect()
}

/// The room of a name just inside its line.
fn beside(piece: &Piece, edge: &str, share: f64, width: f64) -> Option<Room> {
    let path = &piece.cut()?.edges.iter().find(|e| e.name == edge)?.path;
    let points = path.flatten(0.1);
    let along = share * (points.len().checked_sub(1)?) as f64;
    let (i, part) = (along.floor() as usize, along.fract());
    let (a, b) = (*points.get(i)?, *points.get(i + 1)?);
    // Outlines run clockwise as seen.
    let ahead = (b - a).normalize();
    let inward = Vec2::new(-ahead.y, ahead.x);
    let half = Vec2::new(0.5 * width, 0.5 * HIGH * NAME);
    Some(Room { middle: a.lerp(b, part) + inward * (half.y + BESIDE), direction: reading(ahead), half })
}

fn points(piece: &Piece) -> Vec<Point> {
    let edges = piece.loops.iter().filter(|l| l.role == Role::Cut).flat_map(|l| &l.edges).map(|e| &e.path);
    let lines = edges.map(|path| path.flatten(0.1));
    let notches = piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * n.depth]);
    lines.chain(notches).flat_map(|line| dense(&line)).collect()
}

/// How far all names keep from all lines and from each other, at least; no more than asked is told
/// exactly.
fn clearance(rooms: &[Room], lines: &[Vec<Point>], least: f64) -> f64 {
    let mut free = f64::INFINITY;
    for (i, room) in rooms.iter().enumerate() {
        let near = Rect::from_center_size(room.middle, (40.0 + 2.0 * room.half.x, 40.0 + 2.0 * room.half.x));
        for p in lines.iter().flatten().filter(|p| near.contains(**p)) {
            free = free.min(room.away(*p));
            if free <= least {
                return free;
            }
        }
        if rooms[..i].iter().any(|other| overlap(&other.inflated(CLEAR).corners(), &room.corners())) {
            return 0.0;
        }
    }
    free
}

#[cfg(test)]
mod tests {
    use super::super::overlay::Overlay;
    use super::*;
    use crate::font::Face;
    use crate::sample;

    /// The sample in sizes, each larger than the one before by this share.
    fn sizes(step: f64) -> Vec<Size> {
        let scaled = |n: usize| {
            let by = 1.0 + step * n as f64;
            let mut pieces = sample::drawing().pieces;
            for piece in &mut pieces {
                let edges = piece.loops.iter_mut().flat_map(|l| &mut l.edges);
                edges.for_each(|e| e.path = e.path.map(|p| Point::new(p.x * by, p.y * by)));
                piece.notches.iter_mut().for_each(|notch| notch.at = Point::new(notch.at.x * by, notch.at.y * by));
            }
            Size { name: (2 * n).to_string(), pieces }
        };
        (0..9).map(scaled).collect()
    }

    /// How many of the sizes are named on the first piece, each name just inside its own line and clear of all.
    fn named(step: f64) -> usize {
        let mut drawing = sample::drawing();
        drawing.sizes = sizes(step);
        let overlay = Overlay::of(&drawing);
        let rooms = names(&overlay.places[0], &drawing.sizes, &Typesetter::of(Face::sans().unwrap()));
        let lines: Vec<Vec<Point>> = drawing.sizes.iter().map(|size| points(&size.pieces[0])).collect();
        for (room, own) in rooms.iter().zip(&lines).filter_map(|(room, own)| Some(((*room)?, own))) {
            let near = |line: &Vec<Point>| line.iter().map(|p| room.away(*p)).fold(f64::INFINITY, f64::min);
            // Points on a line lie closer together than a letter is wide.
            assert!(near(own) <= BESIDE + 1e-9, "{} from its own line", near(own));
            assert!(lines.iter().all(|line| near(line) > CLEAR));
        }
        rooms.iter().flatten().count()
    }

    /// On the side seam, 228 mm from the fold, lines are 3.6 mm apart, where a name with its air takes 3.1; 2.3 mm
    /// are too few for all.
    #[test]
    fn every_size_is_named_where_lines_are_a_little_further_apart_than_letters_are_high() {
        assert_eq!((named(0.016), named(0.0)), (9, 1));
        assert!(named(0.01) < 9);
    }
}
