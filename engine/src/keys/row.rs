//! One row of the table of keys.

/// What a key takes and means.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// As it is written.
    pub name: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// What holds where it is not written.
    pub absent: Absent,
    /// How a person gets the value: one or two sentences.
    pub how: &'static str,
    /// What to know beside that; mostly empty.
    pub advice: &'static str,
    /// A value as one might write it.
    pub example: Sample,
}

/// What a key takes. Bounds are allowed themselves; those of lengths are mm.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A whole number between two.
    Count(i64, i64),
    /// Text of the person's own, on one line.
    Text,
    /// Text of the person's own, on any number of lines.
    Note,
    /// One of these words.
    Word(fn() -> Vec<&'static str>),
    /// The name of a finish, of the table of finishes.
    Finish,
    /// True or false.
    YesNo,
    /// A day.
    Date,
    /// A length that can also be nothing, or less than nothing.
    Length(f64, f64),
    /// A length of something that is there: never 0.
    Size(f64, f64),
    /// Percent.
    Percent(f64, f64),
    /// A share of one.
    Share(f64, f64),
    /// Money, of the person's own, between two.
    Price(f64, f64),
    /// A paper's name, or the width of a roll between two, mm.
    Paper(f64, f64),
    /// A pull test: stretch in % and grams-force, in pairs, each up to so much.
    Pull {
        /// %.
        stretch: f64,
        /// Grams-force.
        pull: f64,
        /// As many pairs.
        pairs: usize,
    },
    /// A reduction for each section of an edge, in percent between two.
    Sections(f64, f64),
}

/// What holds where a key is not written. The words say how the value comes about, as the end of a
/// sentence; the value itself stands in the list of values in use, or in the garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Absent {
    /// Without it the sheet is refused.
    Needed,
    /// A default, listed among the values in use; no words where it is the same for every sheet.
    Default(&'static str),
    /// An estimate of something that could be measured, listed among the values in use.
    Estimated(&'static str),
    /// The garment's own value.
    Derived(&'static str),
    /// Nothing is taken for it.
    Nothing(&'static str),
}

/// A value as one might write it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sample {
    /// None is shown.
    None,
    /// A length, mm.
    Mm(f64),
    /// A plain number: a count, percent, a share.
    Number(f64),
    /// A word or text.
    Text(&'static str),
    /// A day, year first.
    Date(&'static str),
    /// True or false.
    YesNo(bool),
    /// Reductions of sections, %.
    Sections(&'static [(&'static str, f64)]),
    /// Stretch in % and grams-force.
    Pull(&'static [(f64, f64)]),
}

impl Row {
    /// With what to know beside it.
    pub(super) const fn advice(self, advice: &'static str) -> Self {
        Self { advice, ..self }
    }

    /// With a value as one might write it.
    pub(super) const fn example(self, example: Sample) -> Self {
        Self { example, ..self }
    }

    /// What it is called beside its field.
    pub fn label(&self) -> String {
        self.name.replace('_', " ")
    }

    /// Must it be there, once its section is?
    pub const fn is_needed(&self) -> bool {
        matches!(self.absent, Absent::Needed)
    }

    /// The words of what holds where it is not written.
    pub const fn otherwise(&self) -> &'static str {
        match self.absent {
            Absent::Needed => "",
            Absent::Default(words) | Absent::Estimated(words) | Absent::Derived(words) | Absent::Nothing(words) => {
                words
            }
        }
    }
}

/// The words of a table of choices.
pub(super) fn words<T>(all: &[(&'static str, T)]) -> Vec<&'static str> {
    all.iter().map(|(word, _)| *word).collect()
}
