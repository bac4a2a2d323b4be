//! Text as formats can carry it that know little more than ASCII.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// One line for a TEXT entity of the cut file.
///
/// Letters beyond ASCII stay: the writer escapes them as `\U+XXXX`, which readers turn back, but not
/// all of them, so signs that have a plain form take it. Beyond four hexadecimal digits there is no
/// such escape. Control characters would end the tag, and `%%` starts a control code of the format.
pub(crate) fn one_line(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.nfc() {
        match c {
            _ if c.is_control() => out.push(' '),
            '%' if out.ends_with('%') => out.push_str(" %"),
            '\u{10000}'.. => out.push('?'),
            _ => match plain_sign(c) {
                Some(sign) => out.push_str(sign),
                None => out.push(c),
            },
        }
    }
    out.trim().to_owned()
}

/// The same in 7 bits: accents fall off, letters that cannot come apart are spelled, the rest
/// becomes `?`.
pub(crate) fn seven_bit(text: &str) -> String {
    let line = one_line(text);
    if line.is_ascii() {
        return line;
    }
    let mut out = String::new();
    for c in line.nfkd().filter(|c| !is_combining_mark(*c)) {
        match c {
            ' '..='~' => out.push(c),
            _ => out.push_str(plain_sign(c).unwrap_or_else(|| spelled(c))),
        }
    }
    out
}

/// Signs that have a plain form.
fn plain_sign(c: char) -> Option<&'static str> {
    Some(match c {
        '–' | '—' | '−' | '‐' | '‑' => "-",
        '‘' | '’' | '′' => "'",
        '“' | '”' | '″' => "\"",
        '…' => "...",
        '×' => "x",
        '·' => ".",
        '±' => "+/-",
        '⁄' => "/",
        '≤' => "<=",
        '≥' => ">=",
        _ => return None,
    })
}

/// Letters that do not come apart into a base letter and an accent.
fn spelled(c: char) -> &'static str {
    match c {
        'ß' => "ss",
        'æ' => "ae",
        'Æ' => "AE",
        'œ' => "oe",
        'Œ' => "OE",
        'ø' => "o",
        'Ø' => "O",
        'ł' => "l",
        'Ł' => "L",
        'đ' | 'ð' => "d",
        'Đ' | 'Ð' => "D",
        'þ' => "th",
        'Þ' => "Th",
        'ı' => "i",
        _ => "?",
    }
}

/// The name of a block: capitals, digits and `_` only, at most 31, as old readers want it.
pub(crate) fn block_name(piece: &str, taken: &[String]) -> String {
    let plain: String = seven_bit(piece)
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_uppercase() } else { '_' })
        .take(28)
        .collect();
    let base = if plain.is_empty() { "PIECE".to_owned() } else { plain };
    let mut name = base.clone();
    let mut count = 1;
    while taken.contains(&name) {
        count += 1;
        name = format!("{base}_{count}");
    }
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_stays_on_its_line_and_starts_no_control_code() {
        assert_eq!(one_line("a\r\n0\nEOF"), "a  0 EOF");
        assert_eq!(one_line("60%%c"), "60% %c");
        assert!(!one_line("%%%%%").contains("%%"));
        assert_eq!(one_line("pair – łódź \u{1F9F5}"), "pair - łódź ?");
    }

    #[test]
    fn seven_bits_keep_what_can_be_kept() {
        assert_eq!(seven_bit("próba łódź – Größe ½"), "proba lodz - Grosse 1/2");
        assert_eq!(seven_bit("δοκιμή"), "??????");
        assert!(seven_bit("\u{1F9F5} нить").is_ascii());
    }

    #[test]
    fn block_names_differ() {
        let first = block_name("gusset lining", &[]);
        assert_eq!(first, "GUSSET_LINING");
        assert_eq!(block_name("gusset-lining", &[first]), "GUSSET_LINING_2");
        assert_eq!(block_name("", &[]), "PIECE");
        assert!(block_name(&"x".repeat(90), &[]).len() <= 31);
    }
}
