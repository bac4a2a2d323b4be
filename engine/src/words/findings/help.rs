//! What to do about a finding: one sentence from what would help.

use super::either;
use crate::finding::{Do, Finding, Help, Level, Misread};
use crate::words::Speech;

/// Everything that would help, the first thing first.
pub(super) fn next(say: Speech, found: &Finding) -> String {
    // What stands in the way cannot be left as it is.
    let helps = found.helps.iter().filter(|help| found.level < Level::Refusal || !leaves_it(help));
    let ways: Vec<String> = helps.map(|help| one(say, help)).collect();
    let next = ways.join(", or ");
    match &found.variant {
        Some(_) if found.level == Level::Refusal => {
            format!("{next}; the sheet itself can be made: without this variant it is drafted")
        }
        _ => next,
    }
}

/// What would help as the name of a button: one for each word that can be chosen.
pub(super) fn buttons(say: Speech, help: &Help) -> Vec<String> {
    match help {
        Help::Measure(key) => vec![format!("measure again: {}", key.label())],
        Help::Write(key) => vec![format!("measure and write: {}", key.label())],
        Help::ReadAs { key, mm, .. } => vec![format!("{} {}", key.label(), say.as_written(*mm))],
        Help::SetUnits { likely, .. } => vec![format!("measures in {}", likely.plural())],
        Help::Swapped(a, b) => vec![format!("swap {} and {}", a.label(), b.label())],
        Help::Larger(key) => vec![format!("{}, larger", key.label())],
        Help::Smaller(key) => vec![format!("{}, smaller", key.label())],
        Help::NearerZero(key) => vec![format!("{}, nearer to 0", key.label())],
        Help::Between(key, least, most) => vec![format!("{}, {}", key.label(), say.within(*least, *most))],
        Help::Choose(key, words) => words.iter().map(|word| format!("{}: {word}", key.label())).collect(),
        Help::TakeOut(key) => vec![format!("leave out {}", key.label())],
        Help::Free(keys) => keys.iter().map(|key| format!("leave {} free", key.label())).collect(),
        Help::Finish(opening, kinds) => {
            kinds.iter().map(|kind| format!("{}: {}", opening.name(), kind.name())).collect()
        }
        Help::Sample | Help::UsualOverlap | Help::Do(_) => vec![one(say, help)],
    }
}

fn question(misread: Misread) -> String {
    match misread {
        Misread::MeasuredIn(units) => format!("is it {}", units.plural()),
        Misread::ConvertedTwice => "was it converted from inches twice".to_owned(),
    }
}

const fn leaves_it(help: &Help) -> bool {
    matches!(help, Help::Do(Do::Nothing | Do::NothingIfMeant | Do::NothingIfRight | Do::LetStandForAChild))
}

fn one(say: Speech, help: &Help) -> String {
    match help {
        Help::Measure(key) => format!("measure {key} again"),
        Help::Write(key) => format!("measure and write {key}"),
        Help::ReadAs { misread, mm, .. } => format!("{}? Then write {}", question(*misread), say.as_written(*mm)),
        Help::SetUnits { written, likely } => format!(
            "write sheet.units = \"{}\" if you measured in {}, or write the numbers in {}",
            likely.name(),
            likely.plural(),
            written.plural()
        ),
        Help::Swapped(a, b) => format!("look whether {a} and {b} were swapped"),
        Help::Larger(key) => format!("make {key} larger"),
        Help::Smaller(key) => format!("make {key} smaller"),
        Help::NearerZero(key) => format!("set {key} nearer to 0"),
        Help::Between(key, least, most) => format!("set {key} from {}", say.within(*least, *most)),
        Help::Choose(key, words) => {
            let words: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
            format!("write {key} = {}", either(&words))
        }
        Help::TakeOut(key) => format!("leave {key} out"),
        Help::Free(keys) => format!("leave {} free", either(&keys.each_ref().map(ToString::to_string))),
        Help::Finish(opening, kinds) => {
            let kinds: Vec<&str> = kinds.iter().map(|kind| kind.name()).collect();
            format!("finish the {} with {}", opening.name(), either(&kinds))
        }
        Help::Sample => format!(
            "sew a sample of {} on a scrap of the same cloth, measure it, and write growth in %",
            say.round(200.0, 8.0)
        ),
        Help::UsualOverlap => format!("give a shorter overlap, about {}", say.round(20.0, 0.75)),
        Help::Do(what) => in_words(*what).to_owned(),
    }
}

const fn in_words(what: Do) -> &'static str {
    match what {
        Do::Nothing => "do nothing",
        Do::NothingIfMeant => "leave it, where that is meant",
        Do::NothingIfRight => "leave it, where it is right",
        Do::LetStandForAChild => "leave it on a child's sheet",
        Do::BaseCutHigher => "take a base that is cut higher at the leg",
        Do::RaiseTopAtSide => "raise the top edge at the side (style.top_drop_side) where a longer side seam is wanted",
        Do::MilderCurves => "make style.front_scoop or style.back_cover milder",
        Do::NarrowerElastic => "take a narrower elastic",
        Do::FoldOverElastic => "name a fold-over elastic",
        Do::NarrowerFinish => "take a narrower elastic or hem",
        Do::OtherFinish => "choose another kind of finish",
        Do::FinishOnCloth => "choose a finish that lies on the cloth",
        Do::FaceWithBias => "face the edge with bias-cut cloth",
        Do::FoldLess => "fold less in",
        Do::ReduceLess => "reduce the elastic less",
        Do::ReduceMore => "give an elastic with a larger reduction",
        Do::LongerElastic => "take a longer elastic",
        Do::StretchierElastic => "take an elastic that stretches further",
        Do::LatexFreeElastic => "take a latex-free elastic",
        Do::AskWearer => "ask the wearer",
        Do::SoftAndLoose => "keep it soft and loose; local rules decide",
        Do::StretchierCloth => "take a cloth that stretches further",
        Do::MoveEdge => "move the edge with one of the drops of style",
        Do::LocalRules => {
            "look up the local rules on cords, small parts and burning behaviour (such as EN 14682, EN 14878, 16 CFR \
             1610, CPSIA): they decide"
        }
        Do::Trial => "sew a trial / muslin before good cloth, and look at the marks after an hour",
        Do::CarryPullTestOn => "carry the pull test on to that stretch",
        Do::NameElastic => "name one of the sheet's elastics",
        Do::AddElastic => "add its section to the sheet",
        Do::OneSectionLess => "take one of its sections out",
        Do::OtherWayRound => "put one of these edges on round instead of flat, or flat instead of round",
        Do::Report => "report it with the sheet: it is a fault of the program",
    }
}
