//! The reports of one small, invented garment.

use super::*;
use engine::curve::Path as Curve;
use engine::elastic::*;
use engine::finding::Finding;
use engine::finding::fact::{BodyFact, ShapeFact, WornFact};
use engine::finish::FinishKind;
use engine::garment::*;
use engine::keys::{Key, body, fabric, finish, style};
use engine::quantity::Units;
use engine::sheet::{Basis, Opening, PutOn};
use engine::terms::{Extent, Section};
use engine::topology::*;
use kurbo::{Point, Vec2};
use std::path::{Path, PathBuf};

fn edge_ref(piece: PieceId, edge: EdgeId, half: Half) -> EdgeRef {
    EdgeRef { piece, edge: OutlineEdge::Half(edge), way: Way::Along, half }
}

fn square(side: f64) -> Outline {
    let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(Point::from);
    let half = OutlineEdge::Half;
    let edges = [half(EdgeId::FrontTop), half(EdgeId::FrontSide), half(EdgeId::FrontGusset), OutlineEdge::Centre];
    let edge = |i: usize| Edge { id: edges[i], path: Curve::line(corners[i], corners[(i + 1) % 4]) };
    Outline { edges: (0..4).map(edge).collect() }
}

fn piece() -> Piece {
    let notch = |mark: SeamMark, along: f64| Notch {
        id: NotchId::Seam { piece: PieceId::Front, side: None, edge: EdgeId::FrontTop, mark },
        edge: OutlineEdge::Half(EdgeId::FrontTop),
        to_stitches: 7.0,
        at: Point::new(along, 0.0),
        inward: Vec2::new(0.0, 1.0),
        along,
        mate: None,
    };
    Piece {
        id: PieceId::Front,
        quantity: 1,
        material: "cotton jersey".into(),
        extent: Extent::HalfOnFold,
        area_mm2: 2.0 * 150.0 * 150.0,
        perimeter_mm: 900.0,
        cut: square(150.0),
        sewing: square(150.0),
        finished: square(150.0),
        second_row: Vec::new(),
        folds: Vec::new(),
        notches: vec![notch(SeamMark::Pair, 100.0), notch(SeamMark::Middle, 25.0)],
    }
}

fn opening(opening: Opening, elastic: Option<ElasticCut>) -> OpeningWalk {
    let section = SectionWalk {
        id: SectionId { opening, section: Section::Front, side: Side::Left },
        from: Junction::Centre(PieceId::Front),
        to: Junction::Seam(SeamLine::Side, Side::Left),
        finished: 400.0,
        sewing: 390.0,
        cut: 410.0,
        reduction: Some(8.0),
        elastic_length: Some(368.0),
        stretch: Some(8.7),
    };
    OpeningWalk {
        opening,
        finish: FinishKind::named("turned").unwrap(),
        put_on: PutOn::Flat,
        finished: 800.0,
        sewing: 780.0,
        cut: 820.0,
        path: vec![edge_ref(PieceId::Front, EdgeId::FrontTop, Half::Plus)],
        sections: vec![section],
        elastic,
        band: None,
        gap: None,
        worn: Worn {
            girth: 880.0,
            girth_source: GirthSource::Measured,
            relaxed: 800.0,
            stretch: 9.6,
            cloth_stretch: 5.0,
            tension_n: None,
            pressure_kpa: None,
        },
    }
}

fn elastic() -> ElasticCut {
    let mark = |number, at, along: f64| Mark {
        number,
        place: MarkPlace::Junction(Opening::Top, at),
        along_elastic: along * 0.92,
        along_edge: along,
    };
    ElasticCut {
        name: "soft 12".into(),
        width: 12.0,
        reduction: 8.0,
        basis: Basis::Body,
        finished_length: 736.0,
        cut_length: 750.0,
        joining: Joining { ends: Ends::ThroughAllowances(7.0), at: Meeting::RightSideSeam, to_first_mark: 0.0 },
        growth: None,
        in_hand: None,
        price: None,
        marks: vec![
            mark(1, Junction::Seam(SeamLine::Side, Side::Left), 0.0),
            mark(2, Junction::Centre(PieceId::Front), 200.0),
        ],
    }
}

