//! The way through the house: sheet, plan, draft, finishes, walk, checks, drawing.

use crate::check;
use crate::construct::pieces::{Part, Pieces, band, lining};
use crate::construct::rings::rings;
use crate::draft::{Draft, draft_with, solve_leg_edge};
use crate::drawing::Drawing;
use crate::drawing::plot;
use crate::garment::{Alternative, Finding, Garment, Level, OpeningWalk, Piece};
use crate::measure::{elastic, walk};
use crate::plan::Plan;
use crate::sheet::Sheet;
use crate::terms::{ClothKind, Opening};
use crate::{sheet, work};

/// A garment and the drawing of it.
#[derive(Clone, Debug)]
pub struct Made {
    /// The record.
    pub garment: Garment,
    /// What exporters draw.
    pub drawing: Drawing,
}

/// The sheet was understood, but this garment cannot be made: every reason, with what to change.
/// A finding has the level `Refusal`, or says what may be behind the others; its `place` is a key of the sheet (`gusset.front_width`)
/// or a part of the garment.
#[derive(Clone, Debug, thiserror::Error)]
#[error("the garment is refused: {}", .0.iter().map(|f| f.text.as_str()).collect::<Vec<_>>().join("; "))]
pub struct Refused(pub Vec<Finding>);

/// Makes a garment from a sheet, and its alternatives.
///
/// # Errors
/// [`Refused`] where the measurements and the style cannot become a garment, or one of its
/// alternatives.
pub fn make(sheet: &Sheet) -> Result<Made, Refused> {
    let Planned { garment, draft, plan, others } = planned(sheet)?;
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
    draft: Draft,
    plan: Plan,
    /// Of its alternatives.
    others: Vec<Plan>,
}

fn planned(sheet: &Sheet) -> Result<Planned, Refused> {
    let plan = Plan::of(sheet).map_err(Refused)?;
    let (mut garment, draft) = garment(sheet, &plan).map_err(|refused| with_suspicion(refused, sheet, &plan))?;
    let mut others = Vec::with_capacity(sheet.alternatives.len());
    for alternative in &sheet.alternatives {
        let (other, plan) = other(sheet, alternative)?;
        let known =
            |f: &&Finding| !garment.checks.iter().any(|k| (k.code, &k.place, &k.text) == (f.code, &f.place, &f.text));
        let new: Vec<Finding> = other.checks.iter().filter(known).map(|f| of(f.clone(), &alternative.name)).collect();
        garment.checks.extend(new);
        garment.alternatives.push(Alternative { name: alternative.name.clone(), garment: other });
        others.push(plan);
    }
    Ok(Planned { garment, draft, plan, others })
}

/// One of the alternatives of a sheet whose own finishes can be made: what is refused is its own fault.
fn other(sheet: &Sheet, alternative: &sheet::Alternative) -> Result<(Garment, Plan), Refused> {
    let sheet = sheet.taking(alternative);
    let made = Plan::of(&sheet).map_err(Refused).and_then(|plan| Ok((garment(&sheet, &plan)?.0, plan)));
    let refused = |mut finding: Finding| {
        finding.next += "; the sheet’s own finishes can be made: without this alternative it is drafted";
        of(finding, &alternative.name)
    };
    made.map_err(|Refused(findings)| Refused(findings.into_iter().map(refused).collect()))
}

/// A finding about an alternative says so by its place.
fn of(finding: Finding, alternative: &str) -> Finding {
    Finding { place: sheet::place_in(alternative, &finding.place), ..finding }
}

/// A mistaken number or unit is the usual cause of an impossible garment.
fn with_suspicion(Refused(mut findings): Refused, sheet: &Sheet, plan: &Plan) -> Refused {
    findings.extend(check::unlike_published(plan, sheet.units));
    Refused(findings)
}

/// Drafts and finishes alone: the pieces, without walking and checking them. For benches.
///
/// # Errors
/// [`Refused`] as [`make`].
pub fn pieces(sheet: &Sheet) -> Result<Vec<Piece>, Refused> {
    let plan = Plan::of(sheet).map_err(Refused)?;
    let draft = solve_leg_edge(&plan).map_err(|f| Refused(vec![f]))?;
    let names = Pieces::new(&plan, &draft);
    let rings = rings(&plan, &names).map_err(|f| Refused(vec![f]))?;
    every_piece(&names, &rings)
}

fn every_piece(names: &Pieces<'_>, rings: &crate::construct::rings::Rings) -> Result<Vec<Piece>, Refused> {
    let (mut pieces, mut refused) = (Vec::new(), Vec::new());
    for part in Part::ALL {
        match names.piece(part, rings) {
            Ok(piece) => pieces.push(piece),
            Err(finding) => refused.push(finding),
        }
    }
    if refused.is_empty() { Ok(pieces) } else { Err(Refused(refused)) }
}

fn garment(sheet: &Sheet, plan: &Plan) -> Result<(Garment, Draft), Refused> {
    let draft = solve_leg_edge(plan).map_err(|f| Refused(vec![f]))?;
    let names = Pieces::new(plan, &draft);
    let rings = rings(plan, &names).map_err(|f| Refused(vec![f]))?;
    let mut pieces = every_piece(&names, &rings)?;
    let seams = walk::seams(&pieces, &names);
    let crossings = walk::crossings(&pieces, &seams, &rings, &names);
    let at_rest = at_rest(plan, &draft);
    let openings = Opening::ALL.map(|o| walk::opening(plan, (&draft, &at_rest), &pieces, &names, &rings, o)).to_vec();
    pieces.extend(extra_pieces(plan, &pieces, &openings));
    let mut garment = Garment {
        name: sheet.name.clone(),
        date: sheet.date.clone(),
        used: plan.used.clone(),
        pieces,
        seams,
        crossings,
        elastics: elastic::totals(&openings),
        openings,
        checks: Vec::new(),
        order_of_work: Vec::new(),
        alternatives: Vec::new(),
    };
    let checks = check::all(&check::Subject { plan, draft: &draft, garment: &garment, units: sheet.units });
    let (refusals, others): (Vec<_>, Vec<_>) = checks.into_iter().partition(|f| f.level == Level::Refusal);
    if !refusals.is_empty() {
        return Err(Refused(refusals));
    }
    garment.checks = others;
    garment.order_of_work = work::order(plan, &garment).map_err(|f| Refused(vec![f]))?;
    Ok((garment, draft))
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
