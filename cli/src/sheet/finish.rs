//! How the three openings are finished: the section for both legs, each leg's own section over
//! it, and what fits together.

use super::keys::{listed, nearest};
use super::problem::{Problem, quoted};
use super::value::Value;
use super::walk::{Found, Item, Table};
use engine::finish::FinishKind;
use engine::quantity::Length;
use engine::sheet::{Basis, FinishSpec, Marks, Opening, PerOpening, PutOn, Reach, Section, Spread};
use std::collections::BTreeMap;
use std::ops::Range;

/// Exactly one of these says how long an elastic is.
const BASES: [&str; 3] = ["reduction", "length", "from"];

/// What every finish takes.
const ALWAYS: [&str; 2] = ["kind", "put_on"];

/// What everything takes that is shorter than its line or not: an elastic or a band.
const WITH_LENGTH: [&str; 5] = ["reduction", "length", "marks", "spread", "sections"];

/// What every finish with an elastic takes besides.
const WITH_ELASTIC: [&str; 3] = ["elastic", "from", "overlap"];

/// Does a finish take this key?
pub(crate) fn takes_key(kind: FinishKind, key: &str) -> bool {
    let takes = kind.takes();
    (takes.length() && WITH_LENGTH.contains(&key))
        || (takes.elastic() && WITH_ELASTIC.contains(&key))
        || ALWAYS.contains(&key)
        || kind.keys().contains(&key)
}

/// Reads the finish of every opening; `None` where something is wrong, and said.
pub(super) fn openings(
    found: &Found,
    end: Range<usize>,
    problems: &mut Vec<Problem>,
) -> Option<PerOpening<FinishSpec>> {
    let mut reading = Reading { found, end, problems };
    for path in ["finish.top", "finish.legs", "finish.left_leg", "finish.right_leg"] {
        if let Some(table) = found.sections.get(path) {
            reading.one_basis(table);
            reading.body_basis(table);
            reading.no_gusset_at_the_top(table);
        }
    }
    let [top, left_leg, right_leg] = Opening::ALL.map(|opening| reading.opening(opening));
    reading.keys_that_fit();
    Some(PerOpening { top: top?, left_leg: left_leg?, right_leg: right_leg? })
}

/// The own section of an opening, and the one it builds on.
const fn paths(opening: Opening) -> (&'static str, Option<&'static str>) {
    match opening {
        Opening::Top => ("finish.top", None),
        Opening::LeftLeg => ("finish.left_leg", Some("finish.legs")),
        Opening::RightLeg => ("finish.right_leg", Some("finish.legs")),
    }
}

/// An opening's keys after its own section is laid over the one for both legs.
type Merged<'f> = BTreeMap<&'static str, &'f Item>;

fn merged(found: &Found, opening: Opening) -> Merged<'_> {
    let (own, shared) = paths(opening);
    let own: Merged<'_> =
        found.sections.get(own).map(|t| t.items.iter().map(|(k, i)| (*k, i)).collect()).unwrap_or_default();
    let shared = shared.and_then(|path| found.sections.get(path));
    let mut all: Merged<'_> = shared.map(|t| t.items.iter().map(|(k, i)| (*k, i)).collect()).unwrap_or_default();
    if BASES.iter().any(|key| own.contains_key(key)) {
        all.retain(|key, _| !BASES.contains(key));
    }
    if let Some(kind) = kind_of(own.get("kind").or(all.get("kind")).copied()) {
        all.retain(|key, _| takes_key(kind, key));
    }
    all.extend(own);
    all
}

fn kind_of(item: Option<&Item>) -> Option<FinishKind> {
    match item?.value.as_ref()? {
        Value::Text(word) => FinishKind::named(word),
        _ => None,
    }
}

struct Reading<'a> {
    found: &'a Found,
    end: Range<usize>,
    problems: &'a mut Vec<Problem>,
}

