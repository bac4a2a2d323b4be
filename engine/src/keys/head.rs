//! `[sheet]`: what the file itself is.

use super::key::Single;
use super::row::{Absent, Kind, Sample, words};
use crate::quantity::Units;

rows! { Single = Single::Sheet;
    VERSION "version": Kind::Count(1, 1), Absent::Needed, "The version of this kind of file: 1.";
    NAME "name": Kind::Text, Absent::Needed,
        "A name for this pattern. It is written on every piece and becomes the file name.";
    UNITS "units": Kind::Word(|| words(&Units::ALL)), Absent::Needed,
        "The unit of every length in this file. With inches a length can also be a fraction in quotes: \"29\u{a0}1/2\".";
    DATE "date": Kind::Date, Absent::Nothing(""),
        "A day to print on the pieces, year first. No clock is read." .example(Sample::Date("2026-03-02"));
    DRAWER "drawer": Kind::Text, Absent::Nothing("all elastics are described here"),
        "A file beside this one with elastics and cloths of your own, each under its name: what is only named here is \
         described there, in the unit of that file." .example(Sample::Text("elastics.toml"));
}
