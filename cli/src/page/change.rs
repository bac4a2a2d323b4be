//! Changes of a sheet's text, value by value, with what has to go along.

use super::{Trouble, drawer};
use crate::sheet::{Place, Typed, fields, typed};
use engine::finish::{FinishKind, Ways};
use engine::keys::{Edges, Field, Key, PerEdge, finish, head};
use engine::quantity::Units;
use engine::words::number::short;
use engine::words::{Fineness, Speech};
use serde::Deserialize;
use std::collections::BTreeMap;

/// One value that is to be otherwise.
#[derive(Clone, Debug, Deserialize)]
pub(super) struct Change {
    pub(super) key: String,
    /// As typed; with neither of the others, none takes the key out.
    #[serde(default)]
    pub(super) value: Option<String>,
    /// A length, to be written as a tool is set.
    #[serde(default)]
    pub(super) mm: Option<f64>,
    /// A share or percent.
    #[serde(default)]
    pub(super) number: Option<f64>,
}

pub(super) fn units_of(text: &str) -> Units {
    let said = fields(text).and_then(|fields| fields.get("sheet.units").cloned()).unwrap_or_default();
    Units::ALL.iter().find(|(word, _)| *word == said).map(|(_, units)| *units).unwrap_or_default()
}

/// A text with some values otherwise, one after the other; the unit of its lengths may be among them.
pub(super) fn all_changed<'c>(
    text: String,
    changes: impl IntoIterator<Item = &'c Change>,
    mut home: Home<'_>,
) -> Result<String, Trouble> {
    let unit = Key::from(head::UNITS).to_string();
    changes.into_iter().try_fold(text, |text, change| {
        let text = changed(text, change, &home)?;
        if change.key == unit {
            home.units = units_of(&text);
        }
        Ok(text)
    })
}

/// A text with one value otherwise, and with what has to go along.
pub(super) fn changed(text: String, change: &Change, home: &Home<'_>) -> Result<String, Trouble> {
    let place = Place::named(&change.key)
        .ok_or_else(|| Trouble::asked_wrongly(format!("a sheet has no key “{}”", change.key)))?;
    let cell = change.cell(home.units);
    let written = set(&text, &place, cell.clone(), home.units)?;
    along(written, &change.key, &place, cell.as_deref(), home)
}

fn set(text: &str, place: &Place, cell: Option<String>, units: Units) -> Result<String, Trouble> {
    typed(text, &Typed { place: place.clone(), cell }, units).ok_or_else(|| {
        Trouble::not_now(
            "the sheet is written in a way that cannot be changed here",
            "change it in an editor, then reload",
        )
    })
}

impl Change {
    /// A key as it would be typed; none takes it out.
    pub(super) fn typed(key: &str, value: Option<String>) -> Self {
        Self { key: key.to_owned(), value, mm: None, number: None }
    }

    fn cell(&self, units: Units) -> Option<String> {
        let length = self.mm.filter(|mm| mm.is_finite()).map(|mm| Speech(units).bare(mm, Fineness::Tool));
        let number = self.number.filter(|n| n.is_finite()).map(|n| short(n, 3));
        self.value.clone().or(length).or(number)
    }

    /// What a step with it is called.
    pub(super) fn label(&self) -> String {
        let name = self.key.rsplit('.').next().unwrap_or(&self.key);
        name.trim_matches('"').replace('_', " ")
    }
}

/// What is known of the sheet beside its text.
pub(super) struct Home<'a> {
    /// The unit that its lengths are in.
    pub(super) units: Units,
    /// Names of the elastics in its drawer, which it need not describe. A file is read for them.
    pub(super) hers: &'a dyn Fn() -> Vec<String>,
}

/// One of these says how long what is sewn on is.
const BASES: [Field<PerEdge>; 3] = [finish::REDUCTION, finish::LENGTH, finish::FROM];

