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
            let needed = needed_to_land(net, depth);
            let can = 100.0 * stretch_along(net, &s.plan.cloth);
            (needed > can).then(|| {
                let (section, cloth) = (arc.section, s.plan.cloth.kind);
                EdgeFact::FoldOnCurve { section, needed, can, cloth, flat: without_fold(finish, cloth) }.into()
            })
        })
        .collect()
}

/// How far the raw edge of an allowance has to stretch that is folded in along a path, percent.
fn needed_to_land(net: &Path, depth: f64) -> f64 {
    // Beside a curve of length L that turns by θ, a parallel line has L ∓ dθ.
    let (length, turned) = (net.length(), depth * net.turning());
    100.0 * ((length + turned) / (length - turned) - 1.0)
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

#[cfg(test)]
mod tests {
    use super::super::found_on;
    use super::*;
    use crate::base::Base;
    use crate::finding::Fact;
    use crate::finish::Settings;
    use crate::plan::Plan;
    use crate::support;
    use kurbo::{Arc, BezPath, Point, Shape};

    /// A quarter of a circle, hollow on a clockwise outline.
    fn quarter(radius: f64) -> Path {
        let arc =
            Arc::new(Point::ZERO, (radius, radius), std::f64::consts::FRAC_PI_2, -std::f64::consts::FRAC_PI_2, 0.0);
        let path: BezPath = arc.to_path(1e-6);
        Path::new(path.segments().collect())
    }

    /// Round a circle of radius R, what is folded in by d stretches from R − d to R + d.
    #[test]
    fn an_allowance_lands_on_the_longer_circle() {
        for (radius, depth) in [(50.0, 10.0), (80.0, 7.0)] {
            let by_hand = 100.0 * ((radius + depth) / (radius - depth) - 1.0);
            let needed = needed_to_land(&quarter(radius), depth);
            assert!((needed - by_hand).abs() < 0.01, "{needed} and {by_hand}");
        }
    }

    /// Across and along as they are; on the diagonal, and over a quarter of a circle, half of each.
    #[test]
    fn cloth_stretches_by_the_direction_of_the_edge() {
        let mut cloth = plan().cloth;
        (cloth.stretch_across, cloth.stretch_along) = (0.6, 0.2);
        let line = |x, y| Path::line(Point::new(10.0, 20.0), Point::new(10.0 + x, 20.0 + y));
        for (path, stretch) in [(line(30.0, 0.0), 0.6), (line(0.0, 30.0), 0.2), (line(30.0, -30.0), 0.4)] {
            assert!((stretch_along(&path, &cloth) - stretch).abs() < 1e-12, "{path:?}");
        }
        assert!((stretch_along(&quarter(50.0), &cloth) - 0.4).abs() < 1e-3);
        // A point that is there twice adds nothing, and no edge at all stretches by nothing.
        assert!((stretch_along(&line(0.0, 0.0).joined(line(30.0, 0.0)), &cloth) - 0.6).abs() < 1e-12);
        assert_eq!(stretch_along(&Path::new(Vec::new()), &cloth), 0.0);
    }

    fn plan() -> Plan {
        Plan::of(&support::sheet(&support::ordinary(), Base::named("brief").unwrap())).unwrap()
    }

    /// A tenth of it up to 5 mm; twice as wide, half as much.
    #[test]
    fn a_soft_edge_takes_up_the_less_the_more_stands_free() {
        assert_eq!([2.0, 5.0, 10.0, 20.0].map(takes_up), [10.0, 10.0, 5.0, 2.5]);
    }

    /// A trim of 12 mm stands free by all but its bite; what lies on the cloth or is folded round it does not.
    #[test]
    fn what_stands_free_is_what_no_row_holds() {
        let free = |kind: &str| {
            let mut finish = plan().finish.left_leg;
            finish.kind = FinishKind::named(kind).unwrap();
            let seam = finish.settings.seam;
            finish.settings = Settings::usual(Opening::LeftLeg, ClothKind::Knit, (12.0, 0.0), seam, 90.0);
            finish.lines = finish.kind.lines(&finish.settings);
            free_edge(&finish)
        };
        assert_eq!(free("trim"), Some((-9.0, 9.0)));
        // Half of it lies on the cloth, held 1.5 mm from its raw edge; the other half stands beyond.
        assert_eq!(free("lapped"), Some((-7.5, 7.5)));
        for kind in ["binding", "encased", "tunnel", "hem", "raw", "turned"] {
            assert_eq!(free(kind), None, "{kind}");
        }
    }

    /// As drawn out in all as the opening is, and further the way that it was cut smaller: to the whole from
    /// nine tenths and from eight.
    #[test]
    fn cloth_is_drawn_out_as_far_as_its_opening() {
        let stretched = 12.5;
        let change = |plan: &mut Plan, garment: &mut crate::garment::Garment| {
            (plan.cloth.ease_across, plan.cloth.ease_along) = (-0.1, -0.2);
            garment.openings.iter_mut().for_each(|walk| walk.worn.cloth_stretch = stretched);
        };
        found_on(change, |s| {
            for walk in &s.garment.openings {
                let cloth = WornCloth::of(s, walk);
                let ratio = cloth.drawn_out(Vec2::new(1.0, 0.0)) / cloth.drawn_out(Vec2::new(0.0, 1.0));
                assert!((ratio - 0.8 / 0.9).abs() < 1e-12, "{ratio}");
                let paths = s.topology.arcs(walk.opening).iter().map(|arc| net_edge(s.draft, arc).flatten(0.1));
                let steps: Vec<Vec2> =
                    paths.flat_map(|p| p.windows(2).map(|w| w[1] - w[0]).collect::<Vec<_>>()).collect();
                let length: f64 = steps.iter().map(|step| step.hypot()).sum();
                let worn: f64 = steps.iter().map(|step| cloth.drawn_out(*step)).sum();
                assert!((worn / length - 1.125).abs() < 1e-9, "{:?}: {worn} of {length}", walk.opening);
            }
            Vec::new()
        });
    }

    /// Where the row runs on a circle of radius R, an edge that stands free by d towards its middle is sewn
    /// to a line that is longer by d of R. An elastic that is 5 % shorter is stretched by a nineteenth.
    #[test]
    fn a_trim_flutes_by_the_radius_of_its_row() {
        let sewn = |reductions: [f64; 3]| {
            move |plan: &mut Plan, garment: &mut crate::garment::Garment| {
                // 15 mm with a bite of 3: the row lies 12 mm inside the finished edge.
                plan.finish.left_leg.settings.width = 15.0;
                plan.finish.left_leg.lines = plan.finish.left_leg.kind.lines(&plan.finish.left_leg.settings);
                (plan.cloth.ease_across, plan.cloth.ease_along) = (0.0, 0.0);
                for walk in &mut garment.openings {
                    walk.worn.cloth_stretch = 0.0;
                    for (section, reduction) in walk.sections.iter_mut().zip(reductions) {
                        section.reduction = Some(reduction);
                    }
                }
            }
        };
        found_on(sewn([5.0; 3]), |s| {
            let hollows = s.topology.arcs(Opening::LeftLeg).iter().flat_map(|arc| net_edge(s.draft, arc).hollows());
            let radius = hollows.map(|(_, radius)| radius).fold(f64::MAX, f64::min);
            let Some(EdgeFact::Flutes { longer, worn, takes_up, .. }) = fluting(s, Opening::LeftLeg) else {
                panic!("12 mm of it stand free")
            };
            assert!((longer - 1200.0 / (radius + 12.0)).abs() < 1e-9, "{longer} on {radius}");
            assert!((worn - 100.0 / 19.0).abs() < 1e-9 && (takes_up - 50.0 / 12.0).abs() < 1e-9, "{worn}, {takes_up}");
            // On the top edge an elastic is turned in: nothing stands free.
            assert_eq!(fluting(s, Opening::Top), None);
            Vec::new()
        });
        // Each part by its own reduction: a tenth stretches by a ninth, a fifth by a quarter.
        found_on(sewn([5.0, 10.0, 20.0]), |s| {
            let arcs = s.topology.arcs(Opening::LeftLeg);
            let Some(EdgeFact::Flutes { section, worn, .. }) = fluting(s, Opening::LeftLeg) else {
                panic!("it flutes")
            };
            let at = arcs.iter().position(|arc| arc.section == section).unwrap();
            assert!((worn - [100.0 / 19.0, 100.0 / 9.0, 25.0][at]).abs() < 1e-9, "{section:?}: {worn}");
            Vec::new()
        });
        // Stretched out by half as worn, it lies flat.
        found_on(sewn([100.0 / 3.0; 3]), |s| {
            assert_eq!(fluting(s, Opening::LeftLeg), None);
            Vec::new()
        });
    }

    /// Folded in by 15 mm on its hollow, an edge of cloth that stretches by 5 % does not land; what a woven can
    /// have instead folds nothing in.
    #[test]
    fn a_fold_wants_more_than_a_stiff_cloth_has() {
        let stiff = |plan: &mut Plan, _: &mut crate::garment::Garment| {
            (plan.cloth.stretch_across, plan.cloth.stretch_along) = (0.05, 0.05);
            plan.cloth.kind = ClothKind::Woven;
            let leg = &mut plan.finish.left_leg;
            leg.kind = FinishKind::named("encased").unwrap();
            leg.settings.width = 15.0;
            leg.lines = leg.kind.lines(&leg.settings);
        };
        let found = found_on(stiff, landing);
        assert!(!found.is_empty());
        for found in found {
            let Fact::Edge(EdgeFact::FoldOnCurve { section, needed, can, flat, .. }) = found.fact else {
                panic!("{found:?}")
            };
            assert!(section.opening == Opening::LeftLeg && needed > can && (can - 5.0).abs() < 1e-9, "{needed} {can}");
            let has = |name: &str| flat.iter().any(|kind| kind.name() == name);
            assert!(has("binding") && has("trim") && !has("tunnel") && !has("encased") && !has("raw"), "{flat:?}");
        }
    }

    /// 55 mm from a hip of 1,000 mm on; 20 mm less of hip, 0.4 mm less.
    #[test]
    fn a_smaller_body_is_covered_by_less() {
        for (hip, width) in [(1200.0, 55.0), (1000.0, 55.0), (980.0, 54.6), (800.0, 51.0)] {
            assert!((full_cover(hip) - width).abs() < 1e-9, "{hip}");
        }
    }

    /// Edgings that stand out on both sides make it wider, and that counts for cover.
    #[test]
    fn a_gusset_is_as_wide_as_worn() {
        let of = |width: f64, beyond: (f64, f64)| {
            let change = |plan: &mut Plan, _: &mut crate::garment::Garment| {
                (plan.gusset.width, plan.body.hip) = (width, 1000.0);
                plan.finish.left_leg.lines.elastic = Some((-3.0, beyond.0));
                plan.finish.right_leg.lines.elastic = Some((-3.0, beyond.1));
            };
            found_on(change, gusset_as_worn).into_iter().map(|f| f.fact).collect::<Vec<_>>()
        };
        assert_eq!(of(55.0, (0.0, 0.0)), []);
        assert_eq!(of(54.0, (0.0, 0.0)), [GussetFact::PartCover { width: 54.0, full: 55.0 }.into()]);
        assert_eq!(of(50.0, (2.0, 3.0)), [GussetFact::WiderAsWorn { width: 55.0, drafted: 50.0 }.into()]);
        assert_eq!(of(50.0, (2.0, 2.0)), [GussetFact::PartCover { width: 54.0, full: 55.0 }.into()]);
    }
}
