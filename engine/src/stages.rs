//! The stages, each callable alone: pure functions from one kind of value to the next, without
//! threads, files or a clock.
//!
//! [`crate::make`] calls them one after the other. Whoever shows a garment live, sweeps a knob or
//! walks a damaged piece enters where it suits:
//!
//! ```
//! use engine::base::Base;
//! use engine::finish::FinishKind;
//! use engine::quantity::Length;
//! use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};
//! use engine::stages;
//!
//! let mm = Length::from_whole_mm;
//! let hem = FinishSpec::new(FinishKind::named("hem").expect("a hem is in the table"));
//! let body = Body::new(mm(740), mm(980), mm(200), mm(710));
//! let style = Style::new(Base::named("brief").expect("a brief is in the table"));
//! let sheet = Sheet::new("stages", body, Fabric::new(60.0, 40.0), style, hem.everywhere());
//!
//! let plan = stages::plan(&sheet)?;
//! let draft = stages::draft(&plan)?;
//! let cut = stages::cut(&plan, &draft)?;
//! let garment = stages::walk(&sheet, &plan, &draft, &cut)?;
//! assert!(garment.seams.iter().all(|seam| seam.difference.abs() < 0.01), "seams fit");
//! assert!(stages::check(&sheet, &plan, &draft, &garment).iter().all(|f| f.code != "seam.unequal"));
//! assert!(!stages::order(&plan, &garment)?.is_empty());
//! # Ok::<(), Vec<engine::finding::Finding>>(())
//! ```

use crate::construct::pieces::{Pieces, band, layer};
use crate::construct::ring::Rings;
use crate::construct::rings::rings;
use crate::draft::{Draft, draft_on, solve_leg_edge};
use crate::drawing::Drawing;
use crate::drawing::plot;
use crate::finding::Finding;
use crate::garment::{Garment, OpeningWalk, Piece, Step};
use crate::measure::{elastic, walk as walks};
use crate::plan::Plan;
use crate::sheet::Sheet;
use crate::terms::{ClothKind, Opening};
use crate::topology::{Fault, PAIR, pair};
use crate::{check as checks, construct, work};

/// Why a stage cannot be passed: every reason.
pub type Reasons = Vec<Finding>;

/// Defaults and estimates filled in, each one listed.
///
/// # Errors
/// Every reason why the sheet cannot be filled in.
pub fn plan(sheet: &Sheet) -> Result<Plan, Reasons> {
    Plan::of(sheet)
}

/// The net pieces: where the garment ends on the body. Solves for a wanted leg edge.
///
/// # Errors
/// The measurement or knob that makes the draft impossible.
pub fn draft(plan: &Plan) -> Result<Draft, Reasons> {
    solve_leg_edge(plan).map_err(alone)
}

/// The pieces as they are cut, and the openings round them.
#[derive(Clone, Debug)]
pub struct Cut {
    /// Front, back and gusset.
    pub pieces: Vec<Piece>,
    rings: Rings,
}

/// Finishes and allowances laid round the net pieces.
///
/// # Errors
/// Every piece that a finish does not fit.
pub fn cut(plan: &Plan, draft: &Draft) -> Result<Cut, Reasons> {
    let mut pieces = Vec::new();
    let rings = cut_into(plan, draft, &mut pieces)?;
    Ok(Cut { pieces, rings })
}

/// As [`cut`]; what can be drawn is left in `pieces` where something cannot.
pub(crate) fn cut_into(plan: &Plan, draft: &Draft, pieces: &mut Vec<Piece>) -> Result<Rings, Reasons> {
    let names = Pieces::new(pair().map_err(unsound)?, plan, draft);
    let rings = rings(plan, &names).map_err(alone)?;
    every_piece(&names, &rings, pieces)?;
    Ok(rings)
}

/// Every seam, crossing and opening measured on the pieces; elastics, bands and linings added.
/// The garment has no checks and no order of work yet.
///
/// # Errors
/// A part that is missing.
pub fn walk(sheet: &Sheet, plan: &Plan, draft: &Draft, cut: &Cut) -> Result<Garment, Reasons> {
    walked(sheet, (plan, draft), &cut.pieces, &cut.rings)
}

/// What the checks find, refusals among it.
pub fn check(sheet: &Sheet, plan: &Plan, draft: &Draft, garment: &Garment) -> Vec<Finding> {
    match pair() {
        Ok(topology) => checks::all(&checks::Subject { topology, plan, draft, garment, units: sheet.units }),
        Err(fault) => unsound(fault),
    }
}

/// The order of work.
///
/// # Errors
/// Where the choices of the sheet cannot be sewn in any order.
pub fn order(plan: &Plan, garment: &Garment) -> Result<Vec<Step>, Reasons> {
    work::order(plan, garment).map_err(alone)
}

/// What exporters draw. `variants` are the plans of the garment's own, in their order.
pub fn draw(sheet: &Sheet, plan: &Plan, draft: &Draft, garment: &Garment, variants: &[Plan]) -> Drawing {
    plot::drawing(garment, (plan, draft), variants, &sheet.trials)
}

fn alone(finding: Finding) -> Reasons {
    vec![finding]
}

pub(crate) fn unsound(fault: Fault) -> Reasons {
    alone(construct::unsound(fault))
}

/// Adds every piece that can be drawn.
pub(crate) fn every_piece(names: &Pieces<'_>, rings: &Rings, pieces: &mut Vec<Piece>) -> Result<(), Reasons> {
    let mut refused = Vec::new();
    for piece in names.topology().pieces {
        match names.piece(piece, rings) {
            Ok(piece) => pieces.push(piece),
            Err(finding) => refused.push(finding),
        }
    }
    if refused.is_empty() { Ok(()) } else { Err(refused) }
}

/// The garment as measured, not yet checked and put in order.
pub(crate) fn walked(
    sheet: &Sheet,
    (plan, draft): (&Plan, &Draft),
    pieces: &[Piece],
    rings: &Rings,
) -> Result<Garment, Reasons> {
    let names = &Pieces::new(pair().map_err(unsound)?, plan, draft);
    let mut pieces = pieces.to_vec();
    let seams = walks::seams(&pieces, names).map_err(unsound)?;
    let crossings = walks::crossings(&pieces, rings, names).map_err(unsound)?;
    let at_rest = at_rest(plan, draft);
    let openings = Opening::ALL
        .into_iter()
        .map(|o| walks::opening(plan, (draft, &at_rest), &pieces, names, rings, o))
        .collect::<Result<Vec<_>, _>>()
        .map_err(unsound)?;
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
        variants: Vec::new(),
        lays: Vec::new(),
    })
}

/// What is cut beside front, back and gusset: the gusset's second layer, and bands.
fn extra_pieces(plan: &Plan, pieces: &[Piece], openings: &[OpeningWalk]) -> Vec<Piece> {
    let layers = PAIR.copies.iter().filter(|_| plan.gusset.layers > 1);
    let of = |id| pieces.iter().find(|p| p.id == id);
    let mut extra: Vec<Piece> =
        layers.filter_map(|copy| of(copy.of).map(|piece| layer(piece, copy.piece, plan.legs_alike()))).collect();
    for walk in openings {
        let Some(cut) = &walk.band else { continue };
        if let Some(same) = extra.iter_mut().find(|p| p.id == cut.piece) {
            same.quantity += 1;
            continue;
        }
        let finish = plan.finish.get(walk.opening);
        extra.push(band(finish, cut, &elastic::band_notches(cut), &plan.cloth.name));
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
    draft_on(&draft.form, &flat, &draft.knobs).unwrap_or_else(|_| draft.clone())
}
