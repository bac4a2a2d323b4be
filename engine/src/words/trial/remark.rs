//! What is done about a fit remark, and why.

use crate::garment::Value;
use crate::trial::Knob;
use crate::trial::change::Change;
use crate::trial::remark::Remark;
use crate::trial::remedy::{Conflict, Remedy, Turned};
use crate::words::Speech;
use crate::words::number::{Fineness, percent, short};

/// Why this is done about a remark; empty where nothing is done.
pub fn remedy(remedy: &Remedy) -> String {
    let Some(first) = remedy.turns.first() else { return String::new() };
    let held: Vec<String> = remedy.turns.iter().filter(|t| t.share < 1.0).map(held_back).collect();
    let because = because(remedy.said.remark, first.knob);
    if held.is_empty() { because.to_owned() } else { format!("{because}; {}", held.join("; ")) }
}

fn because(remark: Remark, knob: Knob) -> &'static str {
    match (remark, knob) {
        (Remark::GapesFrontLeg | Remark::GapesBackLeg, Knob::Ease) => {
            "nothing is sewn on that could draw it in; cut closer, the cloth does (common practice)"
        }
        (Remark::GapesFrontLeg | Remark::GapesBackLeg, _) => {
            "the edge stands off where too little draws it in (common practice)"
        }
        (Remark::CutsFrontLeg, Knob::Scoop) => {
            "it holds nothing back already; cut away more, the edge lies off the crease (common practice)"
        }
        (Remark::CutsSeat, Knob::Cover) => {
            "it holds nothing back already; with more cover the edge lies under the seat (common practice)"
        }
        (Remark::CutsFrontLeg | Remark::CutsSeat, _) => "what is sewn on less short there presses less",
        (Remark::CutsWaist, Knob::Ease) => {
            "nothing is sewn on that could be let out; cut larger, the cloth presses less"
        }
        (Remark::CutsWaist, _) => "what is sewn on less short presses less",
        (Remark::RidesUp, _) => {
            "an edge that crosses the seat slides up to where it is narrower; with more cover it lies below (common \
             practice)"
        }
        (Remark::BackTooBare | Remark::BackTooFull, _) => "how much of the seat is covered is a knob of its own",
        (Remark::GussetTooWide, Knob::Reach) => {
            "the edgings stand out beyond the finished edges and make it wider as worn; ending there they do not \
             (geometry)"
        }
        (Remark::GussetTooWide | Remark::GussetTooNarrow, _) => "its ends keep their shape and follow (geometry)",
        (Remark::GussetTooLong | Remark::GussetTooShort, _) => {
            "front and back take up what it loses or gains, so that the crotch length stays; a top edge that the base \
             places follows a little (geometry)"
        }
        (Remark::GussetTooFarForward | Remark::GussetTooFarBack, _) => {
            "both of its seams are moved by the same, and its length stays; a top edge that the base places follows a \
             little (geometry)"
        }
        (Remark::TopRolls, Knob::TopHem) => "a deeper hem is stiffer across (common practice)",
        (Remark::TopRolls, _) => "an edge that is held too hard slides to a narrower place and rolls (common practice)",
        (Remark::GapesBackWaist, Knob::DropBack) => {
            "nothing is sewn on that could draw it in; set lower, it lies where the back fills it (common practice)"
        }
        (Remark::GapesBackWaist, _) => "in the hollow of the back the edge needs drawing in more (common practice)",
        (Remark::TopTooHigh | Remark::TopTooLow, _) => {
            "the edge is moved along the body, and the side seam by as much, so that the legs stay (geometry)"
        }
        (Remark::SideTooLong | Remark::SideTooShort, _) => "the top stays, and the leg is moved at the side (geometry)",
        (Remark::WrinklesFront, _) => {
            "folds that lie across are length that the body does not have; it is taken out at the top (common practice)"
        }
        (Remark::Sags, _) => "cloth that hangs is cut closer to the body (common practice)",
    }
}

fn held_back(turned: &Turned) -> String {
    match turned.share {
        share if share > 0.0 => format!("the checks allow {} of that", percent(100.0 * share)),
        _ => "the checks do not allow it".to_owned(),
    }
}

/// Why nothing is done about a remark.
pub fn unchanged(remedy: &Remedy) -> &'static str {
    if !remedy.turns.is_empty() {
        "the checks do not allow more of it"
    } else if remedy.said.remark == Remark::TopRolls {
        "nothing is sewn on at the top that could be let out: choose a finish that holds it"
    } else {
        "this garment has nothing to turn for it, or it is at its end, or another remark asks for the opposite"
    }
}

/// What cannot be had at once.
pub fn conflict(conflict: &Conflict) -> String {
    format!(
        "“{}” and “{}” ask for the opposite of {}: it is left as it is; say which matters more",
        conflict.one.row().words,
        conflict.other.row().words,
        named(conflict.knob)
    )
}

const fn named(knob: Knob) -> &'static str {
    match knob {
        Knob::Legs | Knob::LegPart(_) => "what is sewn on to the legs",
        Knob::Top | Knob::TopPart(_) => "what is sewn on to the top edge",
        Knob::Reach => "how far the edging stands out",
        Knob::TopHem => "the hem at the top",
        Knob::Ease => "the ease of the cloth",
        Knob::DropFront => "the top edge at the centre front",
        Knob::DropSide => "the top edge at the sides",
        Knob::DropBack => "the top edge at the centre back",
        Knob::Side => "the side seam",
        Knob::Scoop => "the front leg edge",
        Knob::Cover => "the cover of the back",
        Knob::GussetLength => "the length of the gusset",
        Knob::GussetWidth => "the width of the gusset",
        Knob::GussetForward => "where the gusset sits",
    }
}

/// A change in words: `style.back_cover 0.62 → 0.7`.
pub fn changed(change: &Change, say: Speech) -> String {
    format!("{} {} → {}", key(change), value(&change.from, say), value(&change.to, say))
}

/// The dotted name of what is changed.
pub fn key(change: &Change) -> String {
    let part = change.section.and_then(|s| crate::terms::Section::ALL.iter().find(|(_, known)| *known == s));
    part.map_or_else(|| change.key.to_string(), |(part, _)| format!("{}.{part}", change.key))
}

fn value(value: &Value, say: Speech) -> String {
    match value {
        Value::Mm(mm) => say.with_unit(*mm, Fineness::Tool),
        Value::Percent(p) => percent(*p),
        Value::Number(n) => short(*n, 2),
        Value::Word(word) => word.clone(),
    }
}
