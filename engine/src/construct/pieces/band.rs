//! A band: a strip of the cloth that is doubled lengthwise, its marks on both long edges.

use crate::construct::pieces::extent;
use crate::curve::Path;
use crate::garment::{BandCut, Edge, Notch, Outline, Piece};
use crate::measure::elastic::band_notches;
use crate::plan::FinishPlan;
use kurbo::{Point, Rect, Vec2};

/// The piece of a band. `lengths` are its lengths on the sections of its opening, mm.
pub fn band(finish: &FinishPlan, cut: &BandCut, lengths: &[f64], quantity: u32, material: &str) -> Piece {
    let seam = finish.settings.seam;
    let sewn = Rect::new(-0.5 * cut.length, 0.0, 0.5 * cut.length, 2.0 * cut.width);
    let outer = rectangle(sewn.inflate(seam, seam));
    let (area_mm2, perimeter_mm) = extent(&outer, false);
    let fold = Path::line(Point::new(sewn.x0 - seam, cut.width), Point::new(sewn.x1 + seam, cut.width));
    Piece {
        name: cut.piece.clone(),
        quantity,
        material: material.to_owned(),
        on_fold: false,
        area_mm2,
        perimeter_mm,
        cut: outer,
        sewing: rectangle(sewn),
        finished: rectangle(sewn),
        second_row: Vec::new(),
        folds: vec![Edge { name: "fold".to_owned(), path: fold }],
        notches: notches(&cut.piece, &band_notches(finish, cut, lengths), sewn, seam),
    }
}

/// Clockwise as seen, from the middle of the upper edge.
fn rectangle(r: Rect) -> Outline {
    let (top, bottom) = (Point::new(0.0, r.y0), Point::new(0.0, r.y1));
    let corners = [Point::new(r.x1, r.y0), Point::new(r.x1, r.y1), Point::new(r.x0, r.y1), Point::new(r.x0, r.y0)];
    let places = [top, corners[0], corners[1], bottom, corners[2], corners[3], top];
    let names = ["upper a", "end a", "lower a", "lower b", "end b", "upper b"];
    let edges = names
        .iter()
        .zip(places.windows(2))
        .map(|(name, ends)| Edge { name: (*name).to_owned(), path: Path::line(ends[0], ends[1]) })
        .collect();
    Outline { edges }
}

/// Pairs of notches that lie on each other once the band is doubled.
fn notches(piece: &str, places: &[(String, f64)], sewn: Rect, seam: f64) -> Vec<Notch> {
    let mut all = Vec::new();
    for (place, along) in places {
        let x = sewn.x0 + along;
        let half = if x < 0.0 { "b" } else { "a" };
        let id = |edge: &str| format!("{piece}: {edge} edge, {place}");
        let notch = |edge: &str, other: &str, y: f64, inward: f64| Notch {
            id: id(edge),
            edge: format!("{edge} {half}"),
            at: Point::new(x, y),
            along: along_edge(edge, x, sewn),
            inward: Vec2::new(0.0, inward),
            mate: Some(id(other)),
        };
        all.push(notch("upper", "lower", sewn.y0 - seam, 1.0));
        all.push(notch("lower", "upper", sewn.y1 + seam, -1.0));
    }
    all
}

/// Along the sewing line of the half edge that the place is on, in the outline's direction, mm.
fn along_edge(edge: &str, x: f64, sewn: Rect) -> f64 {
    match (edge, x < 0.0) {
        ("upper", false) => x,
        ("upper", true) => x - sewn.x0,
        (_, false) => sewn.x1 - x,
        (_, true) => -x,
    }
}
