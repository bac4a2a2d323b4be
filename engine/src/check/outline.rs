//! Are the outlines simple, and does the cut line enclose the sewing line?

use super::polygon::{Bands, encloses_all, is_simple, polygon, signed_area};
use super::{Subject, nesting, strip, turn};
use crate::finding::Finding;
use crate::finding::fact::{Fault, OutlineFact};
use crate::garment::{Piece, SeamWalk};

/// Finished, cut and sewing lines do not cross themselves, lie within each other as they should, leave cloth
/// between two openings, and turn no tighter than can be sewn.
pub(super) fn simple(s: &Subject<'_>) -> Vec<Finding> {
    let fault = |piece: &Piece| match simple_lines(piece) {
        Ok((cut, sewing)) => nesting::disordered(s, piece, &cut, &sewing)
            .or_else(|| strip::narrow(s, piece))
            .or_else(|| turn::tight(s, piece)),
        Err(fault) => Some(fault),
    };
    s.garment.pieces.iter().filter_map(fault).map(Finding::from).collect()
}

/// The cut and the sewing line of a piece, where neither they nor the finished edges are tangled.
fn simple_lines(piece: &Piece) -> Result<(Bands, Bands), OutlineFact> {
    let finished = polygon(&piece.finished);
    if finished.iter().all(|p| p.is_finite()) && (signed_area(&finished) <= 0.0 || !is_simple(&finished)) {
        // No finish mends what is drafted so.
        return Err(OutlineFact::EdgesCross { piece: piece.id });
    }
    let faulty = |fault| Err(OutlineFact::NotSimple { piece: piece.id, fault });
    let (cut, sewing) = (polygon(&piece.cut), polygon(&piece.sewing));
    if !finished.iter().chain(&cut).chain(&sewing).all(|p| p.is_finite()) {
        return faulty(Fault::Nowhere);
    }
    if !is_simple(&cut) {
        return faulty(Fault::CutCrossesItself);
    }
    if !is_simple(&sewing) {
        return faulty(Fault::SewingCrossesItself);
    }
    let outer = Bands::of(&cut);
    if signed_area(&cut) <= 0.0 || !encloses_all(&outer, &sewing) {
        return faulty(Fault::SewingLeavesCut);
    }
    Ok((outer, Bands::of(&sewing)))
}

/// Seams fit on the sewing lines: within 0.05 mm.
const SEWN_DIFFERENCE: f64 = 0.05;

/// On the finished edges: within 0.01 mm.
const FINISHED_DIFFERENCE: f64 = 0.01;

/// Seams equal each other, and between the sewing lines too.
pub(super) fn sewn_seams(s: &Subject<'_>) -> Vec<Finding> {
    s.garment.seams.iter().filter_map(unequal).map(Finding::from).collect()
}

fn unequal(seam: &SeamWalk) -> Option<OutlineFact> {
    let (sewn, finished) = ((seam.sewn_a - seam.sewn_b).abs(), seam.difference.abs());
    let (difference, most) =
        if finished > FINISHED_DIFFERENCE { (finished, FINISHED_DIFFERENCE) } else { (sewn, SEWN_DIFFERENCE) };
    (difference > most).then_some(OutlineFact::SeamUnequal { seam: seam.id, difference, most })
}

#[cfg(test)]
mod tests {
    use super::super::polygon::TOLERANCE;
    use super::*;
    use crate::curve::Path;
    use crate::garment::{Edge, Outline};
    use crate::terms::Extent;
    use crate::topology::{BandEdge, EdgeId, Half, OutlineEdge, PieceId, SeamId, Side, Way};
    use kurbo::Point;

    fn outline(corners: &[(f64, f64)]) -> Outline {
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        let edge = |(a, b): (&(f64, f64), &(f64, f64))| Edge {
            id: OutlineEdge::Band(BandEdge::EndA),
            path: Path::line(Point::from(*a), Point::from(*b)),
        };
        Outline { edges: ends.map(edge).collect() }
    }

    fn piece(cut: &[(f64, f64)], sewing: &[(f64, f64)]) -> Piece {
        Piece {
            id: PieceId::Front,
            quantity: 1,
            material: "jersey".to_owned(),
            extent: Extent::Full,
            area_mm2: 0.0,
            perimeter_mm: 0.0,
            cut: outline(cut),
            sewing: outline(sewing),
            finished: outline(&INSIDE),
            second_row: Vec::new(),
            folds: Vec::new(),
            notches: Vec::new(),
        }
    }

