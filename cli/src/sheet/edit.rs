//! Writes into a person's own sheet: blocks of trials at its end, values of keys where they stand.
//! Every comment, blank line, odd spacing and line ending of hers stays as it is.

mod endings;
mod field;

use super::number;
use endings::Endings;
use engine::garment::Value as Worth;
use engine::keys::{Edges, Home, Key, Single, trial};
use engine::quantity::{Length, Ratio, Units};
use engine::sheet::{FinishSpec, Section, Sheet, Trial};
use engine::trial::change::Change;
use engine::words::{Fineness, Speech};
pub use field::{Place, Typed, typed, without_person};
use std::collections::BTreeMap;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, TomlError, Value};

/// What is to be written.
#[derive(Clone, Copy, Debug)]
pub struct Edit<'a> {
    /// The sheet as it will be, its trials included.
    pub sheet: &'a Sheet,
    /// As many of its trials, the last ones, are new.
    pub new_trials: usize,
    /// The keys that it has otherwise.
    pub changes: &'a [Change],
    /// The day that stands beside a changed key.
    pub date: &'a str,
}

/// The text of a sheet with an edit in it.
///
/// # Errors
/// Where the text is no TOML.
pub fn edited(source: &str, edit: Edit<'_>) -> Result<String, TomlError> {
    let (mark, text) = source.strip_prefix(BOM).map_or(("", source), |rest| (BOM, rest));
    let endings = Endings::of(text);
    let mut doc: DocumentMut = endings.unified().parse()?;
    for change in edit.changes {
        for home in homes(&doc, &change.key) {
            write(&mut doc, home, change, edit);
        }
    }
    let old = edit.sheet.trials.len().saturating_sub(edit.new_trials);
    for trial in edit.sheet.trials.iter().skip(old) {
        append(&mut doc, trial, edit.sheet.units);
    }
    Ok(format!("{mark}{}", endings.restored(&doc.to_string())))
}

/// Some editors write it first in a file.
const BOM: &str = "\u{feff}";

/// The sections that a key is to be written in: of both legs, each that says it for one leg alone,
/// and the one for both.
fn homes(doc: &DocumentMut, key: &Key) -> Vec<&'static str> {
    let Home::Finish(Edges::Legs) = key.home() else { return vec![key.home().path()] };
    let is_there = |edges: Edges| table(doc, edges.path()).is_some();
    let says = |edges: &Edges| table(doc, edges.path()).is_some_and(|table| table.contains_key(key.name()));
    let mut own: Vec<Edges> = [Edges::LeftLeg, Edges::RightLeg].into_iter().filter(says).collect();
    match own.as_slice() {
        [_, _] => {}
        _ if is_there(Edges::Legs) => own.push(Edges::Legs),
        _ => own = vec![Edges::LeftLeg, Edges::RightLeg],
    }
    own.into_iter().map(Edges::path).collect()
}

fn table<'d>(doc: &'d DocumentMut, path: &str) -> Option<&'d dyn TableLike> {
    path.split('.').try_fold(doc.as_table() as &dyn TableLike, |table, name| table.get(name)?.as_table_like())
}

/// Writes a key where it stands, else at the end of its section, with a comment behind it: of what
/// stands in braces, behind the braces.
fn write(doc: &mut DocumentMut, home: &str, change: &Change, edit: Edit<'_>) {
    let was = said(&change.from, edit.sheet.units);
    let name = change.key.name();
    let path: Vec<&str> = home.split('.').collect();
    let Some((place, braces)) = opened(doc.as_table_mut(), &path) else { return };
    let comment = if braces.is_some() { String::new() } else { format!("{}: was {was}", edit.date) };
    match change.section {
        None => set(place, name, worth(&change.to, edit.sheet.units), &comment),
        Some(section) => set_part(place, name, section, change, edit, &comment),
    }
    let Some(braces) = braces else { return };
    if let Some((outside, _)) = opened(doc.as_table_mut(), &path[..braces]) {
        beside(outside, path[braces], &format!("{}: {name} was {was}", edit.date));
    }
}

