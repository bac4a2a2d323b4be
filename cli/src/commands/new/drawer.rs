//! What there is to choose from: a drawer beside the sheet, and the one that comes with the program.

use crate::sheet::Drawer;
use engine::sheet::Elastic;
use std::fs;
use std::path::Path;

/// The one that comes with the program.
const OURS: &str = include_str!("../../../../fixtures/elastics.toml");

/// A drawer beside a new sheet is offered by itself if it is called so.
const NAME: &str = "elastics.toml";

/// Elastics and cloths to choose from.
#[derive(Debug, Default)]
pub(crate) struct Stock {
    /// Those of her own drawer first.
    pub(crate) elastics: Vec<Kept>,
    /// Names of the cloths in her drawer.
    pub(crate) cloths: Vec<String>,
    /// What is wrong with her drawer, where something is.
    pub(crate) trouble: Option<String>,
}

/// An elastic to choose.
#[derive(Clone, Debug)]
pub(crate) struct Kept {
    pub(crate) name: String,
    pub(crate) elastic: Elastic,
    /// Does it lie in her drawer? Then the sheet need not describe it.
    pub(crate) hers: bool,
}

impl Stock {
    /// What comes with the program alone.
    pub(crate) fn of_the_program() -> Self {
        let elastics = Drawer::of(OURS, NAME).map(|drawer| kept(&drawer, false)).unwrap_or_default();
        Self { elastics, ..Self::default() }
    }

    /// For a sheet that is to be written there.
    pub(crate) fn beside(target: &Path) -> Self {
        let mut stock = Self::default();
        if let Ok(text) = fs::read_to_string(target.with_file_name(NAME)) {
            match Drawer::of(&text, NAME) {
                Ok(drawer) => {
                    stock.elastics = kept(&drawer, true);
                    stock.cloths = drawer.cloths().map(|(name, _)| name.to_owned()).collect();
                }
                Err(problems) => stock.trouble = Some(problems.to_string()),
            }
        }
        let is_new = |one: &Kept| !stock.elastics.iter().any(|hers| hers.name == one.name);
        let ours: Vec<Kept> = Self::of_the_program().elastics.into_iter().filter(is_new).collect();
        stock.elastics.extend(ours);
        stock
    }

    /// The name of her drawer, as a sheet beside it writes it.
    pub(crate) const fn file() -> &'static str {
        NAME
    }

    /// The elastic of the program's that is usual for a finish.
    pub(crate) fn usual(finish: &str) -> &'static str {
        match finish {
            "turned" => "plush 12",
            "trim" => "picot edging 8",
            "binding" => "fold-over 15",
            "lapped" => "stretch lace 40",
            _ => "knitted 10",
        }
    }

    /// All of hers, and those of the program's that are sold for a finish (common practice).
    pub(crate) fn suited(&self, finish: &str) -> impl Iterator<Item = &Kept> {
        let kinds: &[&str] = match finish {
            "turned" => &["plush", "picot"],
            "trim" => &["picot", "plush"],
            "binding" => &["fold-over"],
            "lapped" => &["stretch lace", "woven"],
            "tunnel" => &["knitted", "braided", "woven"],
            _ => &["knitted", "clear"],
        };
        self.elastics.iter().filter(move |kept| kept.hers || kinds.iter().any(|kind| kept.name.starts_with(kind)))
    }
}

/// Every elastic, narrow before wide.
fn kept(drawer: &Drawer, hers: bool) -> Vec<Kept> {
    let mut all: Vec<Kept> =
        drawer.elastics().map(|(name, elastic)| Kept { name: name.to_owned(), elastic, hers }).collect();
    all.sort_by(|a, b| (a.elastic.width, &a.name).cmp(&(b.elastic.width, &b.name)));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::finish::FinishKind;

    #[test]
    fn the_drawer_opens_and_every_usual_elastic_lies_in_it() {
        let stock = Stock::beside(Path::new("no such folder/sheet.toml"));
        let wide = |kept: &Kept| kept.elastic.width.mm() >= 5.0 && kept.elastic.picot < kept.elastic.width;
        assert!(stock.elastics.len() > 10 && stock.elastics.iter().all(wide));
        for kind in FinishKind::all().filter(|kind| kind.takes().elastic()) {
            let usual = Stock::usual(kind.name());
            assert!(stock.suited(kind.name()).any(|kept| kept.name == usual), "{usual} for {}", kind.name());
        }
    }
}
