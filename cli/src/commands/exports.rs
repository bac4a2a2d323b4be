//! The files of a pattern: one line for each kind.

use super::Stop;
use super::reading::Read;
use crate::args::{CutterFiles, PaperUse, Plotter};
use crate::output::{Mark, Ready, stem};
use export::dxf::CutFile;
use std::panic::resume_unwind;
use std::thread;

/// What was chosen for the files on the command line.
pub(super) struct Choices<'a> {
    pub(super) paper: &'a PaperUse,
    pub(super) cutter: &'a CutterFiles,
}

/// A file's bytes, and what there is to say about it.
struct Bytes {
    bytes: Vec<u8>,
    said: Option<CutFile>,
}

impl From<Vec<u8>> for Bytes {
    fn from(bytes: Vec<u8>) -> Self {
        Self { bytes, said: None }
    }
}

/// One kind of file.
struct Kind {
    /// What follows the stem in its name.
    ending: &'static str,
    /// What it is for.
    what: &'static str,
    mark: Mark,
    write: fn(&Read, &Choices<'_>) -> anyhow::Result<Bytes>,
}

/// Every kind, in the order that they are listed.
static EXPORTS: &[Kind] = &[
    Kind { ending: ".pdf", what: "to print at true size", mark: Mark::PdfComment, write: pdf },
    Kind { ending: "-cut.dxf", what: "for a plotter or laser", mark: Mark::DxfComment, write: cut },
    Kind { ending: "-pieces.dxf", what: "to exchange with other programs", mark: Mark::DxfComment, write: pieces },
    Kind { ending: ".svg", what: "to look at, and for home cutting machines", mark: Mark::SvgComment, write: svg },
    Kind { ending: "-on-body.svg", what: "the garment on the body", mark: Mark::SvgComment, write: on_body },
    Kind { ending: ".json", what: "the whole record", mark: Mark::JsonProgram, write: json },
];

/// Only where it is asked for.
static PLOTTER: Kind =
    Kind { ending: ".plt", what: "for a pen plotter, in HP-GL", mark: Mark::HpglLabel, write: plotter };

/// Every file of a pattern, made but not yet written.
pub(super) struct Files {
    pub(super) ready: Vec<Ready>,
    /// What each is for.
    pub(super) what: Vec<&'static str>,
    /// About the file to cut by.
    pub(super) cut: Option<CutFile>,
}

/// Makes every file, all at once: none needs another.
pub(super) fn all(read: &Read, choices: &Choices<'_>) -> Result<Files, Stop> {
    let stem = stem(&read.sheet.name);
    let plotter = (choices.cutter.plotter == Plotter::Written).then_some(&PLOTTER);
    let kinds: Vec<&Kind> = EXPORTS.iter().chain(plotter).collect();
    let made: Vec<anyhow::Result<Bytes>> = thread::scope(|scope| {
        let running: Vec<_> = kinds.iter().map(|kind| scope.spawn(|| (kind.write)(read, choices))).collect();
        running.into_iter().map(|run| run.join().unwrap_or_else(|panic| resume_unwind(panic))).collect()
    });
    let mut files = Files { ready: Vec::new(), what: Vec::new(), cut: None };
    for (kind, made) in kinds.into_iter().zip(made) {
        let name = format!("{stem}{}", kind.ending);
        let Bytes { bytes, said } = made.map_err(|e| cannot(&name, &e))?;
        files.ready.push(Ready { name, mark: kind.mark, bytes });
        files.what.push(kind.what);
        files.cut = said.or(files.cut);
    }
    Ok(files)
}

fn cannot(name: &str, e: &anyhow::Error) -> Stop {
    let next = if name.ends_with(".pdf") {
        "no file was written; look at [print] in the sheet, and at the flags for the print in `quarterpin draft --help`"
    } else {
        "no file was written; look at the sheet, and at the flags for cutters in `quarterpin draft --help`"
    };
    Stop::plain(&format!("{name} cannot be made: {e:#}"), next)
}

fn pdf(read: &Read, choices: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::pdf::print(&read.made.drawing, &choices.paper.options(&read.sheet.print))?.into())
}

fn cut(read: &Read, choices: &Choices<'_>) -> anyhow::Result<Bytes> {
    let mut file = export::dxf::cut(&read.made.drawing, &choices.cutter.cut)?;
    let bytes = std::mem::take(&mut file.bytes);
    Ok(Bytes { bytes, said: Some(file) })
}

fn plotter(read: &Read, choices: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::hpgl::hpgl(&read.made.drawing, &choices.cutter.cut.cutting)?.into())
}

fn pieces(read: &Read, choices: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::dxf::pieces(&read.made.drawing, choices.cutter.cut.cutting.notches)?.into())
}

fn svg(read: &Read, _: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::svg::svg(&read.made.drawing)?.into_bytes().into())
}

fn on_body(read: &Read, _: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::svg::on_body(&read.made.drawing).into_bytes().into())
}

fn json(read: &Read, _: &Choices<'_>) -> anyhow::Result<Bytes> {
    Ok(export::record::json(&read.made.garment)?.into_bytes().into())
}
