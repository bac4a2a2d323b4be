//! The way through: sheet, plan, draft, finishes, walk, checks, drawing.

use crate::check;
use crate::construct::pieces::{Part, Pieces, band, lining};
use crate::construct::rings::{Rings, rings};
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
use crate::work;

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
    let (garment, plan, others) = planned(sheet)?;
    let drawing = plot::drawing(&garment, &plan, &others, &sheet.trials);
    Ok(Made { garment, drawing })
}

/// The record alone: drafted, finished, walked, checked and put in order, but not drawn.
///
/// # Errors
/// [`Refused`] as [`make`].
pub fn record(sheet: &Sheet) -> Result<Garment, Refused> {
    planned(sheet).map(|(garment, ..)| garment)
}

/// The garment with its plan, and the plan of each of its alternatives.
fn planned(sheet: &Sheet) -> Result<(Garment, Plan, Vec<Plan>), Refused> {
    let (mut garment, plan) = one(sheet).map_err(|refused| refused.with_suspicion())?;
    let mut plans = Vec::with_capacity(sheet.alternatives.len());
    for alternative in &sheet.alternatives {
        let name = &alternative.name;
        // The sheet's own finishes can be made: what is refused is the alternative's own fault.
        let (other, plan) = one(&sheet.taking(alternative)).map_err(|refused| refused.of_variant(name))?;
        let new: Vec<Finding> = other.checks.iter().filter(|f| !garment.checks.contains(f)).cloned().collect();
        garment.checks.extend(new.into_iter().map(|f| f.of_variant(name)));
        garment.alternatives.push(Alternative { name: name.clone(), garment: other });
        plans.push(plan);
    }
    Ok((garment, plan, plans))
}

/// One garment, without alternatives.
fn one(sheet: &Sheet) -> Result<(Garment, Plan), Refused> {
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
        let names = Pieces::new(&plan, &draft);
        let rings = rings(&plan, &names).map_err(alone)?;
        let mut pieces = Vec::new();
        every_piece(&names, &rings, &mut pieces).map(|()| pieces)
    };
    pieces().map_err(|found| Refused::new(sheet.units, found, Reached::default()))
}

fn alone(finding: Finding) -> Vec<Finding> {
    vec![finding]
}

/// Adds every piece that can be drawn.
fn every_piece(names: &Pieces<'_>, rings: &Rings, pieces: &mut Vec<Piece>) -> Result<(), Vec<Finding>> {
    let mut refused = Vec::new();
    for part in Part::ALL {
        match names.piece(part, rings) {
            Ok(piece) => pieces.push(piece),
            Err(finding) => refused.push(finding),
        }
    }
    if refused.is_empty() { Ok(()) } else { Err(refused) }
}

fn garment(sheet: &Sheet, reached: &mut Reached) -> Result<(Garment, Plan), Vec<Finding>> {
    let plan = &*reached.plan.insert(Plan::of(sheet)?);
    let draft = &*reached.draft.insert(solve_leg_edge(plan).map_err(alone)?);
    let names = Pieces::new(plan, draft);
    let rings = rings(plan, &names).map_err(alone)?;
    every_piece(&names, &rings, &mut reached.pieces)?;
    let mut garment = walked(sheet, (plan, draft), &names, &rings, &reached.pieces);
    let checks = check::all(&check::Subject { plan, draft, garment: &garment, units: sheet.units });
    let (refusals, others): (Vec<_>, Vec<_>) = checks.into_iter().partition(|f| f.level == Level::Refusal);
    if !refusals.is_empty() {
        reached.pieces = garment.pieces;
        return Err(refusals);
    }
    garment.checks = others;
    garment.order_of_work = work::order(plan, &garment).map_err(alone)?;
    Ok((garment, plan.clone()))
}

/// The garment as measured, not yet checked and put in order.
fn walked(
    sheet: &Sheet,
    (plan, draft): (&Plan, &Draft),
    names: &Pieces<'_>,
    rings: &Rings,
    pieces: &[Piece],
) -> Garment {
    let mut pieces = pieces.to_vec();
    let seams = walk::seams(&pieces, names);
    let crossings = walk::crossings(&pieces, &seams, rings, names);
    let at_rest = at_rest(plan, draft);
    let openings = Opening::ALL.map(|o| walk::opening(plan, (draft, &at_rest), &pieces, names, rings, o)).to_vec();
    pieces.extend(extra_pieces(plan, &pieces, &openings));
    Garment {
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
    }
}

/// What is cut beside front, back and gusset: the gusset's second layer, and bands.
fn extra_pieces(plan: &Plan, pieces: &[Piece], openings: &[OpeningWalk]) -> Vec<Piece> {
    let gusset = pieces.iter().find(|p| p.name == Part::Gusset.name());
    let lining = gusset.filter(|_| plan.gusset.layers > 1).map(lining);
    let mut extra: Vec<Piece> = lining.into_iter().collect();
    for walk in openings {
        let Some(cut) = &walk.band else { continue };
        if let Some(same) = extra.iter_mut().find(|p| p.name == cut.piece) {
            same.quantity += 1;
            continue;
        }
        let lengths: Vec<f64> = walk.sections.iter().filter_map(|s| s.elastic_length).collect();
        extra.push(band(plan.finish.get(walk.opening), cut, &lengths, 1, &plan.cloth.name));
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
