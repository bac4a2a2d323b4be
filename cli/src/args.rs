//! What a person may type, and what it means.

mod card;
mod class;
mod compare;
mod cutter;
mod files;
mod form;
mod lay;
mod paper;
mod request;
mod sizes;
mod trial;
mod words;

pub use files::FileChoices;
pub(crate) use files::{ChoiceHelp, choice_helps};
pub use paper::PaperUse;
pub use request::{
    AnswerAs, Apply, Browser, Call, ClassRequest, CompareRequest, Judgements, MarkLists, Questions, Reading, Reasons,
    Redo, Request, SizesRequest, Voice, Warnings,
};
pub(crate) use trial::judged;

use crate::output::Replace;
use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand};
use clap_complete::Shell;
use engine::quantity::Units;
use export::choice::Choice;
use export::table::{EXPORTERS, Exporter, Written};
use std::ffi::OsString;
use std::path::PathBuf;
use words::{folder, words};

const EXIT_CODES: &str = "\
Exit codes:
  0  done; there may be notes and warnings
  1  the sheet was understood, but the garment is refused; no file is written
  2  the input cannot be read, or the command was used wrongly

Start with `quarterpin new my-sheet.toml`, fill in the measurements, then
`quarterpin draft my-sheet.toml -o my-pattern`.";

/// With the licences that go with the program.
const LONG_VERSION: &str = concat!(
    env!("CARGO_PKG_VERSION"),
    "\n",
    env!("CARGO_PKG_LICENSE"),
    "; the face in every print is DejaVu Sans.\nAll licences: quarterpin licences"
);

/// The command line as typed.
#[derive(Debug, Parser)]
#[command(name = "quarterpin", version, long_version = LONG_VERSION, about = "Knickers to measure: from a measurement sheet to a pattern that fits")]
#[command(after_help = EXIT_CODES, max_term_width = 120)]
pub struct Typed {
    #[command(subcommand)]
    command: Command,
    /// Say nothing where all goes well; warnings are not told, refusals and errors are
    #[arg(short, long, global = true)]
    quiet: bool,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Draft the garment and write the pattern: print, cutter files, picture and record
    #[command(after_help = files_help())]
    Draft(DraftArgs),
    /// Walk the seams: every seam, crossing and opening, measured; also on a DXF or SVG
    Walk(WalkArgs),
    /// List the order of work alone: every step in full
    Work(WorkArgs),
    /// Check whether a DXF is laid out after ASTM D6673
    Inspect(InspectArgs),
    /// Run the checks alone, and write nothing
    Check(SheetArgs),
    /// Draft for everybody in a table of people: a folder each, a list, and what to buy
    Class(Box<class::ClassArgs>),
    /// Draft one style over a table of sizes: nested in one print, a table of lengths, a folder each
    Sizes(Box<sizes::SizesArgs>),
    /// List the edge finishes: what each takes, which keys it has, how it lies cut across
    Finishes(FinishesArgs),
    /// Write a sheet to fill in, or on a terminal by questions; an existing file is never overwritten
    New(NewArgs),
    /// Open a sheet in a browser, to fill in, see, pull, print; served to this machine alone
    Open(OpenArgs),
    /// Say what a code of a check or a term means, how it is computed, what to do
    Explain(ExplainArgs),
    /// Set two sheets, or a sheet and one of its variants, side by side
    Compare(compare::CompareArgs),
    /// Write a form to measure by, to be printed: a figure, boxes, both tests, and a table for a class
    Form(form::FormArgs),
    /// Record how a test garment felt, and say what to sew next
    Trial(trial::TrialArgs),
    /// Print the JSON Schema of a sheet (draft 2020-12), for editors and programs
    Schema,
    /// Print what makes a shell complete the words of this program
    Completions(CompletionsArgs),
    /// Write the manual pages, one for each command
    Man(ManArgs),
    /// Print the licences of the program and of the face that it prints with
    Licences,
}

