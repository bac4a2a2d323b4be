//! What every code of a check and every term of the trade means, how it is computed and from what
//! source, and what to do.

mod cloth;
mod draft;
mod shape;
mod terms;
mod worn;

/// One code or term.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    /// The code, or the term.
    pub name: &'static str,
    /// What it means.
    pub means: &'static str,
    /// How it is computed, with its source.
    pub computed: &'static str,
    /// What to do; for a term, where it is set or seen.
    pub next: &'static str,
}

/// A line of a table.
const fn entry(name: &'static str, means: &'static str, computed: &'static str, next: &'static str) -> Entry {
    Entry { name, means, computed, next }
}

/// Every code of a check, subject by subject.
pub fn codes() -> impl Iterator<Item = &'static Entry> {
    [draft::BODY, draft::DRAFT, shape::ENTRIES, cloth::CLOTH, cloth::FINISH, worn::ENTRIES].into_iter().flatten()
}

/// Every term.
pub fn terms() -> impl Iterator<Item = &'static Entry> {
    terms::ENTRIES.iter()
}

/// What is said of a code or a term, capitals or not.
pub fn of(name: &str) -> Option<&'static Entry> {
    codes().chain(terms()).find(|entry| entry.name.eq_ignore_ascii_case(name.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn nothing_is_explained_twice_or_left_empty() {
        let all: Vec<&Entry> = codes().chain(terms()).collect();
        let names: BTreeSet<&str> = all.iter().map(|entry| entry.name).collect();
        assert_eq!(names.len(), all.len());
        assert!(all.iter().all(|e| !e.means.is_empty() && !e.computed.is_empty() && !e.next.is_empty()));
        assert!(codes().all(|e| e.name.contains('.')) && terms().all(|e| !e.name.contains('.')));
    }
}
