//! What a person wants, whatever was typed for it.

use super::files::FileChoices;
use crate::output::Replace;
use chrono::NaiveDate;
use clap_complete::Shell;
use engine::lay::Rules;
use engine::quantity::Units;
use engine::sheet::{Section, Verdict};
use export::form::FormPaper;
use export::pdf::Pages;
use std::path::PathBuf;

/// A command line that was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Call {
    /// What is to be done.
    pub request: Request,
    /// How much is said about it.
    pub voice: Voice,
}

/// How much is said where all goes well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    /// The whole answer.
    Usual,
    /// Nothing for a person.
    Quiet,
}

/// What is to be done.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Make the pattern and write its files.
    Draft {
        /// Of which sheet.
        reading: Reading,
        /// The folder for the files.
        into: PathBuf,
        /// Which files may be replaced.
        replace: Replace,
        /// What is chosen for the files.
        files: FileChoices,
    },
    /// Measure seams, crossings and openings.
    Walk {
        /// Of which sheet or drawing.
        reading: Reading,
        /// With the lengths between notches?
        marks: MarkLists,
    },
    /// List the order of work.
    Work {
        /// Of which sheet.
        reading: Reading,
        /// With the reasons?
        reasons: Reasons,
    },
    /// List what the checks find.
    Check {
        /// In which sheet.
        reading: Reading,
    },
    /// List the finishes.
    Finishes {
        /// The file for a picture of them.
        picture: Option<PathBuf>,
        /// In which shape.
        answer: AnswerAs,
    },
    /// Look over a file to exchange.
    Inspect {
        /// Which.
        reading: Reading,
    },
    /// Make the patterns of everybody in a table.
    Class(Box<ClassRequest>),
    /// Make a style over a table of sizes.
    Sizes(Box<SizesRequest>),
    /// Write a form to measure by.
    Form {
        /// Where.
        file: PathBuf,
        /// In which unit.
        units: Units,
        /// On which paper.
        paper: FormPaper,
        /// May a file be replaced that is not ours?
        replace: Replace,
    },
    /// Record a trial and say what comes of it.
    Trial {
        /// The sheet of the garment.
        sheet: PathBuf,
        /// What was found.
        judged: Judgements,
        /// When; else today.
        date: Option<NaiveDate>,
        /// What of the answer is written into the sheet.
        apply: Option<Apply>,
        /// The file for a picture of the new garment over the old one.
        picture: Option<PathBuf>,
        /// In which shape.
        answer: AnswerAs,
    },
    /// Print the JSON Schema of a sheet.
    Schema,
    /// Print what makes a shell complete words.
    Completions {
        /// Which shell.
        shell: Shell,
    },
    /// Write the manual pages.
    Man {
        /// The folder for them.
        into: PathBuf,
        /// Which files may be replaced.
        replace: Replace,
    },
    /// Print the licences.
    Licences,
    /// Write a sheet to fill in.
    New {
        /// Where.
        file: PathBuf,
        /// In which unit, where it is said.
        units: Option<Units>,
        /// By questions?
        questions: Questions,
    },
    /// Serve the page.
    Open {
        /// With this sheet, or for this folder.
        sheet: Option<PathBuf>,
        /// At this port.
        port: Option<u16>,
        /// In a browser?
        browser: Browser,
    },
    /// Say what a code or a term means.
    Explain {
        /// Which; else all are listed.
        code: Option<String>,
        /// The file for a picture of it.
        picture: Option<PathBuf>,
        /// In which shape.
        answer: AnswerAs,
    },
    /// Set two garments side by side.
    Compare(Box<CompareRequest>),
}

impl Request {
    /// The shape of the answer.
    pub fn answer(&self) -> AnswerAs {
        match self {
            Self::Draft { reading, .. }
            | Self::Walk { reading, .. }
            | Self::Work { reading, .. }
            | Self::Check { reading }
            | Self::Inspect { reading } => reading.answer,
            Self::Finishes { answer, .. } | Self::Trial { answer, .. } | Self::Explain { answer, .. } => *answer,
            Self::Compare(compare) => compare.answer,
            Self::Class(class) => class.answer,
            Self::Sizes(sizes) => sizes.answer,
            Self::Schema => AnswerAs::Json,
            Self::New { .. }
            | Self::Open { .. }
            | Self::Form { .. }
            | Self::Completions { .. }
            | Self::Man { .. }
            | Self::Licences => AnswerAs::Text,
        }
    }
}

