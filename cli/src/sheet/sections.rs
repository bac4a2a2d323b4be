//! The sections of a sheet from their typed values.

use super::value::Value;
use super::walk::Table;
use engine::base::Base;
use engine::finish::FinishKind;
use engine::keys::{Edges, Field, body, elastic, fabric, gusset, print, seams, style, trial};
use engine::quantity::{Length, Ratio};
use engine::sheet::{
    Body, ClothKind, Elastic, Fabric, Gusset, Lining, Print, SeamKind, Seams, Section, Style, Trial, Verdict,
    WaistLevel,
};
use std::collections::BTreeMap;

/// The section of an alternative.
pub(super) const ALTERNATIVE: &str = "alternative";

/// The section of a variant.
pub(super) const VARIANT: &str = "variant";

pub(super) fn body(t: &Table) -> Option<Body> {
    Some(Body {
        waist_girth: t.length(body::WAIST_GIRTH)?,
        waist_level: t.word(body::WAIST_LEVEL, &WaistLevel::ALL),
        hip_girth: t.length(body::HIP_GIRTH)?,
        waist_to_hip: t.length(body::WAIST_TO_HIP)?,
        crotch_length: t.length(body::CROTCH_LENGTH)?,
        crotch_length_front: t.length(body::CROTCH_LENGTH_FRONT),
        thigh_girth: t.length(body::THIGH_GIRTH),
        waist_breadth: t.length(body::WAIST_BREADTH),
        waist_depth: t.length(body::WAIST_DEPTH),
        hip_breadth: t.length(body::HIP_BREADTH),
        hip_depth: t.length(body::HIP_DEPTH),
        top_edge_girth: t.length(body::TOP_EDGE_GIRTH),
        leg_line_girth: t.length(body::LEG_LINE_GIRTH),
        elastic_top: t.length(body::ELASTIC_TOP),
        child: t.flag(body::CHILD),
    })
}

pub(super) fn fabric(t: &Table) -> Option<Fabric> {
    Some(Fabric {
        name: t.text(fabric::NAME),
        kind: t.word(fabric::KIND, &ClothKind::ALL),
        stretch_across: t.percent(fabric::STRETCH_ACROSS)?,
        stretch_along: t.percent(fabric::STRETCH_ALONG)?,
        width: t.length(fabric::WIDTH),
        price: t.price(fabric::PRICE),
        nap: t.flag(fabric::NAP),
        ease_across: t.percent(fabric::EASE_ACROSS),
        ease_along: t.percent(fabric::EASE_ALONG),
        shrink_across: t.percent(fabric::SHRINK_ACROSS),
        shrink_along: t.percent(fabric::SHRINK_ALONG),
    })
}

pub(super) fn style(t: &Table) -> Option<Style> {
    Some(Style {
        base: Base::named(&t.text(style::BASE)?)?,
        top_drop_front: t.length(style::TOP_DROP_FRONT),
        top_drop_side: t.length(style::TOP_DROP_SIDE),
        top_drop_back: t.length(style::TOP_DROP_BACK),
        side_seam: t.length(style::SIDE_SEAM),
        front_scoop: t.share(style::FRONT_SCOOP),
        back_cover: t.share(style::BACK_COVER),
        back_share: t.share(style::BACK_SHARE),
        leg_edge: t.length(style::LEG_EDGE),
    })
}

pub(super) fn gusset(t: &Table) -> Gusset {
    Gusset {
        length: t.length(gusset::LENGTH),
        width: t.length(gusset::WIDTH),
        front_width: t.length(gusset::FRONT_WIDTH),
        back_width: t.length(gusset::BACK_WIDTH),
        forward: t.share(gusset::FORWARD),
        layers: t.whole(gusset::LAYERS).and_then(|n| u8::try_from(n).ok()),
        lining: t.word(gusset::LINING, &Lining::ALL),
    }
}

pub(super) fn seams(t: &Table) -> Seams {
    Seams { kind: t.word(seams::KIND, &SeamKind::ALL), side: t.length(seams::SIDE), gusset: t.length(seams::GUSSET) }
}

pub(super) fn elastic(t: &Table) -> Option<Elastic> {
    Some(Elastic {
        width: t.length(elastic::WIDTH)?,
        picot: t.length(elastic::PICOT).unwrap_or(Length::ZERO),
        stretch: t.percent(elastic::STRETCH),
        growth: t.percent(elastic::GROWTH),
        latex: t.flag(elastic::LATEX),
        price: t.price(elastic::PRICE),
        pull: match t.value(elastic::PULL) {
            Some(Value::Pull(pairs)) => pairs.clone(),
            _ => Vec::new(),
        },
    })
}

pub(super) fn print(t: &Table) -> Print {
    let paper = match t.value(print::PAPER) {
        Some(Value::Paper(paper)) => Some(*paper),
        _ => None,
    };
    Print { paper, margin: t.length(print::MARGIN), overlap: t.length(print::OVERLAP) }
}

pub(super) fn trial(t: &Table) -> Option<Trial> {
    Some(Trial {
        date: t.text(trial::DATE),
        edge: t.word(trial::EDGE, &Edges::WORDS)?,
        section: t.word(trial::SECTION, &Section::ALL),
        finish: t.text(trial::FINISH).and_then(|word| FinishKind::named(&word)),
        elastic: t.text(trial::ELASTIC),
        reduction: t.percent(trial::REDUCTION),
        length: t.length(trial::LENGTH),
        sections: t.parts(trial::SECTIONS),
        worn_stretch: t.percent(trial::WORN_STRETCH),
        cloth: t.text(trial::CLOTH),
        verdict: t.word(trial::VERDICT, &Verdict::ALL)?,
        note: t.text(trial::NOTE),
    })
}

/// Typed reading of a section's keys: `None` where a key is absent or was refused.
impl Table {
    fn value<W>(&self, key: Field<W>) -> Option<&Value> {
        self.items.get(key.name()).and_then(|item| item.value.as_ref())
    }

    pub(super) fn length<W>(&self, key: Field<W>) -> Option<Length> {
        if let Some(Value::Length(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn percent<W>(&self, key: Field<W>) -> Option<Ratio> {
        if let Some(Value::Percent(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn parts<W>(&self, key: Field<W>) -> BTreeMap<Section, Ratio> {
        if let Some(Value::Sections(it)) = self.value(key) { it.clone() } else { BTreeMap::new() }
    }

    fn share<W>(&self, key: Field<W>) -> Option<f64> {
        if let Some(Value::Share(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn price<W>(&self, key: Field<W>) -> Option<f64> {
        if let Some(Value::Price(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn whole<W>(&self, key: Field<W>) -> Option<i64> {
        if let Some(Value::Whole(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn flag<W>(&self, key: Field<W>) -> Option<bool> {
        if let Some(Value::Flag(it)) = self.value(key) { Some(*it) } else { None }
    }

    pub(super) fn text<W>(&self, key: Field<W>) -> Option<String> {
        if let Some(Value::Text(it)) = self.value(key) { Some(it.clone()) } else { None }
    }

    pub(super) fn word<T: Copy, W>(&self, key: Field<W>, all: &[(&str, T)]) -> Option<T> {
        let word = self.text(key)?;
        all.iter().find(|(known, _)| *known == word).map(|(_, it)| *it)
    }
}
