//! `sizes.pdf`: what every size measures and takes, and how it grows, on paper.

use super::made::{Made, Size};
use crate::commands::stop::Stop;
use crate::terminal::class::{Rest, odd};
use engine::growth::{Growth, Line, What};
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::words::growth::BOTH_SIDES;
use engine::words::number::Fineness;
use engine::words::{Speech, number};
use export::list::{List, Part, Start, Table, list};
use export::mark::Mark;

pub(super) const NAME: &str = "sizes.pdf";
pub(super) const MARK: Mark = Mark::PdfComment;

/// A style over a table of sizes, to be told.
pub(crate) struct Lists<'a> {
    /// Of the style.
    pub(crate) name: &'a str,
    pub(crate) units: Units,
    pub(crate) sizes: &'a [Size],
    /// Those that could be made.
    pub(crate) done: &'a [(&'a Size, &'a Made)],
    pub(crate) growth: &'a Growth,
}

/// Wider than a size's column by so much is what it is about.
const ABOUT: f64 = 4.0;

impl Lists<'_> {
    /// Which measures nobody wrote; nothing where the table has them all.
    pub(crate) fn estimated(&self) -> Option<String> {
        let mut names: Vec<String> = Vec::new();
        for key in self.done.iter().flat_map(|(_, made)| &made.estimated) {
            let name = key.name().replace('_', " ");
            if !names.contains(&name) {
                names.push(name);
            }
        }
        (!names.is_empty()).then(|| {
            format!(
                "The table does not have every measure: {} estimated, the mean of published bodies of such girths. A size \
                 is nobody’s body; fit it before you cut many.",
                names.join(", ")
            )
        })
    }

    /// The list as a PDF.
    pub(super) fn pdf(&self, paper: Paper) -> Result<Vec<u8>, Stop> {
        let whole = List { title: format!("Sizes: {}", self.name), parts: self.parts() };
        list(&whole, paper)
            .map_err(|e| Stop::plain(&format!("{NAME} cannot be made: {e}"), "choose another paper with --paper"))
    }

    fn parts(&self) -> Vec<Part> {
        let (done, all) = (self.done.len(), self.sizes.len());
        let mut parts =
            vec![Part::Paragraph(format!("{done} of {all} sizes are made. Lengths in {}.", self.units.name()))];
        parts.extend(self.growth.is_shortened().then(|| Part::Paragraph(BOTH_SIDES.to_owned())));
        parts.extend(self.estimated().map(Part::Paragraph));
        for (heading, start, table) in self.lengths() {
            parts.push(Part::Heading(heading.to_owned(), start));
            parts.push(Part::Table(table));
        }
        parts.push(Part::Heading("From size to size".to_owned(), Start::NewPage));
        parts.push(Part::Paragraph(GROWTH.to_owned()));
        parts.push(Part::Table(self.steps()));
        let odd = odd(&self.sizes.iter().map(|s| s.entry.clone()).collect::<Vec<_>>(), "every size", Rest::Here);
        if !odd.is_empty() {
            parts.push(Part::Heading("Odd, to look at".to_owned(), Start::Here));
            parts.extend(odd.into_iter().map(Part::Paragraph));
        }
        parts
    }

    /// Every length by size, under the head of its kind.
    pub(crate) fn lengths(&self) -> impl Iterator<Item = (&'static str, Start, Table)> {
        LISTED.into_iter().map(|(heading, start, is_one)| (heading, start, self.lengths_of(is_one)))
    }

    fn lengths_of(&self, is_one: fn(&What) -> bool) -> Table {
        let speech = Speech(self.units);
        let cell = |mm: &Option<f64>| mm.map_or_else(String::new, |mm| speech.bare(mm, Fineness::Tape));
        let row = |line: &Line| head(line, is_one).into_iter().chain(line.lengths.iter().map(cell)).collect();
        let names = self.done.iter().map(|(size, _)| size.entry.name.clone());
        let rows = self.growth.listed().filter(|line| is_one(&line.what)).map(row).collect();
        Table { heads: heads(names), rows }
    }

    fn steps(&self) -> Table {
        let names = self.done.windows(2).map(|pair| format!("{} – {}", pair[0].0.entry.name, pair[1].0.entry.name));
        let row = |line: &Line| {
            let steps = line.growth().into_iter().zip(self.growth.steps(line));
            let cell = |(mm, step): (Option<f64>, Option<engine::growth::Step>)| {
                let shown = mm.map_or_else(String::new, |mm| number::short(mm * 1e6 / self.units.nm() as f64, 2));
                let word = step.and_then(engine::growth::Step::word);
                word.map_or_else(|| shown.clone(), |word| format!("{shown} {word}"))
            };
            std::iter::once(format!("{}: {}", line.what.kind(), line.what.name())).chain(steps.map(cell)).collect()
        };
        let lines = self.growth.listed().filter(|line| !matches!(line.what, What::Mark(..)));
        Table { heads: heads(names), rows: lines.map(row).collect() }
    }
}

/// What is listed under one head.
type Listed = (&'static str, Start, fn(&What) -> bool);

const LISTED: [Listed; 4] = [
    ("Measures of the body", Start::Here, |what| matches!(what, What::Measure(_))),
    ("The garment", Start::Here, |what| {
        matches!(what, What::Edge(_) | What::Seam(_) | What::Across(_) | What::Along(_))
    }),
    ("Elastic to cut", Start::Here, |what| matches!(what, What::Elastic(_))),
    ("Marks on the elastic, from its first cut end", Start::Here, |what| matches!(what, What::Mark(..))),
];

const GROWTH: &str = "A step is uneven where it is more than a quarter, and more than 2 mm, off what the same growth of \
                      the hip girth brings between the other sizes.";

/// Where only one kind of length is listed, the kind is not repeated.
fn head(line: &Line, is_one: fn(&What) -> bool) -> Option<String> {
    let is_garment = is_one(&What::Edge(engine::terms::Opening::Top));
    let name = line.what.name();
    Some(if is_garment { format!("{}: {name}", line.what.kind()) } else { name })
}

fn heads(names: impl Iterator<Item = String>) -> Vec<(String, f64)> {
    std::iter::once((String::new(), ABOUT)).chain(names.map(|name| (name, 1.0))).collect()
}
