//! From the net draft to pieces: cut, sewing and finished outlines, half on the fold or full.

mod band;
mod trued;

pub use band::band;

use crate::construct::allowance::{AllowanceError, Drawn, Side, onto};
use crate::construct::rings::{MarkAt, Ring, Rings};
use crate::curve::Path;
use crate::draft::Draft;
use crate::finding::refusal;
use crate::finish::{Lines, TurnedIn};
use crate::garment::{Edge, EdgeRef, Finding, Notch, Outline, Piece};
use crate::plan::{FinishPlan, Plan, section_name};
use crate::terms::Opening;

/// Which half of a piece: the drafted one, or its mirror image.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// x is positive: as drafted.
    Plus,
    /// x is negative.
    Minus,
}

/// One of the three kinds of piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Part {
    Front,
    Back,
    Gusset,
}

/// What a finished edge is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Top,
    Leg,
    Side,
    GussetSeam,
}

/// One named edge of a half piece.
struct Net<'a> {
    name: &'static str,
    path: &'a Path,
    kind: Kind,
}

impl Part {
    /// In the order they are listed.
    pub const ALL: [Self; 3] = [Self::Front, Self::Back, Self::Gusset];

    /// The piece's name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
            Self::Gusset => "gusset",
        }
    }

    /// The wearer's leg on a half of this piece: +x is the wearer's left, on the back the right.
    pub const fn leg(self, half: Half) -> Opening {
        match (self, half) {
            (Self::Back, Half::Plus) | (Self::Front | Self::Gusset, Half::Minus) => Opening::RightLeg,
            (Self::Back, Half::Minus) | (Self::Front | Self::Gusset, Half::Plus) => Opening::LeftLeg,
        }
    }

    /// The half on the wearer's side of this leg.
    pub const fn half(self, leg: Opening) -> Half {
        match (self, leg) {
            (Self::Back, Opening::LeftLeg) | (Self::Front | Self::Gusset, Opening::RightLeg) => Half::Minus,
            _ => Half::Plus,
        }
    }

    fn edges(self, draft: &Draft) -> Vec<Net<'_>> {
        let panel = |gusset: &'static str| -> Vec<(&'static str, Kind)> {
            vec![("top", Kind::Top), ("side", Kind::Side), ("leg", Kind::Leg), (gusset, Kind::GussetSeam)]
        };
        let (names, paths): (Vec<_>, Vec<&Path>) = match self {
            Self::Front => {
                let p = &draft.front;
                (panel("front gusset"), vec![&p.top, &p.side, &p.leg, &p.gusset])
            }
            Self::Back => {
                let p = &draft.back;
                (panel("back gusset"), vec![&p.top, &p.side, &p.leg, &p.gusset])
            }
            Self::Gusset => {
                let g = &draft.gusset;
                let names =
                    vec![("front gusset", Kind::GussetSeam), ("leg", Kind::Leg), ("back gusset", Kind::GussetSeam)];
                (names, vec![&g.front, &g.leg, &g.back])
            }
        };
        names.into_iter().zip(paths).map(|((name, kind), path)| Net { name, path, kind }).collect()
    }
}

/// Left or right, in front of the name of an edge of a full piece.
const fn side_word(leg: Opening) -> &'static str {
    match leg {
        Opening::RightLeg => "right",
        _ => "left",
    }
}

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

/// Every piece, and which of them are halves on the fold.
pub struct Pieces<'a> {
    plan: &'a Plan,
    draft: &'a Draft,
    drawn: Drawn<'a>,
}

impl<'a> Pieces<'a> {
    /// Of a draft.
    pub fn new(plan: &'a Plan, draft: &'a Draft) -> Self {
        Self { plan, draft, drawn: Drawn::default() }
    }

    /// Is this piece cut as a half on the fold? The gusset is small and always drawn whole.
    pub fn on_fold(&self, part: Part) -> bool {
        part != Part::Gusset && self.plan.legs_alike()
    }

    /// The name of an edge, and how to read it when walking the drafted half's way (or back).
    pub fn edge(&self, part: Part, half: Half, edge: &str, way: Way) -> EdgeRef {
        let piece = part.name().to_owned();
        let back = way == Way::Back;
        if self.on_fold(part) {
            return EdgeRef { piece, edge: edge.to_owned(), reverse: back, mirrored: half == Half::Minus };
        }
        // A full outline walks its −x half the other way round.
        let reverse = if half == Half::Plus { back } else { !back };
        EdgeRef { piece, edge: format!("{} {edge}", side_word(part.leg(half))), reverse, mirrored: false }
    }

    fn finish(&self, kind: Kind, leg: Opening) -> Option<&FinishPlan> {
        match kind {
            Kind::Top => Some(&self.plan.finish.top),
            Kind::Leg => Some(self.plan.finish.get(leg)),
            Kind::Side | Kind::GussetSeam => None,
        }
    }

