//! What came of a table of sizes.

use super::class::{Rest, gone_folders, odd, told};
use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{heading, plain, wrapped};
use crate::commands::class::entry::{Entry, Status};
use crate::commands::sizes::lists::Lists;
use engine::growth::{Line, Step, What};
use engine::words::growth::BOTH_SIDES;
use engine::words::number::Fineness;
use engine::words::{Speech, number};
use std::path::Path;

/// How many could be made, how everything grows, and where it is.
pub(crate) fn render(list: &Lists<'_>, into: &Path, unused: &[String], gone: &[String]) -> String {
    let entries: Vec<Entry> = list.sizes.iter().map(|size| size.entry.clone()).collect();
    let (done, all) = (list.done.len(), list.sizes.len());
    let mut out = format!("Sizes: {done} of {all} done\n");
    out.extend(list.estimated().map(|text| wrapped(&text, 0) + "\n"));
    out += &told("Cannot be read", &entries, Status::Unreadable);
    out += &told("Refused", &entries, Status::Refused);
    if done > 1 {
        out += &heading(&format!("From the first size to the last, {}", list.units.name()));
        out += &growth(list).text();
        if list.growth.is_shortened() {
            out += &format!("  {BOTH_SIDES}\n");
        }
    }
    let odd = odd(&entries, "every size", Rest::Here);
    if !odd.is_empty() {
        out += &heading("Odd, to look at");
        out.extend(odd.iter().map(|line| format!("  {}\n", wrapped(line, 4))));
    }
    if !unused.is_empty() {
        let columns: Vec<String> = unused.iter().map(|c| plain(c)).collect();
        out += &format!("\n{}\n", wrapped(&format!("Columns that are not used: {}", columns.join(", ")), 0));
    }
    out += &gone_folders("sizes that", gone);
    if done > 0 {
        out += &format!(
            "\nWritten to {}: a folder for each size, nested.pdf, sizes.pdf, sizes.csv, growth.csv and sizes.json\n",
            plain(&into.display().to_string())
        );
    }
    out
}

fn growth(list: &Lists<'_>) -> Columns {
    let names: Vec<String> = list.done.iter().map(|(size, _)| plain(&size.entry.name)).collect();
    let (first, last) = (names.first().map_or("", String::as_str), names.last().map_or("", String::as_str));
    let heads = [("length", Left), (first, Right), (last, Right), ("a size", Right), ("not even", Left)];
    let mut columns = Columns::new(&heads);
    for line in list.growth.listed().filter(|line| !matches!(line.what, What::Mark(..))) {
        columns.line(row(list, line, &names));
    }
    columns
}

fn row(list: &Lists<'_>, line: &Line, names: &[String]) -> [String; 5] {
    let speech = Speech(list.units);
    let shown =
        |mm: Option<&Option<f64>>| mm.copied().flatten().map_or_else(String::new, |mm| speech.bare(mm, Fineness::Tape));
    let steps: Vec<f64> = line.growth().into_iter().flatten().collect();
    let least = steps.iter().copied().fold(f64::INFINITY, f64::min);
    let most = steps.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let short = |mm: f64| number::short(mm * 1e6 / list.units.nm() as f64, 2);
    let a_size = match (short(least), short(most)) {
        _ if steps.is_empty() => String::new(),
        (least, most) if least == most => least,
        (least, most) => format!("{least} to {most}"),
    };
    let odd = list.growth.steps(line).into_iter().enumerate().filter_map(|(at, step)| {
        let word = step.and_then(Step::word)?;
        Some(format!("{} – {}: {word}", names.get(at)?, names.get(at + 1)?))
    });
    let what = format!("{}: {}", line.what.kind(), line.what.name());
    [what, shown(line.lengths.first()), shown(line.lengths.last()), a_size, odd.collect::<Vec<_>>().join("; ")]
}
