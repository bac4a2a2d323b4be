//! A print at true size on pages of any printer, to be put together.
//!
//! The first page carries two test squares, a map of the pages, what the lines mean, and the
//! notes; then come the pages that a piece lies on, each with the lines and marks that bring it
//! to its neighbours. Half pieces stay halves, their fold marked. Same drawing, same bytes.

mod book;
mod canvas;
mod card;
mod count;
mod cover;
mod embed;
mod error;
mod file;
mod label;
mod layer;
mod layout;
mod map;
mod mark;
mod options;
mod overlay;
mod pack;
mod piece;
mod proof;
#[cfg(test)]
mod sample;
mod sheet;
mod squeeze;
mod style;
#[cfg(test)]
mod tests;
mod text;
mod tile;
mod way;

use crate::font::{Face, Used};
use book::{Book, Form, Page};
use canvas::Typesetter;
pub use card::card;
pub use count::pages;
use engine::drawing::Drawing;
use engine::sheet::Paper;
pub use error::PdfError;
use kurbo::{Rect, Size, Vec2};
use layout::Layout;
use options::Turn;
pub use options::{Options, PageSetup, Pages, Sharing, Turning};
use overlay::{Drawn, Overlay, Place};
use pack::Packer;
use proof::Growth;
use sheet::Sheet;
use std::panic::resume_unwind;
use std::thread;
use text::Block;

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
    let face = Face::sans().map_err(|e| PdfError::Font(e.to_string()))?;
    let overlay = Overlay::of(drawing);
    let blocks: Vec<Vec<Block>> = overlay.places.iter().map(|place| blocks(&face, place)).collect();
    let drawing = overlay.whole.as_ref();
    let mut layout = layout(drawing, &texts(&blocks), overlay.own, options)?;
    let mut setter = Typesetter { face, used: Used::default() };
    if let Some(growth) = standing_alone(options) {
        proof::add(&mut layout, drawing, growth, &setter);
    }
    let cover = cover_sheet(&options.setup)?;
    let fronts = cover::draw(drawing, overlay.own, &layout, cover, &mut setter);
    let (covers, total) = (fronts.len(), fronts.len() + layout.cells.len());
    let mut pages = Vec::with_capacity(total);
    for (i, front) in fronts.into_iter().enumerate() {
        let name = if covers == 1 { "start".to_owned() } else { format!("start {}", i + 1) };
        pages.push(Page { size: cover.paper, placed: vec![], clip: Rect::ZERO, front: content(front)?, name });
    }
    let forms = forms(&overlay.places, &blocks, &mut setter)?;
    let mut lines = layout::lines(drawing, &layout);
    lines.extend(layout.proofs.iter().flat_map(proof::outline));
    for cell in &layout.cells {
        let page = pages.len() + 1;
        let tile = tile::Tile { layout: &layout, cell: *cell, lines: &lines, title: &drawing.name, page, pages: total };
        let front = content(tile::draw(&tile, &mut setter))?;
        pages.push(tile_page(&tile, &forms, front));
    }
    let bookmarks = way::bookmarks(drawing, &layout, &pages, covers);
    file::write(Book { drawing, forms, pages, bookmarks }, &setter)
}

/// Pages, joins through text, and parts of pieces: what there is to put together.
fn effort(layout: &Layout) -> (usize, usize, usize) {
    let (pages, texts, parts, ..) = layout.score;
    (pages, texts, parts)
}

