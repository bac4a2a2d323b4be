use super::*;
use engine::curve::Path;
use engine::elastic::Mark;
use engine::elastic::{ElasticCut, Ends, Joining, Meeting};
use engine::finding::fact::WornFact;
use engine::finish::FinishKind;
use engine::garment::{
    Edge, EdgeRef, Notch, OpeningWalk, Outline, Piece, SectionWalk, Source, Step, Used, Value, Worn,
};
use engine::garment::{GirthSource, Need, SeamWalk};
use engine::keys::{body, style};
use engine::quantity::Units;
use engine::sheet::{Basis, Opening, PutOn};
use engine::stitch::{Needle, Sewing};
use engine::terms::{Extent, Section};
use engine::topology::*;
use engine::work::{because::Because, doing::Doing, step::StepId};
use kurbo::{CubicBez, Line, PathSeg, Point, QuadBez, Vec2};
use serde_json::Value as Json;

fn side(way: Way, half: Half) -> EdgeRef {
    EdgeRef { piece: PieceId::Front, edge: OutlineEdge::Half(EdgeId::FrontSide), way, half }
}

fn piece() -> Piece {
    let curve = CubicBez::new((0.0, 0.0), (1.0, -0.0), (2.000_000_4, 3.5), (1.0 / 3.0, 4.0));
    let path = Path::new(vec![curve.into(), Line::new(curve.p3, (-1e-9, 5.0)).into()]);
    let outline = Outline { edges: vec![Edge { id: OutlineEdge::Half(EdgeId::FrontTop), path }] };
    Piece {
        id: PieceId::Front,
        quantity: 1,
        material: "cotton jersey".into(),
        extent: Extent::HalfOnFold,
        area_mm2: 12.345_678_94,
        perimeter_mm: 20.0,
        cut: outline.clone(),
        sewing: outline.clone(),
        finished: outline,
        second_row: Vec::new(),
        folds: Vec::new(),
        notches: vec![Notch {
            id: NotchId::Seam { piece: PieceId::Front, side: None, edge: EdgeId::FrontSide, mark: SeamMark::Middle },
            edge: OutlineEdge::Half(EdgeId::FrontSide),
            to_stitches: 7.0,
            at: Point::new(1.0, 2.0),
            along: 3.0,
            inward: Vec2::new(0.0, 1.0),
            mate: None,
        }],
    }
}

fn opening() -> OpeningWalk {
    OpeningWalk {
        opening: Opening::LeftLeg,
        finish: FinishKind::named("trim").unwrap(),
        put_on: PutOn::Flat,
        finished: 560.0,
        sewing: 555.5,
        cut: 550.0,
        path: vec![side(Way::Along, Half::Minus)],
        sections: vec![SectionWalk {
            id: SectionId { opening: Opening::LeftLeg, section: Section::Back, side: Side::Left },
            from: Junction::Seam(SeamLine::BackGusset, Side::Left),
            to: Junction::Seam(SeamLine::Side, Side::Left),
            finished: 300.0,
            sewing: 299.0,
            cut: 298.0,
            reduction: Some(10.0),
            elastic_length: Some(269.1),
            stretch: None,
        }],
        elastic: Some(ElasticCut {
            name: "soft 8".into(),
            width: 8.0,
            reduction: 3.0,
            basis: Basis::Body,
            finished_length: 540.0,
            cut_length: 554.0,
            joining: Joining { ends: Ends::ThroughAllowances(7.0), at: Meeting::SideSeam, to_first_mark: 0.0 },
            growth: None,
            in_hand: None,
            price: None,
            marks: vec![Mark {
                number: 1,
                place: MarkPlace::Junction(Opening::LeftLeg, Junction::Seam(SeamLine::Side, Side::Left)),
                along_elastic: 0.0,
                along_edge: 0.0,
            }],
        }),
        band: None,
        gap: None,
        worn: Worn {
            girth: 600.0,
            girth_source: GirthSource::Measured,
            relaxed: 550.0,
            stretch: 8.0,
            cloth_stretch: 4.0,
            tension_n: None,
            pressure_kpa: None,
        },
    }
}

fn garment() -> Garment {
    Garment {
        variants: Vec::new(),
        lays: Vec::new(),
        name: "erste Größe ≤ 2".into(),
        date: None,
        units: Units::Cm,
        used: vec![
            Used { key: body::HIP_GIRTH.into(), value: Value::Mm(980.0), source: Source::Given, note: String::new() },
            Used {
                key: style::BASE.into(),
                value: Value::Word("brief".into()),
                source: Source::Default,
                note: "n".into(),
            },
        ],
        pieces: vec![piece()],
        seams: vec![SeamWalk {
            id: SeamId::Side(Side::Left),
            a: side(Way::Along, Half::Minus),
            b: side(Way::Back, Half::Plus),
            length_a: 90.0,
            length_b: 90.0,
            difference: -0.0,
            sewn_a: 85.0,
            sewn_b: 85.0,
        }],
        crossings: vec![engine::garment::Crossing {
            id: CrossingId { opening: Opening::Top, seam: SeamId::Side(Side::Left) },
            a: side(Way::Along, Half::Minus),
            b: side(Way::Back, Half::Plus),
            angle: 180.0,
        }],
        openings: vec![opening()],
        elastics: vec![engine::elastic::ElasticTotal {
            name: "soft 8".into(),
            width: 8.0,
            cut_length: 1200.5,
            in_hand: 1200.5,
        }],
        checks: vec![finding()],
        order_of_work: vec![Step {
            id: StepId::LastLook,
            doing: Doing::LastLook,
            length: None,
            sewing: Some(Sewing::zigzag()),
            needle: Some(Needle::Stretch),
            needs: vec![Need { step: StepId::Cut(PieceId::Front), because: Because::IsCut }],
            caution: None,
        }],
    }
}

