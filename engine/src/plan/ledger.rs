//! The list of values in use, written as they are taken.

use crate::garment::{Source, Used, Value};
use crate::quantity::{Length, Ratio};

/// What is in use so far.
#[derive(Default)]
pub(super) struct Ledger {
    pub(super) used: Vec<Used>,
}

impl Ledger {
    fn note(&mut self, key: &str, value: Value, source: Source, note: &str) {
        self.used.push(Used { key: key.to_owned(), value, source, note: note.to_owned() });
    }

    pub(super) fn given_mm(&mut self, key: &str, length: Length) -> f64 {
        self.note(key, Value::Mm(length.mm()), Source::Given, "");
        length.mm()
    }

    pub(super) fn optional_mm(&mut self, key: &str, length: Option<Length>) -> Option<f64> {
        length.map(|l| self.given_mm(key, l))
    }

    pub(super) fn estimated_mm(&mut self, key: &str, mm: f64, note: &str) -> f64 {
        self.note(key, Value::Mm(mm), Source::Estimated, note);
        mm
    }

    /// The given length, or a default in millimetres.
    pub(super) fn mm(&mut self, key: &str, given: Option<Length>, default: f64, note: &str) -> f64 {
        if let Some(length) = given {
            return self.given_mm(key, length);
        }
        self.note(key, Value::Mm(default), Source::Default, note);
        default
    }

    /// Takes percent, hands back a fraction.
    pub(super) fn given_percent(&mut self, key: &str, ratio: Ratio) -> f64 {
        self.note(key, Value::Percent(ratio.percent()), Source::Given, "");
        ratio.fraction()
    }

    /// The given ratio, or a default in percent; a fraction comes back.
    pub(super) fn percent(&mut self, key: &str, given: Option<Ratio>, default: f64, note: &str) -> f64 {
        if let Some(ratio) = given {
            return self.given_percent(key, ratio);
        }
        self.note(key, Value::Percent(default), Source::Default, note);
        Ratio::from_percent(default).fraction()
    }

    pub(super) fn number(&mut self, key: &str, given: Option<f64>, default: f64) -> f64 {
        let source = if given.is_some() { Source::Given } else { Source::Default };
        let value = given.unwrap_or(default);
        self.note(key, Value::Number(value), source, "");
        value
    }

    pub(super) fn given_word(&mut self, key: &str, word: &str) {
        self.note(key, Value::Word(word.to_owned()), Source::Given, "");
    }

    /// The given choice, or the default one; listed with the word a sheet uses for it.
    pub(super) fn word<T: Copy + PartialEq>(
        &mut self,
        key: &str,
        words: &[(&'static str, T)],
        given: Option<T>,
        default: T,
    ) -> T {
        let source = if given.is_some() { Source::Given } else { Source::Default };
        let value = given.unwrap_or(default);
        let word = words.iter().find(|(_, v)| *v == value).map_or("", |(w, _)| *w);
        self.note(key, Value::Word(word.to_owned()), source, "");
        value
    }
}
