//! Walks the parsed tree along the table of keys: what is unknown, mistyped or out of range is
//! noted with its place, the rest becomes typed values.

mod of_drawer;

use super::problem::{Problem, quoted};
use super::value::{Lines, Value, flaw, typed};
use super::words::nearest;
use engine::keys::{Row, SECTIONS, Section, Shape};
use engine::quantity::Units;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// One key as it was found. The value is absent where it was refused.
#[derive(Clone, Debug)]
pub(super) struct Item {
    pub(super) key: Range<usize>,
    pub(super) at: Range<usize>,
    pub(super) value: Option<Value>,
}

/// One section as it was found.
#[derive(Clone, Debug, Default)]
pub(super) struct Table {
    /// Its head, to point at when something is missing in it.
    pub(super) head: Range<usize>,
    /// Dotted, for messages.
    pub(super) path: String,
    pub(super) items: BTreeMap<&'static str, Item>,
    /// Sections laid over the sheet's, of a variant.
    pub(super) over: BTreeMap<&'static str, Table>,
}

/// A whole sheet, typed but not yet put together.
#[derive(Clone, Debug, Default)]
pub(super) struct Found {
    pub(super) sections: BTreeMap<&'static str, Table>,
    pub(super) elastics: BTreeMap<String, Table>,
    /// What can be written as often as wanted, by the path of its section, in the order of the file.
    pub(super) lists: BTreeMap<&'static str, Vec<Table>>,
    /// Keys and sections that a misspelt one most likely stands for: they are not missing as well.
    pub(super) misspelt: BTreeSet<String>,
}

impl Found {
    /// Every block of a section that can be written as often as wanted.
    pub(super) fn list(&self, path: &str) -> &[Table] {
        self.lists.get(path).map_or(&[], Vec::as_slice)
    }
}

/// Reads sections, noting problems.
pub(super) struct Walk<'a> {
    pub(super) source: &'a str,
    /// None where the sheet does not say: then lengths are read, but not judged.
    pub(super) units: Option<Units>,
    pub(super) problems: Vec<Problem>,
    found: Found,
    within: Within,
}

/// What is being read: it decides how a key is written in its right place.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Within {
    Sheet,
    Variant,
}

/// After so many, no nearest names are looked for: the file is no sheet.
const ENOUGH: usize = 100;

impl<'a> Walk<'a> {
    pub(super) fn new(source: &'a str, root: &DeTable<'_>) -> Self {
        Self { source, units: units_of(root), problems: Vec::new(), found: Found::default(), within: Within::Sheet }
    }

    /// The whole tree.
    pub(super) fn whole(mut self, root: &DeTable<'_>) -> (Found, Vec<Problem>) {
        self.group("", root);
        (self.found, self.problems)
    }

    /// The sections under a dotted path ("" is the file itself, else "finish").
    fn group(&mut self, path: &str, table: &DeTable<'_>) {
        for (key, value) in in_file_order(table) {
            let name = key.get_ref().as_ref();
            let full = if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
            let is_group = SECTIONS.iter().any(|s| s.path.starts_with(&format!("{full}.")));
            match (Section::at(&full), value.get_ref()) {
                (None, DeValue::Table(inner)) if is_group => self.group(&full, inner),
                (None, _) if is_group => self.not_a_section(&full, &format!("[{full}.top]"), value.span()),
                (None, _) => self.unknown_section(&full, key.span(), value.get_ref()),
                (Some(section), _) => self.section(section, key, value),
            }
        }
    }

    fn section(
        &mut self,
        section: &'static Section,
        key: &Spanned<toml::de::DeString<'_>>,
        value: &Spanned<DeValue<'_>>,
    ) {
        let head = head_span(self.source, key.span(), value.span());
        match (section.shape, value.get_ref()) {
            (Shape::One, DeValue::Table(table)) => {
                let read = self.table(section, section.path.to_owned(), head, table);
                self.found.sections.insert(section.path, read);
            }
            (Shape::Named, DeValue::Table(table)) => {
                let read = self.named(section, table);
                self.found.elastics.extend(read);
            }
            (Shape::List, DeValue::Array(array)) => {
                for (i, entry) in array.iter().enumerate() {
                    let path = format!("{}.{}", section.path, i + 1);
                    match entry.get_ref() {
                        DeValue::Table(table) => {
                            let read = match section.over {
                                [] => self.table(section, path, entry.span(), table),
                                _ => self.variant(section, path, entry.span(), table),
                            };
                            self.found.lists.entry(section.path).or_default().push(read);
                        }
                        _ => self.not_a_section(&path, &section.head(), entry.span()),
                    }
                }
            }
            _ => self.not_a_section(section.path, &section.head(), head),
        }
    }

