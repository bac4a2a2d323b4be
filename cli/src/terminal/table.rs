//! Plain columns: words to the left, numbers to the right. Where a terminal is too narrow for them, a
//! line of its own for every row.

use super::{TIE, plain, wrapped};
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width, presets};

/// How a column is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// Room at the left of a table, and round the cells of a column.
const MARGIN: usize = 2;
const PADDING: usize = 2;

/// Columns with a headed first line, two spaces in from the margin.
#[derive(Debug)]
pub struct Columns {
    heads: Vec<(String, Column)>,
    rows: Vec<Vec<String>>,
}

impl Columns {
    /// With these heads.
    pub fn new(heads: &[(&str, Column)]) -> Self {
        Self { heads: heads.iter().map(|(head, set)| ((*head).to_owned(), *set)).collect(), rows: Vec::new() }
    }

    /// One more line.
    pub fn line(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().map(|cell| plain(&cell)).collect());
    }

    /// As text.
    pub fn text(&self) -> String {
        self.within(super::columns())
    }

    fn within(&self, columns: Option<usize>) -> String {
        let inside = columns.map(|columns| columns.saturating_sub(MARGIN));
        let least: usize = self.narrowest().iter().sum();
        if inside.is_some_and(|inside| least > inside) { self.stacked() } else { self.set(inside) }
    }

    /// The width of each column whose words are left whole.
    fn narrowest(&self) -> Vec<usize> {
        let word = |text: &str| text.split(' ').map(|w| w.chars().count()).max().unwrap_or(0);
        let of = |(i, (head, _)): (usize, &(String, Column))| {
            let cells = self.rows.iter().filter_map(|row| row.get(i)).map(|cell| word(cell));
            PADDING + cells.fold(word(head), usize::max)
        };
        self.heads.iter().enumerate().map(of).collect()
    }

    /// Side by side; with a width, words go on below each other in their column.
    fn set(&self, width: Option<usize>) -> String {
        let mut table = Table::new();
        table.load_style(presets::NOTHING).set_header(self.heads.iter().map(|(head, _)| head));
        table.add_rows(&self.rows);
        if let Some(width) = width {
            table.set_content_arrangement(ContentArrangement::Dynamic).set_width(short(width));
        }
        for ((column, (_, set)), least) in table.column_iter_mut().zip(&self.heads).zip(self.narrowest()) {
            column.set_cell_alignment(match set {
                Column::Left => CellAlignment::Left,
                Column::Right => CellAlignment::Right,
            });
            if width.is_some() {
                column.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(short(least))));
            }
        }
        table
            .lines()
            .map(|line| format!("  {}\n", line.trim_end().strip_prefix(' ').unwrap_or(&line).trim_end()))
            .collect()
    }

    /// Each row by itself: what it is about, then head and value in turn.
    fn stacked(&self) -> String {
        let row = |cells: &Vec<String>| {
            let pairs = self.heads.iter().zip(cells).skip(1).filter(|(_, cell)| !cell.is_empty());
            let pairs: Vec<String> =
                pairs.map(|((head, _), cell)| format!("{head}: {cell}").replace(' ', &TIE.to_string())).collect();
            let about = cells.first().map_or("", String::as_str);
            format!("  {}\n", wrapped(&format!("{about}: {}", pairs.join(", ")), 2 * MARGIN))
        };
        self.rows.iter().map(row).collect()
    }
}

fn short(width: usize) -> u16 {
    u16::try_from(width).unwrap_or(u16::MAX)
}

#[cfg(test)]
mod tests {
    use super::Column::{Left, Right};
    use super::*;

    fn sample() -> Columns {
        let mut table = Columns::new(&[("opening", Left), ("goes on", Left), ("edge cm", Right)]);
        table.line(["left leg", "back gusset seam", "63.2"].map(str::to_owned));
        table.line(["top edge", "", "81.7"].map(str::to_owned));
        table
    }

    #[test]
    fn a_table_is_as_wide_as_its_cells_where_there_is_no_terminal() {
        assert_eq!(
            sample().within(None),
            "  opening   goes on           edge cm\n  left leg  back gusset seam     63.2\n  top edge                       81.7\n"
        );
        assert_eq!(sample().within(Some(60)), sample().within(None));
    }

    #[test]
    fn words_go_on_below_each_other_and_stay_whole() {
        let text = sample().within(Some(32));
        assert!(text.lines().all(|l| l.chars().count() <= 32) && text.lines().count() > 3, "{text}");
        for word in ["opening", "gusset", "seam", "63.2", "81.7"] {
            assert!(text.split_whitespace().any(|w| w == word), "{word} not in\n{text}");
        }
    }

    #[test]
    fn a_table_that_cannot_be_so_narrow_is_told_row_by_row() {
        let text = sample().within(Some(20));
        assert_eq!(text, "  left leg: goes on: back gusset seam, edge cm: 63.2\n  top edge: edge cm: 81.7\n");
    }
}
