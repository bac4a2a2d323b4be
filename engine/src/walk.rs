//! Walking: seams against each other, crossings, and openings along their curves.

use crate::curve::Path;
use crate::draft::{Draft, before_washing, washed};
use crate::garment::{
    BandCut, Crossing, EdgeRef, ElasticCut, Mark, OpeningWalk, Outline, Piece, SeamWalk, SectionWalk, Worn,
};
use crate::pieces::{Part, Pieces, Way};
use crate::plan::{ElasticPlan, FinishPlan, Plan};
use crate::rings::{Arc, Ring, Rings, net_edge};
use crate::sheet::{Basis, Opening, PutOn, Section};
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

/// One opening, walked: lengths by section, elastic, and how it is worn.
pub fn opening(
    plan: &Plan,
    draft: &Draft,
    at_rest: &Draft,
    pieces: &[Piece],
    names: &Pieces<'_>,
    rings: &Rings,
    opening: Opening,
) -> OpeningWalk {
    let (finish, ring) = (plan.finish.get(opening), rings.get(opening));
    let path: Vec<EdgeRef> = ring.arcs.iter().map(|a| edge_of(names, a)).collect();
    let reductions = reductions(plan, finish, ring);
    let sections: Vec<SectionWalk> =
        (0..ring.arcs.len()).map(|i| section(pieces, &path[i], ring, i, reductions.as_ref().map(|r| r[i]))).collect();
    let total = |of: fn(&SectionWalk) -> f64| sections.iter().map(of).sum::<f64>();
    let elastic = finish.elastic.as_ref().map(|e| elastic(plan, finish, e, ring, &sections));
    OpeningWalk {
        opening,
        finish: finish.kind.name().to_owned(),
        put_on: finish.put_on,
        finished: total(|s| s.finished),
        sewing: total(|s| s.sewing),
        cut: total(|s| s.cut),
        worn: worn(plan, draft, at_rest, opening, elastic.as_ref()),
        path,
        sections,
        elastic,
        band: None::<BandCut>,
    }
}

fn section(pieces: &[Piece], at: &EdgeRef, ring: &Ring, i: usize, reduction: Option<f64>) -> SectionWalk {
    let arc = &ring.arcs[i];
    SectionWalk {
        name: arc.name.to_owned(),
        from: arc.from.to_owned(),
        to: arc.to.to_owned(),
        finished: on(pieces, at, |p| &p.finished).length(),
        sewing: on(pieces, at, |p| &p.sewing).length(),
        cut: on(pieces, at, |p| &p.cut).length(),
        reduction: reduction.map(|r| 100.0 * r),
        elastic_length: reduction.map(|r| ring.measured[i] * (1.0 - r)),
        stretch: reduction.map(|r| 100.0 * (1.0 / (1.0 - r) - 1.0)),
    }
}

/// The reduction on each arc, as a fraction.
fn reductions(plan: &Plan, finish: &FinishPlan, ring: &Ring) -> Option<Vec<f64>> {
    let elastic = finish.elastic.as_ref()?;
    let total: f64 = ring.measured.iter().sum();
    let over = |length: f64| 1.0 - length / total;
    let all = match elastic.basis {
        Basis::Reduction(r) => r.fraction(),
        Basis::Length(l) => over(l.mm()),
        Basis::Body => plan.body.elastic_top.map_or(0.0, over),
    };
    let of = |name: &str| {
        let section = Section::ALL.iter().find(|(word, _)| *word == name).map(|(_, s)| *s);
        section.and_then(|s| elastic.sections.get(&s).copied()).unwrap_or(all)
    };
    Some(ring.arcs.iter().map(|a| of(a.name)).collect())
}

fn elastic(plan: &Plan, finish: &FinishPlan, e: &ElasticPlan, ring: &Ring, sections: &[SectionWalk]) -> ElasticCut {
    let lengths: Vec<f64> = sections.iter().filter_map(|s| s.elastic_length).collect();
    let finished_length: f64 = lengths.iter().sum();
    let measured: f64 = ring.measured.iter().sum();
    // What a sample says it grows in sewing is left off before.
    let growth = e.elastic.growth.map_or(0.0, |g| g.fraction());
    let before_sewing = finished_length / (1.0 + growth);
    let (more, joining) = match finish.put_on {
        PutOn::Round => {
            (finish.overlap, format!("joined in a ring, ends lapped {:.1} mm, away from the seams", finish.overlap))
        }
        PutOn::Flat => (
            2.0 * plan.seams.side,
            format!(
                "run through both seam allowances of the last side seam, {:.1} mm each, unstretched",
                plan.seams.side
            ),
        ),
    };
    let joining = if growth > 0.0 {
        format!("{joining}; cut {:.1} % short, which it grows in sewing", 100.0 * growth)
    } else {
        joining
    };
    let basis = match e.basis {
        Basis::Reduction(_) => "reduction",
        Basis::Length(_) => "length",
        Basis::Body => "body",
    };
    ElasticCut {
        name: e.name.clone(),
        reduction: 100.0 * (1.0 - finished_length / measured),
        basis: basis.to_owned(),
        finished_length,
        cut_length: before_sewing + more,
        joining,
        marks: marks(ring, &lengths),
    }
}

fn marks(ring: &Ring, lengths: &[f64]) -> Vec<Mark> {
    let before = |list: &[f64], i: usize, share: f64| list[..i].iter().sum::<f64>() + share * list[i];
    ring.marks
        .iter()
        .enumerate()
        .map(|(k, m)| Mark {
            label: (k + 1).to_string(),
            place: m.place.clone(),
            along_elastic: before(lengths, m.arc, m.share),
            along_edge: before(&ring.measured, m.arc, m.share),
        })
        .collect()
}

fn worn(plan: &Plan, draft: &Draft, at_rest: &Draft, opening: Opening, elastic: Option<&ElasticCut>) -> Worn {
    let (girth, girth_source) = worn_girth(plan, at_rest, opening);
    let finished: f64 =
        crate::rings::arcs(opening).iter().map(|a| washed(net_edge(draft, a), &plan.cloth).length()).sum();
    let relaxed = elastic.map_or(finished, |e| e.finished_length.min(finished));
    Worn { girth, girth_source, stretch: 100.0 * (girth / relaxed - 1.0), pressure_kpa: None }
}

/// The body where an edge sits: as measured, else the same draft at zero ease.
fn worn_girth(plan: &Plan, at_rest: &Draft, opening: Opening) -> (f64, String) {
    let given = match opening {
        Opening::Top => (plan.body.top_edge, "top_edge_girth"),
        _ => (plan.body.leg_line, "leg_line_girth"),
    };
    if let (Some(girth), key) = given {
        return (girth, format!("measured: {key}"));
    }
    let (x, y) = before_washing(&plan.cloth);
    let girth = crate::rings::arcs(opening)
        .iter()
        .map(|a| net_edge(at_rest, a).map(|p| kurbo::Point::new(p.x / x, p.y / y)).length())
        .sum();
    (girth, "the same draft at zero ease".to_owned())
}