/// With what goes along with a key of a finish: a new kind drops what it does not take, and has an elastic
/// where it needs one; one basis of a length takes the place of another.
fn along(text: String, key: &str, place: &Place, cell: Option<&str>, home: &Home<'_>) -> Result<String, Trouble> {
    let units = home.units;
    let Some((section, name)) = key.rsplit_once('.').filter(|(section, _)| is_finish(section)) else { return Ok(text) };
    let Some(cell) = cell else { return Ok(text) };
    let out = |text: String, name: &str| match place.beside(name) {
        Some(place) => set(&text, &place, None, units),
        None => Ok(text),
    };
    match FinishKind::named(cell) {
        Some(kind) if name == finish::KIND.name() => {
            let fields = fields(&text).unwrap_or_default();
            // What is only put on round takes no other word for it.
            let is_round = kind.ways() == Ways::RoundOnly;
            let is_foreign = |field: &Field<PerEdge>| {
                *field != finish::KIND && (!kind.takes_key(*field) || is_round && *field == finish::PUT_ON)
            };
            let foreign = finish::all().filter(|field| is_foreign(field) && is_said(&fields, section, field.name()));
            let text = foreign.map(|field| field.name()).try_fold(text, out)?;
            if kind.takes().elastic() { with_elastic(text, section, kind, home) } else { Ok(text) }
        }
        _ if name == finish::ELASTIC.name() => with_drawer(text, cell, home),
        _ if BASES.iter().any(|basis| basis.name() == name) => {
            let others = BASES.iter().map(|basis| basis.name()).filter(|basis| *basis != name);
            others.into_iter().try_fold(text, out)
        }
        _ => Ok(text),
    }
}

fn is_finish(section: &str) -> bool {
    Edges::ALL.iter().any(|edges| section == edges.path() || section.ends_with(&format!(".{}", edges.path())))
}

/// Is a key, or a part of it, written in a section?
fn is_said(fields: &BTreeMap<String, String>, section: &str, name: &str) -> bool {
    let key = format!("{section}.{name}");
    fields.keys().any(|said| *said == key || said.starts_with(&format!("{key}.")))
}

/// With an elastic named for a section that needs one: the usual one, where none is named, or one that is usual
/// for another finish and not for this.
fn with_elastic(text: String, section: &str, kind: FinishKind, home: &Home<'_>) -> Result<String, Trouble> {
    let said = fields(&text).unwrap_or_default();
    let of = |section: &str| said.get(&format!("{section}.{}", finish::ELASTIC.name()));
    let below = || if section.ends_with("_leg") { of(Edges::Legs.path()) } else { None };
    let Some(name) = drawer::usual(kind) else { return Ok(text) };
    let is_of_another =
        |named: &String| *named != name && FinishKind::all().any(|other| drawer::usual(other).as_ref() == Some(named));
    let is_hers = |named: &String| (home.hers)().contains(named);
    match of(section).or_else(below) {
        Some(named) if is_hers(named) || !is_of_another(named) => return Ok(text),
        _ => {}
    }
    let Some(place) = Place::named(&format!("{section}.{}", finish::ELASTIC.name())) else { return Ok(text) };
    let text = set(&text, &place, Some(name.clone()), home.units)?;
    with_drawer(text, &name, home)
}

/// With the section of a usual elastic, where neither the sheet nor its drawer has one of this name.
fn with_drawer(text: String, name: &str, home: &Home<'_>) -> Result<String, Trouble> {
    let units = home.units;
    let Some(elastic) = drawer::all().into_iter().find(|elastic| elastic.name == name) else {
        return Ok(text);
    };
    let home_of = format!("elastic.{}", toml_edit::Key::new(name));
    let is_described = fields(&text).unwrap_or_default().keys().any(|key| key.starts_with(&format!("{home_of}.")));
    if is_described || (home.hers)().iter().any(|hers| hers == name) {
        return Ok(text);
    }
    let length = |mm: f64| Speech(units).bare(mm, Fineness::Tool);
    let picot = (elastic.picot > 0.0).then(|| ("picot", length(elastic.picot)));
    let cells = [Some(("width", length(elastic.width))), picot, Some(("stretch", short(elastic.stretch, 1)))];
    cells.into_iter().flatten().try_fold(text, |text, (key, cell)| match Place::named(&format!("{home_of}.{key}")) {
        Some(place) => set(&text, &place, Some(cell), units),
        None => Ok(text),
    })
}
