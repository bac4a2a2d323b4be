//! The files of a pattern: one line for each kind.

use super::Stop;
use super::reading::Read;
use crate::output::{Mark, Ready, stem};
use engine::quantity::Length;
use engine::sheet::{Paper, Print};
use export::pdf::PageSetup;

/// One kind of file.
pub(super) struct Kind {
    /// What follows the stem in its name.
    pub(super) ending: &'static str,
    /// What it is for.
    pub(super) what: &'static str,
    mark: Mark,
    write: fn(&Read, Paper) -> anyhow::Result<Vec<u8>>,
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
pub(super) fn all(read: &Read, paper: Option<Paper>) -> Result<Vec<Ready>, Stop> {
    let stem = stem(&read.sheet.name);
    let paper = paper.or(read.sheet.print.paper).unwrap_or(Paper::A4);
    EXPORTS.iter().map(|kind| one(kind, &stem, read, paper)).collect()
}

fn one(kind: &Kind, stem: &str, read: &Read, paper: Paper) -> Result<Ready, Stop> {
    let name = format!("{stem}{}", kind.ending);
    let bytes = (kind.write)(read, paper).map_err(|e| {
        Stop::plain(
            &format!("{name} cannot be made: {e:#}"),
            "no file was written; look at [print] in the sheet, and at --paper",
        )
    })?;
    Ok(Ready { name, mark: kind.mark, bytes })
}

fn pdf(read: &Read, paper: Paper) -> anyhow::Result<Vec<u8>> {
    Ok(export::pdf::tiled(&read.made.drawing, &page_setup(&read.sheet.print, paper))?)
}

/// Margin and overlap where a sheet does not say: home printers leave 5 to 10 mm white, and a
/// strip of a finger's width can be glued (common practice).
const CENTIMETRE: Length = Length::from_whole_mm(10);

fn page_setup(print: &Print, paper: Paper) -> PageSetup {
    PageSetup {
        paper,
        margin_mm: print.margin.unwrap_or(CENTIMETRE).mm(),
        overlap_mm: print.overlap.unwrap_or(CENTIMETRE).mm(),
    }
}

fn cut(read: &Read, _: Paper) -> anyhow::Result<Vec<u8>> {
    Ok(export::dxf::cut(&read.made.drawing)?)
}

fn pieces(read: &Read, _: Paper) -> anyhow::Result<Vec<u8>> {
    Ok(export::dxf::pieces(&read.made.drawing)?)
}

fn svg(read: &Read, _: Paper) -> anyhow::Result<Vec<u8>> {
    Ok(export::svg::svg(&read.made.drawing)?.into_bytes())
}

fn json(read: &Read, _: Paper) -> anyhow::Result<Vec<u8>> {
    Ok(export::record::json(&read.made.garment)?.into_bytes())
}
