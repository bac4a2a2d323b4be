//! From the record to the neutral drawing: roles, notches, text and where it stands.

use super::{label, numbers, texts};
use crate::curve::Path;
use crate::draft::Draft;
use crate::drawing::{Drawing, Edge, Loop, Notch, NotchKind, Open, Piece, Role, TextLine, TextStyle, Variant, Vertex};
use crate::garment::{self, Garment, Outline};
use crate::on_body::on_body;
use crate::plan::Plan;
use crate::sheet::Trial;
use crate::topology::OutlineEdge;
use crate::words::card::card;
use kurbo::{Line, Rect};

/// Draws a garment; its variants each have a plan of their own.
pub fn drawing(garment: &Garment, (plan, draft): (&Plan, &Draft), variants: &[Plan], trials: &[Trial]) -> Drawing {
    let own = pieces(garment, plan);
    let others = garment.variants.iter().zip(variants);
    let variant = |(a, plan): (&garment::Variant, &Plan)| {
        let pieces = pieces(&a.garment, plan).into_iter().map(|p| same_pattern_where_alike(p, &own)).collect();
        Variant { name: a.name.clone(), pieces }
    };
    Drawing {
        name: garment.name.clone(),
        date: garment.date.clone(),
        variants: others.map(variant).collect(),
        sizes: Vec::new(),
        trials: texts::trials(trials),
        pieces: own,
        on_body: on_body(draft, plan),
        card: card(garment, plan),
    }
}

/// A piece that a variant leaves as it is belongs to no other pattern either.
fn same_pattern_where_alike(mut piece: Piece, own: &[Piece]) -> Piece {
    let Some(other) = own.iter().find(|other| other.name == piece.name) else { return piece };
    let text = std::mem::replace(&mut piece.text, other.text.clone());
    let told = |text: &[TextLine]| -> Vec<TextLine> {
        text.iter().filter(|line| line.style != TextStyle::Pattern).cloned().collect()
    };
    if piece != *other || told(&text) != told(&other.text) {
        piece.text = text;
    }
    piece
}

fn pieces(garment: &Garment, plan: &Plan) -> Vec<Piece> {
    garment.pieces.iter().map(|p| piece(p, garment, plan)).collect()
}

/// Edges whose directions differ by less than this run through smoothly, radians.
const SMOOTH: f64 = 0.02;
/// mm; a slit this deep stays well inside every seam allowance in use.
const NOTCH_DEPTH: f64 = 4.0;
/// mm; shallower notches are not seen. It is all that an edge gets that is left raw.
const LEAST_NOTCH: f64 = 1.0;

fn piece(p: &garment::Piece, garment: &Garment, plan: &Plan) -> Piece {
    let bare = lines(p);
    let (stretch, text_box) = label::places(p, &bare.grain);
    Piece { stretch, numbers: numbers::on_piece(p, garment), text: texts::on_piece(p, garment, plan), text_box, ..bare }
}

/// Its lines with the grain: nothing is written on it, and the arrow of stretch has no length.
pub(crate) fn lines(p: &garment::Piece) -> Piece {
    let grain = label::grain(p);
    Piece {
        name: p.id.name().to_owned(),
        material: p.material.clone(),
        quantity: p.quantity,
        extent: p.extent,
        mirror: p.cut.edge(OutlineEdge::Centre).map(|e| Line::new(e.path.end(), e.path.start())),
        grain,
        stretch: Line::new(grain.p0, grain.p0),
        loops: [(Role::Cut, &p.cut), (Role::Sewing, &p.sewing), (Role::Finished, &p.finished)]
            .into_iter()
            .map(|(role, outline)| to_loop(role, outline))
            .collect(),
        lines: p
            .second_row
            .iter()
            .map(|e| open(Role::SecondRow, e))
            .chain(p.folds.iter().map(|e| open(Role::Finished, e)))
            .collect(),
        notches: p.notches.iter().map(notch).collect(),
        numbers: Vec::new(),
        text: Vec::new(),
        text_box: Rect::ZERO,
    }
}

fn open(role: Role, e: &garment::Edge) -> Open {
    Open { role, edge: e.id.name().to_owned(), path: e.path.clone() }
}

fn notch(n: &garment::Notch) -> Notch {
    // On a raw cut edge with a sewing line close inside, a notch stays short of the stitches.
    let depth = NOTCH_DEPTH.min(0.6 * n.to_stitches).max(LEAST_NOTCH);
    Notch { id: n.id.name(), at: n.at, inward: n.inward, depth, kind: NotchKind::Slit }
}

fn to_loop(role: Role, outline: &Outline) -> Loop {
    let n = outline.edges.len();
    let edges = (0..n)
        .map(|i| {
            let (before, edge) = (&outline.edges[(i + n - 1) % n], &outline.edges[i]);
            Edge { name: edge.id.name().to_owned(), path: edge.path.clone(), start: vertex(&before.path, &edge.path) }
        })
        .collect();
    Loop { role, edges }
}

fn vertex(before: &Path, after: &Path) -> Vertex {
    let (a, b) = (before.end_direction(), after.start_direction());
    if a.cross(b).abs() < SMOOTH && a.dot(b) > 0.0 { Vertex::Curve } else { Vertex::Turn }
}