impl Reading<'_> {
    fn note(&mut self, key: String, span: Range<usize>, title: String, label: &str, help: String) {
        let problem = Problem { span, key, title, label: label.to_owned(), help };
        if !self.problems.contains(&problem) {
            self.problems.push(problem);
        }
    }

    fn one_basis(&mut self, table: &Table) {
        let mut given: Vec<(&str, &Item)> = BASES.iter().filter_map(|k| table.items.get(k).map(|i| (*k, i))).collect();
        given.sort_by_key(|(_, item)| item.key.start);
        if let [(first, _), (second, item), ..] = given.as_slice() {
            self.note(
                format!("{}.{second}", table.path),
                item.key.clone(),
                "one elastic length is given in two ways".to_owned(),
                &format!("`{first}` is given as well"),
                "keep one of `reduction`, `length` and `from`, and take the other out".to_owned(),
            );
        }
    }

    fn body_basis(&mut self, table: &Table) {
        let Some(item) = table.items.get("from").filter(|i| i.value.is_some()) else { return };
        let key = format!("{}.from", table.path);
        if table.path != "finish.top" {
            self.note(
                key,
                item.at.clone(),
                "an elastic length from the body is for the top edge only".to_owned(),
                "a leg edge has no such measurement",
                "write a `reduction` in % or a `length` instead".to_owned(),
            );
        } else if !self.found.sections.get("body").is_some_and(|body| body.items.contains_key("elastic_top")) {
            self.note(
                key,
                item.at.clone(),
                "the elastic's length is to come from the body, but it is not measured".to_owned(),
                "wants `elastic_top` in [body]",
                "measure the elastic as it feels right on the body and write it as `elastic_top` under [body], or \
                 give a `reduction`"
                    .to_owned(),
            );
        }
    }

    fn no_gusset_at_the_top(&mut self, table: &Table) {
        let Some(item) = table.items.get("sections").filter(|_| table.path == "finish.top") else { return };
        if let Some(Value::Sections(sections)) = &item.value
            && sections.contains_key(&Section::Gusset)
        {
            self.note(
                format!("{}.sections", table.path),
                item.at.clone(),
                "the top edge has no gusset section".to_owned(),
                "front and back only",
                "take `gusset` out of these sections".to_owned(),
            );
        }
    }

    /// Every key has to mean something to the finish it is written for.
    fn keys_that_fit(&mut self) {
        let found = self.found;
        let kinds: Vec<Option<FinishKind>> =
            Opening::ALL.iter().map(|o| kind_of(merged(found, *o).get("kind").copied())).collect();
        let [top, left, right] = kinds.as_slice() else { return };
        let legs = found.sections.get("finish.legs").and_then(|t| kind_of(t.items.get("kind")));
        let legs = legs.map_or_else(|| vec![*left, *right], |kind| vec![Some(kind)]);
        self.fits("finish.top", &[*top]);
        self.fits("finish.legs", &legs);
        self.fits("finish.left_leg", &[*left]);
        self.fits("finish.right_leg", &[*right]);
    }

    fn fits(&mut self, path: &str, kinds: &[Option<FinishKind>]) {
        let found = self.found;
        let Some(table) = found.sections.get(path) else { return };
        // Where a kind is missing or unknown, that alone is said.
        let Some(kinds) = kinds.iter().copied().collect::<Option<Vec<_>>>() else { return };
        for (key, item) in &table.items {
            if kinds.iter().any(|kind| takes_key(*kind, key)) {
                continue;
            }
            let name = kinds.first().map_or("", |kind| kind.name());
            let takers: Vec<&str> = FinishKind::all().filter(|k| takes_key(*k, key)).map(|k| k.name()).collect();
            let help = if takers.is_empty() {
                "take it out".to_owned()
            } else {
                format!("take it out, or choose a kind that takes it: {}", listed(&takers))
            };
            let title = format!("`{key}` means nothing to the finish \"{name}\"");
            self.note(format!("{path}.{key}"), item.key.clone(), title, "not for this finish", help);
        }
    }

    fn opening(&mut self, opening: Opening) -> Option<FinishSpec> {
        let items = merged(self.found, opening);
        let kind_item = match items.get("kind") {
            Some(item) => *item,
            None => {
                self.no_kind(opening);
                return None;
            }
        };
        let kind = kind_of(Some(kind_item))?;
        let view = View(&items);
        let elastic = self.elastic(opening, kind, kind_item, &items);
        self.lap_within_width(opening, &items, elastic.as_deref());
        Some(FinishSpec {
            kind,
            elastic,
            basis: view.basis(),
            put_on: view.word("put_on", &PutOn::ALL),
            marks: view.word("marks", &Marks::ALL),
            spread: view.word("spread", &Spread::ALL),
            sections: view.sections(),
            bite: view.length("bite"),
            reach: view.word("reach", &Reach::ALL),
            lap: view.length("lap"),
            room: view.length("room"),
            catch: view.length("catch"),
            turn: view.length("turn"),
            depth: view.length("depth"),
            width: view.length("width"),
            overlap: view.length("overlap"),
        })
    }

    fn no_kind(&mut self, opening: Opening) {
        let (own, shared) = paths(opening);
        let place = shared.unwrap_or(own);
        let misspelt = [own, place]
            .iter()
            .any(|path| self.found.misspelt.contains(*path) || self.found.misspelt.contains(&format!("{path}.kind")));
        if misspelt {
            return;
        }
        let table = [own, place].iter().find_map(|path| self.found.sections.get(path));
        let alone = ["finish.left_leg", "finish.right_leg"].iter().any(|path| self.found.sections.contains_key(path));
        let edge = if shared.is_some() && !alone { "legs" } else { opening.name() };
        let span = table.map_or(self.end.clone(), |t| t.head.clone());
        let kinds: Vec<&str> = FinishKind::all().map(|k| k.name()).collect();
        let help = format!("add `kind` under [{place}]: {}", listed(&kinds));
        self.note(
            format!("{place}.kind"),
            span,
            format!("the finish of the {edge} is missing"),
            "no `kind` here",
            help,
        );
    }

    /// The elastic's name, which has to be one of the sheet's, where the finish takes one.
    fn elastic(&mut self, opening: Opening, kind: FinishKind, at: &Item, items: &Merged<'_>) -> Option<String> {
        if !kind.takes().elastic() {
            return None;
        }
        let names: Vec<&str> = self.found.elastics.keys().map(String::as_str).collect();
        let choice = if names.is_empty() {
            "describe one in a section such as [elastic.\"soft 8\"] and name it here".to_owned()
        } else {
            format!("name one of this sheet: {}", listed(&names))
        };
        let key = format!("{}.elastic", paths(opening).0);
        let Some(item) = items.get("elastic") else {
            let (own, shared) = paths(opening);
            if [Some(own), shared].iter().flatten().any(|p| self.found.misspelt.contains(&format!("{p}.elastic"))) {
                return None;
            }
            let title = format!("the finish \"{}\" needs an elastic", kind.name());
            self.note(
                format!("{}.elastic", self.home_of(at, opening)),
                at.at.clone(),
                title,
                "no `elastic` beside it",
                format!("add `elastic`; {choice}"),
            );
            return None;
        };
        let Some(Value::Text(name)) = &item.value else { return None };
        if self.found.elastics.contains_key(name) {
            return Some(name.clone());
        }
        let near = nearest(name, names.iter().copied());
        let label = near.map_or("not in this sheet".to_owned(), |near| format!("did you mean \"{near}\"?"));
        let key = if self.home_of(item, opening) == "finish.legs" { "finish.legs.elastic".to_owned() } else { key };
        self.note(key, item.at.clone(), format!("unknown elastic {}", quoted(name)), &label, choice);
        None
    }

    /// The section that an inherited or own key is written in.
    fn home_of(&self, item: &Item, opening: Opening) -> &'static str {
        let (own, shared) = paths(opening);
        let in_shared =
            |path: &&str| self.found.sections.get(*path).is_some_and(|t| t.items.values().any(|i| i.key == item.key));
        shared.filter(in_shared).unwrap_or(own)
    }

    fn lap_within_width(&mut self, opening: Opening, items: &Merged<'_>, elastic: Option<&str>) {
        let width = elastic.and_then(|name| self.found.elastics.get(name)).and_then(|t| t.items.get("width"));
        let (Some(lap), Some(width)) = (items.get("lap"), width) else { return };
        let (Some(Value::Length(over)), Some(Value::Length(whole))) = (&lap.value, &width.value) else { return };
        if over > whole {
            self.note(
                format!("{}.lap", self.home_of(lap, opening)),
                lap.at.clone(),
                "`lap` is more than the width of the elastic".to_owned(),
                "the elastic is not that wide",
                "write at most the elastic's `width`, or name a wider elastic".to_owned(),
            );
        }
    }
}

