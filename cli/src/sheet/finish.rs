//! How the three openings are finished: the section for both legs, each leg's own section over
//! it, and what fits together.

use super::problem::{Problem, quoted};
use super::sections::ALTERNATIVE;
use super::value::Value;
use super::walk::{Found, Item, Table};
use super::words::{listed, nearest};
use engine::finish::FinishKind;
use engine::keys::{Edges, Field, PerEdge, body as keys_body, elastic as of_elastic, finish, head as keys_head};
use engine::quantity::Length;
use engine::sheet::{Basis, FinishSpec, Marks, Opening, PerOpening, PutOn, Reach, Section, Spread};
use std::collections::BTreeMap;
use std::ops::Range;

/// Exactly one of these says how long an elastic is.
const BASES: [Field<PerEdge>; 3] = [finish::REDUCTION, finish::LENGTH, finish::FROM];

/// Reads the finish of every opening; `None` where something is wrong, and said.
pub(super) fn openings(
    found: &Found,
    over: Vec<Layer<'_>>,
    end: Range<usize>,
    problems: &mut Vec<Problem>,
) -> Option<PerOpening<FinishSpec>> {
    let own = if over.is_empty() { 0 } else { layers(&found.sections).count() };
    let layers = layers(&found.sections).chain(over).collect();
    Reading { found, layers, own, end, problems }.openings()
}

/// The own section of an opening, and the one it builds on.
const fn paths(opening: Opening) -> (&'static str, Option<&'static str>) {
    match opening {
        Opening::Top => (Edges::Top.path(), None),
        Opening::LeftLeg => (Edges::LeftLeg.path(), Some(Edges::Legs.path())),
        Opening::RightLeg => (Edges::RightLeg.path(), Some(Edges::Legs.path())),
    }
}

/// One section that says how edges are finished.
#[derive(Clone, Copy)]
pub(super) struct Layer<'f> {
    pub(super) table: &'f Table,
    pub(super) openings: &'static [Opening],
}

/// Every section that says how edges are finished, the lowest first.
pub(super) fn layers<'f>(sections: &'f BTreeMap<&'static str, Table>) -> impl Iterator<Item = Layer<'f>> {
    let of = |edges: Edges| Some(Layer { table: sections.get(edges.path())?, openings: edges.openings() });
    Edges::ALL.into_iter().filter_map(of)
}

/// An opening's keys after all that is said of it is laid over each other.
type Merged<'f> = BTreeMap<&'static str, &'f Item>;

fn merged<'f>(layers: &[Layer<'f>], opening: Opening) -> Merged<'f> {
    let mut all = Merged::new();
    for Layer { table, .. } in layers.iter().filter(|layer| layer.openings.contains(&opening)) {
        let own: Merged<'_> = table.items.iter().map(|(k, i)| (*k, i)).collect();
        if BASES.iter().any(|key| own.contains_key(key.name())) {
            all.retain(|name, _| !BASES.iter().any(|key| key.name() == *name));
        }
        if let Some(kind) = kind_of(own.get(KIND).or(all.get(KIND)).copied()) {
            all.retain(|name, _| takes(kind, name));
        }
        all.extend(own);
    }
    all
}

/// The key that says which finish it is.
const KIND: &str = finish::KIND.name();

/// Does a key of this name mean something to the finish?
fn takes(kind: FinishKind, name: &str) -> bool {
    finish::named(name).is_some_and(|key| kind.takes_key(key))
}

/// Does a key of this name ask for another stretch on some parts of the edge?
fn is_of_parts(name: &str) -> bool {
    [finish::SPREAD, finish::SECTIONS].iter().any(|key| key.name() == name)
}

fn kind_of(item: Option<&Item>) -> Option<FinishKind> {
    match item?.value.as_ref()? {
        Value::Text(word) => FinishKind::named(word),
        _ => None,
    }
}

struct Reading<'a> {
    found: &'a Found,
    layers: Vec<Layer<'a>>,
    /// So many of the layers, the first ones, have been judged with the sheet itself.
    own: usize,
    end: Range<usize>,
    problems: &'a mut Vec<Problem>,
}

