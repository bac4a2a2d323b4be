//! A drawer: a file beside a sheet with elastics and cloths of one's own, each under its name and in
//! the file's own unit.
//!
//! A sheet names it, `drawer = "elastics.toml"`. What the sheet describes itself comes first; an
//! elastic that it only names, and what it leaves out of the cloth that it names, come from there.

use super::build;
use super::cell;
use super::fields::fields;
use super::file::{ReadError, read_text};
use super::problem::{Problem, Problems, quoted};
use super::sections::{self, VARIANT};
use super::syntax;
use super::walk::{Found, Item, Table, Walk};
use super::words::{listed, nearest};
use engine::keys::{CLOTH, Row, Section, Single, fabric, head};
use engine::quantity::Units;
use engine::sheet::{Elastic, Fabric};
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::{Component, Path};
use toml::de::DeTable;

/// What lies in a drawer.
#[derive(Debug)]
pub struct Drawer {
    elastics: BTreeMap<String, Table>,
    cloths: BTreeMap<String, Table>,
}

impl Drawer {
    /// Reads a drawer from its text.
    ///
    /// # Errors
    /// [`Problems`] with everything that is wrong, in the order of the file.
    pub fn of(source: &str, path_label: &str) -> Result<Self, Problems> {
        let (tree, errors) = DeTable::parse_recoverable(source);
        let mut problems = syntax::problems(source, &errors);
        if !problems.is_empty() {
            return Err(Problems::new(source, path_label, problems));
        }
        let (elastics, cloths, more) = Walk::new(source, tree.get_ref()).drawer(tree.get_ref());
        problems.extend(more);
        let described = Section::at(ELASTIC).map(|section| elastics.values().map(move |table| (table, section)));
        let described = described.into_iter().flatten().chain(cloths.values().map(|table| (table, &CLOTH)));
        problems.extend(described.flat_map(|(table, section)| build::missing_in(table, section)));
        problems.extend(elastics.values().filter_map(build::picot_within_width));
        if problems.is_empty() {
            Ok(Self { elastics, cloths })
        } else {
            Err(Problems::new(source, path_label, problems))
        }
    }

    /// Its elastics by their names.
    pub fn elastics(&self) -> impl Iterator<Item = (&str, Elastic)> {
        self.elastics.iter().filter_map(|(name, table)| Some((name.as_str(), sections::elastic(table)?)))
    }

    /// Its cloths by their names.
    pub fn cloths(&self) -> impl Iterator<Item = (&str, Fabric)> {
        self.cloths.iter().filter_map(|(name, table)| Some((name.as_str(), sections::fabric(table)?)))
    }
}

/// What a drawer says of a cloth, by the names of its keys: as it would be typed into a sheet of this unit.
pub(crate) fn cells_of_cloth(source: &str, name: &str, units: Units) -> BTreeMap<&'static str, String> {
    let said = fields(source).unwrap_or_default();
    let unit = |word: &String| Units::ALL.iter().find(|(known, _)| known == word).map(|(_, units)| *units);
    let own = said.get("sheet.units").and_then(unit).unwrap_or_default();
    let home = format!("cloth.{}", toml_edit::Key::new(name));
    let cell = |row: &&'static Row| {
        let cell = said.get(&format!("{home}.{}", row.name))?;
        Some((row.name, cell::retyped(row, cell, own, units)))
    };
    fabric::ROWS.iter().filter_map(cell).collect()
}

const ELASTIC: &str = "elastic";
const FABRIC: &str = Single::Fabric.path();

