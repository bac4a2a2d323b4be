//! Words that stand for values.

use clap::builder::{PathBufValueParser, PossibleValuesParser, TypedValueParser};
use export::table::EXPORTERS;
use std::path::PathBuf;

/// A folder for files. One that is called like a file was meant for one, where there is no such folder yet.
pub(super) fn folder() -> impl TypedValueParser<Value = PathBuf> {
    PathBufValueParser::new().try_map(|folder| match folder.extension().and_then(|e| e.to_str()) {
        Some(ending) if is_of_file(ending) && !folder.is_dir() => {
            Err(format!("all the files go into a folder: give its name, without .{ending}"))
        }
        _ => Ok(folder),
    })
}

fn is_of_file(ending: &str) -> bool {
    EXPORTERS.iter().filter_map(|e| e.ending.rsplit('.').next()).any(|own| own.eq_ignore_ascii_case(ending))
}

/// The value of a word that has already been found to be one of the table; `first` is never used.
pub(super) fn named<T: Copy>(table: &[(&str, T)], word: &str, first: T) -> T {
    table.iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map_or(first, |(_, value)| *value)
}

/// A number, with a decimal comma or a point.
pub(super) fn number(typed: &str) -> Result<f64, String> {
    let typed = typed.trim();
    let with_point = if typed.contains('.') { typed.to_owned() } else { typed.replacen(',', ".", 1) };
    with_point.parse().map_err(|_| "write a number without a unit, such as 0.15; lengths are in mm".to_owned())
}

/// One of a table's words, as its value.
pub(super) fn words<T: Copy + Send + Sync + 'static>(
    table: &'static [(&'static str, T)],
) -> impl TypedValueParser<Value = T> {
    PossibleValuesParser::new(table.iter().map(|(word, _)| *word)).map(move |typed| named(table, &typed, table[0].1))
}
