//! The finished record of one garment: everything that was computed, in plain values.
//!
//! Lengths are millimetres along the curve, ratios are percent. This is what exporters and the
//! command line read; nothing in it is computed later.

use crate::curve::Path;
use crate::elastic::{BandCut, ElasticCut, ElasticTotal, Meeting};
pub use crate::finding::{Finding, Level};
use crate::finish::FinishKind;
use crate::keys::Key;
use crate::lay::laid::Lay;
use crate::quantity::Units;
use crate::terms::{Extent, Opening, PutOn};
use crate::topology::{CrossingId, Fault, Half, NotchId, OutlineEdge, PairJunction, PieceId, SeamId, SectionId, Way};
use crate::work::doing::Doing;
pub use crate::work::step::{Need, Step};
use kurbo::{Point, Rect, Vec2};

/// Everything about one garment.
#[derive(Clone, Debug)]
pub struct Garment {
    /// The sheet's name.
    pub name: String,
    /// The sheet's date.
    pub date: Option<String>,
    /// The sheet's unit: texts speak it, numbers are millimetres.
    pub units: Units,
    /// Every value the draft stands on, and where it came from.
    pub used: Vec<Used>,
    /// The parts to cut.
    pub pieces: Vec<Piece>,
    /// Every seam, walked.
    pub seams: Vec<SeamWalk>,
    /// Every place where an opening crosses a seam.
    pub crossings: Vec<Crossing>,
    /// Top edge, left leg, right leg.
    pub openings: Vec<OpeningWalk>,
    /// How much of every elastic one pair takes.
    pub elastics: Vec<ElasticTotal>,
    /// What the checks found.
    pub checks: Vec<Finding>,
    /// What to sew, in order.
    pub order_of_work: Vec<Step>,
    /// What the variants of the sheet make.
    pub variants: Vec<Variant>,
    /// How its pieces lie on the cloth, where its width is known and they were laid.
    pub lays: Vec<Lay>,
}

impl Garment {
    /// Does the order of work mark what goes onto an opening? What is laid on from the hand or threaded through
    /// has no marks.
    pub fn is_marked(&self, opening: Opening) -> bool {
        let mut of = self.order_of_work.iter().filter(|step| step.id.opening() == Some(opening));
        of.any(|step| matches!(step.doing, Doing::Mark { .. }))
    }
}

/// The garment of a variant of the sheet.
#[derive(Clone, Debug)]
pub struct Variant {
    /// What the person calls it.
    pub name: String,
    /// A garment of its own, without variants.
    pub garment: Garment,
}

/// Where a value came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// Written in the sheet.
    Given,
    /// What is usual.
    Default,
    /// Computed from other values.
    Estimated,
}

impl Source {
    /// The word in the record.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Given => "given",
            Self::Default => "default",
            Self::Estimated => "estimated",
        }
    }
}

/// A value in use.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Millimetres.
    Mm(f64),
    /// Percent.
    Percent(f64),
    /// A share of one, or a count.
    Number(f64),
    /// A word of the sheet.
    Word(String),
}

/// One value the garment stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Used {
    /// Shown dotted, as in the sheet: `body.waist_girth`.
    pub key: Key,
    /// What is used.
    pub value: Value,
    /// Where it came from.
    pub source: Source,
    /// Empty where there is nothing to say.
    pub note: String,
}

/// One edge and its curve.
#[derive(Clone, Debug)]
pub struct Edge {
    /// Which edge.
    pub id: OutlineEdge,
    /// Its curve.
    pub path: Path,
}

/// A closed loop of edges, head to tail, clockwise as seen.
#[derive(Clone, Debug, Default)]
pub struct Outline {
    /// In order.
    pub edges: Vec<Edge>,
}

impl Outline {
    /// One edge of it, if it has that.
    pub fn edge(&self, id: OutlineEdge) -> Option<&Edge> {
        self.edges.iter().find(|e| e.id == id)
    }
}

/// One part to cut.
#[derive(Clone, Debug)]
pub struct Piece {
    /// Which piece.
    pub id: PieceId,
    /// How many to cut.
    pub quantity: u32,
    /// The cloth's name.
    pub material: String,
    /// Cut as a half on the fold, or whole.
    pub extent: Extent,
    /// Unfolded, inside the cut line.
    pub area_mm2: f64,
    /// Unfolded, round the cut line.
    pub perimeter_mm: f64,
    /// Where it is cut.
    pub cut: Outline,
    /// The line of the seams and of each finish's first row.
    pub sewing: Outline,
    /// Where the garment ends, and its seams.
    pub finished: Outline,
    /// The second row of stitches, where a finish has one: open lines.
    pub second_row: Vec<Edge>,
    /// Where a piece is folded in use: open lines.
    pub folds: Vec<Edge>,
    /// Marks on the cut line.
    pub notches: Vec<Notch>,
}

impl Piece {
    /// The box round its cut line.
    pub fn bounds(&self) -> Rect {
        self.cut.edges.iter().map(|e| e.path.bounds()).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }
}

/// A matching mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// Unique in the garment.
    pub id: NotchId,
    /// The edge it is on.
    pub edge: OutlineEdge,
    /// On the cut line.
    pub at: Point,
    /// Along the edge's finished line from its start, in the outline's direction, mm.
    pub along: f64,
    /// Unit vector into the piece.
    pub inward: Vec2,
    /// From the cut line to the first row of stitches, mm.
    pub to_stitches: f64,
    /// The notch it meets, where it meets one on another piece.
    pub mate: Option<NotchId>,
}

