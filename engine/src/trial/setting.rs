//! The setting of an edge: how much shorter than its line what is sewn on is, and a sheet with
//! another one.

use crate::garment::{Garment, OpeningWalk};
use crate::keys::Edges;
use crate::quantity::{Length, Ratio, Units};
use crate::sheet::{Basis, FinishSpec, Sheet};
use crate::terms::{Opening, Section};

/// A reduction is written to so many percent.
pub const STEP: f64 = 0.5;

/// An edge, or both legs, and the only part of it that is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The edge, or both legs.
    pub edge: Edges,
    /// All of it without one.
    pub section: Option<Section>,
}

impl Spot {
    /// All of an edge.
    pub const fn whole(edge: Edges) -> Self {
        Self { edge, section: None }
    }

    /// The first of its openings; both legs of one spot are finished alike.
    pub const fn opening(self) -> Opening {
        match self.edge {
            Edges::Top => Opening::Top,
            Edges::Legs | Edges::LeftLeg => Opening::LeftLeg,
            Edges::RightLeg => Opening::RightLeg,
        }
    }
}

/// One opening of a garment.
pub fn walk(garment: &Garment, opening: Opening) -> Option<&OpeningWalk> {
    garment.openings.iter().find(|walk| walk.opening == opening)
}

/// The setting of an opening or a part of it, %; none where nothing is sewn on.
pub fn of(walk: &OpeningWalk, section: Option<Section>) -> Option<f64> {
    match section {
        None => walk.elastic.as_ref().map(|e| e.reduction).or(walk.band.as_ref().map(|b| b.reduction)),
        Some(section) => walk.sections.iter().find(|s| s.id.section == section)?.reduction,
    }
}

/// The stretch on the body at a setting, and back: both %, where the cloth of the opening alone is
/// stretched by `cloth` %. With k = 1 + cloth, s = k/(1 − r) − 1.
pub fn worn_stretch(setting: f64, cloth: f64) -> f64 {
    100.0 * ((1.0 + cloth / 100.0) / (1.0 - setting / 100.0) - 1.0)
}

/// The setting that is worn at a stretch; see [`worn_stretch`].
pub fn at_stretch(stretch: f64, cloth: f64) -> f64 {
    100.0 * (1.0 - (1.0 + cloth / 100.0) / (1.0 + stretch / 100.0))
}

/// The sheet with this setting, %, in place of the one in its garment. Where sections differ they
/// keep their pattern: to a smaller setting all shrink in proportion, so that what lies flat stays
/// flat; to a larger one all grow by the same.
pub fn set(sheet: &Sheet, garment: &Garment, spot: Spot, to: f64) -> Sheet {
    let mut new = sheet.clone();
    for opening in spot.edge.openings() {
        let Some(walk) = walk(garment, *opening) else { continue };
        let Some(now) = of(walk, spot.section) else { continue };
        let spec = spec(&mut new, *opening);
        match spot.section {
            Some(section) => {
                spec.sections.insert(section, Ratio::from_percent(rounded(to)));
            }
            None => set_whole(spec, now, to, sheet.units),
        }
        let from_body = spec.basis == Some(Basis::Body) && spot.section.is_none();
        if let (true, Some(length)) = (from_body, new.body.elastic_top) {
            new.body.elastic_top = Some(longer(length, now, to, sheet.units));
        }
    }
    new
}

/// The finish of an opening, to be changed.
pub(super) const fn spec(sheet: &mut Sheet, opening: Opening) -> &mut FinishSpec {
    match opening {
        Opening::Top => &mut sheet.finish.top,
        Opening::LeftLeg => &mut sheet.finish.left_leg,
        Opening::RightLeg => &mut sheet.finish.right_leg,
    }
}

fn set_whole(spec: &mut FinishSpec, now: f64, to: f64, units: Units) {
    let carried = |r: f64| if to < now && now > 0.0 { r * to / now } else { r + to - now };
    match spec.basis {
        Some(Basis::Length(length)) => spec.basis = Some(Basis::Length(longer(length, now, to, units))),
        Some(Basis::Body) => {}
        Some(Basis::Reduction(_)) | None if spec.sections.is_empty() => {
            spec.basis = Some(Basis::Reduction(Ratio::from_percent(rounded(to))));
        }
        Some(Basis::Reduction(_)) | None => {
            let rest = spec.basis.map_or(now, |basis| if let Basis::Reduction(r) = basis { r.percent() } else { now });
            spec.basis = Some(Basis::Reduction(Ratio::from_percent(rounded(carried(rest)))));
            for own in spec.sections.values_mut() {
                *own = Ratio::from_percent(rounded(carried(own.percent())));
            }
        }
    }
}

fn longer(length: Length, now: f64, to: f64, units: Units) -> Length {
    as_set(length.mm() * (1.0 - to / 100.0) / (1.0 - now / 100.0), units)
}

/// To the nearest half percent.
pub fn rounded(percent: f64) -> f64 {
    // A setting of hardly less than nothing is 0, not −0.
    (percent / STEP).round() * STEP + 0.0
}

/// As a tool is set: to 0.5 mm, or 1/32 in.
pub fn as_set(mm: f64, units: Units) -> Length {
    let step = match units {
        Units::Cm | Units::Mm => Length::from_nm(500_000),
        Units::In => Length::from_nm(Units::In.nm() / 32),
    };
    Length::from_nm((mm / step.mm()).round() as i64 * step.nm())
}
