//! What the files of a sheet are called.

use unicode_normalization::UnicodeNormalization;

/// Long enough for any name that a person reads, short enough for every file system.
const STEM_BYTES: usize = 80;

/// Used where nothing of a name is left.
const NAMELESS: &str = "pattern";

/// The file name, without an ending, of a sheet's name: NFC; each run of characters other than
/// letters, digits and `._-` becomes `-`; ends trimmed; at most 80 bytes. A name that is empty
/// then, or that means a device on some system, becomes `pattern`.
pub fn stem(name: &str) -> String {
    let mut stem = String::new();
    for c in name.nfc() {
        let kept = c.is_alphanumeric() || matches!(c, '.' | '_' | '-');
        match (kept, stem.ends_with('-')) {
            (true, _) => stem.push(c),
            (false, false) => stem.push('-'),
            (false, true) => {}
        }
    }
    let stem = trimmed(&stem);
    let stem = trimmed(shortened(stem));
    if stem.is_empty() || is_reserved(stem) { NAMELESS.to_owned() } else { stem.to_owned() }
}

/// As many whole characters as fit.
fn shortened(stem: &str) -> &str {
    let mut end = stem.len().min(STEM_BYTES);
    while !stem.is_char_boundary(end) {
        end -= 1;
    }
    &stem[..end]
}

/// A leading dot hides a file, a leading dash looks like an option, an ending dot is lost on
/// some systems.
fn trimmed(stem: &str) -> &str {
    stem.trim_matches(['-', '.'])
}

/// Device names of Windows, with or without an ending.
fn is_reserved(stem: &str) -> bool {
    const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "conin", "conout"];
    let first = stem.split('.').next().unwrap_or(stem).to_lowercase();
    let numbered = first.strip_prefix("com").or_else(|| first.strip_prefix("lpt"));
    let is_port = numbered.is_some_and(|n| n.chars().count() == 1 && n.chars().all(char::is_numeric));
    is_port || DEVICES.contains(&first.as_str())
}
