//! Marks and gaps on rings of straight lines, worked out by hand.

use super::*;
use crate::base::Base;
use crate::support;
use crate::topology::{EdgeId, End, Half, pair};
use kurbo::Point;

/// Three arcs of which the first two have one stretch, and 96 mm in the middle.
const MEASURED: [f64; 3] = [100.0, 96.0, 100.0];
const LENGTHS: [f64; 3] = [95.0, 91.2, 80.0];

#[test]
fn where_the_stretch_changes_is_one_mark_and_none_beside_it() {
    let far = [(0, 0.03), (0, 0.5), (0, 0.99), (1, 0.0), (1, 0.968_75), (2, 0.5)];
    // Less than 3 mm from a change: at it, 2 mm on, 1.5 mm before, and 1 mm before the ring closes.
    let near = [(0, 0.0), (0, 0.02), (1, 0.984_375), (2, 0.0), (2, 0.99)];
    let asked = far.iter().chain(&near).copied().collect();
    let wanted = [(0, 0.0), (0, 0.03), (0, 0.5), (0, 0.99), (1, 0.0), (1, 0.968_75), (2, 0.0), (2, 0.5)];
    assert_eq!(with_changes(asked, &MEASURED, &LENGTHS), wanted);
}

#[test]
fn one_stretch_all_round_wants_no_more_marks() {
    let asked = vec![(0, 0.0), (0, 0.99), (2, 0.99)];
    // The second arc has twice the length and the same stretch.
    assert_eq!(with_changes(asked.clone(), &[100.0, 200.0, 50.0], &[80.0, 160.0, 40.0]), asked);
}

#[test]
fn equal_parts_are_found_round_the_ring() {
    let ring = [100.0, 50.0, 50.0, 200.0];
    assert_eq!(equal_parts(4, &ring), [(0, 0.0), (1, 0.0), (3, 0.0), (3, 0.5)]);
    assert_eq!(equal_parts(8, &ring)[1..4], [(0, 0.5), (1, 0.0), (2, 0.0)]);
    assert_eq!(locate(400.0, &ring), (0, 0.0), "its end is its start");
}

#[test]
fn marks_are_on_seams_and_centres_and_between_them() {
    let at = |opening, marks, spread| {
        let arcs = pair().unwrap().arcs(opening);
        places(opening, arcs, (marks, spread), &vec![100.0; arcs.len()])
    };
    for spread in [Spread::Even, Spread::Equal] {
        // The top edge begins at the centre front; both centres halve it.
        assert_eq!(at(Opening::Top, Marks::Halves, spread), [(0, 0.0), (2, 0.0)]);
        assert_eq!(at(Opening::Top, Marks::Quarters, spread), [(0, 0.0), (1, 0.0), (2, 0.0), (3, 0.0)]);
        assert_eq!(at(Opening::Top, Marks::Eighths, spread)[..3], [(0, 0.0), (0, 0.5), (1, 0.0)]);
        assert_eq!(at(Opening::LeftLeg, Marks::Halves, spread), [(0, 0.0), (1, 0.5)]);
    }
    let leg = |marks, spread| at(Opening::RightLeg, marks, spread);
    assert_eq!(leg(Marks::Quarters, Spread::Even), [(0, 0.0), (1, 0.0), (2, 0.0), (2, 0.5)]);
    assert_eq!(leg(Marks::Quarters, Spread::Equal), [(0, 0.0), (0, 0.75), (1, 0.5), (2, 0.25)]);
    let eighths = [(0, 0.0), (0, 0.5), (1, 0.0), (1, 0.5), (2, 0.0), (2, 0.25), (2, 0.5), (2, 0.75)];
    assert_eq!(leg(Marks::Eighths, Spread::Even), eighths);
    assert_eq!(leg(Marks::Eighths, Spread::Equal)[..3], [(0, 0.0), (0, 0.375), (0, 0.75)]);
}

