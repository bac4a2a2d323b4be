//! What is found in a file.

use super::doubt::Doubt;
use engine::finding::{Level, Measured, Unit};

/// Doubts as they come.
#[derive(Default)]
pub(super) struct Found(Vec<Doubt>);

impl Found {
    pub(super) fn all(self) -> Vec<Doubt> {
        self.0
    }

    pub(super) fn add(&mut self, code: &'static str, level: Level, place: &str, text: String, next: &str) {
        let (place, next) = (place.to_owned(), next.to_owned());
        self.0.push(Doubt { code, level, place, measured: None, text, next });
    }

    /// With a measured value and what it may be, mm.
    pub(super) fn measured(
        &mut self,
        code: &'static str,
        place: &str,
        (value, limit): (f64, f64),
        text: String,
        next: &str,
    ) {
        self.add(code, Level::Warning, place, text, next);
        if let Some(last) = self.0.last_mut() {
            last.measured = Some(Measured { value, limit, unit: Unit::Mm });
        }
    }
}
