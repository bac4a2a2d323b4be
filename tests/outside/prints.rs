//! The same garment, printed in every form.

use anyhow::{Context, Result, bail};
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::process::Command;

/// One form, drafted.
#[derive(Serialize)]
pub(crate) struct Print {
    title: &'static str,
    /// Its name, where all pages have the size of one.
    paper: Option<&'static str>,
    file: PathBuf,
}

/// Title, paper and flags.
type Form = (&'static str, Option<&'static str>, &'static [&'static str]);

static FORMS: [Form; 12] = [
    ("one page", None, &["--one-page"]),
    ("edge to edge", Some("A4"), &["--overlap", "0"]),
    ("edge to edge, one page", None, &["--overlap", "0", "--one-page"]),
    ("kept apart", Some("A4"), &["--keep-apart"]),
    ("portrait", Some("A4"), &["--turn", "portrait"]),
    ("landscape", Some("A4"), &["--turn", "landscape"]),
    ("A3", Some("A3"), &["--paper", "A3"]),
    ("Letter", Some("Letter"), &["--paper", "Letter"]),
    ("Legal", Some("Legal"), &["--paper", "Legal"]),
    ("Tabloid", Some("Tabloid"), &["--paper", "Tabloid"]),
    ("A0", Some("A0"), &["--paper", "A0"]),
    ("roll", None, &["--paper", "914"]),
];

/// Drafts a sheet once for every form, in folders beside another.
pub(crate) fn draft(sheet: &Path, beside: &Path) -> Result<Vec<Print>> {
    FORMS.iter().map(|form| one(form, sheet, beside)).collect()
}

fn one((title, paper, flags): &Form, sheet: &Path, beside: &Path) -> Result<Print> {
    let folder = beside.with_extension(title.replace([' ', ','], "-"));
    let program = Command::new(env!("CARGO_BIN_EXE_quarterpin"))
        .arg("draft")
        .arg(sheet)
        .arg("-o")
        .arg(&folder)
        .args(*flags)
        .output()?;
    if !program.status.success() {
        bail!("{title}: {}", String::from_utf8_lossy(&program.stderr).trim());
    }
    let files = std::fs::read_dir(&folder)?.collect::<std::io::Result<Vec<_>>>()?;
    let is_print = |p: &PathBuf| p.to_string_lossy().ends_with(".pdf") && !p.to_string_lossy().ends_with("-card.pdf");
    let pdf = files.into_iter().map(|f| f.path()).find(is_print);
    let file = pdf.with_context(|| format!("{title}: no PDF was written"))?;
    Ok(Print { title, paper: *paper, file })
}
