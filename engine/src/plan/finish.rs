//! The finish of each opening, filled in.

use super::ledger::Ledger;
use super::{ClothPlan, SeamPlan};
use crate::base::Base;
use crate::finding::Finding;
use crate::finding::fact::FinishFact;
use crate::finish::{FinishKind, Lines, Settings, Ways};
use crate::keys::{Field, PerEdge, finish as keys};
use crate::quantity::{Ratio, Units};
use crate::sheet::{Basis, Elastic, FinishSpec, Sheet};
use crate::terms::{ClothKind, Marks, Opening, PutOn, Reach, Section, Spread};
use std::collections::BTreeMap;

/// One opening's finish, complete.
#[derive(Clone, Debug)]
pub struct FinishPlan {
    /// Which finish.
    pub kind: FinishKind,
    /// Its measures.
    pub settings: Settings,
    /// Where its lines run.
    pub lines: Lines,
    /// Before the last seam of the edge is closed, or after.
    pub put_on: PutOn,
    /// The elastic, where the finish takes one.
    pub elastic: Option<ElasticPlan>,
    /// How long an elastic or a band is.
    pub length: Option<LengthPlan>,
    /// How many matching marks.
    pub marks: Marks,
    /// How the stretch is spread.
    pub spread: Spread,
    /// How much of the row is left open to thread the elastic through, mm.
    pub gap: Option<f64>,
}

/// The elastic of an opening.
#[derive(Clone, Debug)]
pub struct ElasticPlan {
    /// Its name in the sheet.
    pub name: String,
    /// As the sheet has it.
    pub elastic: Elastic,
}

/// What the length of an elastic or a band is taken from.
#[derive(Clone, Debug, PartialEq)]
pub struct LengthPlan {
    /// Of the whole.
    pub basis: Basis,
    /// Reductions of single sections, as fractions.
    pub sections: BTreeMap<Section, f64>,
}

/// The name of an opening's section in the sheet.
pub const fn section_name(opening: Opening) -> &'static str {
    match opening {
        Opening::Top => "top",
        Opening::LeftLeg => "left_leg",
        Opening::RightLeg => "right_leg",
    }
}

/// Fills in the finish of one opening.
pub(super) fn plan(
    sheet: &Sheet,
    opening: Opening,
    (cloth, seams, side_seam): (&ClothPlan, &SeamPlan, f64),
    ledger: &mut Ledger,
) -> Result<FinishPlan, Finding> {
    let spec = sheet.finish.get(opening);
    let kind = spec.kind;
    let at = |key: Field<PerEdge>| key.on(opening);
    ledger.given_word(at(keys::KIND), kind.name());
    if !kind.demands().met_by(cloth.kind) {
        return Err(FinishFact::ClothCannot { opening, kind, cloth: cloth.kind }.into());
    }
    let put_on = ledger.word(at(keys::PUT_ON), &PutOn::ALL, spec.put_on, kind.ways().usual());
    if (kind.ways(), put_on) == (Ways::RoundOnly, PutOn::Flat) {
        return Err(FinishFact::RoundOnly { opening, kind }.into());
    }
    runs_freely(spec, opening)?;
    let elastic = elastic(sheet, spec, opening)?;
    if let Some(elastic) = &elastic {
        ledger.given_word(at(keys::ELASTIC), &elastic.name);
    }
    let length = length(spec, opening, sheet.style.base, ledger)?;
    let mut settings = settings(sheet, opening, (cloth.kind, seams, side_seam), elastic.as_ref(), ledger);
    let (mut marks, mut spread) = (Marks::Quarters, Spread::Even);
    if length.is_some() {
        marks = ledger.word(at(keys::MARKS), &Marks::ALL, spec.marks, Marks::Quarters);
        if kind.takes_key(keys::SPREAD) {
            spread = ledger.word(at(keys::SPREAD), &Spread::ALL, spec.spread, Spread::Even);
        }
    }
    if elastic.is_some() {
        let usual = if sheet.units == Units::In { 25.4 } else { settings.overlap };
        settings.overlap = ledger.mm(at(keys::OVERLAP), spec.overlap, usual);
    }
    let (lines, gap) = (kind.lines(&settings), kind.gap(&settings));
    Ok(FinishPlan { kind, lines, settings, put_on, elastic, length, marks, spread, gap })
}

