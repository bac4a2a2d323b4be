//! Why a command ends early.

use crate::answer::{Answer, End};
use crate::terminal;

/// Why a command ended early, ready to be shown.
#[derive(Debug)]
pub(super) struct Stop(pub(super) Answer);

impl Stop {
    /// The sheet was understood, and refused; `out` is for those who pipe it.
    pub(super) const fn refused(out: String, err: String) -> Self {
        Self(Answer { out, err, end: End::Refused })
    }

    /// The input cannot be used.
    pub(super) const fn unusable(err: String) -> Self {
        Self(Answer { out: String::new(), err, end: End::Unusable })
    }

    /// One thing that went wrong, and what to do.
    pub(super) fn plain(what: &str, next: &str) -> Self {
        Self::unusable(terminal::trouble(what, next))
    }
}
