//! Variants: what a `[[variant]]` changes, or the `[[alternative]]` blocks of one name, laid over
//! the sheet key by key.

use super::build;
use super::finish::{self, Layer};
use super::problem::{Problem, quoted};
use super::walk::{Found, Table};
use crate::file_name::stem;
use engine::keys::{Edges, alternative, variant};
use engine::sheet::Variant;
use std::ops::Range;

/// The section of an alternative.
pub(super) const ALTERNATIVE: &str = "alternative";

/// The section of a variant.
pub(super) const VARIANT: &str = "variant";

/// More than this cannot be told apart on paper.
const MOST: usize = 8;

/// What is written of one variant.
struct Written<'f> {
    name: String,
    /// The variant's own block, or the blocks of an alternative in the order of the file.
    blocks: Vec<&'f Table>,
}

/// Reads every variant, in the order of the file; `None` where something is wrong, and said.
pub(super) fn variants(found: &Found, end: &Range<usize>, problems: &mut Vec<Problem>) -> Option<Vec<Variant>> {
    let written = written(found, problems)?;
    let read: Vec<_> = written.iter().map(|one| variant(found, one, end, problems)).collect();
    read.into_iter().collect()
}

fn written<'f>(found: &'f Found, problems: &mut Vec<Problem>) -> Option<Vec<Written<'f>>> {
    let mut tables: Vec<&Table> = found.list(ALTERNATIVE).iter().chain(found.list(VARIANT)).collect();
    tables.sort_by_key(|table| table.head.start);
    let mut all: Vec<Written<'_>> = Vec::new();
    for table in tables {
        // The name of either has the same key; where it is missing, that is said.
        let Some(name) = table.text(variant::NAME) else { continue };
        if let Some(one) = all.iter_mut().find(|one| one.name == name && are_alternatives(one, table)) {
            one.blocks.push(table);
            continue;
        }
        let alike = all.iter().find(|one| is_same_file(&one.name, &name)).map(|one| same_file(one, &name, table));
        if let Some(problem) = alike.or_else(|| (all.len() == MOST).then(|| too_many(table))) {
            problems.push(problem);
            return None;
        }
        all.push(Written { name, blocks: vec![table] });
    }
    Some(all)
}

/// Blocks of alternatives that have one name belong together.
fn are_alternatives(one: &Written<'_>, table: &Table) -> bool {
    one.blocks.iter().chain([&table]).all(|block| block.path.starts_with(ALTERNATIVE))
}

fn is_same_file(a: &str, b: &str) -> bool {
    // Some disks take capitals for small letters.
    stem(a).to_lowercase() == stem(b).to_lowercase()
}

fn same_file(one: &Written<'_>, name: &str, table: &Table) -> Problem {
    let (title, help) = if one.name == name {
        (format!("two variants are called {}", quoted(name)), "give each variant a name of its own")
    } else {
        (
            format!("the variants {} and {} would have the same files", quoted(&one.name), quoted(name)),
            "write the very same name for alternatives that belong together, else one that differs in letters or \
             numbers",
        )
    };
    Problem {
        span: table.items.get(variant::NAME.name()).map_or(table.head.clone(), |item| item.at.clone()),
        key: format!("{}.name", table.path),
        title,
        label: "too much like another name".to_owned(),
        help: help.to_owned(),
    }
}

fn too_many(table: &Table) -> Problem {
    Problem {
        span: table.head.clone(),
        key: table.path.clone(),
        title: format!("there are more than {MOST} variants"),
        label: "one too many".to_owned(),
        help: "so many lines over each other cannot be told apart; take some out, or into a sheet of their own"
            .to_owned(),
    }
}

fn variant(found: &Found, one: &Written<'_>, end: &Range<usize>, problems: &mut Vec<Problem>) -> Option<Variant> {
    let whole = laid_over(found, one);
    let finish = finish::openings(&whole, over(one), end.clone(), problems)?;
    let section = |path| whole.sections.get(path);
    Some(Variant {
        name: one.name.clone(),
        body: build::body(section("body")?)?,
        fabric: build::fabric(section("fabric")?)?,
        style: build::style(section("style")?)?,
        gusset: section("gusset").map(build::gusset).unwrap_or_default(),
        finish,
    })
}

/// The sheet with the keys of the variant in place of its own; finishes stay apart, since a kind
/// decides which of the keys under it still mean something.
fn laid_over(found: &Found, one: &Written<'_>) -> Found {
    let mut whole = found.clone();
    let sections = one.blocks.iter().flat_map(|block| &block.over);
    for (path, table) in sections.filter(|(path, _)| !Edges::ALL.iter().any(|edges| edges.path() == **path)) {
        let under = whole.sections.entry(path).or_default();
        under.items.extend(table.items.iter().map(|(name, item)| (*name, item.clone())));
    }
    whole
}

/// Its finishes, the lowest first: those for both legs lie under those for one of them, as in the
/// sheet itself.
fn over<'f>(one: &Written<'f>) -> Vec<Layer<'f>> {
    let of_edge = |table: &'f Table| {
        let edge = table.text(alternative::EDGE)?;
        let (_, edges) = Edges::WORDS.iter().find(|(known, _)| *known == edge)?;
        Some(Layer { table, openings: edges.openings() })
    };
    let mut all: Vec<Layer<'_>> = one.blocks.iter().copied().filter_map(of_edge).collect();
    all.extend(one.blocks.iter().flat_map(|block| finish::layers(&block.over)));
    all.sort_by_key(|layer| std::cmp::Reverse(layer.openings.len()));
    all
}