    fn distance(&self, kind: Kind, leg: Opening, row: Row) -> (f64, TurnedIn) {
        match (self.finish(kind, leg), kind, row) {
            (Some(f), _, _) => (row.of(&f.lines), f.lines.turned_in),
            (None, Kind::Side, Row::Cut) => (self.plan.seams.side, TurnedIn::No),
            (None, _, Row::Cut) => (self.plan.seams.gusset, TurnedIn::No),
            (None, _, _) => (0.0, TurnedIn::No),
        }
    }

    /// One row of a half piece, edge by edge. Beside the cut line, its seams are as long as those
    /// of the pieces that they are sewn to.
    fn half_row(&self, part: Part, half: Half, row: Row) -> Result<Vec<Edge>, Finding> {
        let edges = self.drawn_row(part, half, row)?;
        Ok(if row == Row::Cut { edges } else { trued::trued(self, part, half, row, edges) })
    }

    /// One row of a half piece, each edge at its own distance.
    fn drawn_row(&self, part: Part, half: Half, row: Row) -> Result<Vec<Edge>, Finding> {
        let leg = part.leg(half);
        let net = part.edges(self.draft);
        let sides: Vec<Side<'a>> = net
            .iter()
            .map(|n| {
                let (distance, turned_in) = self.distance(n.kind, leg, row);
                Side { name: n.name, path: n.path, distance, turned_in }
            })
            .collect();
        let paths = self.drawn.beside(&sides).map_err(|e| unsewable(part, leg, &e))?;
        Ok(net.iter().zip(paths).map(|(n, path)| Edge { name: n.name.to_owned(), path }).collect())
    }

    /// The closed outline of one row, half or full.
    fn outline(&self, part: Part, row: impl Fn(Half) -> Result<Vec<Edge>, Finding>) -> Result<Outline, Finding> {
        let plus = row(Half::Plus)?;
        if self.on_fold(part) {
            return Ok(Outline { edges: closed_on_fold(plus) });
        }
        Ok(Outline { edges: both_halves(part, plus, row(Half::Minus)?) })
    }

    /// The line that lengths are taken along, on one half of a piece: every edge by its name,
    /// trimmed at the seams.
    ///
    /// # Errors
    /// Where a finish does not fit its edge.
    pub fn measured_row(&self, part: Part, half: Half) -> Result<Vec<Edge>, Finding> {
        self.half_row(part, half, Row::Measured)
    }

    fn finished_row(&self, part: Part) -> Vec<Edge> {
        part.edges(self.draft).iter().map(|n| Edge { name: n.name.to_owned(), path: n.path.clone() }).collect()
    }

    /// One piece.
    ///
    /// # Errors
    /// Where a finish does not fit its edge.
    pub fn piece(&self, part: Part, rings: &Rings) -> Result<Piece, Finding> {
        let cut = self.outline(part, |half| self.half_row(part, half, Row::Cut))?;
        let sewing = self.outline(part, |half| self.half_row(part, half, Row::Sewing))?;
        let finished = self.outline(part, |_| Ok(self.finished_row(part)))?;
        let on_fold = self.on_fold(part);
        let (area, perimeter) = extent(&cut, on_fold);
        Ok(Piece {
            name: part.name().to_owned(),
            quantity: 1,
            material: self.plan.cloth.name.clone(),
            on_fold,
            area_mm2: area,
            perimeter_mm: perimeter,
            cut,
            sewing,
            finished,
            second_row: self.second_rows(part)?,
            folds: Vec::new(),
            notches: self.notches(part, rings),
        })
    }

    fn halves(&self, part: Part) -> &'static [Half] {
        if self.on_fold(part) { &[Half::Plus] } else { &[Half::Plus, Half::Minus] }
    }

    fn second_rows(&self, part: Part) -> Result<Vec<Edge>, Finding> {
        let mut rows = Vec::new();
        for &half in self.halves(part) {
            let edges = self.half_row(part, half, Row::Second)?;
            for (net, edge) in part.edges(self.draft).iter().zip(edges) {
                if self.finish(net.kind, part.leg(half)).is_some_and(|f| f.lines.second.is_some()) {
                    let name = self.edge(part, half, net.name, Way::Along).edge;
                    let path = if half == Half::Plus { edge.path } else { edge.path.mirrored().reversed() };
                    rows.push(Edge { name, path });
                }
            }
        }
        Ok(rows)
    }

    fn notches(&self, part: Part, rings: &Rings) -> Vec<Notch> {
        let mut notches = Vec::new();
        for &half in self.halves(part) {
            for net in part.edges(self.draft) {
                for (along, label, mate) in self.marks_on(part, half, &net, rings) {
                    notches.push(self.notch(part, half, &net, along, &label, mate));
                }
            }
        }
        notches
    }

    /// Marks on one edge: millimetres along it, a label, and the piece that it meets.
    fn marks_on(&self, part: Part, half: Half, net: &Net<'_>, rings: &Rings) -> Vec<(f64, String, Option<Part>)> {
        let length = net.path.length();
        let centre = half == Half::Plus;
        match (net.kind, part) {
            (Kind::Side, _) => {
                let mate = if part == Part::Front { Part::Back } else { Part::Front };
                vec![(0.5 * length, "middle".to_owned(), Some(mate))]
            }
            (Kind::GussetSeam, _) if net.name == "front gusset" => {
                let (along, mate) = if part == Part::Gusset { (0.0, Part::Front) } else { (length, Part::Gusset) };
                centre.then(|| (along, "centre".to_owned(), Some(mate))).into_iter().collect()
            }
            (Kind::GussetSeam, _) => {
                let mate = if part == Part::Gusset { Part::Back } else { Part::Gusset };
                vec![(length - PAIR, "pair".to_owned(), Some(mate))]
            }
            (Kind::Top | Kind::Leg, _) => {
                let opening = if net.kind == Kind::Top { Opening::Top } else { part.leg(half) };
                let ring = rings.get(opening);
                ring.marks.iter().filter_map(|m| opening_mark(ring, m, part, half, net)).collect()
            }
        }
    }

    fn notch(&self, part: Part, half: Half, net: &Net<'_>, along: f64, label: &str, mate: Option<Part>) -> Notch {
        let (distance, _) = self.distance(net.kind, part.leg(half), Row::Cut);
        let (mut at, mut inward) = onto(net.path, along, distance);
        let edge = self.edge(part, half, net.name, Way::Along).edge;
        let id = |p: Part| notch_id(p, self.on_fold(p), p.half(part.leg(half)), net.name, label);
        let mut from_start = along;
        if half == Half::Minus {
            (at.x, inward.x) = (-at.x, -inward.x);
            from_start = net.path.length() - along;
        }
        Notch { id: id(part), edge, at, along: from_start, inward, mate: mate.map(id) }
    }
}

