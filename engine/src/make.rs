//! All stages in a row: sheet, plan, draft, pieces, walk, checks, order of work, drawing.

use crate::draft::Draft;
use crate::drawing::Drawing;
use crate::finding::{Finding, Level};
use crate::garment::{Garment, Piece, Variant};
use crate::lay::Lay;
use crate::plan::Plan;
use crate::refused::{Reached, Refused};
use crate::sheet::Sheet;
use crate::stages;
use crate::words::Speech;
use crate::words::card::pictured;

/// A garment and the drawing of it.
#[derive(Clone, Debug)]
pub struct Made {
    /// The record.
    pub garment: Garment,
    /// What exporters draw.
    pub drawing: Drawing,
}

impl Made {
    /// With its pieces laid on the cloth.
    pub fn lay(&mut self, lays: Vec<Lay>) {
        pictured(&mut self.drawing, &lays, Speech(self.garment.units));
        self.garment.lays = lays;
    }
}

/// Makes a garment from a sheet, and its variants.
///
/// # Errors
/// [`Refused`] where the measurements and the style cannot become a garment, or one of its
/// variants.
pub fn make(sheet: &Sheet) -> Result<Made, Refused> {
    let Planned { garment, plan, draft, others } = planned(sheet)?;
    let drawing = stages::draw(sheet, &plan, &draft, &garment, &others);
    Ok(Made { garment, drawing })
}

/// The record alone: drafted, finished, walked, checked and put in order, but not drawn.
///
/// # Errors
/// [`Refused`] as [`make`].
pub fn record(sheet: &Sheet) -> Result<Garment, Refused> {
    planned(sheet).map(|p| p.garment)
}

/// A garment with what it was made by.
struct Planned {
    garment: Garment,
    plan: Plan,
    draft: Draft,
    /// Of its variants.
    others: Vec<Plan>,
}

fn planned(sheet: &Sheet) -> Result<Planned, Refused> {
    let (mut garment, plan, draft) = one(sheet).map_err(|refused| refused.with_suspicion())?;
    let mut others = Vec::with_capacity(sheet.variants.len());
    for variant in &sheet.variants {
        let name = &variant.name;
        // The sheet itself can be made: what is refused is the variant's own fault.
        let (other, plan, _) =
            one(&sheet.taking(variant)).map_err(|refused| refused.of_variant(name, &garment.checks))?;
        let new: Vec<Finding> = other.checks.iter().filter(|f| !garment.checks.contains(f)).cloned().collect();
        garment.checks.extend(new.into_iter().map(|f| f.of_variant(name)));
        garment.variants.push(Variant { name: name.clone(), garment: other });
        others.push(plan);
    }
    Ok(Planned { garment, plan, draft, others })
}

/// One garment, without variants.
fn one(sheet: &Sheet) -> Result<(Garment, Plan, Draft), Refused> {
    let mut reached = Reached::default();
    match garment(sheet, &mut reached) {
        Ok(made) => Ok(made),
        Err(found) => Err(Refused::new(sheet.units, found, reached)),
    }
}

/// Drafts and finishes alone: the pieces, without walking and checking them. For benches.
///
/// # Errors
/// [`Refused`] as [`make`].
pub fn pieces(sheet: &Sheet) -> Result<Vec<Piece>, Refused> {
    let pieces = || {
        let plan = stages::plan(sheet)?;
        let draft = stages::draft(&plan)?;
        stages::cut(&plan, &draft).map(|cut| cut.pieces)
    };
    pieces().map_err(|found| Refused::new(sheet.units, found, Reached::default()))
}

