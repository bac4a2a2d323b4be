//! Asks for what a sheet needs, one by one, and writes a short one: only what was said.

use super::answers::{choice, known, one_line, one_of, quoted, written, yes};
use super::drawer::{Kept, Stock};
use super::measures::measures;
use crate::dialogue::{Dialogue, Silence};
use engine::base::Base;
use engine::finish::FinishKind;
use engine::keys::fabric;
use engine::quantity::{Length, Units};
use engine::words::Speech;
use std::io::{BufRead, Write};

/// What these questions are; another one when their order changes, so that answers kept from before
/// answer no other questions.
pub(super) const QUESTIONS: &str = "quarterpin new, 2";

/// The text of a sheet, by questions.
pub(super) fn sheet<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    units: Option<Units>,
    stock: &Stock,
) -> Result<String, Silence> {
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
    let body = measures(dialogue, units)?;
    let (cloth, is_hers) = cloth(dialogue, stock)?;
    let shape = shape(dialogue)?;
    let (edges, chosen) = edges(dialogue, units, stock)?;
    let mut head = format!("[sheet]\nversion = 1\nname = {}\nunits = \"{}\"\n", quoted(&name), units.name());
    if is_hers || chosen.iter().any(|kept| kept.hers) {
        head += &format!("drawer = {}\n", quoted(Stock::file()));
    }
    let elastics: String = chosen.iter().filter(|kept| !kept.hers).map(|kept| described(kept, units)).collect();
    // Elsewhere A4 is the usual paper.
    let paper = if units == Units::In { "\n[print]\npaper = \"Letter\"\n" } else { "" };
    Ok([&head, &body, &cloth, &shape, &edges, &elastics, paper].concat())
}

/// The section of the cloth, and whether it lies in her drawer.
fn cloth<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, stock: &Stock) -> Result<(String, bool), Silence> {
    dialogue.say("\nThe cloth.")?;
    if !stock.cloths.is_empty() {
        let mut all: Vec<(&str, &str)> = stock.cloths.iter().map(|name| (name.as_str(), "in your drawer")).collect();
        all.push((ANOTHER, "asked for now"));
        let name = choice(dialogue, "  Which one?", &all, 0)?;
        if name != ANOTHER {
            return Ok((format!("\n[fabric]\nname = {}\n", quoted(&name)), true));
        }
    }
    let name = dialogue.until("  What is it? [cotton jersey]", |text| {
        one_line(if text.is_empty() { "cotton jersey" } else { text })
    })?;
    let kind =
        choice(dialogue, "  Knitted or woven?", &[("knit", "stretches"), ("woven", "hardly stretches, frays")], 0)?;
    let mut out = format!("\n[fabric]\nname = {}\nkind = \"{kind}\"\n", quoted(&name));
    for key in [fabric::STRETCH_ACROSS, fabric::STRETCH_ALONG] {
        dialogue.say(&format!("\n{}: {}", key.name().replace('_', " "), key.row().how))?;
        out += &format!("{} = {}\n", key.name(), stretch(dialogue, &kind)?);
    }
    Ok((out, false))
}

const ANOTHER: &str = "another";

/// Stretch in percent. What ten reached is easily typed in its place.
fn stretch<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, kind: &str) -> Result<f64, Silence> {
    let typed = dialogue.until("  how much, in %?", |text| {
        let number: Option<f64> = text.trim_end_matches('%').trim().replace(',', ".").parse().ok();
        number
            .filter(|n| (0.0..=400.0).contains(n))
            .ok_or_else(|| "a number of percent from 0 to 400, please".to_owned())
    })?;
    if kind != "knit" || !(10.5..=20.0).contains(&typed) {
        return Ok(typed);
    }
    let reached = ((typed - 10.0) * 100.0).round() / 10.0;
    let ask =
        format!("  Hardly any knit stretches by {typed} %. Is it that ten reached {typed}? That is {reached} %. [yes]");
    Ok(if dialogue.until(&ask, yes)? { reached } else { typed })
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

/// The sections of the edges, and the elastics that were chosen.
fn edges<'s, R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    units: Units,
    stock: &'s Stock,
) -> Result<(String, Vec<&'s Kept>), Silence> {
    let mut chosen: Vec<&Kept> = Vec::new();
    let mut out = String::new();
    let kinds: Vec<(&str, &str)> = FinishKind::all().map(|kind| (kind.name(), kind.summary())).collect();
    for (question, path, usual) in
        [("How is the top edge finished?", "top", "turned"), ("How are the legs finished? (as listed)", "legs", "trim")]
    {
        let place = kinds.iter().position(|(name, _)| *name == usual).unwrap_or(0);
        let word = if path == "top" {
            choice(dialogue, &format!("\n{question}"), &kinds, place)?
        } else {
            dialogue.say(&format!("\n{question}"))?;
            one_of(dialogue, &kinds, place)?
        };
        out += &format!("\n[finish.{path}]\nkind = \"{word}\"\n");
        if !FinishKind::named(&word).is_some_and(|kind| kind.takes().elastic()) {
            continue;
        }
        let name = elastic(dialogue, units, stock, &word)?;
        // How much shorter it is stays what is usual: nobody was asked.
        out += &format!("elastic = {}\n", quoted(&name));
        let is_new = |kept: &&Kept| kept.name == name && !chosen.iter().any(|known| known.name == name);
        let new: Vec<&Kept> = stock.elastics.iter().filter(is_new).collect();
        chosen.extend(new);
    }
    Ok((out, chosen))
}

fn elastic<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    units: Units,
    stock: &Stock,
    finish: &str,
) -> Result<String, Silence> {
    let about = |kept: &Kept| {
        let wide = Speech(units).tool(kept.elastic.width.mm());
        if kept.hers { format!("{wide} wide, in your drawer") } else { format!("{wide} wide") }
    };
    let suited: Vec<&Kept> = stock.suited(finish).collect();
    let others: Vec<&Kept> = stock.elastics.iter().filter(|kept| !suited.iter().any(|s| s.name == kept.name)).collect();
    let list = |all: &[&'_ Kept]| all.iter().map(|kept| (kept.name.clone(), about(kept))).collect::<Vec<_>>();
    let mut first = list(&suited);
    first.push((OTHERS.to_owned(), "the other ones".to_owned()));
    let usual = suited.iter().position(|kept| kept.name == Stock::usual(finish)).unwrap_or(0);
    let question = "  With which elastic? (Its numbers can be changed in the sheet.)";
    let name = choice(dialogue, question, &pairs(&first), usual)?;
    if name == OTHERS { choice(dialogue, "  Which of the other ones?", &pairs(&list(&others)), 0) } else { Ok(name) }
}

const OTHERS: &str = "another";

fn pairs(list: &[(String, String)]) -> Vec<(&str, &str)> {
    list.iter().map(|(name, about)| (name.as_str(), about.as_str())).collect()
}

/// The section of an elastic.
fn described(Kept { name, elastic, .. }: &Kept, units: Units) -> String {
    let picot = if elastic.picot > Length::ZERO {
        format!("picot = {}\n", written(elastic.picot, units))
    } else {
        String::new()
    };
    let stretch = elastic.stretch.map(|stretch| format!("stretch = {}\n", stretch.percent())).unwrap_or_default();
    format!("\n[elastic.{}]\nwidth = {}\n{picot}{stretch}", quoted(name), written(elastic.width, units))
}
