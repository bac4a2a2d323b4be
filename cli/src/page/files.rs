//! What is taken away: every file of the table of exporters, by the flags of `draft`.

use super::Trouble;
use super::desk::{Answer, Desk};
use crate::args::{ChoiceHelp, FileChoices, choice_helps};
use crate::commands::Stop;
use crate::commands::exports::pattern;
use crate::output::{Ready, Replace, WriteError, sealed, stem, write_of};
use export::cutter::LASER;
use export::table::{EXPORTERS, Written};
use serde::Deserialize;
use serde_json::{Value, json};
use std::io::{Cursor, Write};
use zip::write::{SimpleFileOptions, ZipWriter};

/// What there is, and what can be chosen.
pub(super) fn list(desk: &Desk) -> Answer {
    let open = desk.sheet()?;
    let name = stem(open.now.sheet().map(|sheet| sheet.name.as_str()).unwrap_or_default());
    let file = |exporter: &export::table::Exporter| {
        let with = if let Written::With(choice) = exporter.written { Some(choice.name()) } else { None };
        json!({
            "name": exporter.file(&name),
            "ending": exporter.ending,
            "purpose": exporter.purpose,
            "always": with.is_none(),
            "with": with,
            "follows": exporter.follows().map(|f| f.choice.name()).collect::<Vec<_>>(),
        })
    };
    let choice = |c: ChoiceHelp| json!({ "name": c.name, "takes": c.takes, "words": c.words, "default": c.default, "help": c.help, "group": c.group });
    Ok(json!({
        "files": EXPORTERS.iter().map(file).collect::<Vec<_>>(),
        "cautions": LASER,
        "choices": choice_helps().into_iter().map(choice).collect::<Vec<_>>(),
    }))
}

/// The choices of a query, and the variant that is taken.
pub(super) fn choices(query: &str) -> Result<(FileChoices, Option<String>), Trouble> {
    let wrong = |e: &dyn std::fmt::Display| Trouble::asked_wrongly(format!("this was asked in a wrong way: {e}"));
    let uri: axum::http::Uri = format!("/?{query}").parse().map_err(|e| wrong(&e))?;
    let pairs: Vec<(String, String)> = axum::extract::Query::try_from_uri(&uri).map_err(|e| wrong(&e))?.0;
    let mut variant = None;
    let mut typed = Vec::new();
    for (name, value) in pairs {
        match name.as_str() {
            "variant" => variant = Some(value).filter(|name| !name.is_empty()),
            _ => typed.push((name, value)),
        }
    }
    let choices = FileChoices::typed(&typed).map_err(|(text, next)| Trouble::refused(text, next))?;
    Ok((choices, variant))
}

/// Every file that these choices give, and the name of the sheet that they are of.
fn all(desk: &Desk, query: &str) -> Result<(String, Vec<Ready>), Trouble> {
    let open = desk.sheet()?;
    let (choices, variant) = choices(query)?;
    let (text, label) = open.readable()?;
    pattern(text, &label, variant.as_deref(), &choices).map_err(from_stop)
}

/// The same as `draft` writes them.
fn as_written(desk: &Desk, query: &str) -> Result<Vec<Ready>, Trouble> {
    let (sheet, files) = all(desk, query)?;
    Ok(files.into_iter().map(|file| sealed(&sheet, file)).collect())
}

pub(super) fn from_stop(stop: Stop) -> Trouble {
    let (text, next) = stop.in_words();
    Trouble::refused(text, next)
}

/// One of them, by its name.
pub(super) fn one(desk: &Desk, name: &str, query: &str) -> Result<Ready, Trouble> {
    let found = as_written(desk, query)?.into_iter().find(|file| file.name == name);
    found.ok_or_else(|| Trouble::not_there(format!("there is no file {name}"), "choose one of the list"))
}

/// All of them in one file; the same ones give the same bytes.
pub(super) fn zipped(desk: &Desk, query: &str) -> Result<Ready, Trouble> {
    let files = as_written(desk, query)?;
    let packed = |files: &[Ready]| -> zip::result::ZipResult<Vec<u8>> {
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        for file in files {
            zip.start_file(&file.name, SimpleFileOptions::default())?;
            zip.write_all(&file.bytes)?;
        }
        Ok(zip.finish()?.into_inner())
    };
    let bytes = packed(&files).map_err(|e| Trouble::fault(e.to_string()))?;
    let named = desk.sheet()?.now.sheet().map(|sheet| stem(&sheet.name)).unwrap_or_default();
    Ok(Ready { name: format!("{named}.zip"), mark: export::mark::Mark::JsonProgram, bytes })
}

/// Where to, and which.
#[derive(Debug, Deserialize)]
pub(super) struct Into {
    folder: String,
    #[serde(default)]
    query: String,
    #[serde(default)]
    force: bool,
}

/// Writes all of them into a folder beside the sheet.
pub(super) fn write(desk: &Desk, Into { folder, query, force }: &Into) -> Answer {
    let (sheet, files) = all(desk, query)?;
    let into = desk.folder_itself().inside(folder)?;
    let replace = if *force { Replace::Any } else { Replace::OwnOnly };
    write_of(&sheet, &into, &files, replace).map_err(|e| match e {
        WriteError::Foreign(_) | WriteError::OtherSheet(_) | WriteError::Edited(_) => {
            Trouble::not_now(e.to_string(), "move it away, choose another folder, or replace it")
        }
        other => Trouble::refused(other.to_string(), "choose another folder"),
    })?;
    let names: Vec<Value> = files.iter().map(|file| json!(file.name)).collect();
    Ok(json!({ "folder": folder, "files": names }))
}
