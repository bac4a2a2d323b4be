//! A key by its dotted name, as it is shown.

use super::key::{Edges, Home, Key, Single};
use super::section::Section;

impl Single {
    /// Every one, in the order of a sheet.
    pub const ALL: [Self; 7] =
        [Self::Sheet, Self::Body, Self::Fabric, Self::Style, Self::Gusset, Self::Seams, Self::Print];
}

impl Key {
    /// The key of this dotted name, such as `body.waist_girth`, `finish.left_leg.bite` or
    /// `elastic."soft 8".width`; none for keys of blocks that are told apart by their number alone.
    pub fn named(dotted: &str) -> Option<Self> {
        let (path, name) = dotted.rsplit_once('.')?;
        let single = Single::ALL.into_iter().find(|s| s.path() == path).map(Home::Single);
        let edges = || Edges::ALL.into_iter().find(|e| e.path() == path).map(Home::Finish);
        let elastic = || {
            let quoted = path.strip_prefix("elastic.")?;
            let name = quoted.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(quoted);
            (!name.trim().is_empty()).then(|| Home::Elastic(name.trim().to_owned()))
        };
        let home = single.or_else(edges).or_else(elastic)?;
        let row = Section::of(&home)?.row(name)?;
        Some(Self::new(home, row))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::keys::{SECTIONS, Shape};

    #[test]
    fn a_key_is_found_by_the_name_it_is_shown_with() {
        let mut found = 0;
        for section in SECTIONS.iter().filter(|s| s.shape != Shape::List) {
            let path = if section.shape == Shape::Named { "elastic.\"soft 1.5\"" } else { section.path };
            for row in section.rows() {
                let dotted = format!("{path}.{}", row.name);
                assert_eq!(Key::named(&dotted).map(|key| key.to_string()), Some(dotted));
                found += 1;
            }
        }
        assert!(found > 60, "{found}");
        for other in ["waist_girth", "body.", "body.hips", "trial.1.note", "elastic..width", "finish.bite", ""] {
            assert_eq!(Key::named(other), None, "{other}");
        }
    }
}
