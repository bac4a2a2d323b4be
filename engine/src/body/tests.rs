//! Closed forms that no sheet can describe: cones.

use super::{Form, Half, Panel, Torso};
use crate::plan::{BodyPlan, Plan};
use crate::support::{ordinary, sheet};
use std::f64::consts::{FRAC_PI_2, PI};

/// A round body of these girths.
fn round(waist: f64, hip: f64, waist_to_hip: f64) -> BodyPlan {
    let base = crate::base::Base::all().next().unwrap_or_else(|| unreachable!("there is a base"));
    let mut b = match Plan::of(&sheet(&ordinary(), base)) {
        Ok(plan) => plan.body,
        Err(_) => unreachable!("the ordinary body is planned"),
    };
    (b.waist, b.hip, b.waist_to_hip) = (waist, hip, waist_to_hip);
    (b.waist_breadth, b.waist_depth) = (waist / PI, waist / PI);
    (b.hip_breadth, b.hip_depth) = (hip / PI, hip / PI);
    b
}

/// A cone's quarter is a sector of a ring on paper: its level lines turn by the quarter turn times
/// the sine of half the angle at the tip, whatever the level.
#[test]
fn a_cone_comes_out_as_its_sector() {
    for (waist, hip, slant) in [(700.0, 900.0, 180.0), (900.0, 950.0, 200.0), (900.0, 800.0, 200.0)] {
        let torso = Torso::cone(&round(waist, hip, slant));
        let sine = (hip - waist) / (2.0 * PI) / slant;
        let turn = FRAC_PI_2 * sine;
        for half in [Half::Front, Half::Back] {
            let panel = Panel::of(&torso, half);
            for depth in [0.0, 0.3 * slant, slant] {
                let length = 0.25 * (waist + (hip - waist) * depth / slant);
                let rise = length * (1.0 - turn.cos()) / turn;
                // The least squareness that a section may have is no circle: a part in a hundred.
                let allowed = 0.01 * rise.abs() + 0.05;
                let (got, turned) = (panel.rise(depth), panel.turn(depth));
                assert!((got - rise).abs() < allowed, "rise {got} is not {rise} at {depth} of {waist}–{hip}");
                assert!((turned - turn).abs() < 0.02 * turn.abs(), "turn {turned} is not {turn} at {depth}");
                // Front, back and side of a cone are equally long: the lift is the rise.
                assert!((panel.lift(depth) - got).abs() < 0.3, "lift {} is not {got}", panel.lift(depth));
            }
        }
    }
}

#[test]
fn what_a_centre_reaches_is_found_again() {
    let body = round(700.0, 980.0, 200.0);
    let form = Form::of(&body);
    for half in [Half::Front, Half::Back] {
        for depth in [-20.0, 0.0, 3.0, 77.0, 199.9, 200.0, 260.0] {
            let again = form.torso.level_at_centre(half, form.torso.centre(half, depth));
            assert!((again - depth).abs() < 1e-8, "{again} is not {depth}");
        }
    }
}
