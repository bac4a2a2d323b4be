//! One opening: its lengths, what is sewn on, and how it is worn.

use super::{length, number};
use engine::elastic::{BandCut, ElasticCut, Mark};
use engine::garment::{OpeningWalk, SectionWalk, Worn};
use engine::sheet::Opening;
use engine::words::number::fixed;
use engine::words::{Speech, girth_source, joining};
use serde_json::{Value, json};

/// In brief, while something is pulled.
pub(super) fn brief(walk: &OpeningWalk, say: Speech) -> Value {
    json!({
        "name": walk.opening.name(),
        "finished": length(say, walk.finished),
        "sewing": length(say, walk.sewing),
        "cut_length": cut_length(walk).map(|mm| length(say, mm)),
        "worn": worn(walk, say),
    })
}

fn cut_length(walk: &OpeningWalk) -> Option<f64> {
    walk.elastic.as_ref().map(|e| e.cut_length).or(walk.band.as_ref().map(|b| b.cut_length))
}

/// All of it; `edges` is the section of the sheet that finishes it.
pub(in crate::page) fn whole(walk: &OpeningWalk, edges: &str, say: Speech) -> Value {
    json!({
        "name": walk.opening.name(),
        "edges": edges,
        "finish": walk.finish.name(),
        "put_on": match walk.put_on { engine::sheet::PutOn::Flat => "flat", engine::sheet::PutOn::Round => "round" },
        "finished": length(say, walk.finished),
        "sewing": length(say, walk.sewing),
        "cut": length(say, walk.cut),
        "cut_length": cut_length(walk).map(|mm| length(say, mm)),
        "sections": walk.sections.iter().map(|s| section(s, say)).collect::<Vec<_>>(),
        "elastic": walk.elastic.as_ref().map(|e| elastic(e, say)),
        "band": walk.band.as_ref().map(|b| band(b, say)),
        "worn": worn(walk, say),
    })
}

fn section(s: &SectionWalk, say: Speech) -> Value {
    json!({
        "name": s.id.name(),
        "finished": length(say, s.finished),
        "sewing": length(say, s.sewing),
        "cut": length(say, s.cut),
        "reduction": s.reduction.map(number),
        "elastic_length": s.elastic_length.map(|mm| length(say, mm)),
        "stretch": s.stretch.map(number),
    })
}

fn elastic(e: &ElasticCut, say: Speech) -> Value {
    let mark = |m: &Mark| {
        let mut all = mark(m, say);
        all["from_cut_end"] = e.from_cut_end(m).into_iter().map(|mm| length(say, mm)).collect();
        all
    };
    json!({
        "name": e.name,
        "width": length(say, e.width),
        "reduction": number(e.reduction),
        "finished_length": length(say, e.finished_length),
        "cut_length": length(say, e.cut_length),
        "joining": joining(e, say),
        "in_hand": e.in_hand.map(|mm| length(say, mm)),
        "marks": e.marks.iter().map(mark).collect::<Vec<_>>(),
    })
}

fn band(b: &BandCut, say: Speech) -> Value {
    json!({
        "piece": b.piece.name(),
        "length": length(say, b.length),
        "width": length(say, b.width),
        "cut_length": length(say, b.cut_length),
        "reduction": number(b.reduction),
        "joining": joining(b, say),
        "marks": b.marks.iter().map(|m| mark(m, say)).collect::<Vec<_>>(),
    })
}

fn mark(m: &Mark, say: Speech) -> Value {
    json!({
        "number": m.number,
        "place": m.place.name(),
        "along_elastic": length(say, m.along_elastic),
        "along_edge": length(say, m.along_edge),
    })
}

fn worn(walk: &OpeningWalk, say: Speech) -> Value {
    let Worn { girth, girth_source: source, relaxed, stretch, cloth_stretch, tension_n, pressure_kpa } = &walk.worn;
    json!({
        "girth": length(say, *girth),
        "girth_source": girth_source(*source, walk.opening),
        "relaxed": length(say, *relaxed),
        "shorter": number(walk.worn.shorter()),
        "stretch": number(*stretch),
        "cloth_stretch": number(*cloth_stretch),
        "tension_n": tension_n.map(number),
        "pressure_kpa": pressure_kpa.map(number),
        "said": said(walk),
    })
}

/// Pressure, and how far it can be trusted.
fn said(walk: &OpeningWalk) -> String {
    let place = if walk.opening == Opening::Top { "body" } else { "leg" };
    match (walk.worn.pressure_kpa, walk.elastic.is_some()) {
        (Some(kpa), _) => format!(
            "presses about {} kPa: an indicative average over a round {place}, all of the elastic's width in contact; \
             the cloth's own pull is not in it; no medical advice",
            fixed(kpa, 2)
        ),
        (None, true) => "pressure unknown: it needs a pull test of the elastic (its key pull)".to_owned(),
        (None, false) => String::new(),
    }
}
