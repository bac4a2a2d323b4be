//! Asks for the measures of the body, one by one, and doubts what no body has.

use super::answers::{known, written, yes};
use crate::dialogue::{Dialogue, Silence};
use crate::sheet::typed_length;
use engine::keys::{Key, Kind, body};
use engine::population::{Measure, PUBLISHED};
use engine::quantity::{Length, Units};
use engine::sheet::WaistLevel;
use engine::words::Speech;
use std::io::{BufRead, Write};

/// The section of the body.
pub(super) fn measures<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, units: Units) -> Result<String, Silence> {
    let wanted: [(Key, Option<Measure>); 6] = [
        (body::WAIST_GIRTH.into(), Some(Measure::WaistGirth)),
        (body::HIP_GIRTH.into(), Some(Measure::HipGirth)),
        (body::WAIST_TO_HIP.into(), Some(Measure::WaistToHip)),
        (body::CROTCH_LENGTH.into(), Some(Measure::CrotchLength)),
        (body::CROTCH_LENGTH_FRONT.into(), None),
        (body::THIGH_GIRTH.into(), Some(Measure::ThighGirth)),
    ];
    dialogue.say(
        "\nThe body. Tie a thin elastic round the waist: depths are measured from it. All girths are full girths.",
    )?;
    let level = dialogue.until(
        "Where is it, at the natural waist, midway to the hip bone, or at the navel? [natural]",
        |text| {
            let word = if text.is_empty() { "natural" } else { text };
            let is_known = known(word, &WaistLevel::ALL).is_some();
            is_known.then(|| word.to_lowercase()).ok_or_else(|| "say natural, midway or navel".to_owned())
        },
    )?;
    let mut out = format!("\n[body]\nwaist_level = \"{level}\"\n");
    for (key, measure) in wanted {
        if let Some(length) = length(dialogue, &key, measure, units)? {
            out += &format!("{} = {}\n", key.name(), written(length, units));
        }
    }
    Ok(out)
}

/// One measure; none where she does not have it.
fn length<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    key: &Key,
    measure: Option<Measure>,
    units: Units,
) -> Result<Option<Length>, Silence> {
    let say = Speech(units);
    let row = key.row();
    dialogue.say(&format!("\n{}: {}", key.name().replace('_', " "), row.how))?;
    let range = measure.and_then(|measure| PUBLISHED.iter().find(|range| range.measure == measure));
    let usual = range.map(|r| format!("{} found on real bodies", say.within(r.least, r.most)));
    let estimated = || format!("Enter if you do not have it: then it is taken {}", estimate(row.otherwise()));
    let without = (!row.is_needed()).then(estimated);
    let hints: Vec<String> = usual.into_iter().chain(without).collect();
    let question =
        if hints.is_empty() { "  how much?".to_owned() } else { format!("  how much? ({})", hints.join("; ")) };
    loop {
        let answer = dialogue.ask(&question)?;
        if !row.is_needed() && ["", "-", "no", "none"].contains(&answer.to_lowercase().as_str()) {
            return Ok(None);
        }
        let Some(length) = typed_length(&answer, units) else {
            dialogue.again(&format!("a number in {}, please; measure again: {}", units.plural(), row.how))?;
            continue;
        };
        if answer.contains(',') {
            dialogue.say(&format!("  understood as {}", say.tool(length.mm())))?;
        }
        match doubted(&answer, length, row.kind, range.map(|r| (r.least, r.most)), units) {
            None => return Ok(Some(length)),
            Some(Doubt::Impossible) => dialogue.again("that cannot be; measure again")?,
            Some(Doubt::OtherUnit(other, meant)) => {
                let ask = format!(
                    "  As {} that would be {}, which is usual. Is it that? [yes]",
                    other.plural(),
                    say.tool(meant.mm())
                );
                if dialogue.until(&ask, yes)? {
                    return Ok(Some(meant));
                }
            }
            Some(Doubt::Unusual) => {
                if dialogue.until("  No published body has that. Keep it? [no]", |t| {
                    yes(if t.is_empty() { "no" } else { t })
                })? {
                    return Ok(Some(length));
                }
            }
        }
    }
}

/// The words of an estimate, after `taken`.
fn estimate(words: &str) -> String {
    if words.starts_with("from ") { words.to_owned() } else { format!("as {words}") }
}

/// What may be wrong with a length.
enum Doubt {
    /// Beyond what the key can mean.
    Impossible,
    /// The same number in another unit would be usual.
    OtherUnit(Units, Length),
    /// Unlike published bodies.
    Unusual,
}

fn doubted(answer: &str, length: Length, kind: Kind, usual: Option<(f64, f64)>, units: Units) -> Option<Doubt> {
    let (Kind::Size(least, most) | Kind::Length(least, most)) = kind else { return None };
    let (low, high) = usual.unwrap_or((least, most));
    if (low..=high).contains(&length.mm()) {
        return None;
    }
    let meant = |unit: Units| typed_length(answer, unit).filter(|l| (low..=high).contains(&l.mm()));
    let other =
        Units::ALL.into_iter().filter(|(_, unit)| *unit != units).find_map(|(_, unit)| Some((unit, meant(unit)?)));
    match other {
        Some((unit, length)) => Some(Doubt::OtherUnit(unit, length)),
        None if (least..=most).contains(&length.mm()) => Some(Doubt::Unusual),
        None => Some(Doubt::Impossible),
    }
}
