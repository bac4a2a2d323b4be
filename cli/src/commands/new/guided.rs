//! Asks for what a sheet needs, one by one, and writes a short one: only what was said.

use super::drawer::{self, Kept};
use crate::dialogue::{Dialogue, Silence};
use crate::sheet::number;
use engine::base::Base;
use engine::finish::FinishKind;
use engine::keys::{Key, Kind, body, fabric};
use engine::population::{Measure, PUBLISHED};
use engine::quantity::{Length, Units};
use engine::sheet::{Opening, WaistLevel};
use engine::words::{Fineness, Speech};
use std::io::{BufRead, Write};

/// The text of a sheet, by questions.
pub(super) fn sheet<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    units: Option<Units>,
) -> Result<String, Silence> {
    dialogue.say("A few questions, and a short sheet of your answers. Enter takes what stands in brackets; Ctrl-C ends, and nothing is written.")?;
    let name = dialogue.until("What do you call this pattern? [my first pair]", |text| match text {
        "" => Ok("my first pair".to_owned()),
        text => one_line(text),
    })?;
    let units = match units {
        Some(units) => units,
        None => dialogue.until("Which unit do you measure in, cm, mm or in? [cm]", |text| {
            let word = if text.is_empty() { "cm" } else { text };
            known(word, &Units::ALL).ok_or_else(|| "say cm, mm or in".to_owned())
        })?,
    };
    let mut out = format!("[sheet]\nversion = 1\nname = {}\nunits = \"{}\"\n", quoted(&name), units.name());
    out += &measures(dialogue, units)?;
    out += &cloth(dialogue)?;
    out += &shape(dialogue)?;
    out += &edges(dialogue, units)?;
    Ok(out)
}

fn measures<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, units: Units) -> Result<String, Silence> {
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
    let without = (!row.is_needed()).then(|| format!("Enter: I do not have it, {}", row.otherwise()));
    let hints: Vec<String> = usual.into_iter().chain(without).collect();
    let question =
        if hints.is_empty() { "  how much?".to_owned() } else { format!("  how much? ({})", hints.join("; ")) };
    loop {
        let answer = dialogue.ask(&question)?;
        if answer.is_empty() && !row.is_needed() {
            return Ok(None);
        }
        let Some(length) = number::typed(&answer, units) else {
            dialogue.say(&format!("  a number in {}, please; measure again: {}", units.name(), row.how))?;
            continue;
        };
        if answer.contains(',') {
            dialogue.say(&format!("  understood as {}", say.tool(length.mm())))?;
        }
        match doubted(&answer, length, row.kind, range.map(|r| (r.least, r.most)), units) {
            None => return Ok(Some(length)),
            Some(Doubt::Impossible) => dialogue.say("  that cannot be; measure again")?,
            Some(Doubt::OtherUnit(other, meant)) => {
                let ask = format!(
                    "  As {} that would be {}, which is usual. Is it that? [yes]",
                    spoken(other),
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
    let meant = |unit: Units| number::typed(answer, unit).filter(|l| (low..=high).contains(&l.mm()));
    let other =
        Units::ALL.into_iter().filter(|(_, unit)| *unit != units).find_map(|(_, unit)| Some((unit, meant(unit)?)));
    match other {
        Some((unit, length)) => Some(Doubt::OtherUnit(unit, length)),
        None if (least..=most).contains(&length.mm()) => Some(Doubt::Unusual),
        None => Some(Doubt::Impossible),
    }
}

const fn spoken(units: Units) -> &'static str {
    match units {
        Units::Cm => "centimetres",
        Units::Mm => "millimetres",
        Units::In => "inches",
    }
}

fn yes(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "" | "y" | "yes" => Ok(true),
        "n" | "no" => Ok(false),
        _ => Err("say yes or no".to_owned()),
    }
}

fn cloth<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>) -> Result<String, Silence> {
    dialogue.say("\nThe cloth.")?;
    let name = dialogue.until("  What is it? [cotton jersey]", |text| {
        one_line(if text.is_empty() { "cotton jersey" } else { text })
    })?;
    let kind =
        choice(dialogue, "  Knitted or woven?", &[("knit", "stretches"), ("woven", "hardly stretches, frays")], 0)?;
    let mut out = format!("\n[fabric]\nname = {}\nkind = \"{kind}\"\n", quoted(&name));
    for key in [fabric::STRETCH_ACROSS, fabric::STRETCH_ALONG] {
        dialogue.say(&format!("\n{}: {}", key.name().replace('_', " "), key.row().how))?;
        let percent = dialogue.until("  how much, in %?", |text| {
            let number: Option<f64> = text.trim_end_matches('%').trim().replace(',', ".").parse().ok();
            number
                .filter(|n| (0.0..=400.0).contains(n))
                .ok_or_else(|| "a number of percent from 0 to 400, please".to_owned())
        })?;
        out += &format!("{} = {percent}\n", key.name());
    }
    Ok(out)
}

fn shape<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>) -> Result<String, Silence> {
    let bases: Vec<(&str, &str)> = Base::all().map(|base| (base.name(), about(base))).collect();
    let usual = bases.iter().position(|(name, _)| *name == "brief").unwrap_or(0);
    let base = choice(dialogue, "\nWhich shape?", &bases, usual)?;
    Ok(format!("\n[style]\nbase = \"{base}\"\n"))
}

