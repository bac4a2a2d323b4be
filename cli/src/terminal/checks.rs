//! What the checks found.

use super::{ERROR, HEADING, WARNING, heading, wrapped};
use anstyle::Style;
use engine::garment::{Finding, Level};

/// The findings, most serious first, under a line that counts them.
pub fn render(findings: &[Finding]) -> String {
    let mut sorted: Vec<&Finding> = findings.iter().collect();
    sorted.sort_by_key(|f| std::cmp::Reverse(f.level));
    let lines: String = sorted.iter().map(|f| one(f)).collect();
    heading(&format!("Checks: {}", count(findings))).trim_start().to_owned() + &lines
}

fn count(findings: &[Finding]) -> String {
    let of = |level| findings.iter().filter(|f| f.level == level).count();
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

fn one(finding: &Finding) -> String {
    let Finding { code, level, place, text, next, .. } = finding;
    let style = style(*level);
    let pad = " ".repeat(INDENT - 2 - level.name().len());
    let said = wrapped(&format!("{place}: {text} [{code}]"), INDENT);
    let mut out = format!("  {style}{}{style:#}{pad}{said}\n", level.name());
    if !next.is_empty() {
        let indent = INDENT + "next: ".len();
        out += &format!("{}next: {}\n", " ".repeat(INDENT), wrapped(next, indent));
    }
    out
}
