//! A small drawer of elastics to start from: the one that comes with the program.

use engine::quantity::Length;

const DRAWER: &str = include_str!("../../../../fixtures/elastics.toml");

/// An elastic of the drawer.
#[derive(Clone, Debug)]
pub(crate) struct Kept {
    pub(crate) name: String,
    pub(crate) width: Length,
    pub(crate) picot: Length,
    /// %.
    pub(crate) stretch: f64,
}

/// Every one, narrow before wide.
pub(crate) fn elastics() -> Vec<Kept> {
    let table: toml::Table = DRAWER.parse().unwrap_or_default();
    let all = table.get("elastic").and_then(toml::Value::as_table).cloned().unwrap_or_default();
    let number = |value: Option<&toml::Value>| value.and_then(|v| v.as_float().or(v.as_integer().map(|n| n as f64)));
    // The drawer is in centimetres.
    let length = |value: Option<&toml::Value>| Length::from_mm(10.0 * number(value).unwrap_or(0.0));
    let one = |(name, of): (&String, &toml::Value)| Kept {
        name: name.clone(),
        width: length(of.get("width")),
        picot: length(of.get("picot")),
        stretch: number(of.get("stretch")).unwrap_or(100.0),
    };
    let mut all: Vec<Kept> = all.iter().map(one).collect();
    all.sort_by(|a, b| (a.width, &a.name).cmp(&(b.width, &b.name)));
    all
}

/// The place of the one that is usual for a finish.
pub(crate) fn usual(all: &[Kept], finish: &str) -> usize {
    let name = match finish {
        "turned" => "plush 12",
        "trim" => "picot edging 8",
        "binding" => "fold-over 15",
        "lapped" => "stretch lace 40",
        _ => "knitted 10",
    };
    all.iter().position(|elastic| elastic.name == name).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_drawer_opens_and_every_usual_elastic_lies_in_it() {
        let all = elastics();
        assert!(all.len() > 10 && all.iter().all(|e| e.width.mm() >= 5.0 && e.picot < e.width && e.stretch >= 40.0));
        let chosen =
            ["turned", "trim", "binding", "lapped", "tunnel"].map(|finish| all[usual(&all, finish)].name.clone());
        assert_eq!(chosen, ["plush 12", "picot edging 8", "fold-over 15", "stretch lace 40", "knitted 10"]);
    }
}
