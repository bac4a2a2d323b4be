//! The file to cut by: full pieces in a row, what is cut and what is not on different layers.

use super::entity::{Place, chords, closed_chords, light_polyline, line, on, round, text};
use super::repair::MODEL_SPACE;
use super::words::one_line;
use crate::fit;
use crate::outline::{finished_apart, joined};
use ::dxf::entities::Entity;
use ::dxf::enums::{AcadVersion, DrawingUnits, Units};
use ::dxf::tables::Layer;
use ::dxf::{Block, Color, Drawing as DxfDrawing, DxfError, Point as DxfPoint};
use engine::drawing::{Drawing, Loop, Notch, Open, Piece, Role};
use kurbo::{Line, Point, Rect, Vec2};

/// Between pieces and round them, mm.
const GAP: f64 = 20.0;

/// Capital letters stand so high, of the em: the format measures text by its capitals.
const CAPITALS: f64 = 0.7;

/// Height of the capitals of what is written beside the pieces, mm.
const NOTE_HEIGHT: f64 = 4.0;

/// Length of an arrow's barbs, and the em of the word at an arrow, mm.
const BARB: f64 = 4.0;
const LABEL: f64 = 3.0;

/// The layer that is cut: nothing but the outlines, one per piece.
pub(super) const CUT: &str = "CUT";
const SEWING: &str = "SEWING";
const SECOND_ROW: &str = "SECOND_ROW";
const FOLD: &str = "FOLD";
const NOTCH: &str = "NOTCH";
const GRAIN: &str = "GRAIN";
const STRETCH: &str = "STRETCH";
const TEXT: &str = "TEXT";

/// Every layer with its colour number: warm for the blade, cold for the needle, dull for the eye.
const LAYERS: [(&str, u8); 8] =
    [(CUT, 1), (NOTCH, 30), (SEWING, 5), (SECOND_ROW, 4), (FOLD, 3), (GRAIN, 8), (STRETCH, 6), (TEXT, 7)];

/// What has to be said where a laser may be at work.
const LASER: [&str; 4] = [
    "Only the layer CUT is to be cut; notches, lines and text are for a pen or the lowest marking power.",
    "Laser: never PVC, vinyl or anything chlorinated: chlorine and hydrogen chloride come off.",
    "Polyamide, polyester, elastane and foam melt and flame: extraction on, a test piece first, never unattended.",
    "The machine maker's and the local rules come first. The outline has no kerf in it.",
];

/// The layer a role is drawn on.
fn layer(role: Role) -> &'static str {
    match role {
        Role::Cut => CUT,
        Role::Sewing => SEWING,
        Role::SecondRow => SECOND_ROW,
        Role::Finished => FOLD,
    }
}

/// Full pieces as a file of the format, not repaired yet.
///
/// # Errors
/// Where the writer fails.
pub(super) fn write(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    let mut file = DxfDrawing::new();
    file.header.version = AcadVersion::R2000;
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
    for (name, colour) in LAYERS {
        file.add_layer(Layer { name: name.to_owned(), color: Color::from_index(colour), ..Layer::default() });
    }
    // The crate knows the records of both spaces but leaves out their blocks.
    for (name, is_in_paperspace) in [(MODEL_SPACE, false), ("*PAPER_SPACE", true)] {
        file.add_block(Block { name: name.to_owned(), is_in_paperspace, ..Block::default() });
    }
    let (entities, size) = plane(drawing);
    file.header.minimum_drawing_extents = DxfPoint::origin();
    file.header.maximum_drawing_extents = DxfPoint::new(round(size.width()), round(size.height()), 0.0);
    for entity in entities {
        file.add_entity(entity);
    }
    let mut bytes = Vec::new();
    file.save(&mut bytes)?;
    Ok(bytes)
}

