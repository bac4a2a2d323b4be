//! A band: a strip of the cloth that is doubled lengthwise, its marks on both long edges.

use crate::construct::pieces::unfolded;
use crate::curve::Path;
use crate::elastic::BandCut;
use crate::garment::{Edge, Notch, Outline, Piece};
use crate::plan::FinishPlan;
use crate::terms::Extent;
use crate::topology::{BandEdge, LongEdge, MarkPlace, NotchId, OutlineEdge, PieceId};
use kurbo::{Point, Rect, Vec2};

/// The piece of a band. `marks` are its marks, each with its distance from the band's first end, mm.
pub fn band(finish: &FinishPlan, cut: &BandCut, marks: &[(MarkPlace, f64)], material: &str) -> Piece {
    let seam = finish.settings.seam;
    let sewn = Rect::new(-0.5 * cut.length, 0.0, 0.5 * cut.length, 2.0 * cut.width);
    let outer = rectangle(sewn.inflate(seam, seam));
    let (area_mm2, perimeter_mm) = unfolded(&outer, Extent::Full);
    let fold = Path::line(Point::new(sewn.x0 - seam, cut.width), Point::new(sewn.x1 + seam, cut.width));
    Piece {
        id: cut.piece,
        quantity: 1,
        material: material.to_owned(),
        extent: Extent::Full,
        area_mm2,
        perimeter_mm,
        cut: outer,
        sewing: rectangle(sewn),
        finished: rectangle(sewn),
        second_row: Vec::new(),
        folds: vec![Edge { id: OutlineEdge::Band(BandEdge::Fold), path: fold }],
        notches: notches(cut.piece, marks, sewn, seam),
    }
}

/// Clockwise as seen, from the middle of the upper edge.
fn rectangle(r: Rect) -> Outline {
    let (top, bottom) = (Point::new(0.0, r.y0), Point::new(0.0, r.y1));
    let corners = [Point::new(r.x1, r.y0), Point::new(r.x1, r.y1), Point::new(r.x0, r.y1), Point::new(r.x0, r.y0)];
    let places = [top, corners[0], corners[1], bottom, corners[2], corners[3], top];
    let edges = BandEdge::OUTLINE
        .iter()
        .zip(places.windows(2))
        .map(|(edge, ends)| Edge { id: OutlineEdge::Band(*edge), path: Path::line(ends[0], ends[1]) })
        .collect();
    Outline { edges }
}

/// Pairs of notches that lie on each other once the band is doubled.
fn notches(piece: PieceId, places: &[(MarkPlace, f64)], sewn: Rect, seam: f64) -> Vec<Notch> {
    let notch = |edge: LongEdge, place: MarkPlace, along: f64| {
        let x = sewn.x0 + along;
        let id = |edge| NotchId::Band { piece, edge, place };
        let (y, inward) = match edge {
            LongEdge::Upper => (sewn.y0 - seam, 1.0),
            LongEdge::Lower => (sewn.y1 + seam, -1.0),
        };
        let [a, b] = edge.halves();
        Notch {
            id: id(edge),
            edge: OutlineEdge::Band(if x < 0.0 { b } else { a }),
            at: Point::new(x, y),
            along: along_edge(edge, x, sewn),
            inward: Vec2::new(0.0, inward),
            to_stitches: seam,
            mate: Some(id(edge.other())),
        }
    };
    let pair = |(place, along): &(MarkPlace, f64)| [LongEdge::Upper, LongEdge::Lower].map(|e| notch(e, *place, *along));
    places.iter().flat_map(pair).collect()
}

/// Along the sewing line of the half edge that the place is on, in the outline's direction, mm.
fn along_edge(edge: LongEdge, x: f64, sewn: Rect) -> f64 {
    match (edge, x < 0.0) {
        (LongEdge::Upper, false) => x,
        (LongEdge::Upper, true) => x - sewn.x0,
        (LongEdge::Lower, false) => sewn.x1 - x,
        (LongEdge::Lower, true) => -x,
    }
}
