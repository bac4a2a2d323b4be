//! The values that stand in the commented sheet: invented, of one body that belongs to nobody.

use engine::base::Base;
use engine::finish::FinishKind;
use engine::keys::{
    Edges, Home, Key, Sample, alternative, body, elastic, fabric, finish, gusset, head, print, seams, style, variant,
};
use engine::quantity::Units;

/// What is written in the sheet: read as it stands, it makes a garment.
pub(super) fn written(units: Units) -> Vec<(Key, Sample)> {
    let mut all = vec![
        (head::VERSION.into(), Sample::Number(1.0)),
        (head::NAME.into(), Sample::Text("my first pair")),
        (head::UNITS.into(), Sample::Text(units.name())),
        (body::WAIST_GIRTH.into(), Sample::Mm(710.0)),
        (body::WAIST_LEVEL.into(), Sample::Text("natural")),
        (body::HIP_GIRTH.into(), Sample::Mm(970.0)),
        (body::WAIST_TO_HIP.into(), Sample::Mm(200.0)),
        (body::CROTCH_LENGTH.into(), Sample::Mm(710.0)),
        (fabric::NAME.into(), Sample::Text("cotton jersey")),
        (fabric::KIND.into(), Sample::Text("knit")),
        (fabric::STRETCH_ACROSS.into(), Sample::Number(60.0)),
        (fabric::STRETCH_ALONG.into(), Sample::Number(35.0)),
        (style::BASE.into(), Sample::Text(BASE)),
        (gusset::LAYERS.into(), Sample::Number(2.0)),
        (gusset::LINING.into(), Sample::Text("enclosed")),
        (seams::KIND.into(), Sample::Text("overlock")),
        (print::PAPER.into(), Sample::Text(if units == Units::In { "Letter" } else { "A4" })),
    ];
    all.extend(edge(Edges::Top, "turned", "soft 12"));
    all.extend(edge(Edges::Legs, "trim", "soft 8"));
    all.extend(soft("soft 12", 12.0, 2.0));
    all.extend(soft("soft 8", 8.0, 0.0));
    all
}

const BASE: &str = "brief";

/// An edge with the reduction that is usual to start with.
fn edge(edges: Edges, kind: &'static str, elastic: &'static str) -> [(Key, Sample); 6] {
    let usual = || {
        let opening = edges.openings().first()?;
        Some(FinishKind::named(kind)?.reductions().of(*opening, Base::named(BASE)?).0)
    };
    let reduction = usual().unwrap_or(0.0);
    [
        (finish::KIND.on(edges), Sample::Text(kind)),
        (finish::ELASTIC.on(edges), Sample::Text(elastic)),
        (finish::REDUCTION.on(edges), Sample::Number(reduction)),
        (finish::PUT_ON.on(edges), Sample::Text("flat")),
        (finish::MARKS.on(edges), Sample::Text("quarters")),
        (finish::SPREAD.on(edges), Sample::Text("even")),
    ]
}

fn soft(name: &str, width: f64, picot: f64) -> [(Key, Sample); 4] {
    [
        (elastic::WIDTH.of(name), Sample::Mm(width)),
        (elastic::PICOT.of(name), Sample::Mm(picot)),
        (elastic::STRETCH.of(name), Sample::Number(100.0)),
        (elastic::LATEX.of(name), Sample::YesNo(false)),
    ]
}

/// Sections that are only begun, behind `#`: they take any key of a finish.
pub(super) fn begun() -> Vec<(Key, Sample)> {
    vec![
        (finish::KIND.on(Edges::LeftLeg), Sample::Text("hem")),
        (finish::DEPTH.on(Edges::LeftLeg), Sample::None),
        (finish::KIND.on(Edges::RightLeg), Sample::Text("hem")),
        (finish::DEPTH.on(Edges::RightLeg), Sample::None),
        (alternative::NAME.in_alternative(1), Sample::Text("bound legs")),
        (alternative::EDGE.in_alternative(1), Sample::Text("legs")),
        (finish::KIND.in_alternative(1), Sample::Text("binding")),
        (finish::REDUCTION.in_alternative(1), Sample::Number(5.0)),
        (variant::NAME.in_variant(1), Sample::Text("a size up")),
    ]
}

/// What the variant that is begun changes.
pub(super) fn changed() -> [(Key, Sample); 3] {
    [
        (body::WAIST_GIRTH.into(), Sample::Mm(750.0)),
        (body::HIP_GIRTH.into(), Sample::Mm(1010.0)),
        (finish::REDUCTION.on(Edges::Top), Sample::Number(10.0)),
    ]
}

/// Is only the beginning of the section shown?
pub(super) const fn is_begun(home: &Home) -> bool {
    matches!(home, Home::Finish(Edges::LeftLeg | Edges::RightLeg) | Home::Alternative(_) | Home::Variant(_))
}

/// Every section as it stands in the sheet, in order.
pub(super) fn homes() -> Vec<Home> {
    use engine::keys::Single::{Body, Fabric, Gusset, Print, Seams, Sheet, Style};
    let mut all: Vec<Home> = [Sheet, Body, Fabric, Style, Gusset, Seams].map(Home::Single).into();
    all.extend(Edges::ALL.map(Home::Finish));
    all.push(Home::Alternative(1));
    all.push(Home::Variant(1));
    all.extend(["soft 12", "soft 8"].map(|name| Home::Elastic(name.to_owned())));
    all.push(Home::Single(Print));
    all.push(Home::Trial(1));
    all
}

/// Is it the first of the elastics?
pub(super) fn is_first_elastic(home: &Home) -> bool {
    homes().iter().find(|home| matches!(home, Home::Elastic(_))) == Some(home)
}
