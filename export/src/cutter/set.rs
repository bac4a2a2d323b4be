//! What is cut and marked of one piece, before it has its place.

use super::error::CutterError;
use super::options::{Cutting, Lines, Notches, Start};
use super::plane::{Closing, Layer, Stroke, Words};
use super::{notches, start};
use crate::outline::{finished_apart, stitched};
use crate::{fit, kerf};
use engine::curve::Path;
use engine::drawing::{Drawing, Edge, Notch, Open, Piece, Role, TextLine, TextStyle};
use kurbo::{Line, Point, Rect, Vec2};

/// Length of an arrow's barbs, and the em of the word at an arrow, mm.
const BARB: f64 = 4.0;
const LABEL: f64 = 3.0;

/// One piece's lines and words, in its own coordinates, y down.
pub(super) struct Set {
    pub(super) name: String,
    pub(super) strokes: Vec<Stroke>,
    pub(super) words: Vec<Words>,
    /// Round all its lines.
    pub(super) bounds: Rect,
    pub(super) times: u32,
}

impl Set {
    pub(super) fn of(piece: &Piece, cutting: &Cutting) -> Result<Self, CutterError> {
        let is_all = cutting.lines == Lines::All;
        let mut strokes = if is_all { [marks(piece), sewn(piece)].concat() } else { Vec::new() };
        let cut = cut(piece, cutting)?;
        strokes.extend(cut.into_iter().filter(|s| is_all || s.layer.is_cut()));
        let boxes = strokes.iter().flat_map(|s| &s.edges).map(|e| e.path.bounds());
        let bounds = boxes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let times = cutting.times(piece.quantity);
        Ok(Self {
            name: piece.name.clone(),
            strokes,
            words: if is_all { words(piece) } else { Vec::new() },
            bounds,
            times,
        })
    }
}

fn stroke(piece: &Piece, layer: Layer, name: &str, path: Path) -> Stroke {
    let edge = Edge { name: name.to_owned(), path, start: engine::drawing::Vertex::Turn };
    Stroke { layer, piece: piece.name.clone(), edges: vec![edge], closing: Closing::Open }
}

fn straight(piece: &Piece, layer: Layer, l: Line) -> Stroke {
    stroke(piece, layer, "", Path::line(l.p0, l.p1))
}

/// Arrows and the fold of a half.
fn marks(piece: &Piece) -> Vec<Stroke> {
    let arrows = [(Layer::Stretch, piece.stretch), (Layer::Grain, piece.grain)];
    let arrows = arrows.into_iter().flat_map(|(layer, l)| double_arrow(l).map(|l| straight(piece, layer, l)));
    arrows.chain(piece.mirror.map(|m| straight(piece, Layer::Fold, m))).collect()
}

/// Finished edges, second rows and sewing lines.
fn sewn(piece: &Piece) -> Vec<Stroke> {
    // A finished edge that is the sewing line or the cut line needs no second line over it.
    let finished = finished_apart(piece).into_iter().map(|e| stroke(piece, Layer::Finished, &e.name, e.path.clone()));
    // A band's fold is where the garment ends; other lines of their own are second rows.
    let layer = |o: &Open| if o.role == Role::Finished { Layer::Finished } else { Layer::SecondRow };
    let rows = piece.lines.iter().map(|o| stroke(piece, layer(o), &o.edge, o.path.clone()));
    let loops = piece.loops.iter().filter(|l| l.role == Role::Sewing);
    let sewing = loops.flat_map(|l| stitched(piece, l)).map(|run| {
        let closing = if run.is_closed { Closing::Closed } else { Closing::Open };
        Stroke { layer: Layer::Sewing, piece: piece.name.clone(), edges: run.edges, closing }
    });
    finished.chain(rows).chain(sewing).collect()
}

