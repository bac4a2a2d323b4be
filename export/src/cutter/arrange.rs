//! Where copies of pieces lie on the plane: by their boxes, or as they were laid on the cloth.

use super::error::CutterError;
use super::options::{Cutting, OptionError};
use super::plane::{Layer, Plane, Stroke, Words};
use super::set::Set;
use crate::fit;
use crate::layout::{self, Bed, Box as Room};
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

/// From a bed to the word over it, mm.
const OVER: f64 = 4.0;

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
    /// Notes over it are broken at this width, mm.
    notes: f64,
    /// The beds where there is more than one, the first on top.
    beds: Vec<Rect>,
    /// Which pieces lie on each, drawn or not.
    on_beds: Vec<Vec<String>>,
}

/// In a row, or on beds of given width, set apart by their boxes; `turned` are the same sets turned by a
/// quarter, and none where that is not allowed.
///
/// # Errors
/// A piece that does not go on the bed, or a bed that is not needed.
pub(super) fn boxes<'a>(sets: &'a [Set], turned: &'a [Set], cutting: &Cutting) -> Result<Arranged<'a>, CutterError> {
    let copies: Vec<usize> =
        sets.iter().enumerate().flat_map(|(i, s)| std::iter::repeat_n(i, s.times as usize)).collect();
    let room = |s: &'a Set| Room { name: &s.name, width: s.bounds.width(), height: s.bounds.height() };
    let rooms: Vec<Room> = copies.iter().map(|i| room(&sets[*i])).collect();
    let wide = cutting.sheet_width;
    let (laid, edge) = match wide {
        Some(width) => {
            let (length, gap) = (cutting.sheet_length, cutting.gap.unwrap_or(SHEET_GAP));
            (layout::on_beds(&rooms, Bed { width, length, gap, may_turn: !turned.is_empty() })?, 0.0)
        }
        None => (layout::in_a_row(&rooms, cutting.gap.unwrap_or(ROW_GAP)), ROW_GAP),
    };
    let is_wanted = |bed: usize| cutting.bed.is_none_or(|wanted| bed + 1 == wanted.get() as usize);
    if let Some(wanted) = cutting.bed.filter(|_| !(0..laid.beds).any(is_wanted)) {
        return Err(OptionError::NoBed(wanted.get(), laid.beds).into());
    }
    // Several beds are seen whole, one has no end where nothing lies.
    let several = laid.beds > 1 && cutting.bed.is_none();
    let length = cutting.sheet_length.filter(|_| several).unwrap_or(laid.height);
    let bottom = |bed: usize| if several { (laid.beds - 1 - bed) as f64 * (length + ROW_GAP) } else { 0.0 };
    // By beds, so that each is cut to its end before the next.
    let mut placed: Vec<_> = copies.iter().zip(&laid.spots).filter(|(_, spot)| is_wanted(spot.bed)).collect();
    placed.sort_by_key(|(_, spot)| spot.bed);
    let of_bed = |n: usize| copies.iter().zip(&laid.spots).filter(move |(_, spot)| spot.bed == n);
    let on_beds = (0..laid.beds).map(|n| of_bed(n).map(|(i, _)| sets[*i].name.clone()).collect()).collect();
    let place = |(i, spot): (&usize, &layout::Spot)| {
        let set = if spot.is_turned { &turned[*i] } else { &sets[*i] };
        let at = Vec2::new(spot.corner.x - set.bounds.x0, bottom(spot.bed) + spot.corner.y + set.bounds.y1);
        Copy { set, at, cloth: None }
    };
    let bed = |n| Rect::new(0.0, bottom(n), laid.width, bottom(n) + length);
    Ok(Arranged {
        copies: placed.into_iter().map(place).collect(),
        width: wide.unwrap_or(laid.width),
        height: bottom(0) + length,
        edge,
        notes: wide.unwrap_or(NOTE_WIDTH) - 2.0 * edge,
        beds: (0..laid.beds).filter(|_| several).map(bed).collect(),
        on_beds,
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
    let copies = copies.into_iter().map(raised).collect();
    Arranged { copies, width, height, edge: 0.0, notes: width, beds: Vec::new(), on_beds: Vec::new() }
}

impl Arranged<'_> {
    /// All of it on the plane, notes over it: what is cut begins at the corner that a cutter begins at.
    pub(super) fn plane(self, notes: &[String]) -> Plane {
        let Self { copies, width, height, edge, notes: wrap, beds, on_beds } = self;
        let lines = broken(notes, wrap);
        let pieces = Rect::new(0.0, 0.0, width + 2.0 * edge, height + 2.0 * edge);
        let head = pieces.height() - edge + ROW_GAP + lines.len() as f64 * NOTE_LINE;
        let off = Vec2::new(edge, edge);
        let mut plane = Plane {
            strokes: Vec::new(),
            words: Vec::new(),
            size: (pieces.width(), if lines.is_empty() { pieces.height() } else { head }),
            pieces,
            beds: beds.into_iter().map(|bed| bed + off).collect(),
            on_beds,
            outlines: copies.len(),
        };
        for copy in copies {
            place(&Copy { at: copy.at + off, cloth: copy.cloth.map(|cloth| cloth + off), ..copy }, &mut plane);
        }
        let of = plane.beds.len();
        for (i, bed) in plane.beds.iter().enumerate().filter(|_| !lines.is_empty()) {
            let at = Point::new(bed.x0, bed.y1 + OVER);
            plane.words.push(Words { at, size: NOTE, text: format!("bed {} of {of}", i + 1) });
        }
        for (i, text) in lines.into_iter().enumerate() {
            let at = Point::new(edge, head - NOTE_LINE * (i as f64 + 1.0));
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
