//! What the browser is given: as published where it is somebody else's, small, and closed to markup from data.

use libtest_mimic::Failed;
use sha2::{Digest, Sha256};
use std::fs;
use std::path::{Path, PathBuf};

/// `dist/preact.mjs` of Preact 11.2.0, as its registry gives it.
const PREACT: &str = "bdcbd9abdf2c77c5c45326eab42191e949222d479d0d5f69467387a77040cb55";
const MOST: u64 = 300_000;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("page")
}

fn files(folder: &Path) -> Result<Vec<PathBuf>, Failed> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() { found.extend(files(&path)?) } else { found.push(path) }
    }
    Ok(found)
}

pub(crate) fn vendored_as_published() -> Result<(), Failed> {
    let hash = Sha256::digest(fs::read(folder().join("vendor/preact.js"))?);
    let hash: String = hash.iter().map(|byte| format!("{byte:02x}")).collect();
    let licence = fs::read_to_string(folder().join("vendor/preact.LICENSE.txt"))?;
    if hash != PREACT || !licence.contains("MIT") {
        return Err(format!("vendor/preact.js has the hash {hash}").into());
    }
    Ok(())
}

pub(crate) fn small() -> Result<(), Failed> {
    let served = files(&folder())?.into_iter().filter(|file| file.extension().is_some_and(|ending| ending != "md"));
    let bytes = served.map(|file| fs::metadata(file).map(|about| about.len())).sum::<Result<u64, _>>()?;
    if bytes > MOST { Err(format!("{bytes} bytes, of {MOST}").into()) } else { Ok(()) }
}

/// Nothing that turns text into markup or code, and no address but our own.
pub(crate) fn closed() -> Result<(), Failed> {
    const OPEN: [&str; 9] = [
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "new Function",
        "dangerouslySet",
        "<style",
        "https://",
    ];
    for file in files(&folder())?.into_iter().filter(|file| !file.components().any(|part| part.as_os_str() == "vendor"))
    {
        let text = fs::read_to_string(&file)?;
        if file.extension().is_some_and(|ending| ending == "md") {
            continue;
        }
        if let Some(open) = OPEN.iter().find(|open| text.contains(*open)) {
            return Err(format!("{} has {open}", file.display()).into());
        }
    }
    Ok(())
}
