//! Does an edge lie flat: folded cloth on a hollow curve, the free edge of an elastic, and what
//! an edge that stands out does to the width of the gusset?

use super::Subject;
use crate::base::WIDTH_PER_HIP;
use crate::construct::drafted::net_edge;
use crate::curve::Path;
use crate::curve::float;
use crate::finding::Finding;
use crate::finding::fact::{EdgeFact, GussetFact};
use crate::finish::FinishKind;
use crate::finish::profile::Stuff;
use crate::garment::OpeningWalk;
use crate::plan::{ClothPlan, FinishPlan};
use crate::terms::{ClothKind, Opening};
use crate::topology::PairArc;
use kurbo::Vec2;

/// Every arc of every opening, with the finish of it and its finished edge.
fn every_arc<'a>(s: &'a Subject<'_>) -> Vec<(&'a FinishPlan, &'a PairArc, &'a Path)> {
    Opening::ALL
        .into_iter()
        .flat_map(|o| s.topology.arcs(o).iter().map(move |arc| (s.plan.finish.get(o), arc, net_edge(s.draft, arc))))
        .collect()
}

/// An allowance that is folded in on a hollow curve has to stretch from its raw edge to the longer
/// line that it lands on.
pub(super) fn landing(s: &Subject<'_>) -> Vec<Finding> {
    every_arc(s)
        .into_iter()
        .filter(|(finish, ..)| finish.lines.is_folded())
        .filter_map(|(finish, arc, net)| {
            let depth = finish.lines.cut;
            // Beside a curve of length L that turns by θ, a parallel line has L ∓ dθ.
            let (length, turned) = (net.length(), depth * net.turning());
            let needed = 100.0 * ((length + turned) / (length - turned) - 1.0);
            let can = 100.0 * stretch_along(net, &s.plan.cloth);
            (needed > can).then(|| {
                let (section, cloth) = (arc.section, s.plan.cloth.kind);
                EdgeFact::FoldOnCurve { section, needed, can, cloth, flat: without_fold(finish, cloth) }.into()
            })
        })
        .collect()
}

/// Finishes of this edge that fold nothing in.
fn without_fold(finish: &FinishPlan, cloth: ClothKind) -> Vec<FinishKind> {
    let flat = |f: &FinishKind| f.demands().met_by(cloth) && !f.lines(&finish.settings).is_folded();
    FinishKind::all().filter(flat).collect()
}

/// How far the cloth stretches along a path, as a fraction: across and along by its direction.
pub(super) fn stretch_along(path: &Path, cloth: &ClothPlan) -> f64 {
    let (mut sum, mut length) = (0.0, 0.0);
    for w in path.flatten(0.1).windows(2) {
        let step = w[1] - w[0];
        let part = step.hypot();
        if part > 0.0 {
            let (x, y) = (step.x / part, step.y / part);
            sum += part * (cloth.stretch_across * x * x + cloth.stretch_along * y * y);
            length += part;
        }
    }
    if length > 0.0 { sum / length } else { 0.0 }
}

/// The free edge of an elastic beyond its last row flutes on a hollow curve, unless it is
/// stretched by as much there when worn, or takes the rest up by itself.
pub(super) fn flute(s: &Subject<'_>) -> Vec<Finding> {
    Opening::ALL.into_iter().filter_map(|opening| fluting(s, opening)).map(Finding::from).collect()
}

/// What the free edge of a soft elastic takes up by itself, percent, and how much may stand free
/// for that, mm. Common practice: soft edgings of 6 to 10 mm, of which about 5 mm stand beyond
/// their row, are laid unreduced round curves of 45 to 50 mm radius and lie flat, where 5 mm are a
/// tenth. A wider one gives way the less the more of it stands free.
const TAKES_UP: (f64, f64) = (10.0, 5.0);

fn takes_up(free: f64) -> f64 {
    TAKES_UP.0 * (TAKES_UP.1 / free).min(1.0)
}

