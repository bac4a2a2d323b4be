//! `[[alternative]]`: what it is called and which edge it is for; the rest is a finish.

use super::key::{Edges, PerAlternative};
use super::row::{Absent, Kind, Sample, words};

rows! { PerAlternative = PerAlternative;
    NAME "name": Kind::Text, Absent::Needed, "What you call it. Blocks of one name belong together."
        .example(Sample::Text("bound legs"));
    EDGE "edge": Kind::Word(|| words(&Edges::WORDS)), Absent::Needed,
        "The edge, or both legs, that it finishes in another way." .example(Sample::Text("legs"));
}
