//! What the machines are set to, told where it changes: numbers are those of the dials.

use crate::stitch::{Sewing, Span, Stitch};
use crate::words::number::short;

/// How the machines were set, each setting under a letter.
#[derive(Default)]
pub(super) struct Machines(Vec<Sewing>);

impl Machines {
    /// A stitch and the letter of its settings, which are told the first time.
    pub(super) fn set(&mut self, set: Sewing) -> String {
        let known = self.0.iter().position(|known| *known == set);
        let letter = ('A'..='Z').nth(known.unwrap_or(self.0.len())).unwrap_or('Z');
        if known.is_some() {
            return format!("{} {letter}", name(set.stitch));
        }
        self.0.push(set);
        setting(&set, letter)
    }
}

const fn name(stitch: Stitch) -> &'static str {
    match stitch {
        Stitch::Lockstitch => "straight stitch",
        Stitch::Zigzag => "zigzag",
        Stitch::ThreeStep => "three-step zigzag",
        Stitch::Overlock => "overlock",
    }
}

fn setting(set: &Sewing, letter: char) -> String {
    let span = |Span { from, to }: Span| match from < to {
        true => format!("{}–{}", short(from, 1), short(to, 1)),
        false => short(from, 1),
    };
    let width = set.width.map(|w| format!("width {}", span(w)));
    let feed = set.differential.map(|d| format!("differential {}", span(d)));
    let length = format!("length {}", span(set.length));
    let said: Vec<String> =
        [Some(format!("{} {letter}", name(set.stitch))), width, Some(length), feed].into_iter().flatten().collect();
    said.join(", ")
}
