//! One column: where it is, and what its header means.

use super::error::Unclear;
use super::synonyms::{FIRST_NAME, KEYS, LAST_NAME, NAME, SIZE, UNCLEAR, UNITS};
use crate::sheet::unit_named;
use crate::sheet::words::nearest;
use engine::keys::{Home, Key, Kind, SECTIONS, Shape, head};
use engine::quantity::Units;
use unicode_normalization::UnicodeNormalization;

/// A column of the table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// From 0.
    pub index: usize,
    /// Its header, as written.
    pub header: String,
    /// What it means.
    pub meaning: Meaning,
    /// The unit that the header says.
    pub units: Option<Units>,
}

/// What a column says of a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// Her name, or the part of it that is said first or last.
    Name,
    /// The unit of her row.
    Units,
    /// A value of the sheet.
    Key(Key),
    /// Nothing that is known here.
    Unused,
}

impl Column {
    /// What a header means.
    pub(super) fn of(index: usize, header: &str) -> Self {
        let (words, units) = parted(header);
        let meaning = meaning(header, &words);
        // Only a length has a unit: “thigh (in)” says one, “child (in)” does not.
        let is_length =
            matches!(&meaning, Meaning::Key(key) if matches!(key.row().kind, Kind::Length(..) | Kind::Size(..)));
        Self { index, header: header.to_owned(), meaning, units: units.filter(|_| is_length) }
    }

    /// As spreadsheets count it, with its header: `C (hips)`.
    pub fn shown(&self) -> String {
        let header: String = self.header.chars().filter(|c| !c.is_control()).take(40).collect();
        if header.is_empty() { letters(self.index) } else { format!("{} ({header})", letters(self.index)) }
    }

    /// The same without its header.
    pub fn letters(&self) -> String {
        letters(self.index)
    }

    /// May it say which size a row is?
    pub(super) fn is_of_sizes(&self) -> bool {
        SIZE.contains(&parted(&self.header).0.as_str())
    }

    /// What to write where a header may mean several things, or is nearly something else: what is left out by
    /// mistake would be missed too late.
    pub(super) fn unclear(&self) -> Option<Unclear> {
        self.clearer().map(|next| Unclear { column: self.shown(), next })
    }

    fn clearer(&self) -> Option<String> {
        let (words, _) = parted(&self.header);
        if self.meaning == Meaning::Key(head::DRAWER.into()) {
            return Some("one drawer is for everybody, and the base names it; take the column out".to_owned());
        }
        if self.meaning != Meaning::Unused || words.is_empty() || self.header.starts_with(LEFT_OUT) {
            return None;
        }
        if let Some((_, next)) = UNCLEAR.iter().find(|(known, _)| *known == words) {
            return Some((*next).to_owned());
        }
        let homes = homes_of(&words.replace(' ', "_"));
        if homes.len() > 1 {
            return Some(format!("several sections have such a key; write the one you mean: {}", homes.join(", ")));
        }
        if self.header.contains('.') && Key::named(&self.header).is_none() && looks_dotted(&self.header) {
            return Some("there is no such key; `quarterpin new` writes a sheet with every key".to_owned());
        }
        let near = nearest(&words, measures())?;
        Some(format!("did you mean “{near}”? Write that; or start the header with “-” to leave the column out"))
    }
}

/// A header that starts so is left out.
const LEFT_OUT: char = '-';

/// A header as it is compared, and the unit that it says: `Waist (cm)`, `waist_girth [in]`, `hips cm`.
fn parted(header: &str) -> (String, Option<Units>) {
    let plain: String = header.nfc().collect::<String>().to_lowercase().replace(['_', '-', '/', ':', '*'], " ");
    let (words, unit) = match plain.split_once(['(', '[']) {
        Some((before, inside)) => (before, unit_named(inside.trim_end_matches([')', ']', '.']).trim())),
        None => match plain.trim_end().rsplit_once([' ', ',']) {
            Some((before, last)) if unit_named(last).is_some() => (before, unit_named(last)),
            _ => (plain.as_str(), None),
        },
    };
    let words: Vec<&str> = words.split_whitespace().collect();
    (words.join(" ").trim_end_matches(['.', ',']).to_owned(), unit)
}

fn meaning(header: &str, words: &str) -> Meaning {
    let is_one_of = |list: &[&str]| list.contains(&words);
    if header.starts_with(LEFT_OUT) || words.is_empty() {
        return Meaning::Unused;
    }
    if [NAME, FIRST_NAME, LAST_NAME].into_iter().any(is_one_of) {
        return Meaning::Name;
    }
    if is_one_of(UNITS) {
        return Meaning::Units;
    }
    let dotted = || Key::named(header.trim());
    // The very name of a key says more than its words.
    let exact = || one_home(header.trim());
    let known = || KEYS.iter().find(|(_, synonyms)| synonyms.contains(&words)).and_then(|(key, _)| Key::named(key));
    let spaced =
        || if UNCLEAR.iter().any(|(word, _)| *word == words) { None } else { one_home(&words.replace(' ', "_")) };
    match dotted().or_else(exact).or_else(known).or_else(spaced) {
        Some(key) if key == Key::from(head::NAME) => Meaning::Name,
        Some(key) if key == Key::from(head::UNITS) => Meaning::Units,
        Some(key) if key == Key::from(head::VERSION) => Meaning::Unused,
        Some(key) => Meaning::Key(key),
        None => Meaning::Unused,
    }
}

/// The dotted keys of exactly this name, in sections that are there once.
fn homes_of(name: &str) -> Vec<String> {
    let sections = SECTIONS.iter().filter(|s| s.shape == Shape::One && s.row(name).is_some());
    sections.map(|s| format!("{}.{name}", s.path)).collect()
}

fn one_home(name: &str) -> Option<Key> {
    match homes_of(name).as_slice() {
        [one] => Key::named(one),
        _ => None,
    }
}

/// Words for what is measured, to find what a misspelt one stands for.
fn measures() -> impl Iterator<Item = &'static str> {
    let of_body = |key: &Key| matches!(key.home(), Home::Single(engine::keys::Single::Body));
    let known = KEYS.iter().filter(move |(key, _)| Key::named(key).is_some_and(|key| of_body(&key)));
    known.flat_map(|(_, words)| *words).copied()
}

/// A key with its section before it, misspelt, and not a sentence.
fn looks_dotted(header: &str) -> bool {
    let first = header.split('.').next().unwrap_or("");
    SECTIONS.iter().any(|s| s.path.split('.').next() == Some(first))
}

/// A, B, … Z, AA, AB, …
fn letters(index: usize) -> String {
    let mut rest = index;
    let mut out = Vec::new();
    loop {
        out.push(char::from(b'A' + u8::try_from(rest % 26).unwrap_or(0)));
        match rest / 26 {
            0 => break,
            more => rest = more - 1,
        }
    }
    out.iter().rev().collect()
}

/// Names in two parts are said with the given name first, wherever its column stands.
pub(super) fn name_rank(header: &str) -> usize {
    let (words, _) = parted(header);
    [FIRST_NAME, NAME, LAST_NAME].iter().position(|list| list.contains(&words.as_str())).unwrap_or(1)
}
