//! Text that cannot steer a terminal, turn the order of its letters round, or pass for another line.

use std::borrow::Cow;
use std::fmt::Write;

/// Stands in the place of what is not shown.
const HIDDEN: char = '\u{fffd}';

/// Control characters of either set (ECMA-48, C0 and C1), separators of lines and paragraphs, and what
/// changes the direction of text (Unicode, annex 9).
pub(crate) fn is_harmful(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A person's own words on one line.
pub(crate) fn plain(text: &str) -> String {
    text.chars().map(|c| if is_harmful(c) { HIDDEN } else { c }).collect()
}

/// Everything that is about to be shown: line ends stay, and the styles that this program sets itself.
pub(crate) fn shown(text: &str) -> Cow<'_, str> {
    if !text.contains(|c| is_harmful(c) && c != '\n') {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let taken = style(rest).unwrap_or(c.len_utf8());
        match c {
            '\u{1b}' if taken > 1 => out.push_str(&rest[..taken]),
            '\n' => out.push('\n'),
            '\t' => out.push(' '),
            c if is_harmful(c) => out.push(HIDDEN),
            c => out.push(c),
        }
        rest = &rest[taken..];
    }
    Cow::Owned(out)
}

/// How long a style at the start of a text is: `ESC [ … m` (ECMA-48, SGR) with weight and colours only,
/// nothing that blinks, swaps or hides.
fn style(text: &str) -> Option<usize> {
    let inner = text.strip_prefix("\u{1b}[")?;
    let end = inner.find('m')?;
    let allowed = |code: &str| matches!(code, "" | "0" | "1" | "2" | "3" | "4" | "22" | "23" | "24");
    let is_colour = |code: &str| code.parse::<u8>().is_ok_and(|n| matches!(n, 30..=39 | 90..=97));
    let mut codes = inner[..end].split(';');
    let all = codes.all(|code| allowed(code) || is_colour(code)) || is_of_the_palette(&inner[..end]);
    all.then_some("\u{1b}[".len() + end + 1)
}

/// `38;5;n`: a colour of the palette of 256.
fn is_of_the_palette(codes: &str) -> bool {
    codes.strip_prefix("38;5;").is_some_and(|n| n.parse::<u8>().is_ok())
}

/// A text in JSON, where such letters stand inside strings alone: it stays the same value.
pub(crate) fn json(text: String) -> String {
    if !text.contains(|c| is_harmful(c) && c != '\n') {
        return text;
    }
    let mut out = String::with_capacity(text.len() + 64);
    for c in text.chars() {
        match c {
            '\n' => out.push(c),
            c if is_harmful(c) => {
                let _ = write!(out, "\\u{:04x}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const BAD: [&str; 7] = ["\u{1b}[2J", "\u{9b}2J", "\u{202e}", "\u{2066}", "\u{2028}", "\u{7}", "\u{7f}"];

    #[test]
    fn nothing_steers_the_terminal() {
        for bad in BAD {
            for text in [plain(bad), shown(bad).into_owned()] {
                assert!(!text.contains(is_harmful), "{bad:?} as {text:?}");
            }
        }
        assert_eq!(plain("a\nb"), "a\u{fffd}b");
        assert_eq!(shown("a\n\tb\r\n"), "a\n b\u{fffd}\n");
    }

    #[test]
    fn our_own_styles_stay_and_those_that_hide_go() {
        for own in ["\u{1b}[1m\u{1b}[91merror\u{1b}[0m\n", "\u{1b}[38;5;9mx\u{1b}[0m", "\u{1b}[mx", "żółw ½ \u{a0}"]
        {
            assert_eq!(shown(own), own);
        }
        for other in ["\u{1b}[8mx", "\u{1b}[1;7mx", "\u{1b}[2K", "\u{1b}]0;title\u{7}", "\u{1b}[31", "\u{1b}["] {
            assert!(!shown(other).contains('\u{1b}'), "{other:?}");
        }
    }

    #[test]
    fn json_keeps_its_value() {
        for bad in BAD {
            let value = serde_json::json!({ "name": bad, "n": 1 });
            let text = json(format!("{value:#}\n"));
            assert!(!text.contains(|c| is_harmful(c) && c != '\n'), "{text:?}");
            assert_eq!(serde_json::from_str::<serde_json::Value>(&text).unwrap(), value);
        }
    }
}
