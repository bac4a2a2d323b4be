//! What a sheet says, field by field, as it would be typed again: without judging any of it.

use std::collections::BTreeMap;
use toml_edit::{DocumentMut, Item, Key, TableLike, Value};

/// Every value that is written, by its dotted name; what lists hold is counted from 1. None where the
/// text is no TOML.
pub fn fields(source: &str) -> Option<BTreeMap<String, String>> {
    let source = source.strip_prefix('\u{feff}').unwrap_or(source);
    let doc: DocumentMut = source.parse().ok()?;
    let mut all = BTreeMap::new();
    table("", doc.as_table(), &mut all);
    Some(all)
}

fn table(path: &str, of: &dyn TableLike, all: &mut BTreeMap<String, String>) {
    for (name, item) in of.iter() {
        let name = Key::new(name).to_string();
        let path = if path.is_empty() { name } else { format!("{path}.{name}") };
        match item {
            Item::ArrayOfTables(list) => {
                list.iter().enumerate().for_each(|(i, block)| table(&format!("{path}.{}", i + 1), block, all));
            }
            Item::Value(Value::Array(list)) if !list.is_empty() && list.iter().all(Value::is_inline_table) => {
                let blocks = list.iter().filter_map(Value::as_inline_table).enumerate();
                blocks.for_each(|(i, block)| table(&format!("{path}.{}", i + 1), block, all));
            }
            _ => match (item.as_table_like(), item.as_value()) {
                (Some(inner), _) => table(&path, inner, all),
                (None, Some(value)) => drop(all.insert(path, cell(value))),
                (None, None) => {}
            },
        }
    }
}

/// As it is typed into a field: text without its quotes, numbers as they were written.
fn cell(value: &Value) -> String {
    match value {
        Value::String(text) => text.value().clone(),
        Value::Boolean(flag) => if *flag.value() { "yes" } else { "no" }.to_owned(),
        other => other.clone().decorated("", "").to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_has_its_dotted_name() {
        let source = "[sheet]\nname = \"a \\\"b\\\"\" # x\n[body]\nhip_girth = 98.50\nchild = true\n[finish]\nlegs.sections = { back = 10 }\n\
                      [elastic.\"soft 8\"]\npull = [[25, 60]]\n[[variant]]\nname = \"v\"\nbody.hip_girth = 99\n[[trial]]\nedge = \"legs\"\n";
        let all: Vec<String> =
            fields(source).unwrap().into_iter().map(|(key, value)| format!("{key}={value}")).collect();
        let expected = [
            "body.child=yes",
            "body.hip_girth=98.50",
            "elastic.\"soft 8\".pull=[[25, 60]]",
            "finish.legs.sections.back=10",
            "sheet.name=a \"b\"",
            "trial.1.edge=legs",
            "variant.1.body.hip_girth=99",
            "variant.1.name=v",
        ];
        assert_eq!(all, expected);
        assert!(fields("a = ").is_none());
    }
}
