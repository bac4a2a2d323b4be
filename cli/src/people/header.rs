//! Which row is the header, and in which of the tables that a file may mean.

use super::column::{Column, Meaning};
use super::error::{TableError, Unclear};
use super::grid::Grid;

/// A title or two may stand over the header.
const LOOKED_AT: usize = 20;

/// The header of a table.
pub(super) struct Header {
    /// Which of the lines it is, from 0.
    pub(super) line: usize,
    pub(super) columns: Vec<Column>,
}

/// The first line that knows the most columns, over all tables.
pub(super) fn find(grids: &[Grid]) -> Result<(&Grid, Header), TableError> {
    let mut best: Option<(usize, &Grid, Header)> = None;
    for grid in grids {
        for (line, row) in grid.lines.iter().enumerate().take(LOOKED_AT) {
            let columns = columns(&row.cells);
            let known = columns.iter().filter(|c| c.meaning != Meaning::Unused).count();
            // One word alone may be a title.
            if known > 1 && best.as_ref().is_none_or(|(most, ..)| known > *most) {
                best = Some((known, grid, Header { line, columns }));
            }
        }
    }
    let (_, grid, header) = best.ok_or(TableError::NoHeader)?;
    let row = grid.lines.get(header.line).map_or(1, |line| line.number);
    sound(&header.columns, row)?;
    Ok((grid, header))
}

/// A row without a name is a size where a column says so.
fn columns(headers: &[String]) -> Vec<Column> {
    let mut columns: Vec<Column> =
        headers.iter().enumerate().map(|(index, header)| Column::of(index, header)).collect();
    if columns.iter().all(|c| c.meaning != Meaning::Name)
        && let Some(size) = columns.iter_mut().find(|c| c.is_of_sizes())
    {
        size.meaning = Meaning::Name;
    }
    columns
}

/// Every header is clear, none is there twice, and somebody is named.
fn sound(columns: &[Column], row: usize) -> Result<(), TableError> {
    let unclear: Vec<Unclear> = columns.iter().filter_map(Column::unclear).collect();
    if !unclear.is_empty() {
        return Err(TableError::Unclear(unclear));
    }
    for (i, column) in columns.iter().enumerate() {
        let same = |other: &&Column| other.meaning == column.meaning && other.header_says() == column.header_says();
        let Some(first) = columns.iter().take(i).find(same) else { continue };
        let key = match &column.meaning {
            Meaning::Key(key) => key.to_string(),
            Meaning::Units => "units".to_owned(),
            Meaning::Name => "name".to_owned(),
            Meaning::Unused => continue,
        };
        return Err(TableError::Twice { first: first.shown(), second: column.shown(), key });
    }
    if columns.iter().any(|c| c.meaning == Meaning::Name) { Ok(()) } else { Err(TableError::NoName { row }) }
}

impl Column {
    /// Tells the parts of a name apart; nothing else comes in parts.
    fn header_says(&self) -> usize {
        if self.meaning == Meaning::Name { super::column::name_rank(&self.header) } else { 0 }
    }
}
