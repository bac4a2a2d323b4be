//! The README's table of measures is that of the keys.

use engine::keys::{Row, body, fabric};

/// What one measures, in the order of a sheet.
fn table() -> String {
    let line = |row: &&Row| {
        let words = [row.how, row.advice].join(" ").replace('\u{a0}', " ");
        format!("| `{}` | {} |\n", row.name, words.trim())
    };
    let measured = |row: &&&Row| row.name != body::CHILD.name();
    let cloth = [fabric::STRETCH_ACROSS.row(), fabric::STRETCH_ALONG.row()];
    let lines: String = body::ROWS.iter().filter(measured).copied().chain(cloth).map(|row| line(&row)).collect();
    format!("| key | how |\n|---|---|\n{lines}")
}

#[test]
fn the_readme_says_how_to_measure_as_the_table_of_keys_does() {
    let table = table();
    assert!(include_str!("../../../../README.md").contains(&table), "README.md should hold\n\n{table}");
}