/// The pieces of a drawing as they are taken out of the cloth: whole, and with a kerf grown to where the
/// tool runs, mitred corners included. What is laid for a cutter keeps its gap and its width by them.
///
/// # Errors
/// [`CutterError::Kerf`] for a hollow too narrow for the kerf.
pub fn taken(drawing: &Drawing, cutting: &Cutting) -> Result<Drawing, CutterError> {
    let mut taken = drawing.unfolded();
    for piece in taken.pieces.iter_mut().filter(|_| cutting.kerf > 0.0) {
        let (_, edges) = marked_and_cut(piece, cutting)?;
        for cut in piece.loops.iter_mut().filter(|l| l.role == Role::Cut) {
            cut.edges.clone_from(&edges);
        }
    }
    Ok(taken)
}

/// Notches, then the outline.
fn cut(piece: &Piece, cutting: &Cutting) -> Result<Vec<Stroke>, CutterError> {
    let (mut out, mut edges) = marked_and_cut(piece, cutting)?;
    if cutting.start == Start::AwayFromCorners {
        edges = start::away_from_corners(&edges);
    }
    out.push(Stroke { layer: Layer::Cut, piece: piece.name.clone(), edges, closing: Closing::Closed });
    Ok(out)
}

/// Notches that are no part of the outline, and where the tool runs.
fn marked_and_cut(piece: &Piece, cutting: &Cutting) -> Result<(Vec<Stroke>, Vec<Edge>), CutterError> {
    let half_kerf = 0.5 * cutting.kerf;
    let mut edges: Vec<Edge> = piece.cut().map(|l| l.edges.clone()).unwrap_or_default();
    let mut out = Vec::new();
    let mark = |notch: &Notch| Some(straight(piece, Layer::Notch, notches::mark(notch)));
    let slit = |notch: &Notch| {
        // The outline of a half runs along it.
        let is_on_fold = piece.mirror.is_some_and(|fold| notches::lies_on(notch.at, fold));
        (!is_on_fold).then(|| straight(piece, Layer::Slit, notches::slit(notch, half_kerf)))
    };
    for notch in &piece.notches {
        out.extend(match cutting.notches {
            Notches::Marks => mark(notch),
            Notches::Slits => slit(notch),
            Notches::Vees => match (notches::vee(&edges, notch, piece.mirror), cutting.lines) {
                (Some(cut), _) => {
                    edges = cut;
                    None
                }
                (None, Lines::All) => mark(notch),
                // Where there is no room for a V, what is not cut is not there.
                (None, Lines::CutAlone) => slit(notch),
            },
        });
    }
    let grown = kerf::grown(&edges, half_kerf);
    let edges = grown.map_err(|edge| CutterError::Kerf { piece: piece.name.clone(), edge })?;
    Ok((out, edges))
}

/// A line and two barbs at either end.
fn double_arrow(l: Line) -> [Line; 5] {
    let along = l.p1 - l.p0;
    let unit = if along.hypot() > 0.0 { along.normalize() } else { Vec2::ZERO };
    let (back, across) = (unit * BARB, Vec2::new(-unit.y, unit.x) * (0.35 * BARB));
    let barb = |tip: Point, inwards: Vec2, aside: Vec2| Line::new(tip, tip + inwards + aside);
    [l, barb(l.p0, back, across), barb(l.p0, back, -across), barb(l.p1, -back, across), barb(l.p1, -back, -across)]
}

/// What a cutter has to know of a piece: its name and how it is cut. Allowances and finishes are for
/// whoever sews; they speak the sheet's unit, and would make files of one pattern differ by it.
fn words(piece: &Piece) -> Vec<Words> {
    let told: Vec<TextLine> = piece.text.iter().filter(|line| line.style != TextStyle::Body).cloned().collect();
    let label = piece.stretch.midpoint() + Vec2::new(-0.5 * LABEL * 7.0 * fit::LETTER, 1.2 * LABEL);
    let stretch = Words { at: label, size: LABEL, text: "stretch".to_owned() };
    let set = fit::into_box(&told, piece.text_box).into_iter();
    std::iter::once(stretch).chain(set.map(|s| Words { at: s.at, size: s.size, text: s.text })).collect()
}
