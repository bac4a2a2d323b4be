//! 260 real women, six bases: each drafts with every property of the design, or is refused with
//! the measurement that stands in the way.

use crate::support::seven::{Worst, measure};
use crate::{support, women};
use engine::base::Base;
use engine::finding::Place;
use engine::sheet::Sheet;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write as _;

#[derive(Default)]
struct Tally {
    made: usize,
    /// Place and code of the first finding, and how often.
    refused: BTreeMap<String, usize>,
}

impl Tally {
    fn refusals(&self) -> usize {
        self.refused.values().sum()
    }
}

/// Says what it found past the test runner's capture: this table is to be read.
fn show(text: &str) {
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

#[test]
fn every_woman_gets_her_garment_or_the_measurement_that_stands_in_the_way() {
    let women = women::all();
    assert_eq!(women.len(), 260, "the data set has 260 women");
    let (mut tallies, mut worst, mut broken) = (Vec::new(), Worst::default(), Vec::new());
    for base in Base::all() {
        let mut tally = Tally::default();
        for (i, woman) in women.iter().enumerate() {
            let sheet = support::sheet(&women::measures(*woman), base);
            let who = format!("{base:?}, woman {i}");
            draft(&sheet, &who, &mut tally, &mut worst, &mut broken);
        }
        tallies.push((base, tally));
    }
    show(&table(&tallies, &worst));
    assert!(broken.is_empty(), "{} broken properties:\n{}", broken.len(), broken[..broken.len().min(40)].join("\n"));
    for (base, tally) in &tallies {
        assert_eq!(tally.made + tally.refusals(), women.len());
        let most = if base.name() == "brief" { 0.01 } else { 0.05 };
        let share = tally.refusals() as f64 / women.len() as f64;
        assert!(share <= most, "{base:?} is refused to {:.1} %: {:?}", 100.0 * share, tally.refused);
    }
}

fn draft(sheet: &Sheet, who: &str, tally: &mut Tally, worst: &mut Worst, broken: &mut Vec<String>) {
    match engine::make(sheet) {
        Ok(made) => {
            tally.made += 1;
            let measured = measure(sheet, &made.garment);
            broken.extend(measured.iter().filter(|m| !m.holds()).map(|m| format!("{who}: {m:?}, {:?}", sheet.body)));
            worst.add(&measured, who);
        }
        Err(refused) => {
            let first = refused.findings.first().unwrap_or_else(|| panic!("{who} is refused without a reason"));
            if !refused.findings.iter().all(|f| names_a_measurement(&f.place) && support::is_told(f)) {
                broken.push(format!("{who}: refused without naming a measurement: {:?}", refused.findings));
            }
            *tally.refused.entry(format!("{} ({})", first.place, first.code)).or_default() += 1;
        }
    }
}

/// A key of the sheet is what can be measured again or set, an opening what can be finished in another way.
fn names_a_measurement(place: &Place) -> bool {
    matches!(place, Place::Key(_) | Place::Opening(_))
}

fn table(tallies: &[(Base, Tally)], worst: &Worst) -> String {
    let mut text = "\nbase          made  refused\n".to_owned();
    for (base, tally) in tallies {
        let _ = writeln!(text, "{:12} {:5} {:5}  {:?}", base.name(), tally.made, tally.refusals(), tally.refused);
    }
    let _ = writeln!(text, "worst of every property:\n{}", worst.table());
    text
}