/// The section at the end of a path, made where it is not there, and how much of the path stands
/// before braces.
fn opened<'d>(root: &'d mut dyn TableLike, path: &[&str]) -> Option<(&'d mut dyn TableLike, Option<usize>)> {
    let mut place = root;
    let mut braces = None;
    for (i, name) in path.iter().enumerate() {
        if !place.contains_key(name) {
            let mut new = section_beside(place);
            if let (Some(table), 0) = (new.as_table_mut(), i) {
                table.set_position(after_neighbours(place, name));
            }
            place.insert(name, new);
        }
        let item = place.get_mut(name)?;
        if braces.is_none() && item.is_inline_table() {
            braces = Some(i);
        }
        place = item.as_table_like_mut()?;
    }
    Some((place, braces))
}

/// Behind the last of those sections that stand before it in a sheet.
fn after_neighbours(root: &dyn TableLike, name: &str) -> Option<isize> {
    let before = Single::ALL.iter().map(|single| single.path()).take_while(|path| *path != name);
    before.filter_map(|path| last_position(root.get(path)?)).max()
}

/// Of a section and those below it.
fn last_position(item: &Item) -> Option<isize> {
    let table = item.as_table()?;
    table.iter().filter_map(|(_, below)| last_position(below)).chain(table.position()).max()
}

/// A section that is written as its neighbours are: in braces, with dots, or under a head.
fn section_beside(place: &dyn TableLike) -> Item {
    let in_braces = place.iter().any(|(_, item)| item.is_inline_table());
    if in_braces {
        return Item::Value(Value::InlineTable(InlineTable::new()));
    }
    let dotted = place.iter().any(|(_, item)| item.as_table().is_some_and(Table::is_dotted));
    let mut table = Table::new();
    table.set_dotted(dotted);
    // Its head is written where something stands under it.
    table.set_implicit(!dotted);
    Item::Table(table)
}

/// One of the reductions by section; where there were none, all that the finish now has.
fn set_part(place: &mut dyn TableLike, name: &str, section: Section, change: &Change, edit: Edit<'_>, comment: &str) {
    let part = Section::ALL.iter().find(|(_, known)| *known == section).map_or("", |(word, _)| *word);
    let to = worth(&change.to, edit.sheet.units);
    if let Some(parts) = place.get_mut(name).and_then(Item::as_table_like_mut) {
        let in_braces = parts.iter().all(|(_, item)| item.is_value());
        set(parts, part, to, "");
        if in_braces {
            beside(place, name, comment);
        }
        return;
    }
    let spec = spec_of(edit.sheet, change.key.home());
    set(place, name, Value::InlineTable(parts_of(&spec.sections)), comment);
}

fn spec_of<'s>(sheet: &'s Sheet, home: &Home) -> &'s FinishSpec {
    match home {
        Home::Finish(Edges::Top) => &sheet.finish.top,
        Home::Finish(Edges::RightLeg) => &sheet.finish.right_leg,
        _ => &sheet.finish.left_leg,
    }
}

fn parts_of(sections: &BTreeMap<Section, Ratio>) -> InlineTable {
    let word = |section: &Section| Section::ALL.iter().find(|(_, known)| known == section).map_or("", |(w, _)| *w);
    sections.iter().map(|(section, ratio)| (word(section), plain(ratio.percent()))).collect()
}

/// Sets a value, with a comment behind it.
fn set(place: &mut dyn TableLike, name: &str, to: Value, comment: &str) {
    put(place, name, to);
    beside(place, name, comment);
}

/// Sets a value; what stands around it stays.
fn put(place: &mut dyn TableLike, name: &str, to: Value) {
    match place.get_mut(name).and_then(Item::as_value_mut) {
        Some(value) => {
            let around = value.decor().clone();
            *value = to;
            *value.decor_mut() = around;
        }
        None => {
            place.insert(name, Item::Value(to));
        }
    }
}

/// A comment behind a value, after what stands there already; inside braces there is no room for one.
fn beside(place: &mut dyn TableLike, name: &str, comment: &str) {
    let is_in_braces = place.get(name).is_none_or(|item| !item.is_value()) || comment.is_empty();
    let Some(value) = place.get_mut(name).and_then(Item::as_value_mut).filter(|_| !is_in_braces) else { return };
    let decor = value.decor_mut();
    let suffix = decor.suffix().and_then(|raw| raw.as_str()).unwrap_or("").to_owned();
    let lead = if suffix.contains('#') { "; " } else { "  # " };
    decor.set_suffix(format!("{}{lead}{comment}", suffix.trim_end()));
}

