//! Ids: letters, digits and dashes, no two alike.

/// An id for each piece: its name, other characters than letters and digits as `-`.
pub(super) fn of<'n>(pieces: impl IntoIterator<Item = &'n str>) -> Vec<String> {
    let mut ids: Vec<String> = Vec::new();
    for piece in pieces {
        let plain = slug(piece);
        let base = if plain.starts_with(|c: char| c.is_ascii_alphabetic()) && plain != "legend" {
            plain
        } else {
            format!("piece-{plain}").trim_end_matches('-').to_owned()
        };
        ids.push(unique(&base, &ids));
    }
    ids
}

/// A name in letters, digits and single dashes.
pub(super) fn slug(name: &str) -> String {
    let plain: String =
        name.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect();
    plain.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
}

/// The same, numbered where it is taken.
pub(super) fn unique(base: &str, taken: &[String]) -> String {
    let numbered = (2..).map(|count| format!("{base}-{count}"));
    let mut candidates = std::iter::once(base.to_owned()).chain(numbered);
    candidates.find(|id| !taken.contains(id)).unwrap_or_else(|| base.to_owned())
}
