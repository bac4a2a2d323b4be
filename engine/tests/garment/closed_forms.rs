//! Curves against what is known in closed form, over decades of size and tolerance.

use engine::curve::{Path, outward};
use kurbo::{CubicBez, ParamCurve, ParamCurveArea, ParamCurveNearest, PathSeg, Point, QuadBez, Vec2};
use std::f64::consts::PI;

/// The parabola y = a·x² from x = 0 to x = w: one quadratic is exact, and so is its cubic.
fn parabola(a: f64, w: f64) -> Path {
    let q = QuadBez::new((0.0, 0.0), (0.5 * w, 0.0), (w, a * w * w));
    Path::cubic(q.raise())
}

/// Its length from 0 to x: ½·x·√(1 + u²) + asinh(u)/(4a), u = 2ax.
fn parabola_length(a: f64, x: f64) -> f64 {
    let u = 2.0 * a * x;
    0.5 * x * u.hypot(1.0) + u.asinh() / (4.0 * a)
}

/// Widths in mm over seven decades, and steepness at the end from nearly flat to 40 : 1.
fn parabolas() -> impl Iterator<Item = (f64, f64)> {
    (-2..=4).flat_map(|decade| {
        let w = 3.0 * 10f64.powi(decade);
        [0.01, 0.3, 1.0, 4.0, 40.0].into_iter().map(move |steep| (steep / (2.0 * w), w))
    })
}

#[test]
fn a_parabola_has_its_length() {
    for (a, w) in parabolas() {
        let (length, wanted) = (parabola(a, w).length(), parabola_length(a, w));
        // The promised accuracy, and what a sum of some thousand numbers of this size rounds off.
        let allowed = engine::curve::LENGTH_ACCURACY + 1e-12 * wanted;
        assert!((length - wanted).abs() <= allowed, "a = {a}, w = {w}: {length} is not {wanted}");
    }
}

#[test]
fn a_place_along_a_parabola_is_where_it_should_be() {
    for (a, w) in parabolas() {
        let path = parabola(a, w);
        for k in 0..=20 {
            let along = path.length() * f64::from(k) / 20.0;
            let (p, direction) = path.at(along);
            let error = (parabola_length(a, p.x) - along).abs();
            assert!(error <= 1e-6 + 1e-11 * along, "a = {a}, w = {w}: {error} mm off at {along}");
            assert!((p.y - a * p.x * p.x).abs() <= 1e-12 * (1.0 + p.y), "{p:?} is not on the parabola");
            let slope = 2.0 * a * p.x;
            assert!(direction.cross(Vec2::new(1.0, slope).normalize()).abs() < 1e-9, "direction at {p:?}");
        }
    }
}

/// A circle clockwise as seen, of `parts` cubics with handles of 4/3·tan(θ/4) radii.
fn circle(r: f64, parts: u32) -> Path {
    ring(parts, |p| Point::new(r * p.x, r * p.y))
}

/// The same drawn out to an ellipse: an affine map of cubics is exact.
fn ellipse(a: f64, b: f64, parts: u32) -> Path {
    ring(parts, |p| Point::new(a * p.x, b * p.y))
}

fn ring(parts: u32, map: impl Fn(Point) -> Point) -> Path {
    let step = 2.0 * PI / f64::from(parts);
    let handle = 4.0 / 3.0 * (step / 4.0).tan();
    let on = |angle: f64| Vec2::new(angle.cos(), angle.sin());
    let arc = |i: u32| {
        let (u, v) = (f64::from(i) * step, f64::from(i + 1) * step);
        let (p, q) = (on(u), on(v));
        let (s, t) = (Vec2::new(-p.y, p.x) * handle, Vec2::new(-q.y, q.x) * handle);
        let at = |v: Vec2| map(v.to_point());
        PathSeg::Cubic(CubicBez::new(at(p), at(p + s), at(q - t), at(q)))
    };
    Path::new((0..parts).map(arc).collect())
}

