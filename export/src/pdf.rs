//! A print at true size on pages of any printer, to be put together.
//!
//! The first page carries two test squares, a map of the pages, what the lines mean, and the
//! notes; then come the pages that a piece lies on, each with the lines and marks that bring it
//! to its neighbours. Half pieces stay halves, their fold marked. Same drawing, same bytes.

mod canvas;
mod cover;
mod embed;
mod file;
mod label;
mod map;
mod pack;
mod piece;
#[cfg(test)]
mod sample;
mod sheet;
mod style;
#[cfg(test)]
mod tests;
mod text;
mod tile;

use crate::font::{Face, Used};
use canvas::Typesetter;
use engine::drawing::Drawing;
use engine::sheet::Paper;
use file::{Book, Form, Page};
use kurbo::{Point, Rect, Vec2};
use pack::{Layout, Packer, Sharing};
use sheet::{Sheet, Turn};
use text::Block;

/// The paper and how it is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PageSetup {
    /// The paper in the printer.
    pub paper: Paper,
    /// Left free on every side, mm.
    pub margin_mm: f64,
    /// Width of the strip that neighbouring pages share, mm.
    pub overlap_mm: f64,
}

/// Why there is no print, and what to change.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PdfError {
    /// Not a finite length, or less than nothing.
    #[error("the {what} of the print is {value} mm; give a length of 0 or more")]
    NotALength {
        /// `margin` or `overlap`.
        what: &'static str,
        /// As given, mm.
        value: f64,
    },
    /// Too little is left to print on.
    #[error(
        "a margin of {margin:.1} mm leaves less than {least:.0} mm of {paper} to print on; \
         set a margin of at most {most:.1} mm, or take larger paper"
    )]
    MarginTooWide {
        /// Its name.
        paper: String,
        /// As given, mm.
        margin: f64,
        /// The least printable width, mm.
        least: f64,
        /// The widest margin that leaves it, mm.
        most: f64,
    },
    /// Marks and labels have no room.
    #[error("an overlap of {overlap:.1} mm has no room for the match marks; set an overlap of at least {least:.1} mm")]
    OverlapTooNarrow {
        /// As given, mm.
        overlap: f64,
        /// The narrowest that works, mm.
        least: f64,
    },
    /// Pages would mostly repeat each other.
    #[error("an overlap of {overlap:.1} mm eats the pages of {paper}; set an overlap of at most {most:.1} mm")]
    OverlapTooWide {
        /// Its name.
        paper: String,
        /// As given, mm.
        overlap: f64,
        /// The widest that works, mm.
        most: f64,
    },
    /// A drawing without a piece.
    #[error("the drawing has no pieces, so there is nothing to print")]
    Empty,
    /// The built-in face is broken: a fault of the program.
    #[error("the built-in font cannot be used: {0}")]
    Font(String),
    /// The document cannot be written: a fault of the program.
    #[error("the PDF cannot be put together: {0}")]
    Write(String),
}

/// A print of a drawing at true size.
///
/// # Errors
/// [`PdfError`] where the paper cannot be used as asked, or there is nothing to print.
pub fn tiled(drawing: &Drawing, setup: &PageSetup) -> Result<Vec<u8>, PdfError> {
    let face = Face::sans().map_err(|e| PdfError::Font(e.to_string()))?;
    let blocks: Vec<Block> = drawing.pieces.iter().map(|p| Block::of(&face, &p.text, p.text_box)).collect();
    let layout = layout(drawing, &blocks, setup)?;
    let mut setter = Typesetter { face, used: Used::default() };
    let fronts = cover::draw(drawing, &layout, cover_sheet(setup)?, &mut setter);
    let cover = cover_sheet(setup)?;
    let mut pages = Vec::new();
    let total = fronts.len() + layout.cells.len();
    for front in fronts {
        pages.push(Page { size: cover.paper, placed: vec![], clip: Rect::ZERO, front: content(front)? });
    }
    let forms = forms(drawing, &blocks, &mut setter)?;
    let lines = lines(drawing, &layout);
    for cell in &layout.cells {
        let page = pages.len() + 1;
        let tile = tile::Tile { layout: &layout, cell: *cell, lines: &lines, title: &drawing.name, page, pages: total };
        let front = content(tile::draw(&tile, &mut setter))?;
        pages.push(tile_page(&tile, &forms, front));
    }
    file::write(Book { title: drawing.name.clone(), forms, pages }, &setter)
}

