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
use kurbo::Point;
use worn::{Edges, Place, Worn};

/// Draws the garment of a draft on the body that it was drafted for.
pub(crate) fn on_body(draft: &Draft, plan: &Plan) -> OnBody {
    let form = &draft.form;
    let lower = Lower::of(form, &plan.body);
    let worn = Worn::of(draft, plan, form, &lower);
    let scene = views::Scene { form, lower: &lower, worn: &worn, level: plan.body.level };
    OnBody { views: scene.views() }
}

/// Where a half front or back ends, as it is seen.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Corners {
    /// Of the top edge at the centre; from the side, at the side seam.
    pub(crate) top: Point,
    /// The foot of the side seam.
    pub(crate) foot: Point,
    /// In the middle of the leg edge.
    pub(crate) leg: Point,
}

/// The corners of a garment in the views that show them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ends {
    pub(crate) front: Corners,
    pub(crate) side: Corners,
    pub(crate) back: Corners,
}

/// Where the corners of a garment are seen on the body.
pub(crate) fn ends(draft: &Draft, plan: &Plan) -> Ends {
    let form = &draft.form;
    let worn = Worn::of(draft, plan, form, &Lower::of(form, &plan.body));
    let first = |places: &[Place], by: fn(&Place) -> Point| places.first().map(by).unwrap_or_default();
    let last = |places: &[Place], by: fn(&Place) -> Point| places.last().map(by).unwrap_or_default();
    let of = |edges: &Edges, top: &[Place], by: fn(&Place) -> Point| Corners {
        top: first(top, by),
        foot: last(&edges.side, by),
        leg: edges.leg.get(edges.leg.len() / 3).map(by).unwrap_or_default(),
    };
    let (front, back) = (&worn.front, &worn.back);
    Ends {
        front: of(front, &front.top, views::upright),
        side: of(front, &front.side, views::sideways),
        back: of(back, &back.top, |p| mirrored(views::upright(p))),
    }
}

/// Views from the back show the body turned over.
const fn mirrored(p: Point) -> Point {
    Point::new(-p.x, p.y)
}
