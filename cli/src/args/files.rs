//! What a person may choose about the files of a pattern.

use super::card::CardArgs;
use super::cutter::CutterArgs;
use super::lay::LayArgs;
use super::paper::{PaperArgs, PaperUse};
use clap::parser::ValueSource;
use clap::{ArgMatches, Args};
use engine::lay::Rules;
use engine::sheet::Print;
use export::choice::{Choice, Measures, Only, Options};
use export::dxf;
use export::svg::PenLines;

/// The flags.
#[derive(Debug, Args)]
pub(super) struct FileArgs {
    #[command(flatten)]
    paper: PaperArgs,
    #[command(flatten)]
    cutter: CutterArgs,
    #[command(flatten)]
    lay: LayArgs,
    #[command(flatten)]
    card: CardArgs,
}

/// What is chosen; what is not said here is said by the sheet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FileChoices {
    /// For the print.
    pub paper: PaperUse,
    /// For cutters and plotters.
    pub cut: dxf::Options,
    /// For the lay.
    pub lay: Rules,
    /// Which files.
    pub only: Only,
    /// On the work card.
    pub measures: Measures,
    /// For home cutting machines alone.
    pub pen: PenLines,
    /// What was typed, whether or not it is as by itself.
    pub given: Vec<Choice>,
}

impl FileArgs {
    pub(super) fn meaning(self, given: Vec<Choice>) -> FileChoices {
        let (only, measures) = self.card.meaning();
        let lay = self.lay.meaning();
        FileChoices { lay, only, measures, ..choices(self.paper, self.cutter, given) }
    }
}

/// What is chosen by these flags.
pub(super) fn choices(paper: PaperArgs, cutter: CutterArgs, given: Vec<Choice>) -> FileChoices {
    let pen = cutter.pen();
    FileChoices { paper: paper.meaning(), cut: cutter.meaning(), pen, given, ..FileChoices::default() }
}

impl FileChoices {
    /// With what the sheet says about the print, and the defaults.
    pub fn options(&self, print: &Print) -> Options {
        let (print, cut) = (self.paper.options(print), self.cut.clone());
        Options { print, cut, lay: self.lay, pen: self.pen, only: self.only, measures: self.measures }
    }
}

/// The choices that were typed for a command.
pub(super) fn given(command: &ArgMatches) -> Vec<Choice> {
    let is_typed = |name: &str| {
        let id = name.replace('-', "_");
        // Not every command knows every choice.
        command.ids().any(|known| known.as_str() == id) && command.value_source(&id) == Some(ValueSource::CommandLine)
    };
    Choice::NAMED.iter().filter(|(name, _)| is_typed(name)).map(|(_, choice)| *choice).collect()
}
