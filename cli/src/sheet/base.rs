//! A sheet that the values of many people are laid over, one person at a time.
//!
//! The base says cloth, shape, finishes and elastics. Whose body stands in it is never taken for
//! somebody else's: of `[body]` only how the waist was taken and whether it is a child's hold for all.

use super::build;
use super::cell::typed_cell;
use super::drawer;
use super::file::{ReadError, read_text};
use super::finish;
use super::problem::{Problem, Problems};
use super::sections::VARIANT;
use super::syntax;
use super::value::Value;
use super::walk::{Found, Item, Table, Walk};
use engine::keys::{Field, Home, Key, Row, Section, Single, body, head};
use engine::population::unmeasured;
use engine::quantity::{Length, Units};
use engine::sheet::{Sheet, WaistLevel};
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use toml::de::DeTable;

/// A sheet that people's values are laid over.
#[derive(Debug)]
pub struct Base {
    found: Found,
    units: Units,
    name: String,
    /// Somebody of the table that lies over it, whose own sheet it is.
    whose: Option<String>,
    end: Range<usize>,
}

/// One value of a person, as it stands in a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Which key of the sheet.
    pub key: Key,
    /// What the cell says.
    pub cell: String,
    /// The unit that it is in, unless the cell itself says another.
    pub units: Units,
}

/// What is wrong with the values of a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Stable, for programs.
    pub code: &'static str,
    /// The dotted key.
    pub key: String,
    /// One sentence.
    pub text: String,
    /// What to do.
    pub next: String,
}

impl Base {
    /// Reads the base from a file.
    ///
    /// # Errors
    /// [`ReadError`] where the file cannot be read, or would be no sheet with a body in it.
    pub fn read(path: &Path) -> Result<Self, ReadError> {
        let source = read_text(path)?;
        let path_label = path.display().to_string();
        Self::of(&source, &path_label, path.parent()).map_err(|problems| ReadError::Sheet {
            source_text: source,
            path_label,
            problems,
        })
    }

    /// Reads the base from its text; a drawer that it names lies in the folder.
    ///
    /// # Errors
    /// [`Problems`] with everything that is wrong, in the order of the file.
    pub fn of(source: &str, path_label: &str, folder: Option<&Path>) -> Result<Self, Problems> {
        let (tree, errors) = DeTable::parse_recoverable(source);
        let mut problems = syntax::problems(source, &errors);
        if !problems.is_empty() {
            return Err(Problems::new(source, path_label, problems));
        }
        let (mut found, more) = Walk::new(source, tree.get_ref()).whole(tree.get_ref());
        problems.extend(more);
        if let Err(of_drawer) = drawer::lay_under(&mut found, folder) {
            problems.extend(of_drawer);
            return Err(Problems::new(source, path_label, problems));
        }
        let end = source.trim_end().len();
        problems.extend(of_one_body(&found));
        take_measures_out(&mut found);
        // What is wrong whoever it is for.
        let anyone = build::sheet(&with_any_body(&found), end..end, &mut problems);
        match anyone {
            Some(Sheet { units, name, .. }) if problems.is_empty() => {
                Ok(Self { found, units, name, whose: None, end: end..end })
            }
            _ => Err(Problems::new(source, path_label, problems)),
        }
    }

    /// The unit of its lengths, and of what is said of everybody's.
    pub const fn units(&self) -> Units {
        self.units
    }

    /// What it is called.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// For a table with these people: where it is the sheet of one of them, her name goes, so that it does not
    /// stand on the papers of the others.
    #[must_use]
    pub fn for_people<'n>(self, names: impl Iterator<Item = &'n str>) -> Self {
        let own = |name: &'n str| Some((name, self.name.strip_prefix(name)?.strip_prefix(OF)?));
        match names.filter(|name| !name.is_empty()).find_map(own) {
            Some((whose, rest)) => Self { name: rest.to_owned(), whose: Some(whose.to_owned()), ..self },
            None => self,
        }
    }

    /// Whose own sheet it is, of the people of its table.
    pub fn whose(&self) -> Option<&str> {
        self.whose.as_deref()
    }

    /// What the sheet of somebody is called.
    pub fn called(&self, person: &str) -> String {
        format!("{person}{OF}{}", self.name)
    }

    /// The sheet of one person.
    ///
    /// # Errors
    /// Every [`Fault`] of her values.
    pub fn with(&self, person: &str, entries: &[Entry]) -> Result<Sheet, Vec<Fault>> {
        self.finished(self.laid(person, entries))
    }

    /// The sheet of a size: what its table does not say is estimated, and listed so in the sheet.
    ///
    /// # Errors
    /// Every [`Fault`] of its values.
    pub fn with_size(&self, size: &str, entries: &[Entry]) -> Result<Sheet, Vec<Fault>> {
        let mut laid = self.laid(&format!("size {size}"), entries);
        let estimated = laid.estimate();
        self.finished(laid).map(|sheet| Sheet { estimated, ..sheet })
    }

    fn laid(&self, name: &str, entries: &[Entry]) -> Laid {
        let mut laid = Laid { found: self.found.clone(), over: BTreeMap::new(), faults: Vec::new() };
        laid.put(Key::from(head::NAME), Some(Value::Text(self.called(name))));
        for entry in entries {
            laid.entry(entry);
        }
        laid
    }

    fn finished(&self, mut laid: Laid) -> Result<Sheet, Vec<Fault>> {
        laid.missing();
        let Laid { found, over, mut faults } = laid;
        let mut problems = Vec::new();
        let sheet = build::finished(&found, finish::layers(&over).collect(), self.end.clone(), &mut problems);
        faults.extend(problems.into_iter().map(Fault::from));
        match sheet {
            Some(sheet) if faults.is_empty() => Ok(Sheet { trials: Vec::new(), ..sheet }),
            _ => Err(faults),
        }
    }
}

