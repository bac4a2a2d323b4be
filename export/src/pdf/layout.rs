//! Where everything lies: pieces on the sheet, and the sheet on its pages.

use super::label::dense;
use super::sheet::Sheet;
use engine::drawing::{Drawing, Piece, QuarterTurns};
use kurbo::{Point, Rect, Size, Vec2};
use std::collections::{BTreeMap, BTreeSet};

/// Row and column of a page, from the top left.
pub(super) type Cell = (usize, usize);

/// Fewer pages, then fewer texts and ends at joins, then fewer parts of pieces, then a smaller grid, then
/// less height, in whole tenths of a millimetre.
pub(super) type Score = (usize, usize, usize, usize, u64);

/// Round everything that is drawn, for the width of lines, mm.
pub(super) const REACH: f64 = 2.0;

/// Where every piece lies.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    pub(super) sheet: Sheet,
    /// How each piece is turned about its own origin, in the order of the pieces.
    pub(super) turns: Vec<QuarterTurns>,
    /// What is added to a turned piece's coordinates.
    pub(super) offsets: Vec<Vec2>,
    /// The pages that carry something.
    pub(super) cells: BTreeSet<Cell>,
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// Of one page: columns, rows and core of the pages that it was laid out for, so that what is drawn stands where
    /// it stands on those.
    pub(super) tiles: Option<(usize, usize, Size)>,
    /// What it costs; less is better.
    pub(super) score: Score,
    /// Test squares beside the pieces.
    pub(super) proofs: Vec<Proof>,
    /// Which pieces may show on a page where pieces have pages of their own.
    pub(super) only: Option<BTreeMap<Cell, BTreeSet<usize>>>,
}

impl Layout {
    /// May this piece show on that page?
    pub(super) fn shows(&self, piece: usize, on: Cell) -> bool {
        self.only.as_ref().is_none_or(|only| only.get(&on).is_some_and(|pieces| pieces.contains(&piece)))
    }

    /// Are these neighbours put together?
    pub(super) fn joins(&self, page: Cell, other: Cell) -> bool {
        let common = |only: &BTreeMap<Cell, BTreeSet<usize>>| {
            only.get(&page).zip(only.get(&other)).is_some_and(|(a, b)| !a.is_disjoint(b))
        };
        self.cells.contains(&other) && self.only.as_ref().is_none_or(common)
    }

    /// The same layout, all of its pages as one.
    pub(super) fn on_one_page(mut self) -> Self {
        self.tiles = Some((self.columns, self.rows, self.sheet.core().size()));
        self.sheet = self.sheet.joined(self.columns, self.rows);
        (self.columns, self.rows, self.only) = (1, 1, None);
        self.cells = BTreeSet::from([(0, 0)]);
        self
    }
}

/// How the squares stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    Beside,
    Under,
}

/// A place for both squares and the name, on the sheet.
#[derive(Clone, Debug)]
pub(super) struct Proof {
    pub(super) cell: Cell,
    pub(super) place: Rect,
    pub(super) shape: Shape,
}

/// The box round all that a piece draws: a finished edge may lie outside the cut line.
pub(super) fn extent(piece: &Piece) -> Rect {
    let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| e.path.bounds());
    let lines = piece.lines.iter().map(|o| o.path.bounds());
    edges.chain(lines).fold(piece.bounds(), |a, b| a.union(b)).inset(REACH)
}

/// Places along all lines, on the sheet, no further apart than a millimetre or so.
pub(super) fn lines(drawing: &Drawing, layout: &Layout) -> Vec<Point> {
    let pieces = drawing.pieces.iter().zip(&layout.offsets);
    let of = |(piece, offset): (&Piece, &Vec2)| {
        let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| &e.path);
        let paths = edges.chain(piece.lines.iter().map(|o| &o.path));
        paths.flat_map(|p| dense(&p.flatten(0.2))).map(|p| p + *offset).collect::<Vec<_>>()
    };
    pieces.flat_map(of).collect()
}

/// Rows are letters, columns numbers: `B3` is the third page of the second row.
pub(super) fn name((row, column): Cell) -> String {
    let mut letters = String::new();
    let mut rest = row + 1;
    while rest > 0 {
        rest -= 1;
        letters.insert(0, char::from(b'A' + (rest % 26) as u8));
        rest /= 26;
    }
    format!("{letters}{}", column + 1)
}

/// Where a sheet position lies on the page of a cell: what is added to it.
pub(super) fn shift(sheet: &Sheet, (row, column): Cell) -> Vec2 {
    let core = sheet.core();
    Vec2::new(core.x0 - column as f64 * core.width(), core.y0 - row as f64 * core.height())
}

/// As [`shift`], for a page by its number among those that carry something.
pub(super) fn nth_shift(layout: &Layout, n: usize) -> Vec2 {
    layout.cells.iter().nth(n).map_or(Vec2::ZERO, |cell| shift(&layout.sheet, *cell))
}

/// Does a place on the sheet lie in the core of that page?
pub(super) fn holds(layout: &Layout, n: usize, at: Point) -> bool {
    layout.sheet.core().contains(at + nth_shift(layout, n))
}
