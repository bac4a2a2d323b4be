//! Puts a sheet together from its typed values; what is missing is said where it belongs.

use super::finish;
use super::keys::{Need, SECTIONS, Shape};
use super::problem::{Problem, quoted};
use super::value::Value;
use super::walk::{Found, Table};
use engine::base::Base;
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
    let finish = finish::openings(found, end.clone(), problems);
    let alternatives = finish::alternatives(found, end, problems);
    if !problems.is_empty() {
        return None;
    }
    let head = found.sections.get("sheet")?;
    Some(Sheet {
        name: head.text("name")?,
        units: head.word("units", &Units::ALL)?,
        date: head.text("date"),
        body: body(found.sections.get("body")?)?,
        fabric: fabric(found.sections.get("fabric")?)?,
        style: style(found.sections.get("style")?)?,
        gusset: found.sections.get("gusset").map(gusset).unwrap_or_default(),
        seams: found.sections.get("seams").map(seams).unwrap_or_default(),
        finish: finish?,
        alternatives: alternatives?,
        elastics: found.elastics.iter().map(|(n, t)| Some((n.clone(), elastic(t)?))).collect::<Option<_>>()?,
        print: found.sections.get("print").map(print).unwrap_or_default(),
        trials: found.list("trial").iter().map(trial).collect::<Option<_>>()?,
    })
}

/// Notes every needed key that is not there: at the head of its section, else at the end.
fn missing(found: &Found, end: &Range<usize>, problems: &mut Vec<Problem>) {
    for section in &SECTIONS {
        let needed: Vec<_> = section.keys.iter().filter(|k| k.need == Need::Needed).collect();
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

fn picot_within_width(found: &Found, problems: &mut Vec<Problem>) {
    for table in found.elastics.values() {
        let (Some(picot), Some(width)) = (table.length("picot"), table.length("width")) else { continue };
        if picot >= width {
            let item = table.items.get("picot");
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

fn body(t: &Table) -> Option<Body> {
    Some(Body {
        waist_girth: t.length("waist_girth")?,
        waist_level: t.word("waist_level", &WaistLevel::ALL),
        hip_girth: t.length("hip_girth")?,
        waist_to_hip: t.length("waist_to_hip")?,
        crotch_length: t.length("crotch_length")?,
        crotch_length_front: t.length("crotch_length_front"),
        thigh_girth: t.length("thigh_girth"),
        waist_breadth: t.length("waist_breadth"),
        waist_depth: t.length("waist_depth"),
        hip_breadth: t.length("hip_breadth"),
        hip_depth: t.length("hip_depth"),
        top_edge_girth: t.length("top_edge_girth"),
        leg_line_girth: t.length("leg_line_girth"),
        elastic_top: t.length("elastic_top"),
        child: t.flag("child"),
    })
}

fn fabric(t: &Table) -> Option<Fabric> {
    Some(Fabric {
        name: t.text("name"),
        kind: t.word("kind", &ClothKind::ALL),
        stretch_across: t.percent("stretch_across")?,
        stretch_along: t.percent("stretch_along")?,
        width: t.length("width"),
        ease_across: t.percent("ease_across"),
        ease_along: t.percent("ease_along"),
        shrink_across: t.percent("shrink_across"),
        shrink_along: t.percent("shrink_along"),
    })
}

fn style(t: &Table) -> Option<Style> {
    Some(Style {
        base: Base::named(&t.text("base")?)?,
        top_drop_front: t.length("top_drop_front"),
        top_drop_side: t.length("top_drop_side"),
        top_drop_back: t.length("top_drop_back"),
        side_seam: t.length("side_seam"),
        front_scoop: t.share("front_scoop"),
        back_cover: t.share("back_cover"),
        back_share: t.share("back_share"),
        leg_edge: t.length("leg_edge"),
    })
}

fn gusset(t: &Table) -> Gusset {
    Gusset {
        length: t.length("length"),
        width: t.length("width"),
        front_width: t.length("front_width"),
        back_width: t.length("back_width"),
        forward: t.share("forward"),
        layers: t.whole("layers").and_then(|n| u8::try_from(n).ok()),
        lining: t.word("lining", &Lining::ALL),
    }
}

fn seams(t: &Table) -> Seams {
    Seams { kind: t.word("kind", &SeamKind::ALL), side: t.length("side"), gusset: t.length("gusset") }
}

fn elastic(t: &Table) -> Option<Elastic> {
    Some(Elastic {
        width: t.length("width")?,
        picot: t.length("picot").unwrap_or(Length::ZERO),
        stretch: t.percent("stretch"),
        growth: t.percent("growth"),
        latex: t.flag("latex"),
        pull: match t.value("pull") {
            Some(Value::Pull(pairs)) => pairs.clone(),
            _ => Vec::new(),
        },
    })
}

fn print(t: &Table) -> Print {
    let paper = match t.value("paper") {
        Some(Value::Paper(paper)) => Some(*paper),
        _ => None,
    };
    Print { paper, margin: t.length("margin"), overlap: t.length("overlap") }
}

fn trial(t: &Table) -> Option<Trial> {
    let edge = t.text("edge")?;
    Some(Trial {
        date: t.text("date"),
        edge: Opening::ALL.into_iter().find(|o| o.name() == edge)?,
        reduction: t.percent("reduction"),
        verdict: t.word("verdict", &Verdict::ALL)?,
        note: t.text("note"),
    })
}

/// Typed reading of a section's keys: `None` where a key is absent or was refused.
impl Table {
    fn value(&self, key: &str) -> Option<&Value> {
        self.items.get(key).and_then(|item| item.value.as_ref())
    }

    fn length(&self, key: &str) -> Option<Length> {
        if let Some(Value::Length(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn percent(&self, key: &str) -> Option<Ratio> {
        if let Some(Value::Percent(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn share(&self, key: &str) -> Option<f64> {
        if let Some(Value::Share(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn whole(&self, key: &str) -> Option<i64> {
        if let Some(Value::Whole(it)) = self.value(key) { Some(*it) } else { None }
    }

    fn flag(&self, key: &str) -> Option<bool> {
        if let Some(Value::Flag(it)) = self.value(key) { Some(*it) } else { None }
    }

    pub(super) fn text(&self, key: &str) -> Option<String> {
        if let Some(Value::Text(it)) = self.value(key) { Some(it.clone()) } else { None }
    }

    fn word<T: Copy>(&self, key: &str, all: &[(&str, T)]) -> Option<T> {
        let word = self.text(key)?;
        all.iter().find(|(known, _)| *known == word).map(|(_, it)| *it)
    }
}
