//! Lengths and marks of elastics and bands, against figures worked out by hand.

use engine::elastic::{ElasticCut, Ends, Meeting};
use engine::garment::{Garment, OpeningWalk};
use engine::sheet::Opening;

/// An invented sheet, mm: a brief whose leg edge is 500 mm long, bound, so that the elastic's
/// length is taken along the edge itself.
fn sheet(top: &str, legs: &str, elastic: &str, units: &str) -> String {
    let of = |mm: f64| if units == "in" { mm / 25.4 } else { mm };
    format!(
        "[sheet]\nversion = 1\nname = \"elastics\"\nunits = \"{units}\"\n\
         [body]\nwaist_girth = {}\nhip_girth = {}\nwaist_to_hip = {}\ncrotch_length = {}\ncrotch_length_front = {}\n\
         thigh_girth = {}\nelastic_top = {}\n\
         [fabric]\nstretch_across = 60\nstretch_along = 40\n[style]\nbase = \"brief\"\nleg_edge = {}\n[gusset]\n[seams]\n\
         side = {}\n[finish.top]\n{top}\n[finish.legs]\n{legs}\n[elastic.soft]\nwidth = {}\nstretch = 120\n{elastic}\n",
        of(640.0),
        of(860.0),
        of(185.0),
        of(640.0),
        of(288.0),
        of(500.0),
        of(660.0),
        of(500.0),
        of(7.0),
        of(12.0),
    )
}

const TOP: &str = "kind = \"turned\"\nelastic = \"soft\"\nreduction = 8";

fn made(text: &str) -> Garment {
    let sheet = quarterpin::sheet::read(text, "sheet.toml")
        .unwrap_or_else(|p| panic!("{}", p.render(text, "sheet.toml", false)));
    engine::make(&sheet).unwrap_or_else(|e| panic!("{e}")).garment
}

fn opening(garment: &Garment, which: Opening) -> &OpeningWalk {
    garment.openings.iter().find(|o| o.opening == which).unwrap()
}

fn leg(legs: &str, elastic: &str) -> OpeningWalk {
    opening(&made(&sheet(TOP, legs, elastic, "mm")), Opening::LeftLeg).clone()
}

fn elastic(walk: &OpeningWalk) -> &ElasticCut {
    walk.elastic.as_ref().unwrap()
}

fn near(value: f64, wanted: f64, within: f64) -> bool {
    (value - wanted).abs() <= within
}

/// 500 mm of edge: 10 % shorter is 450 mm, sewn at 11.111 % stretch; 20 % shorter is 400 mm, at
/// 25 % (r/(1 − r), worked out).
#[test]
fn an_edge_of_500_mm_at_10_and_20_percent() {
    for (reduction, length, stretch) in [(10, 450.0, 11.111), (20, 400.0, 25.0)] {
        let walk = leg(&format!("kind = \"binding\"\nelastic = \"soft\"\nreduction = {reduction}"), "");
        assert!(near(walk.finished, 500.0, 0.05), "{}", walk.finished);
        assert!(near(elastic(&walk).finished_length, length, 0.05), "{:?}", walk.elastic);
        assert!(walk.sections.iter().all(|s| near(s.stretch.unwrap(), stretch, 0.001)), "{:?}", walk.sections);
    }
}

/// Percent of the edge and percent of the body are two bases: an elastic that is 660 mm on the
/// body is not 660 mm less 8 % of anything, and its reduction follows from the edge it meets.
#[test]
fn a_length_from_the_body_and_a_reduction_of_the_edge_are_told_apart() {
    let from_body = "kind = \"turned\"\nelastic = \"soft\"\nfrom = \"body\"";
    let legs = "kind = \"binding\"\nelastic = \"soft\"\nreduction = 10";
    let garment = made(&sheet(from_body, legs, "", "mm"));
    let top = opening(&garment, Opening::Top);
    let e = elastic(top);
    assert_eq!(e.basis, engine::sheet::Basis::Body);
    assert!(near(e.finished_length, 660.0, 1e-6), "{e:?}");
    // Turned: its line is the finished edge itself.
    assert!(near(e.reduction, 100.0 * (1.0 - 660.0 / top.finished), 1e-6), "{e:?}");
    let by_edge = made(&sheet(TOP, legs, "", "mm"));
    let e = elastic(opening(&by_edge, Opening::Top));
    assert!(matches!(e.basis, engine::sheet::Basis::Reduction(_)));
    assert!(near(e.finished_length, 0.92 * top.finished, 1e-6), "{e:?}");
}

