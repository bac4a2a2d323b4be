//! What a test garment was, beside what was said of it: one block of the sheet.

use super::setting::{self, Spot, as_set};
use crate::finish::Takes;
use crate::garment::{Garment, Worn};
use crate::quantity::Ratio;
use crate::sheet::{Sheet, Trial};
use crate::terms::Verdict;

/// A block about one edge of today's garment, or a part of it. Figures are kept to a tenth of a
/// percent.
pub fn row(sheet: &Sheet, garment: &Garment, spot: Spot, verdict: Verdict) -> Trial {
    let opening = spot.opening();
    let walk = setting::walk(garment, opening);
    let spec = sheet.finish.get(opening);
    let setting = walk.and_then(|walk| setting::of(walk, spot.section));
    let tenth = |percent: f64| Ratio::from_percent((percent * 10.0).round() / 10.0);
    let stretch = |worn: &Worn| match (setting, spot.section) {
        (Some(setting), _) => Some(setting::worn_stretch(setting, worn.cloth_stretch)),
        (None, None) => Some(worn.stretch),
        (None, Some(_)) => None,
    };
    let length = walk.and_then(|w| {
        let of_band = w.band.as_ref().map(|band| band.length);
        w.elastic.as_ref().map(|elastic| elastic.finished_length).or(of_band)
    });
    Trial {
        date: None,
        edge: spot.edge,
        section: spot.section,
        finish: Some(spec.kind),
        elastic: spec.elastic.clone().filter(|_| spec.kind.takes() != Takes::Nothing),
        reduction: setting.map(tenth),
        length: length.map(|mm| as_set(mm, sheet.units)),
        sections: spec.sections.clone(),
        worn_stretch: walk.and_then(|walk| stretch(&walk.worn)).map(tenth),
        cloth: sheet.fabric.name.clone(),
        verdict,
        note: None,
    }
}