impl From<Problem> for Fault {
    fn from(Problem { key, title, help, .. }: Problem) -> Self {
        Self { code: "table.sheet", key, text: title, next: help }
    }
}

/// The base with one person's values over it.
struct Laid {
    found: Found,
    /// Finishes lie over those of the base, since a kind decides which keys under it mean something.
    over: BTreeMap<&'static str, Table>,
    faults: Vec<Fault>,
}

impl Laid {
    fn entry(&mut self, Entry { key, cell, units }: &Entry) {
        let value = typed_cell(key.row(), cell, *units).map_err(|wrong| {
            let text = if wrong.label.is_empty() { wrong.title } else { format!("{}: {}", wrong.title, wrong.label) };
            self.faults.push(Fault { code: "table.value", key: key.to_string(), text, next: wrong.help });
        });
        self.put(key.clone(), value.ok());
    }

    /// A value that was refused is not missing as well.
    fn put(&mut self, key: Key, value: Option<Value>) {
        let path = key.home().path();
        let table = match key.home() {
            Home::Finish(_) => self.over.entry(path).or_default(),
            Home::Elastic(name) => self.found.elastics.entry(name.clone()).or_default(),
            _ => self.found.sections.entry(path).or_default(),
        };
        if table.path.is_empty() {
            table.path = key.home().to_string();
        }
        table.items.insert(key.name(), Item { key: 0..0, at: 0..0, value });
    }

    /// Fills in what a table of sizes leaves out, from the girths it has, in whole millimetres; answers
    /// with the keys. Without a waist there is nothing to go by.
    fn estimate(&mut self) -> Vec<Key> {
        let level = self.body().and_then(|body| body.word(body::WAIST_LEVEL, &WaistLevel::ALL));
        let level = level.unwrap_or(WaistLevel::Natural);
        let Some(waist) = self.body().and_then(|body| body.length(body::WAIST_GIRTH)) else { return Vec::new() };
        let mut estimated = Vec::new();
        let mut fill = |laid: &mut Self, field: Field<Single>, mm: f64| {
            if laid.body().is_some_and(|body| !body.items.contains_key(field.name())) {
                laid.put(Key::from(field), Some(Value::Length(Length::from_mm(mm.round()))));
                estimated.push(Key::from(field));
            }
        };
        fill(self, body::HIP_GIRTH, unmeasured::hip_girth(waist.mm(), level).mean);
        if let Some(hip) = self.body().and_then(|body| body.length(body::HIP_GIRTH)) {
            fill(self, body::WAIST_TO_HIP, unmeasured::waist_to_hip(hip.mm(), level).mean);
            fill(self, body::CROTCH_LENGTH, unmeasured::crotch_length(hip.mm(), level).mean);
        }
        estimated
    }

    fn body(&self) -> Option<&Table> {
        self.found.sections.get(BODY)
    }

    /// The measures that everybody has to have.
    fn missing(&mut self) {
        let is_there = |name| self.found.sections.get(BODY).is_some_and(|body| body.items.contains_key(name));
        let (missing, there): (Vec<&'static Row>, Vec<&'static Row>) =
            body::ROWS.iter().filter(|row| row.is_needed()).partition(|row| !is_there(row.name));
        if there.is_empty() {
            // Somebody who was not there: one sentence is enough.
            self.faults.push(Fault {
                code: "table.empty",
                key: BODY.to_owned(),
                text: "no measurement is there".to_owned(),
                next: "fill in the row when she is measured, or take it out".to_owned(),
            });
        }
        for row in missing {
            let key = Key::new(Home::Single(Single::Body), row);
            if !there.is_empty() {
                let text = format!("`{}` is missing", row.name);
                let next = format!("measure it and fill it in. {}", row.how);
                self.faults.push(Fault { code: "table.missing", key: key.to_string(), text, next });
            }
            self.put(key, None);
        }
    }
}

const BODY: &str = Single::Body.path();

/// Between somebody's name and that of the base.
const OF: &str = " – ";

/// Of a body these alone hold for everybody.
pub(super) const FOR_ALL: [&str; 2] = [body::WAIST_LEVEL.name(), body::CHILD.name()];

fn take_measures_out(found: &mut Found) {
    let body = found.sections.entry(BODY).or_default();
    body.path = BODY.to_owned();
    body.items.retain(|name, _| FOR_ALL.contains(name));
}

/// With every measure, whatever it is: to judge all the rest.
fn with_any_body(found: &Found) -> Found {
    let mut found = found.clone();
    let body = found.sections.entry(BODY).or_default();
    let measures = Section::at(BODY).into_iter().flat_map(Section::rows).filter(|row| !FOR_ALL.contains(&row.name));
    for row in measures {
        let value = Some(Value::Length(Length::from_whole_mm(1000)));
        body.items.insert(row.name, Item { key: 0..0, at: 0..0, value });
    }
    found
}

/// A variant that changes the body is one person's.
fn of_one_body(found: &Found) -> impl Iterator<Item = Problem> {
    found.list(VARIANT).iter().filter_map(|block| {
        let body = block.over.get(BODY)?;
        Some(Problem {
            span: body.head.clone(),
            key: body.path.clone(),
            title: "a variant of a class changes the body".to_owned(),
            label: "of one person only".to_owned(),
            help: "take it out: everybody's measures come from the table of people".to_owned(),
        })
    })
}