/// The radius of such an arc is too great by 0 to 2.73·10⁻⁴ for quarters (Goldapp 1991,
/// "Approximation of circular arcs by cubic polynomials"), falling with the sixth power of the
/// angle; from memory, and measured again here.
fn circle_error(parts: u32) -> f64 {
    2.73e-4 * (4.0 / f64::from(parts)).powi(6)
}

#[test]
fn circles_have_their_length_to_what_their_cubics_can_do() {
    for decade in -1..=4 {
        let r = 2.5 * 10f64.powi(decade);
        for parts in [4, 8, 16, 32, 64] {
            let path = circle(r, parts);
            for s in path.segments() {
                for k in 0..=32 {
                    let off = s.eval(f64::from(k) / 32.0).to_vec2().hypot() / r - 1.0;
                    assert!((-1e-14..=circle_error(parts)).contains(&off), "{parts} arcs: radius {off:e} off");
                }
            }
            let off = path.length() / (2.0 * PI * r) - 1.0;
            let least = -(f64::from(parts) * 1e-7) / (2.0 * PI * r) - 1e-13;
            assert!((least..=circle_error(parts) - least).contains(&off), "{parts} arcs, r = {r}: {off:e}");
        }
    }
}

/// Curves of the kinds that are drafted, and harder ones.
fn samples() -> Vec<(&'static str, CubicBez)> {
    let c = |p: [(f64, f64); 4]| CubicBez::new(p[0], p[1], p[2], p[3]);
    vec![
        ("a hollow", c([(230.0, 190.0), (150.0, 185.0), (45.0, 260.0), (36.0, 340.0)])),
        ("an S", c([(250.0, 200.0), (180.0, 240.0), (200.0, 300.0), (60.0, 330.0)])),
        ("a cusp", c([(0.0, 0.0), (100.0, 100.0), (0.0, 100.0), (100.0, 0.0)])),
        ("a loop", c([(0.0, 0.0), (150.0, 90.0), (-50.0, 90.0), (100.0, 0.0)])),
        ("a lopsided one", c([(0.0, 0.0), (1.0, 0.0), (200.0, 5.0), (200.0, 150.0)])),
        ("a straight one that runs past its end", c([(0.0, 0.0), (90.0, 0.0), (140.0, 0.0), (100.0, 0.0)])),
    ]
}

fn to_polyline(points: &[Point], p: Point) -> f64 {
    let to = |w: &[Point]| {
        let d = w[1] - w[0];
        let t = ((p - w[0]).dot(d) / d.hypot2().max(1e-300)).clamp(0.0, 1.0);
        (w[0] + d * t).distance(p)
    };
    points.windows(2).map(to).fold(f64::INFINITY, f64::min)
}

#[test]
fn a_polyline_keeps_within_its_tolerance_both_ways() {
    for (name, curve) in samples() {
        let path = Path::cubic(curve);
        for decade in 1..=6 {
            let tolerance = 10f64.powi(-decade);
            let points = path.flatten(tolerance);
            assert_eq!((points[0], points[points.len() - 1]), (curve.p0, curve.p3), "{name}");
            // Rounding of coordinates of some hundred mm.
            let allowed = tolerance + 1e-11;
            // From the curve to the polyline, at places that no halving hits.
            for k in 0..=400 {
                let p = curve.eval((f64::from(k) / 400.0).powf(1.01));
                let off = to_polyline(&points, p);
                assert!(off <= allowed, "{name} at {tolerance}: the curve is {off:e} away from the polyline");
            }
            // From the polyline to the curve, on each chord (or on some hundreds of them).
            let every = (points.len() / 300).max(1);
            for w in points.windows(2).step_by(every) {
                for share in [0.0, 0.31, 0.5, 0.77] {
                    let off = PathSeg::Cubic(curve).nearest(w[0].lerp(w[1], share), 1e-9).distance_sq.sqrt();
                    assert!(off <= allowed + 1e-8, "{name} at {tolerance}: the polyline strays by {off:e}");
                }
            }
        }
    }
}