/// All pieces in a row from the left, tops level, notes under them; everything at positive
/// coordinates. The box goes from the origin to the far corner.
fn plane(drawing: &Drawing) -> (Vec<Entity>, Rect) {
    let notes = notes(drawing);
    let tallest = drawing.pieces.iter().map(|p| p.bounds().height()).fold(0.0, f64::max);
    let top = notes_height(&notes) + GAP + tallest;
    let mut entities = Vec::new();
    let mut left = GAP;
    for piece in &drawing.pieces {
        let bounds = piece.bounds();
        let place = Place::of_box(bounds, left, top);
        draw(piece, place, &mut entities);
        left += bounds.width() + GAP;
    }
    for (i, note) in notes.iter().enumerate() {
        let y = notes_height(&notes) - (i as f64 + 1.0) * NOTE_HEIGHT * 1.8;
        entities.push(on(TEXT, text(DxfPoint::new(GAP, round(y), 0.0), NOTE_HEIGHT, one_line(note))));
    }
    (entities, Rect::new(0.0, 0.0, left, top + GAP))
}

fn notes_height(notes: &[String]) -> f64 {
    GAP + notes.len() as f64 * NOTE_HEIGHT * 1.8
}

fn notes(drawing: &Drawing) -> Vec<String> {
    let date = drawing.date.iter().map(|d| format!(", {d}")).collect::<String>();
    let title = format!("{}{date}: every piece whole, at true size, in millimetres", drawing.name);
    let counts: Vec<String> = drawing.pieces.iter().map(|p| format!("{}: cut {}", p.name, p.quantity)).collect();
    let head = [title, counts.join("; ")];
    head.into_iter().chain(LASER.iter().map(|l| (*l).to_owned())).collect()
}

fn draw(piece: &Piece, place: Place, out: &mut Vec<Entity>) {
    for l in piece.loops.iter().filter(|l| l.role != Role::Finished) {
        out.push(outline(l, place));
    }
    // A finished edge that is the sewing line or the cut line needs no second line over it.
    let finished = finished_apart(piece).into_iter().map(|e| (Role::Finished, &e.path));
    let rows = piece.lines.iter().map(|Open { role, path, .. }| (*role, path));
    for (role, path) in finished.chain(rows) {
        out.push(on(layer(role), light_polyline(&chords(place, path), false)));
    }
    out.extend(piece.notches.iter().map(|n| on(NOTCH, line(place, slit(n)))));
    out.extend(double_arrow(piece.grain).map(|l| on(GRAIN, line(place, l))));
    out.extend(double_arrow(piece.stretch).map(|l| on(STRETCH, line(place, l))));
    let word = piece.stretch.midpoint() + Vec2::new(-0.5 * LABEL * 7.0 * fit::LETTER, 1.2 * LABEL);
    out.push(on(TEXT, text(place.point(word), LABEL * CAPITALS, "stretch".to_owned())));
    for set in fit::into_box(&piece.text, piece.text_box) {
        out.push(on(TEXT, text(place.point(set.at), set.size * CAPITALS, one_line(&set.text))));
    }
}

fn outline(l: &Loop, place: Place) -> Entity {
    on(layer(l.role), light_polyline(&closed_chords(place, &joined(l)), true))
}

/// A line and two barbs at either end.
fn double_arrow(l: Line) -> [Line; 5] {
    let along = l.p1 - l.p0;
    let unit = if along.hypot() > 0.0 { along.normalize() } else { Vec2::ZERO };
    let (back, across) = (unit * BARB, Vec2::new(-unit.y, unit.x) * (0.35 * BARB));
    let barb = |tip: Point, inwards: Vec2, aside: Vec2| Line::new(tip, tip + inwards + aside);
    [l, barb(l.p0, back, across), barb(l.p0, back, -across), barb(l.p1, -back, across), barb(l.p1, -back, -across)]
}

/// A short line from the cut line inwards.
fn slit(notch: &Notch) -> Line {
    Line::new(notch.at, notch.at + notch.inward * notch.depth)
}