fn fluting(s: &Subject<'_>, opening: Opening) -> Option<EdgeFact> {
    let finish = s.plan.finish.get(opening);
    finish.elastic.as_ref()?;
    let (held, free) = free_edge(finish)?;
    let takes_up = takes_up(free);
    let walk = s.garment.openings.iter().find(|o| o.opening == opening)?;
    let cloth = WornCloth::of(s, walk);
    let places = s.topology.arcs(opening).iter().flat_map(|arc| {
        let reduction = walk.sections.iter().find(|x| x.id == arc.section).and_then(|x| x.reduction).unwrap_or(0.0);
        let cloth = &cloth;
        net_edge(s.draft, arc).hollows().map(move |(direction, radius)| {
            let worn = 100.0 * (cloth.drawn_out(direction) / (1.0 - reduction / 100.0) - 1.0);
            (arc.section, 100.0 * free / (radius - held), worn)
        })
    });
    let (section, longer, worn) = places.max_by(|a, b| (a.1 - a.2).total_cmp(&(b.1 - b.2)))?;
    (longer - worn > takes_up).then_some(EdgeFact::Flutes { section, longer, worn, takes_up })
}

/// How far the cloth of an opening is drawn out on the body, by direction: more where it runs the
/// way that was cut smaller, and in all as far as the opening is.
struct WornCloth {
    across: f64,
    along: f64,
    scale: f64,
}

impl WornCloth {
    fn of(s: &Subject<'_>, walk: &OpeningWalk) -> Self {
        let cloth = &s.plan.cloth;
        let free = Self { across: 1.0 / (1.0 + cloth.ease_across), along: 1.0 / (1.0 + cloth.ease_along), scale: 1.0 };
        let (mut drawn_out, mut length) = (0.0, 0.0);
        for arc in s.topology.arcs(walk.opening) {
            for w in net_edge(s.draft, arc).flatten(0.1).windows(2) {
                let step = w[1] - w[0];
                drawn_out += free.drawn_out(step);
                length += step.hypot();
            }
        }
        let scale = if drawn_out > 0.0 { (1.0 + walk.worn.cloth_stretch / 100.0) * length / drawn_out } else { 1.0 };
        Self { scale, ..free }
    }

    /// The length on the body of a step on the cloth.
    fn drawn_out(&self, step: Vec2) -> f64 {
        self.scale * float::hypot(self.across * step.x, self.along * step.y)
    }
}

/// The outermost row as worn, and how far the elastic stands beyond it where no cloth holds it.
fn free_edge(finish: &FinishPlan) -> Option<(f64, f64)> {
    let (_, outer) = finish.lines.elastic?;
    let profile = finish.kind.profile(&finish.settings);
    let cloth = profile.plies.iter().filter(|p| p.stuff == Stuff::Cloth).flat_map(|p| &p.course);
    let cloth = cloth.map(|(d, _)| *d).fold(f64::NEG_INFINITY, f64::max);
    let held = profile.rows.iter().map(|r| r.at).fold(f64::NEG_INFINITY, f64::max);
    (outer > cloth + 1e-9 && held.is_finite()).then_some((held, outer - held))
}

/// Under this width a gusset gives less than full cover at a hip of 1,000 mm, mm. From memory,
/// common practice.
const FULL_COVER: f64 = 55.0;

/// Full cover on this body, mm: a smaller one needs less of it, as gussets are drafted narrower.
fn full_cover(hip: f64) -> f64 {
    FULL_COVER + (WIDTH_PER_HIP * (hip - 1000.0)).min(0.0)
}

/// The gusset as worn, elastic included.
pub(super) fn gusset_as_worn(s: &Subject<'_>) -> Vec<Finding> {
    let beyond = s.plan.finish.left_leg.lines.beyond() + s.plan.finish.right_leg.lines.beyond();
    let width = s.plan.gusset.width + beyond;
    let full = full_cover(s.plan.body.hip);
    let fact = if width < full {
        Some(GussetFact::PartCover { width, full })
    } else {
        (beyond != 0.0).then_some(GussetFact::WiderAsWorn { width, drafted: s.plan.gusset.width })
    };
    fact.map(Finding::from).into_iter().collect()
}
