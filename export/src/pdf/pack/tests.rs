//! Pieces of a sample, laid on pages.

use super::super::layout::{Cell, REACH, extent};
use super::super::options::{PageSetup, Turn};
use super::super::sample;
use super::shadow::GAP;
use super::span::LEAST;
use super::*;
use engine::drawing::Piece;
use engine::sheet::Paper;
use kurbo::Point;
use std::collections::BTreeSet;

fn a4() -> Sheet {
    Sheet::new(&PageSetup { paper: Paper::A4, margin_mm: 10.0, overlap_mm: 10.0 }, Turn::Upright).unwrap()
}

fn pack(pieces: &[Piece], sharing: Sharing) -> Layout {
    pack_turning(pieces, sharing, &[QuarterTurns::None])
}

fn pack_turning(pieces: &[Piece], sharing: Sharing, turns: &[QuarterTurns]) -> Layout {
    let stand = |p: &Piece, turn: QuarterTurns| Stand { turn, text: turn.rect(p.text_box) };
    let stands: Vec<Vec<Stand>> = pieces.iter().map(|p| turns.iter().map(|t| stand(p, *t)).collect()).collect();
    Packer::new(pieces.iter().map(Outline::of).collect(), &stands, pieces.len(), sharing)
        .pack(a4(), usize::MAX)
        .unwrap()
}

fn as_drawn(piece: &Piece) -> Shadow {
    Shadow::new(&Outline::of(piece), QuarterTurns::None, piece.text_box, Crowd::Own)
}

fn outline(piece: &Piece) -> Vec<Point> {
    piece.cut().unwrap().edges.iter().flat_map(|e| e.path.flatten(0.05)).collect()
}

#[test]
fn every_order_once() {
    let shadow = |p: &Piece| vec![(QuarterTurns::None, as_drawn(p))];
    let pieces: Vec<Ways> = sample::drawing("x").pieces.iter().map(shadow).collect();
    let all = orders(&pieces);
    assert_eq!(all.len(), 6);
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), 6);
}

#[test]
fn kept_apart_no_two_pieces_share_a_page() {
    let pieces = sample::drawing("x").pieces;
    let layout = pack(&pieces, Sharing::Apart);
    let core = layout.sheet.core().size();
    let pages = |i: usize| -> BTreeSet<Cell> { as_drawn(&pieces[i]).pages(layout.offsets[i], core).collect() };
    for i in 0..pieces.len() {
        assert!((i + 1..pieces.len()).all(|k| pages(i).is_disjoint(&pages(k))));
    }
    assert!(layout.cells.len() >= pack(&pieces, Sharing::Shared).cells.len());
}

#[test]
fn pieces_keep_apart_and_every_part_has_a_page() {
    pieces_keep_apart(&[QuarterTurns::None]);
    pieces_keep_apart(&QuarterTurns::ALL);
}

fn pieces_keep_apart(turns: &[QuarterTurns]) {
    let pieces = sample::drawing("x").pieces;
    let layout = pack_turning(&pieces, Sharing::Shared, turns);
    let pieces: Vec<Piece> = pieces.iter().zip(&layout.turns).map(|(p, t)| p.turned(*t)).collect();
    let lines: Vec<Vec<Point>> = pieces
        .iter()
        .zip(&layout.offsets)
        .map(|(p, o)| crate::pdf::label::dense(&outline(p)).into_iter().map(|p| p + *o).collect())
        .collect();
    for (i, a) in lines.iter().enumerate() {
        assert!(a.iter().all(|p| p.x >= 0.0 && p.y >= 0.0));
        for p in a {
            assert!(lines[i + 1..].iter().flatten().all(|q| p.distance(*q) > GAP - 1.0));
        }
    }
    let core = layout.sheet.core().size();
    for (piece, offset) in pieces.iter().zip(&layout.offsets) {
        for p in outline(piece) {
            let p = p + *offset;
            let cell = ((p.y / core.height) as usize, (p.x / core.width) as usize);
            assert!(layout.cells.contains(&cell), "{p:?} has no page");
        }
    }
}

/// Two sheets wide and a little over, a strip takes fewer pages along the page than across it.
#[test]
fn a_turn_saves_pages() {
    let mut strip = sample::drawing("x").pieces[2].clone();
    for edge in strip.loops.iter_mut().flat_map(|l| &mut l.edges) {
        edge.path = edge.path.map(|p| Point::new(2.0 * p.x, 0.5 * p.y));
    }
    (strip.text_box, strip.lines) = (Rect::new(-20.0, 30.0, 20.0, 60.0), vec![]);
    let pages = |turns: &[QuarterTurns]| pack_turning(&[strip.clone()], Sharing::Shared, turns).cells.len();
    assert_eq!((pages(&[QuarterTurns::None]), pages(&QuarterTurns::ALL)), (2, 1));
}

#[test]
fn no_page_holds_next_to_nothing_of_a_piece() {
    let sheet = a4();
    let core = sheet.core().size();
    for over in [0.5, 5.0, 15.0] {
        let mut piece = sample::drawing("x").pieces[0].clone();
        piece.lines.clear();
        let grown = (core.height + over - 2.0 * REACH) / (extent(&piece).height() - 2.0 * REACH);
        for edge in piece.loops.iter_mut().flat_map(|l| &mut l.edges) {
            edge.path = edge.path.map(|p| Point::new(p.x, p.y * grown));
        }
        let layout = pack(std::slice::from_ref(&piece), Sharing::Shared);
        let bounds = extent(&piece) + layout.offsets[0];
        assert!(bounds.height() > core.height);
        let first = (bounds.y0 / core.height).floor().mul_add(-core.height, bounds.y0);
        let last = (bounds.y1 / core.height).floor().mul_add(-core.height, bounds.y1);
        assert!(core.height - first > LEAST - 1e-3 && last > LEAST - 1e-3, "{over}: {first}, {last}");
        let least = (bounds.width() / core.width).ceil() as usize * 2;
        assert!(layout.cells.len() <= least, "{over}: {:?}", layout.cells);
    }
}

#[test]
fn a_page_in_the_middle_of_a_piece_is_printed_too() {
    let mut piece = sample::drawing("x").pieces[0].clone();
    let grow = |p: Point| Point::new(p.x * 6.0, p.y * 6.0);
    for edge in piece.loops.iter_mut().flat_map(|l| &mut l.edges) {
        edge.path = edge.path.map(grow);
    }
    let layout = pack(&[piece], Sharing::Shared);
    assert!(layout.cells.contains(&(1, 1)), "{:?}", layout.cells);
}