/// An edge of a piece, and which way round it is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EdgeRef {
    /// Its piece.
    pub piece: PieceId,
    /// The edge there.
    pub edge: OutlineEdge,
    /// Which way it is read, seen from the outline's direction.
    pub way: Way,
    /// Which half of a half piece it is on, unfolded; of a whole one always the outline's own.
    pub half: Half,
}

impl EdgeRef {
    /// Its curve in one of the outlines of its piece, read as it says.
    ///
    /// # Errors
    /// [`Fault::NotDrawn`] where the outline has no such edge.
    pub fn path(&self, outline: &Outline) -> Result<Path, Fault> {
        let edge = outline.edge(self.edge).ok_or_else(|| self.not_drawn())?;
        let path = match self.half {
            Half::Plus => edge.path.clone(),
            Half::Minus => edge.path.mirrored(),
        };
        Ok(match self.way {
            Way::Along => path,
            Way::Back => path.reversed(),
        })
    }

    /// What there is to say where it cannot be found.
    pub(crate) const fn not_drawn(&self) -> Fault {
        Fault::NotDrawn { piece: self.piece.name(), edge: self.edge.name() }
    }
}

/// Both sides of a seam, measured against each other.
#[derive(Clone, Debug)]
pub struct SeamWalk {
    /// Which seam.
    pub id: SeamId,
    /// One edge.
    pub a: EdgeRef,
    /// The edge that it is sewn to.
    pub b: EdgeRef,
    /// Between finished edges, mm.
    pub length_a: f64,
    /// The same of `b`.
    pub length_b: f64,
    /// `length_a − length_b`.
    pub difference: f64,
    /// Between the sewing lines of the openings, mm.
    pub sewn_a: f64,
    /// The same of `b`.
    pub sewn_b: f64,
}

/// An opening crossing a seam.
#[derive(Clone, Debug)]
pub struct Crossing {
    /// Which one.
    pub id: CrossingId,
    /// The opening's edge on either piece.
    pub a: EdgeRef,
    /// And on the other piece.
    pub b: EdgeRef,
    /// The sum of the two interior angles, degrees.
    pub angle: f64,
}

/// One opening, walked and finished.
#[derive(Clone, Debug)]
pub struct OpeningWalk {
    /// Which opening.
    pub opening: Opening,
    /// How it is finished.
    pub finish: FinishKind,
    /// Before its last seam is closed, or after.
    pub put_on: PutOn,
    /// Whole ring, mm.
    pub finished: f64,
    /// Along the sewing line, mm.
    pub sewing: f64,
    /// Along the cut line, mm.
    pub cut: f64,
    /// The ring in order, from the centre front, of a leg from its side seam.
    pub path: Vec<EdgeRef>,
    /// Its parts in order.
    pub sections: Vec<SectionWalk>,
    /// The elastic on it.
    pub elastic: Option<ElasticCut>,
    /// The band on it.
    pub band: Option<BandCut>,
    /// Where an elastic is threaded through.
    pub gap: Option<Gap>,
    /// As it is worn.
    pub worn: Worn,
}

/// What of a row of stitches is left open to thread an elastic through; a pair of notches marks it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Along the edge, mm.
    pub length: f64,
    /// Where its middle is: the ends of the elastic are joined there.
    pub at: Meeting,
}

/// One section of an opening: the part of it on one piece.
#[derive(Clone, Debug)]
pub struct SectionWalk {
    /// Which one.
    pub id: SectionId,
    /// Where it starts.
    pub from: PairJunction,
    /// Where it ends.
    pub to: PairJunction,
    /// Along the finished edge, mm.
    pub finished: f64,
    /// Along the sewing line, mm.
    pub sewing: f64,
    /// Along the cut line, mm.
    pub cut: f64,
    /// Percent; none without an elastic or band.
    pub reduction: Option<f64>,
    /// Finished length of elastic on this section, mm.
    pub elastic_length: Option<f64>,
    /// Percent, while sewing.
    pub stretch: Option<f64>,
}

/// Where the girth of the body under an edge comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GirthSource {
    /// The sheet says it.
    Measured,
    /// The same draft at zero ease.
    DraftAtZeroEase,
}

impl Worn {
    /// How much shorter than the body the opening is at rest, percent: what cloth ease and the
    /// reduction of what is sewn on come to together.
    pub fn shorter(&self) -> f64 {
        100.0 * (1.0 - self.relaxed / self.girth)
    }
}

/// An opening as worn.
#[derive(Clone, Debug)]
pub struct Worn {
    /// Of the body where the edge sits, mm.
    pub girth: f64,
    /// Where that comes from.
    pub girth_source: GirthSource,
    /// The opening at rest, drawn in by what is sewn on, mm.
    pub relaxed: f64,
    /// Percent over the relaxed opening: what an elastic on it is stretched by.
    pub stretch: f64,
    /// Percent over the opening's own cloth.
    pub cloth_stretch: f64,
    /// Of the elastic by its pull test; none without one, or outside it.
    pub tension_n: Option<f64>,
    /// Indicative: an average over a round body in full contact.
    pub pressure_kpa: Option<f64>,
}
