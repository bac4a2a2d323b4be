//! From the net draft to pieces that are cut: allowances, outlines, notches, and the openings as rings.

pub(crate) mod allowance;
pub(crate) mod drafted;
mod lengths;
pub(crate) mod pieces;
pub(crate) mod ring;
pub(crate) mod rings;

use crate::finding::Finding;
use crate::finding::fact::OutlineFact;
use crate::topology::Fault;

/// A fault of the program's own tables, which no sheet can mend.
pub(crate) fn unsound(fault: Fault) -> Finding {
    OutlineFact::Unsound(fault).into()
}