/// Two garments, and how they are wanted side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CompareRequest {
    /// A sheet.
    pub first: PathBuf,
    /// Another one.
    pub second: Option<PathBuf>,
    /// A variant of the second, else of the first.
    pub variant: Option<String>,
    /// Is it the sheet as it was before it was last written into?
    pub before: bool,
    /// The file for a picture of both.
    pub picture: Option<PathBuf>,
    /// The file for a print of both.
    pub print: Option<PathBuf>,
    /// How the print is parted into pages.
    pub pages: Pages,
    /// In which shape.
    pub answer: AnswerAs,
}

/// A class, and how it is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct ClassRequest {
    /// The table of people.
    pub people: PathBuf,
    /// The sheet that everybody's measures are laid over.
    pub base: PathBuf,
    /// The folder for the class; none where it is only checked.
    pub into: Option<PathBuf>,
    /// The unit of the table, where it does not say.
    pub units: Option<Units>,
    /// Rows and names that are wanted alone; everybody where there are none.
    pub only: Vec<String>,
    /// How everybody's pieces are laid together, where that is wanted.
    pub lay: Option<Rules>,
    /// Whose files are made.
    pub redo: Redo,
    /// Which files may be replaced.
    pub replace: Replace,
    /// May there be warnings?
    pub warnings: Warnings,
    /// In which shape.
    pub answer: AnswerAs,
    /// What is chosen for the files.
    pub files: FileChoices,
}

impl ClassRequest {
    /// To be looked at alone, with every choice as usual.
    pub fn check(people: PathBuf, base: PathBuf, units: Option<Units>) -> Self {
        Self {
            people,
            base,
            into: None,
            units,
            only: Vec::new(),
            lay: None,
            redo: Redo::Changed,
            replace: Replace::OwnOnly,
            warnings: Warnings::Allowed,
            answer: AnswerAs::Text,
            files: FileChoices::default(),
        }
    }
}

/// A table of sizes, and how the style over it is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct SizesRequest {
    /// The table.
    pub table: PathBuf,
    /// The sheet that every size's measures are laid over.
    pub base: PathBuf,
    /// The folder for the files.
    pub into: PathBuf,
    /// The unit of the table, where it does not say.
    pub units: Option<Units>,
    /// Which files may be replaced.
    pub replace: Replace,
    /// May there be warnings?
    pub warnings: Warnings,
    /// In which shape.
    pub answer: AnswerAs,
    /// What is chosen for the files.
    pub files: FileChoices,
}

/// Whose files are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Redo {
    /// Of those who have changed since the last time.
    Changed,
    /// Of everybody.
    All,
}

/// Which sheet, and how to answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The file; `-` is standard input.
    pub sheet: PathBuf,
    /// In which shape.
    pub answer: AnswerAs,
    /// May there be warnings?
    pub warnings: Warnings,
    /// The name of the variant that is taken.
    pub variant: Option<String>,
}

/// The shape of the answer on standard output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AnswerAs {
    /// For a person.
    Text,
    /// For a program.
    Json,
}

/// Does a warning stop the work?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Warnings {
    /// It goes on.
    Allowed,
    /// It stops.
    Refused,
}

/// Are the lengths between notches listed?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkLists {
    /// No.
    Left,
    /// Yes.
    Shown,
}

/// Are the needs of each step told with their reasons?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reasons {
    /// No.
    Left,
    /// Yes.
    Shown,
}

/// Is a browser opened?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Browser {
    /// Yes.
    Opened,
    /// No.
    Left,
}

/// Is a new sheet written by questions, where there is somebody to answer?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Questions {
    /// They are asked.
    Asked,
    /// The long sheet is written.
    Left,
}

/// What was found of a test garment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Judgements {
    /// Of the left leg, or of a part of it.
    pub left: Vec<(Option<Section>, Verdict)>,
    /// Of the right leg.
    pub right: Vec<(Option<Section>, Verdict)>,
    /// Of the top edge.
    pub top: Vec<(Option<Section>, Verdict)>,
    /// What was seen of the fit, in her words.
    pub fit: Vec<String>,
    /// Anything worth remembering.
    pub note: Option<String>,
}

impl Judgements {
    /// Was no edge judged?
    pub const fn is_unjudged(&self) -> bool {
        self.left.is_empty() && self.right.is_empty() && self.top.is_empty()
    }

    /// Was nothing said?
    pub const fn is_empty(&self) -> bool {
        self.is_unjudged() && self.fit.is_empty()
    }
}

/// What is written into the sheet beside the trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Apply {
    /// The best single setting of each edge, and the remedies.
    Proposal,
    /// On the two legs the settings that teach most; the rest as above.
    Pair,
}

impl Apply {
    /// Both, with the word that is typed.
    pub const ALL: [(&'static str, Self); 2] = [("proposal", Self::Proposal), ("pair", Self::Pair)];
}