fn upright(from: f64, to: f64) -> Path {
    Path::line(Point::new(10.0, from), Point::new(10.0, to))
}

/// An opening whose measured lines run 10 mm beside straight edges.
fn ring(opening: Opening, lines: Vec<Path>, gap: Option<f64>) -> Ring {
    let arcs = pair().unwrap().arcs(opening);
    Ring { arcs, lines, measured: Vec::new(), lengths: None, marks: Vec::new(), gap }
}

fn net() -> Path {
    Path::line(Point::new(0.0, 0.0), Point::new(0.0, 200.0))
}

#[test]
fn a_gap_lies_round_the_middle_of_the_back() {
    let lines = vec![upright(0.0, 100.0), upright(0.0, 80.0), upright(40.0, 180.0)];
    let leg = ring(Opening::LeftLeg, lines.clone(), Some(30.0));
    let [(from, End::Start), (to, End::Finish)] = leg.gap_on_edge(EdgeId::BackLeg, Half::Minus, &net())[..] else {
        panic!("a gap has two ends")
    };
    assert!((from - 95.0).abs() < 1e-9 && (to - 125.0).abs() < 1e-9, "{from} to {to}");
    for (edge, half) in [(EdgeId::BackLeg, Half::Plus), (EdgeId::FrontLeg, Half::Plus), (EdgeId::BackTop, Half::Minus)]
    {
        assert_eq!(leg.gap_on_edge(edge, half, &net()), [], "{edge:?} {half:?}");
    }
    assert_eq!(ring(Opening::LeftLeg, lines, None).gap_on_edge(EdgeId::BackLeg, Half::Minus, &net()), []);
    let top = ring(Opening::Top, vec![upright(0.0, 100.0); 4], Some(30.0));
    assert_eq!(top.gap_on_edge(EdgeId::BackTop, Half::Plus, &net()), [(15.0, End::Finish)], "half of it on each half");
}

#[test]
fn a_mark_is_notched_where_it_lies_beside_the_edge() {
    let leg = ring(Opening::LeftLeg, vec![upright(0.0, 100.0), upright(0.0, 80.0), upright(40.0, 180.0)], None);
    let mark = |arc: usize, share| MarkAt { arc, share, place: place(Opening::LeftLeg, &leg.arcs[arc], share) };
    let near = |found: Option<f64>, wanted: f64| found.is_some_and(|found| (found - wanted).abs() < 1e-9);
    assert!(near(leg.on_edge(&mark(0, 0.25), EdgeId::FrontLeg, Half::Plus, &net()), 25.0));
    // Walked from the gusset up, and drafted from the side seam down.
    assert!(near(leg.on_edge(&mark(2, 0.25), EdgeId::BackLeg, Half::Minus, &net()), 145.0));
    assert_eq!(leg.on_edge(&mark(2, 0.25), EdgeId::BackLeg, Half::Plus, &net()), None);
    assert_eq!(leg.on_edge(&mark(2, 0.25), EdgeId::GussetLeg, Half::Minus, &net()), None);
    assert_eq!(leg.on_edge(&mark(0, 0.0), EdgeId::FrontLeg, Half::Plus, &net()), None, "a seam is notch enough");
}

/// An elastic of 8 mm is threaded through 30 mm (common practice), but through no more than half of the back.
#[test]
fn a_gap_is_no_longer_than_half_of_the_back() {
    let plan = |kind| {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.finish.left_leg = support::finish(kind, "soft 8");
        Plan::of(&sheet).unwrap()
    };
    let arcs = pair().unwrap().arcs(Opening::LeftLeg);
    let of = |kind, back: f64| {
        let lines = [upright(0.0, 500.0), upright(0.0, 300.0), upright(0.0, back)];
        gap(&plan(kind).finish.left_leg, arcs, &lines)
    };
    assert_eq!((of("tunnel", 140.0), of("tunnel", 40.0), of("trim", 140.0)), (Some(30.0), Some(20.0), None));
}
