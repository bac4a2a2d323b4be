use super::*;
use crate::outline::joined;
use crate::sample;
use engine::drawing::{Edge, Loop, Role, Vertex};
use engine::lay::{Cloth, Rules, Wanted, Ways, on_cloth};
use kurbo::{Line, ParamCurve, ParamCurveNearest, Point, Rect, Shape};
use std::num::NonZeroU32;

fn laid(cutting: &Cutting) -> Plane {
    lay(&sample::drawing(), cutting, &layered(&sample::drawing(), cutting)).unwrap()
}

fn outlines(plane: &Plane) -> Vec<&Stroke> {
    plane.strokes.iter().filter(|s| s.layer == Layer::Cut).collect()
}

fn area(edges: &[Edge]) -> f64 {
    joined(&Loop { role: Role::Cut, edges: edges.to_vec() }).to_bez_path().area().abs()
}

fn bounds(stroke: &Stroke) -> Rect {
    stroke.edges.iter().map(|e| e.path.bounds()).reduce(|a, b| a.union(b)).unwrap()
}

fn pairs(n: u32) -> Copies {
    Copies::Pairs(NonZeroU32::new(n).unwrap())
}

#[test]
fn marks_inside_a_piece_come_before_its_outline() {
    for extent in [CutExtent::Full, CutExtent::Half] {
        let plane = laid(&Cutting { extent, notches: Notches::Slits, ..Cutting::default() });
        for name in ["front", "gusset"] {
            let own: Vec<Layer> = plane.strokes.iter().filter(|s| s.piece == name).map(|s| s.layer).collect();
            assert_eq!(own.iter().position(|l| *l == Layer::Cut), Some(own.len() - 1), "{own:?}");
            assert!(own.contains(&Layer::Slit) && own.contains(&Layer::Sewing));
        }
        let folds = plane.strokes.iter().filter(|s| s.layer == Layer::Fold).count();
        assert_eq!(folds, usize::from(extent == CutExtent::Half));
    }
}

/// With a length, what has no room comes on a further bed below; what is drawn of one bed is drawn before
/// anything of the next.
#[test]
fn pieces_go_on_as_many_beds_as_they_need() {
    let cutting =
        Cutting { copies: pairs(3), sheet_width: Some(700.0), sheet_length: Some(400.0), ..Cutting::default() };
    let plane = laid(&cutting);
    assert!(plane.beds.len() > 1 && plane.outlines == 9);
    let on = |s: &Stroke| {
        plane.beds.iter().position(|bed| bed.inflate(1e-6, 1e-6).union(bounds(s)) == bed.inflate(1e-6, 1e-6))
    };
    let which: Vec<usize> = outlines(&plane).iter().map(|s| on(s).unwrap()).collect();
    assert!(which.is_sorted() && which.last() == Some(&(plane.beds.len() - 1)), "{which:?}");
    assert!(plane.beds.windows(2).all(|two| two[0].y0 > two[1].y1) && plane.beds.last().unwrap().y0 == 0.0);
    let told: Vec<&str> = plane.words.iter().map(|w| w.text.as_str()).filter(|t| t.starts_with("bed ")).collect();
    assert_eq!(told.len(), plane.beds.len(), "{told:?}");
    let one = laid(&Cutting { sheet_length: Some(20_000.0), ..cutting.clone() });
    let endless = laid(&Cutting { sheet_length: None, ..cutting });
    assert!(one.beds.is_empty() && one.pieces == endless.pieces);
}

/// A corner has no room for a V: its notch is a mark where there are marks, else a slit; none is lost.
#[test]
fn a_notch_without_room_for_a_v_is_cut_where_nothing_is_drawn() {
    let mut drawing = sample::drawing();
    let front = &mut drawing.pieces[0];
    let corners: Vec<Point> =
        front.cut().unwrap().edges.iter().filter(|e| e.start == Vertex::Turn).map(|e| e.path.start()).collect();
    // Off the fold, which a half is whole without.
    let corner =
        corners.into_iter().find(|p| front.mirror.is_none_or(|fold| fold.nearest(*p, 1e-9).distance_sq > 100.0));
    front.notches[0].at = corner.unwrap();
    let on = |lines, layer| {
        let cutting = Cutting { notches: Notches::Vees, lines, ..Cutting::default() };
        let plane = lay(&drawing, &cutting, &[]).unwrap();
        plane.strokes.iter().filter(|s| s.piece == "front" && s.layer == layer).count()
    };
    let marks = on(Lines::All, Layer::Notch);
    assert!(marks > 0 && on(Lines::All, Layer::Slit) == 0);
    assert_eq!((on(Lines::CutAlone, Layer::Slit), on(Lines::CutAlone, Layer::Notch)), (marks, 0));
}

