//! What was found: where, in words, and what would help, as buttons.

use super::{number, point};
use crate::sheet::{self, with_unit};
use engine::finding::{Finding, Help, Place};
use engine::garment::{EdgeRef, Garment, Piece};
use engine::keys::{Key, Kind, Single, finish, head};
use engine::quantity::Units;
use engine::sheet::Opening;
use engine::topology::{Half, PieceId};
use engine::words::{Fineness, Said, Speech};
use kurbo::Point;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// What findings are shown with.
pub(super) struct Shown<'a> {
    pub(super) say: Speech,
    pub(super) pieces: &'a [Piece],
    /// None of a garment that is refused.
    pub(super) garment: Option<&'a Garment>,
    /// What the sheet says, field by field.
    pub(super) fields: &'a BTreeMap<String, String>,
}

impl Shown<'_> {
    pub(super) fn all(&self, found: &[Finding]) -> Value {
        found.iter().map(|one| self.one(one)).collect()
    }

    fn one(&self, found: &Finding) -> Value {
        let Said { text, next, .. } = self.say.finding(found);
        let mut keys: Vec<String> = found.helps.iter().flat_map(Help::keys).map(|key| key.to_string()).collect();
        let key = if let Place::Key(key) = &found.place { Some(key.to_string()) } else { None };
        keys.extend(key.clone());
        keys.sort();
        keys.dedup();
        json!({
            "code": found.code,
            "level": found.level.name(),
            "place": {
                "name": self.say.place(found),
                "kind": kind(&found.place),
                "key": key,
                "keys": keys,
                "spots": self.spots(&found.place),
            },
            "variant": found.variant,
            "text": text,
            "next": next,
            "remedies": found.helps.iter().flat_map(|help| self.remedies(found, help)).collect::<Vec<_>>(),
            "effects": self.all(&found.effects),
        })
    }

    /// Buttons for one thing that would help; what cannot be set is advice.
    fn remedies(&self, found: &Finding, help: &Help) -> Vec<Value> {
        let labels = self.say.buttons(help);
        let change = |key: &Key, value: Option<String>| json!([{ "key": key.to_string(), "value": value }]);
        let solve = |key: &Key, way: &str| json!({ "finding": found.code, "place": found.place.to_string(), "key": key.to_string(), "way": way });
        let mut changes: Vec<Value> = Vec::new();
        let (mut solved, mut focus) = (Value::Null, None);
        match help {
            Help::Measure(key) | Help::Write(key) => focus = Some(key.to_string()),
            Help::ReadAs { key, mm, .. } => changes.push(change(key, Some(self.say.as_written(*mm)))),
            Help::SetUnits { written, likely } => changes.push(self.units(*written, *likely)),
            Help::Swapped(a, b) => {
                let said = |key: &Key| self.fields.get(&key.to_string()).cloned();
                if let (Some(one), Some(other)) = (said(a), said(b)) {
                    changes.push(json!([
                        { "key": a.to_string(), "value": other },
                        { "key": b.to_string(), "value": one },
                    ]));
                }
            }
            Help::Larger(key) => solved = solve(key, "larger"),
            Help::Smaller(key) => solved = solve(key, "smaller"),
            Help::NearerZero(key) => solved = solve(key, "nearer zero"),
            Help::Between(key, least, most) => {
                changes.push(change(key, Some(self.nearest(key, *least, *most))));
            }
            Help::Choose(key, words) => {
                changes.extend(words.iter().map(|word| change(key, Some((*word).to_owned()))));
            }
            Help::TakeOut(key) => changes.push(change(key, None)),
            Help::Free(keys) => changes.extend(keys.iter().map(|key| change(key, None))),
            Help::Finish(opening, kinds) => {
                let key = self.own(finish::KIND.on(*opening));
                changes.extend(kinds.iter().map(|kind| change(&key, Some(kind.name().to_owned()))));
            }
            Help::UsualOverlap => {
                let opening = if let Place::Opening(opening) = &found.place { Some(*opening) } else { None };
                changes.extend(opening.map(|opening| change(&self.own(finish::OVERLAP.on(opening)), None)));
            }
            Help::Sample | Help::Do(_) => {}
        }
        let one = |(i, label): (usize, String)| {
            let changes = changes.get(i).cloned();
            let is_button = changes.is_some() || !solved.is_null();
            json!({ "label": label, "changes": changes, "solve": solved, "focus": focus, "is_button": is_button })
        };
        labels.into_iter().enumerate().map(one).collect()
    }

    /// The sheet in another unit: measures of the body keep their numbers, since it is these that were read wrongly;
    /// everything else keeps its length.
    fn units(&self, from: Units, to: Units) -> Value {
        let unit = json!({ "key": Key::from(head::UNITS).to_string(), "value": to.name() });
        let body = Single::Body.path();
        let kept = self.fields.iter().filter_map(|(key, said)| {
            let row = sheet::Place::named(key)?.row()?;
            let is_of_body = key.starts_with(&format!("{body}.")) || key.contains(&format!(".{body}."));
            let is_length = matches!(row.kind, Kind::Length(..) | Kind::Size(..));
            (is_length && !is_of_body).then(|| json!({ "key": key, "value": with_unit(row, said, from) }))
        });
        std::iter::once(unit).chain(kept).collect()
    }

    /// A leg's key where the sheet has that leg alone, else the one for both legs.
    fn own(&self, key: Key) -> Key {
        let home = key.home().to_string();
        let is_alone = self.fields.keys().any(|said| said.starts_with(&format!("{home}.")));
        if home == "finish.top" || is_alone {
            return key;
        }
        Key::named(&format!("finish.legs.{}", key.name())).unwrap_or(key)
    }

    /// The end of a range that is nearest to what holds now, as it is written.
    fn nearest(&self, key: &Key, least: f64, most: f64) -> String {
        let now = self.garment.and_then(|garment| garment.used.iter().find(|used| used.key == *key));
        let is_over = match now.map(|used| &used.value) {
            Some(engine::garment::Value::Mm(mm)) => *mm > most,
            _ => false,
        };
        let inside = if is_over { most - 0.5 } else { least + 0.5 };
        self.say.bare(inside, Fineness::Tool)
    }

    /// Where it can be pointed at on the pieces.
    fn spots(&self, place: &Place) -> Vec<Value> {
        let walk = |opening: Opening| self.garment?.openings.iter().find(|walk| walk.opening == opening);
        match place {
            Place::Opening(opening) => walk(*opening).map(|walk| self.on_edges(&walk.path)).unwrap_or_default(),
            Place::Section(section) => {
                let edges = walk(section.opening).map(|walk| walk.path.as_slice()).unwrap_or_default();
                let piece = match section.section {
                    engine::sheet::Section::Front => PieceId::Front,
                    engine::sheet::Section::Gusset => PieceId::Gusset,
                    engine::sheet::Section::Back => PieceId::Back,
                };
                self.on_edges(edges.iter().filter(|edge| edge.piece == piece))
            }
            Place::Seam(seam) => {
                let walk = self.garment.and_then(|garment| garment.seams.iter().find(|walk| walk.id == *seam));
                walk.map(|walk| self.on_edges([&walk.a, &walk.b])).unwrap_or_default()
            }
            Place::Crossing(crossing) => {
                let walk = self.garment.and_then(|garment| garment.crossings.iter().find(|walk| walk.id == *crossing));
                walk.and_then(|walk| Some(spot(&walk.a, self.path(&walk.a)?.end()))).into_iter().collect()
            }
            Place::Piece(piece) => {
                let drawn = self.pieces.iter().find(|p| p.id == *piece);
                drawn
                    .map(|p| json!({ "piece": piece.name(), "edge": null, "at": point(p.bounds().center()) }))
                    .into_iter()
                    .collect()
            }
            Place::Sheet | Place::Key(_) | Place::Work => Vec::new(),
        }
    }

    fn on_edges<'e>(&self, edges: impl IntoIterator<Item = &'e EdgeRef>) -> Vec<Value> {
        let middle = |edge: &'e EdgeRef| {
            let path = self.path(edge)?;
            Some(spot(edge, path.at(0.5 * path.length()).0))
        };
        edges.into_iter().filter_map(middle).collect()
    }

    fn path(&self, edge: &EdgeRef) -> Option<engine::curve::Path> {
        let piece = self.pieces.iter().find(|piece| piece.id == edge.piece)?;
        edge.path(&piece.finished).ok()
    }
}

fn spot(edge: &EdgeRef, at: Point) -> Value {
    let is_other_half = edge.half == Half::Minus;
    json!({ "piece": edge.piece.name(), "edge": edge.edge.name(), "at": [number(at.x), number(at.y)], "is_other_half": is_other_half })
}

const fn kind(place: &Place) -> &'static str {
    match place {
        Place::Sheet => "sheet",
        Place::Key(_) => "key",
        Place::Opening(_) => "opening",
        Place::Section(_) => "section",
        Place::Seam(_) => "seam",
        Place::Piece(_) => "piece",
        Place::Crossing(_) => "crossing",
        Place::Work => "work",
    }
}