/// 90 % of an edge that is already 10 % under the body is 81 % of the body (worked out).
#[test]
fn reductions_of_cloth_and_elastic_multiply() {
    let top = "kind = \"turned\"\nelastic = \"soft\"\nreduction = 10";
    let legs = "kind = \"binding\"\nelastic = \"soft\"\nreduction = 10";
    let text = sheet(top, legs, "", "mm").replace("[fabric]\n", "[fabric]\nease_across = -10\n");
    let text = text.replace("[body]\n", "[body]\ntop_edge_girth = 780\n");
    let garment = made(&text);
    let walk = opening(&garment, Opening::Top);
    assert!(near(elastic(walk).finished_length, 0.81 * 780.0, 0.01), "{:?}", walk.elastic);
    // Back to the body: 1/0.9 and 1/0.81.
    assert!(near(walk.worn.cloth_stretch, 11.111, 0.002) && near(walk.worn.stretch, 23.457, 0.002), "{:?}", walk.worn);
    // And in one number: 19 % shorter than the body.
    assert!(near(walk.worn.shorter(), 19.0, 0.002), "{:?}", walk.worn);
}

/// P = 2πT/(C·w) (Laplace) with the width that lies on the body: folded over the edge that is half
/// of the elastic's, lapped on it all of it.
#[test]
fn a_binding_presses_with_its_folded_width() {
    let pull = "pull = [[25, 60], [50, 110]]\n";
    for (kind, share) in [("binding", 0.5), ("lapped", 1.0)] {
        let walk = leg(&format!("kind = \"{kind}\"\nelastic = \"soft\"\nreduction = 10"), pull);
        let (worn, width) = (&walk.worn, share * elastic(&walk).width);
        let (tension, pressure) = (worn.tension_n.unwrap(), worn.pressure_kpa.unwrap());
        let by_hand = 1e3 * std::f64::consts::TAU * tension / (worn.girth * width);
        assert!(tension > 0.0 && near(pressure, by_hand, 1e-9), "{kind}: {worn:?}");
    }
}

/// Where the sheet gives no width, both bands leave two fifths of a short side seam; a long one has
/// the usual 30 and 20 mm (common practice).
#[test]
fn bands_follow_the_side_seam_where_no_width_is_given() {
    let band = "kind = \"band\"";
    for (side_seam, top, legs) in [(50.0, 18.0, 12.0), (100.0, 30.0, 20.0)] {
        let text = sheet(band, band, "", "mm").replace("[style]\n", &format!("[style]\nside_seam = {side_seam}\n"));
        let text = text.replace("leg_edge = 500\n", "");
        let garment = made(&text);
        for (which, width) in [(Opening::Top, top), (Opening::LeftLeg, legs)] {
            let band = opening(&garment, which).band.clone().unwrap();
            assert!(near(band.width, width, 1e-9), "{which:?}: {band:?}");
        }
        let is_band_width = |key: &str| key.starts_with("finish.") && key.ends_with(".width");
        let listed = garment.used.iter().filter(|u| is_band_width(&u.key.to_string()) && !u.note.is_empty()).count();
        assert_eq!(listed, 3, "each is listed with its reason");
    }
}

/// A ring laps by 2 cm, or by 1 in on a sheet in inches; a flat one runs through both seam
/// allowances (common practice).
#[test]
fn joinings_take_their_length() {
    let round = "kind = \"binding\"\nelastic = \"soft\"\nreduction = 10\nput_on = \"round\"";
    for (units, overlap) in [("mm", 20.0), ("in", 25.4)] {
        let garment = made(&sheet(TOP, round, "", units));
        let e = elastic(opening(&garment, Opening::LeftLeg)).clone();
        assert!(near(e.cut_length - e.finished_length, overlap, 1e-6), "{units}: {e:?}");
        assert!(matches!(e.joining.ends, Ends::Lapped(by) if near(by, overlap, 1e-6)), "{:?}", e.joining);
        assert_eq!(e.joining.at, Meeting::MiddleOfBack);
        let top = elastic(opening(&garment, Opening::Top)).clone();
        assert!(near(top.cut_length - top.finished_length, 14.0, 1e-4), "{units}: {top:?}");
    }
}

/// Growth in sewing is left off before: 4 % longer after, so 450/1.04 before.
#[test]
fn growth_in_sewing_is_compensated() {
    let walk = leg("kind = \"binding\"\nelastic = \"soft\"\nreduction = 10\nput_on = \"round\"", "growth = 4");
    let e = elastic(&walk);
    assert!(near(e.finished_length, 450.0, 0.05) && near(e.cut_length, e.finished_length / 1.04 + 20.0, 1e-6), "{e:?}");
    assert!(e.marks.iter().all(|m| m.along_elastic < e.finished_length / 1.04), "{:?}", e.marks);
    // Threaded, it is sewn along nothing.
    let walk = leg("kind = \"tunnel\"\nelastic = \"soft\"\nreduction = 10", "growth = 4");
    let e = elastic(&walk);
    assert!(near(e.cut_length, e.finished_length + 20.0, 1e-6), "{e:?}");
}

