//! Plain columns: words to the left, numbers to the right.

use comfy_table::{CellAlignment, Table, presets};

/// How a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// Columns with a headed first line, two spaces in from the margin.
#[derive(Debug)]
pub struct Columns {
    table: Table,
}

impl Columns {
    /// With these heads.
    pub fn new(heads: &[(&str, Column)]) -> Self {
        let mut table = Table::new();
        table.load_style(presets::NOTHING).set_header(heads.iter().map(|(head, _)| *head));
        for (column, (_, set)) in table.column_iter_mut().zip(heads) {
            column.set_cell_alignment(match set {
                Column::Left => CellAlignment::Left,
                Column::Right => CellAlignment::Right,
            });
        }
        Self { table }
    }

    /// One more line.
    pub fn line(&mut self, cells: impl IntoIterator<Item = String>) {
        self.table.add_row(cells.into_iter().map(|cell| super::plain(&cell)));
    }

    /// As text.
    pub fn text(&self) -> String {
        self.table
            .lines()
            .map(|line| format!("  {}\n", line.trim_end().strip_prefix(' ').unwrap_or(&line).trim_end()))
            .collect()
    }
}
