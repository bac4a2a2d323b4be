//! Lines and words at their places on the plane.

use super::error::CutterError;
use super::options::{CutExtent, Cutting, Notches, Start};
use super::{arrange, notches, start};
use crate::outline::{self, finished_apart, stitched};
use crate::{fit, kerf};
use engine::curve::Path;
use engine::drawing::{Drawing, Edge, Open, Piece, QuarterTurns, Role, TextLine, TextStyle};
use kurbo::{Line, Point, Rect, Vec2};

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Layer {
    Text,
    Stretch,
    Grain,
    Finished,
    Fold,
    SecondRow,
    Sewing,
    Notch,
    Slit,
    Cut,
}

/// Is a line closed?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Closing {
    Open,
    Closed,
}

impl Layer {
    /// What its lines are called where they are read back; only those that are measured have a word.
    pub(crate) const fn line(self) -> Option<&'static str> {
        match self {
            Self::Cut => Some("cut"),
            Self::Sewing => Some("sewing"),
            Self::Finished => Some("finished"),
            Self::SecondRow => Some("second row"),
            _ => None,
        }
    }
}

/// One line to draw or cut, head to tail, y up.
#[derive(Clone, Debug)]
pub(crate) struct Stroke {
    pub(crate) layer: Layer,
    /// The piece it belongs to.
    pub(crate) piece: String,
    /// Its named parts, head to tail; marks have one without a name.
    pub(crate) edges: Vec<Edge>,
    pub(crate) closing: Closing,
}

/// One line of text, its baseline starting at a place, y up.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub(crate) at: Point,
    /// The em, mm.
    pub(crate) size: f64,
    pub(crate) text: String,
}

/// Everything on the plane; all of it at positive coordinates.
#[derive(Clone, Debug)]
pub(crate) struct Plane {
    /// In drawing order: piece by piece, what is inside before the outline.
    pub(crate) strokes: Vec<Stroke>,
    pub(crate) words: Vec<Words>,
    /// From the origin to the far corner, mm.
    pub(crate) size: (f64, f64),
    /// The part of it that the pieces lie on, with the margin round them; the notes lie under it.
    pub(crate) pieces: Rect,
    /// How many outlines there are.
    pub(crate) outlines: usize,
}

impl Plane {
    /// Round every line and every word, mm.
    pub(crate) fn extents(&self) -> Rect {
        let lines = self.strokes.iter().flat_map(|s| &s.edges).map(|e| e.path.bounds());
        let words = self.words.iter().map(|w| fit::covered(w.at, w.size, &w.text));
        lines.chain(words).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }
}

/// Length of an arrow's barbs, and the em of the word at an arrow, mm.
const BARB: f64 = 4.0;
const LABEL: f64 = 3.0;

/// Lays out a drawing, with notes under it.
///
/// # Errors
/// [`CutterError`] for an unsound drawing, a choice that makes no sense, a piece that does not go
/// on the sheet, or a hollow too narrow for the kerf.
pub(crate) fn lay(drawing: &Drawing, cutting: &Cutting, notes: &[String]) -> Result<Plane, CutterError> {
    cutting.check()?;
    let unfolded;
    let drawn = match cutting.extent {
        CutExtent::Full => {
            unfolded = drawing.unfolded();
            &unfolded
        }
        CutExtent::Half => drawing,
    };
    outline::check(drawn)?;
    let sets = drawn.pieces.iter().map(|p| Set::of(p, cutting)).collect::<Result<Vec<_>, _>>()?;
    if cutting.lays.is_empty() {
        return Ok(arrange::boxes(&sets, cutting)?.plane(notes));
    }
    let turned =
        drawn.pieces.iter().map(|p| Set::of(&p.turned(QuarterTurns::Two), cutting)).collect::<Result<Vec<_>, _>>()?;
    Ok(arrange::laid(&sets, &turned, &cutting.lays).plane(notes))
}

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
    fn of(piece: &Piece, cutting: &Cutting) -> Result<Self, CutterError> {
        let mut strokes = marks(piece);
        strokes.extend(sewn(piece));
        strokes.extend(cut(piece, cutting)?);
        let boxes = strokes.iter().flat_map(|s| &s.edges).map(|e| e.path.bounds());
        let bounds = boxes.reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO);
        let times = cutting.times(piece.quantity);
        Ok(Self { name: piece.name.clone(), strokes, words: words(piece), bounds, times })
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

/// Notches, then the outline.
fn cut(piece: &Piece, cutting: &Cutting) -> Result<Vec<Stroke>, CutterError> {
    let half_kerf = 0.5 * cutting.kerf;
    let mut edges: Vec<Edge> = piece.cut().map(|l| l.edges.clone()).unwrap_or_default();
    let mut out = Vec::new();
    for notch in &piece.notches {
        match cutting.notches {
            Notches::Marks => out.push(straight(piece, Layer::Notch, notches::mark(notch))),
            Notches::Slits => out.push(straight(piece, Layer::Slit, notches::slit(notch, half_kerf))),
            Notches::Vees => match notches::vee(&edges, notch, piece.mirror) {
                Some(cut) => edges = cut,
                None => out.push(straight(piece, Layer::Notch, notches::mark(notch))),
            },
        }
    }
    let grown = kerf::grown(&edges, half_kerf);
    let mut edges = grown.map_err(|edge| CutterError::Kerf { piece: piece.name.clone(), edge })?;
    if cutting.start == Start::AwayFromCorners {
        edges = start::away_from_corners(&edges);
    }
    out.push(Stroke { layer: Layer::Cut, piece: piece.name.clone(), edges, closing: Closing::Closed });
    Ok(out)
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
