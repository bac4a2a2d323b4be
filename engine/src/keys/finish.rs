//! `[finish.top]`, `[finish.legs]` and each leg's own: how an edge is finished.

use super::key::{Field, PerEdge};
use super::row::{Absent, Kind, Sample, words};
use crate::terms::{Marks, PutOn, Reach, Spread};

/// Lowest and highest reduction, %.
pub const REDUCTIONS: (f64, f64) = (-20.0, 60.0);

const USUAL: Absent = Absent::Default("");

rows! { PerEdge = PerEdge;
    KIND "kind": Kind::Finish, Absent::Nothing("needed on every edge"),
        "How this edge is finished." .example(Sample::Text("hem"));
    ELASTIC "elastic": Kind::Text, Absent::Nothing("needed where the finish takes one"),
        "The name of one of the elastics of this sheet." .example(Sample::Text("soft 8"));
    REDUCTION "reduction": Kind::Percent(REDUCTIONS.0, REDUCTIONS.1),
        Absent::Default("usual for the finish at this edge"),
        "How much shorter than its line on the edge the elastic is; 0 lays it flat." .example(Sample::Number(5.0))
        .advice("To start from, common practice, and what holds without it: at a top at the waist 5, lower down 8, so that it stays up; at a leg 0 for an edging that is laid on, 5 where elastic is sewn down, so that it hugs; in a tunnel 10, lower down 12; a band 10. The ease of the cloth comes on top: worn, 10 to 20\u{a0}% of stretch in all is usual.");
    LENGTH "length": Kind::Size(100.0, 3000.0), Absent::Derived("what the reduction gives"),
        "The joined length of the elastic, in place of a reduction." .example(Sample::Mm(760.0));
    FROM "from": Kind::Word(|| vec!["body"]), Absent::Nothing("in place of reduction"),
        "\"body\" takes the elastic's length from body.elastic_top, in place of a reduction; top edge only."
        .example(Sample::Text("body"));
    PUT_ON "put_on": Kind::Word(|| words(&PutOn::ALL)), USUAL,
        "flat: before the last seam of this edge is closed; round: on the closed edge.";
    MARKS "marks": Kind::Word(|| words(&Marks::ALL)), USUAL, "How many matching marks on elastic and edge.";
    SPREAD "spread": Kind::Word(|| words(&Spread::ALL)), USUAL,
        "even: the same stretch all round, marks on seams and centres; equal: the elastic folded in equal parts.";
    SECTIONS "sections": Kind::Sections(REDUCTIONS.0, REDUCTIONS.1), Absent::Nothing("a leg's back can carry more"),
        "A reduction of its own for front, gusset or back." .example(Sample::Sections(&[("back", 10.0)]));
    OVERLAP "overlap": Kind::Length(0.0, 150.0), USUAL,
        "How far the ends of a ring of elastic lie over each other.";
    BITE "bite": Kind::Size(0.5, 40.0), USUAL,
        "From the raw edge to the inner swing of the zigzag, where the fold forms." .example(Sample::Mm(3.0));
    REACH "reach": Kind::Word(|| words(&Reach::ALL)), USUAL,
        "keep: the elastic ends at the finished edge; add: it stands out beyond it." .example(Sample::Text("keep"));
    LAP "lap": Kind::Size(0.5, 60.0), USUAL,
        "How far a lapped elastic lies on the cloth; never more than its width." .example(Sample::Mm(6.0));
    ROOM "room": Kind::Length(0.0, 60.0), USUAL, "Room for the elastic to move in a tunnel (US casing)."
        .example(Sample::Mm(3.0));
    CATCH "catch": Kind::Length(0.0, 40.0), USUAL, "Cloth beyond the stitches that hold a tunnel (US casing)."
        .example(Sample::Mm(2.0));
    TURN "turn": Kind::Length(0.0, 60.0), USUAL, "Turned under at the raw edge of a tunnel; 0 on jersey."
        .example(Sample::Mm(0.0));
    DEPTH "depth": Kind::Size(3.0, 200.0), USUAL, "How deep a hem is folded in." .example(Sample::Mm(7.0));
    WIDTH "width": Kind::Size(3.0, 400.0),
        Absent::Default("narrower where the side seam is short"), "Finished width of a band." .example(Sample::Mm(20.0));
}

/// Every key of a finish, in the order of a sheet.
pub fn all() -> impl Iterator<Item = Field<PerEdge>> {
    ROWS.iter().map(|row| Field::new(PerEdge, row))
}

/// The key of this name.
pub fn named(name: &str) -> Option<Field<PerEdge>> {
    all().find(|field| field.name() == name)
}
