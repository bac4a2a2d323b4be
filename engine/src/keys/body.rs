//! `[body]`: what was measured. Girths are full girths.

use super::key::Single;
use super::row::{Absent, Kind, Sample, words};
use crate::terms::WaistLevel;

/// Round a body: from a small child's waist to far beyond any adult's, and wide enough that
/// centimetres typed as inches still read.
const GIRTH: Kind = Kind::Size(200.0, 3000.0);

/// Across a body, between two rulers.
const RULED: Kind = Kind::Size(50.0, 1200.0);
/// 95 % of 1,986 women are within 17 to 23 mm of the estimate.
const BY_GIRTHS: Absent = Absent::Estimated("from the waist and hip girths");

rows! { Single = Single::Body;
    WAIST_GIRTH "waist_girth": GIRTH, Absent::Needed,
        "Round the body at the waist level, tape level and snug but not pulled in, after breathing out.";
    WAIST_LEVEL "waist_level": Kind::Word(|| words(&WaistLevel::ALL)), Absent::Default(""),
        "Where you took the waist: natural is the narrowest place, midway lies half way between the lowest rib and \
         the top of the hip bone (ISO 8559-1), navel is at the navel.";
    HIP_GIRTH "hip_girth": GIRTH, Absent::Needed,
        "Round the fullest part of the seat, feet together, tape level all the way round.";
    WAIST_TO_HIP "waist_to_hip": Kind::Size(20.0, 800.0), Absent::Needed,
        "Down the side, along the body, from the waist level to the level where you took the hip.";
    CROTCH_LENGTH "crotch_length": Kind::Size(200.0, 2500.0), Absent::Needed,
        "From the waist level in front, between the legs, up to the waist level at the back; tape close, not tight.";
    CROTCH_LENGTH_FRONT "crotch_length_front": Kind::Size(80.0, 1500.0),
        Absent::Estimated("45 % of the crotch length"),
        "The front part of the crotch length: from the waist level in front to the lowest point between the legs."
        .advice("Worth the trouble: half of all bodies are well off the estimate.");
    THIGH_GIRTH "thigh_girth": Kind::Size(150.0, 2000.0),
        Absent::Estimated("from the hip girth, give or take 3 %"),
        "Round the fullest part of the thigh, just below the crotch, standing.";
    WAIST_BREADTH "waist_breadth": RULED, BY_GIRTHS,
        "Side to side at the waist level: stand between two rulers or books held upright, and measure from one to the \
         other.";
    WAIST_DEPTH "waist_depth": RULED, BY_GIRTHS,
        "Front to back at the waist level, between two rulers held upright.";
    HIP_BREADTH "hip_breadth": RULED, BY_GIRTHS,
        "Side to side at the hip level, between two rulers held upright.";
    HIP_DEPTH "hip_depth": RULED, BY_GIRTHS,
        "Front to back at the hip level, between two rulers held upright.";
    TOP_EDGE_GIRTH "top_edge_girth": GIRTH, Absent::Derived("worked out from waist and hip"),
        "Round the body just where the top edge will sit." .example(Sample::Mm(830.0));
    LEG_LINE_GIRTH "leg_line_girth": Kind::Size(150.0, 2500.0), Absent::Derived("the same draft without ease"),
        "Round the leg on the slanting line where the leg edge will sit: over the hip bone for a high leg, round \
         under the seat." .example(Sample::Mm(610.0));
    ELASTIC_TOP "elastic_top": Kind::Size(150.0, 3000.0), Absent::Nothing("wanted for from = \"body\" below"),
        "Put the very elastic you will use round the body where the top edge will sit, pin it where it feels right, \
         see that it goes over the hips, take it off and measure the ring flat." .example(Sample::Mm(760.0));
    CHILD "child": Kind::YesNo, Absent::Nothing(""),
        "Say true for a child, so that the cautions for children are given." .example(Sample::YesNo(false));
}
