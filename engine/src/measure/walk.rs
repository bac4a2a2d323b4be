//! Walking: seams against each other, crossings, and openings along their curves.

use crate::construct::pieces::Pieces;
use crate::construct::ring::{Ring, Rings};
use crate::curve::Path;
use crate::curve::float;
use crate::draft::Draft;
use crate::garment::{Crossing, EdgeRef, Gap, OpeningWalk, Outline, Piece, SeamWalk, SectionWalk};
use crate::measure::{elastic, worn};
use crate::plan::Plan;
use crate::terms::Opening;
use crate::topology::{CrossingId, End, Fault, PairArc, PairJunction, Side, Spot, Way};
use kurbo::Vec2;

/// The curve that a reference means, in one row of the pieces.
fn on<'a>(pieces: &'a [Piece], at: &EdgeRef, row: impl Fn(&'a Piece) -> &'a Outline) -> Result<Path, Fault> {
    let piece = pieces.iter().find(|p| p.id == at.piece).ok_or_else(|| at.not_drawn())?;
    at.path(row(piece))
}

/// Every seam, left and right.
///
/// # Errors
/// Where a side of a seam is not there.
pub(crate) fn seams(pieces: &[Piece], names: &Pieces<'_>) -> Result<Vec<SeamWalk>, Fault> {
    let seams = names.topology().seams.iter();
    seams
        .flat_map(|seam| Side::ALL.map(|side| (seam, side)))
        .map(|(seam, side)| {
            let [a, b] = seam.runs.map(|run| names.edge(&run, side));
            let length = |at: &EdgeRef, row: fn(&Piece) -> &Outline| Ok(on(pieces, at, row)?.length());
            let (length_a, length_b) = (length(&a, |p| &p.finished)?, length(&b, |p| &p.finished)?);
            let (sewn_a, sewn_b) = (length(&a, |p| &p.sewing)?, length(&b, |p| &p.sewing)?);
            let difference = length_a - length_b;
            Ok(SeamWalk { id: seam.id.on(side), a, b, length_a, length_b, difference, sewn_a, sewn_b })
        })
        .collect()
}

/// Every place where an opening crosses a seam, with the sum of the interior angles.
///
/// # Errors
/// Where an edge is not there.
pub(crate) fn crossings(pieces: &[Piece], rings: &Rings, names: &Pieces<'_>) -> Result<Vec<Crossing>, Fault> {
    let mut found = Vec::new();
    for opening in Opening::ALL {
        let arcs = rings.get(opening).arcs;
        for (arc, next) in arcs.iter().zip(arcs.iter().cycle().skip(1)) {
            let PairJunction::Seam(line, side) = arc.to else { continue };
            let (end, start) = (arc.spot.way.last(), next.spot.way.last().other());
            let angle = interior(pieces, names, arc, end)? + interior(pieces, names, next, start)?;
            let id = CrossingId { opening, seam: line.on(side) };
            found.push(Crossing { id, a: edge_of(names, arc), b: edge_of(names, next), angle });
        }
    }
    Ok(found)
}

fn edge_of(names: &Pieces<'_>, arc: &PairArc) -> EdgeRef {
    names.edge(&arc.spot, arc.section.side)
}

/// The angle between an opening's edge and the seam at one of its ends, inside the piece, degrees.
fn interior(pieces: &[Piece], names: &Pieces<'_>, arc: &PairArc, end: End) -> Result<f64, Fault> {
    let (piece, side) = (arc.spot.piece, arc.section.side);
    let no_seam = || Fault::RingBroken(format!("{:?}", arc.spot.edge));
    let at = piece.beyond(arc.spot.at, end).ok_or_else(no_seam)?;
    let (edge, _) = piece.edges.get(at).ok_or_else(no_seam)?;
    // Both are walked away from their common corner.
    let away = |spot: Spot<_, _, _>, corner: End| {
        let path = on(pieces, &names.edge(&Spot { way: Way::from(corner), ..spot }, side), |p| &p.finished)?;
        Ok::<Vec2, Fault>(path.start_direction())
    };
    let opening = away(arc.spot, end)?;
    let seam = away(Spot { piece, at, edge: *edge, way: Way::Along }, end.other())?;
    Ok(float::atan2(opening.cross(seam).abs(), opening.dot(seam)).to_degrees())
}

