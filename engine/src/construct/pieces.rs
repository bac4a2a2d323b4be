//! From the net draft to pieces: cut, sewing and finished outlines, half on the fold or full.

mod band;
mod notches;
mod trued;

pub use band::band;

use crate::construct::allowance::{AllowanceError, Beyond, Drawn, NetEdge};
use crate::construct::drafted::drafted;
use crate::construct::ring::Rings;
use crate::curve::Path;
use crate::draft::Draft;
use crate::finding::Finding;
use crate::finding::fact::OutlineFact;
use crate::finish::Lines;
use crate::garment::{Edge, EdgeRef, Notch, Outline, Piece};
use crate::plan::{FinishPlan, Plan, SeamPlan};
use crate::terms::{Extent, Opening};
use crate::topology::{
    Cutting, EdgeId, Half, Lies, OutlineEdge, Pair, PairArc, PairPiece, PieceId, SeamLine, Side, Spot,
};
use kurbo::{Point, Vec2};
use std::cell::RefCell;
use std::rc::Rc;

/// Which row of lines is asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Row {
    Cut,
    Sewing,
    Second,
    Measured,
}

impl Row {
    fn of(self, lines: &Lines) -> f64 {
        match self {
            Self::Cut => lines.cut,
            Self::Sewing => lines.sewing.unwrap_or(0.0),
            Self::Second => lines.second.unwrap_or(0.0),
            Self::Measured => lines.measured.unwrap_or(0.0),
        }
    }
}

/// One row of a half piece: a line for each of the piece's edges, in their order, as drafted.
type HalfRow = Vec<Path>;

/// A row of a half piece that was asked for before.
type KnownRow = ((PieceId, Half, Row), Rc<HalfRow>);

/// Every piece, and which of them are halves on the fold.
pub struct Pieces<'a> {
    topology: &'static Pair,
    plan: &'a Plan,
    draft: &'a Draft,
    drawn: Drawn<'a>,
    /// Rows that were asked for; stitches, notches and openings share them.
    rows: RefCell<Vec<KnownRow>>,
}

impl<'a> Pieces<'a> {
    /// Of a draft.
    pub fn new(topology: &'static Pair, plan: &'a Plan, draft: &'a Draft) -> Self {
        Self { topology, plan, draft, drawn: Drawn::default(), rows: RefCell::default() }
    }

