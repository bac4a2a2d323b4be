//! What is read: a file, or what is piped in.

use export::read::Format;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Stands for standard input on the command line.
const PIPED: &str = "-";

/// Is it what is piped in?
pub(super) fn is_piped(file: &Path) -> bool {
    file == Path::new(PIPED)
}

/// What it is called in messages.
pub(super) fn name(file: &Path) -> PathBuf {
    if is_piped(file) { PathBuf::from("standard input") } else { file.to_owned() }
}

/// What is in it, as it comes.
pub(super) fn open(file: &Path) -> io::Result<Box<dyn Read>> {
    if is_piped(file) { Ok(Box::new(io::stdin())) } else { Ok(Box::new(File::open(file)?)) }
}

/// What a file plainly is, where it is no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Drawn(Format),
    /// Of people or of sizes, as text.
    Table,
    /// Any other, by its name.
    Other(&'static str),
}

impl Kind {
    /// By how it begins: no sheet begins like any of these.
    pub(super) fn of(bytes: &[u8]) -> Option<Self> {
        let head = String::from_utf8_lossy(bytes.get(..LOOKED_AT).unwrap_or(bytes));
        let head = head.trim_start_matches('\u{feff}').trim_start();
        let mut lines = head.lines().map(str::trim);
        let first_two = [lines.next(), lines.next()].map(Option::unwrap_or_default);
        let is_hpgl = HPGL.iter().any(|word| head.starts_with(word));
        match first_two {
            ["0", "SECTION"] | ["999", _] => Some(Self::Drawn(Format::Dxf)),
            _ if head.starts_with('<') && head.contains("<svg") => Some(Self::Drawn(Format::Svg)),
            _ if is_hpgl => Some(Self::Other("HP-GL, for pen plotters")),
            _ if head.starts_with("%PDF-") => Some(Self::Other("a PDF")),
            _ if head.starts_with("<!-- quarterpin") => Some(Self::Other("a work card")),
            _ if head.starts_with('<') => Some(Self::Other("XML")),
            _ if head.starts_with('{') => Some(Self::Other("JSON")),
            [header, _] if is_header(header) => Some(Self::Table),
            _ => None,
        }
    }

    /// In words.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Drawn(Format::Dxf) => "a DXF",
            Self::Drawn(Format::Svg) => "an SVG",
            Self::Table => "a table",
            Self::Other(name) => name,
        }
    }
}

/// The first line of a table: words between commas, semicolons or tabs. A line of a sheet has a key and what it is.
fn is_header(line: &str) -> bool {
    let is_one = |mark: char| line.matches(mark).count() > 1;
    !line.starts_with(['[', '#']) && !line.contains('=') && [',', ';', '\t'].into_iter().any(is_one)
}

/// So much of a file is looked at, bytes.
const LOOKED_AT: usize = 4096;

/// What plots begin with: initialise, defaults, choose a pen, lift it. A key of a sheet has no `;`.
const HPGL: [&str; 6] = ["IN;", "DF;", "SP1;", "SP0;", "PU;", "\u{1b}%-1B"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_known_by_how_it_begins() {
        for (text, kind) in [
            ("  0\nSECTION\n  2\n", Some(Kind::Drawn(Format::Dxf))),
            ("999\r\nmade by hand\r\n", Some(Kind::Drawn(Format::Dxf))),
            ("<?xml version=\"1.0\"?>\n<svg>", Some(Kind::Drawn(Format::Svg))),
            ("\u{feff}<html>", Some(Kind::Other("XML"))),
            ("IN;SP1;", Some(Kind::Other("HP-GL, for pen plotters"))),
            ("[sheet]\nversion = 1\n", None),
            ("IN = 3", None),
            ("name,waist,hips\nAnn,70,96\n", Some(Kind::Table)),
            ("Name;Waist;Hips", Some(Kind::Table)),
            ("# name, waist, hips\nwaist = 3", None),
            ("# a sheet\n", None),
            ("", None),
        ] {
            assert_eq!(Kind::of(text.as_bytes()), kind, "{text:?}");
        }
    }
}
