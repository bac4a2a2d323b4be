//! A wanted length of the leg edge, and what a leg is reported against.

use crate::support::measure::{finished, length_shrunk, resolve};
use crate::support::numbers::Numbers;
use crate::support::random::{plain, told};
use crate::support::seven::{before_washing, used};
use crate::support::{mm, ordinary, said, sheet};
use engine::base::Base;
use engine::finding::{Finding, Level};
use engine::garment::Garment;
use engine::keys::style;
use engine::quantity::Ratio;
use engine::sheet::{Opening, Sheet};

/// The left leg edge after washing, mm.
fn leg(s: &Sheet, g: &Garment) -> f64 {
    let walk = g.openings.iter().find(|o| o.opening == Opening::LeftLeg).unwrap();
    walk.path.iter().map(|at| length_shrunk(&resolve(g, at, finished), before_washing(s))).sum()
}

#[test]
fn a_wanted_leg_edge_comes_out_to_a_hundredth() {
    let mut n = Numbers::seeded(19);
    let (mut asked, mut solved) = (0, 0);
    for _ in 0..60 {
        let mut sheet = plain(&mut n);
        let Ok(free) = engine::make(&sheet) else { continue };
        let wanted = leg(&sheet, &free.garment) + n.between(-20.0, 20.0);
        sheet.style.leg_edge = Some(mm(wanted));
        asked += 1;
        if let Ok(made) = engine::make(&sheet) {
            solved += 1;
            let residual = (leg(&sheet, &made.garment) - wanted).abs();
            assert!(residual <= 0.01, "{residual} mm off {wanted}: {}", told(&sheet));
        }
    }
    assert!(asked >= 50 && solved * 10 >= asked * 9, "{solved} of {asked} were solved");
}

/// The two lengths in "reaches A to B mm", as told.
fn range(found: &Finding) -> (f64, f64) {
    let text = said(found).text;
    let after = text.split("reaches ").nth(1).unwrap_or_else(|| panic!("no range in {text:?}"));
    let numbers: Vec<f64> = after.split_whitespace().filter_map(|w| w.parse().ok()).collect();
    (numbers[0], numbers[1])
}

#[test]
fn out_of_reach_is_refused_with_a_range_that_is_true() {
    for base in Base::all() {
        let mut s = sheet(&ordinary(), base);
        let relaxed = leg(&s, &engine::make(&s).unwrap().garment);
        for wanted in [relaxed * 0.3, relaxed * 3.0] {
            s.style.leg_edge = Some(mm(wanted));
            let refused = engine::make(&s).expect_err("no leg is that long");
            let finding = &refused.findings[0];
            assert_eq!((finding.place.clone(), finding.level), (style::LEG_EDGE.into(), Level::Refusal), "{finding:?}");
            let (least, most) = range(finding);
            assert!(least < relaxed && relaxed < most, "{base:?}: {relaxed} is not within {least} to {most}");
            // What it says can be reached, can: a finish may still not fit there, but not for
            // want of length.
            for share in [0.0, 0.02, 0.25, 0.5, 0.75, 0.98, 1.0] {
                let inside = least + share * (most - least);
                s.style.leg_edge = Some(mm(inside));
                match engine::make(&s) {
                    Ok(made) => assert!((leg(&s, &made.garment) - inside).abs() <= 0.01, "{base:?}, {inside}"),
                    Err(r) => assert!(
                        r.all().all(|f| f.place != style::LEG_EDGE.into()),
                        "{base:?}: {least} to {most} is said to be reached, {inside} is not: {:?}",
                        r.findings
                    ),
                }
            }
        }
    }
}

#[test]
fn knobs_that_are_set_stay_where_they_were_set() {
    let mut s = sheet(&ordinary(), Base::named("brief").unwrap());
    let free = engine::make(&s).unwrap();
    s.style.front_scoop = Some(0.4);
    s.style.side_seam = Some(mm(used(&free.garment, "style.side_seam")));
    s.style.leg_edge = Some(mm(leg(&s, &free.garment) + 5.0));
    let made = engine::make(&s).unwrap();
    assert!((leg(&s, &made.garment) - s.style.leg_edge.unwrap().mm()).abs() <= 0.01);
    // The side seam was set, and is still so long.
    let seam = made.garment.seams.iter().find(|w| w.id.name() == "left side seam").unwrap();
    assert!((seam.length_a - s.style.side_seam.unwrap().mm()).abs() <= 0.01, "{}", seam.length_a);
}

#[test]
fn a_leg_is_reported_against_its_measure_or_the_draft_without_ease() {
    let mut n = Numbers::seeded(23);
    let mut compared = 0;
    for _ in 0..30 {
        let mut s = plain(&mut n);
        let Ok(made) = engine::make(&s) else { continue };
        let walk = &made.garment.openings[1];
        // The same knobs, as drawn, on cloth without ease.
        let mut rest = s.clone();
        rest.fabric.ease_across = Some(Ratio::ZERO);
        rest.fabric.ease_along = Some(Ratio::ZERO);
        let shortened = made.garment.checks.iter().any(|f| f.code == "shape.level_leg");
        if let (Ok(flat), false) = (engine::make(&rest), shortened) {
            compared += 1;
            let girth = leg(&rest, &flat.garment);
            assert!((walk.worn.girth - girth).abs() < 1e-3, "{} is not {girth}: {}", walk.worn.girth, told(&s));
        }
        // An elastic draws the whole opening in by as much as it is shorter than its own line.
        let drawn_in = walk.elastic.as_ref().map_or(1.0, |e| 1.0 - e.reduction / 100.0);
        let relaxed = drawn_in * leg(&s, &made.garment);
        let stretch = 100.0 * (walk.worn.girth / relaxed - 1.0);
        assert!((walk.worn.stretch - stretch).abs() < 1e-6, "{} is not {stretch}", walk.worn.stretch);
        s.body.leg_line_girth = Some(mm(612.0));
        let measured = engine::make(&s).unwrap();
        assert_eq!(measured.garment.openings[1].worn.girth, 612.0);
    }
    assert!(compared >= 20, "only {compared} were compared");
}
