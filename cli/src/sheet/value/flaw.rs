//! What is wrong with a text of a sheet.

use super::{Lines, MAX_TEXT};
use unicode_normalization::char::is_combining_mark;

/// What is wrong with a name, and what to do; nothing, mostly.
pub(crate) fn flaw_of_name(name: &str) -> Option<(&'static str, &'static str)> {
    flaw(name, Lines::One)
}

/// What is wrong with a text, and what to do; nothing, mostly.
pub(in crate::sheet) fn flaw(text: &str, lines: Lines) -> Option<(&'static str, &'static str)> {
    let is_line = |c: char| lines == Lines::Many && matches!(c, '\n' | '\r' | '\t');
    if !text.chars().any(is_seen) {
        Some(("nothing in it that can be seen", "write something between the quotes, or take the line out"))
    } else if text.chars().any(|c| (c.is_control() || turns_or_breaks(c)) && !is_line(c)) {
        Some(("holds a line break or a control character", "type it again on one line, with letters and signs only"))
    } else if text.chars().count() > MAX_TEXT {
        Some(("far too long", "keep it under 500 letters"))
    } else {
        None
    }
}

/// Does a sign show by itself? Spaces, marks over other letters and what joins letters do not (Unicode,
/// default ignorable code points).
fn is_seen(c: char) -> bool {
    let is_ignored = matches!(c, '\u{ad}' | '\u{34f}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}'
        | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{206f}' | '\u{3164}'
        | '\u{feff}' | '\u{ffa0}' | '\u{e0000}'..='\u{e0fff}');
    !c.is_whitespace() && !c.is_control() && !is_ignored && !is_combining_mark(c)
}

/// Ends a line or a paragraph, or turns the order of what follows round (Unicode, annex 9).
const fn turns_or_breaks(c: char) -> bool {
    matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