#[test]
fn finer_polylines_have_more_points_but_not_many_more_than_needed() {
    // A chord of a circle of radius r strays by c²/(8r): the number of points rises with the root
    // of the tolerance; three times what is needed is allowed for halving and the hull's bound.
    for decade in 1..=6 {
        let (r, tolerance) = (100.0, 10f64.powi(-decade));
        let points = circle(r, 8).flatten(tolerance).len() as f64;
        let needed = 2.0 * PI * r / (8.0 * r * tolerance).sqrt();
        assert!((needed..=3.0 * needed + 16.0).contains(&points), "{points} points at {tolerance}, {needed} needed");
    }
}

#[test]
fn lines_beside_a_straight_edge_are_straight_and_as_far_away_as_asked() {
    for (a, b) in [((0.0, 0.0), (100.0, 0.0)), ((20.0, 10.0), (-30.0, 95.0)), ((0.0, 0.0), (0.0, 0.02))] {
        let path = Path::line(a.into(), b.into());
        for d in [-12.0, -0.5, 0.0, 1e-3, 7.0, 100.0] {
            let beside = path.offset(d);
            let out = outward(path.start_direction());
            assert!((out.hypot() - 1.0).abs() < 1e-15);
            assert!((beside.start() - path.start() - out * d).hypot() < 1e-12);
            assert!((beside.end() - path.end() - out * d).hypot() < 1e-12);
            assert!((beside.length() - path.length()).abs() < 1e-12);
        }
    }
}

#[test]
fn outside_is_where_the_design_says_it_is() {
    // Clockwise as seen with y down: along the top edge to the right, outside is up.
    assert_eq!(outward(Vec2::new(1.0, 0.0)), Vec2::new(0.0, -1.0));
}

#[test]
fn lines_beside_a_circle_are_circles() {
    for decade in 0..=3 {
        let r = 3.0 * 10f64.powi(decade);
        let path = circle(r, 32);
        for d in [-0.9 * r, -0.2 * r, 0.1 * r, 2.0 * r, 0.01] {
            let beside = path.offset(d);
            let allowed = engine::curve::OFFSET_TOLERANCE + r * circle_error(32);
            for s in beside.segments() {
                for k in 0..=16 {
                    let off = (s.eval(f64::from(k) / 16.0).to_vec2().hypot() - (r + d)).abs();
                    assert!(off <= allowed, "r = {r}, d = {d}: {off:e} off");
                }
            }
            assert!(beside.start().distance(beside.end()) < 1e-6, "r = {r}, d = {d}: not closed");
        }
    }
}

/// Steiner: beside a convex outline of length L and area A, at the distance d, the length is
/// L + 2πd and the area A + Ld + πd².
#[test]
fn convex_outlines_grow_as_steiner_says() {
    for (name, path) in [
        ("circle", circle(80.0, 16)),
        ("ellipse", ellipse(150.0, 70.0, 16)),
        ("narrow ellipse", ellipse(200.0, 40.0, 32)),
    ] {
        let length = path.length();
        let area = area(&path);
        for d in [0.5, 5.0, 12.0, 60.0] {
            let beside = path.offset(d);
            let pieces = beside.segments().len() as f64;
            let more = beside.length() - (length + 2.0 * PI * d);
            // A line within ε of the true one is longer or shorter by at most a few ε per piece.
            let tolerance = engine::curve::OFFSET_TOLERANCE;
            assert!(more.abs() <= tolerance * pieces, "{name} at {d}: the length is {more:e} off");
            let off = area_of(&beside) - (area + length * d + PI * d * d);
            assert!(off.abs() <= tolerance * beside.length(), "{name} at {d}: the area is {off:e} mm² off");
        }
    }
}

fn area_of(path: &Path) -> f64 {
    path.segments().iter().map(PathSeg::signed_area).sum()
}

fn area(path: &Path) -> f64 {
    let area = area_of(path);
    assert!(area > 0.0, "clockwise as seen is positive with y down");
    area
}

