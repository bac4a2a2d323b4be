//! `[[trial]]`: what a test garment taught.

use super::finish::REDUCTIONS;
use super::key::PerTrial;
use super::row::{Absent, Kind, Sample, words};
use crate::terms::{Opening, Verdict};

rows! { PerTrial = PerTrial;
    DATE "date": Kind::Date, Absent::Nothing(""), "The day of the trial (US muslin)."
        .example(Sample::Date("2026-03-02"));
    EDGE "edge": Kind::Word(|| Opening::ALL.iter().map(|o| o.name()).collect()), Absent::Needed,
        "The edge that was judged." .example(Sample::Text("left leg"));
    REDUCTION "reduction": Kind::Percent(REDUCTIONS.0, REDUCTIONS.1), Absent::Nothing(""),
        "The reduction it was sewn with." .example(Sample::Number(10.0));
    VERDICT "verdict": Kind::Word(|| words(&Verdict::ALL)), Absent::Needed, "What the body said."
        .example(Sample::Text("tight"));
    NOTE "note": Kind::Note, Absent::Nothing(""), "Anything worth remembering."
        .example(Sample::Text("marks after an hour"));
}
