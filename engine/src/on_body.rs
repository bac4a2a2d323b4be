//! The garment on the body form: the finished edges of the draft taken back onto the surface, and
//! seen from the front, the side, the back and below.

pub mod figure;
mod spline;
#[cfg(test)]
mod tests;
mod views;
mod worn;

use crate::body::Lower;
use crate::curve::Path;
use crate::draft::Draft;
use crate::drawing::on_body::OnBody;
use crate::plan::Plan;
use kurbo::{Line, PathSeg, Point};
use worn::{Edges, Place, Worn};

/// Draws the garment of a draft on the body that it was drafted for.
pub(crate) fn on_body(draft: &Draft, plan: &Plan) -> OnBody {
    with_ends(draft, plan).0
}

/// The same, and where the corners of the garment are seen there.
pub(crate) fn with_ends(draft: &Draft, plan: &Plan) -> (OnBody, Ends) {
    let form = &draft.form;
    let lower = Lower::of(form, &plan.body);
    let worn = Worn::of(draft, plan, form, &lower);
    let scene = views::Scene { form, lower: &lower, worn: &worn, level: plan.body.level };
    (OnBody { views: scene.views() }, Ends::of(&worn))
}

/// Where a half front or back ends, as it is seen.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Corners {
    /// Of the top edge at the centre; from the side, at the side seam.
    pub(crate) top: Point,
    /// The foot of the side seam.
    pub(crate) foot: Point,
    /// On the leg edge, a third of it from the side.
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
    Ends::of(&Worn::of(draft, plan, form, &Lower::of(form, &plan.body)))
}

impl Ends {
    fn of(worn: &Worn) -> Self {
        let first = |places: &[Place], by: fn(&Place) -> Point| places.first().map(by).unwrap_or_default();
        let last = |places: &[Place], by: fn(&Place) -> Point| places.last().map(by).unwrap_or_default();
        let of = |edges: &Edges, top: &[Place], by: fn(&Place) -> Point| Corners {
            top: first(top, by),
            foot: last(&edges.side, by),
            leg: a_third_along(&edges.leg.iter().map(by).collect::<Vec<_>>()),
        };
        let (front, back) = (&worn.front, &worn.back);
        Self {
            front: of(front, &front.top, views::upright),
            side: of(front, &front.side, views::sideways),
            back: of(back, &back.top, |p| mirrored(views::upright(p))),
        }
    }
}

/// By length: how many points a line has, and where, may change with a hair's breadth of the draft.
fn a_third_along(line: &[Point]) -> Point {
    let sides = line.windows(2).map(|ends| PathSeg::Line(Line::new(ends[0], ends[1]))).collect();
    let path = Path::new(sides);
    path.at(path.length() / 3.0).0
}

/// Views from the back show the body turned over.
const fn mirrored(p: Point) -> Point {
    Point::new(-p.x, p.y)
}
