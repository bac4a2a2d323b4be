//! The same again, mirrored, and larger.

use crate::support::measure::mirror;
use crate::support::numbers::Numbers;
use crate::support::random::{plain, told, turn_knobs};
use crate::support::{elastic_finish, hem, mm, seven};
use engine::garment::{Garment, Outline, Piece};
use engine::sheet::{PerOpening, Sheet};
use engine::terms::Extent;
use kurbo::{PathSeg, Point};

#[test]
fn the_same_sheet_gives_the_same_record() {
    let mut n = Numbers::seeded(7);
    for _ in 0..40 {
        let mut sheet = plain(&mut n);
        turn_knobs(&mut sheet, &mut n);
        let once = format!("{:?}", engine::make(&sheet));
        assert_eq!(once, format!("{:?}", engine::make(&sheet)), "{}", told(&sheet));
        assert_eq!(once, format!("{:?}", engine::make(&sheet.clone())), "{}", told(&sheet));
    }
}

fn rows(p: &Piece) -> [(&'static str, &Outline); 3] {
    [("finished", &p.finished), ("sewing", &p.sewing), ("cut", &p.cut)]
}

fn controls(s: &PathSeg) -> Vec<Point> {
    match s {
        PathSeg::Line(l) => vec![l.p0, l.p1],
        PathSeg::Quad(q) => vec![q.p0, q.p1, q.p2],
        PathSeg::Cubic(c) => vec![c.p0, c.p1, c.p2, c.p3],
    }
}

/// The greatest distance between corresponding control points; none where the curves are built
/// of different parts.
fn apart(a: &[PathSeg], b: &[PathSeg]) -> Option<f64> {
    let (a, b): (Vec<Point>, Vec<Point>) =
        (a.iter().flat_map(controls).collect(), b.iter().flat_map(controls).collect());
    (a.len() == b.len()).then(|| a.iter().zip(&b).map(|(p, q)| p.distance(*q)).fold(0.0, f64::max))
}

fn other_side(name: &str) -> String {
    match name.split_once(' ') {
        Some(("left", rest)) => format!("right {rest}"),
        Some(("right", rest)) => format!("left {rest}"),
        _ => panic!("{name:?} has no side"),
    }
}

#[test]
fn swapped_legs_give_mirrored_pieces() {
    let mut n = Numbers::seeded(11);
    let pairs = [
        (elastic_finish("trim", "soft 8"), elastic_finish("turned", "soft 8")),
        (elastic_finish("trim", "soft 8"), elastic_finish("trim", "soft 10")),
        (elastic_finish("turned", "soft 10"), hem(7.0)),
    ];
    let mut compared = 0;
    for (left, right) in pairs.iter().cycle().take(60) {
        let mut one = plain(&mut n);
        one.finish.left_leg = left.clone();
        one.finish.right_leg = right.clone();
        let mut two = one.clone();
        two.finish = PerOpening { left_leg: right.clone(), right_leg: left.clone(), ..one.finish.clone() };
        match (engine::make(&one), engine::make(&two)) {
            (Ok(a), Ok(b)) => {
                compared += 1;
                mirrored(&a.garment, &b.garment, &one);
            }
            (Err(a), Err(b)) => assert_eq!(a.findings[0].code, b.findings[0].code, "{}", told(&one)),
            (a, b) => panic!("one is made, one is not: {:?} {:?}: {}", a.err(), b.err(), told(&one)),
        }
    }
    assert!(compared >= 50, "only {compared} were made");
}

fn mirrored(a: &Garment, b: &Garment, sheet: &Sheet) {
    for (p, q) in a.pieces.iter().zip(&b.pieces) {
        assert!([p, q].map(|p| p.extent) == [Extent::Full; 2], "different legs need full pieces");
        for ((row, p_row), (_, q_row)) in rows(p).into_iter().zip(rows(q)) {
            for edge in &p_row.edges {
                let name = other_side(edge.id.name());
                let twin = q_row.edges.iter().find(|e| e.id.name() == name).unwrap_or_else(|| panic!("no {name}"));
                let image: Vec<PathSeg> = twin.path.segments().iter().rev().map(|s| mirror(s).reverse()).collect();
                let off = apart(edge.path.segments(), &image);
                assert!(
                    off.is_some_and(|d| d < 1e-9),
                    "{row} {} of the {}: {off:?}, {}",
                    edge.id.name(),
                    p.id.name(),
                    told(sheet)
                );
            }
        }
        assert_eq!(p.notches.len(), q.notches.len(), "{}", p.id.name());
        for notch in &p.notches {
            let image = Point::new(-notch.at.x, notch.at.y);
            assert!(q.notches.iter().any(|m| m.at.distance(image) < 1e-6), "{notch:?} has no mirror image");
        }
    }
    for (x, y) in [(0, 0), (1, 2), (2, 1)] {
        let (x, y) = (&a.openings[x], &b.openings[y]);
        assert!((x.finished - y.finished).abs() < 1e-9 && (x.sewing - y.sewing).abs() < 1e-9);
        let cut = |o: &engine::garment::OpeningWalk| o.elastic.as_ref().map(|e| e.cut_length);
        match (cut(x), cut(y)) {
            (Some(l), Some(m)) => assert!((l - m).abs() < 1e-9, "elastics {l} and {m}"),
            (l, m) => assert_eq!(l, m),
        }
    }
}

/// Every length of a sheet times a factor; what has a default that does not scale is written out.
fn scaled(s: &Sheet, garment: &Garment, k: f64) -> Sheet {
    let mut t = s.clone();
    let by = |l: engine::quantity::Length| mm(l.mm() * k);
    let b = &mut t.body;
    for l in [&mut b.waist_girth, &mut b.hip_girth, &mut b.waist_to_hip, &mut b.crotch_length] {
        *l = by(*l);
    }
    for l in [&mut b.crotch_length_front, &mut b.thigh_girth, &mut b.top_edge_girth, &mut b.leg_line_girth] {
        *l = l.map(by);
    }
    let used = |key: &str| Some(mm(k * seven::used(garment, key)));
    // Estimated by regressions, which have a constant.
    b.waist_breadth = used("body.waist_breadth");
    b.waist_depth = used("body.waist_depth");
    b.hip_breadth = used("body.hip_breadth");
    b.hip_depth = used("body.hip_depth");
    t.gusset.length = used("gusset.length");
    t.gusset.width = used("gusset.width");
    t.gusset.front_width = used("gusset.front_width");
    t.gusset.back_width = used("gusset.back_width");
    t.seams.side = used("seams.side");
    t.seams.gusset = used("seams.gusset");
    let st = &mut t.style;
    for l in [&mut st.top_drop_front, &mut st.top_drop_side, &mut st.top_drop_back, &mut st.side_seam] {
        *l = l.map(by);
    }
    for elastic in t.elastics.values_mut() {
        elastic.width = by(elastic.width);
    }
    t.finish = PerOpening::from_fn(|o| {
        let mut f = s.finish.get(o).clone();
        f.bite = Some(mm(3.0 * k));
        f
    });
    t
}

/// Trim and turned scale with the elastic and the bite; a hem's second distance is a fixed 2 mm.
/// The level-leg rule and the offsets work to fixed tolerances in millimetres, and over a side
/// seam shorter than this the top edge is trued near the corner, by a rule of fixed length.
const TRUED_BELOW: f64 = 60.0;

#[test]
fn a_sheet_of_larger_lengths_gives_the_same_garment_larger() {
    let mut n = Numbers::seeded(13);
    let mut compared = 0;
    for k in [0.75, 0.9, 1.25, 2.0].into_iter().cycle().take(160) {
        let mut sheet = plain(&mut n);
        sheet.finish = PerOpening {
            top: elastic_finish("turned", "soft 12"),
            left_leg: elastic_finish("trim", "soft 8"),
            right_leg: elastic_finish("trim", "soft 8"),
        };
        turn_knobs(&mut sheet, &mut n);
        let Ok(first) = engine::make(&sheet) else { continue };
        // Both through the same way, so that defaults that were written out are written in both.
        let sheet = scaled(&sheet, &first.garment, 1.0);
        let larger = scaled(&sheet, &first.garment, k);
        let (Ok(a), Ok(b)) = (engine::make(&sheet), engine::make(&larger)) else { continue };
        let shortened = |g: &Garment| g.checks.iter().any(|f| f.code == "shape.level_leg");
        let trued = |g: &Garment| g.seams[0].length_a <= TRUED_BELOW;
        if [&a.garment, &b.garment].into_iter().any(|g| shortened(g) || trued(g)) {
            continue;
        }
        compared += 1;
        larger_by(&a.garment, &b.garment, k, &sheet);
    }
    assert!(compared >= 50, "only {compared} were compared");
}

fn larger_by(a: &Garment, b: &Garment, k: f64, sheet: &Sheet) {
    use crate::support::measure::{at_shares, length};
    for (p, q) in a.pieces.iter().zip(&b.pieces) {
        let size = 1000.0 * k;
        for (e, f) in p.finished.edges.iter().zip(&q.finished.edges) {
            let image: Vec<PathSeg> = e.path.map(|p| Point::new(k * p.x, k * p.y)).segments().to_vec();
            let off = apart(&image, f.path.segments());
            assert!(
                off.is_some_and(|d| d <= 1e-6 * size),
                "{} {}: {off:?}, k = {k}, {}",
                p.id.name(),
                e.id.name(),
                told(sheet)
            );
        }
        let tolerance = engine::curve::OFFSET_TOLERANCE * (1.0 + k) + 1e-6 * size;
        for ((row, p_row), (_, q_row)) in rows(p).into_iter().zip(rows(q)).skip(1) {
            for (e, f) in p_row.edges.iter().zip(&q_row.edges) {
                let longer = (k * length(e.path.segments()) - length(f.path.segments())).abs();
                assert!(longer <= 4.0 * tolerance, "{row} {} {}: {longer} mm, k = {k}", p.id.name(), e.id.name());
                let pairs = at_shares(e.path.segments(), 12).into_iter().zip(at_shares(f.path.segments(), 12));
                let off = pairs.map(|(u, v)| (u.to_vec2() * k - v.to_vec2()).hypot()).fold(0.0, f64::max);
                assert!(
                    off <= 4.0 * tolerance,
                    "{row} {} {}: {off} mm, k = {k}, {}",
                    p.id.name(),
                    e.id.name(),
                    told(sheet)
                );
            }
        }
    }
}
