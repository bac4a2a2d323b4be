//! Finds a key in the text of a sheet, so that what the engine says can be pointed at.

use engine::sheet::alternative_of;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Where the value of a dotted key stands in the text, such as `gusset.front_width`,
/// `elastic."soft 8".width` or `trial.2.edge` (the second one). For a section, its head.
///
/// A key of one leg that is written for both is found where it is written. `None` where the sheet
/// does not have the key, or is no sheet.
///
/// The name of an opening (`left leg`) stands for its finish.
///
/// A place in an alternative is looked for in its blocks first; where none has the key, the first
/// block for that edge.
pub fn locate(source: &str, key: &str) -> Option<Range<usize>> {
    let tree = DeTable::parse(source).ok()?;
    if let Some((name, place)) = alternative_of(key) {
        return in_alternative(tree.get_ref(), name, place).or_else(|| locate(source, place));
    }
    let path = components(key);
    let path: Vec<&str> = path.iter().map(String::as_str).collect();
    let path = match path.as_slice() {
        ["top edge"] => vec!["finish", "top"],
        ["left leg"] => vec!["finish", "left_leg"],
        ["right leg"] => vec!["finish", "right_leg"],
        _ => path,
    };
    if let Some(found) = follow(tree.get_ref(), &path) {
        return Some(found);
    }
    match path.as_slice() {
        ["finish", "left_leg" | "right_leg", rest @ ..] => {
            let shared: Vec<&str> = ["finish", "legs"].iter().chain(rest).copied().collect();
            follow(tree.get_ref(), &shared)
        }
        _ => None,
    }
}

/// In the blocks of an alternative for the edge that a place names.
fn in_alternative(root: &DeTable<'_>, name: &str, place: &str) -> Option<Range<usize>> {
    let (edge, key) = match components(place).as_slice() {
        [edge] => (edge.clone(), None),
        [_, edge, key, ..] => (edge.clone(), Some(key.clone())),
        [_, edge] => (edge.clone(), None),
        [] => return None,
    };
    let edges: &[&str] = match edge.as_str() {
        "top" | "top edge" => &["top edge"],
        "left_leg" | "left leg" => &["left leg", "legs"],
        "right_leg" | "right leg" => &["right leg", "legs"],
        "legs" => &["legs", "left leg", "right leg"],
        _ => return None,
    };
    let word = |table: &DeTable<'_>, key: &str| table.get(key).and_then(|v| v.get_ref().as_str().map(str::to_owned));
    let (_, blocks) = root.iter().find(|(head, _)| head.get_ref() == "alternative")?;
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
    let of_key = |key: &String| own.iter().find_map(|(_, block)| follow(block.get_ref().as_table()?, &[key]));
    let of_kind = || own.iter().find_map(|(_, block)| follow(block.get_ref().as_table()?, &["kind"]));
    let head = || own.first().map(|(_, block)| block.span());
    key.as_ref().and_then(of_key).or_else(of_kind).or_else(head)
}

/// The same, or else the head of the section that the key would be written in.
pub fn locate_or_section(source: &str, key: &str) -> Option<Range<usize>> {
    let section = || key.rsplit_once('.').and_then(|(section, _)| locate(source, section));
    locate(source, key).or_else(section)
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