/// At 0 % an elastic is laid on flat and cut after, with some in hand.
#[test]
fn without_reduction_it_is_laid_on_flat_and_cut_after() {
    let walk = leg("kind = \"binding\"\nelastic = \"soft\"\nreduction = 0", "");
    let in_hand = elastic(&walk).in_hand.expect("it is laid on");
    assert!(near(in_hand, 589.7, 0.1), "{in_hand}");
    let walk = leg("kind = \"binding\"\nelastic = \"soft\"\nreduction = 5", "");
    assert_eq!(elastic(&walk).in_hand, None);
}

/// Marks go once round, in order, and the parts between them make up the whole, on elastic and
/// edge alike.
#[test]
fn marks_part_the_elastic_without_a_rest() {
    for marks in ["halves", "quarters", "eighths"] {
        for spread in ["even", "equal"] {
            let keys = format!("elastic = \"soft\"\nreduction = 10\nmarks = \"{marks}\"\nspread = \"{spread}\"");
            let garment =
                made(&sheet(&format!("kind = \"turned\"\n{keys}"), &format!("kind = \"binding\"\n{keys}"), "", "mm"));
            for walk in &garment.openings {
                let e = elastic(walk);
                let wanted = ["halves", "quarters", "eighths"].iter().position(|m| *m == marks).unwrap();
                assert_eq!(e.marks.len(), 2 << wanted, "{marks} {spread} {:?}", walk.opening);
                assert!(e.marks.windows(2).all(|w| w[0].along_elastic < w[1].along_elastic), "{:?}", e.marks);
                // Counted from where its ends meet, which is a mark or lies half way between two.
                let (first, part) = (&e.marks[0], 1.0 / e.marks.len() as f64);
                assert!(first.along_elastic < part * e.finished_length && first.along_edge < part * walk.cut, "{e:?}");
                let sections: f64 = walk.sections.iter().map(|s| s.elastic_length.unwrap()).sum();
                assert!(near(sections, e.finished_length, 1e-9));
                let parts: Vec<f64> = (0..e.marks.len())
                    .map(|i| {
                        let next =
                            e.marks.get(i + 1).map_or(e.finished_length + first.along_elastic, |m| m.along_elastic);
                        next - e.marks[i].along_elastic
                    })
                    .collect();
                if spread == "equal" {
                    let part = e.finished_length / parts.len() as f64;
                    assert!(parts.iter().all(|p| near(*p, part, 1e-6)), "{:?}: {parts:?}", walk.opening);
                } else {
                    // One stretch all round.
                    assert!(walk.sections.iter().all(|s| near(s.reduction.unwrap(), 10.0, 1e-9)));
                }
            }
        }
    }
}

/// On a top folded in equal parts the back, which takes more of the girth, is stretched more, and
/// that is said section by section.
#[test]
fn equal_parts_state_the_stretch_of_each_section() {
    let keys = "kind = \"turned\"\nelastic = \"soft\"\nreduction = 10\nspread = \"equal\"";
    let garment = made(&sheet(keys, "kind = \"raw\"", "", "mm"));
    let walk = opening(&garment, Opening::Top);
    for s in &walk.sections {
        let line = s.elastic_length.unwrap() * (1.0 + s.stretch.unwrap() / 100.0);
        assert!(near(line, s.finished, 1e-6), "turned: the line is the finished edge: {s:?}");
    }
    assert!(near(elastic(walk).reduction, 10.0, 1e-9));
}

/// Front 0 %, all the reduction in the back (common practice), and a whole length that leaves the
/// rest to the other sections.
#[test]
fn sections_may_have_their_own() {
    let walk = leg("kind = \"binding\"\nelastic = \"soft\"\nreduction = 0\nsections = { back = 12 }", "");
    let of = |name: &str| walk.sections.iter().find(|s| s.id.name() == name).unwrap();
    assert!(near(of("front").reduction.unwrap(), 0.0, 1e-9) && near(of("gusset").reduction.unwrap(), 0.0, 1e-9));
    assert!(near(of("back").elastic_length.unwrap(), 0.88 * of("back").finished, 1e-6));
    let walk = leg("kind = \"binding\"\nelastic = \"soft\"\nlength = 455\nsections = { front = 0 }", "");
    assert!(near(elastic(&walk).finished_length, 455.0, 1e-9));
    let of = |name: &str| walk.sections.iter().find(|s| s.id.name() == name).unwrap();
    assert!(near(of("front").reduction.unwrap(), 0.0, 1e-9));
    assert!(near(of("gusset").reduction.unwrap(), of("back").reduction.unwrap(), 1e-9));
}

