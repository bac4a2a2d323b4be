//! What is said of the order of work.

use crate::finding::fact::WorkFact;
use crate::words::Speech;

pub(super) fn text(say: Speech, fact: &WorkFact) -> String {
    match fact {
        WorkFact::OverlapTooLong { overlap, ring, .. } => {
            format!("the ends of a ring of {} cannot be lapped {}", say.tape(*ring), say.tape(*overlap))
        }
        WorkFact::MissingStep { step, needs } => format!("\"{step}\" waits for \"{needs}\", which nobody does"),
        WorkFact::NoOrder { steps } => format!("these steps wait for each other: {}", steps.join(", ")),
    }
}
