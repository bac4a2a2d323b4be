//! `sizes.csv` and `growth.csv`: a column for each size, a row for each length, safe in spreadsheets.

use super::lists::Lists;
use crate::commands::class::summary::{BOM, text};
use crate::commands::stop::{Stop, broken};
use engine::garment::{Source, Used};
use engine::growth::{Line, Step, What};
use engine::words::number::short;
use export::mark::Mark;

pub(super) const LENGTHS: &str = "sizes.csv";
pub(super) const LENGTHS_MARK: Mark = Mark::Head("\u{feff}kind,length (");
pub(super) const GROWTH: &str = "growth.csv";
pub(super) const GROWTH_MARK: Mark = Mark::Head("\u{feff}kind,growth (");

/// Every length of every size.
pub(super) fn lengths(list: &Lists<'_>) -> Result<Vec<u8>, Stop> {
    let names = list.done.iter().map(|(size, _)| size.entry.name.clone()).collect();
    let estimated = |line: &Line| {
        let is_it = |used: &Used| {
            used.source == Source::Estimated && matches!(&line.what, What::Measure(own) if *own == used.key)
        };
        let is_any = list.done.iter().any(|(_, made)| made.made.garment.used.iter().any(is_it));
        if is_any { "estimated, the table does not say it" } else { "" }.to_owned()
    };
    table(list, ("length", names, "note"), |line| (line.lengths.clone(), estimated(line)))
}

/// How much every length grows from one size to the next.
pub(super) fn growth(list: &Lists<'_>) -> Result<Vec<u8>, Stop> {
    let names: Vec<String> =
        list.done.windows(2).map(|w| format!("{} to {}", w[0].0.entry.name, w[1].0.entry.name)).collect();
    let told = |line: &Line| {
        let steps = list.growth.steps(line).into_iter().zip(&names);
        let odd = steps.filter_map(|(step, name)| Some(format!("{name}: {}", step.and_then(Step::word)?)));
        odd.collect::<Vec<_>>().join("; ")
    };
    table(list, ("growth", names.clone(), "uneven"), |line| (line.growth(), told(line)))
}

fn table(
    list: &Lists<'_>,
    (what, names, last): (&str, Vec<String>, &str),
    row: impl Fn(&Line) -> (Vec<Option<f64>>, String),
) -> Result<Vec<u8>, Stop> {
    let mut writer = csv::Writer::from_writer(BOM.as_bytes().to_vec());
    let head = ["kind".to_owned(), format!("{what} ({})", list.units.name())].into_iter();
    let head = head.chain(names.iter().map(|name| text(name))).chain([last.to_owned()]);
    writer.write_record(head).map_err(|e| broken(&e))?;
    let number = |mm: &Option<f64>| mm.map_or_else(String::new, |mm| short(mm * 1e6 / list.units.nm() as f64, 3));
    for line in &list.growth.lines {
        let (values, note) = row(line);
        let cells = [line.what.kind().to_owned(), text(&line.what.name())].into_iter();
        let cells = cells.chain(values.iter().map(number)).chain([text(&note)]);
        writer.write_record(cells).map_err(|e| broken(&e))?;
    }
    writer.into_inner().map_err(|e| broken(&e))
}