/// A line about a base.
fn about(base: Base) -> &'static str {
    let shares = base.shares();
    match (shares.side_seam, shares.cover) {
        (side, _) if side > 0.5 => "up to the waist, long at the side",
        (side, _) if side > 0.4 => "below the waist, covers the seat",
        (side, _) if side > 0.3 => "low on the hip, covers the seat",
        (side, _) if side > 0.22 => "below the waist, cut up high at the leg",
        (_, cover) if cover > 0.3 => "low, narrow at the side",
        _ => "low, narrow at the side, bare at the back",
    }
}

fn edges<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, units: Units) -> Result<String, Silence> {
    let mut kept: Vec<Kept> = Vec::new();
    let mut out = String::new();
    for (opening, path, usual) in [(Opening::Top, "top", "turned"), (Opening::LeftLeg, "legs", "trim")] {
        let edge = if opening == Opening::Top { "the top edge" } else { "the legs" };
        let kinds: Vec<(&str, &str)> = FinishKind::all().map(|kind| (kind.name(), kind.summary())).collect();
        let place = kinds.iter().position(|(name, _)| *name == usual).unwrap_or(0);
        let word = choice(dialogue, &format!("\nHow is {edge} finished?"), &kinds, place)?;
        out += &format!("\n[finish.{path}]\nkind = \"{word}\"\n");
        if !FinishKind::named(&word).is_some_and(|kind| kind.takes().elastic()) {
            continue;
        }
        let all = drawer::elastics();
        let shown: Vec<(&str, String)> =
            all.iter().map(|e| (e.name.as_str(), format!("{} wide", Speech(units).tool(e.width.mm())))).collect();
        let shown: Vec<(&str, &str)> = shown.iter().map(|(name, wide)| (*name, wide.as_str())).collect();
        let name = choice(
            dialogue,
            "  With which elastic? (Its numbers can be changed in the sheet.)",
            &shown,
            drawer::usual(&all, &word),
        )?;
        // How much shorter it is stays what is usual: nobody was asked.
        out += &format!("elastic = {}\n", quoted(&name));
        kept.extend(
            all.into_iter().filter(|e| e.name == name && !kept.iter().any(|k| k.name == name)).collect::<Vec<_>>(),
        );
    }
    for e in kept {
        out += &format!("\n[elastic.{}]\nwidth = {}\n", quoted(&e.name), written(e.width, units));
        if e.picot > Length::ZERO {
            out += &format!("picot = {}\n", written(e.picot, units));
        }
        out += &format!("stretch = {}\n", e.stretch);
    }
    Ok(out)
}

/// One of a list, by its number or its word.
fn choice<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    question: &str,
    all: &[(&str, &str)],
    usual: usize,
) -> Result<String, Silence> {
    dialogue.say(question)?;
    for (i, (word, about)) in all.iter().enumerate() {
        dialogue.say(&format!("  {:>2}  {word}: {about}", i + 1))?;
    }
    dialogue.until(&format!("  which? [{}]", usual + 1), |text| {
        let number = if text.is_empty() { Some(usual + 1) } else { text.parse().ok() };
        let by_number = number.and_then(|n: usize| all.get(n.wrapping_sub(1)));
        let found = by_number.or_else(|| all.iter().find(|(word, _)| word.eq_ignore_ascii_case(text)));
        found.map(|(word, _)| (*word).to_owned()).ok_or_else(|| format!("a number from 1 to {}, please", all.len()))
    })
}

fn known<T: Copy>(word: &str, all: &[(&str, T)]) -> Option<T> {
    all.iter().find(|(known, _)| known.eq_ignore_ascii_case(word)).map(|(_, it)| *it)
}

fn one_line(text: &str) -> Result<String, String> {
    if text.chars().any(char::is_control) { Err("on one line, please".to_owned()) } else { Ok(text.to_owned()) }
}

fn quoted(text: &str) -> String {
    toml_edit::Value::from(text).to_string()
}

/// As a person would write it in her sheet.
fn written(length: Length, units: Units) -> String {
    let text = Speech(units).bare(length.mm(), Fineness::Tool);
    if text.parse::<f64>().is_ok() { text } else { format!("\"{text}\"") }
}