#[derive(Debug, Args)]
struct AnswerArgs {
    /// Take a warning for a refusal, with exit code 1
    #[arg(long)]
    strict: bool,
    /// Answer in JSON on standard output, whatever the exit code
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct InspectArgs {
    /// The DXF; - reads it from standard input
    #[arg(value_name = "DXF")]
    file: PathBuf,
    #[command(flatten)]
    answer: AnswerArgs,
}

#[derive(Debug, Args)]
struct SheetArgs {
    /// The measurement sheet (TOML); - reads it from standard input
    sheet: PathBuf,
    #[command(flatten)]
    answer: AnswerArgs,
    #[command(flatten)]
    of: VariantArgs,
}

#[derive(Debug, Args)]
struct VariantArgs {
    /// Take this variant of the sheet in place of the sheet itself
    #[arg(long, value_name = "NAME", visible_alias = "alternative")]
    variant: Option<String>,
}

#[derive(Debug, Args)]
struct DraftArgs {
    #[command(flatten)]
    reading: SheetArgs,
    /// The folder for the files; it is made if it is not there
    #[arg(short, long, value_name = "DIR", value_parser = folder())]
    out: PathBuf,
    /// Replace files that this program did not write
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    files: files::FileArgs,
}

#[derive(Debug, Args)]
struct WalkArgs {
    /// The measurement sheet (TOML), - for one from standard input; or a DXF or SVG of this program,
    /// edited or not
    #[arg(value_name = "SHEET|DXF|SVG")]
    file: PathBuf,
    #[command(flatten)]
    answer: AnswerArgs,
    #[command(flatten)]
    of: VariantArgs,
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
    /// The unit of every length in it; else cm, or asked for
    #[arg(long, value_parser = words(&Units::ALL))]
    units: Option<Units>,
    /// Write the long sheet, in which every line is explained, and ask nothing
    #[arg(long)]
    all: bool,
}

#[derive(Debug, Args)]
struct OpenArgs {
    /// The measurement sheet (TOML), or a folder of sheets; without it, the folder one is in
    sheet: Option<PathBuf>,
    /// The port of the address; else any that is free
    #[arg(long, value_name = "N")]
    port: Option<u16>,
    /// Say the address only
    #[arg(long)]
    no_browser: bool,
}

#[derive(Debug, Args)]
struct ExplainArgs {
    /// A code such as worn.tight, a term such as reduction, or a finish; without it, all are listed
    code: Option<String>,
    /// Draw what it is about into this file (SVG), where a picture helps
    #[arg(long, value_name = "FILE", requires = "code")]
    picture: Option<PathBuf>,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct CompletionsArgs {
    /// Which shell
    shell: Shell,
}

#[derive(Debug, Args)]
struct ManArgs {
    /// The folder for the pages; it is made if it is not there
    #[arg(short, long, value_name = "DIR")]
    out: PathBuf,
    /// Replace files that this program did not write
    #[arg(long)]
    force: bool,
}

/// The files that come out, each with the flags that it follows.
fn files_help() -> String {
    let one = |exporter: &Exporter| {
        let asked = match exporter.written {
            Written::Always => String::new(),
            Written::With(choice) => format!(", with --{}", choice.name()),
        };
        let flags: Vec<String> = exporter.follows().map(|f| format!("--{}", f.choice.name())).collect();
        let followed = if flags.is_empty() { String::new() } else { format!("    {}\n", flags.join(" ")) };
        format!("  {}: {}{asked}\n{followed}", exporter.file("NAME"), exporter.purpose)
    };
    let files: String = EXPORTERS.iter().map(one).collect();
    format!("Files, and the flags that each follows; a flag that no file follows is refused:\n{files}")
}

impl Typed {
    /// What was meant by the words of a command line, the program's own name first.
    ///
    /// # Errors
    /// Wrong use, with a hint; and a call for help, which is no error but ends the program as well.
    pub fn read(words: impl IntoIterator<Item = impl Into<OsString> + Clone>) -> Result<Call, clap::Error> {
        let matches = Self::command().try_get_matches_from(words)?;
        let given = matches.subcommand().map(|(_, typed)| files::given(typed)).unwrap_or_default();
        let typed = Self::from_arg_matches(&matches)?;
        let voice = if typed.quiet { Voice::Quiet } else { Voice::Usual };
        Ok(Call { request: typed.meaning(given), voice })
    }

