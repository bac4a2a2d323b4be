//! The forms in which files for cutters and plotters can be had, each drafted for itself.

use anyhow::{Context, Result, bail};
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::process::Command;

/// One form.
#[derive(Serialize)]
pub(crate) struct Variant {
    version: &'static str,
    curves: &'static str,
    extent: &'static str,
    /// mm.
    kerf: f64,
    notches: &'static str,
    /// 0 for every piece once.
    pairs: u32,
    /// mm; 0 for a row.
    width: f64,
    folder: PathBuf,
}

fn plain(version: &'static str, curves: &'static str, extent: &'static str) -> Variant {
    let (kerf, notches, pairs, width, folder) = (0.0, "marks", 0, 0.0, PathBuf::new());
    Variant { version, curves, extent, kerf, notches, pairs, width, folder }
}

/// Every version, kind of curves and extent that there is; then kerf, notches and pairs.
fn all() -> Vec<Variant> {
    let mut all = Vec::new();
    for (version, curves) in
        [("R12", "polylines"), ("R12", "arcs"), ("R2000", "polylines"), ("R2000", "arcs"), ("R2000", "splines")]
    {
        all.extend(["full", "half"].map(|extent| plain(version, curves, extent)));
    }
    let splines = || plain("R2000", "splines", "full");
    all.extend([0.1, 0.3].map(|kerf| Variant { kerf, notches: "slits", ..splines() }));
    all.push(Variant { notches: "vees", ..splines() });
    all.push(Variant { notches: "vees", kerf: 0.2, ..splines() });
    all.push(Variant { pairs: 3, width: 1000.0, ..plain("R2000", "polylines", "full") });
    all.push(Variant { pairs: 2, width: 620.0, ..plain("R12", "arcs", "half") });
    all
}

/// Drafts a sheet in every form, in folders inside another.
pub(crate) fn draft(sheet: &Path, out: &Path) -> Result<Vec<Variant>> {
    let mut done = all();
    for (i, variant) in done.iter_mut().enumerate() {
        variant.folder = out.join(format!("form-{i}"));
        let mut command = Command::new(env!("CARGO_BIN_EXE_quarterpin"));
        command.arg("draft").arg(sheet).arg("-o").arg(&variant.folder).arg("--plotter");
        command.args(["--dxf-version", variant.version, "--curves", variant.curves, "--notches", variant.notches]);
        command.args(["--kerf", &variant.kerf.to_string()]);
        if variant.extent == "half" {
            command.arg("--halves");
        }
        if variant.pairs > 0 {
            command.args(["--pairs", &variant.pairs.to_string()]);
        }
        if variant.width > 0.0 {
            command.args(["--cut-width", &variant.width.to_string()]);
        }
        let ended = command.output().context("the program does not start")?;
        if !ended.status.success() {
            bail!("form {i} of {}: {}", sheet.display(), String::from_utf8_lossy(&ended.stderr));
        }
    }
    Ok(done)
}
