//! A value of the sheet as it is typed into a field: written where it stands, or where it is shown
//! behind `#`, else at the end of its section; taken out, its line is put behind `#`.

use super::{BOM, Endings, opened, put as put_value};
use crate::sheet::base::FOR_ALL;
use crate::sheet::cell;
use engine::keys::{Kind, Row, Section, Single};
use engine::quantity::Units;
use toml_edit::{ArrayOfTables, DocumentMut, InlineTable, Item, Key as Name, Table, TableLike, Value};

/// Where a value stands: the names on the way to it, and what it takes.
#[derive(Clone, Debug)]
pub struct Place {
    /// In order; a number where a list is on the way, counted from 1.
    path: Vec<String>,
    /// None for a whole section.
    row: Option<&'static Row>,
}

impl Place {
    /// The place of a dotted name, such as `body.waist_girth`, `elastic."soft 8".width`,
    /// `finish.legs.sections.back`, `variant.2.body.hip_girth`, `trial.3`.
    pub fn named(dotted: &str) -> Option<Self> {
        let path: Vec<String> = Name::parse(dotted).ok()?.into_iter().map(|name| name.get().to_owned()).collect();
        let names: Vec<&str> = path.iter().map(String::as_str).collect();
        let row = match names.as_slice() {
            ["variant", n, rest @ ..] if n.parse::<usize>().is_ok() => within(rest, "variant")?,
            ["trial" | "alternative", n] if n.parse::<usize>().is_ok() => None,
            [list @ ("trial" | "alternative"), n, name] if n.parse::<usize>().is_ok() => Some(row(list, name)?),
            ["elastic", _] => None,
            ["elastic", _, name] => Some(row("elastic", name)?),
            rest => within(rest, "")?,
        };
        Some(Self { path, row })
    }

    /// What it takes; none of a whole section.
    pub const fn row(&self) -> Option<&'static Row> {
        self.row
    }

    /// Another key of the same section.
    pub fn beside(&self, name: &str) -> Option<Self> {
        let mut path = self.path.clone();
        *path.last_mut()? = name.to_owned();
        let dotted: Vec<String> = path.iter().map(|name| Name::new(name).to_string()).collect();
        Self::named(&dotted.join("."))
    }
}

/// The row of a name within the sheet, or within a list whose own keys are known; none for a section.
#[allow(clippy::option_option, reason = "not a name at all, a section, or a key")]
fn within(names: &[&str], list: &str) -> Option<Option<&'static Row>> {
    match names {
        [] => (!list.is_empty()).then_some(None),
        [name] if !list.is_empty() => Some(Some(row(list, name)?)),
        ["finish", edge] => Section::at(&format!("finish.{edge}")).map(|_| None),
        ["finish", edge, name] => Some(Some(row(&format!("finish.{edge}"), name)?)),
        ["finish", edge, "sections", "front" | "gusset" | "back"] => {
            Section::at(&format!("finish.{edge}"))?;
            Some(Some(&PART))
        }
        [section, name] => Some(Some(row(section, name)?)),
        _ => None,
    }
}

fn row(section: &str, name: &str) -> Option<&'static Row> {
    Section::at(section)?.row(name)
}

/// The reduction of one section of an edge.
static PART: Row = {
    let (least, most) = engine::keys::finish::REDUCTIONS;
    Row { kind: Kind::Percent(least, most), ..*engine::keys::finish::SECTIONS.row() }
};

/// What is typed into a field.
#[derive(Clone, Debug)]
pub struct Typed {
    /// Which.
    pub place: Place,
    /// As typed; none takes it out.
    pub cell: Option<String>,
}

