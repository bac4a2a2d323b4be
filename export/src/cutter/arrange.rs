//! Where copies of pieces lie on the plane: by their boxes, or as they were laid on the cloth.

use super::options::Cutting;
use super::plane::{Layer, Plane, Stroke, Words};
use super::set::Set;
use crate::fit;
use crate::layout::{self, Box as Room, TooWide};
use engine::drawing::Edge;
use engine::lay::{Lay, Turn};
use kurbo::{Point, Rect, Vec2};

/// Round pieces and between them in a row, and between two lays, mm.
const ROW_GAP: f64 = 20.0;

/// Between pieces on a sheet of given width, mm.
const SHEET_GAP: f64 = 10.0;

/// The em of what is written beside the pieces, and from line to line, mm.
const NOTE: f64 = 5.0;
const NOTE_LINE: f64 = 7.5;

/// What lies beyond the cloth by less than this lies on its edge, mm.
const ON: f64 = 1e-3;

/// Notes are broken at this width in a row, mm.
const NOTE_WIDTH: f64 = 600.0;

/// One copy of a piece.
struct Copy<'a> {
    set: &'a Set,
    /// The place of its origin.
    at: Vec2,
    /// The cloth that it lies on; beyond it nothing can be drawn.
    cloth: Option<Rect>,
}

/// Copies at their places, y up.
pub(super) struct Arranged<'a> {
    copies: Vec<Copy<'a>>,
    /// Of all that they lie on, mm.
    width: f64,
    height: f64,
    /// Free round it, mm.
    edge: f64,
    /// Notes under it are broken at this width, mm.
    notes: f64,
}

/// In a row, or on a sheet of given width, set apart by their boxes.
///
/// # Errors
/// A piece that does not go on the sheet.
pub(super) fn boxes<'a>(sets: &'a [Set], cutting: &Cutting) -> Result<Arranged<'a>, TooWide> {
    let copies: Vec<&Set> = sets.iter().flat_map(|s| std::iter::repeat_n(s, s.times as usize)).collect();
    let rooms: Vec<Room> =
        copies.iter().map(|s| Room { name: &s.name, width: s.bounds.width(), height: s.bounds.height() }).collect();
    let wide = cutting.sheet_width;
    let (laid, edge) = match wide {
        Some(width) => (layout::on_sheet(&rooms, width, cutting.gap.unwrap_or(SHEET_GAP))?, 0.0),
        None => (layout::in_a_row(&rooms, cutting.gap.unwrap_or(ROW_GAP)), ROW_GAP),
    };
    let origin = |(set, corner): (&'a Set, &Point)| Copy {
        set,
        at: Vec2::new(corner.x - set.bounds.x0, corner.y + set.bounds.y1),
        cloth: None,
    };
    Ok(Arranged {
        copies: copies.into_iter().zip(&laid.corners).map(origin).collect(),
        width: wide.unwrap_or(laid.width),
        height: laid.height,
        edge,
        notes: wide.unwrap_or(NOTE_WIDTH) - 2.0 * edge,
    })
}

/// As they lie on the cloth, the first lay on top; `turned` are the same sets, turned by half a turn.
///
/// What would be drawn beyond the cloth, such as an edging that stands out from it, is left out: there
/// is nothing to draw on, and what is cut would lie beside the width that the cutter has.
pub(super) fn laid<'a>(sets: &'a [Set], turned: &'a [Set], lays: &[Lay]) -> Arranged<'a> {
    let mut copies = Vec::new();
    let mut down = 0.0;
    for lay in lays {
        let cloth = Rect::new(0.0, -(down + lay.length), lay.cloth.width, -down);
        for placed in &lay.placed {
            let all = if placed.turn == Turn::Half { turned } else { sets };
            let at = Vec2::new(placed.at.x, -(down + placed.at.y));
            copies.extend(all.iter().find(|s| s.name == placed.piece).map(|set| Copy { set, at, cloth: Some(cloth) }));
        }
        down += lay.length + ROW_GAP;
    }
    let width = lays.iter().map(|l| l.cloth.width).fold(0.0, f64::max);
    let height = (down - ROW_GAP).max(0.0);
    let up = Vec2::new(0.0, height);
    let raised = |c: Copy<'a>| Copy { at: c.at + up, cloth: c.cloth.map(|cloth| cloth + up), ..c };
    Arranged { copies: copies.into_iter().map(raised).collect(), width, height, edge: 0.0, notes: width }
}

impl Arranged<'_> {
    /// All of it on the plane, notes under it.
    pub(super) fn plane(self, notes: &[String]) -> Plane {
        let Self { copies, width, height, edge, notes: wrap } = self;
        let lines = broken(notes, wrap);
        let foot = ROW_GAP + lines.len() as f64 * NOTE_LINE;
        let (width, height) = (width + 2.0 * edge, foot + height + edge);
        let mut plane = Plane {
            strokes: Vec::new(),
            words: Vec::new(),
            size: (width, height),
            pieces: Rect::new(0.0, foot - edge, width, height),
            outlines: copies.len(),
        };
        let off = Vec2::new(edge, foot);
        for copy in copies {
            place(&Copy { at: copy.at + off, cloth: copy.cloth.map(|cloth| cloth + off), ..copy }, &mut plane);
        }
        for (i, text) in lines.into_iter().enumerate() {
            let at = Point::new(edge, foot - NOTE_LINE * (i as f64 + 1.0));
            plane.words.push(Words { at, size: NOTE, text });
        }
        plane
    }
}

fn broken(notes: &[String], width: f64) -> Vec<String> {
    let letters = (width / (fit::LETTER * NOTE)).floor().max(20.0) as usize;
    notes.iter().flat_map(|n| fit::wrap(n, letters)).collect()
}

/// A copy, its origin at a place.
fn place(copy: &Copy<'_>, plane: &mut Plane) {
    let Copy { set, at, cloth } = copy;
    let up = |p: Point| Point::new(p.x + at.x, at.y - p.y);
    for s in &set.strokes {
        let edge = |e: &Edge| Edge { name: e.name.clone(), path: e.path.map(up), start: e.start };
        let stroke = Stroke { edges: s.edges.iter().map(edge).collect(), piece: s.piece.clone(), ..*s };
        let is_on = |cloth: &Rect| {
            let cloth = cloth.inflate(ON, ON);
            stroke.edges.iter().all(|e| cloth.union(e.path.bounds()) == cloth)
        };
        if stroke.layer == Layer::Cut || cloth.as_ref().is_none_or(is_on) {
            plane.strokes.push(stroke);
        }
    }
    for w in &set.words {
        plane.words.push(Words { at: up(w.at), text: w.text.clone(), ..*w });
    }
}
