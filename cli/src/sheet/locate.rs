//! Finds a key in the text of a sheet, so that what the engine says can be pointed at.

use super::variant::{ALTERNATIVE, VARIANT};
use engine::finding::{Finding, Place};
use engine::keys::{Home, variant};
use engine::sheet::Opening;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Where the value of a dotted key stands in the text, such as `gusset.front_width`,
/// `elastic."soft 8".width` or `trial.2.edge` (the second one). For a section, its head.
///
/// A key of one leg that is written for both is found where it is written. `None` where the sheet
/// does not have the key, or is no sheet.
pub fn locate(source: &str, key: &str) -> Option<Range<usize>> {
    let tree = DeTable::parse(source).ok()?;
    let path = components(key);
    let path: Vec<&str> = path.iter().map(String::as_str).collect();
    of_sheet(tree.get_ref(), &path)
}

/// Where a finding is to be looked at: the value of its key, or the head of the nearest section
/// that it would be written in. An opening stands for its finish.
///
/// What is found of a variant is looked for in its blocks first: its key, else what it says of that
/// edge; then in the sheet; what neither has is shown at the head of the variant.
pub fn locate_place(source: &str, finding: &Finding) -> Option<Range<usize>> {
    let tree = DeTable::parse(source).ok()?;
    let root = tree.get_ref();
    let path = path_of(&finding.place).unwrap_or_default();
    let path: Vec<&str> = path.iter().map(String::as_str).collect();
    let name = finding.variant.as_deref();
    let block = name.and_then(|name| block(root, name));
    let in_block = || in_variant(block.as_ref()?.get_ref().as_table()?, &path);
    let in_alternative = || in_alternative(root, name?, &path);
    let in_sheet = || of_sheet(root, &path);
    let head = || block.as_ref().map(|block| block.span());
    let nearest = || (1..path.len()).rev().find_map(|n| of_sheet(root, &path[..n]));
    in_block().or_else(in_alternative).or_else(in_sheet).or_else(head).or_else(nearest)
}

/// The way to a place in the sheet, where it has one.
fn path_of(place: &Place) -> Option<Vec<String>> {
    let finish = |opening: Opening| Some(section(&Home::Finish(opening.into())));
    match place {
        Place::Key(key) => Some(section(key.home()).into_iter().chain([key.name().to_owned()]).collect()),
        Place::Opening(opening) => finish(*opening),
        Place::Section(section) => finish(section.opening),
        Place::Crossing(crossing) => finish(crossing.opening),
        Place::Sheet | Place::Seam(_) | Place::Piece(_) | Place::Work => None,
    }
}

/// The way to a section.
fn section(home: &Home) -> Vec<String> {
    let dotted = home.path().split('.').map(str::to_owned);
    let which = match home {
        Home::Single(_) | Home::Finish(_) => None,
        Home::Elastic(name) => Some(name.clone()),
        Home::Alternative(n) | Home::Variant(n) | Home::Trial(n) => Some(n.to_string()),
    };
    dotted.chain(which).collect()
}

fn of_sheet(root: &DeTable<'_>, path: &[&str]) -> Option<Range<usize>> {
    if let Some(found) = follow(root, path) {
        return Some(found);
    }
    match path {
        ["finish", "left_leg" | "right_leg", rest @ ..] => {
            let shared: Vec<&str> = ["finish", "legs"].iter().chain(rest).copied().collect();
            follow(root, &shared)
        }
        _ => None,
    }
}

/// The block of the variant of this name.
fn block<'t, 'i>(root: &'t DeTable<'i>, name: &str) -> Option<&'t Spanned<DeValue<'i>>> {
    let (_, blocks) = root.iter().find(|(head, _)| head.get_ref() == VARIANT)?;
    let is_it = |block: &&Spanned<DeValue<'_>>| {
        let written = block.get_ref().as_table().and_then(|table| table.get(variant::NAME.name()));
        written.and_then(|written| written.get_ref().as_str()).is_some_and(|written| written.trim() == name)
    };
    blocks.get_ref().as_array()?.iter().find(is_it)
}

/// In the block of a variant: the key itself, else what it says of the edge that a way leads to.
fn in_variant(block: &DeTable<'_>, path: &[&str]) -> Option<Range<usize>> {
    let of_edge = || match path {
        ["finish", _, ..] => {
            of_sheet(block, &[path.get(..2)?, &["kind"]].concat()).or_else(|| of_sheet(block, path.get(..2)?))
        }
        _ => None,
    };
    of_sheet(block, path).or_else(of_edge)
}

/// In the blocks of an alternative for the edge that a way leads to.
fn in_alternative(root: &DeTable<'_>, name: &str, path: &[&str]) -> Option<Range<usize>> {
    let ["finish", edge, key @ ..] = path else { return None };
    let edges: &[&str] = match *edge {
        "top" => &["top edge"],
        "left_leg" => &["left leg", "legs"],
        "right_leg" => &["right leg", "legs"],
        _ => return None,
    };
    let word = |table: &DeTable<'_>, key: &str| table.get(key).and_then(|v| v.get_ref().as_str().map(str::to_owned));
    let (_, blocks) = root.iter().find(|(head, _)| head.get_ref() == ALTERNATIVE)?;
    let blocks = blocks.get_ref().as_array()?.iter();
    let mut own: Vec<(usize, &Spanned<DeValue<'_>>)> = Vec::new();
    for block in blocks {
        let table = block.get_ref().as_table()?;
        let rank = word(table, "edge").and_then(|edge| edges.iter().position(|known| *known == edge));
        if word(table, "name").as_deref() == Some(name) {
            own.extend(rank.map(|rank| (rank, block)));
        }
    }
    own.sort_by_key(|(rank, _)| *rank);
    let of_key = |key: &[&str]| own.iter().find_map(|(_, block)| follow(block.get_ref().as_table()?, key));
    let head = || own.first().map(|(_, block)| block.span());
    Some(key).filter(|key| !key.is_empty()).and_then(of_key).or_else(|| of_key(&["kind"])).or_else(head)
}

fn follow(table: &DeTable<'_>, path: &[&str]) -> Option<Range<usize>> {
    let (first, rest) = path.split_first()?;
    let (key, value) = table.iter().find(|(key, _)| key.get_ref() == first)?;
    into(value, rest, key.span())
}

fn into(value: &Spanned<DeValue<'_>>, rest: &[&str], key: Range<usize>) -> Option<Range<usize>> {
    match (value.get_ref(), rest) {
        // A section that is only there through its parts has no head of its own.
        (DeValue::Table(_), []) if !value.span().contains(&key.start) => Some(key),
        (_, []) => Some(value.span()),
        (DeValue::Table(table), _) => follow(table, rest),
        (DeValue::Array(array), [number, rest @ ..]) => {
            let index = number.parse::<usize>().ok()?.checked_sub(1)?;
            let entry = array.get(index)?;
            into(entry, rest, entry.span())
        }
        _ => None,
    }
}

/// The parts between dots, quotes taken off.
fn components(key: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut quoted = false;
    for c in key.chars() {
        match c {
            '"' => quoted = !quoted,
            '.' if !quoted => parts.push(String::new()),
            _ => {
                if let Some(part) = parts.last_mut() {
                    part.push(c);
                }
            }
        }
    }
    parts
}
