//! What the checks found.

use super::{ERROR, HEADING, WARNING, heading, wrapped};
use anstyle::Style;
use engine::finding::{Finding, Level};
use engine::quantity::Units;
use engine::words::{Said, Speech};
use export::validate::Doubt;

/// One finding, in words.
struct Line {
    level: Level,
    code: &'static str,
    place: String,
    text: String,
    next: String,
    /// Place and text of what else comes of it.
    effects: Vec<String>,
}

/// What was found of a garment, most serious first, under a line that counts it.
pub fn render(findings: &[Finding], units: Units) -> String {
    listed(findings.iter().map(|found| of_garment(found, Speech(units))).collect())
}

/// What is to be doubted about a file, likewise.
pub fn doubts(doubts: &[Doubt]) -> String {
    listed(doubts.iter().map(of_file).collect())
}

fn of_garment(found: &Finding, say: Speech) -> Line {
    let Said { text, next, .. } = say.finding(found);
    let effects = found.all().skip(1).map(|effect| in_short(effect, say)).collect();
    Line { level: found.level, code: found.code, place: say.place(found), text, next, effects }
}

/// A finding as it is listed under its cause.
pub(super) fn in_short(effect: &Finding, say: Speech) -> String {
    let Said { place, text, .. } = say.finding(effect);
    format!("{place}: {text} [{}]", effect.code)
}

fn of_file(doubt: &Doubt) -> Line {
    let Said { place, text, next } = doubt.said();
    Line { level: doubt.level, code: doubt.code, place, text, next, effects: Vec::new() }
}

fn listed(mut lines: Vec<Line>) -> String {
    lines.sort_by_key(|line| std::cmp::Reverse(line.level));
    let text: String = lines.iter().map(one).collect();
    heading(&format!("Checks: {}", count(&lines))).trim_start().to_owned() + &text
}

fn count(lines: &[Line]) -> String {
    let of = |level| lines.iter().filter(|line| line.level == level).count();
    let parts: Vec<String> = [Level::Refusal, Level::Warning, Level::Note]
        .iter()
        .map(|level| (of(*level), level.name()))
        .filter(|(n, _)| *n > 0)
        .map(|(n, name)| if n == 1 { format!("1 {name}") } else { format!("{n} {name}s") })
        .collect();
    if parts.is_empty() { "nothing to say".to_owned() } else { parts.join(", ") }
}

const fn style(level: Level) -> Style {
    match level {
        Level::Note => HEADING,
        Level::Warning => WARNING,
        Level::Refusal => ERROR,
    }
}

/// The width of the longest level's word and two spaces on either side.
const INDENT: usize = 11;

fn one(line: &Line) -> String {
    let Line { level, code, place, text, next, effects } = line;
    let style = style(*level);
    let pad = " ".repeat(INDENT - 2 - level.name().len());
    let said = wrapped(&format!("{place}: {text} [{code}]"), INDENT);
    let mut out = format!("  {style}{}{style:#}{pad}{said}\n", level.name());
    let below = |lead: &str, text: &str| {
        let indent = INDENT + lead.len();
        format!("{}{lead}{}\n", " ".repeat(INDENT), wrapped(text, indent))
    };
    out.extend(effects.iter().map(|effect| below("also: ", effect)));
    if !next.is_empty() {
        out += &below("next: ", next);
    }
    out
}
