//! The table of keys, finishes, bases, elastics and remarks: the same for every sheet.

use crate::page::drawer;
use engine::base::Base;
use engine::finish::{FinishKind, Takes, Ways};
use engine::keys::{Kind, Row, SECTIONS, Shape, elastic, finish};
use engine::population::{Measure, PUBLISHED};
use engine::quantity::Units;
use engine::sheet::{Paper, Verdict};
use engine::trial::remark::REMARKS;
use engine::words::Speech;
use engine::words::card::TOO_TIGHT;
use engine::words::number::short;
use serde_json::{Value, json};

/// The key that says which finish it is.
pub(super) const KINDS: &str = finish::KIND.name();

/// All of it.
pub(in crate::page) fn keys() -> Value {
    let single = SECTIONS.iter().filter(|s| s.shape == Shape::One && !s.path.starts_with("finish."));
    let keys = single.clone().flat_map(|s| s.rows().map(|row| key(row, s.path)));
    let sections = SECTIONS.iter().map(|s| json!({ "path": s.path, "title": s.title, "intro": s.intro }));
    let finish_key = |field: engine::keys::Field<engine::keys::PerEdge>| {
        let takers: Vec<&str> =
            FinishKind::all().filter(|kind| kind.takes_key(field)).map(|kind| kind.name()).collect();
        let mut all = key(field.row(), "");
        all["of"] = json!(takers);
        all
    };
    let remarks = REMARKS.iter().map(|row| json!({ "words": row.words, "also": row.also }));
    json!({
        "sections": sections.collect::<Vec<_>>(),
        "keys": keys.collect::<Vec<_>>(),
        "finish_keys": finish::all().map(finish_key).collect::<Vec<_>>(),
        "elastic_keys": elastic::ROWS.iter().map(|row| key(row, "")).collect::<Vec<_>>(),
        "finishes": FinishKind::all().map(one_finish).collect::<Vec<_>>(),
        "bases": Base::all().map(|b| json!({ "name": b.name(), "also": b.shares().also })).collect::<Vec<_>>(),
        "drawer": drawer::all().iter().map(kept).collect::<Vec<_>>(),
        "remarks": remarks.collect::<Vec<_>>(),
        "verdicts": Verdict::ALL.iter().map(|(word, _)| *word).collect::<Vec<_>>(),
        "too_tight": TOO_TIGHT,
        "units": Units::ALL.iter().map(|(word, _)| *word).collect::<Vec<_>>(),
    })
}

fn key(row: &Row, section: &str) -> Value {
    let name = if section.is_empty() { row.name.to_owned() } else { format!("{section}.{}", row.name) };
    let has_figure = engine::figure::MEASURES.iter().any(|(_, field)| section == "body" && field.name() == row.name);
    json!({
        "key": name,
        "group": section,
        "label": row.label(),
        "takes": takes(row.kind),
        "words": words(row.kind),
        "range": range(row.kind),
        "typical": typical(section, row.name),
        "how": row.how.replace('\u{a0}', " "),
        "advice": row.advice.replace('\u{a0}', " "),
        "otherwise": row.otherwise(),
        "needed": row.is_needed(),
        "has_figure": has_figure,
    })
}

const fn takes(kind: Kind) -> &'static str {
    match kind {
        Kind::Count(..) => "count",
        Kind::Text => "text",
        Kind::Note => "note",
        Kind::Word(_) => "word",
        Kind::Finish => "finish",
        Kind::YesNo => "yes_no",
        Kind::Date => "date",
        Kind::Length(..) | Kind::Size(..) => "length",
        Kind::Percent(..) => "percent",
        Kind::Share(..) => "share",
        Kind::Price(..) => "price",
        Kind::Paper(..) => "paper",
        Kind::Pull { .. } => "pull",
        Kind::Sections(..) => "sections",
    }
}

fn words(kind: Kind) -> Vec<&'static str> {
    match kind {
        Kind::Word(words) => words(),
        Kind::Finish => FinishKind::all().map(|kind| kind.name()).collect(),
        Kind::YesNo => vec!["yes", "no"],
        Kind::Paper(..) => Paper::NAMED.iter().map(|(name, _)| *name).collect(),
        _ => Vec::new(),
    }
}

/// What is allowed at all, in words: of lengths in every unit.
fn range(kind: Kind) -> Value {
    match kind {
        Kind::Length(least, most) | Kind::Size(least, most) | Kind::Paper(least, most) => in_units(least, most),
        Kind::Percent(least, most) | Kind::Sections(least, most) => {
            json!(format!("{} to {} %", short(least, 1), short(most, 1)))
        }
        Kind::Share(least, most) | Kind::Price(least, most) => {
            json!(format!("{} to {}", short(least, 2), short(most, 2)))
        }
        Kind::Count(least, most) => json!(format!("{least} to {most}")),
        _ => Value::Null,
    }
}

fn in_units(least: f64, most: f64) -> Value {
    let said = |units: Units| Speech(units).within(least, most);
    json!({ "cm": said(Units::Cm), "mm": said(Units::Mm), "in": said(Units::In) })
}

/// What was found on real bodies.
fn typical(section: &str, name: &str) -> Value {
    if section != "body" {
        return Value::Null;
    }
    let measure = match name {
        "waist_girth" => Measure::WaistGirth,
        "hip_girth" => Measure::HipGirth,
        "waist_to_hip" => Measure::WaistToHip,
        "crotch_length" => Measure::CrotchLength,
        "crotch_length_front" => Measure::CrotchLengthFront,
        "thigh_girth" => Measure::ThighGirth,
        _ => return Value::Null,
    };
    let range = PUBLISHED.iter().find(|range| range.measure == measure);
    range.map_or(Value::Null, |range| in_units(range.least, range.most))
}

fn one_finish(kind: FinishKind) -> Value {
    let takes = match kind.takes() {
        Takes::Elastic | Takes::Threaded => "an elastic",
        Takes::Strip => "a strip of the cloth",
        Takes::Nothing => "nothing",
    };
    let put_on: &[&str] = match kind.ways() {
        Ways::FlatOrRound => &["flat", "round"],
        Ways::RoundOnly => &["round"],
    };
    let keys: Vec<&str> = finish::all().filter(|field| kind.takes_key(*field)).map(|field| field.name()).collect();
    json!({ "name": kind.name(), "does": kind.summary(), "takes": takes, "put_on": put_on, "keys": keys })
}

fn kept(elastic: &drawer::Kept) -> Value {
    let said = |mm: f64| {
        let of = |units: Units| Speech(units).tool(mm);
        json!({ "cm": of(Units::Cm), "mm": of(Units::Mm), "in": of(Units::In) })
    };
    let is_usual = |kind: &FinishKind| kind.takes().elastic() && drawer::usual(*kind).as_ref() == Some(&elastic.name);
    json!({
        "name": elastic.name,
        "width": said(elastic.width),
        "picot": said(elastic.picot),
        "stretch": elastic.stretch,
        "for": FinishKind::all().filter(is_usual).map(|kind| kind.name()).collect::<Vec<_>>(),
    })
}
