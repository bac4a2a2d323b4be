//! Every sentence that a person reads is made here, from facts, in the unit of her sheet.

mod act;
mod because;
pub mod card;
pub mod explain;
mod findings;
pub mod finish;
pub mod growth;
mod lay;
mod measured;
pub mod number;
pub mod picture;
pub(crate) mod piece;
pub mod shopping;
mod spread;
pub mod trial;
pub(crate) mod tried;
pub mod work;

pub use findings::Said;
pub use measured::{girth_source, joining};
pub use number::{Fineness, Speech};

/// `a`, `a and b`, `a, b and c`.
pub(crate) fn listed(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Parts of which the same is said are named together: `front and gusset flat`.
pub(crate) fn together<'a>(parts: impl IntoIterator<Item = (&'a str, String)>) -> Vec<String> {
    let mut groups: Vec<(Vec<&str>, String)> = Vec::new();
    for (name, said) in parts {
        match groups.iter_mut().find(|(_, known)| *known == said) {
            Some((names, _)) if names.contains(&name) => {}
            Some((names, _)) => names.push(name),
            None => groups.push((vec![name], said)),
        }
    }
    groups.iter().map(|(names, said)| format!("{} {said}", listed(names))).collect()
}

/// A sentence's first letter as a capital.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_read_as_spoken() {
        assert_eq!(listed(&[]), "");
        assert_eq!(listed(&["a"]), "a");
        assert_eq!(listed(&["a", "b", "c"]), "a, b and c");
        assert_eq!((capital("left leg").as_str(), capital("").as_str()), ("Left leg", ""));
    }
}
