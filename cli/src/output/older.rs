//! What earlier drafts have left in a folder.

use super::Ready;
use super::seal::LARGEST;
use export::mark::HEAD_BYTES;
use export::table::{EXPORTERS, Exporter};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::Path;

/// Files of ours in a folder that were not written just now.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Older {
    /// Of the same name: a file that is written on request alone.
    pub not_written: Vec<String>,
    /// Of another name, whose record has the same body measurements: the sheet may have been renamed.
    pub renamed: BTreeMap<String, Vec<String>>,
}

/// Looks through a folder into which files of this stem were written.
pub fn older(dir: &Path, stem: &str, written: &[Ready]) -> Older {
    let mut found: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (stem, name) in left(dir, written) {
        found.entry(stem).or_default().push(name);
    }
    let not_written = found.remove(stem).unwrap_or_default();
    let own = written.iter().find(|w| w.name == format!("{stem}{RECORD}")).and_then(|w| measurements(&w.bytes));
    let body = |stem: &str| measurements(&read(dir, &format!("{stem}{RECORD}"), LARGEST)?);
    found.retain(|stem, _| own.is_some() && body(stem) == own);
    Older { not_written, renamed: found }
}

/// Files of ours in a folder that were not written just now, of any stem that begins so; sorted.
pub(crate) fn begun(dir: &Path, start: &str, written: &[Ready]) -> Vec<String> {
    left(dir, written).into_iter().filter(|(stem, _)| stem.starts_with(start)).map(|(_, name)| name).collect()
}

/// Every such file by its stem and its name, sorted by the name.
fn left(dir: &Path, written: &[Ready]) -> Vec<(String, String)> {
    let names = fs::read_dir(dir).into_iter().flatten().filter_map(|e| e.ok()?.file_name().into_string().ok());
    let ours = |name: String| {
        let (exporter, stem) = exporter_of(&name)?;
        let is_ours = head(dir, &name).is_some_and(|bytes| exporter.mark.is_in(&bytes));
        let stem = stem.to_owned();
        is_ours.then_some((stem, name))
    };
    let mut left: Vec<_> = names.filter(|name| !written.iter().any(|w| w.name == *name)).filter_map(ours).collect();
    left.sort_by(|(_, a), (_, b)| a.cmp(b));
    left
}

const RECORD: &str = ".json";

/// The kind of a file by the end of its name, and what stands before that.
fn exporter_of(name: &str) -> Option<(&'static Exporter, &str)> {
    let ends = EXPORTERS.iter().filter_map(|e| Some((e, name.strip_suffix(e.ending)?)));
    ends.min_by_key(|(_, stem)| stem.len())
}

fn head(dir: &Path, name: &str) -> Option<Vec<u8>> {
    read(dir, name, HEAD_BYTES as u64)
}

/// A file's beginning, at most so long; of no pipe and no device.
fn read(dir: &Path, name: &str, most: u64) -> Option<Vec<u8>> {
    let path = dir.join(name);
    if !fs::metadata(&path).is_ok_and(|there| there.is_file()) {
        return None;
    }
    let mut bytes = Vec::new();
    fs::File::open(path).ok()?.take(most).read_to_end(&mut bytes).ok()?;
    Some(bytes)
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
