//! `compare`: two sheets, a sheet and one of its variants, or a sheet and what it was, side by side.

use super::new::write_new_file;
use super::reading::{self, Read};
use super::stop::Stop;
use crate::answer::Answer;
use crate::args::{AnswerAs, CompareRequest, PaperUse, Reading, Warnings};
use crate::own_file::undo_of;
use crate::terminal::compare as page;
use engine::compare::{Comparison, Differs, Pieces, compare};
use engine::drawing::Drawing;
use engine::garment::Value;
use export::number::millionth;
use export::pdf;
use export::svg::overlay;
use serde_json::{Value as Json, json};
use std::path::{Path, PathBuf};

pub(super) fn run(request: &CompareRequest) -> Result<Answer, Stop> {
    let [first, second] = sides(request)?;
    let (a, b) = (read(&first)?, read(&second)?);
    let found = compare(&a.made, &b.made);
    let names = [name(&first, &a, &b), name(&second, &b, &a)];
    let [one, other] = [(names[0].as_str(), &a.made.drawing), (names[1].as_str(), &b.made.drawing)];
    if let Some(file) = &request.picture {
        picture(file, one, other)?;
    }
    if let Some(file) = &request.print {
        let options = PaperUse { pages: request.pages, ..PaperUse::default() }.options(&a.sheet.print);
        let print = pdf::together(one, other, &options);
        write_new_file(file, print.map_err(|e| Stop::plain(&e.to_string(), "choose another paper under [print]"))?)?;
    }
    let written: Vec<&Path> = [&request.picture, &request.print].into_iter().flatten().map(PathBuf::as_path).collect();
    let out = match request.answer {
        AnswerAs::Json => json(&found, &names),
        AnswerAs::Text => page::render(&found, (&names, &a.made.garment, &b.made.garment), a.sheet.units, &written),
    };
    Ok(Answer::done(out))
}

/// Draws two garments over each other.
pub(super) fn picture(file: &Path, first: (&str, &Drawing), second: (&str, &Drawing)) -> Result<(), Stop> {
    let drawn = overlay(first, second).map_err(|e| Stop::plain(&e.to_string(), "check the measurements"))?;
    write_new_file(file, drawn)
}

/// One of two garments.
struct Side {
    sheet: PathBuf,
    variant: Option<String>,
    /// What it is called, where neither its file nor its name tells it from the other.
    called: Option<&'static str>,
}

fn sides(request: &CompareRequest) -> Result<[Side; 2], Stop> {
    let CompareRequest { first, second, variant, before, .. } = request;
    let side = |sheet: &Path| Side { sheet: sheet.to_owned(), variant: None, called: None };
    if *before {
        let copy = undo_of(first).ok_or_else(|| {
            Stop::plain(
                "there is no copy of the sheet as it was before",
                "`trial` keeps one when it writes into a sheet",
            )
        })?;
        return Ok([Side { called: Some("before"), ..side(&copy) }, Side { called: Some("now"), ..side(first) }]);
    }
    if second.is_none() && variant.is_none() {
        let next = "name a second sheet, --variant NAME, or --before";
        return Err(Stop::plain("there is nothing to compare it with", next));
    }
    Ok([side(first), Side { variant: variant.clone(), ..side(second.as_ref().unwrap_or(first)) }])
}

fn read(side: &Side) -> Result<Read, Stop> {
    let (sheet, variant) = (side.sheet.clone(), side.variant.clone());
    reading::read(&Reading { sheet, answer: AnswerAs::Text, warnings: Warnings::Allowed, variant })
}

/// By its file where both sheets have one name.
fn name(side: &Side, own: &Read, other: &Read) -> String {
    match side.called {
        Some(called) => format!("{}, {called}", own.sheet.name),
        None if own.sheet.name == other.sheet.name => side.sheet.display().to_string(),
        None => own.sheet.name.clone(),
    }
}

/// The answer for programs.
pub(crate) fn json(found: &Comparison, names: &[String; 2]) -> String {
    let checks = |all: &[(String, String)]| {
        all.iter().map(|(code, place)| json!({ "code": code, "place": place })).collect::<Vec<_>>()
    };
    let all = json!({
        "version": 1,
        "names": names,
        "used": found.used.iter().map(differs).collect::<Vec<_>>(),
        "checks": { "gone": checks(&found.checks_gone), "new": checks(&found.checks_new) },
        "steps": { "gone": found.steps_gone, "new": found.steps_new },
        "pieces": found.pieces.iter().map(pieces).collect::<Vec<_>>(),
    });
    format!("{all:#}\n")
}

fn differs(differs: &Differs) -> Json {
    let worth = |value: &Option<Value>| match value {
        None => Json::Null,
        Some(Value::Mm(number) | Value::Percent(number) | Value::Number(number)) => json!(millionth(*number)),
        Some(Value::Word(word)) => json!(word),
    };
    json!({ "key": differs.key.to_string(), "first": worth(&differs.first), "second": worth(&differs.second) })
}

fn pieces(piece: &Pieces) -> Json {
    let number = |value: Option<f64>| value.map(millionth);
    let (first, second) = (number(piece.first), number(piece.second));
    json!({ "name": piece.name, "area_first_mm2": first, "area_second_mm2": second, "apart_mm": number(piece.apart) })
}