/// Lays what the drawer of a sheet holds under what the sheet says itself; `folder` is the sheet's.
/// What is wrong is said where the sheet names the drawer.
pub(super) fn lay_under(found: &mut Found, folder: Option<&Path>) -> Result<(), Vec<Problem>> {
    let Some(named) = found.sections.get(Single::Sheet.path()) else { return Ok(()) };
    let (Some(name), Some(item)) = (named.text(head::DRAWER), named.items.get(head::DRAWER.name())) else {
        return Ok(());
    };
    let at = item.at.clone();
    let drawer = open(&name, folder, &at)?;
    let own = |table: &Table| taken_from_there(table, &at);
    for (name, table) in &drawer.elastics {
        found.elastics.entry(name.clone()).or_insert_with(|| own(table));
    }
    for fabric in fabrics(found) {
        let Some(cloth) = fabric.text(fabric::NAME).and_then(|name| drawer.cloths.get(&name)) else { continue };
        for (key, item) in own(cloth).items {
            fabric.items.entry(key).or_insert(item);
        }
    }
    unknown_cloth(found, &drawer, &name).map_or(Ok(()), |problem| Err(vec![problem]))
}

/// The cloth of the sheet, and those of its variants.
fn fabrics(found: &mut Found) -> impl Iterator<Item = &mut Table> {
    let variants = found.lists.get_mut(VARIANT).into_iter().flatten();
    found.sections.get_mut(FABRIC).into_iter().chain(variants.filter_map(|block| block.over.get_mut(FABRIC)))
}

/// A table whose every value stands, for this sheet, where the drawer is named.
fn taken_from_there(table: &Table, at: &Range<usize>) -> Table {
    let item = |(key, item): (&&'static str, &Item)| (*key, Item { key: at.clone(), at: at.clone(), ..item.clone() });
    Table { head: at.clone(), items: table.items.iter().map(item).collect(), ..table.clone() }
}

/// A cloth that is named and not described, neither here nor there.
fn unknown_cloth(found: &Found, drawer: &Drawer, file: &str) -> Option<Problem> {
    let fabric = found.sections.get(FABRIC)?;
    let name = fabric.text(fabric::NAME)?;
    let section = Section::at(FABRIC)?;
    if drawer.cloths.contains_key(&name) || build::missing_in(fabric, section).len() < NEEDED {
        return None;
    }
    let names: Vec<&str> = drawer.cloths.keys().map(String::as_str).collect();
    let near = nearest(&name, names.iter().copied());
    Some(Problem {
        span: fabric.items.get(fabric::NAME.name())?.at.clone(),
        key: format!("{FABRIC}.{}", fabric::NAME.name()),
        title: format!("the drawer {} has no cloth {}", quoted(file), quoted(&name)),
        label: near.map_or("not in the drawer".to_owned(), |near| format!("did you mean \"{near}\"?")),
        help: format!("describe it here, or name one of the drawer: {}", listed(&names)),
    })
}

/// A cloth that has none of its needed keys is not described at all.
const NEEDED: usize = 2;

fn open(name: &str, folder: Option<&Path>, at: &Range<usize>) -> Result<Drawer, Vec<Problem>> {
    let problem = |title: String, label: &str, help: &str| Problem {
        span: at.clone(),
        key: format!("{}.{}", Single::Sheet.path(), head::DRAWER.name()),
        title,
        label: label.to_owned(),
        help: help.to_owned(),
    };
    let path = Path::new(name);
    if !path.components().all(|part| matches!(part, Component::Normal(_))) {
        let help = "put it beside the sheet and write its name alone, such as drawer = \"elastics.toml\"";
        return Err(vec![problem(format!("{} does not lie beside the sheet", quoted(name)), "another place", help)]);
    }
    let Some(folder) = folder else {
        let help = "read the sheet from its file, or describe the elastics in it";
        return Err(vec![problem("a drawer lies beside the file of a sheet, and this is none".to_owned(), "", help)]);
    };
    let text = read_text(&folder.join(path)).map_err(|e| match e {
        ReadError::NotThere(_) => {
            let help = "correct the name, or put the file beside the sheet";
            vec![problem(format!("there is no drawer {}", quoted(name)), "looked for beside the sheet", help)]
        }
        other => vec![problem(other.to_string(), "cannot be read", "look at that file")],
    })?;
    Drawer::of(&text, name).map_err(|problems| {
        let told = problems.told();
        told.map(|(line, _, title, help)| problem(format!("{name}, line {line}: {title}"), "in this drawer", help))
            .collect()
    })
}
