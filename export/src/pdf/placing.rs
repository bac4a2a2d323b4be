//! Where the pieces of a print come to lie: the paper upright or level, and pieces turned where that
//! saves a sheet.

use super::block::{Block, Sizes};
use super::error::PdfError;
use super::layout::{self, Layout};
use super::options::{Options, Pages};
use super::overlay::{Overlay, Place};
use super::pack::{Outline, Packer, Stand};
use super::sheet::{self, Sheet};
use crate::font::Face;
use engine::drawing::{Piece, QuarterTurns};
use engine::sheet::Paper;
use kurbo::{Rect, Size, Vec2};
use rayon::prelude::*;

/// Pages, joins through text, and parts of pieces: what there is to put together.
fn effort(layout: &Layout) -> (usize, usize, usize) {
    let (pages, texts, parts, ..) = layout.score;
    (pages, texts, parts)
}

/// The layout with the least to put together; upright where turning the paper brings nothing, and
/// pieces as drawn where turning them saves no page.
pub(super) fn layout(face: &Face, overlay: &Overlay, sizes: Sizes, options: &Options) -> Result<Layout, PdfError> {
    if overlay.places.is_empty() {
        return Err(PdfError::Empty);
    }
    let setup = &options.setup;
    let turns = options.turning.turns(setup.paper);
    let sheets = turns.iter().map(|turn| Sheet::new(setup, *turn)).collect::<Result<Vec<_>, _>>()?;
    let stands = |turns: &[QuarterTurns]| stands(face, overlay, sizes, turns);
    let outlines = overlay.whole.pieces.iter().map(Outline::of).collect();
    let packer = Packer::new(outlines, &stands(&[QuarterTurns::None]), overlay.own, options.sharing);
    let least = sheets.first().map_or(0, |sheet| packer.least_pages(sheet));
    let mut best = packed(&packer, &sheets, usize::MAX).ok_or(PdfError::Empty)?;
    let pages = best.cells.len();
    if pages > least {
        let turning = packer.with(&stands(&QuarterTurns::ALL[1..]));
        // One page may be saved where the pieces are laid again, two at once hardly.
        let turned = packed(&turning, &sheets, pages).filter(|layout| layout.cells.len() < pages);
        best = turned.unwrap_or(best);
    }
    if matches!(setup.paper, Paper::Roll(_)) && best.rows == 1 {
        let low = |((p, t), o): ((&Piece, &QuarterTurns), &Vec2)| t.rect(layout::extent(p)).y1 + o.y;
        let pieces = overlay.whole.pieces.iter().zip(&best.turns).zip(&best.offsets);
        best.sheet = best.sheet.cut_to(pieces.map(low).fold(0.0, f64::max));
    }
    if options.pages == Pages::One { on_one_page(best) } else { Ok(best) }
}

/// The ways that each piece may lie: a turn that its text has room in, if it has room as drawn.
fn stands(face: &Face, overlay: &Overlay, sizes: Sizes, turns: &[QuarterTurns]) -> Vec<Vec<Stand>> {
    let has_room = |place: &Place| {
        place.shown.iter().all(|s| Block::whole(face, &s.piece.text, s.piece.text_box, sizes).is_some())
    };
    let stands = |place: &Place| {
        let needs_room = turns != [QuarterTurns::None] && has_room(place);
        let stand = |turn: &QuarterTurns| {
            let place = place.turned(*turn);
            let is_set = !needs_room || has_room(&place);
            is_set.then(|| Stand { turn: *turn, text: written(face, &place, sizes) })
        };
        turns.iter().filter_map(stand).collect()
    };
    overlay.places.iter().map(stands).collect()
}

/// Round all words that may be drawn in a place.
fn written(face: &Face, place: &Place, sizes: Sizes) -> Rect {
    let of = |piece: &Piece| Block::of(face, &piece.text, piece.text_box, sizes).bounds;
    place.shown.iter().map(|s| of(&s.piece)).reduce(|a, b| a.union(b)).unwrap_or_default()
}

/// The best layout for each kind of sheet, side by side; of equals the first, whichever is done first.
fn packed(packer: &Packer, sheets: &[Sheet], most: usize) -> Option<Layout> {
    let all: Vec<Option<Layout>> = sheets.par_iter().map(|sheet| packer.pack(*sheet, most)).collect();
    all.into_iter().flatten().min_by_key(effort)
}

/// The same layout, all of its pages as one.
fn on_one_page(layout: Layout) -> Result<Layout, PdfError> {
    let layout = layout.on_one_page();
    let Size { width, height } = layout.sheet.paper;
    let most = sheet::LONGEST;
    // A hair over is a rounding.
    if width.max(height) > most + 1e-6 { Err(PdfError::PageTooLarge { width, height, most }) } else { Ok(layout) }
}