fn append(doc: &mut DocumentMut, trial: &Trial, units: Units) {
    let block = block(trial, units);
    let name = LIST;
    if let Some(Item::Value(Value::Array(array))) = doc.as_table_mut().get_mut(name) {
        return append_in_brackets(array, block);
    }
    let end = doc.trailing().as_str().unwrap_or("").to_owned();
    doc.set_trailing("");
    let blank = if end.is_empty() || end.ends_with('\n') { "\n" } else { "\n\n" };
    let mut table: Table = block.into_table();
    table.decor_mut().set_prefix(format!("{end}{blank}"));
    table.set_position(Some(isize::MAX));
    for (mut key, item) in table.iter_mut() {
        key.fmt();
        if let Some(value) = item.as_value_mut() {
            value.decor_mut().clear();
        }
    }
    let list = doc.as_table_mut().entry(name).or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
    if let Some(list) = list.as_array_of_tables_mut() {
        list.push(table);
    }
}

/// The section of the trials.
const LIST: &str = "trial";

/// Written as the one before it; a comment behind that one stays there.
fn append_in_brackets(array: &mut Array, block: InlineTable) {
    let raw = |raw: Option<&toml_edit::RawString>| raw.and_then(|raw| raw.as_str()).unwrap_or("").to_owned();
    let before = array.iter().last().map_or_else(|| " ".to_owned(), |last| raw(last.decor().prefix()));
    let mut value = Value::InlineTable(block);
    if array.trailing_comma() {
        let behind = raw(Some(array.trailing()));
        let (rest, end) =
            if behind.ends_with('\n') { (before.trim_start_matches('\n'), "\n") } else { (before.as_str(), "") };
        value.decor_mut().set_prefix(format!("{behind}{rest}"));
        array.set_trailing(end);
    } else {
        value.decor_mut().set_prefix(if before.is_empty() { " ".to_owned() } else { before });
    }
    array.push_formatted(value);
}

fn block(t: &Trial, units: Units) -> InlineTable {
    let mut block = InlineTable::new();
    let mut put = |name: &'static str, value: Option<Value>| {
        if let Some(value) = value {
            block.insert(name, value);
        }
    };
    let text = |text: &Option<String>| text.as_deref().map(Value::from);
    let percent = |ratio: Option<Ratio>| ratio.map(|r| plain(r.percent()));
    let section = t.section.and_then(|s| Section::ALL.iter().find(|(_, known)| *known == s));
    put(trial::DATE.name(), t.date.as_ref().and_then(|d| d.parse::<toml_edit::Datetime>().ok()).map(Value::from));
    put(trial::EDGE.name(), Some(t.edge.name().into()));
    put(trial::SECTION.name(), section.map(|(word, _)| (*word).into()));
    put(trial::FINISH.name(), t.finish.map(|kind| kind.name().into()));
    put(trial::ELASTIC.name(), text(&t.elastic));
    put(trial::REDUCTION.name(), percent(t.reduction));
    put(trial::LENGTH.name(), t.length.map(|length| written(length, units)));
    put(trial::SECTIONS.name(), (!t.sections.is_empty()).then(|| Value::InlineTable(parts_of(&t.sections))));
    put(trial::WORN_STRETCH.name(), percent(t.worn_stretch));
    put(trial::CLOTH.name(), text(&t.cloth));
    put(trial::VERDICT.name(), Some(t.verdict.name().into()));
    put(trial::NOTE.name(), text(&t.note));
    block
}

fn worth(value: &Worth, units: Units) -> Value {
    match value {
        Worth::Mm(mm) => written(Length::from_mm(*mm), units),
        Worth::Percent(number) | Worth::Number(number) => plain(*number),
        Worth::Word(word) => word.as_str().into(),
    }
}

/// A length as a tool is set, as a person would write it.
fn written(length: Length, units: Units) -> Value {
    let text = Speech(units).bare(length.mm(), Fineness::Tool);
    text.parse().map_or_else(|_| Value::from(text), plain)
}

/// A number without a point where it needs none.
fn plain(number: f64) -> Value {
    let whole = number as i64;
    if (whole as f64 - number).abs() < f64::EPSILON { Value::from(whole) } else { Value::from(number) }
}

fn said(value: &Worth, units: Units) -> String {
    match value {
        Worth::Mm(mm) => Speech(units).bare(*mm, Fineness::Tool),
        Worth::Percent(number) | Worth::Number(number) => number::short((number * 100.0).round() / 100.0),
        Worth::Word(word) => word.clone(),
    }
}
