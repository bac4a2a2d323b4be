//! The net draft: half front, half back and half gusset as finished edges.
//!
//! All lengths are millimetres on the cloth as cut: shrinkage still to come is already added.
//! A half piece is its +x half; its centre lies on x = 0; y runs down the body from waist level.

mod fair;
mod fall;
mod gusset;
mod leg_edge;
mod opening;
mod panel;
mod smooth;
mod top;

use crate::body::{Form, Girths, RIGID_SHARE};
use crate::curve::Path;
use crate::finding::Finding;
use crate::finding::fact::{DraftFact, Part};
use crate::plan::{ClothPlan, Knobs, Plan};
use kurbo::Point;

pub use leg_edge::solve_leg_edge;

/// The three net pieces, each its +x half.
#[derive(Clone, Debug)]
pub struct Draft {
    /// The half front.
    pub front: Panel,
    /// The half back.
    pub back: Panel,
    /// The half gusset.
    pub gusset: Gusset,
    /// The side seam's finished length after the level-leg rule, as worn (before shrinkage), mm.
    pub side_seam: f64,
    /// How much flatter than square the front leg leaves the side seam, rad; the back leg leaves it
    /// steeper by as much.
    pub flatter: f64,
    /// How much higher on the body than asked the top of the side seam lies, mm; lower where negative.
    /// Nothing but where the side seams cannot lean enough for top edges of one sweep each.
    pub side_raised: f64,
    /// The knobs in the end.
    pub knobs: Knobs,
    /// The body form that it was drafted on.
    pub form: Form,
}

/// A half front or a half back: edges clockwise as seen, from the centre of the top edge.
#[derive(Clone, Debug)]
pub struct Panel {
    /// The top edge, from the centre to the side seam.
    pub top: Path,
    /// The side seam, down to the leg.
    pub side: Path,
    /// The leg edge, to the gusset seam.
    pub leg: Path,
    /// The gusset seam, back to the centre.
    pub gusset: Path,
}

/// A half gusset: from the centre of the front seam, clockwise as seen.
#[derive(Clone, Debug)]
pub struct Gusset {
    /// The seam to the front.
    pub front: Path,
    /// The leg edge.
    pub leg: Path,
    /// The seam to the back.
    pub back: Path,
}

/// What the pieces have to be, on the cloth as cut.
#[derive(Clone, Debug)]
struct Target {
    /// Whole ring along the top edge.
    top_ring: f64,
    /// Whole width round the foot of the side seams.
    foot_ring: f64,
    /// How far the girth rule bows the side seam out, at its middle.
    bow: f64,
    side_seam: f64,
    /// The share of the foot ring that the back takes.
    back_share: f64,
    y_front: f64,
    y_back: f64,
    /// Where the form has the top of the side seam on paper, front and back.
    y_side: [f64; 2],
    /// How much of their rise the form's level lines there make late ([`crate::body::Panel::late`]).
    late: [f64; 2],
    y_front_gusset: f64,
    y_back_gusset: f64,
    across: f64,
    along: f64,
}

/// The share of the girth rule's bow that the side seam takes; knit takes the rest. All of it
/// leans the top of a full brief's seam over by 30°, more than a cutter would draw.
const BOW: f64 = 0.3;

/// What cut cloth is longer by: 1/(1 − s), so that it is right after washing.
pub fn before_washing(cloth: &ClothPlan) -> (f64, f64) {
    (1.0 / (1.0 - cloth.shrink_across), 1.0 / (1.0 - cloth.shrink_along))
}

impl Target {
    fn of(plan: &Plan, form: &Form, knobs: &Knobs) -> Result<Self, Finding> {
        let (b, c, g) = (&plan.body, &plan.cloth, &plan.gusset);
        let girths = Girths::of(b);
        let (across, along) = before_washing(c);
        let stretch_y = along * (1.0 + c.ease_along);
        let wide = across * (1.0 + c.ease_across);
        let forward = g.forward * g.length;
        let front = (b.crotch_front - knobs.drop_front) * (1.0 + c.ease_along) - forward;
        let back = (b.crotch - b.crotch_front - knobs.drop_back) * (1.0 + c.ease_along) - (g.length - forward);
        long_enough(front, Part::Front)?;
        long_enough(back, Part::Back)?;
        let top_level = knobs.top_level();
        let foot = knobs.drop_side + knobs.side_seam;
        let half = knobs.drop_side + 0.5 * knobs.side_seam;
        // Half and half at the top edge, the back's full share at the hip.
        let way_down = ((foot - top_level) / (b.waist_to_hip - top_level).max(0.4 * b.waist_to_hip)).min(1.0);
        let panels = [&form.front, &form.back];
        let bow = girths.at(half) - 0.5 * (girths.at(knobs.drop_side) + girths.at(foot));
        Ok(Self {
            top_ring: girths.top_ring(top_level, c) * across,
            foot_ring: girths.at(foot) * wide,
            bow: BOW * bow * wide / 4.0,
            side_seam: knobs.side_seam * along,
            back_share: 0.5 + (knobs.back_share - 0.5) * way_down,
            y_front: knobs.drop_front * stretch_y,
            y_back: knobs.drop_back * stretch_y,
            y_side: panels.map(|panel| (knobs.drop_side - RIGID_SHARE * panel.lift(knobs.drop_side)) * stretch_y),
            late: panels.map(|panel| RIGID_SHARE * panel.late(knobs.drop_side) * stretch_y),
            y_front_gusset: knobs.drop_front * stretch_y + front * along,
            y_back_gusset: knobs.drop_back * stretch_y + back * along,
            across,
            along,
        })
    }
}