/// Typed reading of an opening's keys. Only called where the finish takes the key, or it is absent.
struct View<'v, 'f>(&'v Merged<'f>);

impl View<'_, '_> {
    fn value(&self, key: &str) -> Option<&Value> {
        self.0.get(key).and_then(|item| item.value.as_ref())
    }

    fn length(&self, key: &str) -> Option<Length> {
        match self.value(key)? {
            Value::Length(length) => Some(*length),
            _ => None,
        }
    }

    fn word<T: Copy>(&self, key: &str, all: &[(&str, T)]) -> Option<T> {
        match self.value(key)? {
            Value::Text(word) => all.iter().find(|(known, _)| known == word).map(|(_, it)| *it),
            _ => None,
        }
    }

    fn basis(&self) -> Option<Basis> {
        if let Some(Value::Percent(reduction)) = self.value("reduction") {
            return Some(Basis::Reduction(*reduction));
        }
        if let Some(length) = self.length("length") {
            return Some(Basis::Length(length));
        }
        self.value("from").map(|_| Basis::Body)
    }

    fn sections(&self) -> BTreeMap<Section, engine::quantity::Ratio> {
        match self.value("sections") {
            Some(Value::Sections(sections)) => sections.clone(),
            _ => BTreeMap::new(),
        }
    }
}
