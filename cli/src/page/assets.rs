//! What the browser gets: the files of `cli/page`, built into the program.

use include_dir::{Dir, include_dir};
use std::borrow::Cow;
use std::path::{Component, Path};

static FILES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/page");

/// What is served, by its ending.
const TYPES: [(&str, &str); 5] = [
    ("html", "text/html; charset=utf-8"),
    ("css", "text/css; charset=utf-8"),
    ("js", "text/javascript; charset=utf-8"),
    ("svg", "image/svg+xml"),
    ("txt", "text/plain; charset=utf-8"),
];

/// A file by its path under the page, and its type.
pub(super) fn file(path: &str) -> Option<(Cow<'static, [u8]>, &'static str)> {
    let path = if path.is_empty() { "index.html" } else { path };
    let ending = Path::new(path).extension()?.to_str()?;
    let (_, kind) = TYPES.iter().find(|(known, _)| *known == ending)?;
    let is_plain = Path::new(path).components().all(|part| matches!(part, Component::Normal(_)));
    if !is_plain || path.contains('\\') {
        return None;
    }
    Some((contents(path)?, kind))
}

/// While the page is being worked on, it is read from its folder, so that nothing has to be built.
#[cfg(debug_assertions)]
fn contents(path: &str) -> Option<Cow<'static, [u8]>> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/page"));
    let there = std::fs::read(folder.join(path)).ok().map(Cow::Owned);
    there.or_else(|| built_in(path))
}

#[cfg(not(debug_assertions))]
fn contents(path: &str) -> Option<Cow<'static, [u8]>> {
    built_in(path)
}

fn built_in(path: &str) -> Option<Cow<'static, [u8]>> {
    FILES.get_file(path).map(|file| Cow::Borrowed(file.contents()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_files_of_the_page_are_served() {
        for path in
            ["../Cargo.toml", "README.md", "js/../../Cargo.toml", "/etc/passwd", "..\\x.txt", "a//../b.txt", "x"]
        {
            assert!(file(path).is_none(), "{path}");
        }
    }

    fn total(dir: &Dir<'_>) -> usize {
        let own = dir.files().filter(|f| file(&f.path().to_string_lossy()).is_some());
        own.map(|f| f.contents().len()).sum::<usize>() + dir.dirs().map(total).sum::<usize>()
    }

    /// All that a browser loads.
    #[test]
    fn the_page_is_small() {
        assert!(total(&FILES) < 300_000, "{} bytes", total(&FILES));
    }
}
