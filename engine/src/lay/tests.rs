//! Lays measured by their outlines, and the sums of polygons against what they stand for.

use super::minkowski::{Corner, sum, turned};
use super::proof::{self, Outline};
use super::*;
use crate::base::Base;
use crate::check::polygon::{self, Bands, Place as Where};
use crate::make;
use crate::support;
use kurbo::Point;
use proptest::prelude::*;

/// A star: corners at these distances from the origin, in equal angles; simple, with hollow corners.
fn star(reach: &[u16]) -> Vec<Corner> {
    let part = std::f64::consts::TAU / reach.len() as f64;
    let corner = |(i, r): (usize, &u16)| {
        let (sin, cos) = (i as f64 * part).sin_cos();
        Corner::new((f64::from(*r) * cos).round() as i32, (f64::from(*r) * sin).round() as i32)
    };
    reach.iter().enumerate().map(corner).collect()
}

fn points(polygon: &[Corner], by: (i32, i32)) -> Vec<Point> {
    polygon.iter().map(|c| Point::new(f64::from(c.x + by.0), f64::from(c.y + by.1))).collect()
}

/// Do two polygons have a point in common? Told by their sides and corners alone.
fn meet(a: &[Point], b: &[Point]) -> bool {
    let sides =
        |p: &[Point]| -> Vec<(Point, Point)> { p.iter().copied().zip(p.iter().copied().cycle().skip(1)).collect() };
    let others = sides(b);
    let inside = |p: Point, of: &[Point]| Bands::of(of).place(p) == Where::Inside;
    sides(a).iter().any(|s| others.iter().any(|t| polygon::cross(*s, *t))) || inside(a[0], b) || inside(b[0], a)
}

proptest! {
    /// A polygon meets another, moved, exactly where the way it was moved is in the sum of the one
    /// and the other turned. The sum has no holes: where it does not meet, it is shut in all round.
    #[test]
    fn polygons_meet_where_their_sum_says(
        a in prop::collection::vec(200_u16..3000, 4..14),
        b in prop::collection::vec(200_u16..3000, 4..14),
        by in (-5000..5000, -5000..5000),
    ) {
        let (a, b) = (star(&a), star(&b));
        let outer = points(&sum(&a, &turned(&b)), (0, 0));
        let bands = Bands::of(&outer);
        let there = |d: (i32, i32)| bands.place(Point::new(f64::from(by.0 + d.0), f64::from(by.1 + d.1)));
        let meeting = |d: (i32, i32)| meet(&points(&a, (0, 0)), &points(&b, (by.0 + d.0, by.1 + d.1)));
        // Sides are cut at whole numbers, so that the boundary is a little off.
        let all_round = [(0, 0), (3, 0), (-3, 0), (0, 3), (0, -3)];
        if all_round.into_iter().all(|d| there(d) == Where::Outside) {
            prop_assert!(!meeting((0, 0)));
        }
        if all_round.into_iter().all(|d| there(d) == Where::Inside) && !meeting((0, 0)) {
            for way in [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)] {
                prop_assert!((0..500).any(|k| meeting((20 * k * way.0, 20 * k * way.1))), "{way:?} is free");
            }
        }
    }

    /// Of convex polygons the sum has the area that Minkowski's mixed areas give: a square grown by
    /// another has the square of the sum of their sides.
    #[test]
    fn squares_add_up(a in 1..4000_i32, b in 1..4000_i32) {
        let square = |side: i32| {
            [(0, 0), (side, 0), (side, side), (0, side)].map(|(x, y)| Corner::new(x, y)).to_vec()
        };
        let whole = points(&sum(&square(a), &square(b)), (0, 0));
        prop_assert_eq!(polygon::signed_area(&whole), f64::from(a + b).powi(2));
    }
}

fn made(base: &str) -> crate::Made {
    let mut sheet = support::sheet(&support::ordinary(), Base::named(base).unwrap());
    sheet.finish.top = support::finish("band", "");
    make(&sheet).unwrap()
}

fn cloth(width: f64, ways: Ways) -> Cloth {
    Cloth { name: "jersey".to_owned(), width, ways }
}