/// What is asked of a half front or a half back.
#[derive(Clone, Copy)]
struct Half {
    part: Part,
    /// Half of this piece's part of the top ring.
    top_length: f64,
    foot_x: f64,
    y_centre: f64,
    y_side: f64,
    late: f64,
    y_gusset: f64,
}

impl Target {
    /// Front, back.
    fn halves(&self) -> [Half; 2] {
        let half = |i: usize, part, share, y_centre, y_gusset| Half {
            part,
            top_length: self.top_ring / 4.0,
            foot_x: 0.5 * self.foot_ring * share,
            y_centre,
            y_side: self.y_side[i],
            late: self.late[i],
            y_gusset,
        };
        [
            half(0, Part::Front, 1.0 - self.back_share, self.y_front, self.y_front_gusset),
            half(1, Part::Back, self.back_share, self.y_back, self.y_back_gusset),
        ]
    }
}

/// The shortest centre of a piece that can still be sewn and finished, mm.
const SHORTEST_CENTRE: f64 = 25.0;

fn long_enough(length: f64, part: Part) -> Result<(), Finding> {
    if length >= SHORTEST_CENTRE {
        return Ok(());
    }
    Err(DraftFact::CentreTooShort { part, length, least: SHORTEST_CENTRE }.into())
}

/// Drafts the net pieces with the plan's own knobs.
///
/// # Errors
/// The measurement or knob that makes the draft impossible.
pub fn draft(plan: &Plan) -> Result<Draft, Finding> {
    draft_on(&Form::of(&plan.body), plan, &plan.knobs)
}

/// Drafts the net pieces with other knobs, on a form that is there already.
///
/// # Errors
/// The measurement or knob that makes the draft impossible.
pub fn draft_on(form: &Form, plan: &Plan, knobs: &Knobs) -> Result<Draft, Finding> {
    gusset::check_widths(&plan.gusset)?;
    let mut knobs = knobs.clone();
    let mut target = Target::of(plan, form, &knobs)?;
    let [mut front, mut back] = panel::uppers(&target)?;
    // The level-leg rule: shorten the side seam until the front leg falls enough.
    for _ in 0..MAX_SHORTENINGS {
        let lacking = fall::lacking(&front, plan.gusset.front_width * target.across, plan.body.hip * target.along);
        if lacking <= LEVEL_TOLERANCE {
            break;
        }
        knobs.side_seam -= (lacking / target.along).max(LEVEL_TOLERANCE);
        if knobs.side_seam < SHORTEST_SIDE {
            return Err(DraftFact::LegTooLevel { side_seam: plan.knobs.side_seam, least: SHORTEST_SIDE }.into());
        }
        target = Target::of(plan, form, &knobs)?;
        [front, back] = panel::uppers(&target)?;
    }
    let side_raised = front.raised / (target.along * (1.0 + plan.cloth.ease_along));
    let legs = opening::opening(&target, (&front, &back), &plan.gusset, &knobs)?;
    Ok(Draft {
        front: front.with_leg(legs.front),
        back: back.with_leg(legs.back),
        gusset: gusset::gusset(legs.gusset),
        side_seam: knobs.side_seam,
        flatter: legs.flatter,
        side_raised,
        knobs,
        form: form.clone(),
    })
}

/// The level-leg rule comes within a thousandth of a millimetre of its bound.
const LEVEL_TOLERANCE: f64 = 1e-3;
const MAX_SHORTENINGS: u32 = 60;
/// The shortest side seam that is drafted, mm; between sewing lines it is checked again.
const SHORTEST_SIDE: f64 = 10.0;

impl Draft {
    /// Length of one leg edge all round, as cut, mm.
    pub fn leg_ring(&self) -> f64 {
        self.front.leg.length() + self.gusset.leg.length() + self.back.leg.length()
    }

    /// Length of one leg edge all round after washing, mm.
    pub fn washed_leg_ring(&self, cloth: &ClothPlan) -> f64 {
        [&self.front.leg, &self.gusset.leg, &self.back.leg].iter().map(|p| washed(p, cloth).length()).sum()
    }
}

/// A path as it is after washing.
pub fn washed(path: &Path, cloth: &ClothPlan) -> Path {
    let (x, y) = before_washing(cloth);
    if (x, y) == (1.0, 1.0) {
        return path.clone();
    }
    path.map(|p| Point::new(p.x / x, p.y / y))
}
