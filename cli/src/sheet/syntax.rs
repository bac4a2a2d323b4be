//! Lines that are not TOML, in words for someone who has never heard of it.

use super::problem::{Problem, quoted};
use std::collections::BTreeSet;
use std::ops::Range;
use toml::de::Error;

/// Nobody writes longer lines, bytes; a longer one is some other file's.
const LONGEST: usize = 1000;

const REPEAT: &str = "duplicate key";

/// Is every error only a key that is there twice? Then the rest can be read. (Of a section that
/// is there twice, the keys cannot be told apart.)
pub(super) fn only_repeated_keys(source: &str, errors: &[Error]) -> bool {
    let lines = Lines::of(source);
    let is_key = |e: &Error| {
        let line = e.span().map(|span| lines.at(span.start)).and_then(|line| source.get(line));
        line.is_some_and(|line| !line.trim_start().starts_with('['))
    };
    errors.iter().all(|e| e.message().starts_with(REPEAT) && is_key(e))
}

/// One problem a line: the first thing that is wrong explains the others.
pub(super) fn problems(source: &str, errors: &[Error]) -> Vec<Problem> {
    let lines = Lines::of(source);
    let mut seen = BTreeSet::new();
    let mut problems = Vec::new();
    for error in errors {
        let at = error.span().unwrap_or(source.len()..source.len());
        let line = lines.at(at.start);
        if !seen.insert(line.start) {
            continue;
        }
        problems.push(if error.message().starts_with(REPEAT) {
            repeat(source, at)
        } else {
            broken(source, at, &line, error.message())
        });
        // Every line may be wrong in a file that is something else altogether.
        if problems.len() > 100 {
            break;
        }
    }
    problems
}

fn repeat(source: &str, at: Range<usize>) -> Problem {
    let name = source.get(at.clone()).unwrap_or("");
    Problem {
        span: at,
        key: name.to_owned(),
        title: format!("{} is there twice", quoted(name)),
        label: "already given above".to_owned(),
        help: "keep one of the two and take the other out".to_owned(),
    }
}

fn broken(source: &str, at: Range<usize>, line: &Range<usize>, message: &str) -> Problem {
    let text = source.get(line.clone()).unwrap_or("");
    // A hint repeats what is on the line.
    let hint = if text.len() <= LONGEST { hint(text) } else { None };
    let label = if hint.is_some() { "cannot be understood" } else { message };
    let help = hint.unwrap_or_else(|| {
        "a line is `key = value`, a section head in brackets such as [body], or a comment after #".to_owned()
    });
    // What follows a key is offending as a whole; the parser may stop in the middle of it.
    let start = value_start(text).map_or(at.start, |n| line.start + n);
    let written = line.start + text.split('#').next().unwrap_or("").trim_end().len();
    let span = if start < written { start..written } else { at };
    Problem { span, key: String::new(), title: "this line cannot be read".to_owned(), label: label.to_owned(), help }
}

/// Where the value of `key = value` starts in a line.
fn value_start(line: &str) -> Option<usize> {
    let equals = line.find('=')?;
    let after = line.get(equals + 1..)?;
    let gap = after.len() - after.trim_start().len();
    (!after.trim().is_empty()).then_some(equals + 1 + gap)
}

/// The usual slips.
fn hint(line: &str) -> Option<String> {
    let Some((key, rest)) = line.split_once('=') else {
        return line.split_once(':').filter(|(key, _)| is_key(key)).map(|(key, value)| {
            format!("a key and its value are joined by an equals sign: {} = {}", key.trim(), value.trim())
        });
    };
    let value = rest.split('#').next().unwrap_or("").trim();
    let key = key.trim();
    if value.is_empty() {
        return Some(format!("write a value after `{key} =`, or take the line out"));
    }
    if value.contains('"') || value.starts_with(['[', '{']) {
        let even = value.matches('"').count() % 2 == 0;
        return (!even).then(|| "a quotation mark is missing: text stands between two of them".to_owned());
    }
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    if let Some((whole, behind)) = value.split_once(',')
        && is_number(whole)
        && is_number(behind)
    {
        return Some(format!("decimals take a point: {key} = {whole}.{behind}"));
    }
    if value.matches('-').count() == 2 && value.bytes().all(|b| b.is_ascii_digit() || b == b'-') {
        return Some(format!("there is no such day; write year, month and day: {key} = 2026-03-02"));
    }
    if value.contains(['/', '½', '¼', '¾']) {
        return Some(format!("a fraction stands in quotes: {key} = \"{value}\""));
    }
    let digits = value.trim_end_matches(|c: char| c.is_alphabetic() || c == '%').trim_end();
    if is_number(digits) {
        return Some(format!("write the number alone: {key} = {digits}"));
    }
    if value.starts_with('.') || value.ends_with('.') {
        return Some("a decimal has digits on both sides of its point, such as 0.5".to_owned());
    }
    Some(format!("text stands in quotes: {key} = \"{value}\""))
}

fn is_key(text: &str) -> bool {
    let text = text.trim();
    !text.is_empty() && text.chars().all(|c| c.is_ascii_alphanumeric() || c == '_')
}

/// The lines of a source: there may be as many errors as letters, all in one of them.
struct Lines<'s> {
    source: &'s str,
    starts: Vec<usize>,
}

impl<'s> Lines<'s> {
    fn of(source: &'s str) -> Self {
        let starts = std::iter::once(0).chain(source.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { source, starts }
    }

    /// The line that a byte stands in, without its end.
    fn at(&self, at: usize) -> Range<usize> {
        let next = self.starts.partition_point(|start| *start <= at);
        let start = self.starts[next - 1];
        let end = self.starts.get(next).map_or(self.source.len(), |end| end - 1);
        let ended_by_both = end > start && self.source.as_bytes()[end - 1] == b'\r';
        start..end - usize::from(ended_by_both)
    }
}
