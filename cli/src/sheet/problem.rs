//! What is wrong with a sheet, said with the place, the offending text and what to do.

use crate::harmless::is_harmful;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use std::fmt;
use std::ops::Range;

/// One thing that is wrong with a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The offending text, as a range of bytes of the sheet; the head of a section, or the end of
    /// the file, where something is missing.
    pub span: Range<usize>,
    /// The dotted key, as far as there is one: `body.waist_girth`.
    pub key: String,
    /// One sentence.
    pub title: String,
    /// A few words beside the offending text.
    pub label: String,
    /// What to do.
    pub help: String,
}

/// All that is wrong with a sheet, in the order of the file: one problem or more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problems {
    list: Vec<Problem>,
    lines: Vec<usize>,
    path: String,
}

/// More than this many are counted, not shown: nobody reads them.
const SHOWN: usize = 40;

impl Problems {
    /// Problems of this source, sorted by place; the same thing said twice is said once.
    pub fn new(source: &str, path_label: &str, mut list: Vec<Problem>) -> Self {
        list.sort_by_key(|p| (p.span.start, p.span.end));
        list.dedup();
        let lines = lines_of(source, &list);
        Self { list, lines, path: printable(path_label) }
    }

    /// Every problem, in the order of the file.
    pub fn list(&self) -> &[Problem] {
        &self.list
    }

    /// Line, key, what is wrong and what to do, of every problem in the order of the file.
    pub fn told(&self) -> impl Iterator<Item = (usize, &str, &str, &str)> {
        self.list.iter().zip(&self.lines).map(|(p, line)| (*line, p.key.as_str(), p.title.as_str(), p.help.as_str()))
    }

    /// For people: file, line, the offending text pointed at, and what to do.
    /// `source` is the text that was read; `color` asks for terminal colours.
    pub fn render(&self, source: &str, path_label: &str, color: bool) -> String {
        let mut out = String::new();
        for problem in self.list.iter().take(SHOWN) {
            out.push_str(&problem.render(source, path_label, color));
            out.push_str("\n\n");
        }
        if self.list.len() > SHOWN {
            out.push_str(&format!("and {} more\n\n", self.list.len() - SHOWN));
        }
        out.truncate(out.trim_end().len());
        out.push('\n');
        out
    }
}

impl Problem {
    /// For people: file, line, the offending text pointed at, and what to do.
    pub fn render(&self, source: &str, path_label: &str, color: bool) -> String {
        let path = printable(path_label);
        let pointer = AnnotationKind::Primary.span(on_boundaries(source, &self.span)).label(printable(&self.label));
        let snippet = Snippet::source(source).path(path.as_str()).annotation(pointer);
        let mut group = Level::ERROR.primary_title(printable(&self.title)).element(snippet);
        if !self.help.is_empty() {
            group = group.element(Level::HELP.message(printable(&self.help)));
        }
        let renderer = if color { Renderer::styled() } else { Renderer::plain() };
        renderer.render(&[group])
    }
}

impl fmt::Display for Problems {
    /// One line each: `sheet.toml:4: title; what to do`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, (problem, line)) in self.list.iter().zip(&self.lines).take(SHOWN).enumerate() {
            let gap = if i == 0 { "" } else { "\n" };
            write!(f, "{gap}{}:{line}: {}; {}", self.path, printable(&problem.title), printable(&problem.help))?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// The number of the line that each problem starts in, from 1; the list is sorted by place.
fn lines_of(source: &str, list: &[Problem]) -> Vec<usize> {
    let (mut line, mut from) = (1, 0);
    let number = |problem: &Problem| {
        let to = problem.span.start.clamp(from, source.len());
        line += source.as_bytes().get(from..to).unwrap_or_default().iter().filter(|b| **b == b'\n').count();
        from = to;
        line
    };
    list.iter().map(number).collect()
}

/// A span that can be pointed at: inside the source, on whole characters, within one line.
fn on_boundaries(source: &str, span: &Range<usize>) -> Range<usize> {
    let mut start = span.start.min(source.len());
    while !source.is_char_boundary(start) {
        start -= 1;
    }
    let mut end = span.end.clamp(start, source.len());
    while !source.is_char_boundary(end) {
        end += 1;
    }
    let line_end = source[start..end].find(['\n', '\r']).map_or(end, |n| start + n);
    start..line_end.max(start)
}

/// Text that cannot steer a terminal: control characters stand as a question mark.
fn printable(text: &str) -> String {
    let plain = |c: char| match c {
        '\u{a0}' => ' ',
        c if is_harmful(c) && c != '\n' => '?',
        c => c,
    };
    text.chars().map(plain).collect()
}

/// A text of the sheet as quoted in a message: not longer than a line takes.
pub(super) fn quoted(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("`{}`", short.replace('\n', " "))
}
