//! Walking: seams against each other, crossings, and openings along their curves.

use crate::construct::pieces::{Part, Pieces, Way};
use crate::construct::rings::{Arc, Ring, Rings};
use crate::curve::Path;
use crate::draft::Draft;
use crate::garment::{Crossing, EdgeRef, OpeningWalk, Outline, Piece, SeamWalk, SectionWalk};
use crate::measure::{elastic, worn};
use crate::plan::Plan;
use crate::terms::Opening;
use kurbo::Vec2;

/// The curve of an edge, read as the reference says.
pub fn resolve(outline: &Outline, at: &EdgeRef) -> Path {
    let Some(edge) = outline.edges.iter().find(|e| e.name == at.edge) else { return Path::default() };
    let path = if at.mirrored { edge.path.mirrored() } else { edge.path.clone() };
    if at.reverse { path.reversed() } else { path }
}

fn on<'a>(pieces: &'a [Piece], at: &EdgeRef, row: impl Fn(&'a Piece) -> &'a Outline) -> Path {
    pieces.iter().find(|p| p.name == at.piece).map_or_else(Path::default, |p| resolve(row(p), at))
}

/// Every seam, left and right.
pub fn seams(pieces: &[Piece], names: &Pieces<'_>) -> Vec<SeamWalk> {
    let legs = [(Opening::LeftLeg, "left"), (Opening::RightLeg, "right")];
    let kinds = [
        ("side", Part::Front, Part::Back),
        ("front gusset", Part::Front, Part::Gusset),
        ("back gusset", Part::Back, Part::Gusset),
    ];
    kinds
        .iter()
        .flat_map(|(edge, a, b)| legs.iter().map(move |(leg, word)| (*edge, *a, *b, *leg, *word)))
        .map(|(edge, a, b, leg, word)| {
            let name = if edge == "side" { format!("{word} side seam") } else { format!("{edge} seam, {word}") };
            // Side seams run down, gusset seams from the leg to the centre, on both pieces.
            let a = names.edge(a, a.half(leg), edge, Way::Along);
            let b = names.edge(b, b.half(leg), edge, if edge == "front gusset" { Way::Back } else { Way::Along });
            walk_seam(pieces, name, a, b)
        })
        .collect()
}

fn walk_seam(pieces: &[Piece], name: String, a: EdgeRef, b: EdgeRef) -> SeamWalk {
    let finished = |at: &EdgeRef| on(pieces, at, |p| &p.finished).length();
    let sewn = |at: &EdgeRef| on(pieces, at, |p| &p.sewing).length();
    let (length_a, length_b) = (finished(&a), finished(&b));
    SeamWalk { name, length_a, length_b, difference: length_a - length_b, sewn_a: sewn(&a), sewn_b: sewn(&b), a, b }
}

/// Every place where an opening crosses a seam, with the sum of the interior angles.
pub fn crossings(pieces: &[Piece], seams: &[SeamWalk], rings: &Rings, names: &Pieces<'_>) -> Vec<Crossing> {
    let mut found = Vec::new();
    for opening in Opening::ALL {
        let arcs = &rings.get(opening).arcs;
        for (i, arc) in arcs.iter().enumerate() {
            let next = arcs[(i + 1) % arcs.len()];
            if let Some(seam) = seam_name(opening, arc.to) {
                let (a, b) = (edge_of(names, arc), edge_of(names, &next));
                let angle = angle(pieces, seams, &seam, &a, &b);
                found.push(Crossing { opening, seam, a, b, angle });
            }
        }
    }
    found
}

fn edge_of(names: &Pieces<'_>, arc: &Arc) -> EdgeRef {
    names.edge(arc.part, arc.half, arc.edge, arc.way)
}

fn seam_name(opening: Opening, place: &str) -> Option<String> {
    let side = match opening {
        Opening::Top => return place.ends_with("side seam").then(|| place.to_owned()),
        Opening::LeftLeg => "left",
        Opening::RightLeg => "right",
    };
    Some(if place == "side seam" { format!("{side} side seam") } else { format!("{place}, {side}") })
}

/// Both interior angles at a crossing, added up, degrees.
fn angle(pieces: &[Piece], seams: &[SeamWalk], seam: &str, a: &EdgeRef, b: &EdgeRef) -> f64 {
    let Some(seam) = seams.iter().find(|s| s.name == seam) else { return f64::NAN };
    [(a, End::Finish), (b, End::Start)]
        .into_iter()
        .map(|(edge, end)| {
            let side = if seam.a.piece == edge.piece { &seam.a } else { &seam.b };
            let opening = on(pieces, edge, |p| &p.finished);
            let seam = on(pieces, side, |p| &p.finished);
            interior(&opening, end, &seam)
        })
        .sum()
}

/// Which end of the opening's edge lies on the seam.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Start,
    Finish,
}

/// The angle between an edge and a seam, both walked away from their common corner, degrees.
fn interior(opening: &Path, end: End, seam: &Path) -> f64 {
    let (corner, away) = match end {
        End::Start => (opening.start(), opening.start_direction()),
        End::Finish => (opening.end(), -opening.end_direction()),
    };
    let along: Vec2 = if seam.start().distance(corner) <= seam.end().distance(corner) {
        seam.start_direction()
    } else {
        -seam.end_direction()
    };
    away.cross(along).abs().atan2(away.dot(along)).to_degrees()
}

/// One opening, walked: lengths by section, elastic or band, and how it is worn.
pub fn opening(
    plan: &Plan,
    (draft, at_rest): (&Draft, &Draft),
    pieces: &[Piece],
    names: &Pieces<'_>,
    rings: &Rings,
    opening: Opening,
) -> OpeningWalk {
    let (finish, ring) = (plan.finish.get(opening), rings.get(opening));
    let path: Vec<EdgeRef> = ring.arcs.iter().map(|a| edge_of(names, a)).collect();
    let lengths = elastic::lengths(plan, finish, ring);
    let sections: Vec<SectionWalk> =
        (0..ring.arcs.len()).map(|i| section(pieces, &path[i], ring, i, lengths.as_ref().map(|l| l[i]))).collect();
    let total = |of: fn(&SectionWalk) -> f64| sections.iter().map(of).sum::<f64>();
    let elastic = lengths.as_ref().and_then(|l| elastic::cut(plan, finish, ring, l));
    let band = lengths.as_ref().and_then(|l| elastic::band(plan, finish, ring, l));
    OpeningWalk {
        opening,
        finish: finish.kind.name().to_owned(),
        put_on: finish.put_on,
        finished: total(|s| s.finished),
        sewing: total(|s| s.sewing),
        cut: total(|s| s.cut),
        worn: worn::worn(plan, (draft, at_rest), opening, lengths.map(|l| l.iter().sum::<f64>() / ring.total())),
        path,
        sections,
        elastic,
        band,
    }
}

fn section(pieces: &[Piece], at: &EdgeRef, ring: &Ring, i: usize, length: Option<f64>) -> SectionWalk {
    let (arc, line) = (&ring.arcs[i], ring.measured[i]);
    SectionWalk {
        name: arc.name.to_owned(),
        from: arc.from.to_owned(),
        to: arc.to.to_owned(),
        finished: on(pieces, at, |p| &p.finished).length(),
        sewing: on(pieces, at, |p| &p.sewing).length(),
        cut: on(pieces, at, |p| &p.cut).length(),
        reduction: length.map(|l| 100.0 * (1.0 - l / line)),
        elastic_length: length,
        stretch: length.map(|l| 100.0 * (line / l - 1.0)),
    }
}