    const SQUARE: [(f64, f64); 4] = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)];
    const INSIDE: [(f64, f64); 4] = [(7.0, 7.0), (93.0, 7.0), (93.0, 93.0), (7.0, 93.0)];
    const BOW: [(f64, f64); 4] = [(0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 100.0)];
    const SPIKE: [(f64, f64); 5] = [(0.0, 0.0), (100.0, 0.0), (150.0, 0.0), (100.0, 0.0), (0.0, 100.0)];
    const TOUCH: [(f64, f64); 7] =
        [(0.0, 0.0), (50.0, 40.0), (100.0, 0.0), (100.0, 100.0), (50.0, 40.0), (20.0, 90.0), (0.0, 100.0)];

    fn fault(cut: &[(f64, f64)], sewing: &[(f64, f64)]) -> Option<Fault> {
        match simple_lines(&piece(cut, sewing)) {
            Err(OutlineFact::NotSimple { fault, .. }) => Some(fault),
            _ => None,
        }
    }

    #[test]
    fn a_sound_outline_is_let_through() {
        assert_eq!(fault(&SQUARE, &INSIDE), None);
        // Both lines may run along each other.
        assert_eq!(fault(&SQUARE, &SQUARE), None);
    }

    #[test]
    fn every_fault_is_named() {
        assert_eq!(fault(&BOW, &INSIDE), Some(Fault::CutCrossesItself));
        assert_eq!(fault(&SPIKE, &INSIDE), Some(Fault::CutCrossesItself));
        assert_eq!(fault(&TOUCH, &INSIDE), Some(Fault::CutCrossesItself));
        let bow = BOW.map(|(x, y)| (0.5 * x + 20.0, 0.5 * y + 20.0));
        assert_eq!(fault(&SQUARE, &bow), Some(Fault::SewingCrossesItself));
        for (dx, dy) in [(8.0, 0.0), (0.0, 8.0), (500.0, -500.0)] {
            assert_eq!(fault(&SQUARE, &INSIDE.map(|(x, y)| (x + dx, y + dy))), Some(Fault::SewingLeavesCut));
        }
        // Walked the wrong way round.
        let round = [SQUARE[0], SQUARE[3], SQUARE[2], SQUARE[1]];
        assert_eq!(fault(&round, &INSIDE), Some(Fault::SewingLeavesCut));
        assert_eq!(fault(&[(f64::NAN, 0.0), SQUARE[1], SQUARE[2]], &INSIDE), Some(Fault::Nowhere));
        assert_eq!(fault(&SQUARE, &[INSIDE[0], (f64::INFINITY, 7.0), INSIDE[2]]), Some(Fault::Nowhere));
    }

    /// Every seam of a garment is looked at.
    #[test]
    fn a_garment_with_one_uneven_seam_is_refused() {
        let uneven = |at: usize| super::super::found_on(|_, garment| garment.seams[at].sewn_b += 1.0, sewn_seams);
        for at in 0..6 {
            assert_eq!(uneven(at).iter().map(|f| f.code).collect::<Vec<_>>(), ["seam.unequal"], "{at}");
        }
        assert!(super::super::found_on(|_, _| (), sewn_seams).is_empty());
    }

    #[test]
    fn near_means_two_tolerances() {
        let out_by = |d: f64| fault(&SQUARE, &[(50.0, -d), (93.0, 7.0), (93.0, 93.0), (7.0, 93.0)]);
        assert_eq!(out_by(1.9 * TOLERANCE), None);
        assert!(out_by(2.1 * TOLERANCE).is_some());
    }

    #[test]
    fn a_seam_of_two_lengths_is_refused() {
        let at = |piece, edge| crate::garment::EdgeRef {
            piece,
            edge: OutlineEdge::Half(edge),
            way: Way::Along,
            half: Half::Plus,
        };
        let seam = |b: f64, sewn_b: f64| SeamWalk {
            id: SeamId::Side(Side::Left),
            a: at(PieceId::Front, EdgeId::FrontSide),
            b: at(PieceId::Back, EdgeId::BackSide),
            length_a: 90.0,
            length_b: b,
            difference: 90.0 - b,
            sewn_a: 80.0,
            sewn_b,
        };
        assert!(unequal(&seam(90.009, 80.04)).is_none());
        let limit = |b: f64, sewn_b: f64| match unequal(&seam(b, sewn_b)) {
            Some(OutlineFact::SeamUnequal { most, .. }) => Some(most),
            _ => None,
        };
        assert_eq!(limit(90.02, 80.0), Some(FINISHED_DIFFERENCE));
        assert_eq!(limit(90.0, 79.94), Some(SEWN_DIFFERENCE));
    }
}
