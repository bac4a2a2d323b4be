//! What is shown on the terminal: plain columns and short texts in the sheet's unit.

pub mod checks;
pub(crate) mod class;
pub mod cloth;
pub mod compare;
pub mod cutter;
pub mod drawn;
pub mod marks;
pub mod older;
pub mod refusal;
pub(crate) mod sizes;
pub mod summary;
pub mod table;
pub mod trial;
pub mod walk;
pub mod work;

pub(crate) use crate::harmless::plain;
use anstyle::{AnsiColor, Style};
use std::sync::atomic::{AtomicUsize, Ordering};
use terminal_size::{Width, terminal_size_of};

/// Of refusals and errors.
pub(crate) const ERROR: Style = AnsiColor::Red.on_default().bold();
/// Of warnings.
pub(crate) const WARNING: Style = AnsiColor::Yellow.on_default().bold();
/// Of headings.
pub(crate) const HEADING: Style = Style::new().bold();

/// One thing that went wrong, and what to do.
pub fn trouble(what: &str, next: &str) -> String {
    format!("{ERROR}error{ERROR:#}: {}\n  next: {}\n", plain(what), plain(next))
}

/// A heading on a line of its own, after an empty line.
pub(crate) fn heading(text: &str) -> String {
    format!("\n{HEADING}{}{HEADING:#}\n", wrapped(text, 0))
}

/// Texts are broken at this width where no terminal shows them: the same everywhere.
const USUAL: usize = 96;

/// Narrower than this nothing can be read, wider than that nobody finds the next line.
const NARROWEST: usize = 60;
const WIDEST: usize = 120;

/// The columns of the terminal that is written to; 0 where there is none.
static COLUMNS: AtomicUsize = AtomicUsize::new(0);

/// Follows the width of the terminal from here on, if standard output is one.
pub fn follow() {
    if let Some((Width(columns), _)) = terminal_size_of(std::io::stdout()) {
        COLUMNS.store(usize::from(columns).clamp(NARROWEST, WIDEST), Ordering::Relaxed);
    }
}

/// The width of the terminal, if there is one.
pub(crate) fn columns() -> Option<usize> {
    Some(COLUMNS.load(Ordering::Relaxed)).filter(|columns| *columns > 0)
}

/// Stands between words that stay on one line, such as a number and its unit.
pub(crate) const TIE: char = '\u{a0}';

/// What stays on one line: words, and numbers with the word after them.
fn unbroken(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        match parts.last_mut() {
            Some(number) if number.ends_with(|c: char| c.is_ascii_digit()) => {
                number.push(TIE);
                number.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

/// Breaks a text into lines; those after the first are indented by so much, which the first line
/// is taken to have used up already. A number stays with what follows it, such as its unit.
pub(crate) fn wrapped(text: &str, indent: usize) -> String {
    let most = columns().unwrap_or(USUAL);
    let mut out = String::new();
    let mut used = indent;
    for word in unbroken(&plain(text)) {
        let width = word.chars().count();
        if used > indent && used + 1 + width > most {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            used = indent;
        } else if used > indent {
            out.push(' ');
            used += 1;
        }
        out.push_str(&word);
        used += width;
    }
    out.replace(TIE, " ")
}

#[cfg(test)]
mod tests;

#[cfg(test)]
mod wrapping {
    use super::*;

    #[test]
    fn long_texts_are_broken_between_words() {
        let text = "word ".repeat(60);
        let shown = wrapped(&text, 4);
        assert!(shown.lines().all(|l| l.chars().count() <= USUAL));
        assert!(shown.lines().skip(1).all(|l| l.starts_with("    word")));
        assert_eq!(shown.split_whitespace().count(), 60);
    }

    #[test]
    fn tied_words_stay_together() {
        let text = format!("{} 3{TIE}5/16{TIE}in", "x".repeat(USUAL - 8));
        assert!(wrapped(&text, 0).ends_with("\n3 5/16 in"), "{}", wrapped(&text, 0));
    }
}