#[test]
fn a_polygon_with_mitred_corners_grows_by_its_own_rule() {
    // A rectangle with trued corners: every side longer by 2d, so L + 8d and A + Ld + 4d².
    let (w, h, d) = (120.0, 80.0, 7.0);
    let sides = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h), (0.0, 0.0)].map(Point::from);
    let beside: Vec<Path> = sides.windows(2).map(|s| Path::line(s[0], s[1]).offset(d).extended(d)).collect();
    for (i, side) in beside.iter().enumerate() {
        let next = &beside[(i + 1) % 4];
        assert!(side.end().distance(next.start()) < 1e-12, "corner {i}");
    }
    let area: f64 = beside.iter().map(area_of).sum();
    let length: f64 = beside.iter().map(Path::length).sum();
    assert!((length - (2.0 * (w + h) + 8.0 * d)).abs() < 1e-9);
    assert!((area - (w * h + 2.0 * (w + h) * d + 4.0 * d * d)).abs() < 1e-9);
}

/// Every row of every finish beside a straight edge and beside a ring of radius R, once round and
/// once as a hollow opening: 2π(R ± d), straight edges as they are.
#[test]
fn rows_of_every_finish_on_straight_and_round_edges() {
    use engine::finish::{FinishKind, Settings};
    use engine::sheet::{ClothKind, Opening};
    let settings = [(12.0, 2.0), (8.0, 0.0), (25.0, 0.0)]
        .map(|elastic| Settings::usual(Opening::LeftLeg, ClothKind::Woven, elastic, 12.0, 90.0));
    let (r, parts) = (90.0, 32);
    // What is cubic of a circle of this many arcs, and what an offset adds for each of them.
    let off = circle_error(parts) * 2.0 * PI * r + f64::from(parts) * engine::curve::OFFSET_TOLERANCE;
    let mut compared = 0;
    for (settings, finish) in settings.iter().flat_map(|s| FinishKind::all().map(move |f| (s, f))) {
        let lines = finish.lines(settings);
        let rows = [Some(lines.cut), lines.sewing, lines.second, lines.measured];
        for d in rows.into_iter().flatten() {
            let straight = Path::line(Point::new(0.0, 0.0), Point::new(240.0, 70.0)).offset(d);
            assert!((straight.length() - 250.0).abs() < 1e-9, "{finish:?} at {d}");
            // Clockwise as seen, outward is away from the middle; an opening lies inside its ring.
            let round = circle(r, parts).offset(d).length() - 2.0 * PI * (r + d);
            let hollow = circle(r, parts).reversed().offset(d).length() - 2.0 * PI * (r - d);
            assert!(round.abs() <= off && hollow.abs() <= off, "{finish:?} at {d}: {round:e}, {hollow:e}");
            compared += 1;
        }
    }
    assert!(compared > 70, "only {compared} rows");
}

/// A circle turns by 2π whichever way it is cut up, and an S by what its ends differ.
#[test]
fn a_curve_turns_by_what_its_ends_differ() {
    for parts in [4, 7, 32] {
        // The part between the last arc's end and the first one's start turns by nothing.
        assert!((circle(50.0, parts).turning() + 2.0 * PI).abs() < 1e-9, "clockwise as seen turns to the right");
        assert!((circle(50.0, parts).reversed().turning() - 2.0 * PI).abs() < 1e-9);
    }
    for (name, c) in samples() {
        let path = Path::cubic(c);
        let (a, b) = (path.start_direction(), path.end_direction());
        let ends = (-a.cross(b)).atan2(a.dot(b));
        let whole = (path.turning() - ends) / (2.0 * PI);
        assert!((whole - whole.round()).abs() < 1e-9, "{name}: {} and {ends}", path.turning());
        // Steiner along an open curve: a parallel line is shorter by d times the turning. Not where
        // a curve turns back on the spot.
        let d = 2.0;
        let turns_back = ["a cusp", "a straight one that runs past its end"].contains(&name);
        if !turns_back && path.tightest(d) > 2.0 * d && path.tightest(-d) > 2.0 * d {
            let off = path.offset(d).length() - (path.length() - d * path.turning());
            assert!(off.abs() < 10.0 * engine::curve::OFFSET_TOLERANCE, "{name}: {off:e}");
        }
    }
}
