//! What differs between two sheets of one garment, key by key.

use super::setting;
use crate::garment::{Garment, Value};
use crate::keys::{Edges, Field, Key, PerEdge, body, fabric, finish, gusset, style};
use crate::plan::Plan;
use crate::quantity::{Length, Ratio};
use crate::sheet::{Basis, FinishSpec, Sheet};
use crate::terms::{Opening, Reach, Section};

/// A key that is to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Which.
    pub key: Key,
    /// Of `sections`: which of them.
    pub section: Option<Section>,
    /// What holds today, written or not.
    pub from: Value,
    /// What is to be written.
    pub to: Value,
}

/// Every key that the new sheet has otherwise. `plan` and `garment` are the old one's.
pub fn changes(old: &Sheet, new: &Sheet, plan: &Plan, garment: &Garment) -> Vec<Change> {
    let mut all = of_sheet(old, new, plan);
    all.extend(of_edges(old, new, garment));
    all
}

fn of_sheet(old: &Sheet, new: &Sheet, plan: &Plan) -> Vec<Change> {
    let (knobs, g) = (&plan.knobs, &plan.gusset);
    let mm = |key: Key, old: Option<Length>, new: Option<Length>, now: f64| {
        change(key, old != new, Value::Mm(now), new.map(|l| Value::Mm(l.mm())))
    };
    let number = |key: Key, old: Option<f64>, new: Option<f64>, now: f64| {
        change(key, old != new, Value::Number(now), new.map(Value::Number))
    };
    let percent = |key: Key, old: Option<Ratio>, new: Option<Ratio>, now: f64| {
        change(key, old != new, Value::Percent(now), new.map(|r| Value::Percent(r.percent())))
    };
    let (s, t, u, v) = (&old.style, &new.style, &old.gusset, &new.gusset);
    let elastic_top = old.body.elastic_top.map_or(0.0, Length::mm);
    let ease = 100.0 * plan.cloth.ease_across;
    [
        mm(body::ELASTIC_TOP.into(), old.body.elastic_top, new.body.elastic_top, elastic_top),
        percent(fabric::EASE_ACROSS.into(), old.fabric.ease_across, new.fabric.ease_across, ease),
        mm(style::TOP_DROP_FRONT.into(), s.top_drop_front, t.top_drop_front, knobs.drop_front),
        mm(style::TOP_DROP_SIDE.into(), s.top_drop_side, t.top_drop_side, knobs.drop_side),
        mm(style::TOP_DROP_BACK.into(), s.top_drop_back, t.top_drop_back, knobs.drop_back),
        mm(style::SIDE_SEAM.into(), s.side_seam, t.side_seam, knobs.side_seam),
        number(style::FRONT_SCOOP.into(), s.front_scoop, t.front_scoop, knobs.scoop),
        number(style::BACK_COVER.into(), s.back_cover, t.back_cover, knobs.cover),
        mm(gusset::LENGTH.into(), u.length, v.length, g.length),
        mm(gusset::WIDTH.into(), u.width, v.width, g.width),
        mm(gusset::FRONT_WIDTH.into(), u.front_width, v.front_width, g.front_width),
        mm(gusset::BACK_WIDTH.into(), u.back_width, v.back_width, g.back_width),
        number(gusset::FORWARD.into(), u.forward, v.forward, g.forward),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn change(key: Key, differs: bool, from: Value, to: Option<Value>) -> Option<Change> {
    to.filter(|_| differs).map(|to| Change { key, section: None, from, to })
}

/// Of the finishes; what both legs have alike is told once.
fn of_edges(old: &Sheet, new: &Sheet, garment: &Garment) -> Vec<Change> {
    let of = |opening: Opening, edges: Edges| of_edge((old, new), garment, opening, edges);
    let [left, right] = [Opening::LeftLeg, Opening::RightLeg].map(|leg| of(leg, Edges::Legs));
    let both: Vec<Change> = left.iter().filter(|change| right.contains(change)).cloned().collect();
    let alone = |edges: Edges, own: &[Change], opening: Opening| {
        let is_own = own.iter().map(|change| !both.contains(change));
        of(opening, edges).into_iter().zip(is_own).filter(|(_, own)| *own).map(|(change, _)| change).collect::<Vec<_>>()
    };
    let left = alone(Edges::LeftLeg, &left, Opening::LeftLeg);
    let right = alone(Edges::RightLeg, &right, Opening::RightLeg);
    [of(Opening::Top, Edges::Top), both, left, right].concat()
}

fn of_edge((old, new): (&Sheet, &Sheet), garment: &Garment, opening: Opening, edges: Edges) -> Vec<Change> {
    let (was, is) = (old.finish.get(opening), new.finish.get(opening));
    let walk = setting::walk(garment, opening);
    let sewn = |section| walk.and_then(|walk| setting::of(walk, section)).unwrap_or(0.0);
    let at = |key: Field<PerEdge>| key.on(edges);
    let mut all = Vec::new();
    if was.basis != is.basis {
        all.extend(is.basis.and_then(|to| of_basis(was, to, edges, sewn(None))));
    }
    for (_, section) in Section::ALL {
        let (was, is) = (was.sections.get(&section), is.sections.get(&section));
        let Some(to) = is.filter(|_| was != is) else { continue };
        let from = was.map_or(sewn(Some(section)), |r| r.percent());
        let (from, to) = (Value::Percent(from), Value::Percent(to.percent()));
        all.push(Change { key: at(finish::SECTIONS), section: Some(section), from, to });
    }
    let word = |reach: Reach| Value::Word(Reach::ALL.iter().find(|(_, r)| *r == reach).map_or("", |r| r.0).to_owned());
    let (keep, reach) = (word(was.reach.unwrap_or(Reach::Keep)), is.reach.map(word));
    all.extend(change(at(finish::REACH), was.reach != is.reach, keep, reach));
    let depth = |l: Option<Length>| l.map(|l| Value::Mm(l.mm()));
    let usual = depth(was.depth).unwrap_or(Value::Mm(hem_depth(garment, opening)));
    all.extend(change(at(finish::DEPTH), was.depth != is.depth, usual, depth(is.depth)));
    all
}

fn of_basis(was: &FinishSpec, to: Basis, edges: Edges, sewn: f64) -> Option<Change> {
    let (key, from, to) = match (was.basis, to) {
        (Some(Basis::Reduction(was)), Basis::Reduction(to)) => {
            (finish::REDUCTION, Value::Percent(was.percent()), Value::Percent(to.percent()))
        }
        (_, Basis::Reduction(to)) => (finish::REDUCTION, Value::Percent(sewn), Value::Percent(to.percent())),
        (Some(Basis::Length(was)), Basis::Length(to)) => (finish::LENGTH, Value::Mm(was.mm()), Value::Mm(to.mm())),
        _ => return None,
    };
    Some(Change { key: key.on(edges), section: None, from, to })
}

/// How deep the hem of an opening is, mm.
pub(super) fn hem_depth(garment: &Garment, opening: Opening) -> f64 {
    let key = finish::DEPTH.on(opening);
    garment.used.iter().find(|used| used.key == key).map_or(0.0, |used| match used.value {
        Value::Mm(mm) => mm,
        _ => 0.0,
    })
}
