//! Line endings, so that an edited text has every line's own again.

/// The lines of a text, each with its ending.
pub(super) struct Endings<'t> {
    lines: Vec<(&'t str, &'t str)>,
}

const WINDOWS: &str = "\r\n";
const UNIX: &str = "\n";

impl<'t> Endings<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let split = |line: &'t str| {
            let body = line.strip_suffix('\n').map_or(line, |rest| rest.strip_suffix('\r').unwrap_or(rest));
            (body, &line[body.len()..])
        };
        Self { lines: text.split_inclusive('\n').map(split).collect() }
    }

    /// The text with one kind of ending.
    pub(super) fn unified(&self) -> String {
        let line = |(body, ending): &(&str, &str)| format!("{body}{}", if ending.is_empty() { "" } else { UNIX });
        self.lines.iter().map(line).collect()
    }

    /// An edited text with the endings of the lines that were there; new lines get the usual one. An
    /// edit adds lines and changes some, and takes none away.
    pub(super) fn restored(&self, edited: &str) -> String {
        let windows = self.lines.iter().filter(|(_, ending)| *ending == WINDOWS).count();
        let usual = if 2 * windows > self.lines.len() { WINDOWS } else { UNIX };
        let new: Vec<&str> = edited.lines().collect();
        let mut old = 0;
        let mut out = String::with_capacity(edited.len() + new.len());
        for (i, line) in new.iter().enumerate() {
            let at = |n: usize| self.lines.get(n).map(|(body, _)| *body);
            let ending = self.lines.get(old).map_or("", |(_, ending)| *ending);
            out.push_str(line);
            if at(old) == Some(*line) {
                old += 1;
                out.push_str(if ending.is_empty() { usual } else { ending });
            } else if at(old).is_some()
                && (at(old + 1) == new.get(i + 1).copied() || at(old) != new.get(i + 1).copied())
            {
                // Changed in its place.
                old += 1;
                out.push_str(if ending.is_empty() { usual } else { ending });
            } else {
                out.push_str(usual);
            }
        }
        out
    }
}
