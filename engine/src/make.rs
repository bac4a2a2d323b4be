//! The way through: sheet, plan, draft, finishes, walk, checks, drawing.

use crate::check;
use crate::construct::pieces::{Pieces, band, layer};
use crate::construct::ring::Rings;
use crate::construct::rings::rings;
use crate::draft::{Draft, draft_with, solve_leg_edge};
use crate::drawing::Drawing;
use crate::drawing::plot;
use crate::finding::{Finding, Level};
use crate::garment::{Alternative, Garment, OpeningWalk, Piece};
use crate::measure::{elastic, walk};
use crate::plan::Plan;
use crate::refused::{Reached, Refused};
use crate::sheet::Sheet;
use crate::terms::{ClothKind, Opening};
use crate::topology::{Fault, PAIR, pair};
use crate::{construct, work};

/// A garment and the drawing of it.
#[derive(Clone, Debug)]
pub struct Made {
    /// The record.
    pub garment: Garment,
    /// What exporters draw.
    pub drawing: Drawing,
}

/// Makes a garment from a sheet, and its alternatives.
///
/// # Errors
/// [`Refused`] where the measurements and the style cannot become a garment, or one of its
/// alternatives.
pub fn make(sheet: &Sheet) -> Result<Made, Refused> {
    let Planned { garment, plan, draft, others } = planned(sheet)?;
    let drawing = plot::drawing(&garment, (&plan, &draft), &others, &sheet.trials);
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
    /// Of its alternatives.
    others: Vec<Plan>,
}

fn planned(sheet: &Sheet) -> Result<Planned, Refused> {
    let (mut garment, plan, draft) = one(sheet).map_err(|refused| refused.with_suspicion())?;
    let mut others = Vec::with_capacity(sheet.alternatives.len());
    for alternative in &sheet.alternatives {
        let name = &alternative.name;
        // The sheet's own finishes can be made: what is refused is the alternative's own fault.
        let (other, plan, _) = one(&sheet.taking(alternative)).map_err(|refused| refused.of_variant(name))?;
        let new: Vec<Finding> = other.checks.iter().filter(|f| !garment.checks.contains(f)).cloned().collect();
        garment.checks.extend(new.into_iter().map(|f| f.of_variant(name)));
        garment.alternatives.push(Alternative { name: name.clone(), garment: other });
        others.push(plan);
    }
    Ok(Planned { garment, plan, draft, others })
}

/// One garment, without alternatives.
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
        let plan = Plan::of(sheet)?;
        let draft = solve_leg_edge(&plan).map_err(alone)?;
        let names = Pieces::new(pair().map_err(unsound)?, &plan, &draft);
        let rings = rings(&plan, &names).map_err(alone)?;
        let mut pieces = Vec::new();
        every_piece(&names, &rings, &mut pieces).map(|()| pieces)
    };
    pieces().map_err(|found| Refused::new(sheet.units, found, Reached::default()))
}

fn alone(finding: Finding) -> Vec<Finding> {
    vec![finding]
}

fn unsound(fault: Fault) -> Vec<Finding> {
    alone(construct::unsound(fault))
}

/// Adds every piece that can be drawn.
fn every_piece(names: &Pieces<'_>, rings: &Rings, pieces: &mut Vec<Piece>) -> Result<(), Vec<Finding>> {
    let mut refused = Vec::new();
    for piece in names.topology().pieces {
        match names.piece(piece, rings) {
            Ok(piece) => pieces.push(piece),
            Err(finding) => refused.push(finding),
        }
    }
    if refused.is_empty() { Ok(()) } else { Err(refused) }
}

fn garment(sheet: &Sheet, reached: &mut Reached) -> Result<(Garment, Plan, Draft), Vec<Finding>> {
    let plan = &*reached.plan.insert(Plan::of(sheet)?);
    let draft = &*reached.draft.insert(solve_leg_edge(plan).map_err(alone)?);
    let names = Pieces::new(pair().map_err(unsound)?, plan, draft);
    let rings = rings(plan, &names).map_err(alone)?;
    every_piece(&names, &rings, &mut reached.pieces)?;
    let mut garment = walked(sheet, (plan, draft), &names, &rings, &reached.pieces).map_err(unsound)?;
    let subject = check::Subject { topology: names.topology(), plan, draft, garment: &garment, units: sheet.units };
    let (refusals, others): (Vec<_>, Vec<_>) =
        check::all(&subject).into_iter().partition(|f| f.level == Level::Refusal);
    if !refusals.is_empty() {
        reached.pieces = garment.pieces;
        return Err(refusals);
    }
    garment.checks = others;
    garment.order_of_work = work::order(plan, &garment).map_err(alone)?;
    Ok((garment, plan.clone(), draft.clone()))
}

/// The garment as measured, not yet checked and put in order.
fn walked(
    sheet: &Sheet,
    (plan, draft): (&Plan, &Draft),
    names: &Pieces<'_>,
    rings: &Rings,
    pieces: &[Piece],
) -> Result<Garment, Fault> {
    let mut pieces = pieces.to_vec();
    let seams = walk::seams(&pieces, names)?;
    let crossings = walk::crossings(&pieces, rings, names)?;
    let at_rest = at_rest(plan, draft);
    let openings = Opening::ALL
        .into_iter()
        .map(|o| walk::opening(plan, (draft, &at_rest), &pieces, names, rings, o))
        .collect::<Result<Vec<_>, _>>()?;
    pieces.extend(extra_pieces(plan, &pieces, &openings));
    Ok(Garment {
        name: sheet.name.clone(),
        date: sheet.date.clone(),
        units: sheet.units,
        used: plan.used.clone(),
        pieces,
        seams,
        crossings,
        elastics: elastic::totals(&openings),
        openings,
        checks: Vec::new(),
        order_of_work: Vec::new(),
        alternatives: Vec::new(),
    })
}

/// What is cut beside front, back and gusset: the gusset's second layer, and bands.
fn extra_pieces(plan: &Plan, pieces: &[Piece], openings: &[OpeningWalk]) -> Vec<Piece> {
    let layers = PAIR.copies.iter().filter(|_| plan.gusset.layers > 1);
    let of = |id| pieces.iter().find(|p| p.id == id);
    let mut extra: Vec<Piece> = layers.filter_map(|copy| of(copy.of).map(|piece| layer(piece, copy.piece))).collect();
    for walk in openings {
        let Some(cut) = &walk.band else { continue };
        if let Some(same) = extra.iter_mut().find(|p| p.id == cut.piece) {
            same.quantity += 1;
            continue;
        }
        let lengths: Vec<f64> = walk.sections.iter().filter_map(|s| s.elastic_length).collect();
        let finish = plan.finish.get(walk.opening);
        extra.push(band(finish, cut, &elastic::band_notches(finish, cut, &lengths), &plan.cloth.name));
    }
    extra
}

/// The same draft at zero ease: the lines on the body itself.
fn at_rest(plan: &Plan, draft: &Draft) -> Draft {
    let mut flat = plan.clone();
    (flat.cloth.ease_across, flat.cloth.ease_along) = (0.0, 0.0);
    // A woven top is widened until it passes the hips; the body under it is not.
    flat.cloth.kind = ClothKind::Knit;
    // Where zero ease cannot be drawn, the garment's own lines are the nearest there is.
    draft_with(&flat, &draft.knobs).unwrap_or_else(|_| draft.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;
    use crate::topology::{EdgeId, NotchId, OutlineEdge, PieceId, SeamMark};

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
