//! What is drawn, held against what is measured.

use super::worn::{Edges, Place, Worn};
use crate::base::Base;
use crate::body::{Form, Lower};
use crate::draft::solve_leg_edge;
use crate::plan::Plan;
use crate::support::numbers::Numbers;
use crate::support::{self, random, sheet};

fn length(line: &[Place]) -> f64 {
    let step = |a: &Place, b: &Place| ((b.x - a.x).powi(2) + (b.y - a.y).powi(2) + (b.z - a.z).powi(2)).sqrt();
    line.windows(2).map(|w| step(&w[0], &w[1])).sum()
}

/// Every base on random bodies, with the girths of the record beside the lines that are drawn.
fn each(mut with: impl FnMut(&Worn, &crate::garment::Garment)) {
    let mut n = Numbers::seeded(71);
    let mut made = 0;
    for base in Base::all() {
        for body in (0..20).map(|_| random::body(&mut n)).collect::<Vec<_>>() {
            let sheet = sheet(&body, base);
            let Ok(garment) = crate::record(&sheet) else { continue };
            let plan = Plan::of(&sheet).unwrap();
            let form = Form::of(&plan.body);
            let worn = Worn::of(&solve_leg_edge(&plan).unwrap(), &plan, &form, &Lower::of(&form, &plan.body));
            with(&worn, &garment);
            made += 1;
        }
    }
    assert!(made > 100, "{made}");
}

/// Where no girth was measured, the record takes that of the same draft at zero ease: another way round
/// to the same line.
#[test]
fn openings_are_drawn_at_their_worn_girth() {
    each(|worn, garment| {
        let both = [&worn.front, &worn.back];
        let top = 2.0 * both.map(|e: &Edges| length(&e.top)).iter().sum::<f64>() / garment.openings[0].worn.girth;
        let leg = both.map(|e: &Edges| length(&e.leg)).iter().sum::<f64>() / garment.openings[1].worn.girth;
        assert!((0.98..1.02).contains(&top) && (0.97..1.08).contains(&leg), "{top} and {leg}");
    });
}

/// From below, the front's and the back's part of a leg edge meet between the legs in one place and one
/// direction, but for bodies whose measurements no form fits.
#[test]
fn the_gusset_has_no_jog_at_its_lowest_point() {
    let mut turns: Vec<f64> = Vec::new();
    each(|worn, _| {
        let end = |edges: &Edges| -> (Place, f64) {
            let last = edges.leg[edges.leg.len() - 1];
            let before = edges.leg.iter().rev().find(|p| (p.y - last.y).abs() > 3.0).unwrap();
            (last, ((last.x - before.x) / (last.y - before.y)).atan())
        };
        let ((front, down), (back, up)) = (end(&worn.front), end(&worn.back));
        let apart = length(&[front, back]);
        assert!(apart < 1.0, "{apart} mm");
        turns.push((down - up).abs().to_degrees());
    });
    turns.sort_by(f64::total_cmp);
    let ninth = turns[turns.len() * 9 / 10];
    assert!(ninth < 4.0, "{ninth} degrees");
}

/// A longer side seam lowers the leg edge there, and the top edge stays where it is.
#[test]
fn a_knob_moves_what_it_is_for() {
    let worn = |side_seam: f64| {
        let mut sheet = sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.style.side_seam = Some(support::mm(side_seam));
        let plan = Plan::of(&sheet).unwrap();
        let form = Form::of(&plan.body);
        Worn::of(&solve_leg_edge(&plan).unwrap(), &plan, &form, &Lower::of(&form, &plan.body))
    };
    let (short, long) = (worn(80.0), worn(90.0));
    for (a, b) in [(&short.front, &long.front), (&short.back, &long.back)] {
        let lower = b.leg[0].z - a.leg[0].z;
        assert!((lower - 10.0).abs() < 1.0, "{lower}");
        let top = a.top.iter().zip(&b.top).map(|(p, q)| (p.z - q.z).abs()).fold(0.0, f64::max);
        assert!(top < 1.5, "{top}");
    }
}
