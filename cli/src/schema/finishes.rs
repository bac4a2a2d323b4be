//! Which keys of a finish go together.

use engine::finish::FinishKind;
use engine::keys::{Edges, alternative, finish};
use serde_json::{Value, json};

/// An object of finishes, and nothing else.
pub(super) fn group(object: &mut Value) {
    object["type"] = json!("object");
    object["additionalProperties"] = json!(false);
}

/// The finishes of a whole sheet: the top, and both legs together or each.
pub(super) fn needed(object: &mut Value) {
    let kind = json!({ "required": [finish::KIND.name()] });
    let with_kind = |edges: Edges| {
        let name = edges.path().trim_start_matches("finish.");
        json!({ "required": [name], "properties": { name: kind } })
    };
    let each = json!({ "allOf": [with_kind(Edges::LeftLeg), with_kind(Edges::RightLeg)] });
    group(object);
    object["allOf"] = json!([with_kind(Edges::Top), { "anyOf": [with_kind(Edges::Legs), each] }]);
}

/// One length basis, and the keys that the kind takes.
pub(super) fn rules() -> Value {
    let bases = [finish::REDUCTION, finish::LENGTH, finish::FROM].map(|key| key.name());
    let pairs = [[bases[0], bases[1]], [bases[0], bases[2]], [bases[1], bases[2]]];
    let mut rules: Vec<Value> = pairs.iter().map(|pair| json!({ "not": { "required": pair } })).collect();
    rules.extend(FinishKind::all().map(of_kind));
    json!(rules)
}

fn of_kind(kind: FinishKind) -> Value {
    let others = [alternative::NAME.name(), alternative::EDGE.name()];
    let own = finish::all().filter(|key| kind.takes_key(*key)).map(|key| key.name());
    let keys: Vec<&str> = others.into_iter().chain(own).collect();
    let is_kind =
        json!({ "properties": { finish::KIND.name(): { "const": kind.name() } }, "required": [finish::KIND.name()] });
    json!({ "if": is_kind, "then": { "propertyNames": { "enum": keys } } })
}
