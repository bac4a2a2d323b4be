//! Sizes that lie over each other: what each draws of a piece, and where its name stands beside its line.

use super::canvas::{Anchor, Canvas, Setting, Typesetter};
use super::overlay::{Place, Shows};
use super::piece::{mark, on_fold, outline, row};
use super::style::Pen;
use engine::drawing::{Piece, Role, Size};
use kurbo::{Point, Rect, Vec2};

/// The name of a size beside its line, mm.
const NAME: f64 = 2.6;
/// Between a name and its own line, and to any line at least, mm.
const BESIDE: f64 = 0.6;
const CLEAR: f64 = 0.4;
/// Places along an edge that are tried.
const TRIED: u32 = 40;

/// The lines and notches of one size of a piece, with the size's name where there is room for it.
pub(super) fn draw(piece: &Piece, size: usize, name: Option<(&str, Point)>, setter: &mut Typesetter) -> Canvas {
    let mut canvas = Canvas::free();
    for role in [Role::Finished, Role::SecondRow, Role::Sewing, Role::Cut] {
        let pen = if role == Role::Cut { Pen::Size(size) } else { Pen::Role(role) };
        piece.loops.iter().filter(|l| l.role == role).for_each(|l| outline(&mut canvas, l, piece, pen));
        piece.lines.iter().filter(|o| o.role == role).for_each(|o| row(&mut canvas, o, pen));
    }
    piece.notches.iter().for_each(|n| mark(&mut canvas, n));
    if let Some((name, middle)) = name {
        let setting = Setting::level(NAME).anchored(Anchor::Middle);
        canvas.text(setter, middle + (0.0, 0.36 * NAME), setting, name);
    }
    canvas
}

/// Where the names of sizes stand beside their cut lines, the sizes in their order: all at the same place of
/// the same edge, where the lines lie furthest apart. Where nowhere is room for all, those of every second one,
/// of every third, and so on; at last that of the innermost line alone, from which the others are counted.
pub(super) fn names(place: &Place, sizes: &[Size], setter: &Typesetter) -> Vec<Option<Point>> {
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
        let middles = together(&named, &lines, &width)?;
        Some(named.iter().map(|(n, _)| *n).zip(middles).collect::<Vec<_>>())
    });
    let mut out = vec![None; sizes.len()];
    for (n, middle) in found.into_iter().flatten() {
        out[n] = Some(middle);
    }
    out
}

/// The middles of the names of these sizes at the one place where they keep furthest from all lines.
fn together(named: &[(usize, &Piece)], lines: &[Vec<Point>], width: &impl Fn(usize) -> f64) -> Option<Vec<Point>> {
    let mut best: (f64, Option<Vec<Point>>) = (CLEAR, None);
    for (edge, share) in tried(named.first().map(|(_, piece)| *piece)) {
        let boxes: Option<Vec<Rect>> = named.iter().map(|(n, piece)| beside(piece, &edge, share, width(*n))).collect();
        let Some(boxes) = boxes else { continue };
        let free = clearance(&boxes, lines, best.0);
        if free > best.0 {
            best = (free, Some(boxes.iter().map(Rect::center).collect()));
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

/// The box of a name just inside its line.
fn beside(piece: &Piece, edge: &str, share: f64, width: f64) -> Option<Rect> {
    let path = &piece.cut()?.edges.iter().find(|e| e.name == edge)?.path;
    let points = path.flatten(0.1);
    let along = share * (points.len().checked_sub(1)?) as f64;
    let (i, part) = (along.floor() as usize, along.fract());
    let (a, b) = (*points.get(i)?, *points.get(i + 1)?);
    // Outlines run clockwise as seen.
    let ahead = (b - a).normalize();
    let inward = Vec2::new(-ahead.y, ahead.x);
    let half = Vec2::new(0.5 * width, 0.5 * NAME);
    let away = inward.x.abs() * half.x + inward.y.abs() * half.y + BESIDE;
    let middle = a.lerp(b, part) + inward * away;
    Some(Rect::from_points(middle - half, middle + half))
}

fn points(piece: &Piece) -> Vec<Point> {
    let edges = piece.loops.iter().filter(|l| l.role == Role::Cut).flat_map(|l| &l.edges).map(|e| &e.path);
    let lines = edges.map(|path| path.flatten(0.1));
    let notches = piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * n.depth]);
    lines.chain(notches).flat_map(|line| super::label::dense(&line)).collect()
}

/// How far all boxes keep from all lines and from each other, at least; no more than asked is told
/// exactly.
fn clearance(boxes: &[Rect], lines: &[Vec<Point>], least: f64) -> f64 {
    let mut free = f64::INFINITY;
    for (i, room) in boxes.iter().enumerate() {
        let near = room.inflate(20.0, 20.0);
        for p in lines.iter().flatten().filter(|p| near.contains(**p)) {
            free = free.min(away(*room, *p));
            if free <= least {
                return free;
            }
        }
        if boxes[..i].iter().any(|other| other.inflate(CLEAR, CLEAR).overlaps(*room)) {
            return 0.0;
        }
    }
    free
}

fn away(room: Rect, p: Point) -> f64 {
    let x = (room.x0 - p.x).max(p.x - room.x1).max(0.0);
    let y = (room.y0 - p.y).max(p.y - room.y1).max(0.0);
    Vec2::new(x, y).hypot()
}