fn used(key: impl Into<Key>, value: Value, source: Source, note: &str) -> Used {
    Used { key: key.into(), value, source, note: note.into() }
}

fn garment() -> Garment {
    let seam = SeamWalk {
        id: SeamId::Side(Side::Left),
        a: edge_ref(PieceId::Front, EdgeId::FrontSide, Half::Plus),
        b: edge_ref(PieceId::Back, EdgeId::BackSide, Half::Minus),
        length_a: 90.0004,
        length_b: 90.0,
        difference: 0.0004,
        sewn_a: 80.0,
        sewn_b: 80.002,
    };
    let crossing = Crossing {
        id: CrossingId { opening: Opening::Top, seam: SeamId::Side(Side::Left) },
        a: edge_ref(PieceId::Front, EdgeId::FrontTop, Half::Plus),
        b: edge_ref(PieceId::Back, EdgeId::BackTop, Half::Minus),
        angle: 179.9996,
    };
    Garment {
        name: "first pair".into(),
        date: Some("2026-03-02".into()),
        units: Units::Cm,
        used: vec![
            used(body::WAIST_GIRTH, Value::Mm(740.0), Source::Given, ""),
            used(body::THIGH_GIRTH, Value::Mm(588.0), Source::Estimated, "from the hip girth"),
            used(fabric::EASE_ACROSS, Value::Percent(-8.0), Source::Default, "by its stretch"),
            used(style::FRONT_SCOOP, Value::Number(0.45), Source::Default, ""),
        ],
        pieces: vec![piece()],
        seams: vec![seam],
        crossings: vec![crossing],
        openings: vec![opening(Opening::Top, Some(elastic())), opening(Opening::LeftLeg, None)],
        elastics: vec![engine::elastic::ElasticTotal {
            name: "soft 12".into(),
            width: 12.0,
            cut_length: 780.0,
            in_hand: 780.0,
        }],
        checks: vec![
            BodyFact::Child.into(),
            WornFact::Tight { opening: Opening::Top, stretch: 62.5, most: 50.0 }.into(),
        ],
        order_of_work: Vec::new(),
        variants: Vec::new(),
        lays: Vec::new(),
    }
}

fn stripped(text: &str) -> String {
    anstream::adapter::strip_str(text).to_string()
}

fn summary_in(units: Units) -> String {
    let path = Path::new("out");
    stripped(&summary::render(&garment(), units, path, &[("first-pair.pdf", "to print at true size")]))
}

#[track_caller]
fn has(text: &str, words: &[&str]) {
    // Columns may move; the words of a line and their order may not.
    let found = text.lines().any(|l| l.split_whitespace().collect::<Vec<_>>().join(" ").contains(&words.join(" ")));
    assert!(found, "{words:?} not in\n{text}");
}

#[test]
fn the_summary_tells_what_to_know_before_cutting() {
    let text = summary_in(Units::Cm);
    has(&text, &["first pair, 2026-03-02"]);
    has(&text, &["front", "1", "cotton jersey", "30.0 x 15.0"]);
    has(&text, &["left side seam", "9.0", "9.0", "0.000"]);
    has(&text, &["top edge", "turned", "80.0", "soft 12", "78.0", "8 %", "75.0", "73.6", "10 %"]);
    has(&text, &["left leg", "turned", "80.0", "none"]);
    has(&text, &["top edge", "2", "centre front", "19.1", "20.0"]);
    has(&text, &["estimated body.thigh_girth 58.8 cm: from the hip girth"]);
    has(&text, &["fabric: ease_across -8 %"]);
    has(&text, &["style: front_scoop 0.45"]);
    has(&text, &["Checks: 1 warning, 1 note"]);
    has(&text, &["first-pair.pdf", "to print at true size"]);
    assert!(!text.contains("body.waist_girth"), "what was given is not repeated");
}