impl Reading<'_> {
    fn openings(&mut self) -> Option<PerOpening<FinishSpec>> {
        let new: Vec<Layer<'_>> = self.layers.iter().skip(self.own).copied().collect();
        for layer in new.iter().copied() {
            self.one_basis(layer.table);
            self.body_basis(layer);
            self.no_gusset_at_the_top(layer);
            self.once_for_an_edge(layer);
        }
        let [top, left_leg, right_leg] = Opening::ALL.map(|opening| self.opening(opening));
        for layer in new {
            self.fits(layer);
        }
        Some(PerOpening { top: top?, left_leg: left_leg?, right_leg: right_leg? })
    }

    fn note(&mut self, key: String, span: Range<usize>, title: String, label: &str, help: String) {
        let problem = Problem { span, key, title, label: label.to_owned(), help };
        if !self.problems.contains(&problem) {
            self.problems.push(problem);
        }
    }

    fn one_basis(&mut self, table: &Table) {
        let mut given: Vec<(&str, &Item)> =
            BASES.iter().filter_map(|k| table.items.get(k.name()).map(|i| (k.name(), i))).collect();
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

    fn body_basis(&mut self, Layer { table, openings }: Layer<'_>) {
        let Some(item) = table.items.get(finish::FROM.name()).filter(|i| i.value.is_some()) else { return };
        let key = format!("{}.from", table.path);
        if openings != [Opening::Top] {
            self.note(
                key,
                item.at.clone(),
                "an elastic length from the body is for the top edge only".to_owned(),
                "a leg edge has no such measurement",
                "write a `reduction` in % or a `length` instead".to_owned(),
            );
        } else if !self
            .found
            .sections
            .get("body")
            .is_some_and(|body| body.items.contains_key(keys_body::ELASTIC_TOP.name()))
        {
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

    fn no_gusset_at_the_top(&mut self, Layer { table, openings }: Layer<'_>) {
        let Some(item) = table.items.get(finish::SECTIONS.name()).filter(|_| openings == [Opening::Top]) else {
            return;
        };
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

    /// An alternative says once how an edge is finished.
    fn once_for_an_edge(&mut self, Layer { table, openings }: Layer<'_>) {
        let before = self.layers.iter().take_while(|other| other.table.path != table.path);
        let same = |other: &Layer<'_>| other.openings == openings && other.table.path.starts_with(ALTERNATIVE);
        if !table.path.starts_with(ALTERNATIVE) || !before.into_iter().any(same) {
            return;
        }
        self.note(
            format!("{}.edge", table.path),
            table.items.get("edge").map_or(table.head.clone(), |item| item.at.clone()),
            "an alternative finishes one edge in two ways".to_owned(),
            "said before, under the same name",
            "put the keys into one block, or give the blocks different names".to_owned(),
        );
    }

    /// Every key has to mean something to the finish it is written for.
    fn fits(&mut self, layer: Layer<'_>) {
        let Layer { table, openings } = layer;
        let own = kind_of(table.items.get(KIND));
        let of = |opening: &Opening| kind_of(merged(&self.layers, *opening).get(KIND).copied());
        let kinds = own.map_or_else(|| openings.iter().map(of).collect(), |kind| vec![Some(kind)]);
        // Where a kind is missing or unknown, that alone is said.
        let Some(kinds) = kinds.into_iter().collect::<Option<Vec<_>>>() else { return };
        for (key, item) in &table.items {
            if finish::named(key).is_none() || kinds.iter().any(|kind| takes(*kind, key)) {
                continue;
            }
            let name = kinds.first().map_or("", |kind| kind.name());
            let takers: Vec<&str> = FinishKind::all().filter(|k| takes(*k, key)).map(|k| k.name()).collect();
            let help = if takers.is_empty() {
                "take it out".to_owned()
            } else {
                format!("take it out, or choose a kind that takes it: {}", listed(&takers))
            };
            let title = if kinds.iter().all(|kind| kind.takes().runs_freely()) && is_of_parts(key) {
                format!("`{key}` asks for parts, and the elastic of a \"{name}\" runs freely: one stretch all round")
            } else {
                format!("`{key}` means nothing to the finish \"{name}\"")
            };
            self.note(format!("{}.{key}", table.path), item.key.clone(), title, "not for this finish", help);
        }
    }

    fn opening(&mut self, opening: Opening) -> Option<FinishSpec> {
        let items = merged(&self.layers, opening);
        let kind_item = match items.get(KIND) {
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
            put_on: view.word(finish::PUT_ON, &PutOn::ALL),
            marks: view.word(finish::MARKS, &Marks::ALL),
            spread: view.word(finish::SPREAD, &Spread::ALL),
            sections: view.sections(),
            bite: view.length(finish::BITE),
            reach: view.word(finish::REACH, &Reach::ALL),
            lap: view.length(finish::LAP),
            room: view.length(finish::ROOM),
            catch: view.length(finish::CATCH),
            turn: view.length(finish::TURN),
            depth: view.length(finish::DEPTH),
            width: view.length(finish::WIDTH),
            overlap: view.length(finish::OVERLAP),
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
        let has_drawer = self.found.sections.get("sheet").and_then(|head| head.text(keys_head::DRAWER)).is_some();
        let choice = if names.is_empty() {
            "describe one in a section such as [elastic.\"soft 8\"] and name it here".to_owned()
        } else {
            format!("name one of this sheet{}: {}", if has_drawer { " or its drawer" } else { "" }, listed(&names))
        };
        let Some(item) = items.get(finish::ELASTIC.name()) else {
            let mut said = self.layers.iter().filter(|l| l.openings.contains(&opening)).map(|l| &l.table.path);
            if said.any(|path| self.found.misspelt.contains(&format!("{path}.elastic"))) {
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
        let nowhere = if has_drawer { "not in this sheet, nor in its drawer" } else { "not in this sheet" };
        let label = near.map_or(nowhere.to_owned(), |near| format!("did you mean \"{near}\"?"));
        let key = format!("{}.elastic", self.home_of(item, opening));
        self.note(key, item.at.clone(), format!("unknown elastic {}", quoted(name)), &label, choice);
        None
    }

    /// The section that an inherited or own key is written in.
    fn home_of(&self, item: &Item, opening: Opening) -> &str {
        let holds = |layer: &&Layer<'_>| layer.table.items.values().any(|i| i.key == item.key);
        self.layers.iter().find(holds).map_or(paths(opening).0, |layer| layer.table.path.as_str())
    }

    fn lap_within_width(&mut self, opening: Opening, items: &Merged<'_>, elastic: Option<&str>) {
        let width =
            elastic.and_then(|name| self.found.elastics.get(name)).and_then(|t| t.items.get(of_elastic::WIDTH.name()));
        let (Some(lap), Some(width)) = (items.get(finish::LAP.name()), width) else { return };
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
    fn value(&self, key: Field<PerEdge>) -> Option<&Value> {
        self.0.get(key.name()).and_then(|item| item.value.as_ref())
    }

    fn length(&self, key: Field<PerEdge>) -> Option<Length> {
        match self.value(key)? {
            Value::Length(length) => Some(*length),
            _ => None,
        }
    }

    fn word<T: Copy>(&self, key: Field<PerEdge>, all: &[(&str, T)]) -> Option<T> {
        match self.value(key)? {
            Value::Text(word) => all.iter().find(|(known, _)| known == word).map(|(_, it)| *it),
            _ => None,
        }
    }

    fn basis(&self) -> Option<Basis> {
        if let Some(Value::Percent(reduction)) = self.value(finish::REDUCTION) {
            return Some(Basis::Reduction(*reduction));
        }
        if let Some(length) = self.length(finish::LENGTH) {
            return Some(Basis::Length(length));
        }
        self.value(finish::FROM).map(|_| Basis::Body)
    }

    fn sections(&self) -> BTreeMap<Section, engine::quantity::Ratio> {
        match self.value(finish::SECTIONS) {
            Some(Value::Sections(sections)) => sections.clone(),
            _ => BTreeMap::new(),
        }
    }
}
