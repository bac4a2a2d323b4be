//! Puts a sheet together from its typed values; what is missing is said where it belongs.

use super::finish::{self, Layer};
use super::problem::{Problem, quoted};
use super::sections::{VARIANT, body, elastic, fabric, gusset, print, seams, style, trial};
use super::variant;
use super::walk::{Found, Table};
use engine::keys::{Row, SECTIONS, Section, Shape, elastic as elastic_keys, head, print as print_keys};
use engine::quantity::Units;
use engine::sheet::Sheet;
use engine::words::Speech;
use export::pdf::{PageSetup, PdfError};
use std::ops::Range;

/// The sheet, or `None` where something is wrong, and said in `problems`.
pub(super) fn sheet(found: &Found, end: Range<usize>, problems: &mut Vec<Problem>) -> Option<Sheet> {
    finished(found, Vec::new(), end, problems)
}

/// The same, with finishes laid over those that were found.
pub(super) fn finished(
    found: &Found,
    over: Vec<Layer<'_>>,
    end: Range<usize>,
    problems: &mut Vec<Problem>,
) -> Option<Sheet> {
    missing(found, &end, problems);
    problems.extend(found.elastics.values().filter_map(picot_within_width));
    print_on_paper(found, problems);
    nothing_changed(found, problems);
    let finish = finish::openings(found, over, end.clone(), problems);
    let variants = variant::variants(found, &end, problems);
    if !problems.is_empty() {
        return None;
    }
    let head = found.sections.get("sheet")?;
    Some(Sheet {
        name: head.text(head::NAME)?,
        units: head.word(head::UNITS, &Units::ALL)?,
        date: head.text(head::DATE),
        body: body(found.sections.get("body")?)?,
        estimated: Vec::new(),
        fabric: fabric(found.sections.get("fabric")?)?,
        style: style(found.sections.get("style")?)?,
        gusset: found.sections.get("gusset").map(gusset).unwrap_or_default(),
        seams: found.sections.get("seams").map(seams).unwrap_or_default(),
        finish: finish?,
        variants: variants?,
        elastics: found.elastics.iter().map(|(n, t)| Some((n.clone(), elastic(t)?))).collect::<Option<_>>()?,
        print: found.sections.get("print").map(print).unwrap_or_default(),
        trials: found.list("trial").iter().map(trial).collect::<Option<_>>()?,
    })
}

/// Notes every needed key that is not there: at the head of its section, else at the end.
fn missing(found: &Found, end: &Range<usize>, problems: &mut Vec<Problem>) {
    for section in &SECTIONS {
        let needed: Vec<_> = section.rows().filter(|row| row.is_needed()).collect();
        let tables: Vec<&Table> = match section.shape {
            Shape::One => found.sections.get(section.path).into_iter().collect(),
            Shape::Named => found.elastics.values().collect(),
            Shape::List => found.list(section.path).iter().collect(),
        };
        if tables.is_empty()
            && section.shape == Shape::One
            && !needed.is_empty()
            && !found.misspelt.contains(section.path)
        {
            let names: Vec<&str> = needed.iter().map(|k| k.name).collect();
            problems.push(Problem {
                span: end.clone(),
                key: section.path.to_owned(),
                title: format!("the section {} is missing", section.head()),
                label: "not found up to here".to_owned(),
                help: format!("add {} with {}", section.head(), names.join(", ")),
            });
        }
        let not_misspelt = |problem: &Problem| !found.misspelt.contains(&problem.key);
        problems.extend(tables.into_iter().flat_map(|table| missing_in(table, section)).filter(not_misspelt));
    }
}

/// Every needed key that is not there in a table of a section.
pub(super) fn missing_in(table: &Table, section: &Section) -> Vec<Problem> {
    let one = |key: &Row| Problem {
        span: table.head.clone(),
        key: format!("{}.{}", table.path, key.name),
        title: format!("`{}` is missing", key.name),
        label: "not found in this section".to_owned(),
        help: format!("add `{}` here. {}", key.name, key.how),
    };
    section.rows().filter(|key| key.is_needed() && !table.items.contains_key(key.name)).map(one).collect()
}

/// A variant that changes nothing is not finished.
fn nothing_changed(found: &Found, problems: &mut Vec<Problem>) {
    let is_empty = |block: &&Table| block.over.values().all(|section| section.items.is_empty());
    for block in found.list(VARIANT).iter().filter(is_empty) {
        // What was to be changed may stand in it, and be refused already.
        if problems.iter().any(|problem| problem.key.starts_with(&format!("{}.", block.path))) {
            continue;
        }
        problems.push(Problem {
            span: block.head.clone(),
            key: block.path.clone(),
            title: "what the variant changes is missing".to_owned(),
            label: "it changes nothing".to_owned(),
            help: "add what is to differ by its dotted name, such as `body.hip_girth` or `finish.legs.kind`".to_owned(),
        });
    }
}

/// Margins and overlap leave enough of the paper.
fn print_on_paper(found: &Found, problems: &mut Vec<Problem>) {
    let Some(table) = found.sections.get("print") else { return };
    let units = found.sections.get("sheet").and_then(|sheet| sheet.word(head::UNITS, &Units::ALL));
    let say = Speech(units.unwrap_or(Units::Mm));
    let at_most = |most: f64| say.tool(most);
    let (key, title, most) = match PageSetup::of(&print(table)).check() {
        Err(PdfError::MarginTooWide { paper, most, .. }) => {
            (print_keys::MARGIN, format!("the margin leaves too little of {paper} to print on"), at_most(most))
        }
        Err(PdfError::OverlapTooWide { paper, most, .. }) => {
            (print_keys::OVERLAP, format!("the overlap takes up too much of {paper}"), at_most(most))
        }
        _ => return,
    };
    let span = [key, print_keys::MARGIN, print_keys::PAPER].iter().find_map(|key| table.items.get(key.name()));
    problems.push(Problem {
        span: span.map_or(table.head.clone(), |item| item.at.clone()),
        key: format!("{}.{}", table.path, key.name()),
        title,
        label: "too wide".to_owned(),
        help: format!("make it at most {most}, or take larger paper"),
    });
}

/// An elastic whose picots are wider than all of it.
pub(super) fn picot_within_width(table: &Table) -> Option<Problem> {
    let (picot, width) = (table.length(elastic_keys::PICOT)?, table.length(elastic_keys::WIDTH)?);
    let item = table.items.get(elastic_keys::PICOT.name());
    (picot >= width).then(|| Problem {
        span: item.map_or(table.head.clone(), |i| i.at.clone()),
        key: format!("{}.picot", table.path),
        title: format!("the picots of {} take up its whole width", quoted(&table.path)),
        label: "not less than `width`".to_owned(),
        help: "`picot` is the decorative part of `width`: measure the whole width, picots included, and write a \
               smaller `picot`"
            .to_owned(),
    })
}