/// The text with one field otherwise; none where it is no TOML, or not written so that the field can be
/// found.
pub fn typed(source: &str, typed: &Typed, units: Units) -> Option<String> {
    let (mark, text) = source.strip_prefix(BOM).map_or(("", source), |rest| (BOM, rest));
    let endings = Endings::of(text);
    let plain = endings.unified();
    let doc: DocumentMut = plain.parse().ok()?;
    let Place { path, row } = &typed.place;
    let names: Vec<&str> = path.iter().map(String::as_str).collect();
    let new = match (row, &typed.cell) {
        (Some(row), Some(cell)) => put(&plain, doc, &names, &cell::as_toml(row, cell, units))?,
        (Some(_), None) => taken_out(&plain, doc, &names),
        (None, None) => without_section(doc, &names)?,
        (None, Some(_)) => return None,
    };
    Some(format!("{mark}{}", endings.restored(&new)))
}

/// The text without the person it is of: of `[body]` stays what holds for everybody, shown behind `#` or
/// not, and no trial. None where it is no TOML.
pub fn without_person(source: &str) -> Option<String> {
    let (mark, text) = source.strip_prefix(BOM).map_or(("", source), |rest| (BOM, rest));
    let endings = Endings::of(text);
    let section = [Single::Body.path()];
    let rows: Vec<&str> = Section::at(section[0])?.rows().map(|row| row.name).collect();
    let hers: Vec<&str> = rows.into_iter().filter(|name| !FOR_ALL.contains(name)).collect();
    let mut doc: DocumentMut = without_shown(&endings.unified(), &section, &hers).parse().ok()?;
    if let Some(body) = doc.get_mut(section[0]).and_then(Item::as_table_like_mut) {
        hers.iter().for_each(|name| drop(body.remove(name)));
    }
    doc.remove("trial");
    Some(format!("{mark}{}", endings.restored(&doc.to_string())))
}

/// The text without lines of a section that show these keys behind `#`.
fn without_shown(text: &str, section: &[&str], names: &[&str]) -> String {
    let mut is_inside = false;
    let stays = |line: &&str| {
        if is_head(line) {
            is_inside = heads(line, section);
        }
        !is_inside || names.iter().all(|name| shown(line, name).is_none())
    };
    text.split_inclusive('\n').filter(stays).collect()
}

/// The item at a path.
fn item<'d>(doc: &'d DocumentMut, names: &[&str]) -> Option<&'d Item> {
    names.iter().try_fold(doc.as_item(), |item, name| match name.parse::<usize>() {
        Ok(n) if item.is_array_of_tables() || item.is_array() => item.get(n.checked_sub(1)?),
        _ => item.as_table_like()?.get(name),
    })
}

/// The table at a path, made where it is not there.
fn table_at<'d>(doc: &'d mut DocumentMut, names: &[&str]) -> Option<&'d mut dyn TableLike> {
    let root = doc.as_table_mut() as &mut dyn TableLike;
    match names {
        [list @ ("variant" | "trial" | "alternative"), n, rest @ ..] => {
            let n = n.parse::<usize>().ok()?.checked_sub(1)?;
            let list = root.entry(list).or_insert_with(|| Item::ArrayOfTables(ArrayOfTables::new()));
            if let Some(blocks) = list.as_array_of_tables_mut().filter(|blocks| blocks.len() == n) {
                let mut block = Table::new();
                block.set_position(Some(isize::MAX));
                blocks.push(block);
            }
            dotted(list.get_mut(n)?.as_table_like_mut()?, rest)
        }
        _ => opened(root, names).map(|(table, _)| table),
    }
}

/// The table at a path inside a block, whose keys are dotted.
fn dotted<'t>(block: &'t mut dyn TableLike, names: &[&str]) -> Option<&'t mut dyn TableLike> {
    names.iter().try_fold(block, |table, name| {
        let new = || {
            let mut inner = Table::new();
            inner.set_dotted(true);
            Item::Table(inner)
        };
        table.entry(name).or_insert_with(new).as_table_like_mut()
    })
}

fn put(text: &str, mut doc: DocumentMut, names: &[&str], value: &Value) -> Option<String> {
    let (name, section) = names.split_last()?;
    if item(&doc, names).is_none()
        && let Some(shown) = uncommented(text, section, name, value)
    {
        return Some(shown);
    }
    match section {
        // Parts of an edge stand together in braces.
        [home @ .., parts] if *parts == PART.name && item(&doc, section).is_none() => {
            let one = InlineTable::from_iter([(*name, value.clone())]);
            put_value(table_at(&mut doc, home)?, parts, Value::InlineTable(one));
        }
        _ => put_value(table_at(&mut doc, section)?, name, value.clone()),
    }
    Some(doc.to_string())
}

