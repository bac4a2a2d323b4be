//! The garment on the body form: the finished edges of the draft taken back onto the surface, and
//! seen from the front, the side, the back and below.

pub mod figure;
mod spline;
#[cfg(test)]
mod tests;
mod views;
mod worn;

use crate::body::Lower;
use crate::draft::Draft;
use crate::drawing::on_body::OnBody;
use crate::plan::Plan;
use worn::Worn;

/// Draws the garment of a draft on the body that it was drafted for.
pub(crate) fn on_body(draft: &Draft, plan: &Plan) -> OnBody {
    let form = &draft.form;
    let lower = Lower::of(form, &plan.body);
    let worn = Worn::of(draft, plan, form, &lower);
    let scene = views::Scene { form, lower: &lower, worn: &worn, level: plan.body.level };
    OnBody { views: scene.views() }
}