/// The second layer of a gusset: the same outline, so that both layers are held together, and
/// fold as one where an edge is folded.
pub fn lining(gusset: &Piece) -> Piece {
    let named = |id: &str| id.replacen("gusset: ", "gusset lining: ", 1);
    let notches = gusset.notches.iter().map(|n| Notch { id: named(&n.id), ..n.clone() }).collect();
    Piece { name: "gusset lining".to_owned(), notches, ..gusset.clone() }
}

/// An opening's mark on one edge, if it needs a notch there.
fn opening_mark(
    ring: &Ring,
    mark: &MarkAt,
    part: Part,
    half: Half,
    net: &Net<'_>,
) -> Option<(f64, String, Option<Part>)> {
    let along = ring.on_edge(mark, part, half, net.path)?;
    // The centre belongs to both halves: it is marked once.
    (half == Half::Plus || along > 1e-6).then(|| (along, mark.place.clone(), None))
}

/// A back gusset seam carries a pair of notches, this far to either side of its centre, mm.
/// Common practice: one in front, two behind.
const PAIR: f64 = 5.0;

fn notch_id(part: Part, on_fold: bool, half: Half, edge: &str, label: &str) -> String {
    let on_centre = label.contains("centre") && edge != "side";
    let side = if on_fold || on_centre { String::new() } else { format!("{} ", side_word(part.leg(half))) };
    format!("{}: {side}{edge}, {label}", part.name())
}

/// Which way an edge is walked, seen from the drafted half's outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Way {
    Along,
    Back,
}

fn closed_on_fold(mut edges: Vec<Edge>) -> Vec<Edge> {
    if let (Some(first), Some(last)) = (edges.first(), edges.last()) {
        let path = Path::line(last.path.end(), first.path.start());
        edges.push(Edge { name: "centre".to_owned(), path });
    }
    edges
}

fn both_halves(part: Part, plus: Vec<Edge>, minus: Vec<Edge>) -> Vec<Edge> {
    let named = |half: Half, name: &str| format!("{} {name}", side_word(part.leg(half)));
    let near = plus.into_iter().map(|e| Edge { name: named(Half::Plus, &e.name), path: e.path });
    let far =
        minus.into_iter().rev().map(|e| Edge { name: named(Half::Minus, &e.name), path: e.path.mirrored().reversed() });
    near.chain(far).collect()
}

/// Area and perimeter of the unfolded outline (Green's theorem, exact on cubics).
fn extent(outline: &Outline, on_fold: bool) -> (f64, f64) {
    use kurbo::{ParamCurveArea, PathSeg};
    let area: f64 = outline.edges.iter().flat_map(|e| e.path.segments()).map(PathSeg::signed_area).sum();
    let seen = outline.edges.iter().filter(|e| !on_fold || e.name != "centre");
    let perimeter: f64 = seen.map(|e| e.path.length()).sum();
    let times = if on_fold { 2.0 } else { 1.0 };
    (times * area.abs(), times * perimeter)
}

fn unsewable(part: Part, leg: Opening, error: &AllowanceError) -> Finding {
    let tight = matches!(error, AllowanceError::TooTight { edge: "top", .. });
    let place = format!("finish.{}", section_name(if tight { Opening::Top } else { leg }));
    let text = format!("on the {}, {error}", part.name());
    let finding = refusal(
        "finish.too_tight",
        &place,
        text,
        "use a narrower elastic or hem, or set front_scoop or back_cover milder",
    );
    match error {
        AllowanceError::TooTight { radius, distance, .. } => finding.measured(*radius, distance.abs(), "mm"),
        AllowanceError::NoCorner { .. } => finding,
    }
}
