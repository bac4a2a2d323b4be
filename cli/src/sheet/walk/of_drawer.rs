//! Walks the tree of a drawer: elastics and cloths by their names, in a unit of its own.

use super::{Problem, Table, Walk, in_file_order, quoted};
use engine::keys::{CLOTH, Section};
use std::collections::BTreeMap;
use toml::de::{DeTable, DeValue};

/// Tables by the names of what they describe.
type Named = BTreeMap<String, Table>;

impl Walk<'_> {
    /// The tree of a drawer: its elastics, its cloths, and what is wrong.
    pub(in crate::sheet) fn drawer(mut self, root: &DeTable<'_>) -> (Named, Named, Vec<Problem>) {
        let (mut elastics, mut cloths) = (Named::new(), Named::new());
        for (key, value) in in_file_order(root) {
            let name: &str = key.get_ref();
            match (name, Section::at(name), value.get_ref()) {
                ("sheet", Some(head), DeValue::Table(_)) => self.section(head, key, value),
                ("elastic", Some(section), DeValue::Table(table)) => elastics = self.named(section, table),
                ("cloth", _, DeValue::Table(table)) => cloths = self.named(&CLOTH, table),
                _ => self.note(
                    name,
                    key.span(),
                    &format!("a drawer has no {}", quoted(name)),
                    "not part of a drawer",
                    "take it out; a drawer has [sheet] with its `units`, [elastic.\"NAME\"] and [cloth.\"NAME\"]",
                ),
            }
        }
        if self.units.is_none() {
            let help = "write [sheet] at its head, and units = \"cm\", \"mm\" or \"in\" below it";
            self.note("sheet.units", 0..0, "the unit of the drawer is missing", "not found in it", help);
        }
        (elastics, cloths, self.problems)
    }
}