/// For a machine with one tool there is nothing else on the plane, which begins at its corner.
#[test]
fn what_is_cut_can_stand_alone() {
    for (notches, layers) in [(Notches::Marks, &[Layer::Cut][..]), (Notches::Slits, &[Layer::Slit, Layer::Cut])] {
        let cutting = Cutting { lines: Lines::CutAlone, notches, sheet_width: Some(900.0), ..Cutting::default() };
        let plane = lay(&sample::drawing(), &cutting, &[]).unwrap();
        assert!(plane.words.is_empty() && plane.strokes.iter().all(|s| layers.contains(&s.layer)));
        assert_eq!(plane.outlines, 2);
        let all = plane.extents();
        assert!(all.x0.abs() < 1e-9 && all.y0.abs() < 1e-9 && (all.y1 - plane.size.1).abs() < 1e-9, "{all:?}");
    }
}

#[test]
fn pairs_come_by_quantity_and_stay_on_the_sheet() {
    let cutting = Cutting { copies: pairs(3), sheet_width: Some(700.0), ..Cutting::default() };
    let plane = laid(&cutting);
    // One front and two gussets to a pair.
    let count = |name: &str| outlines(&plane).iter().filter(|s| s.piece == name).count();
    assert_eq!((count("front"), count("gusset"), plane.outlines), (3, 6, 9));
    let boxes: Vec<Rect> = outlines(&plane).iter().map(|s| bounds(s)).collect();
    for (i, a) in boxes.iter().enumerate() {
        assert!(a.x0 >= -1e-9 && a.x1 <= 700.0 + 1e-9 && a.y0 >= 0.0 && a.y1 <= plane.size.1 + 1e-9);
        for b in &boxes[..i] {
            assert!(a.intersect(*b).area() == 0.0, "{a:?} {b:?}");
        }
    }
    let refused =
        lay(&sample::drawing(), &Cutting { sheet_width: Some(300.0), ..Cutting::default() }, &[]).unwrap_err();
    assert!(
        refused.to_string().contains("`front`") && refused.to_string().contains("at least), or --halves"),
        "{refused}"
    );
}

#[test]
fn kerf_grows_the_outline_and_keeps_slits_as_deep() {
    for kerf in [0.1, 0.2] {
        let cutting = Cutting { kerf, notches: Notches::Slits, ..Cutting::default() };
        let (plain, grown) = (laid(&Cutting { kerf: 0.0, ..cutting.clone() }), laid(&cutting));
        for (a, b) in outlines(&plain).iter().zip(outlines(&grown)) {
            let (a, b) = (bounds(a), bounds(b));
            // The extreme of a box is a corner here, which a mitre carries a little further out.
            assert!((b.width() - a.width() - kerf).abs() < kerf, "{} {}", a.width(), b.width());
        }
        let slits = |plane: &Plane| -> Vec<f64> {
            let all = plane.strokes.iter().filter(|s| s.layer == Layer::Slit);
            all.map(|s| s.edges[0].path.length()).collect()
        };
        // The beam starts half a kerf outside and stops half a kerf short: as long, further out.
        for (a, b) in slits(&plain).iter().zip(slits(&grown)) {
            assert!((a - b).abs() < 1e-9);
        }
    }
}

#[test]
fn a_vee_takes_its_triangle_from_the_outline() {
    for extent in [CutExtent::Full, CutExtent::Half] {
        let cutting = Cutting { extent, ..Cutting::default() };
        let (plain, cut) = (laid(&cutting), laid(&Cutting { notches: Notches::Vees, ..cutting }));
        for (a, b) in outlines(&plain).iter().zip(outlines(&cut)) {
            let vees = b.edges.iter().filter(|e| e.name.starts_with("notch ")).count();
            // Two sides to a V; a V in the fold has one, the fold ends at its tip.
            let halves = b.edges.iter().filter(|e| e.name == "fold").count();
            let whole = if halves > 0 { (vees - 1) as f64 / 2.0 + 0.5 } else { vees as f64 / 2.0 };
            assert!(vees > 0, "{}", a.piece);
            // Depth 4, mouth 4: 8 mm² each on a straight edge; on a curve a little more or less.
            let lost = area(&a.edges) - area(&b.edges);
            assert!((lost - 8.0 * whole).abs() < 0.2, "{}: {lost} for {vees} sides", a.piece);
            for (e, next) in b.edges.iter().zip(b.edges.iter().cycle().skip(1)) {
                assert!(e.path.end().distance(next.path.start()) < 1e-6, "{} {}", e.name, next.name);
            }
        }
    }
}