    /// The construction that they are made after.
    pub const fn topology(&self) -> &'static Pair {
        self.topology
    }

    /// Is this piece cut as a half on the fold, or whole?
    pub fn extent(&self, piece: &PairPiece) -> Extent {
        let on_fold = piece.cutting == Cutting::OnFoldWhereAlike && self.plan.legs_alike();
        if on_fold { Extent::HalfOnFold } else { Extent::Full }
    }

    /// The halves that are drawn.
    fn halves(&self, piece: &PairPiece) -> &'static [Half] {
        match self.extent(piece) {
            Extent::HalfOnFold => &[Half::Plus],
            Extent::Full => &[Half::Plus, Half::Minus],
        }
    }

    /// An edge of a half by its identity on the outline that is cut.
    fn outline_edge(&self, piece: &PairPiece, half: Half, edge: EdgeId) -> OutlineEdge {
        match self.extent(piece) {
            Extent::HalfOnFold => OutlineEdge::Half(edge),
            Extent::Full => OutlineEdge::On(piece.side(half), edge),
        }
    }

    /// An edge on one side of the wearer, and how its outline is read to walk it as the spot says.
    pub fn edge(&self, spot: &Spot<PieceId, EdgeId, SeamLine>, side: Side) -> EdgeRef {
        let half = spot.piece.half(side);
        let edge = self.outline_edge(spot.piece, half, spot.edge);
        let (way, half) = match (self.extent(spot.piece), half) {
            (Extent::HalfOnFold, half) => (spot.way, half),
            (Extent::Full, Half::Plus) => (spot.way, Half::Plus),
            // A whole outline walks its −x half the other way round.
            (Extent::Full, Half::Minus) => (spot.way.turned(), Half::Plus),
        };
        EdgeRef { piece: spot.piece.id, edge, way, half }
    }

    fn finish(&self, lies: Lies<SeamLine>, side: Side) -> Option<&FinishPlan> {
        lies.opening(side).map(|opening| self.plan.finish.get(opening))
    }

    fn distance(&self, lies: Lies<SeamLine>, side: Side, row: Row) -> (f64, Beyond) {
        let of = |lines: &Lines| if lines.is_folded() { Beyond::Folded } else { Beyond::Open };
        match (lies, self.finish(lies, side)) {
            (Lies::Seam(line), _) => {
                (if row == Row::Cut { allowance(&self.plan.seams, line) } else { 0.0 }, beyond(line))
            }
            (_, finish) => finish.map_or((0.0, Beyond::Open), |f| (row.of(&f.lines), of(&f.lines))),
        }
    }

    /// One row of a half piece, edge by edge. Beside the cut line, its seams are as long as those
    /// of the pieces that they are sewn to.
    fn half_row(&self, piece: &'static PairPiece, half: Half, row: Row) -> Result<Rc<HalfRow>, Finding> {
        // As drafted, halves that are finished alike are one and the same.
        let half = if self.plan.legs_alike() { Half::Plus } else { half };
        let key = (piece.id, half, row);
        if let Some((_, known)) = self.rows.borrow().iter().find(|(known, _)| *known == key) {
            return Ok(Rc::clone(known));
        }
        let lines = self.drawn_row(piece, half, row)?;
        let lines = Rc::new(if row == Row::Cut { lines } else { trued::trued(self, piece, half, row, lines) });
        self.rows.borrow_mut().push((key, Rc::clone(&lines)));
        Ok(lines)
    }

    /// One row of a half piece, each edge at its own distance.
    fn drawn_row(&self, piece: &PairPiece, half: Half, row: Row) -> Result<HalfRow, Finding> {
        let side = piece.side(half);
        let net = |(edge, lies): &(EdgeId, Lies<SeamLine>)| {
            let (distance, beyond) = self.distance(*lies, side, row);
            NetEdge { edge: *edge, path: drafted(self.draft, *edge), distance, beyond }
        };
        let edges: Vec<NetEdge<'a>> = piece.edges.iter().map(net).collect();
        self.drawn.beside(&edges).map_err(|e| unsewable(piece, side, &e))
    }

    /// The same row of every half that is drawn.
    fn rows(&self, piece: &'static PairPiece, row: Row) -> Result<Vec<(Half, Rc<HalfRow>)>, Finding> {
        self.halves(piece).iter().map(|half| Ok((*half, self.half_row(piece, *half, row)?))).collect()
    }

    fn finished_rows(&self, piece: &PairPiece) -> Vec<(Half, Rc<HalfRow>)> {
        let net: HalfRow = piece.edges.iter().map(|(edge, _)| drafted(self.draft, *edge).clone()).collect();
        let net = Rc::new(net);
        self.halves(piece).iter().map(|half| (*half, Rc::clone(&net))).collect()
    }

    /// The edges of a row on one half, placed as they are cut.
    fn placed(&self, piece: &PairPiece, half: Half, row: &HalfRow) -> Vec<Edge> {
        let edge = |((edge, _), path): (&(EdgeId, _), &Path)| {
            let path = if half == Half::Plus { path.clone() } else { path.mirrored().reversed() };
            Edge { id: self.outline_edge(piece, half, *edge), path }
        };
        piece.edges.iter().zip(row).map(edge).collect()
    }

    /// The closed outline of one row, half or full.
    fn outline(&self, piece: &PairPiece, rows: &[(Half, Rc<HalfRow>)]) -> Outline {
        let mut edges = Vec::new();
        for (half, row) in rows {
            let mut placed = self.placed(piece, *half, row);
            if *half == Half::Minus {
                placed.reverse();
            }
            edges.extend(placed);
        }
        if self.extent(piece) == Extent::HalfOnFold {
            edges.extend(fold(&edges));
        }
        Outline { edges }
    }

    /// The line that lengths are taken along, on one part of an opening, trimmed at the seams.
    ///
    /// # Errors
    /// Where a finish does not fit its edge.
    pub fn measured_line(&self, arc: &PairArc) -> Result<Path, Finding> {
        // A row has a line for each edge of its piece.
        Ok(self.half_row(arc.spot.piece, arc.half, Row::Measured)?[arc.spot.at].clone())
    }

    /// One piece.
    ///
    /// # Errors
    /// Where a finish does not fit its edge.
    pub fn piece(&self, piece: &'static PairPiece, rings: &Rings) -> Result<Piece, Finding> {
        let cut = self.rows(piece, Row::Cut)?;
        let sewing = self.rows(piece, Row::Sewing)?;
        let extent = self.extent(piece);
        let mut notches = Vec::new();
        for ((half, row), (_, line)) in sewing.iter().zip(&cut) {
            notches.extend(self.notches(piece, *half, (line, row), rings)?);
        }
        let cut = self.outline(piece, &cut);
        let (area, perimeter) = unfolded(&cut, extent);
        Ok(Piece {
            id: piece.id,
            quantity: 1,
            material: self.plan.cloth.name.clone(),
            extent,
            area_mm2: area,
            perimeter_mm: perimeter,
            cut,
            second_row: self.second_rows(piece)?,
            folds: Vec::new(),
            notches,
            sewing: self.outline(piece, &sewing),
            finished: self.outline(piece, &self.finished_rows(piece)),
        })
    }

    fn second_rows(&self, piece: &'static PairPiece) -> Result<Vec<Edge>, Finding> {
        let mut edges = Vec::new();
        for (half, row) in self.rows(piece, Row::Second)? {
            let has_one = |lies: Lies<SeamLine>| {
                self.finish(lies, piece.side(half)).is_some_and(|finish| finish.lines.second.is_some())
            };
            let placed = self.placed(piece, half, &row);
            edges.extend(piece.edges.iter().zip(placed).filter(|((_, lies), _)| has_one(*lies)).map(|(_, edge)| edge));
        }
        Ok(edges)
    }
}