fn few(steps: u64) -> Rules {
    Rules { steps: Some(steps), ..Rules::default() }
}

fn lay(made: &crate::Made, pairs: u32, cloth: Cloth, rules: Rules) -> Result<Lay, LayError> {
    let wanted: Vec<Wanted<'_>> =
        made.drawing.pieces.iter().map(|piece| Wanted { piece, taken: piece, times: pairs * piece.quantity }).collect();
    on_cloth(&wanted, cloth, rules, &mut |_| ())
}

#[test]
fn the_same_lay_every_time_and_none_longer_for_more_steps() {
    let made = made("hipster");
    let mut last = f64::INFINITY;
    for steps in [1, 1_000, 4_000] {
        let one = lay(&made, 2, cloth(900.0, Ways::Both), few(steps)).unwrap();
        assert_eq!(one, lay(&made, 2, cloth(900.0, Ways::Both), few(steps)).unwrap());
        assert!(one.length <= last, "{steps}: {} after {last}", one.length);
        last = one.length;
    }
    // By boxes, each as wide and as high as its piece, they cannot fill more than all of the cloth.
    let boxes: f64 = made.drawing.pieces.iter().map(|p| p.unfolded().bounds().area() * f64::from(p.quantity)).sum();
    assert!(last < 1.15 * 2.0 * boxes / 900.0, "{last} mm; the boxes alone fill {}", 2.0 * boxes / 900.0);
}

#[test]
fn a_nap_keeps_all_pieces_the_same_way_round() {
    let made = made("brief");
    let both = lay(&made, 2, cloth(900.0, Ways::Both), few(4_000)).unwrap();
    let one = lay(&made, 2, cloth(900.0, Ways::One), few(4_000)).unwrap();
    assert!(both.is_any_turned() && !one.is_any_turned());
    assert!(one.length > both.length);
}

#[test]
fn what_is_wider_than_the_cloth_is_named() {
    let made = made("brief");
    let refused = lay(&made, 1, cloth(300.0, Ways::Both), few(10)).unwrap_err();
    assert!(matches!(&refused, LayError::TooWide { needs, .. } if *needs > 300.0), "{refused:?}");
}

/// The proof looks at the outlines alone: a lay that is harmed a little does not pass.
#[test]
fn the_proof_notices_what_is_too_near_or_off_the_cloth() {
    let made = made("brief");
    let outlines: Vec<Outline> = made.drawing.pieces.iter().map(Outline::of).collect();
    let sound = lay(&made, 1, cloth(800.0, Ways::Both), few(1_600)).unwrap();
    let size = (800.0, sound.length);
    assert!(proof::check(&outlines, &sound.placed, size, GAP).is_ok());
    assert!(proof::check(&outlines, &sound.placed, (800.0, sound.length - 0.01), GAP).is_err());
    let longest = |gap: f64| proof::check(&outlines, &sound.placed, size, gap).is_ok();
    // Pieces touch somewhere: the gap is kept, but hardly more.
    assert!(!longest(GAP + 2.0));
    let mut over = sound.placed.clone();
    (over[1].at, over[1].turn) = (over[0].at, over[0].turn);
    assert!(proof::check(&outlines, &over, size, GAP).is_err());
}

/// What the no-fit polygons let through is measured before it is taken.
#[test]
fn a_lay_that_is_not_sound_is_not_taken() {
    let made = made("brief");
    let outlines: Vec<Outline> = made.drawing.pieces.iter().map(Outline::of).collect();
    let (shapes, pieces) = distinct(&outlines);
    let table = Table::of(&shapes, GAP);
    let task = Task { shapes: &shapes, table: &table, pieces: &pieces, width: 800.0, may_turn: true };
    let asked = std::cell::Cell::new(0);
    let never = |_: &[Place]| {
        asked.set(asked.get() + 1);
        false
    };
    let length = |sound: &dyn Fn(&[Place]) -> bool| task.length(&search::shortest(&task, 2_000, sound, &mut |_| ()));
    let (stacked, short) = (length(&never), length(&|_| true));
    assert!(asked.get() > 1 && short < 0.8 * stacked, "{short} and {stacked} mm, asked {} times", asked.get());
}