/// What is threaded through is held nowhere along the edge, and cannot be spread in parts.
fn runs_freely(spec: &FinishSpec, opening: Opening) -> Result<(), Finding> {
    let key = match spec {
        _ if !spec.kind.takes().runs_freely() => return Ok(()),
        _ if !spec.sections.is_empty() => keys::SECTIONS,
        _ if spec.spread == Some(Spread::Equal) => keys::SPREAD,
        _ => return Ok(()),
    };
    Err(FinishFact::RunsFreely { opening, kind: spec.kind, key }.into())
}

/// The keys of an opening's finish, with what is usual where the sheet does not say.
fn settings(
    sheet: &Sheet,
    opening: Opening,
    (cloth, seams, side_seam): (ClothKind, &SeamPlan, f64),
    elastic: Option<&ElasticPlan>,
    ledger: &mut Ledger,
) -> Settings {
    let spec = sheet.finish.get(opening);
    let kind = spec.kind;
    let reach = if kind.takes_key(keys::REACH) {
        ledger.word(keys::REACH.on(opening), &Reach::ALL, spec.reach, Reach::Keep)
    } else {
        Reach::Keep
    };
    let of = elastic.map_or((0.0, 0.0), |e| (e.elastic.width.mm(), e.elastic.picot.mm()));
    let usual = Settings::usual(opening, cloth, of, seams.side, side_seam);
    let mut mm = |key: Field<PerEdge>, given, usual| {
        if kind.takes_key(key) { ledger.mm(key.on(opening), given, usual) } else { usual }
    };
    Settings {
        reach,
        bite: mm(keys::BITE, spec.bite, usual.bite),
        lap: mm(keys::LAP, spec.lap, usual.lap),
        room: mm(keys::ROOM, spec.room, usual.room),
        catch: mm(keys::CATCH, spec.catch, usual.catch),
        turn: mm(keys::TURN, spec.turn, usual.turn),
        depth: mm(keys::DEPTH, spec.depth, usual.depth),
        band_width: mm(keys::WIDTH, spec.width, usual.band_width),
        ..usual
    }
}

fn elastic(sheet: &Sheet, spec: &FinishSpec, opening: Opening) -> Result<Option<ElasticPlan>, Finding> {
    if !spec.kind.takes().elastic() {
        return Ok(None);
    }
    let Some(name) = &spec.elastic else {
        return Err(FinishFact::NoElastic { opening, kind: spec.kind }.into());
    };
    let Some(elastic) = sheet.elastics.get(name) else {
        return Err(FinishFact::UnknownElastic { opening, name: name.clone() }.into());
    };
    Ok(Some(ElasticPlan { name: name.clone(), elastic: elastic.clone() }))
}

fn length(spec: &FinishSpec, opening: Opening, base: Base, ledger: &mut Ledger) -> Result<Option<LengthPlan>, Finding> {
    if !spec.kind.takes().length() {
        return Ok(None);
    }
    let basis = spec.basis.unwrap_or_else(|| {
        let (usual, why) = spec.kind.reductions().of(opening, base);
        let usual = Ratio::from_percent(usual);
        ledger.default_percent(keys::REDUCTION.on(opening), usual, why);
        Basis::Reduction(usual)
    });
    match spec.basis {
        Some(Basis::Reduction(given)) => {
            ledger.given_percent(keys::REDUCTION.on(opening), given);
        }
        Some(Basis::Length(given)) => {
            ledger.given_mm(keys::LENGTH.on(opening), given);
        }
        Some(Basis::Body) | None => {}
    }
    let sections: BTreeMap<_, _> = spec.sections.iter().map(|(s, r)| (*s, r.fraction())).collect();
    if spec.spread == Some(Spread::Equal) && !sections.is_empty() {
        return Err(FinishFact::TwoSpreads { opening }.into());
    }
    // A whole length is shared out to the sections that have no reduction of their own.
    let parts = if opening == Opening::Top { 2 } else { 3 };
    if !matches!(basis, Basis::Reduction(_)) && sections.len() == parts {
        return Err(FinishFact::TwoLengths { opening }.into());
    }
    Ok(Some(LengthPlan { basis, sections }))
}