    fn meaning(self, given: Vec<Choice>) -> Request {
        match self.command {
            Command::Draft(DraftArgs { reading, out, force, files }) => Request::Draft {
                reading: reading.meaning(),
                into: out,
                replace: replacing(force),
                files: files.meaning(given),
            },
            Command::Walk(WalkArgs { file, answer, of, marks }) => Request::Walk {
                reading: answer.reading(file, of.variant),
                marks: if marks { MarkLists::Shown } else { MarkLists::Left },
            },
            Command::Work(WorkArgs { reading, why }) => {
                Request::Work { reading: reading.meaning(), reasons: if why { Reasons::Shown } else { Reasons::Left } }
            }
            Command::Inspect(InspectArgs { file, answer }) => Request::Inspect { reading: answer.reading(file, None) },
            Command::Check(reading) => Request::Check { reading: reading.meaning() },
            Command::Class(class) => Request::Class(Box::new(class.meaning(given))),
            Command::Sizes(sizes) => Request::Sizes(Box::new(sizes.meaning(given))),
            Command::New(NewArgs { file, units, all }) => {
                Request::New { file, units, questions: if all { Questions::Left } else { Questions::Asked } }
            }
            Command::Open(OpenArgs { sheet, port, no_browser }) => {
                Request::Open { sheet, port, browser: if no_browser { Browser::Left } else { Browser::Opened } }
            }
            Command::Explain(ExplainArgs { code, picture, json }) => {
                Request::Explain { code, picture, answer: shape(json) }
            }
            Command::Compare(compare) => Request::Compare(Box::new(compare.meaning())),
            Command::Finishes(FinishesArgs { picture, json }) => Request::Finishes { picture, answer: shape(json) },
            Command::Form(form) => form.meaning(),
            Command::Trial(trial) => trial.meaning(),
            Command::Schema => Request::Schema,
            Command::Completions(CompletionsArgs { shell }) => Request::Completions { shell },
            Command::Man(ManArgs { out, force }) => Request::Man { into: out, replace: replacing(force) },
            Command::Licences => Request::Licences,
        }
    }
}

impl AnswerArgs {
    fn reading(self, sheet: PathBuf, variant: Option<String>) -> Reading {
        let warnings = if self.strict { Warnings::Refused } else { Warnings::Allowed };
        Reading { sheet, answer: shape(self.json), warnings, variant }
    }
}

impl SheetArgs {
    fn meaning(self) -> Reading {
        self.answer.reading(self.sheet, self.of.variant)
    }
}

const fn shape(json: bool) -> AnswerAs {
    if json { AnswerAs::Json } else { AnswerAs::Text }
}

const fn replacing(force: bool) -> Replace {
    if force { Replace::Any } else { Replace::OwnOnly }
}

/// Is an answer in JSON asked for? Also told where the rest of the words is wrong.
pub fn wants_json(words: &[OsString]) -> bool {
    words.iter().take_while(|word| *word != "--").any(|word| word == "--json")
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

    fn read(words: &[&str]) -> Request {
        Typed::read(std::iter::once(&"quarterpin").chain(words)).unwrap().request
    }

    #[test]
    fn typed_words_become_choices() {
        let Request::Draft { reading, into, replace, files } =
            read(&["draft", "a.toml", "-o", "out", "--paper", "letter", "--force"])
        else {
            panic!("not a draft");
        };
        assert_eq!(reading.sheet, PathBuf::from("a.toml"));
        assert_eq!((reading.answer, reading.warnings), (AnswerAs::Text, Warnings::Allowed));
        assert_eq!(into, PathBuf::from("out"));
        assert_eq!((replace, files.paper.paper), (Replace::Any, Some(Paper::Letter)));
        assert_eq!((files.cut, files.given), (export::dxf::Options::default(), vec![Choice::Paper]));
    }

    #[test]
    fn every_named_paper_and_unit_can_be_typed() {
        for (word, value) in Paper::NAMED {
            let request = read(&["draft", "a", "-o", "b", "--paper", word]);
            assert!(matches!(request, Request::Draft { files, .. } if files.paper.paper == Some(value)));
        }
        for (word, value) in Units::ALL {
            let request = read(&["new", "a", "--units", word]);
            assert!(matches!(request, Request::New { units, .. } if units == Some(value)));
        }
    }

    /// The flags for the files are the choices of the exporters, no more and no fewer.
    #[test]
    fn every_choice_is_a_flag_and_every_flag_a_choice() {
        let command = Typed::command();
        let draft = command.find_subcommand("draft").unwrap();
        let headed = draft.get_arguments().filter(|a| a.get_help_heading().is_some());
        let mut flags: Vec<&str> = headed.map(|a| a.get_long().unwrap()).collect();
        let mut names = Choice::NAMED.map(|(name, _)| name).to_vec();
        flags.sort_unstable();
        names.sort_unstable();
        assert_eq!(flags, names);
    }
}
