//! `[[trial]]`: what a test garment taught.

use super::finish::REDUCTIONS;
use super::key::{Edges, PerTrial};
use super::row::{Absent, Kind, Sample, words};
use crate::terms::{Section, Verdict};

rows! { PerTrial = PerTrial;
    DATE "date": Kind::Date, Absent::Nothing(""), "The day of the trial (US muslin)."
        .example(Sample::Date("2026-03-02"));
    EDGE "edge": Kind::Word(|| words(&Edges::WORDS)), Absent::Needed,
        "The edge, or both legs, that was judged." .example(Sample::Text("left leg"));
    SECTION "section": Kind::Word(|| words(&Section::ALL)), Absent::Nothing("all of the edge"),
        "The only part of the edge that was judged." .example(Sample::Text("back"));
    FINISH "finish": Kind::Finish, Absent::Nothing(""), "How it was finished." .example(Sample::Text("trim"));
    ELASTIC "elastic": Kind::Text, Absent::Nothing("taken as today's"), "The name of its elastic."
        .example(Sample::Text("soft 8"));
    REDUCTION "reduction": Kind::Percent(REDUCTIONS.0, REDUCTIONS.1), Absent::Nothing(""),
        "The reduction it was sewn with, of all that was judged." .example(Sample::Number(10.0));
    LENGTH "length": Kind::Size(100.0, 3000.0), Absent::Nothing(""), "The joined length that was sewn on."
        .example(Sample::Mm(560.0));
    SECTIONS "sections": Kind::Sections(REDUCTIONS.0, REDUCTIONS.1), Absent::Nothing(""),
        "The reduction of each section, where they differed." .example(Sample::Sections(&[("back", 10.0)]));
    WORN_STRETCH "worn_stretch": Kind::Percent(-60.0, 500.0), Absent::Nothing(""),
        "How far it was stretched on the body, as the program tells it: so it can be compared after a change of \
         elastic, cloth or shape." .example(Sample::Number(12.0));
    CLOTH "cloth": Kind::Text, Absent::Nothing("taken as today's"), "The name of the cloth."
        .example(Sample::Text("cotton jersey"));
    VERDICT "verdict": Kind::Word(|| words(&Verdict::ALL)), Absent::Needed, "What the body said."
        .example(Sample::Text("tight"));
    NOTE "note": Kind::Note, Absent::Nothing(""), "Anything worth remembering."
        .example(Sample::Text("marks after an hour"));
}
