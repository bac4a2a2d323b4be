//! The names of pieces and edges, as extended data of the entities that draw them.
//!
//! Programs that do not know them leave them alone, and carry the places along when an outline is
//! moved or turned, so that a file that was edited can be read back. The length of a line stays as it
//! was written, so that a drawing of another size is known by it.

use crate::biarc::{self, Arc};
use crate::cutter::Closing;
use crate::plain::one_line;
use engine::drawing::Edge;
use kurbo::Point;

/// The application's name in the file.
pub(crate) const APPLICATION: &str = "QUARTERPIN";

/// Strings of extended data hold so many bytes; names of ours are far shorter.
const LONGEST: usize = 200;

/// What a line of the file is called.
pub(super) struct Names {
    /// `piece=front`
    pub(super) piece: String,
    /// `line=cut`
    pub(super) line: String,
    /// As it is drawn, mm.
    pub(super) length: f64,
    pub(super) edges: Vec<Start>,
}

/// Where an edge of it starts.
pub(super) struct Start {
    /// `edge=side`
    pub(super) name: String,
    pub(super) start: Point,
    /// Counted from 0; in a spline, the joint.
    pub(super) vertex: usize,
}

/// How long a polyline is, mm: by its vertices, each with the bulge of what follows.
pub(super) fn length(vertices: &[(Point, f64)], closing: Closing) -> f64 {
    let ends = vertices.iter().skip(1).chain(vertices.first().filter(|_| closing == Closing::Closed));
    vertices.iter().zip(ends).map(|((from, bulge), (to, _))| biarc::length(*from, Arc { to: *to, bulge: *bulge })).sum()
}

/// Piece and line with its length, then each edge: its name, where it starts, and at which vertex.
pub(super) fn names(piece: &str, line: &str, length: f64, edges: &[Edge], vertices: &[usize]) -> Names {
    let text = |key: &str, value: &str| shortened(format!("{key}={}", one_line(value)));
    let start = |(edge, vertex): (&Edge, &usize)| Start {
        name: text("edge", &edge.name),
        start: edge.path.start(),
        vertex: *vertex,
    };
    Names {
        piece: text("piece", piece),
        line: text("line", line),
        length,
        edges: edges.iter().zip(vertices).map(start).collect(),
    }
}

/// At most as many bytes as go into the file, where a letter beyond ASCII takes seven.
fn shortened(text: String) -> String {
    let mut bytes = 0;
    let fits = |c: &char| {
        bytes += if c.is_ascii() { 1 } else { 7 };
        bytes <= LONGEST
    };
    text.chars().take_while(fits).collect()
}
