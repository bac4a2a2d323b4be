//! A print at true size on pages of any printer, to be put together.
//!
//! The first page says how to print, with two test squares, a map of the pages and what the lines
//! mean; then come the pages that a piece lies on, each with the lines and marks that bring it to its
//! neighbours. A large page that is printed alone has the squares beside the pieces, and no other page
//! comes with it. Half pieces stay halves, their fold marked. Same drawing, same bytes.

mod bind;
mod block;
pub(crate) mod book;
pub(crate) mod canvas;
mod count;
mod cover;
mod embed;
mod error;
pub(crate) mod file;
mod form;
mod joins;
mod label;
mod lay;
mod layer;
mod layout;
mod map;
mod mark;
mod metadata;
mod nest;
pub(crate) mod on_body;
mod options;
mod overlay;
mod pack;
mod piece;
mod placing;
mod proof;
mod repair;
#[cfg(test)]
mod sample;
pub(crate) mod sheet;
mod squeeze;
pub(crate) mod style;
pub(crate) mod tags;
#[cfg(test)]
mod tests;
pub(crate) mod text;
mod tile;
mod way;

use crate::font::Face;
pub use bind::{Part, bind};
use block::{Block, Sizes};
use book::{Book, Page};
use canvas::{Canvas, Typesetter};
pub use count::pages;
use engine::drawing::{Drawing, Piece, Size, TextLine, TextStyle};
use engine::sheet::Paper;
pub use error::PdfError;
use form::Form;
use joins::Joins;
use kurbo::Rect;
pub use lay::lay;
use layout::Layout;
use options::Turn;
pub use options::{Options, PageSetup, Pages, Sharing, Turning};
use overlay::{Drawn, Overlay, Place, Shows};
use proof::Growth;
use sheet::Sheet;
use style::Pen;

/// More sizes than these, over each other, cannot be told apart.
pub const MOST_SIZES: usize = style::SIZES.len();

/// How the outline of each size is dashed in a nested print, mm on, off, on, …; solid where it is empty.
pub const SIZE_DASHES: [&[f64]; MOST_SIZES] = style::SIZES;

/// A print of a drawing at true size, with every option as it is by itself.
///
/// # Errors
/// As [`print()`].
pub fn tiled(drawing: &Drawing, setup: &PageSetup) -> Result<Vec<u8>, PdfError> {
    print(drawing, &Options::from(*setup))
}

/// A print of a drawing at true size.
///
/// # Errors
/// [`PdfError`] where the paper cannot be used as asked, or there is nothing to print.
pub fn print(drawing: &Drawing, options: &Options) -> Result<Vec<u8>, PdfError> {
    paged(Overlay::of(&drawing.layers_as_one()), options)
}

/// The outlines of two garments laid over each other at true size, each on a layer and with a dash of
/// its own, both shown.
///
/// # Errors
/// As [`print()`].
pub fn together(first: (&str, &Drawing), second: (&str, &Drawing), options: &Options) -> Result<Vec<u8>, PdfError> {
    let [a, b] = [first.1, second.1].map(Drawing::layers_as_one);
    paged(Overlay::together((first.0, &a), (second.0, &b)), options)
}

