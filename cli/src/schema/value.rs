//! What one key takes, as a schema.

use engine::finish::FinishKind;
use engine::keys::{Absent, Kind, Row, Sample};
use engine::quantity::{Length, Units};
use engine::sheet::{Paper, Section};
use serde_json::{Map, Value, json};

/// A fraction of an inch as it is read: `29 1/2`, `29-1/2`, `1/2`, `29½`, `29.5`.
const INCHES: &str = r"^\s*[-+]?(\d+(\.\d+)?|(\d+[ -]+)?\d+\s*/\s*\d*[1-9]\d*|\d*\s*[½¼¾⅛⅜⅝⅞])\s*$";

/// A key, whatever the unit of the sheet.
pub(super) fn of(row: &Row) -> Value {
    let mut schema = kind(row.kind);
    let words = [row.how, row.advice].join(" ");
    schema["description"] = json!(words.trim().replace('\u{a0}', " "));
    let otherwise = row.otherwise();
    if !otherwise.is_empty() && row.absent != Absent::Needed {
        schema["$comment"] = json!(format!("where it is not written: {otherwise}"));
    }
    if let Some(example) = example(row.example) {
        schema["examples"] = json!([example]);
    }
    schema
}

fn kind(kind: Kind) -> Value {
    match kind {
        Kind::Count(low, high) => json!({ "type": "integer", "minimum": low, "maximum": high }),
        Kind::Text => one_line(),
        Kind::Note => json!({ "type": "string", "pattern": r"\S", "maxLength": 500 }),
        Kind::Word(words) => json!({ "enum": words() }),
        Kind::Finish => json!({ "enum": FinishKind::all().map(|kind| kind.name()).collect::<Vec<_>>() }),
        Kind::YesNo => json!({ "type": "boolean" }),
        Kind::Date => json!({ "type": "string", "format": "date", "pattern": r"^(19|2\d)\d\d-\d\d-\d\d$" }),
        Kind::Length(..) | Kind::Size(..) => json!({ "type": ["number", "string"] }),
        Kind::Percent(low, high) | Kind::Share(low, high) | Kind::Price(low, high) => {
            json!({ "type": "number", "minimum": low, "maximum": high })
        }
        Kind::Paper(..) => json!({ "type": ["number", "string"] }),
        Kind::Pull { stretch, pull, pairs } => json!({
            "type": "array",
            "minItems": 1,
            "maxItems": pairs,
            "items": {
                "type": "array",
                "prefixItems": [range(0.0, stretch), range(0.0, pull)],
                "items": false,
                "minItems": 2,
            },
        }),
        Kind::Sections(low, high) => {
            let parts: Map<String, Value> =
                Section::ALL.iter().map(|(name, _)| ((*name).to_owned(), range(low, high))).collect();
            json!({ "type": "object", "properties": parts, "additionalProperties": false })
        }
    }
}

/// Text that fits on a piece.
pub(super) fn one_line() -> Value {
    json!({ "type": "string", "pattern": r"^[^\u0000-\u001f\u007f-\u009f]*$", "allOf": [{ "pattern": r"\S" }], "maxLength": 500 })
}

fn range(low: f64, high: f64) -> Value {
    json!({ "type": "number", "minimum": low, "maximum": high })
}

/// A key that is a length, in this unit; nothing for any other.
pub(super) fn length_in(row: &Row, units: Units) -> Option<Value> {
    let (low, high) = match row.kind {
        Kind::Length(low, high) | Kind::Size(low, high) | Kind::Paper(low, high) => (low, high),
        _ => return None,
    };
    let to = |mm: f64| Length::from_mm(mm).to(units);
    let mut number = range(to(low), to(high));
    if matches!(row.kind, Kind::Size(..) | Kind::Paper(..)) {
        number["exclusiveMinimum"] = json!(0);
    }
    let mut all = vec![number];
    if units == Units::In {
        all.push(json!({ "type": "string", "pattern": INCHES }));
    }
    if matches!(row.kind, Kind::Paper(..)) {
        all.push(json!({ "enum": Paper::NAMED.map(|(name, _)| name) }));
    }
    match all.as_slice() {
        [one] => Some(one.clone()),
        _ => Some(json!({ "anyOf": all })),
    }
}

/// Lengths are left out: they would be in one unit of three.
fn example(sample: Sample) -> Option<Value> {
    match sample {
        Sample::None | Sample::Mm(_) => None,
        Sample::Number(number) => Some(json!(number)),
        Sample::Text(text) | Sample::Date(text) => Some(json!(text)),
        Sample::YesNo(yes) => Some(json!(yes)),
        Sample::Sections(parts) => {
            let parts: Map<String, Value> = parts.iter().map(|(name, p)| ((*name).to_owned(), json!(p))).collect();
            Some(Value::Object(parts))
        }
        Sample::Pull(pairs) => Some(json!(pairs.iter().map(|(a, b)| [a, b]).collect::<Vec<_>>())),
    }
}