fn finding() -> Finding {
    WornFact::Tight { opening: Opening::Top, stretch: 62.5, most: 50.0 }.into()
}

fn read(text: &str) -> Json {
    serde_json::from_str(text).unwrap()
}

fn keys(value: &Json) -> String {
    value.as_object().unwrap().keys().map(String::as_str).collect::<Vec<_>>().join(" ")
}

#[test]
fn keys_stand_in_the_agreed_order() {
    let text = json(&garment()).unwrap();
    assert!(text.ends_with("}\n") && text.starts_with("{\n  \"version\": 1,\n  \"program\": \"quarterpin\",\n"));
    let v = read(&text);
    assert_eq!(
        keys(&v),
        "version program name units used pieces seams crossings openings elastics checks order_of_work shopping"
    );
    assert_eq!(v["units"], "mm");
    for (place, expected) in [
        ("/used/0", "key value source note"),
        ("/pieces/0", "name quantity material on_fold area_mm2 perimeter_mm cut sewing finished notches"),
        ("/pieces/0/cut/0", "edge d"),
        ("/pieces/0/notches/0", "id edge at along inward mate"),
        ("/seams/0", "name a b length_a length_b difference sewn_a sewn_b"),
        ("/seams/0/a", "piece edge reverse mirrored"),
        ("/crossings/0", "opening seam a b angle"),
        ("/openings/0", "name finish put_on finished sewing cut path sections elastic band gap worn"),
        ("/openings/0/sections/0", "name from to finished sewing cut reduction elastic_length stretch"),
        ("/openings/0/elastic", "name width reduction basis finished_length cut_length in_hand joining marks"),
        ("/openings/0/elastic/marks/0", "label place along_elastic along_edge from_cut_end"),
        ("/openings/0/worn", "girth girth_source relaxed stretch cloth_stretch tension_n pressure_kpa"),
        ("/elastics/0", "name width cut_length in_hand"),
        ("/checks/0", "code level place variant value limit unit text next helps effects"),
        ("/order_of_work/0", "step title does edge length stitch machine needs because caution"),
    ] {
        assert_eq!(keys(v.pointer(place).unwrap()), expected, "{place}");
    }
}

#[test]
fn numbers_have_six_decimals_and_no_minus_zero() {
    let text = json(&garment()).unwrap();
    let v = read(&text);
    assert_eq!(v["pieces"][0]["area_mm2"], 12.345679);
    assert_eq!(v["pieces"][0]["cut"][0]["d"], "M 0 0 C 1 0 2 3.5 0.333333 4 L 0 5");
    assert!(text.contains("\"difference\": 0.0"));
    assert!(!text.contains("-0"));
    assert_eq!(v["openings"][0]["band"], Json::Null);
    assert_eq!(v["used"][1]["value"], "brief");
    assert_eq!(v["seams"][0]["b"]["reverse"], true);
}

#[test]
fn a_quadratic_becomes_the_same_curve_as_a_cubic() {
    let quad = QuadBez::new((0.0, 0.0), (3.0, 6.0), (6.0, 0.0));
    let path = Path::new(vec![PathSeg::Quad(quad)]);
    assert_eq!(At::root(Speech(Units::Mm)).path(&path).unwrap(), "M 0 0 C 2 4 4 4 6 0");
}

#[test]
fn what_is_no_number_is_refused_by_its_place() {
    let mut bad = garment();
    bad.openings[0].sections[0].sewing = f64::NAN;
    let message = json(&bad).unwrap_err().to_string();
    assert!(message.contains("openings[0].sections[0].sewing is NaN"), "{message}");

    let mut bad = garment();
    bad.pieces[0].sewing.edges[0].path = Path::line(Point::ZERO, Point::new(0.0, f64::INFINITY));
    let message = json(&bad).unwrap_err().to_string();
    assert!(message.contains("pieces[0].sewing[0].d is inf"), "{message}");
    // A part that is not asked for is not looked at.
    parts(&bad, &[Part::Seams]).unwrap();
}

#[test]
fn parts_come_alone_in_the_same_shape() {
    let garment = garment();
    let whole = read(&json(&garment).unwrap());
    let some = read(&parts(&garment, &[Part::Openings, Part::Seams, Part::Crossings]).unwrap());
    assert_eq!(keys(&some), "version program name units seams crossings openings elastics");
    for key in ["seams", "crossings", "openings", "elastics"] {
        assert_eq!(some[key], whole[key]);
    }
    let checks = read(&findings(&garment.name, garment.units, &garment.checks).unwrap());
    assert_eq!(checks, read(&parts(&garment, &[Part::Checks]).unwrap()));
}

#[test]
fn the_same_garment_gives_the_same_bytes() {
    assert_eq!(json(&garment()).unwrap(), json(&garment()).unwrap());
}
