//! What answers mean, and how they are written into a sheet.

use crate::dialogue::{Dialogue, Silence};
use engine::quantity::{Length, Units};
use engine::words::{Fineness, Speech};
use std::io::{BufRead, Write};

pub(super) fn yes(text: &str) -> Result<bool, String> {
    match text.to_lowercase().as_str() {
        "" | "y" | "yes" => Ok(true),
        "n" | "no" => Ok(false),
        _ => Err("say yes or no".to_owned()),
    }
}

/// One of a list, by its number or its word.
pub(super) fn choice<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    question: &str,
    all: &[(&str, &str)],
    usual: usize,
) -> Result<String, Silence> {
    dialogue.say(question)?;
    for (i, (word, about)) in all.iter().enumerate() {
        dialogue.say(&format!("  {:>2}  {word}: {about}", i + 1))?;
    }
    one_of(dialogue, all, usual)
}

/// The same of a list that stands on the screen already.
pub(super) fn one_of<R: BufRead, W: Write>(
    dialogue: &mut Dialogue<R, W>,
    all: &[(&str, &str)],
    usual: usize,
) -> Result<String, Silence> {
    let word = dialogue.until(&format!("  which? [{}]", usual + 1), |text| {
        let number = if text.is_empty() { Some(usual + 1) } else { text.parse().ok() };
        let by_number = number.and_then(|n: usize| all.get(n.wrapping_sub(1)));
        let found = by_number.or_else(|| all.iter().find(|(word, _)| word.eq_ignore_ascii_case(text)));
        found
            .map(|(word, _)| (*word).to_owned())
            .ok_or_else(|| format!("a number from 1 to {}, or its word, please; Enter takes {}", all.len(), usual + 1))
    })?;
    // Kept by its word: the list may be another one when the questions are gone on with.
    dialogue.meant(&word);
    Ok(word)
}

pub(super) fn known<T: Copy>(word: &str, all: &[(&str, T)]) -> Option<T> {
    all.iter().find(|(known, _)| known.eq_ignore_ascii_case(word)).map(|(_, it)| *it)
}

pub(super) fn one_line(text: &str) -> Result<String, String> {
    if text.chars().any(char::is_control) { Err("on one line, please".to_owned()) } else { Ok(text.to_owned()) }
}

pub(super) fn quoted(text: &str) -> String {
    toml_edit::Value::from(text).to_string()
}

/// As a person would write it in her sheet.
pub(super) fn written(length: Length, units: Units) -> String {
    let text = Speech(units).bare(length.mm(), Fineness::Tool);
    if text.parse::<f64>().is_ok() { text } else { format!("\"{text}\"") }
}