/// Every stage in turn; what was reached stays in `reached` where one refuses.
fn garment(sheet: &Sheet, reached: &mut Reached) -> Result<(Garment, Plan, Draft), Vec<Finding>> {
    let plan = &*reached.plan.insert(stages::plan(sheet)?);
    let draft = &*reached.draft.insert(stages::draft(plan)?);
    let rings = stages::cut_into(plan, draft, &mut reached.pieces)?;
    let mut garment = stages::walked(sheet, (plan, draft), &reached.pieces, &rings)?;
    let (refusals, others): (Vec<_>, Vec<_>) =
        stages::check(sheet, plan, draft, &garment).into_iter().partition(|f| f.level == Level::Refusal);
    if !refusals.is_empty() {
        reached.pieces = garment.pieces;
        return Err(refusals);
    }
    garment.checks = others;
    garment.order_of_work = stages::order(plan, &garment)?;
    Ok((garment, plan.clone(), draft.clone()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::construct::pieces::Pieces;
    use crate::construct::ring::Rings;
    use crate::construct::rings::rings;
    use crate::draft::solve_leg_edge;
    use crate::measure::walk;
    use crate::quantity::Ratio;
    use crate::sheet::WaistLevel;
    use crate::stages::{every_piece, unsound};
    use crate::support;
    use crate::topology::{EdgeId, NotchId, OutlineEdge, PieceId, SeamMark};
    use crate::topology::{Fault, pair};

    /// The stages up to the pieces, for damaging what they made.
    fn with_pieces(damage: impl FnOnce(&mut Vec<Piece>), walk: impl FnOnce(&[Piece], &Rings, &Pieces<'_>)) {
        let sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let plan = Plan::of(&sheet).unwrap();
        let draft = solve_leg_edge(&plan).unwrap();
        let names = Pieces::new(pair().unwrap(), &plan, &draft);
        let rings = rings(&plan, &names).unwrap();
        let mut pieces = Vec::new();
        every_piece(&names, &rings, &mut pieces).unwrap();
        damage(&mut pieces);
        walk(&pieces, &rings, &names);
    }

    /// What is looked for and is not there is refused by its name, whatever looks for it.
    #[test]
    fn a_part_that_is_missing_is_never_walked_as_nothing() {
        let missing = |piece: PieceId, edge: EdgeId| Fault::NotDrawn { piece: piece.name(), edge: edge.name() };
        let without = |edge: EdgeId| {
            move |pieces: &mut Vec<Piece>| {
                for piece in pieces {
                    piece.finished.edges.retain(|e| e.id.drafted() != Some(edge));
                }
            }
        };
        with_pieces(without(EdgeId::FrontSide), |pieces, rings, names| {
            assert_eq!(walk::seams(pieces, names).unwrap_err(), missing(PieceId::Front, EdgeId::FrontSide));
            assert_eq!(walk::crossings(pieces, rings, names).unwrap_err(), missing(PieceId::Front, EdgeId::FrontSide));
        });
        with_pieces(without(EdgeId::BackLeg), |pieces, rings, names| {
            assert!(walk::seams(pieces, names).is_ok());
            assert_eq!(walk::crossings(pieces, rings, names).unwrap_err(), missing(PieceId::Back, EdgeId::BackLeg));
        });
        let no_back = |pieces: &mut Vec<Piece>| pieces.retain(|p| p.id != PieceId::Back);
        with_pieces(no_back, |pieces, _, names| {
            assert_eq!(walk::seams(pieces, names).unwrap_err(), missing(PieceId::Back, EdgeId::BackSide));
        });
        let findings = unsound(missing(PieceId::Back, EdgeId::BackSide));
        assert_eq!((findings[0].code, findings[0].level), ("construction.unsound", Level::Refusal));
        let text = support::said(&findings[0]).text;
        assert!(text.contains("the back has no edge side"), "{text}");
    }

    /// Wrong sides together, both cut right side up: where the legs differ, each edge of the lining has to lie on
    /// that of the gusset.
    #[test]
    fn a_lining_is_its_gusset_turned_over() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.finish.left_leg = support::finish("hem", "");
        let garment = record(&sheet).unwrap();
        let piece = |id| garment.pieces.iter().find(|p| p.id == id).unwrap();
        let (gusset, lining) = (piece(PieceId::Gusset), piece(PieceId::GussetLining));
        assert!((gusset.bounds().x0 + gusset.bounds().x1).abs() > 1.0, "{:?}", gusset.bounds());
        for (outer, inner) in
            [(&gusset.cut, &lining.cut), (&gusset.sewing, &lining.sewing), (&gusset.finished, &lining.finished)]
        {
            assert!(inner.edges[0].path.start().x.abs() < 1e-9 && outer.edges[0].path.start().x.abs() < 1e-9);
            for (i, edge) in inner.edges.iter().enumerate() {
                assert_eq!(edge.path.mirrored().reversed(), outer.edge(edge.id).unwrap().path);
                let next = &inner.edges[(i + 1) % inner.edges.len()];
                assert!(edge.path.end().distance(next.path.start()) < 1e-9, "{:?} and {:?}", edge.id, next.id);
            }
        }
        for notch in &lining.notches {
            let (cut, finished) = (lining.cut.edge(notch.edge).unwrap(), lining.finished.edge(notch.edge).unwrap());
            let (there, _) = finished.path.at(notch.along);
            assert!(cut.path.at(cut.path.along(cut.path.nearest(notch.at))).0.distance(notch.at) < 0.01, "{notch:?}");
            assert!(there.distance(notch.at + notch.inward * (there - notch.at).dot(notch.inward)) < 0.01, "{notch:?}");
        }
    }

    /// Every notch lies on an edge that its piece has, and what it meets is there and meets it.
    #[test]
    fn notches_and_what_they_meet_belong_together() {
        for finish in ["hem", "band"] {
            let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
            // One leg of another kind: whole pieces, each edge on either side.
            sheet.finish.right_leg = support::finish(finish, "");
            let garment = record(&sheet).unwrap();
            let notches: Vec<_> = garment.pieces.iter().flat_map(|p| p.notches.iter().map(move |n| (p, n))).collect();
            for (piece, notch) in &notches {
                assert!(piece.cut.edge(notch.edge).is_some(), "{notch:?}");
                assert!(notch.edge != OutlineEdge::Centre && notch.to_stitches.is_finite() && notch.to_stitches > 0.0);
                assert_eq!(notches.iter().filter(|(_, other)| other.id == notch.id).count(), 1, "{notch:?}");
                let Some(mate) = notch.mate.filter(|_| piece.id != PieceId::GussetLining) else { continue };
                let (_, mate) = notches.iter().find(|(_, other)| other.id == mate).expect("it meets a notch");
                assert!(mate.mate == Some(notch.id) && mate.id != notch.id, "{notch:?} and {mate:?}");
            }
            assert!(notches.len() >= 16, "{}", notches.len());
            for (piece, notch) in &notches {
                let NotchId::Seam { mark, .. } = notch.id else { continue };
                let finished = piece.finished.edge(notch.edge).map(|e| e.path.clone()).unwrap();
                let sewn = piece.sewing.edge(notch.edge).map(|e| e.path.clone()).unwrap();
                let along = |end| finished.along(finished.nearest(end));
                match mark {
                    SeamMark::Middle => {
                        let middle = 0.5 * (along(sewn.start()) + along(sewn.end()));
                        assert!((notch.along - middle).abs() < 0.05, "{notch:?}");
                    }
                    SeamMark::Centre => assert!(notch.at.x.abs() < 1e-6, "{notch:?}"),
                    SeamMark::Pair => assert!((notch.at.x.abs() - 5.0).abs() < 0.1, "{notch:?}"),
                }
            }
        }
    }

    /// A hipster whose front top edge is cut above the level asked for at the sides, with deep folds
    /// at its legs.
    fn steep_front() -> Sheet {
        let body = support::Measures {
            waist: 762.1,
            level: WaistLevel::Natural,
            hip: 938.1,
            waist_to_hip: 232.7,
            crotch: 698.0,
            crotch_front: Some(321.6),
            thigh: None,
        };
        let mut sheet = support::sheet(&body, Base::named("hipster").unwrap());
        sheet.fabric.stretch_across = Ratio::from_percent(86.0);
        sheet.fabric.stretch_along = Ratio::from_percent(35.1);
        sheet.fabric.ease_along = Some(Ratio::from_percent(-2.5));
        sheet.style.top_drop_front = Some(support::mm(-31.2));
        sheet.style.back_cover = Some(0.75);
        sheet.gusset.front_width = Some(support::mm(107.5));
        sheet.gusset.layers = Some(1);
        sheet.seams.side = Some(support::mm(7.0));
        sheet.elastics.insert("deep".to_owned(), support::elastic(13.1));
        sheet.finish.top = support::finish("hem", "");
        for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
            *leg = support::elastic_finish("encased", "deep");
        }
        sheet
    }

    /// A deep fold at the foot of a slanting side seam turns back beside it; the seam is worn to its
    /// foot all the same, and its notch is in the middle of that, alike on front and back.
    #[test]
    fn a_side_notch_is_in_the_middle_where_a_fold_turns_back_beside_its_seam() {
        let garment = record(&steep_front()).unwrap();
        let folded_past = |id| {
            let piece = garment.pieces.iter().find(|p| p.id == id).unwrap();
            let notch = piece.notches.iter().find(|n| matches!(n.id, NotchId::Seam { mark: SeamMark::Middle, .. }));
            let notch = notch.unwrap();
            let worn = piece.finished.edge(notch.edge).map(|e| &e.path).unwrap();
            let sewn = piece.sewing.edge(notch.edge).map(|e| &e.path).unwrap();
            // From the hem's stitches at the top to the foot.
            let top_first = worn.start().y < worn.end().y;
            let (top, last) = if top_first { (sewn.start(), sewn.end()) } else { (sewn.end(), sewn.start()) };
            let down = |along: f64| if top_first { along } else { worn.length() - along };
            let (from, notch) = (down(worn.along(worn.nearest(top))), down(notch.along));
            assert!((notch - 0.5 * (from + worn.length())).abs() < 0.05, "{}: {notch}", id.name());
            (notch, worn.length() - down(worn.along(worn.nearest(last))))
        };
        let (front, back) = (folded_past(PieceId::Front), folded_past(PieceId::Back));
        assert!((front.0 - back.0).abs() < 0.01, "{front:?} {back:?}");
        assert!(front.1.max(back.1) > 0.5, "no fold turns back here: {front:?} {back:?}");
    }

    /// Halves and wholes alike: outlines close, and openings run on over their seams.
    #[test]
    fn outlines_close_and_openings_run_on() {
        for alike in [true, false] {
            let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
            if !alike {
                sheet.finish.left_leg = support::finish("hem", "");
            }
            let garment = record(&sheet).unwrap();
            for outline in garment.pieces.iter().flat_map(|p| [&p.cut, &p.sewing, &p.finished]) {
                for (edge, next) in outline.edges.iter().zip(outline.edges.iter().cycle().skip(1)) {
                    assert!(edge.path.end().distance(next.path.start()) < 1e-6, "{:?} to {:?}", edge.id, next.id);
                }
            }
            let area = |id| garment.pieces.iter().find(|p| p.id == id).map(|p| p.area_mm2);
            assert_eq!(area(PieceId::GussetLining), area(PieceId::Gusset), "layers that are sewn as one");
            assert_eq!(garment.crossings.len(), 8);
            for crossing in &garment.crossings {
                assert!((crossing.angle - 180.0).abs() < 0.5, "{:?}: {}", crossing.id, crossing.angle);
            }
            for seam in &garment.seams {
                assert!(seam.difference.abs() < 0.01 && (seam.sewn_a - seam.sewn_b).abs() < 0.05, "{seam:?}");
            }
        }
    }
}
