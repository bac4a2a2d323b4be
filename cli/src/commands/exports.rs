//! The files of a pattern: one line for each kind.

use super::Stop;
use super::reading::Read;
use crate::args::PaperUse;
use crate::output::{Mark, Ready, stem};

/// One kind of file.
pub(super) struct Kind {
    /// What follows the stem in its name.
    pub(super) ending: &'static str,
    /// What it is for.
    pub(super) what: &'static str,
    mark: Mark,
    write: fn(&Read, &PaperUse) -> anyhow::Result<Vec<u8>>,
}

/// Every kind, in the order that they are listed.
pub(super) static EXPORTS: &[Kind] = &[
    Kind { ending: ".pdf", what: "to print at true size", mark: Mark::PdfComment, write: pdf },
    Kind { ending: "-cut.dxf", what: "for a plotter or laser", mark: Mark::DxfComment, write: cut },
    Kind { ending: "-pieces.dxf", what: "to exchange with other programs", mark: Mark::DxfComment, write: pieces },
    Kind { ending: ".svg", what: "to look at, and for home cutting machines", mark: Mark::SvgComment, write: svg },
    Kind { ending: ".json", what: "the whole record", mark: Mark::JsonProgram, write: json },
];

/// Every file of a pattern, made but not yet written.
pub(super) fn all(read: &Read, paper: &PaperUse) -> Result<Vec<Ready>, Stop> {
    let stem = stem(&read.sheet.name);
    EXPORTS.iter().map(|kind| one(kind, &stem, read, paper)).collect()
}

fn one(kind: &Kind, stem: &str, read: &Read, paper: &PaperUse) -> Result<Ready, Stop> {
    let name = format!("{stem}{}", kind.ending);
    let bytes = (kind.write)(read, paper).map_err(|e| {
        Stop::plain(
            &format!("{name} cannot be made: {e:#}"),
            "no file was written; look at [print] in the sheet, and at the flags for the print in `quarterpin draft --help`",
        )
    })?;
    Ok(Ready { name, mark: kind.mark, bytes })
}

fn pdf(read: &Read, paper: &PaperUse) -> anyhow::Result<Vec<u8>> {
    Ok(export::pdf::print(&read.made.drawing, &paper.options(&read.sheet.print))?)
}

fn cut(read: &Read, _: &PaperUse) -> anyhow::Result<Vec<u8>> {
    Ok(export::dxf::cut(&read.made.drawing)?)
}

fn pieces(read: &Read, _: &PaperUse) -> anyhow::Result<Vec<u8>> {
    Ok(export::dxf::pieces(&read.made.drawing)?)
}

fn svg(read: &Read, _: &PaperUse) -> anyhow::Result<Vec<u8>> {
    Ok(export::svg::svg(&read.made.drawing)?.into_bytes())
}

fn json(read: &Read, _: &PaperUse) -> anyhow::Result<Vec<u8>> {
    Ok(export::record::json(&read.made.garment)?.into_bytes())
}