/// The text with a line that stands behind `#` in its section taken for the key: so is how a sheet that
/// `new` wrote is filled in.
fn uncommented(text: &str, section: &[&str], name: &str, value: &Value) -> Option<String> {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let begin = lines.iter().position(|line| heads(line, section))? + 1;
    let more = lines.get(begin..)?;
    let end = more.iter().position(|line| is_head(line.trim_start_matches('#'))).unwrap_or(more.len());
    let at = begin + more.get(..end)?.iter().position(|line| shown(line, name).is_some())?;
    let rest = shown(lines.get(at)?, name)?;
    let new = format!("{name} = {}{rest}", value.to_string().trim());
    let all: String = lines.iter().enumerate().map(|(i, line)| if i == at { new.as_str() } else { line }).collect();
    // What stands in a text of many lines only looks like it.
    let doc: DocumentMut = all.parse().ok()?;
    let path: Vec<&str> = section.iter().copied().chain([name]).collect();
    let read = item(&doc, &path)?.as_value()?.clone().decorated("", "");
    (read.to_string() == value.to_string().trim()).then_some(all)
}

/// What stands behind the value of a key that is shown behind `#`: its note, and the line's end.
fn shown<'l>(line: &'l str, name: &str) -> Option<&'l str> {
    let rest = line.strip_prefix('#')?.trim_start().strip_prefix(name)?.trim_start();
    let value = rest.strip_prefix('=')?;
    let ends = value.find('#').map_or_else(|| value.trim_end().len(), |note| value[..note].trim_end().len());
    Some(&value[ends..])
}

fn is_head(line: &str) -> bool {
    let line = line.trim();
    let inside = line.strip_prefix('[').and_then(|rest| rest.split(']').next());
    inside.is_some_and(|inside| Name::parse(inside.trim_start_matches('[')).is_ok())
}

/// Is the line the head of this section?
fn heads(line: &str, section: &[&str]) -> bool {
    let Some(inside) = line.trim().strip_prefix('[').and_then(|rest| rest.rsplit_once(']')).map(|(inside, _)| inside)
    else {
        return false;
    };
    Name::parse(inside).is_ok_and(|names| names.iter().map(Name::get).eq(section.iter().copied()))
}

/// The text without a key: its line stays to be seen behind `#` where it has one to itself.
fn taken_out(text: &str, mut doc: DocumentMut, names: &[&str]) -> String {
    if item(&doc, names).is_none() {
        return text.to_owned();
    }
    if let Some(hidden) = hidden(text, &doc, names) {
        return hidden;
    }
    if let Some((name, section)) = names.split_last()
        && let Some(table) = table_at(&mut doc, section)
    {
        table.remove(name);
    }
    doc.to_string()
}

fn hidden(text: &str, doc: &DocumentMut, names: &[&str]) -> Option<String> {
    let (name, section) = names.split_last()?;
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let begin = lines.iter().position(|line| heads(line, section))? + 1;
    let written = item(doc, names)?.as_value()?.to_string();
    let is_it = |line: &&str| {
        let rest = line.trim_start().strip_prefix(name).map(str::trim_start);
        rest.and_then(|rest| rest.strip_prefix('=')).is_some_and(|value| value.trim() == written.trim())
    };
    let at = begin + lines.get(begin..)?.iter().position(is_it)?;
    let new: String = lines
        .iter()
        .enumerate()
        .map(|(i, line)| if i == at { format!("#{line}") } else { (*line).to_owned() })
        .collect();
    let read: DocumentMut = new.parse().ok()?;
    item(&read, names).is_none().then_some(new)
}