/// The layout with the least to put together; upright where turning the paper brings nothing.
fn layout(drawing: &Drawing, texts: &[Rect], own: usize, options: &Options) -> Result<Layout, PdfError> {
    if drawing.pieces.is_empty() {
        return Err(PdfError::Empty);
    }
    let packer = Packer::new(&drawing.pieces, texts, own, options.sharing);
    let setup = &options.setup;
    let turns = options.turning.turns(setup.paper);
    let sheets = turns.iter().map(|turn| Sheet::new(setup, *turn)).collect::<Result<Vec<_>, _>>()?;
    // Of equals the first, whichever is done first.
    let mut best = packed(&packer, &sheets).into_iter().min_by_key(effort).ok_or(PdfError::Empty)?;
    let on_a_roll = matches!(setup.paper, Paper::Roll(_));
    if on_a_roll && best.rows == 1 {
        let low = |(p, o): (&engine::drawing::Piece, &Vec2)| layout::extent(p).y1 + o.y;
        let height = drawing.pieces.iter().zip(&best.offsets).map(low).fold(0.0, f64::max);
        best.sheet = best.sheet.cut_to(height);
    }
    if options.pages == Pages::One { on_one_page(best) } else { Ok(best) }
}

/// A layout for each kind of sheet, side by side.
fn packed(packer: &Packer, sheets: &[Sheet]) -> Vec<Layout> {
    thread::scope(|scope| {
        let running: Vec<_> = sheets.iter().skip(1).map(|sheet| scope.spawn(|| packer.pack(*sheet))).collect();
        let own = sheets.first().map(|sheet| packer.pack(*sheet));
        let others = running.into_iter().map(|run| run.join().unwrap_or_else(|panic| resume_unwind(panic)));
        own.into_iter().chain(others).collect()
    })
}

/// The same layout, all of its pages as one.
fn on_one_page(layout: Layout) -> Result<Layout, PdfError> {
    let layout = layout.on_one_page();
    let Size { width, height } = layout.sheet.paper;
    let most = sheet::LONGEST;
    // A hair over is a rounding.
    if width.max(height) > most + 1e-6 { Err(PdfError::PageTooLarge { width, height, most }) } else { Ok(layout) }
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

fn content(canvas: canvas::Canvas) -> Result<Vec<u8>, PdfError> {
    canvas.finish().map_err(|e| PdfError::Write(e.to_string()))
}

/// The words of every piece that may be drawn in a place.
fn blocks(face: &Face, place: &Place) -> Vec<Block> {
    place.shown.iter().map(|s| Block::of(face, &s.piece.text, s.piece.text_box)).collect()
}

/// Round all words that may be drawn in each place.
fn texts(blocks: &[Vec<Block>]) -> Vec<Rect> {
    let all = |blocks: &Vec<Block>| blocks.iter().map(|b| b.bounds).reduce(|a, b| a.union(b)).unwrap_or_default();
    blocks.iter().map(all).collect()
}

fn forms(places: &[Place], blocks: &[Vec<Block>], setter: &mut Typesetter) -> Result<Vec<Form>, PdfError> {
    let form = |(place, blocks): (&Place, &Vec<Block>)| {
        let mut bytes = Vec::new();
        for (Drawn { piece, on }, block) in place.shown.iter().zip(blocks) {
            let drawn = content(piece::draw(piece, block, setter))?;
            match on {
                Some(layer) => {
                    bytes.extend([format!("/OC /{} BDC\n", layer.key()).as_bytes(), &drawn, b"\nEMC\n"].concat())
                }
                None => bytes.extend(drawn),
            }
        }
        Ok(Form { content: bytes, bounds: place.bounds })
    };
    places.iter().zip(blocks).map(form).collect()
}

/// A page with those pieces that reach into its printable part.
fn tile_page(tile: &tile::Tile, forms: &[Form], front: Vec<u8>) -> Page {
    let sheet = &tile.layout.sheet;
    let clip = sheet.printable();
    let shift = layout::shift(sheet, tile.cell);
    let places = tile.layout.offsets.iter().map(|o| *o + shift).enumerate();
    let shown =
        |(i, place): &(usize, Vec2)| (forms[*i].bounds + *place).overlaps(clip) && tile.layout.shows(*i, tile.cell);
    let placed = places.filter(shown).collect();
    Page { size: sheet.paper, placed, clip, front, name: layout::name(tile.cell) }
}
