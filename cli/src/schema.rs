//! The JSON Schema of a sheet (draft 2020-12), made from the table of keys: for editors, and for
//! programs that write sheets.
//!
//! A sheet is TOML; the schema is of the same tree as JSON, with a day as text. It holds what can be
//! said of keys one by one: names, kinds, ranges in each unit, what is needed, and which keys belong
//! to which finish. What needs several values at once (does the named elastic exist, does the
//! garment come out) only reading and drafting the sheet can say.

mod finishes;
mod value;

use engine::keys::{Home, Row, SECTIONS, Section, Shape, Single, head};
use engine::quantity::Units;
use serde_json::{Map, Value, json};

/// The schema.
pub fn schema() -> Value {
    let sections = whole_sheet();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A measurement sheet for knickers",
        "description": "One garment: body, cloth, shape, finishes, elastics. Lengths are in the unit of the sheet.",
        "type": "object",
        "properties": sections,
        "required": required_sections(),
        "additionalProperties": false,
        "allOf": Units::ALL.map(|(_, units)| in_units(units)),
    })
}

/// Sections with a key that has to be there, and the finishes, which are judged by themselves.
fn required_sections() -> Vec<&'static str> {
    let needed = |s: &&Section| s.shape == Shape::One && s.rows().any(Row::is_needed);
    SECTIONS.iter().filter(needed).map(|s| s.path).chain(["finish"]).collect()
}

/// Every section without what depends on the unit.
fn whole_sheet() -> Map<String, Value> {
    let mut all = grouped(&mut SECTIONS.iter(), &whole);
    if let Some(finish) = all.get_mut("finish") {
        finishes::needed(finish);
    }
    all
}

/// These sections by their paths; those of a group inside an object of the group's name.
fn grouped(
    sections: &mut dyn Iterator<Item = &'static Section>,
    of: &dyn Fn(&Section) -> Option<Value>,
) -> Map<String, Value> {
    let mut all = Map::new();
    let mut finish = Map::new();
    for section in sections {
        let Some(value) = of(section) else { continue };
        match section.path.strip_prefix("finish.") {
            Some(edges) => finish.insert(edges.to_owned(), value),
            None => all.insert(section.path.to_owned(), value),
        };
    }
    if !finish.is_empty() {
        all.insert("finish".to_owned(), json!({ "properties": finish }));
    }
    all
}

/// A section without what depends on the unit.
fn whole(section: &Section) -> Option<Value> {
    let mut object = keys_of(section);
    let needed: Vec<&str> = section.rows().filter(|row| row.is_needed()).map(|row| row.name).collect();
    if !needed.is_empty() {
        object["required"] = json!(needed);
    }
    if !section.over.is_empty() {
        let mut inside = grouped(&mut section.inside(), &|section| Some(keys_of(section)));
        if let Some(finish) = inside.get_mut("finish") {
            finishes::group(finish);
        }
        object["anyOf"] = changes(section);
        if let Some(keys) = object["properties"].as_object_mut() {
            keys.append(&mut inside);
        }
    }
    Some(shaped(section.shape, object))
}

/// A variant changes at least one key.
fn changes(section: &Section) -> Value {
    let one = |section: &Section| {
        let keys = json!({ "minProperties": 1 });
        section.path.rsplit('.').fold(keys, |inner, name| json!({ "required": [name], "properties": { name: inner } }))
    };
    json!(section.inside().map(one).collect::<Vec<_>>())
}

/// The keys of a section, none of which has to be there.
fn keys_of(section: &Section) -> Value {
    let keys: Map<String, Value> = section.rows().map(|row| (row.name.to_owned(), value::of(row))).collect();
    let mut object = json!({
        "title": section.title,
        "type": "object",
        "properties": keys,
        "additionalProperties": false,
    });
    if !section.shared.is_empty() {
        object["allOf"] = finishes::rules();
    }
    if !section.intro.is_empty() && section.shape == Shape::One {
        object["description"] = json!(section.intro);
    }
    object
}

/// An object once, under each name, or in a list.
fn shaped(shape: Shape, object: Value) -> Value {
    match shape {
        Shape::One => object,
        Shape::Named => json!({ "type": "object", "additionalProperties": object, "propertyNames": value::one_line() }),
        Shape::List => json!({ "type": "array", "items": object }),
    }
}

/// What the lengths are where the sheet is in this unit.
fn in_units(units: Units) -> Value {
    let keys = |section: &Section| -> Map<String, Value> {
        let of = |row: &Row| value::length_in(row, units).map(|v| (row.name.to_owned(), v));
        section.rows().filter_map(of).collect()
    };
    let inside = |section: &Section| -> Option<Value> {
        let keys = keys(section);
        (!keys.is_empty()).then(|| json!({ "properties": keys }))
    };
    let lengths = |section: &Section| -> Option<Value> {
        let mut keys = keys(section);
        keys.append(&mut grouped(&mut section.inside(), &inside));
        (!keys.is_empty()).then(|| match section.shape {
            Shape::One => json!({ "properties": keys }),
            Shape::Named => json!({ "additionalProperties": { "properties": keys } }),
            Shape::List => json!({ "items": { "properties": keys } }),
        })
    };
    let (section, unit) = (Home::Single(Single::Sheet).to_string(), head::UNITS.name());
    let head = json!({ unit: { "const": units.name() } });
    json!({
        "if": { "properties": { section.clone(): { "properties": head, "required": [unit] } }, "required": [section] },
        "then": { "properties": grouped(&mut SECTIONS.iter(), &lengths) },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_of_the_table_is_in_it() {
        let schema = schema();
        for section in &SECTIONS {
            let at = format!("/properties/{}", section.path.replace('.', "/properties/"));
            let object = match section.shape {
                Shape::One => schema.pointer(&at),
                Shape::Named => schema.pointer(&format!("{at}/additionalProperties")),
                Shape::List => schema.pointer(&format!("{at}/items")),
            };
            let keys = object.and_then(|o| o["properties"].as_object()).unwrap();
            let names = section.rows().map(|r| r.name);
            let inside = section.inside().map(|inside| inside.path.split('.').next().unwrap_or_default());
            let mut all: Vec<&str> = names.chain(inside).collect();
            all.dedup();
            assert_eq!(keys.keys().collect::<Vec<_>>(), all);
        }
    }

    #[test]
    fn ranges_are_in_the_unit_of_the_sheet() {
        let schema = schema();
        for (i, (low, high)) in [(20.0, 300.0), (200.0, 3000.0), (200.0 / 25.4, 3000.0 / 25.4)].iter().enumerate() {
            let girth = &schema["allOf"][i]["then"]["properties"]["body"]["properties"]["waist_girth"];
            let number = girth.get("anyOf").map_or(girth, |any| &any[0]);
            assert!((number["minimum"].as_f64().unwrap() - low).abs() < 1e-6, "{girth}");
            assert!((number["maximum"].as_f64().unwrap() - high).abs() < 1e-6, "{girth}");
        }
    }
}
