//! What a finding says: its text, what to do, and where it is; one file per subject.

mod body;
mod cloth;
mod draft;
mod finish;
mod help;
mod shape;
mod work;
mod worn;

use super::Speech;
use crate::finding::{Fact, Finding, Help};

/// What is said of a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// A key of the sheet, dotted, or the name of a part.
    pub place: String,
    /// What was found, in one sentence.
    pub text: String,
    /// What to do.
    pub next: String,
}

impl Speech {
    /// What is said of a finding. Of its effects each has its own to say.
    pub fn finding(self, found: &Finding) -> Said {
        Said { place: found.place.to_string(), text: self.fact(&found.fact), next: help::next(self, found) }
    }

    /// What would help as the names of buttons: one for each key or word that can be chosen.
    pub fn buttons(self, help: &Help) -> Vec<String> {
        help::buttons(self, help)
    }

    /// Where a finding is, with the variant that it belongs to.
    pub fn place(self, found: &Finding) -> String {
        match &found.variant {
            Some(name) => format!("variant “{name}”, {}", found.place),
            None => found.place.to_string(),
        }
    }

    /// Why a garment is refused, in one line.
    pub fn refused(self, found: &[Finding]) -> String {
        let texts: Vec<String> = found.iter().map(|f| self.fact(&f.fact)).collect();
        format!("the garment is refused: {}", texts.join("; "))
    }

    fn fact(self, fact: &Fact) -> String {
        match fact {
            Fact::Body(fact) => body::text(self, fact),
            Fact::Draft(fact) => draft::text(self, fact),
            Fact::Shape(fact) => shape::text(self, fact),
            Fact::Gusset(fact) => shape::gusset(self, fact),
            Fact::Outline(fact) => shape::outline(self, fact),
            Fact::Cloth(fact) => cloth::text(fact),
            Fact::Elastic(fact) => cloth::elastic(self, fact),
            Fact::Finish(fact) => finish::text(self, fact),
            Fact::Edge(fact) => finish::edge(fact),
            Fact::Worn(fact) => worn::text(self, fact),
            Fact::Work(fact) => work::text(self, fact),
        }
    }
}

/// A list as it is spoken: `a, b or c`.
fn either(words: &[impl AsRef<str>]) -> String {
    let words: Vec<&str> = words.iter().map(AsRef::as_ref).collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
