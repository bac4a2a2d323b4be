//! `[fabric]`: the cloth.

use super::key::Single;
use super::row::{Absent, Kind, Sample, words};
use crate::terms::ClothKind;

rows! { Single = Single::Fabric;
    NAME "name": Kind::Text, Absent::Nothing("cloth"), "What you call the cloth. It is written on the pieces."
        .example(Sample::Text("cotton jersey"));
    KIND "kind": Kind::Word(|| words(&ClothKind::ALL)), Absent::Default(""), "Knitted or woven.";
    STRETCH_ACROSS "stretch_across": Kind::Percent(0.0, 400.0), Absent::Needed,
        "Fold test, from selvedge to selvedge: fold the cloth well inside its cut edge, mark ten of any unit on the \
         fold, pull until it resists, read: ten that reach sixteen are 60\u{a0}%.";
    STRETCH_ALONG "stretch_along": Kind::Percent(0.0, 400.0), Absent::Needed,
        "The same fold test along the length of the cloth.";
    WIDTH "width": Kind::Size(200.0, 6000.0), Absent::Nothing(""),
        "Usable width of the cloth, from selvedge to selvedge." .example(Sample::Mm(1500.0));
    PRICE "price": Kind::Price(0.0, 100_000.0), Absent::Nothing("not known, and not added up"),
        "What a metre of it costs, in your own money; on a sheet in inches, a yard."
        .example(Sample::Number(14.0));
    NAP "nap": Kind::YesNo, Absent::Nothing("no"),
        "Does the cloth have a nap, or a print with an upper end? Then all pieces lie the same way round." .example(Sample::YesNo(false));
    EASE_ACROSS "ease_across": Kind::Percent(-50.0, 60.0), Absent::Default("by its stretch, and so that the top edge passes over the hips"),
        "How much larger (+) or smaller (−) than the body the cloth is, round the body."
        .advice("By stretch: under 25\u{a0}% 0, 25–50 −4, 50–75 −8, more −10, nearer to 0 where the top edge would not pass over the hips; woven +4.");
    EASE_ALONG "ease_along": Kind::Percent(-50.0, 60.0), Absent::Default(""), "The same, up and down the body.";
    SHRINK_ACROSS "shrink_across": Kind::Percent(0.0, 30.0), Absent::Default(""),
        "Shrinkage still to come, across: mark a square, wash and dry it as you will the garment, measure again."
        .advice("Leave it at 0 if the cloth is already washed.");
    SHRINK_ALONG "shrink_along": Kind::Percent(0.0, 30.0), Absent::Default(""),
        "Shrinkage still to come, along the length of the cloth.";
}