#[test]
fn legs_that_are_alike_are_told_once() {
    let mut garment = garment();
    garment.openings = [Opening::Top, Opening::LeftLeg, Opening::RightLeg].map(|o| opening(o, Some(elastic()))).into();
    for leg in [Opening::LeftLeg, Opening::RightLeg] {
        garment.used.push(used(finish::BITE.on(leg), Value::Mm(3.0), Source::Default, ""));
    }
    let text = stripped(&summary::render(&garment, Units::Cm, Path::new("out"), &[]));
    has(&text, &["either leg", "2", "centre front", "19.1", "20.0"]);
    has(&text, &["finish of either leg: bite 0.3 cm"]);
    assert_eq!(text.matches("centre front").count(), 2, "{text}");
    if let Some(right) = &mut garment.openings[2].elastic {
        right.marks.pop();
    }
    let text = stripped(&summary::render(&garment, Units::Cm, Path::new("out"), &[]));
    has(&text, &["right leg", "1", "left side seam", "0.7", "0.0"]);
    assert!(!text.contains("either leg  "), "{text}");
}

#[test]
fn the_most_serious_finding_comes_first() {
    let text = summary_in(Units::Cm);
    assert!(text.find("it will bite").unwrap() < text.find("for a child").unwrap());
}

#[test]
fn the_summary_speaks_the_sheet_s_unit() {
    has(
        &summary_in(Units::In),
        &["top edge", "turned", "31 1/2", "soft 12", "30 11/16", "8 %", "29 1/2", "29", "10 %"],
    );
    has(&summary_in(Units::Mm), &["top edge", "turned", "800", "soft 12", "780", "8 %", "750", "736", "10 %"]);
}

#[test]
fn the_walk_gives_every_length_in_the_sheet_s_unit() {
    let text = stripped(&walk::render(&garment(), Units::In));
    has(&text, &["seam", "a", "b", "a in", "b in", "a - b in"]);
    has(&text, &["left side seam", "front", "back", "3.5433", "3.5433", "0.0000"]);
    has(&text, &["left side seam", "front", "back", "3.1496", "3.1497", "-0.0001"]);
    has(&text, &["top edge", "left side seam", "180.000°"]);
    has(&text, &["front left", "centre front", "15.7480", "15.3543", "16.1417", "8 %", "14 1/2"]);
    has(&text, &["whole ring", "31.4961", "30.7087", "32.2835"]);
    assert!(!text.contains("mm"), "{text}");
    let text = stripped(&walk::render(&garment(), Units::Cm));
    has(&text, &["left side seam", "front", "back", "9.000", "9.000", "0.000"]);
}

#[test]
fn a_walk_fits_a_hundred_columns() {
    for (_, units) in Units::ALL {
        let text = stripped(&walk::render(&garment(), units));
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    }
}

#[test]
fn marks_are_listed_in_order_with_the_lengths_between_them() {
    let gaps = marks::gaps(&garment());
    let lengths: Vec<_> = gaps.iter().map(|g| (g.from.name(), g.to.name(), g.length)).collect();
    let wanted = [("start", "middle", 25.0), ("middle", "pair", 75.0), ("pair", "end", 50.0)];
    assert_eq!(lengths, wanted.map(|(from, to, mm)| (from.to_owned(), to.to_owned(), mm)));
    has(&stripped(&marks::render(&gaps, Units::Cm)), &["front", "top", "pair", "7.500"]);
}

#[test]
fn lines_end_clean_and_nothing_is_styled_away_from_a_terminal() {
    let text = summary_in(Units::Cm) + &stripped(&walk::render(&garment(), Units::Cm));
    for line in text.lines() {
        assert_eq!(line, line.trim_end());
        assert!(!line.contains('\u{1b}'));
    }
}

#[test]
fn a_refusal_says_where_why_and_what_next() {
    let short = |side| ShapeFact::SideSeamShort { seam: SeamId::Side(side), length: 4.0, least: 10.0 };
    let mut found = Finding::from(short(Side::Left));
    found.effects.push(short(Side::Right).into());
    let sheet = "[style]\nside_seam = 1\n";
    let text = stripped(&refusal::render(&PathBuf::from("a.toml"), sheet, &[found], Units::Cm));
    for words in [
        "error[shape.side_seam_short]",
        "style.side_seam: only 0.4 cm is left of the left side seam",
        "a.toml:2",
        "also style.side_seam: only 0.4 cm is left of the right side seam",
        "help: make style.side_seam larger, or take a narrower elastic or hem",
    ] {
        assert!(text.contains(words), "{words} not in\n{text}");
    }
}