/// Pages, joins through text, and parts of pieces: what there is to put together.
fn effort(layout: &Layout) -> (usize, usize, usize) {
    let (pages, texts, parts, ..) = layout.score;
    (pages, texts, parts)
}

/// The layout with the least to put together; upright where turning the paper brings nothing.
fn layout(drawing: &Drawing, blocks: &[Block], setup: &PageSetup) -> Result<Layout, PdfError> {
    if drawing.pieces.is_empty() {
        return Err(PdfError::Empty);
    }
    let texts: Vec<Rect> = blocks.iter().map(|b| b.bounds).collect();
    let packer = Packer::new(&drawing.pieces, &texts, Sharing::Shared);
    let mut best: Option<Layout> = None;
    for turn in sheet::turns(setup.paper) {
        let layout = packer.pack(Sheet::new(setup, *turn)?);
        if best.as_ref().is_none_or(|b| effort(&layout) < effort(b)) {
            best = Some(layout);
        }
    }
    let mut best = best.ok_or(PdfError::Empty)?;
    let on_a_roll = matches!(setup.paper, Paper::Roll(_));
    if on_a_roll && best.rows == 1 {
        let low = |(p, o): (&engine::drawing::Piece, &Vec2)| pack::extent(p).y1 + o.y;
        let height = drawing.pieces.iter().zip(&best.offsets).map(low).fold(0.0, f64::max);
        best.sheet = best.sheet.cut_to(height);
    }
    Ok(best)
}

/// The first page is set on the same paper, or on A4 where that is a plotter's.
fn cover_sheet(setup: &PageSetup) -> Result<Sheet, PdfError> {
    // mm; an A4 page does not need the margins of a plotter.
    const MARGIN: f64 = 15.0;
    match setup.paper {
        Paper::A0 | Paper::Roll(_) => {
            let margin_mm = setup.margin_mm.min(MARGIN);
            Sheet::new(&PageSetup { paper: Paper::A4, margin_mm, overlap_mm: 10.0 }, Turn::Upright)
        }
        _ => Sheet::new(setup, Turn::Upright),
    }
}

fn content(canvas: canvas::Canvas) -> Result<Vec<u8>, PdfError> {
    canvas.finish().map_err(|e| PdfError::Write(e.to_string()))
}

fn forms(drawing: &Drawing, blocks: &[Block], setter: &mut Typesetter) -> Result<Vec<Form>, PdfError> {
    let form = |(p, block): (&engine::drawing::Piece, &Block)| {
        Ok(Form { content: content(piece::draw(p, block, setter))?, bounds: pack::extent(p) })
    };
    drawing.pieces.iter().zip(blocks).map(form).collect()
}

/// Places along all lines, on the sheet, no further apart than a millimetre or so.
fn lines(drawing: &Drawing, layout: &Layout) -> Vec<Point> {
    let pieces = drawing.pieces.iter().zip(&layout.offsets);
    let of = |(piece, offset): (&engine::drawing::Piece, &Vec2)| {
        let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| &e.path);
        let paths = edges.chain(piece.lines.iter().map(|o| &o.path));
        paths.flat_map(|p| label::dense(&p.flatten(0.2))).map(|p| p + *offset).collect::<Vec<_>>()
    };
    pieces.flat_map(of).collect()
}

/// A page with those pieces that reach into its printable part.
fn tile_page(tile: &tile::Tile, forms: &[Form], front: Vec<u8>) -> Page {
    let sheet = &tile.layout.sheet;
    let clip = sheet.printable();
    let shift = tile::shift(sheet, tile.cell);
    let places = tile.layout.offsets.iter().map(|o| *o + shift).enumerate();
    let placed = places.filter(|(i, place)| (forms[*i].bounds + *place).overlaps(clip)).collect();
    Page { size: sheet.paper, placed, clip, front }
}
