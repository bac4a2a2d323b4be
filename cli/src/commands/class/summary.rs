//! `summary.csv`: a row for each person, safe to be opened as a spreadsheet.

use super::entry::Entry;
use super::total::Total;
use crate::commands::stop::{Stop, broken};
use crate::people::Reason;
use engine::quantity::Units;
use engine::terms::Opening;
use engine::words::number::short;
use export::mark::Mark;

pub(super) const NAME: &str = "summary.csv";
pub(super) const MARK: Mark = Mark::Head(HEAD);

/// Spreadsheets take text for UTF-8 where it starts so.
pub(crate) const BOM: &str = "\u{feff}";
/// How every summary starts.
const HEAD: &str = "\u{feff}row,name,folder,status,base,pages,";

/// The table, lengths in this unit.
pub(super) fn csv(entries: &[Entry], total: &Total, units: Units) -> Result<Vec<u8>, Stop> {
    let mut writer = csv::WriterBuilder::new().flexible(false).from_writer(BOM.as_bytes().to_vec());
    let unit = units.name();
    let mut head: Vec<String> = ["row", "name", "folder", "status", "base", "pages"].map(str::to_owned).to_vec();
    head.extend(Opening::ALL.map(|opening| format!("{} ({unit})", opening.name())));
    let elastics = &total.shopping.elastics;
    let width = |mm: f64| short(mm * 1e6 / units.nm() as f64, 3);
    head.extend(elastics.iter().map(|e| format!("elastic {}, {} {unit} wide ({unit})", e.name, width(e.width))));
    head.push("odd, or why not".to_owned());
    writer.write_record(head.iter().map(|cell| text(cell))).map_err(|e| broken(&e))?;
    let number = |mm: f64| short(mm * 1e6 / units.nm() as f64, 3);
    for entry in entries {
        let pair = entry.pair.as_ref();
        let mut cells = vec![
            entry.row.to_string(),
            text(&entry.name),
            text(&entry.folder),
            entry.status.name().to_owned(),
            pair.map_or("", |p| p.base).to_owned(),
            pair.map_or_else(String::new, |p| p.pages.to_string()),
        ];
        let edges = |i: usize| pair.map_or_else(String::new, |p| number(p.edges[i]));
        cells.extend((0..Opening::ALL.len()).map(edges));
        cells.extend(elastics.iter().map(|buy| {
            let own =
                pair.and_then(|p| p.needs.elastics.iter().find(|e| e.name == buy.name && same(e.width, buy.width)));
            own.map_or_else(String::new, |e| number(e.to_have()))
        }));
        let reasons: Vec<String> = entry.reasons.iter().map(Reason::whole).collect();
        cells.push(text(&reasons.join(" | ")));
        writer.write_record(&cells).map_err(|e| broken(&e))?;
    }
    writer.into_inner().map_err(|e| broken(&e))
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

/// Text that no spreadsheet takes for a formula: what could begin one is made text by an apostrophe.
pub(crate) fn text(cell: &str) -> String {
    let plain: String =
        cell.chars().map(|c| if c.is_control() && !matches!(c, '\t' | '\r') { ' ' } else { c }).collect();
    if plain.trim_start_matches(' ').starts_with(['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠']) {
        format!("'{plain}")
    } else {
        plain
    }
}

#[cfg(test)]
mod tests {
    use super::text;

    /// What can begin a formula, after OWASP, "CSV Injection".
    #[test]
    fn nothing_that_is_typed_becomes_a_formula() {
        for cell in ["=1+1", "+1", "-1", "@sum(a1)", "\t=1", "\r=1", " =1", "=HYPERLINK(\"x\")", "＝1"] {
            assert!(text(cell).starts_with('\''), "{cell}");
        }
        for cell in ["Anna", "", "1-2", "O'Hara", "a=b"] {
            assert_eq!(text(cell), cell);
        }
    }
}