    /// The tables of a section that is there once for each name.
    fn named(&mut self, section: &'static Section, table: &DeTable<'_>) -> BTreeMap<String, Table> {
        let mut all = BTreeMap::new();
        for (key, value) in in_file_order(table) {
            let name = key.get_ref().trim().to_owned();
            let path = format!("{}.\"{name}\"", section.path);
            match value.get_ref() {
                DeValue::Table(_) if flaw(&name, Lines::One).is_some() => self.note(
                    &path,
                    key.span(),
                    "this name cannot be used",
                    flaw(&name, Lines::One).map_or("", |(label, _)| label),
                    &format!("give it a short name, such as [{}.\"soft 8\"]", section.path),
                ),
                DeValue::Table(inner) => {
                    let head = head_span(self.source, key.span(), value.span());
                    let read = self.table(section, path, head, inner);
                    all.insert(name, read);
                }
                _ => self.not_a_section(&path, &section.head(), key.span()),
            }
        }
        all
    }

    fn table(&mut self, section: &'static Section, path: String, head: Range<usize>, table: &DeTable<'_>) -> Table {
        let mut items = BTreeMap::new();
        for (key, value) in in_file_order(table) {
            let name = key.get_ref().as_ref();
            match section.row(name) {
                Some(known) => {
                    items.insert(known.name, self.item(known, &path, key.span(), value));
                }
                None => self.unknown_key(section, &path, name, key.span()),
            }
        }
        Table { head, path, items, over: BTreeMap::new() }
    }

    /// A block with keys of its own, and sections that it lays over those of the sheet.
    fn variant(&mut self, section: &'static Section, path: String, head: Range<usize>, table: &DeTable<'_>) -> Table {
        self.within = Within::Variant;
        let mut read = Table { head, path, ..Table::default() };
        self.laid_over(section, "", &mut read, table);
        self.within = Within::Sheet;
        read
    }

    /// The keys of a variant under a dotted path ("" is the block itself, else "finish").
    fn laid_over(&mut self, section: &'static Section, under: &str, block: &mut Table, table: &DeTable<'_>) {
        for (key, value) in in_file_order(table) {
            let name = key.get_ref().as_ref();
            let full = if under.is_empty() { name.to_owned() } else { format!("{under}.{name}") };
            let path = format!("{}.{full}", block.path);
            let inside = section.inside().find(|inside| inside.path == full);
            let is_group = section.over.iter().any(|path| path.starts_with(&format!("{full}.")));
            let own = section.own.iter().find(|row| row.name == full);
            match (own, inside, value.get_ref()) {
                (Some(own), _, _) => {
                    let item = self.item(own, &block.path, key.span(), value);
                    block.items.insert(own.name, item);
                }
                (_, Some(inside), DeValue::Table(keys)) => {
                    let read = self.table(inside, path, key.span(), keys);
                    block.over.insert(inside.path, read);
                }
                (_, None, DeValue::Table(group)) if is_group => self.laid_over(section, &full, block, group),
                (_, None, _) if !is_group => self.not_in_a_variant(section, &path, &full, key.span()),
                _ => self.note(
                    &path,
                    value.span(),
                    &format!("{} has keys of its own", quoted(&full)),
                    "not a section",
                    &format!(
                        "write the key that is to change after it, with a dot, such as {}",
                        key_of(section, &full)
                    ),
                ),
            }
        }
    }

    fn not_in_a_variant(&mut self, section: &'static Section, path: &str, full: &str, span: Range<usize>) {
        let (under, name) = full.rsplit_once('.').unwrap_or(("", full));
        let known = names_under(section, under);
        let homes: Vec<String> = section
            .inside()
            .filter(|inside| inside.row(full).is_some())
            .map(|inside| format!("{}.{full}", inside.path))
            .collect();
        let near = if self.problems.len() < ENOUGH { nearest(name, known.iter().copied()) } else { None };
        let (label, help) = match (homes.as_slice(), near) {
            ([one], _) => (format!("did you mean `{one}`?"), format!("write `{one}`")),
            ([_, ..], _) => {
                ("a key of several sections".to_owned(), format!("write the one you mean: {}", homes.join(", ")))
            }
            ([], Some(near)) => (format!("did you mean `{near}`?"), format!("write `{near}`, or take it out")),
            ([], None) => (
                "not what a variant can change".to_owned(),
                format!("take it out; a variant knows {}", known.join(", ")),
            ),
        };
        self.note(path, span, &format!("unknown key {} in {}", quoted(full), section.head()), &label, &help);
    }

    fn item(&mut self, key: &'static Row, path: &str, span: Range<usize>, value: &Spanned<DeValue<'_>>) -> Item {
        let full = format!("{path}.{}", key.name);
        let read = typed(key, value, self.units);
        let value_read = match read {
            Ok(read) => Some(read),
            Err(wrong) => {
                let at = wrong.at.unwrap_or_else(|| value.span());
                self.note(&full, at, &wrong.title, &wrong.label, &wrong.help);
                None
            }
        };
        Item { key: span, at: value.span(), value: value_read }
    }

    fn note(&mut self, key: &str, span: Range<usize>, title: &str, label: &str, help: &str) {
        self.problems.push(Problem {
            span,
            key: key.to_owned(),
            title: title.to_owned(),
            label: label.to_owned(),
            help: help.to_owned(),
        });
    }