/// One opening, walked: lengths by section, elastic or band, and how it is worn.
///
/// # Errors
/// Where an edge is not there.
pub(crate) fn opening(
    plan: &Plan,
    (draft, at_rest): (&Draft, &Draft),
    pieces: &[Piece],
    names: &Pieces<'_>,
    rings: &Rings,
    opening: Opening,
) -> Result<OpeningWalk, Fault> {
    let (finish, ring) = (plan.finish.get(opening), rings.get(opening));
    let path: Vec<EdgeRef> = ring.arcs.iter().map(|a| edge_of(names, a)).collect();
    let lengths = &ring.lengths;
    let sections: Vec<SectionWalk> = path
        .iter()
        .enumerate()
        .map(|(i, at)| section(pieces, at, ring, i, lengths.as_ref().map(|l| (l[i], elastic::growth(finish)))))
        .collect::<Result<_, _>>()?;
    let total = |of: fn(&SectionWalk) -> f64| sections.iter().map(of).sum::<f64>();
    let elastic = lengths.as_ref().and_then(|l| elastic::cut(plan, finish, ring, l));
    let band = lengths.as_ref().and_then(|l| elastic::band(plan, finish, ring, l));
    let drawn_in = lengths.as_ref().map(|l| l.iter().sum::<f64>() / ring.total());
    Ok(OpeningWalk {
        opening,
        finish: finish.kind,
        put_on: finish.put_on,
        finished: total(|s| s.finished),
        sewing: total(|s| s.sewing),
        cut: total(|s| s.cut),
        worn: worn::worn(plan, (draft, at_rest), opening, ring.arcs, drawn_in),
        path,
        sections,
        elastic,
        band,
        gap: ring.gap.map(|length| Gap { length, at: elastic::meets(finish) }),
    })
}

/// One section, with how long what is put on is there after sewing, and by what share it grows in it.
fn section(
    pieces: &[Piece],
    at: &EdgeRef,
    ring: &Ring,
    i: usize,
    put_on: Option<(f64, f64)>,
) -> Result<SectionWalk, Fault> {
    let (arc, line) = (&ring.arcs[i], ring.measured[i]);
    Ok(SectionWalk {
        id: arc.section,
        from: arc.from,
        to: arc.to,
        finished: on(pieces, at, |p| &p.finished)?.length(),
        sewing: on(pieces, at, |p| &p.sewing)?.length(),
        cut: on(pieces, at, |p| &p.cut)?.length(),
        reduction: put_on.map(|(l, _)| 100.0 * (1.0 - l / line)),
        elastic_length: put_on.map(|(l, _)| l),
        // It is shorter by its growth while the needle is at it.
        stretch: put_on.map(|(l, growth)| 100.0 * (line * (1.0 + growth) / l - 1.0)),
    })
}

#[cfg(test)]
mod tests {
    use crate::base::Base;
    use crate::quantity::Ratio;
    use crate::sheet::Basis;
    use crate::support;
    use crate::terms::Opening;

    /// Between two marks, what is there of the elastic has to reach over what is there of the line.
    #[test]
    fn what_grows_in_sewing_is_stretched_further() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.finish.top.basis = Some(Basis::Reduction(Ratio::from_percent(8.0)));
        sheet.elastics.values_mut().for_each(|elastic| elastic.growth = Some(Ratio::from_percent(4.0)));
        let garment = crate::record(&sheet).unwrap();
        let walk = garment.openings.iter().find(|walk| walk.opening == Opening::Top).unwrap();
        let marks = &walk.elastic.as_ref().unwrap().marks;
        let (first, second) = (&marks[0], &marks[1]);
        let reaches = (second.along_edge - first.along_edge) / (second.along_elastic - first.along_elastic);
        let told = 1.0 + walk.sections[0].stretch.unwrap() / 100.0;
        assert!((told - 1.04 / 0.92).abs() < 1e-9 && (reaches - told).abs() < 1e-6, "{reaches} and {told}");
    }

    /// A fifth shorter than its line, an elastic is stretched by a quarter on every part of it, and draws the
    /// opening in by a fifth (1/0.8, worked out).
    #[test]
    fn an_elastic_a_fifth_shorter_is_stretched_by_a_quarter() {
        let top = |percent: f64| {
            let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
            sheet.finish.top.basis = Some(Basis::Reduction(Ratio::from_percent(percent)));
            let garment = crate::record(&sheet).unwrap();
            garment.openings.into_iter().find(|walk| walk.opening == Opening::Top).unwrap()
        };
        let near = |a: Option<f64>, b: f64| (a.unwrap() - b).abs() < 1e-9;
        let (short, even) = (top(20.0), top(0.0));
        for section in &short.sections {
            assert!(near(section.reduction, 20.0) && near(section.stretch, 25.0), "{section:?}");
        }
        assert!(even.sections.iter().all(|s| near(s.reduction, 0.0) && near(s.stretch, 0.0)));
        assert!(near(Some(short.worn.relaxed / even.worn.relaxed), 0.8), "{:?}", short.worn);
    }
}
