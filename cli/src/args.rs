//! What a person may type, and what it means.

mod cutter;
mod paper;

pub use cutter::{CutterFiles, Plotter};
pub use paper::PaperUse;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand};
use engine::quantity::Units;
use std::path::PathBuf;

const EXIT_CODES: &str = "\
Exit codes:
  0  done; there may be notes and warnings
  1  the sheet was understood, but the garment is refused; no file is written
  2  the input cannot be read, or the command was used wrongly

Start with `quarterpin new my-sheet.toml`, fill in the measurements, then
`quarterpin draft my-sheet.toml -o my-pattern`.";

/// The command line as typed.
#[derive(Debug, Parser)]
#[command(name = "quarterpin", version, about = "Knickers to measure: from a measurement sheet to a pattern that fits")]
#[command(after_help = EXIT_CODES, max_term_width = 100)]
pub struct Typed {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Draft the garment and write the pattern: print, cutter files, picture and record
    Draft(DraftArgs),
    /// Walk the seams: every seam, crossing and opening, measured; also on a DXF or SVG
    Walk(WalkArgs),
    /// List the order of work alone: every step in full
    Work(WorkArgs),
    /// Check whether a DXF is laid out after ASTM D6673
    Inspect(ReadingArgs),
    /// Run the checks alone, and write nothing
    Check(SheetArgs),
    /// List the edge finishes: what each takes, which keys it has, how it lies cut across
    Finishes(FinishesArgs),
    /// Write a commented sheet to fill in; an existing file is never overwritten
    New(NewArgs),
    /// Print the JSON Schema of a sheet (draft 2020-12), for editors and programs
    Schema,
}

#[derive(Debug, Args)]
struct ReadingArgs {
    /// The measurement sheet (TOML); for `walk` also a DXF or SVG, for `inspect` a DXF
    sheet: PathBuf,
    /// Take a warning for a refusal: exit 1, and write no file
    #[arg(long)]
    strict: bool,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct SheetArgs {
    #[command(flatten)]
    reading: ReadingArgs,
    /// Take this alternative of the sheet in place of its own finishes
    #[arg(long, value_name = "NAME")]
    alternative: Option<String>,
}

#[derive(Debug, Args)]
struct DraftArgs {
    #[command(flatten)]
    reading: SheetArgs,
    /// The folder for the files; it is made if it is not there
    #[arg(short, long, value_name = "DIR")]
    out: PathBuf,
    /// Replace files that this program did not write
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    paper: paper::PaperArgs,
    #[command(flatten)]
    cutter: cutter::CutterArgs,
}

#[derive(Debug, Args)]
struct WalkArgs {
    #[command(flatten)]
    reading: SheetArgs,
    /// List the lengths between notches along each edge as well
    #[arg(long)]
    marks: bool,
}

#[derive(Debug, Args)]
struct WorkArgs {
    #[command(flatten)]
    reading: SheetArgs,
    /// Say of each step which steps it waits for, and why
    #[arg(long)]
    why: bool,
}

#[derive(Debug, Args)]
struct FinishesArgs {
    /// Draw every finish cut across into this file (SVG)
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct NewArgs {
    /// The file to write
    file: PathBuf,
    /// The unit of every length in it
    #[arg(long, default_value = "cm", value_parser = units())]
    units: Units,
}

fn units() -> impl TypedValueParser<Value = Units> {
    PossibleValuesParser::new(Units::ALL.map(|(word, _)| word)).map(|typed| named(&Units::ALL, &typed, Units::Cm))
}

/// The value of a word that has already been found to be one of the table; `first` is never used.
fn named<T: Copy>(table: &[(&str, T)], word: &str, first: T) -> T {
    table.iter().find(|(name, _)| name.eq_ignore_ascii_case(word)).map_or(first, |(_, value)| *value)
}

/// What is to be done.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum Request {
    Draft { reading: Reading, into: PathBuf, replace: Replace, paper: PaperUse, cutter: CutterFiles },
    Walk { reading: Reading, marks: MarkLists },
    Work { reading: Reading, reasons: Reasons },
    Check { reading: Reading },
    Finishes { picture: Option<PathBuf>, answer: AnswerAs },
    Inspect { reading: Reading },
    New { file: PathBuf, units: Units },
    Schema,
}

/// Which sheet, and how to answer.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct Reading {
    pub sheet: PathBuf,
    pub answer: AnswerAs,
    pub warnings: Warnings,
    /// The name of the alternative that is taken.
    pub alternative: Option<String>,
}

