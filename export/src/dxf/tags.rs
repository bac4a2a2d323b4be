//! The tag stream: pairs of a group code and a value, two lines each.

use super::DxfError;

/// One tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Tag {
    /// What the value means.
    pub(super) code: i32,
    /// As written, without its line end.
    pub(super) value: String,
}

impl Tag {
    /// A tag of this code and value.
    pub(super) fn new(code: i32, value: impl Into<String>) -> Self {
        Self { code, value: value.into() }
    }

    /// Is it this very tag?
    pub(super) fn is(&self, code: i32, value: &str) -> bool {
        self.code == code && self.value == value
    }
}

/// Splits a text file of the format into its tags.
///
/// # Errors
/// Where it is no text or a code is no number.
pub(super) fn read(bytes: &[u8]) -> Result<Vec<Tag>, DxfError> {
    let text = std::str::from_utf8(bytes).map_err(|_| DxfError::Repair("its text is not readable"))?;
    let lines: Vec<&str> = text.lines().collect();
    let pair = |pair: &[&str]| match pair {
        [code, value] => code.trim().parse().ok().map(|code| Tag::new(code, *value)),
        _ => None,
    };
    lines.chunks(2).map(pair).collect::<Option<_>>().ok_or(DxfError::Repair("a group code is not a number"))
}

/// Writes tags as a text file of the format, with the line ends it wants.
pub(super) fn write(tags: &[Tag]) -> Vec<u8> {
    tags.iter().flat_map(|t| format!("{:>3}\r\n{}\r\n", t.code, t.value).into_bytes()).collect()
}
