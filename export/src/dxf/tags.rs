//! The tag stream: pairs of a group code and a value, two lines each.

use crate::number::digits::push_whole;
use std::borrow::Cow;

/// One tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Tag<'a> {
    /// What the value means.
    pub(crate) code: i32,
    /// As written, without its line end.
    pub(crate) value: Cow<'a, str>,
}

impl<'a> Tag<'a> {
    /// A tag of this code and value.
    pub(crate) fn new(code: i32, value: impl Into<Cow<'a, str>>) -> Self {
        Self { code, value: value.into() }
    }

    /// The same, of nobody's text.
    pub(crate) fn owned(&self) -> Tag<'static> {
        Tag::new(self.code, self.value.clone().into_owned())
    }

    /// Is it this very tag?
    pub(crate) fn is(&self, code: i32, value: &str) -> bool {
        self.code == code && self.value == value
    }
}

/// Splits a text file of the format into its tags, up to the one that ends it; `Err` is the number of
/// a line that should hold a group code and does not.
///
/// A mark of the encoding in front, line ends of any system, and whatever follows the end do no harm.
pub(crate) fn read(text: &str) -> Result<Vec<Tag<'_>>, usize> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut tags = Vec::with_capacity(text.len() / 12);
    let mut lines = lines(text);
    let mut number = 1;
    while let Some(code) = lines.next() {
        match (code.trim().parse(), lines.next()) {
            (Ok(0), Some(value)) if value.trim() == END => {
                tags.push(Tag::new(0, value));
                break;
            }
            (Ok(code), Some(value)) => tags.push(Tag::new(code, value)),
            // An empty line at the end does no harm.
            (Err(_), None) if code.trim().is_empty() => {}
            _ => return Err(number),
        }
        number += 2;
    }
    Ok(tags)
}

/// The value of the last tag, of code 0.
pub(crate) const END: &str = "EOF";

/// Lines ended by LF, by CR and LF, or, where there is no LF at all, by CR.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    let end = if text.contains('\n') { '\n' } else { '\r' };
    text.split(end).map(|line| line.strip_suffix('\r').unwrap_or(line))
}

/// Writes tags after each other, with the line ends the format wants.
pub(crate) fn write<'t>(tags: impl Iterator<Item = &'t Tag<'t>>, out: &mut Vec<u8>) {
    for t in tags {
        push_code(out, t.code);
        out.extend_from_slice(t.value.as_bytes());
        out.extend_from_slice(b"\r\n");
    }
}

/// A group code, at least three places wide, on its own line.
pub(crate) fn push_code(out: &mut Vec<u8>, code: i32) {
    match u8::try_from(code) {
        // The codes of nearly every tag.
        Ok(code @ 0..10) => out.extend_from_slice(&[b' ', b' ', b'0' + code, b'\r', b'\n']),
        Ok(code @ 10..100) => out.extend_from_slice(&[b' ', b'0' + code / 10, b'0' + code % 10, b'\r', b'\n']),
        _ => {
            push_whole(out, i64::from(code));
            out.extend_from_slice(b"\r\n");
        }
    }
}