/// The allowance of a seam, mm.
pub(crate) const fn allowance(seams: &SeamPlan, line: SeamLine) -> f64 {
    match line {
        SeamLine::Side => seams.side,
        SeamLine::FrontGusset | SeamLine::BackGusset => seams.gusset,
    }
}

/// How a seam goes on beyond an edge. A side seam can be sewn last, over an edge that lies folded; it
/// crosses that nearly square, so that its ends hardly bend. A gusset seam is always sewn before, with its
/// lining, and crosses a leg edge at 45 to 75 degrees.
const fn beyond(line: SeamLine) -> Beyond {
    match line {
        SeamLine::Side => Beyond::SewnAfter,
        SeamLine::FrontGusset | SeamLine::BackGusset => Beyond::SewnBefore,
    }
}

/// A further layer: the same outline, so that all layers are held together, and fold as one where
/// an edge is folded. It lies with its wrong side on that of the other, and is cut right side up as that is: where
/// its sides differ, its outline is the other's turned over.
pub fn layer(of: &Piece, id: PieceId, sides_alike: bool) -> Piece {
    let layer = if sides_alike { of.clone() } else { turned_over(of) };
    let notches = layer.notches.iter().map(|n| Notch { id: n.id.on(id), ..n.clone() }).collect();
    Piece { id, notches, ..layer }
}

/// A whole piece as it is seen from its other side: its edges keep their names, and run round it from the centre again.
fn turned_over(piece: &Piece) -> Piece {
    let edges = |edges: &[Edge]| edges.iter().map(|e| Edge { id: e.id, path: e.path.mirrored().reversed() }).collect();
    let outline = |outline: &Outline| {
        let mut edges: Vec<Edge> = edges(&outline.edges);
        edges.reverse();
        Outline { edges }
    };
    let notch = |notch: &Notch| Notch {
        at: Point::new(-notch.at.x, notch.at.y),
        inward: Vec2::new(-notch.inward.x, notch.inward.y),
        along: piece.finished.edge(notch.edge).map_or(0.0, |e| e.path.length()) - notch.along,
        ..notch.clone()
    };
    Piece {
        cut: outline(&piece.cut),
        sewing: outline(&piece.sewing),
        finished: outline(&piece.finished),
        second_row: edges(&piece.second_row),
        folds: edges(&piece.folds),
        notches: piece.notches.iter().map(notch).collect(),
        ..piece.clone()
    }
}

/// The fold of a half piece closes its outline.
fn fold(edges: &[Edge]) -> Option<Edge> {
    let (first, last) = (edges.first()?, edges.last()?);
    Some(Edge { id: OutlineEdge::Centre, path: Path::line(last.path.end(), first.path.start()) })
}

/// Area and perimeter of the unfolded outline (Green's theorem, exact on cubics).
fn unfolded(outline: &Outline, extent: Extent) -> (f64, f64) {
    use kurbo::{ParamCurveArea, PathSeg};
    let area: f64 = outline.edges.iter().flat_map(|e| e.path.segments()).map(PathSeg::signed_area).sum();
    let seen = outline.edges.iter().filter(|e| e.id != OutlineEdge::Centre);
    let perimeter: f64 = seen.map(|e| e.path.length()).sum();
    let times = match extent {
        Extent::HalfOnFold => 2.0,
        Extent::Full => 1.0,
    };
    (times * area.abs(), times * perimeter)
}

fn unsewable(piece: &PairPiece, side: Side, error: &AllowanceError) -> Finding {
    let tight = |edge: EdgeId| piece.edges.iter().any(|(known, lies)| *known == edge && *lies == Lies::Top);
    let opening = match error {
        AllowanceError::TooTight { edge, .. } if tight(*edge) => Opening::Top,
        _ => side.leg(),
    };
    let piece = piece.id;
    match *error {
        AllowanceError::TooTight { radius, distance, .. } => {
            OutlineFact::TooTight { piece, opening, radius, distance: distance.abs() }.into()
        }
        AllowanceError::NoCorner { .. } => OutlineFact::NoCorner { piece, opening }.into(),
    }
}
