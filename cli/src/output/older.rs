//! What earlier drafts have left in a folder.

use super::Ready;
use export::table::{EXPORTERS, Exporter};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Files of ours in a folder that were not written just now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Older {
    /// Of the same name: a file that is written on request alone.
    pub not_written: Vec<String>,
    /// Of another name, whose record has the same body measurements: the sheet may have been renamed.
    pub renamed: BTreeMap<String, Vec<String>>,
}

/// Larger files are none of ours, bytes.
const LARGEST: u64 = 64 << 20;

/// Looks through a folder into which files of this stem were written.
pub fn older(dir: &Path, stem: &str, written: &[Ready]) -> Older {
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let names = fs::read_dir(dir).into_iter().flatten().filter_map(|e| e.ok()?.file_name().into_string().ok());
    for name in names.filter(|name| !written.iter().any(|w| w.name == *name)) {
        if let Some((exporter, stem)) = exporter_of(&name)
            && read(dir, &name).is_some_and(|bytes| exporter.mark.is_in(&bytes))
        {
            found.entry(stem.to_owned()).or_default().push(name);
        }
    }
    found.values_mut().for_each(|names| names.sort());
    let not_written = found.remove(stem).unwrap_or_default();
    let own = written.iter().find(|w| w.name == format!("{stem}{RECORD}")).and_then(|w| measurements(&w.bytes));
    let body = |stem: &str| measurements(&read(dir, &format!("{stem}{RECORD}"))?);
    found.retain(|stem, _| own.is_some() && body(stem) == own);
    Older { not_written, renamed: found }
}

const RECORD: &str = ".json";

/// The kind of a file by the end of its name, and what stands before that.
fn exporter_of(name: &str) -> Option<(&'static Exporter, &str)> {
    let ends = EXPORTERS.iter().filter_map(|e| Some((e, name.strip_suffix(e.ending)?)));
    ends.min_by_key(|(_, stem)| stem.len())
}

fn read(dir: &Path, name: &str) -> Option<Vec<u8>> {
    let path = dir.join(name);
    let is_small = fs::metadata(&path).is_ok_and(|m| m.is_file() && m.len() <= LARGEST);
    if is_small { fs::read(path).ok() } else { None }
}

/// What a record says was measured on the body.
fn measurements(record: &[u8]) -> Option<Vec<(String, String)>> {
    let record: Value = serde_json::from_slice(record).ok()?;
    let given = |used: &Value| {
        let key = used["key"].as_str().filter(|key| key.starts_with("body.") && used["source"] == "given")?;
        Some((key.to_owned(), used["value"].to_string()))
    };
    Some(record["used"].as_array()?.iter().filter_map(given).collect())
}