/// A band is a strip of cloth: its length on the ring, two seam allowances more, doubled.
#[test]
fn a_band_is_a_piece_of_its_own() {
    let garment = made(&sheet(TOP, "kind = \"band\"\nreduction = 12\nwidth = 15", "", "mm"));
    let walk = opening(&garment, Opening::LeftLeg);
    let band = walk.band.as_ref().unwrap();
    assert!(walk.elastic.is_none());
    // Its line runs its own width inside the finished edge.
    assert!(near(band.length, 0.88 * walk.sewing, 1e-3), "{band:?} on {}", walk.sewing);
    assert!(near(band.cut_length, band.length + 14.0, 1e-9) && near(band.width, 15.0, 1e-9));
    let piece = garment.pieces.iter().find(|p| p.id == band.piece).unwrap();
    assert_eq!(piece.quantity, 2, "both legs are alike");
    assert!(near(piece.area_mm2, band.cut_length * (2.0 * 15.0 + 14.0), 1e-6));
    assert!(near(piece.perimeter_mm, 2.0 * (band.cut_length + 44.0), 1e-6));
    // Once it is doubled, every notch lies on its mate.
    let fold = 15.0;
    for notch in &piece.notches {
        let mate = piece.notches.iter().find(|n| Some(&n.id) == notch.mate.as_ref()).unwrap();
        assert!(near(notch.at.x, mate.at.x, 1e-9) && near(notch.at.y + mate.at.y, 2.0 * fold, 1e-9), "{notch:?}");
    }
    assert!(piece.notches.len() >= 6, "{:?}", piece.notches);
}

/// The table of common elastics can be copied from: every section is one that a sheet takes, and
/// each makes a garment with the finish that it is said to be for.
#[test]
fn common_elastics_can_be_used_as_they_stand() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/elastics.toml");
    let table = std::fs::read_to_string(path).unwrap();
    let names: Vec<&str> = table.lines().filter_map(|l| l.strip_prefix("[elastic.\"")?.split('"').next()).collect();
    assert!(names.len() > 10, "{names:?}");
    for name in names {
        let kind = match name.split(' ').next().unwrap() {
            "plush" => "turned",
            "picot" => "trim",
            "knitted" | "clear" => "encased",
            "braided" => "tunnel",
            "fold-over" => "binding",
            _ => "lapped",
        };
        let body =
            sheet(&format!("kind = \"{kind}\"\nelastic = \"{name}\"\nreduction = 8"), "kind = \"raw\"", "", "mm");
        // The table is in centimetres, this sheet in millimetres.
        let sections = table.split_once("[elastic").map(|(_, rest)| format!("[elastic{rest}")).unwrap();
        let sections = sections.split("[cloth").next().unwrap();
        let in_mm = sections
            .lines()
            .map(|l| match l.split_once(" = ") {
                Some((key @ ("width" | "picot"), v)) => format!("{key} = {}", v.parse::<f64>().unwrap() * 10.0),
                _ => l.to_owned(),
            })
            .collect::<Vec<_>>()
            .join("\n");
        let garment = made(&format!("{body}\n{in_mm}"));
        assert!(opening(&garment, Opening::Top).elastic.is_some(), "{name}");
    }
}

/// The body under an edge is the same whatever cloth goes over it: a woven top is widened until it
/// passes the hips, the girth that it is worn on is not.
#[test]
fn the_body_under_a_woven_is_the_body_under_a_knit() {
    let bound = "kind = \"binding\"\nelastic = \"soft\"\nreduction = 8\nput_on = \"round\"";
    let knit = sheet(bound, bound, "", "mm").replace("leg_edge = 500\n", "");
    let woven = knit
        .replace("stretch_across = 60\nstretch_along = 40", "kind = \"woven\"\nstretch_across = 6\nstretch_along = 4");
    assert!(knit != woven && !knit.contains("leg_edge"));
    let [knit, woven] = [knit, woven].map(|text| made(&text));
    for which in Opening::ALL {
        let girths = [&knit, &woven].map(|garment| opening(garment, which).worn.girth);
        assert!(near(girths[0], girths[1], 1e-6), "{}: {girths:?}", which.name());
    }
    let tops = [&knit, &woven].map(|garment| opening(garment, Opening::Top).finished);
    assert!(tops[1] > 860.0 - 1e-6 && tops[0] < 860.0, "only the woven passes the hips unstretched: {tops:?}");
}
