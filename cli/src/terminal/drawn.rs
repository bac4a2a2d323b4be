//! What was measured on a file that was drawn already.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{heading, wrapped};
use engine::words::number::{fixed, percent};
use export::read::{Found, Outlines, SeamLengths, Walked};

/// Seams, openings, bands, every edge, and what was left out.
pub fn render(found: &Outlines, walked: &Walked) -> String {
    [seams(found, walked), openings(walked), bands(walked), edges(found), notes(found)].concat().trim_start().to_owned()
}

/// How an edge's ends were found, in words.
pub const fn how(found: Found) -> &'static str {
    match found {
        Found::Name => "by name",
        Found::NearestTurn => "edited: by name, at the nearest turn point",
        Found::Vertex => "edited: by name, at the vertex it had",
        Found::TurnPoints => "between turn points",
    }
}

fn seams(found: &Outlines, walked: &Walked) -> String {
    if walked.seams.is_empty() {
        let names = found.lines.iter().flat_map(|l| &l.edges).any(|e| e.found != Found::TurnPoints);
        let text = if names {
            "None of the seams can be measured against each other."
        } else {
            "The file names no edges, so that no seam can be measured against another."
        };
        return format!("{text}\n");
    }
    // Cut lines differ by their allowances, which says nothing of the seam.
    let is_sewn = walked.seams.iter().any(SeamLengths::is_sewn);
    let columns = [("seam", Left), ("line", Left), ("a", Left), ("b", Left), ("a mm", Right), ("b mm", Right)];
    let difference = is_sewn.then_some(("a - b mm", Right));
    let mut table = Columns::new(&columns.into_iter().chain(difference).collect::<Vec<_>>());
    for s in &walked.seams {
        let difference = is_sewn.then_some(s.length_a - s.length_b);
        let lengths = [s.length_a, s.length_b].into_iter().chain(difference).map(|mm| fixed(mm, 3));
        table.line([&s.name, &s.line, &s.a, &s.b].map(Clone::clone).into_iter().chain(lengths));
    }
    heading("Seams, both sides") + &table.text()
}

fn openings(walked: &Walked) -> String {
    let mut table = Columns::new(&[("opening", Left), ("line", Left), ("whole ring mm", Right)]);
    for o in &walked.openings {
        table.line([o.name.clone(), o.line.clone(), fixed(o.length, 3)]);
    }
    if walked.openings.is_empty() { String::new() } else { heading("Openings, along the curve") + &table.text() }
}

fn bands(walked: &Walked) -> String {
    let mut table = Columns::new(&[
        ("band", Left),
        ("goes on", Left),
        ("upper mm", Right),
        ("lower mm", Right),
        ("opening mm", Right),
        ("shorter by", Right),
    ]);
    for b in &walked.bands {
        let lengths = [b.upper, b.lower, b.ring].map(|mm| fixed(mm, 3));
        let names = [b.band.clone(), b.opening.clone()];
        table.line(names.into_iter().chain(lengths).chain([percent(b.reduction())]));
    }
    if walked.bands.is_empty() {
        return String::new();
    }
    heading("Bands against their openings, sewing lines") + &table.text()
}

fn edges(found: &Outlines) -> String {
    let mut table =
        Columns::new(&[("piece", Left), ("line", Left), ("edge", Left), ("mm", Right), ("ends found", Left)]);
    for l in &found.lines {
        for e in &l.edges {
            table.line([l.piece.clone(), l.line.clone(), e.name.clone(), fixed(e.length, 3), how(e.found).to_owned()]);
        }
    }
    heading("Edges") + &table.text()
}

fn notes(found: &Outlines) -> String {
    found.notes.iter().map(|n| format!("  note: {}\n", wrapped(n, 8))).collect()
}
