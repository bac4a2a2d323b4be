//! People of one name: told apart on their papers, and said so.

use super::person::Person;
use std::collections::BTreeMap;

/// What names have in common that read the same.
fn read(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// Gives everybody but the first of a name another one: `Anna`, `Anna 2`.
pub(super) fn tell_apart(persons: &mut [Person]) {
    let mut rows: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for person in persons.iter().filter(|person| !person.name.is_empty()) {
        rows.entry(read(&person.name)).or_default().push(person.row);
    }
    let mut taken: Vec<String> = rows.keys().cloned().collect();
    let mut met: Vec<String> = Vec::new();
    for person in persons {
        let Some(same) = rows.get(&read(&person.name)).filter(|same| same.len() > 1) else { continue };
        person.namesakes = same.iter().copied().filter(|row| *row != person.row).collect();
        if !met.contains(&read(&person.name)) {
            met.push(read(&person.name));
            continue;
        }
        let numbered = (2..).map(|n| format!("{} {n}", person.name)).find(|called| !taken.contains(&read(called)));
        person.called = numbered.unwrap_or_default();
        taken.push(read(&person.called));
    }
}
