//! `[elastic."NAME"]`: an elastic.

use super::key::PerElastic;
use super::row::{Absent, Kind, Sample};

rows! { PerElastic = PerElastic;
    WIDTH "width": Kind::Size(1.0, 200.0), Absent::Needed, "Whole width, decorative edge included.";
    PICOT "picot": Kind::Length(0.0, 100.0), Absent::Nothing("none"), "The decorative part of the width."
        .example(Sample::Mm(2.0));
    STRETCH "stretch": Kind::Percent(1.0, 500.0), Absent::Nothing("not known, and not checked"),
        "How far it can be stretched: ten of any unit that reach twenty are 100\u{a0}%." .example(Sample::Number(100.0));
    GROWTH "growth": Kind::Percent(-20.0, 60.0), Absent::Nothing("not known"),
        "How much longer it comes out after sewing; sew a sample on scrap and measure it."
        .example(Sample::Number(0.0));
    LATEX "latex": Kind::YesNo, Absent::Nothing("not known"), "Does it contain rubber latex?"
        .example(Sample::YesNo(false));
    PRICE "price": Kind::Price(0.0, 100_000.0), Absent::Nothing("not known, and not added up"),
        "What a metre of it costs, in your own money; on a sheet in inches, a yard."
        .example(Sample::Number(1.2));
    PULL "pull": Kind::Pull { stretch: 500.0, pull: 50_000.0, pairs: 100 },
        Absent::Nothing("without it the pressure is unknown"),
        "A pull test on one flat strip: stretch in %, and the pull in grams-force that holds it there, the same in \
         every unit." .example(Sample::Pull(&[(25.0, 60.0), (50.0, 110.0), (100.0, 220.0)]));
}
