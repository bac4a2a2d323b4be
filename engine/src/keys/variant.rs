//! `[[variant]]`: what it is called; the rest are keys of the sections that it lays over the sheet.

use super::key::PerVariant;
use super::row::{Absent, Kind, Sample};

rows! { PerVariant = PerVariant;
    NAME "name": Kind::Text, Absent::Needed, "What you call it, such as a size or a cloth."
        .example(Sample::Text("a size up"));
}
