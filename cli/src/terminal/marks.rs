//! The lengths between notches along each edge, for checking a cut piece with a tape.

use super::heading;
use super::table::Column::{Left, Right};
use super::table::Columns;
use engine::garment::{Edge, Garment, Piece};
use engine::quantity::Units;
use engine::topology::{NotchId, OutlineEdge, PieceId};
use engine::words::{Fineness, Speech};

/// A stretch of an edge between two neighbouring marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The piece.
    pub piece: PieceId,
    /// Its edge.
    pub edge: OutlineEdge,
    /// Where it begins.
    pub from: Bound,
    /// Where it ends.
    pub to: Bound,
    /// Along the finished edge, mm.
    pub length: f64,
}

/// Where a stretch of an edge begins or ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bound {
    /// Where the edge begins.
    EdgeStart,
    /// At a notch.
    Notch(NotchId),
    /// Where the edge ends.
    EdgeEnd,
}

impl Bound {
    /// As the record calls it.
    pub fn id(self) -> String {
        match self {
            Self::EdgeStart | Self::EdgeEnd => self.name(),
            Self::Notch(id) => id.name(),
        }
    }

    /// Without the piece and edge that stand beside it anyway.
    pub(super) fn name(self) -> String {
        match self {
            Self::EdgeStart => "start".to_owned(),
            Self::EdgeEnd => "end".to_owned(),
            Self::Notch(id) => id.mark_name(),
        }
    }
}

/// Every stretch between marks of every edge that has a notch.
pub fn gaps(garment: &Garment) -> Vec<Gap> {
    garment
        .pieces
        .iter()
        .flat_map(|piece| piece.finished.edges.iter().map(move |edge| (piece, edge)))
        .flat_map(|(piece, edge)| along(piece, edge))
        .collect()
}

fn along(piece: &Piece, edge: &Edge) -> Vec<Gap> {
    let mut places: Vec<(f64, Bound)> =
        piece.notches.iter().filter(|n| n.edge == edge.id).map(|n| (n.along, Bound::Notch(n.id))).collect();
    if places.is_empty() {
        return Vec::new();
    }
    places.push((0.0, Bound::EdgeStart));
    places.push((edge.path.length(), Bound::EdgeEnd));
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places
        .windows(2)
        .filter_map(|pair| match pair {
            [(a, from), (b, to)] if b - a > 1e-6 => Some((*from, *to, b - a)),
            _ => None,
        })
        .map(|(from, to, length)| Gap { piece: piece.id, edge: edge.id, from, to, length })
        .collect()
}

/// As a table; nothing at all where there are none.
pub fn render(gaps: &[Gap], units: Units) -> String {
    if gaps.is_empty() {
        return String::new();
    }
    let say = Speech(units);
    let mut table = Columns::new(&[("piece", Left), ("edge", Left), ("to", Left), (say.unit(), Right)]);
    for Gap { piece, edge, to, length, .. } in gaps {
        let names = [piece.name().to_owned(), edge.name().to_owned(), to.name()];
        table.line(names.into_iter().chain([say.bare(*length, Fineness::Exact)]));
    }
    heading("Between notches, along the finished edge: from its start, then each from the one before") + &table.text()
}
