//! What a person may choose about the files of a pattern.

use super::card::CardArgs;
use super::cutter::CutterArgs;
use super::lay::LayArgs;
use super::paper::{PaperArgs, PaperUse};
use clap::error::ContextKind;
use clap::parser::ValueSource;
use clap::{ArgMatches, Args, CommandFactory, FromArgMatches, Parser};
use engine::lay::Rules;
use engine::sheet::Print;
use export::choice::{Choice, Measures, Only, Options};
use export::dxf;
use export::svg::PenLines;
use std::error::Error;

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
        let mut all = FileChoices { lay, only, measures, ..choices(self.paper, self.cutter, given) };
        // Boxes lie as far apart as is usual for them where nothing was said.
        all.cut.cutting.gap = all.given.contains(&Choice::Gap).then_some(lay.gap);
        all
    }
}

/// What is chosen by these flags.
pub(super) fn choices(paper: PaperArgs, cutter: CutterArgs, given: Vec<Choice>) -> FileChoices {
    let pen = cutter.pen();
    FileChoices { paper: paper.meaning(), cut: cutter.meaning(), pen, given, ..FileChoices::default() }
}

/// The flags without a command, as a page asks for them.
#[derive(Debug, Parser)]
#[command(no_binary_name = true, disable_help_flag = true, disable_version_flag = true, color = clap::ColorChoice::Never)]
struct Alone {
    #[command(flatten)]
    files: FileArgs,
}

/// What there is to say of a choice.
#[derive(Clone, Debug)]
pub(crate) struct ChoiceHelp {
    /// Its name, without dashes.
    pub(crate) name: &'static str,
    /// What it takes; none where it is only given or not.
    pub(crate) takes: Option<String>,
    /// The words it takes.
    pub(crate) words: Vec<String>,
    /// What holds without it.
    pub(crate) default: Option<String>,
    /// A sentence.
    pub(crate) help: String,
    /// What it is about.
    pub(crate) group: String,
}

/// Every choice about the files, as the help tells it.
pub(crate) fn choice_helps() -> Vec<ChoiceHelp> {
    let command = Alone::command();
    let of = |(name, _): &(&'static str, Choice)| {
        let arg = command.get_arguments().find(|arg| arg.get_long() == Some(*name))?;
        let takes = arg.get_action().takes_values();
        let text = |all: &[clap::builder::OsStr]| all.first().map(|one| one.to_string_lossy().into_owned());
        Some(ChoiceHelp {
            name,
            takes: takes.then(|| arg.get_value_names().unwrap_or_default().join(" ")),
            words: if takes {
                arg.get_possible_values().iter().map(|word| word.get_name().to_owned()).collect()
            } else {
                Vec::new()
            },
            default: if takes { text(arg.get_default_values()) } else { None },
            help: arg.get_help().map(ToString::to_string).unwrap_or_default(),
            group: arg.get_help_heading().unwrap_or_default().to_owned(),
        })
    };
    Choice::NAMED.iter().filter_map(of).collect()
}

impl FileChoices {
    /// What is chosen by flags with their values, as they would be typed; else what is wrong, and what to do.
    pub(crate) fn typed(flags: &[(String, String)]) -> Result<Self, (String, String)> {
        let command = Alone::command();
        let word = |(name, value): &(String, String)| {
            let arg = command.get_arguments().find(|arg| arg.get_long() == Some(name.as_str()));
            match arg.map(|arg| arg.get_action().takes_values()) {
                Some(false) => (value != "false").then(|| format!("--{name}")),
                _ => Some(format!("--{name}={value}")),
            }
        };
        let words: Vec<String> = flags.iter().filter_map(word).collect();
        let matches = command.try_get_matches_from(words).map_err(|e| wrong(&e))?;
        let given = given(&matches);
        Ok(Alone::from_arg_matches(&matches).map_err(|e| wrong(&e))?.files.meaning(given))
    }

    /// With what the sheet says about the print, and the defaults.
    pub fn options(&self, print: &Print) -> Options {
        let (print, cut) = (self.paper.options(print), self.cut.clone());
        Options { print, cut, lay: self.lay, pen: self.pen, only: self.only, measures: self.measures }
    }
}

/// What is wrong with a choice, and what to do, for who has not typed a command.
fn wrong(e: &clap::Error) -> (String, String) {
    let said = |kind| e.get(kind).map(ToString::to_string);
    let cause = e.source().map(ToString::to_string);
    match (said(ContextKind::InvalidArg), said(ContextKind::InvalidValue)) {
        (Some(arg), Some(value)) => {
            let name = arg.trim_start_matches('-').split([' ', '=']).next().unwrap_or_default().replace('-', " ");
            (format!("“{value}” is nothing for {name}"), cause.unwrap_or_else(|| "choose another value".to_owned()))
        }
        _ => {
            let said = e.render().to_string();
            let what = said.trim_start_matches("error: ").lines().next().unwrap_or_default().to_owned();
            (what, "choose another value".to_owned())
        }
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
