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
        WorkFact::MissingStep { step, needs } => format!("\"{step}\" waits for \"{needs}\", which nobody does"),
        WorkFact::NoOrder { steps } => format!("these steps wait for each other: {}", steps.join(", ")),
    }
}
