//! `compare`: two sheets, or a sheet and one of its variants, side by side.

use super::new::write_new_file;
use super::reading::{self, Read};
use super::stop::Stop;
use crate::answer::Answer;
use crate::args::{AnswerAs, Reading, Warnings};
use crate::terminal::compare as page;
use engine::compare::{Comparison, Differs, Pieces, compare};
use engine::garment::Value;
use export::number::millionth;
use export::svg::overlay;
use serde_json::{Value as Json, json};
use std::path::{Path, PathBuf};

pub(super) fn run(
    first: &Path,
    second: Option<&Path>,
    variant: Option<&str>,
    picture: Option<&Path>,
    answer: AnswerAs,
) -> Result<Answer, Stop> {
    let of = |sheet: PathBuf, variant: Option<&str>| {
        let variant = variant.map(str::to_owned);
        reading::read(&Reading { sheet, answer: AnswerAs::Text, warnings: Warnings::Allowed, variant })
    };
    if second.is_none() && variant.is_none() {
        return Err(Stop::plain("there is nothing to compare it with", "name a second sheet, or --variant NAME"));
    }
    let a = of(first.to_owned(), None)?;
    let b = of(second.unwrap_or(first).to_owned(), variant)?;
    let found = compare(&a.made, &b.made);
    let names = names(&a, &b, first, second);
    if let Some(file) = picture {
        let drawn = overlay((&names[0], &a.made.drawing), (&names[1], &b.made.drawing));
        write_new_file(file, &drawn.map_err(|e| Stop::plain(&e.to_string(), "check the measurements"))?)?;
    }
    let out = match answer {
        AnswerAs::Json => json(&found, &names),
        AnswerAs::Text => page::render(&found, (&names, &a.made.garment, &b.made.garment), a.sheet.units, picture),
    };
    Ok(Answer::done(out))
}

/// What both are called: by their files where the sheets have one name.
fn names(a: &Read, b: &Read, first: &Path, second: Option<&Path>) -> [String; 2] {
    match second {
        Some(second) if a.sheet.name == b.sheet.name => [first, second].map(|path| path.display().to_string()),
        _ => [a, b].map(|read| read.sheet.name.clone()),
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
