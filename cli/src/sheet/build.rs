//! Puts a sheet together from its typed values; what is missing is said where it belongs.

use super::finish;
use super::problem::{Problem, quoted};
use super::value::Value;
use super::variant::{self, VARIANT};
use super::walk::{Found, Table};
use engine::base::Base;
use engine::keys::{Field, SECTIONS, Shape, body, elastic, fabric, gusset, head, print, seams, style, trial};
use engine::quantity::{Length, Ratio, Units};
use engine::sheet::{
    Body, ClothKind, Elastic, Fabric, Gusset, Lining, Opening, Print, SeamKind, Seams, Sheet, Style, Trial, Verdict,
    WaistLevel,
};
use std::ops::Range;

/// The sheet, or `None` where something is wrong, and said in `problems`.
pub(super) fn sheet(found: &Found, end: Range<usize>, problems: &mut Vec<Problem>) -> Option<Sheet> {
    missing(found, &end, problems);
    picot_within_width(found, problems);
    nothing_changed(found, problems);
    let finish = finish::openings(found, Vec::new(), end.clone(), problems);
    let variants = variant::variants(found, &end, problems);
    if !problems.is_empty() {
        return None;
    }
    let head = found.sections.get("sheet")?;
    Some(Sheet {
        name: head.text(head::NAME)?,
        units: head.word(head::UNITS, &Units::ALL)?,
        date: head.text(head::DATE),
        body: body(found.sections.get("body")?)?,
        fabric: fabric(found.sections.get("fabric")?)?,
        style: style(found.sections.get("style")?)?,
        gusset: found.sections.get("gusset").map(gusset).unwrap_or_default(),
        seams: found.sections.get("seams").map(seams).unwrap_or_default(),
        finish: finish?,
        variants: variants?,
        elastics: found.elastics.iter().map(|(n, t)| Some((n.clone(), elastic(t)?))).collect::<Option<_>>()?,
        print: found.sections.get("print").map(print).unwrap_or_default(),
        trials: found.list("trial").iter().map(trial).collect::<Option<_>>()?,
    })
}

/// Notes every needed key that is not there: at the head of its section, else at the end.
fn missing(found: &Found, end: &Range<usize>, problems: &mut Vec<Problem>) {
    for section in &SECTIONS {
        let needed: Vec<_> = section.rows().filter(|row| row.is_needed()).collect();
        let tables: Vec<&Table> = match section.shape {
            Shape::One => found.sections.get(section.path).into_iter().collect(),
            Shape::Named => found.elastics.values().collect(),
            Shape::List => found.list(section.path).iter().collect(),
        };
        if tables.is_empty()
            && section.shape == Shape::One
            && !needed.is_empty()
            && !found.misspelt.contains(section.path)
        {
            let names: Vec<&str> = needed.iter().map(|k| k.name).collect();
            problems.push(Problem {
                span: end.clone(),
                key: section.path.to_owned(),
                title: format!("the section {} is missing", section.head()),
                label: "not found up to here".to_owned(),
                help: format!("add {} with {}", section.head(), names.join(", ")),
            });
        }
        for table in tables {
            let misspelt = |name: &str| found.misspelt.contains(&format!("{}.{name}", table.path));
            for key in needed.iter().filter(|k| !table.items.contains_key(k.name) && !misspelt(k.name)) {
                problems.push(Problem {
                    span: table.head.clone(),
                    key: format!("{}.{}", table.path, key.name),
                    title: format!("`{}` is missing", key.name),
                    label: "not found in this section".to_owned(),
                    help: format!("add `{}` here. {}", key.name, key.how),
                });
            }
        }
    }
}

/// A variant that changes nothing is not finished.
fn nothing_changed(found: &Found, problems: &mut Vec<Problem>) {
    let is_empty = |block: &&Table| block.over.values().all(|section| section.items.is_empty());
    for block in found.list(VARIANT).iter().filter(is_empty) {
        // What was to be changed may stand in it, and be refused already.
        if problems.iter().any(|problem| problem.key.starts_with(&format!("{}.", block.path))) {
            continue;
        }
        problems.push(Problem {
            span: block.head.clone(),
            key: block.path.clone(),
            title: "what the variant changes is missing".to_owned(),
            label: "it changes nothing".to_owned(),
            help: "add what is to differ by its dotted name, such as `body.hip_girth` or `finish.legs.kind`".to_owned(),
        });
    }
}

fn picot_within_width(found: &Found, problems: &mut Vec<Problem>) {
    for table in found.elastics.values() {
        let (Some(picot), Some(width)) = (table.length(elastic::PICOT), table.length(elastic::WIDTH)) else { continue };
        if picot >= width {
            let item = table.items.get(elastic::PICOT.name());
            problems.push(Problem {
                span: item.map_or(table.head.clone(), |i| i.at.clone()),
                key: format!("{}.picot", table.path),
                title: format!("the picots of {} take up its whole width", quoted(&table.path)),
                label: "not less than `width`".to_owned(),
                help: "`picot` is the decorative part of `width`: measure the whole width, picots included, and \
                       write a smaller `picot`"
                    .to_owned(),
            });
        }
    }
}

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

fn seams(t: &Table) -> Seams {
    Seams { kind: t.word(seams::KIND, &SeamKind::ALL), side: t.length(seams::SIDE), gusset: t.length(seams::GUSSET) }
}

fn elastic(t: &Table) -> Option<Elastic> {
    Some(Elastic {
        width: t.length(elastic::WIDTH)?,
        picot: t.length(elastic::PICOT).unwrap_or(Length::ZERO),
        stretch: t.percent(elastic::STRETCH),
        growth: t.percent(elastic::GROWTH),
        latex: t.flag(elastic::LATEX),
        pull: match t.value(elastic::PULL) {
            Some(Value::Pull(pairs)) => pairs.clone(),
            _ => Vec::new(),
        },
    })
}

fn print(t: &Table) -> Print {
    let paper = match t.value(print::PAPER) {
        Some(Value::Paper(paper)) => Some(*paper),
        _ => None,
    };
    Print { paper, margin: t.length(print::MARGIN), overlap: t.length(print::OVERLAP) }
}

fn trial(t: &Table) -> Option<Trial> {
    let edge = t.text(trial::EDGE)?;
    Some(Trial {
        date: t.text(trial::DATE),
        edge: Opening::ALL.into_iter().find(|o| o.name() == edge)?,
        reduction: t.percent(trial::REDUCTION),
        verdict: t.word(trial::VERDICT, &Verdict::ALL)?,
        note: t.text(trial::NOTE),
    })
}

/// Typed reading of a section's keys: `None` where a key is absent or was refused.
impl Table {
    fn value<W>(&self, key: Field<W>) -> Option<&Value> {
        self.items.get(key.name()).and_then(|item| item.value.as_ref())
    }

    fn length<W>(&self, key: Field<W>) -> Option<Length> {
        if let Some(Value::Length(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn percent<W>(&self, key: Field<W>) -> Option<Ratio> {
        if let Some(Value::Percent(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn share<W>(&self, key: Field<W>) -> Option<f64> {
        if let Some(Value::Share(it)) = self.value(key) { Some(*it) } else { None }
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

    fn word<T: Copy, W>(&self, key: Field<W>, all: &[(&str, T)]) -> Option<T> {
        let word = self.text(key)?;
        all.iter().find(|(known, _)| *known == word).map(|(_, it)| *it)
    }
}
