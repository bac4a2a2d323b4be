//! What is said of the order of work.

use crate::finding::fact::WorkFact;
use crate::words::Speech;

pub(super) fn text(say: Speech, fact: &WorkFact) -> String {
    match fact {
        WorkFact::OverlapTooLong { overlap, half, .. } => format!(
            "its ends cannot be lapped by {}: half of the whole ring is {}",
            say.tape(*overlap),
            say.tape(*half)
        ),
        WorkFact::MissingStep { step, needs } => {
            format!("\"{}\" waits for \"{}\", which nobody does", step.name(), needs.name())
        }
        WorkFact::NoOrder { steps } => format!(
            "these steps wait for each other: {}",
            steps.iter().map(|step| step.name()).collect::<Vec<_>>().join(", ")
        ),
    }
}