#[test]
fn an_outline_can_start_away_from_corners() {
    let cutting = Cutting { start: Start::AwayFromCorners, ..Cutting::default() };
    for (a, b) in outlines(&laid(&Cutting::default())).iter().zip(outlines(&laid(&cutting))) {
        assert!((area(&a.edges) - area(&b.edges)).abs() < 1e-6);
        let first = b.edges[0].path.start();
        assert!(a.edges.iter().all(|e| e.path.start().distance(first) > 20.0));
        assert_eq!(b.edges[0].name, b.edges[b.edges.len() - 1].name);
        assert!(b.edges[b.edges.len() - 1].path.end().distance(first) < 1e-9);
    }
}

#[test]
fn choices_that_make_no_sense_are_refused() {
    let bad = [
        Cutting { tolerance: 0.0, ..Cutting::default() },
        Cutting { tolerance: f64::NAN, ..Cutting::default() },
        Cutting { kerf: -0.1, ..Cutting::default() },
        Cutting { kerf: 12.0, ..Cutting::default() },
        Cutting { sheet_width: Some(f64::INFINITY), ..Cutting::default() },
        Cutting { copies: pairs(100_000), ..Cutting::default() },
    ];
    for cutting in bad {
        let refused = lay(&sample::drawing(), &cutting, &[]).unwrap_err();
        assert!(matches!(refused, CutterError::Option(_)) && refused.to_string().contains("give"), "{refused}");
    }
}

#[test]
fn cautions_stand_on_every_plane() {
    let plane = laid(&Cutting { sheet_width: Some(480.0), ..Cutting::default() });
    let all: String = plane.words.iter().map(|w| format!("{} ", w.text)).collect();
    assert!(all.contains("never PVC") && all.contains("never unattended"), "{all}");
    // Broken so that they stay on the sheet.
    for w in &plane.words {
        assert!(w.at.x + 0.55 * w.size * w.text.chars().count() as f64 <= 481.0, "{}", w.text);
    }
}

/// What the tool runs along stays on the cloth and a gap apart, measured on the strokes of the plane.
#[test]
fn a_lay_keeps_width_and_gap_after_the_kerf() {
    let drawing = sample::drawing();
    for (kerf, gap) in [(0.0, 0.0), (0.15, 1.0), (1.0, 3.0), (3.0, 0.0)] {
        let mut cutting = Cutting { kerf, copies: pairs(2), ..Cutting::default() };
        let taken = taken(&drawing, &cutting).unwrap();
        let both = drawing.pieces.iter().zip(&taken.pieces);
        let wanted: Vec<Wanted<'_>> =
            both.map(|(piece, taken)| Wanted { piece, taken, times: 2 * piece.quantity }).collect();
        let cloth = Cloth { name: "jersey".to_owned(), width: 600.0, ways: Ways::Both };
        let rules = Rules { gap: cutting.gap_of_lay(gap), steps: Some(2_000) };
        cutting.lays = vec![on_cloth(&wanted, cloth, rules, &mut |_| ()).unwrap()];
        let plane = laid(&cutting);
        assert!((plane.size.0 - 600.0).abs() < 1e-9, "{}", plane.size.0);
        let lines: Vec<Vec<Point>> = outlines(&plane).iter().map(|s| chords(s)).collect();
        for (i, one) in lines.iter().enumerate() {
            let is_on = one.iter().all(|p| (-1e-6..=600.0 + 1e-6).contains(&p.x) && p.y >= plane.pieces.y0 - 1e-6);
            assert!(is_on, "kerf {kerf}: outline {i}");
            for other in &lines[..i] {
                let near = apart(one, other).min(apart(other, one));
                assert!(near >= gap.max(0.05), "kerf {kerf}, gap {gap}: {near}");
            }
        }
    }
}

fn chords(stroke: &Stroke) -> Vec<Point> {
    stroke.edges.iter().flat_map(|e| e.path.flatten(0.005)).collect()
}

/// From the corners and middles of one to the sides of another.
fn apart(a: &[Point], b: &[Point]) -> f64 {
    let sides = |p: &[Point]| p.windows(2).map(|w| Line::new(w[0], w[1])).collect::<Vec<_>>();
    let others = sides(b);
    let places = sides(a).into_iter().flat_map(|l| [l.p0, l.eval(0.5)]);
    let near = places.map(|p| others.iter().map(|l| l.nearest(p, 1e-9).distance_sq).fold(f64::INFINITY, f64::min));
    near.fold(f64::INFINITY, f64::min).sqrt()
}
