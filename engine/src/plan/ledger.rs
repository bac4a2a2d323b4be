//! The list of values in use, written as they are taken.

use crate::garment::{Source, Used, Value};
use crate::keys::{Absent, Key};
use crate::quantity::{Length, Ratio};

/// What is in use so far.
#[derive(Default)]
pub(super) struct Ledger {
    pub(super) used: Vec<Used>,
}

impl Ledger {
    fn note(&mut self, key: Key, value: Value, source: Source, note: &str) {
        self.used.push(Used { key, value, source, note: note.to_owned() });
    }

    /// What holds where the sheet does not say, in the words of the table of keys.
    fn otherwise(&mut self, key: Key, value: Value) {
        let row = key.row();
        let source = if matches!(row.absent, Absent::Estimated(_)) { Source::Estimated } else { Source::Default };
        self.note(key, value, source, row.otherwise());
    }

    pub(super) fn given_mm(&mut self, key: impl Into<Key>, length: Length) -> f64 {
        self.note(key.into(), Value::Mm(length.mm()), Source::Given, "");
        length.mm()
    }

    pub(super) fn optional_mm(&mut self, key: impl Into<Key>, length: Option<Length>) -> Option<f64> {
        length.map(|l| self.given_mm(key, l))
    }

    /// The given length, or what is taken for it, in millimetres.
    pub(super) fn mm(&mut self, key: impl Into<Key>, given: Option<Length>, otherwise: f64) -> f64 {
        if let Some(length) = given {
            return self.given_mm(key, length);
        }
        self.otherwise(key.into(), Value::Mm(otherwise));
        otherwise
    }

    /// Takes percent, hands back a fraction.
    pub(super) fn given_percent(&mut self, key: impl Into<Key>, ratio: Ratio) -> f64 {
        self.note(key.into(), Value::Percent(ratio.percent()), Source::Given, "");
        ratio.fraction()
    }

    /// The given ratio, or a default in percent; a fraction comes back.
    pub(super) fn percent(&mut self, key: impl Into<Key>, given: Option<Ratio>, default: f64) -> f64 {
        if let Some(ratio) = given {
            return self.given_percent(key, ratio);
        }
        self.otherwise(key.into(), Value::Percent(default));
        Ratio::from_percent(default).fraction()
    }

    /// A default in percent that has a reason of its own.
    pub(super) fn default_percent(&mut self, key: Key, default: Ratio, why: &str) {
        self.note(key, Value::Percent(default.percent()), Source::Default, why);
    }

    pub(super) fn number(&mut self, key: impl Into<Key>, given: Option<f64>, default: f64) -> f64 {
        self.choice(key.into(), given, default, Value::Number)
    }

    pub(super) fn given_word(&mut self, key: impl Into<Key>, word: &str) {
        self.note(key.into(), Value::Word(word.to_owned()), Source::Given, "");
    }

    /// The given choice, or the default one; listed with the word a sheet uses for it.
    pub(super) fn word<T: Copy + PartialEq>(
        &mut self,
        key: impl Into<Key>,
        words: &[(&'static str, T)],
        given: Option<T>,
        default: T,
    ) -> T {
        let word = |value| words.iter().find(|(_, v)| *v == value).map_or("", |(w, _)| *w);
        self.choice(key.into(), given, default, |value| Value::Word(word(value).to_owned()))
    }

    fn choice<T: Copy>(&mut self, key: Key, given: Option<T>, default: T, listed: impl Fn(T) -> Value) -> T {
        let value = given.unwrap_or(default);
        match given {
            Some(_) => self.note(key, listed(value), Source::Given, ""),
            None => self.otherwise(key, listed(value)),
        }
        value
    }
}

/// What was put into the sheet from other people's bodies is listed so.
pub(super) fn estimated(used: &mut [Used], keys: &[Key]) {
    for one in used.iter_mut().filter(|used| keys.contains(&used.key)) {
        one.source = Source::Estimated;
        BY_GIRTHS.clone_into(&mut one.note);
    }
}

const BY_GIRTHS: &str = "the mean of published bodies of such girths";