/// The shape of the answer on standard output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum AnswerAs {
    Text,
    Json,
}

/// Does a warning stop the work?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Warnings {
    Allowed,
    Refused,
}

/// Which existing files may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Only those that this program wrote.
    OwnOnly,
    /// Any file.
    Any,
}

/// Are the lengths between notches listed?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum MarkLists {
    Left,
    Shown,
}

/// Are the needs of each step told with their reasons?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Reasons {
    Left,
    Shown,
}

impl Typed {
    /// What was meant.
    pub fn meaning(self) -> Request {
        match self.command {
            Command::Draft(DraftArgs { reading, out, force, paper, cutter }) => Request::Draft {
                reading: reading.meaning(),
                into: out,
                replace: if force { Replace::Any } else { Replace::OwnOnly },
                paper: paper.meaning(),
                cutter: cutter.meaning(),
            },
            Command::Walk(WalkArgs { reading, marks }) => Request::Walk {
                reading: reading.meaning(),
                marks: if marks { MarkLists::Shown } else { MarkLists::Left },
            },
            Command::Work(WorkArgs { reading, why }) => {
                Request::Work { reading: reading.meaning(), reasons: if why { Reasons::Shown } else { Reasons::Left } }
            }
            Command::Inspect(reading) => Request::Inspect { reading: reading.meaning() },
            Command::Check(reading) => Request::Check { reading: reading.meaning() },
            Command::Finishes(FinishesArgs { picture, json }) => {
                Request::Finishes { picture, answer: if json { AnswerAs::Json } else { AnswerAs::Text } }
            }
            Command::New(NewArgs { file, units }) => Request::New { file, units },
            Command::Schema => Request::Schema,
        }
    }
}

impl ReadingArgs {
    fn meaning(self) -> Reading {
        Reading {
            sheet: self.sheet,
            answer: if self.json { AnswerAs::Json } else { AnswerAs::Text },
            warnings: if self.strict { Warnings::Refused } else { Warnings::Allowed },
            alternative: None,
        }
    }
}

impl SheetArgs {
    fn meaning(self) -> Reading {
        Reading { alternative: self.alternative, ..self.reading.meaning() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;
    use engine::sheet::Paper;

    #[test]
    fn the_command_line_is_consistent() {
        Typed::command().debug_assert();
    }

    #[test]
    fn typed_words_become_choices() {
        let typed =
            Typed::try_parse_from(["quarterpin", "draft", "a.toml", "-o", "out", "--paper", "letter", "--force"]);
        let Request::Draft { reading, into, replace, paper, cutter } = typed.unwrap().meaning() else {
            panic!("not a draft");
        };
        assert_eq!(reading.sheet, PathBuf::from("a.toml"));
        assert_eq!((reading.answer, reading.warnings), (AnswerAs::Text, Warnings::Allowed));
        assert_eq!(into, PathBuf::from("out"));
        assert_eq!((replace, paper.paper), (Replace::Any, Some(Paper::Letter)));
        assert_eq!(cutter, CutterFiles::default());
    }

    #[test]
    fn every_named_paper_and_unit_can_be_typed() {
        for (word, value) in Paper::NAMED {
            let typed = Typed::try_parse_from(["quarterpin", "draft", "a", "-o", "b", "--paper", word]).unwrap();
            assert!(matches!(typed.meaning(), Request::Draft { paper, .. } if paper.paper == Some(value)));
        }
        for (word, value) in Units::ALL {
            let typed = Typed::try_parse_from(["quarterpin", "new", "a", "--units", word]).unwrap();
            assert!(matches!(typed.meaning(), Request::New { units, .. } if units == value));
        }
    }
}
