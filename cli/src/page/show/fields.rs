//! Every field of the sheet: what is written, what holds without it, what is wrong with it.

use super::keys::KINDS;
use crate::page::open_sheet::Open;
use crate::page::reading::{Reading, drawer_of};
use crate::sheet::{Place, cells_of_cloth, fields};
use engine::finish::FinishKind;
use engine::garment::{Source, Used, Value as Worth};
use engine::keys::{Edges, Key, SECTIONS, Shape, fabric, finish};
use engine::words::number::short;
use engine::words::{Fineness, Speech};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// What fields are shown with.
pub(super) struct Fields<'a> {
    open: &'a Open,
    pub(super) said: BTreeMap<String, String>,
    saved: BTreeMap<String, String>,
    used: &'a [Used],
    say: Speech,
    /// What the drawer of the sheet says of its cloth, and what the drawer is called.
    cloth: BTreeMap<&'static str, String>,
    drawer: String,
}

impl<'a> Fields<'a> {
    pub(super) fn of(open: &'a Open) -> Self {
        let used = match &open.now {
            Reading::Made(good) => good.made.garment.used.as_slice(),
            Reading::Refused(_, refused) => {
                refused.reached.plan.as_ref().map(|plan| plan.used.as_slice()).unwrap_or_default()
            }
            Reading::Unread(_) => open.good.as_ref().map(|good| good.made.garment.used.as_slice()).unwrap_or_default(),
        };
        let [said, saved] = [&open.text, &open.saved].map(|text| fields(text).unwrap_or_default());
        let name = said.get(&Key::from(fabric::NAME).to_string());
        let (drawer, cloth) = name
            .and_then(|cloth| {
                let (name, text) = drawer_of(&open.text, &open.path)?;
                Some((name, cells_of_cloth(&text, cloth, open.units())))
            })
            .unwrap_or_default();
        Self { open, said, saved, used, say: Speech(open.units()), cloth, drawer }
    }

    /// By key: those of the table, and whatever else the sheet says.
    pub(super) fn all(&self, problems: &[Value], findings: &Value) -> Value {
        let mut keys = self.keys();
        let more = self.said.keys().filter(|key| !keys.contains(key) && Place::named(key).is_some());
        keys.extend(more.cloned().collect::<Vec<_>>());
        let all: Map<String, Value> =
            keys.into_iter().map(|key| (key.clone(), self.field(&key, problems, findings))).collect();
        Value::Object(all)
    }

    fn keys(&self) -> Vec<String> {
        let mut keys = Vec::new();
        for section in SECTIONS.iter().filter(|section| section.shape == Shape::One) {
            let edges = Edges::ALL.into_iter().find(|edges| edges.path() == section.path);
            if edges.is_some_and(|edges| !self.is_there(edges)) {
                continue;
            }
            let kind = edges.and_then(|edges| self.kind(edges));
            for row in section.rows() {
                let is_taken = edges.is_none()
                    || row.name == KINDS
                    || kind.zip(finish::named(row.name)).is_some_and(|(kind, field)| kind.takes_key(field));
                let is_of_top = edges.is_some_and(|edges| edges != Edges::Top) && row.name == finish::FROM.name();
                if is_taken && !is_of_top {
                    keys.push(format!("{}.{}", section.path, row.name));
                }
            }
        }
        for elastic in self.elastics() {
            let rows = engine::keys::elastic::ROWS.iter();
            keys.extend(rows.map(|row| format!("elastic.{}.{}", toml_edit::Key::new(&elastic), row.name)));
        }
        keys
    }

    fn is_there(&self, edges: Edges) -> bool {
        let is_own = self.said.keys().any(|key| key.starts_with(&format!("{}.", edges.path())));
        matches!(edges, Edges::Top | Edges::Legs) || is_own
    }

    /// The finish of some edges.
    fn kind(&self, edges: Edges) -> Option<FinishKind> {
        let own = self.said.get(&format!("{}.{KINDS}", edges.path()));
        let of_both = || self.said.get(&format!("{}.{KINDS}", Edges::Legs.path()));
        FinishKind::named(own.or_else(of_both)?)
    }

    /// Names of the elastics, in the order of their names.
    pub(super) fn elastics(&self) -> Vec<String> {
        let of = |key: &String| toml_edit::Key::parse(key).ok()?.get(1).map(|name| name.get().to_owned());
        let mut all: Vec<String> = self.said.keys().filter(|key| key.starts_with("elastic.")).filter_map(of).collect();
        all.sort();
        all.dedup();
        all
    }

    fn field(&self, key: &str, problems: &[Value], findings: &Value) -> Value {
        let written = self.said.get(key);
        let used = self.used(key);
        let drawn = || self.cloth.get(key.strip_prefix("fabric.")?);
        let drawn = if written.is_none() { drawn() } else { None };
        let source = match (written.or(drawn), used) {
            (Some(_), _) => "given",
            (None, Some(used)) if used.source != Source::Given => used.source.name(),
            (None, _) => "none",
        };
        let note = match (drawn, used) {
            (Some(_), _) => format!("from the drawer {}", self.drawer),
            (None, used) => used.map(|used| used.note.clone()).unwrap_or_default(),
        };
        let value = written.or(drawn).cloned().or_else(|| used.map(|used| self.worth(&used.value))).unwrap_or_default();
        let problem = problems.iter().find(|problem| problem["key"] == key);
        let is_of =
            |finding: &&Value| finding["place"]["keys"].as_array().is_some_and(|keys| keys.iter().any(|k| k == key));
        let about = findings.as_array().into_iter().flatten().enumerate();
        let about: Vec<usize> = about.filter(|(_, finding)| is_of(finding)).map(|(i, _)| i).collect();
        json!({
            "written": written,
            "value": value,
            "source": source,
            "note": note,
            "problem": problem,
            "saved": self.saved.get(key),
            "findings": about,
        })
    }

    /// What is used for a key; of both legs what they have alike.
    fn used(&self, key: &str) -> Option<&Used> {
        // While the sheet cannot be read, what it said before is no longer said.
        let is_unread = matches!(self.open.now, Reading::Unread(_));
        let of = |key: &str| {
            let key = Key::named(key)?;
            self.used.iter().find(|used| used.key == key && !(is_unread && used.source == Source::Given))
        };
        let Some(name) = key.strip_prefix("finish.legs.") else { return of(key) };
        let [left, right] = ["left_leg", "right_leg"].map(|leg| of(&format!("finish.{leg}.{name}")));
        left.filter(|left| right.is_some_and(|right| right.value == left.value))
    }

    /// As it would be typed.
    fn worth(&self, value: &Worth) -> String {
        match value {
            Worth::Mm(mm) => self.say.bare(*mm, Fineness::Tool),
            Worth::Percent(number) => short(*number, 1),
            Worth::Number(number) => short(*number, 2),
            Worth::Word(word) => word.clone(),
        }
    }

    pub(super) const fn open(&self) -> &Open {
        self.open
    }

    pub(super) const fn say(&self) -> Speech {
        self.say
    }
}
