//! The lengths between notches along each edge, for checking a cut piece with a tape.

use super::heading;
use super::ruler::{Ruler, fixed};
use super::table::Column::{Left, Right};
use super::table::Columns;
use engine::garment::{Edge, Garment, Piece};
use engine::quantity::Units;

/// A stretch of an edge between two neighbouring marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The piece.
    pub piece: String,
    /// Its edge.
    pub edge: String,
    /// A notch, or the edge's end.
    pub from: String,
    /// A notch, or the edge's end.
    pub to: String,
    /// Along the finished edge, mm.
    pub length: f64,
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
    let mut places: Vec<(f64, &str)> =
        piece.notches.iter().filter(|n| n.edge == edge.name).map(|n| (n.along, n.id.as_str())).collect();
    if places.is_empty() {
        return Vec::new();
    }
    places.push((0.0, "start"));
    places.push((edge.path.length(), "end"));
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    places
        .windows(2)
        .filter_map(|pair| match pair {
            [(a, from), (b, to)] if b - a > 1e-6 => Some((from, to, b - a)),
            _ => None,
        })
        .map(|(from, to, length)| Gap {
            piece: piece.name.clone(),
            edge: edge.name.clone(),
            from: (*from).to_owned(),
            to: (*to).to_owned(),
            length,
        })
        .collect()
}

/// As a table; nothing at all where there are none.
pub fn render(gaps: &[Gap], units: Units) -> String {
    if gaps.is_empty() {
        return String::new();
    }
    let ruler = Ruler(units);
    let mut heads = vec![("piece", Left), ("edge", Left), ("to", Left), ("mm", Right)];
    heads.extend(ruler.beside_mm(|| (ruler.unit(), Right)));
    let mut table = Columns::new(&heads);
    for Gap { piece, edge, to, length, .. } in gaps {
        let cells = [piece.clone(), edge.clone(), on_the_edge(to, piece, edge), fixed(*length, 3)];
        table.line(cells.into_iter().chain(ruler.beside_mm(|| ruler.read(*length))));
    }
    heading("Between notches, along the finished edge: from its start, then each from the one before") + &table.text()
}

/// A mark's name without the piece and edge that stand beside it anyway.
fn on_the_edge(mark: &str, piece: &str, edge: &str) -> String {
    mark.strip_prefix(&format!("{piece}: {edge}, ")).unwrap_or(mark).to_owned()
}
