//! What the machines are set to, told where it changes: numbers are those of the dials.

use crate::stitch::{Sewing, Span, Stitch};
use crate::words::number::short;

/// How the machines were set, and in which line of the card it is told.
#[derive(Default)]
pub(super) struct Machines(Vec<(Sewing, usize)>);

impl Machines {
    /// A stitch with its settings; by name and the line that tells them where they are told already.
    pub(super) fn set(&mut self, set: Sewing, line: usize) -> String {
        match self.0.iter().find(|(known, _)| *known == set) {
            Some((_, told)) => format!("{} (line {told})", name(set.stitch)),
            None => {
                self.0.push((set, line));
                setting(&set)
            }
        }
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

fn setting(set: &Sewing) -> String {
    let span = |Span { from, to }: Span| match from < to {
        true => format!("{}–{}", short(from, 1), short(to, 1)),
        false => short(from, 1),
    };
    let width = set.width.map(|w| format!("width {}", span(w)));
    let feed = set.differential.map(|d| format!("differential {}", span(d)));
    let length = format!("{} {}", if set.stitch == Stitch::ThreeStep { "steps" } else { "length" }, span(set.length));
    let said: Vec<String> =
        [Some(name(set.stitch).to_owned()), width, Some(length), feed].into_iter().flatten().collect();
    said.join(", ")
}
