//! A folder for each person: named after her, and nobody else's.

use crate::output::stem;
use crate::people::Person;
use std::collections::BTreeSet;

/// The folder of everybody, in the order of the table. Whether a row can be read changes no folder.
pub(in crate::commands) fn of(persons: &[Person]) -> Vec<String> {
    let mut taken = BTreeSet::new();
    persons.iter().map(|person| free(&stem(&person.called), &mut taken)).collect()
}

/// The name itself, else the first of `-2`, `-3`, … that is free. Some disks take capitals for small
/// letters.
pub(super) fn free(stem: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = |n: usize| if n == 1 { stem.to_owned() } else { format!("{stem}-{n}") };
    let mut n = 1;
    while !taken.insert(numbered(n).to_lowercase()) {
        n += 1;
    }
    numbered(n)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_gets_the_folder_of_somebody_else() {
        let mut taken = BTreeSet::new();
        let folders = ["Anna", "anna", "Anna-2", "Anna", "pattern", "pattern"].map(|name| free(name, &mut taken));
        assert_eq!(folders, ["Anna", "anna-2", "Anna-2-2", "Anna-3", "pattern", "pattern-2"]);
    }
}