fn paged(overlay: Overlay, options: &Options) -> Result<Vec<u8>, PdfError> {
    let face = face()?;
    let sizes = sizes(face, &overlay);
    let mut layout = placing::layout(face, &overlay, sizes, options)?;
    let overlay = overlay.turned(&layout.turns);
    let drawing = &overlay.whole;
    let mut setter = Typesetter::of(face);
    if let Some(growth) = standing_alone(options) {
        proof::add(&mut layout, drawing, growth, &setter);
    }
    let mut pages = Vec::new();
    if layout.proofs.len() < layout.cells.len() {
        let sheet = cover_sheet(&options.setup)?;
        let canvases = cover::draw(&overlay, &layout, sheet, options.setup.paper, &mut setter);
        for (i, canvas) in canvases.into_iter().enumerate() {
            let name = if i == 0 { "start".to_owned() } else { format!("start {}", i + 1) };
            pages.push(Page { size: sheet.paper, content: canvas.finish(), name });
        }
    }
    let covers = pages.len();
    let forms = forms(&overlay, &layout, sizes, &mut setter);
    let mut lines = layout::lines(drawing, &layout);
    lines.extend(layout.proofs.iter().flat_map(proof::outline));
    let (total, head) = (covers + layout.cells.len(), overlay.head());
    for cell in &layout.cells {
        let page = pages.len() + 1;
        let lines = tile::on_page(&lines, &layout, *cell);
        let tile = tile::Tile { layout: &layout, cell: *cell, lines, title: &head, page, pages: total };
        let bounds: Vec<Rect> = forms.iter().map(|f| f.bounds).collect();
        let canvas = tile::draw(&tile, &bounds, &mut setter);
        pages.push(Page { size: layout.sheet.paper, content: canvas.finish(), name: layout::name(*cell) });
    }
    let bookmarks = way::bookmarks(drawing, &layout, &pages, covers);
    let (title, layers) =
        (drawing.name.clone(), layer::named(drawing, overlay.together.as_ref().map_or(&[], |names| names.as_slice())));
    file::write(&Book { title, forms, pages, bookmarks, layers }, &setter)
}

/// The face of all files.
pub(crate) fn face() -> Result<&'static Face, PdfError> {
    Face::sans().map_err(|e| PdfError::Font(e.to_string()))
}

/// The sizes of text on all pieces.
fn sizes(face: &Face, overlay: &Overlay) -> Sizes {
    let shown = overlay.places.iter().flat_map(|place| &place.shown);
    let texts: Vec<(&[TextLine], Rect)> = shown.map(|s| (s.piece.text.as_slice(), s.piece.text_box)).collect();
    Sizes::of(face, &texts)
}

/// Are the pages of a kind that is printed alone, by a copy shop or on a plotter; and may they
/// grow?
fn standing_alone(options: &Options) -> Option<Growth> {
    match (options.pages, options.setup.paper) {
        (Pages::One, _) | (_, Paper::Roll(_)) => Some(Growth::Allowed),
        (_, Paper::A0) => Some(Growth::None),
        _ => None,
    }
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

fn forms(overlay: &Overlay, layout: &Layout, sizes: Sizes, setter: &mut Typesetter) -> Vec<Form> {
    let of_table: &[Size] = &overlay.whole.sizes;
    let form = |(number, place): (usize, &Place)| {
        let joins = Joins::through(layout, number, place.bounds);
        let block = |p: &Piece| Block::clear_of(&joins, setter.face, &p.text, p.text_box, sizes);
        let blocks: Vec<Block> = place.shown.iter().map(|s| block(&s.piece)).collect();
        let names = nest::names(place, of_table, setter);
        let mut bytes = Vec::new();
        for (Drawn { piece, on, shows }, block) in place.shown.iter().zip(&blocks) {
            let canvas = match *shows {
                Shows::All => piece::draw(piece, block, &joins, sizes, setter),
                Shows::Outline(n) => piece::outline_of(piece, block, Pen::OF_GARMENTS[n % 2], setter),
                Shows::Words => piece::words(Canvas::free(), piece, block, &joins, sizes, setter),
                Shows::Lines(n) => {
                    let name = of_table.get(n).map(|size| size.name.as_str()).zip(names.get(n).copied().flatten());
                    nest::draw(piece, n, name, setter)
                }
            };
            let drawn = canvas.finish().bytes;
            match on {
                Some(layer) => {
                    bytes.extend([format!("/OC /{} BDC\n", layer.key()).as_bytes(), &drawn, b"\nEMC\n"].concat())
                }
                None => bytes.extend(drawn),
            }
        }
        Form { content: bytes, bounds: place.bounds, alt: alt(place) }
    };
    overlay.places.iter().enumerate().map(form).collect()
}

/// What a piece is, in words: its name, and how it is cut.
fn alt(place: &Place) -> String {
    let text = place.shown.iter().flat_map(|s| &s.piece.text);
    let told = text.filter(|line| matches!(line.style, TextStyle::Title | TextStyle::Cutting));
    let mut said: Vec<&str> = Vec::new();
    for line in told.map(|line| line.text.as_str()) {
        if !said.contains(&line) {
            said.push(line);
        }
    }
    said.join("; ")
}