    fn not_a_section(&mut self, path: &str, head: &str, span: Range<usize>) {
        self.note(
            path,
            span,
            &format!("{} is a section with keys of its own", quoted(path)),
            "not a section",
            &format!("write {head} on a line of its own, and the keys below it"),
        );
    }

    fn unknown_key(&mut self, section: &Section, path: &str, name: &str, span: Range<usize>) {
        let title = format!("unknown key {} in {}", quoted(name), section.head());
        let (label, help) = self.advice(section, path, name);
        self.note(&format!("{path}.{name}"), span, &title, &label, &help);
    }

    /// Label and help for a key that a section does not know.
    fn advice(&mut self, section: &Section, path: &str, name: &str) -> (String, String) {
        let near = if self.problems.len() < ENOUGH { nearest(name, section.rows().map(|k| k.name)) } else { None };
        let known: Vec<&str> = section.rows().map(|k| k.name).collect();
        let homes = match self.within {
            Within::Sheet => homes_of(name),
            // Its keys are dotted, and it does not take those of every section.
            Within::Variant => Vec::new(),
        };
        match (homes.as_slice(), near) {
            ([home], _) => (format!("belongs in {home}"), format!("move it under {home}")),
            (_, Some(near)) => {
                self.found.misspelt.insert(format!("{path}.{near}"));
                (format!("did you mean `{near}`?"), format!("write `{near}`, or take the line out"))
            }
            ([], None) => (
                "not a key of this section".to_owned(),
                format!("take it out; {} knows {}", section.head(), known.join(", ")),
            ),
            (homes, None) => {
                ("a key of other sections".to_owned(), format!("move it under the one you mean: {}", homes.join(", ")))
            }
        }
    }

    fn unknown_section(&mut self, full: &str, span: Range<usize>, value: &DeValue<'_>) {
        let is_table = matches!(value, DeValue::Table(_) | DeValue::Array(_));
        let near = Section::at(&format!("finish.{full}")).or_else(|| {
            let paths = SECTIONS.iter().map(|s| s.path);
            if self.problems.len() < ENOUGH { nearest(full, paths).and_then(Section::at) } else { None }
        });
        if is_table {
            self.found.misspelt.extend(near.map(|s| s.path.to_owned()));
        }
        let near = near.map(Section::head);
        let title = format!("unknown {} {}", if is_table { "section" } else { "key" }, quoted(full));
        let heads: Vec<String> = SECTIONS.iter().map(Section::head).collect();
        let (label, help) = match (near, homes_of(full).as_slice()) {
            (_, [home]) if !is_table => (format!("belongs in {home}"), format!("move it under {home}")),
            (Some(near), _) => (format!("did you mean {near}?"), format!("write {near}, or take it out")),
            _ => ("not part of a sheet".to_owned(), format!("take it out; the sections are {}", heads.join(", "))),
        };
        self.note(full, span, &title, &label, &help);
    }
}

/// The heads of the sections that know a key of exactly this name.
fn homes_of(name: &str) -> Vec<String> {
    SECTIONS.iter().filter(|s| s.row(name).is_some()).map(Section::head).collect()
}

/// What a variant knows under a dotted path: its own keys and sections, else the parts of a group.
fn names_under(section: &'static Section, under: &str) -> Vec<&'static str> {
    let own = section.own.iter().map(|row| row.name).filter(|_| under.is_empty());
    let part = |path: &'static str| {
        let rest = if under.is_empty() { path } else { path.strip_prefix(under)?.strip_prefix('.')? };
        rest.split('.').next()
    };
    let mut names: Vec<&str> = own.chain(section.over.iter().copied().filter_map(part)).collect();
    names.dedup();
    names
}

/// The first key of a section that a variant can change, as an example.
fn key_of(section: &Section, full: &str) -> String {
    let is_it = |inside: &&'static Section| inside.path == full || inside.path.starts_with(&format!("{full}."));
    let key = |inside: &'static Section| Some(format!("{}.{}", inside.path, inside.rows().next()?.name));
    section.inside().find(is_it).and_then(key).unwrap_or_default()
}

/// The tree keeps keys sorted by name; people read from top to bottom.
pub(super) fn in_file_order<'t, 'i>(
    table: &'t DeTable<'i>,
) -> Vec<(&'t Spanned<toml::de::DeString<'i>>, &'t Spanned<DeValue<'i>>)> {
    let mut entries: Vec<_> = table.iter().collect();
    entries.sort_by_key(|(key, _)| key.span().start);
    entries
}

/// The whole head (`[body]`) where a section has one, else its name.
fn head_span(source: &str, key: Range<usize>, value: Range<usize>) -> Range<usize> {
    match source.get(value.clone()) {
        Some(text) if text.starts_with('[') && value.contains(&key.start) => value,
        _ => key,
    }
}

/// The unit, ahead of everything else: every length depends on it.
fn units_of(root: &DeTable<'_>) -> Option<Units> {
    let sheet = root.get("sheet")?.get_ref().as_table()?;
    let word = sheet.get("units")?.get_ref().as_str()?;
    Units::ALL.iter().find(|(known, _)| *known == word).map(|(_, unit)| *unit)
}
