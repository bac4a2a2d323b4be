//! Rows of cells, whatever file they come from.

/// More rows or columns than this are no table of people.
pub(super) const MAX_ROWS: usize = 20_000;
pub(super) const MAX_COLUMNS: usize = 500;

/// A table before its cells mean anything.
#[derive(Clone, Debug, Default)]
pub(super) struct Grid {
    pub(super) lines: Vec<Line>,
    /// What parts the cells of a text; none in a spreadsheet.
    pub(super) sign: Option<u8>,
}

/// One row.
#[derive(Clone, Debug, Default)]
pub(super) struct Line {
    /// As the file counts it, from 1.
    pub(super) number: usize,
    /// From the first column on, trimmed.
    pub(super) cells: Vec<String>,
}

impl Line {
    /// Is nothing in it?
    pub(super) fn is_empty(&self) -> bool {
        self.cells.iter().all(String::is_empty)
    }

    /// The cell of a column; empty where the row is shorter.
    pub(super) fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }
}