fn without_section(mut doc: DocumentMut, names: &[&str]) -> Option<String> {
    match names {
        [list @ ("variant" | "trial" | "alternative"), n] => {
            let n = n.parse::<usize>().ok()?.checked_sub(1)?;
            match doc.get_mut(list)? {
                Item::ArrayOfTables(all) if n < all.len() => drop(all.remove(n)),
                Item::Value(Value::Array(all)) if n < all.len() => drop(all.remove(n)),
                _ => return None,
            }
            if doc.get(list).is_some_and(|all| all.as_array_of_tables().is_some_and(ArrayOfTables::is_empty)) {
                doc.remove(list);
            }
        }
        [names @ .., last] => drop(table_at(&mut doc, names)?.remove(last)),
        [] => return None,
    }
    Some(doc.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHEET: &str = "# mine\n[sheet]\nunits = \"cm\" # always\n\n[style]\n#top_drop_front = 6     # cm; default\nbase = \"brief\"\n\
                         # on purpose\nside_seam = 7 # good\n\n[elastic.\"soft 8\"]\nwidth = 0.8\n\n[[variant]]\nname = \"two\"\nbody.hip_girth = 99\n";

    fn after(changes: &[(&str, Option<&str>)]) -> String {
        changes.iter().fold(SHEET.to_owned(), |text, (name, cell)| {
            let place = Place::named(name).unwrap_or_else(|| panic!("{name}"));
            typed(&text, &Typed { place, cell: cell.map(str::to_owned) }, Units::Cm).unwrap()
        })
    }

    fn line_changed(name: &str, cell: Option<&str>) -> String {
        let new = after(&[(name, cell)]);
        let more: Vec<&str> = new.lines().filter(|line| !SHEET.lines().any(|old| old == *line)).collect();
        more.join("|")
    }

    #[test]
    fn a_value_is_written_where_it_stands_and_comments_stay() {
        assert_eq!(line_changed("style.side_seam", Some("6,5")), "side_seam = 6.5 # good");
        assert_eq!(line_changed("style.side_seam", Some("65 mm")), "side_seam = 6.5 # good");
        assert_eq!(line_changed("style.top_drop_front", Some("5")), "top_drop_front = 5     # cm; default");
        assert_eq!(line_changed("style.base", Some("Hipster")), "base = \"hipster\"");
        assert_eq!(line_changed("elastic.\"soft 8\".latex", Some("no")), "latex = false");
        assert_eq!(line_changed("finish.top.sections.back", Some("10 %")), "[finish.top]|sections = { back = 10 }");
        assert_eq!(line_changed("variant.1.body.hip_girth", Some("101")), "body.hip_girth = 101");
        assert_eq!(line_changed("variant.1.style.base", Some("tanga")), "style.base = \"tanga\"");
        let second = after(&[("variant.2.name", Some("three")), ("variant.2.finish.legs.kind", Some("hem"))]);
        assert!(second.ends_with("\n[[variant]]\nname = \"three\"\nfinish.legs.kind = \"hem\"\n"), "{second}");
    }

    #[test]
    fn what_cannot_be_read_is_written_to_be_told() {
        assert_eq!(line_changed("style.side_seam", Some("seven")), "side_seam = \"seven\" # good");
    }

    #[test]
    fn a_value_that_is_taken_out_and_set_again_leaves_no_trace() {
        let gone = after(&[("style.side_seam", None)]);
        assert!(gone.contains("# on purpose\n#side_seam = 7 # good\n"), "{gone}");
        assert_eq!(after(&[("style.side_seam", None), ("style.side_seam", Some("7"))]), SHEET);
        assert_eq!(after(&[("style.back_cover", None)]), SHEET, "what is not there is not taken out");
    }

    #[test]
    fn sections_go_whole() {
        assert!(!after(&[("elastic.\"soft 8\"", None)]).contains("0.8"));
        assert!(!after(&[("variant.1", None)]).contains("variant"));
    }

    #[test]
    fn only_what_a_sheet_knows_has_a_place() {
        for name in ["style", "style.hem", "body", "variant", "variant.1.nothing", "x.y", "", "finish.top.sections.hem"]
        {
            assert!(Place::named(name).is_none(), "{name}");
        }
    }
}
