//! What is said about a file that came from anywhere.

use engine::finding::{Level, Measured};

/// A doubt about a file. It is told in millimetres: a file has no sheet whose unit it could speak.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Stable, for programs.
    pub code: &'static str,
    /// How serious it is.
    pub level: Level,
    /// A block, a line or another part of the file.
    pub place: String,
    /// Where there is a number to it.
    pub measured: Option<Measured>,
    /// What was found.
    pub text: String,
    /// What to do.
    pub next: String,
}
