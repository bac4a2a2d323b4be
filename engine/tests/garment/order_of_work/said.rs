//! What the steps say: allowances and their direction, marks and the places they meet, stitches.

use super::choices::{Choices, Edge, KINDS, Layers};
use engine::finish::task::Caution;
use engine::garment::{Garment, Step};
use engine::quantity::Units;
use engine::sheet::{ClothKind, Opening, PerOpening, PutOn, SeamKind};
use engine::stitch::Needle;
use engine::terms::Extent;
use engine::words::{Speech, work as words};

fn choices(edge: Edge) -> Choices {
    Choices {
        edges: PerOpening::from_fn(|_| edge),
        layers: Layers::Enclosed,
        cloth: ClothKind::Knit,
        seams: SeamKind::Overlock,
    }
}

const fn flat(kind: &'static str) -> Edge {
    Edge { kind, put_on: PutOn::Flat, reduction: 5 }
}

fn made(choices: &Choices) -> Garment {
    engine::make(&choices.sheet()).unwrap_or_else(|e| panic!("{choices:?}: {e}")).garment
}

fn step<'g>(garment: &'g Garment, name: &str) -> &'g Step {
    garment.order_of_work.iter().find(|s| s.id.name() == name).unwrap_or_else(|| panic!("no step \"{name}\""))
}

/// What a step says in the sheet's unit: these are in cm.
fn does(garment: &Garment, name: &str) -> String {
    said(step(garment, name))
}

fn said(step: &Step) -> String {
    words::does(step, Speech(Units::Cm))
}

fn has(garment: &Garment, name: &str) -> bool {
    garment.order_of_work.iter().any(|s| s.id.name() == name)
}

/// ISO 4915: 301 lockstitch, 304 zigzag, 514 four-thread overedge.
#[test]
fn seams_are_sewn_as_the_sheet_says_with_their_allowance_and_its_direction() {
    for (kind, code, allowance) in [
        (SeamKind::Overlock, "514", "0.7 cm"),
        (SeamKind::Zigzag, "304", "0.8 cm"),
        (SeamKind::Lockstitch, "301", "1 cm"),
    ] {
        let garment = made(&Choices { seams: kind, ..choices(flat("trim")) });
        for name in ["left side seam", "right side seam", "front gusset seam", "back gusset seam"] {
            assert_eq!(step(&garment, name).sewing.map(|s| s.stitch.code()), Some(code), "{name}");
        }
        let side = &does(&garment, "left side seam");
        assert!(side.contains(allowance) && side.contains("towards the back"), "{side}");
        let gusset = &does(&garment, "gusset pressed");
        assert!(gusset.contains(allowance) && gusset.contains("towards the gusset"), "{gusset}");
    }
}

#[test]
fn pins_meet_every_mark_at_its_place_and_marks_are_measured_from_the_cut_end() {
    for put_on in [PutOn::Flat, PutOn::Round] {
        let garment = made(&choices(Edge { put_on, ..flat("turned") }));
        for walk in &garment.openings {
            let of = |what: &str| does(&garment, &format!("{} {what}", walk.opening.name()));
            let elastic = walk.elastic.as_ref().unwrap();
            assert_eq!(elastic.marks.len(), 4);
            for mark in &elastic.marks {
                assert!(
                    of("pinned").contains(&format!("mark {} at {}", mark.number, mark.place.name())),
                    "{}",
                    of("pinned")
                );
            }
            // Flat, a leg's elastic begins at mark 1, behind the allowance of the side seam.
            if (put_on, walk.opening) == (PutOn::Flat, Opening::LeftLeg) {
                let told = of("elastic marked");
                assert!(told.contains("mark 1 at 0.7 cm from either end"), "{told}");
                for mark in &elastic.marks[1..] {
                    let along = (7.0 + mark.along_elastic) / 10.0;
                    assert!(told.contains(&format!("mark {} at {along:.1} cm", mark.number)), "{told}, {along}");
                }
            }
            // Round, a top elastic is joined at the centre back, where counting begins.
            if (put_on, walk.opening) == (PutOn::Round, Opening::Top) {
                let told = of("elastic marked");
                let half = elastic.finished_length / 20.0;
                // Half of the lap lies before mark 1, at either end: laid on each other they make the ring.
                let lap = 0.5 * (elastic.cut_length - elastic.finished_length) / 10.0;
                assert!(lap > 0.0 && told.contains(&format!("mark 1 at {} cm from either end", lap)), "{told}, {lap}");
                assert!(told.contains(&format!("mark 3 at {:.1} cm", half + lap)), "{told}, {half}");
                assert!(of("elastic joined").contains("mark 1 on mark 1"), "{}", of("elastic joined"));
            }
        }
    }
}

#[test]
fn an_unshortened_flat_elastic_is_laid_on_from_the_hand() {
    for kind in ["trim", "turned", "encased", "lapped", "binding"] {
        let garment = made(&choices(Edge { reduction: 0, ..flat(kind) }));
        let names: Vec<String> = garment.order_of_work.iter().map(|s| s.id.name()).collect();
        let place = |name: &str| names.iter().position(|n| n == name);
        assert!(place("left leg row 1") < place("left leg elastic cut"), "{kind}: {names:?}");
        assert_eq!((place("left leg elastic marked"), place("left leg pinned")), (None, None), "{kind}");
        let own: Vec<&Step> =
            garment.order_of_work.iter().filter(|s| s.id.opening() == Some(Opening::LeftLeg)).collect();
        let first = said(own[0]);
        assert!(first.contains("without any stretch") && first.contains("in hand"), "{first}");
        let told = own.iter().filter(|s| said(s).contains("in hand")).count();
        assert_eq!(told, 1, "{kind}: it is laid on once");
        // A ring has to be cut and joined first, shortened or not.
        let ring = made(&choices(Edge { reduction: 0, put_on: PutOn::Round, ..flat(kind) }));
        assert!(has(&ring, "left leg elastic joined") && has(&ring, "left leg pinned"), "{kind}");
    }
}

#[test]
fn the_lining_is_hidden_tacked_or_not_there() {
    let of = |layers| made(&Choices { layers, ..choices(flat("hem")) });
    let enclosed = of(Layers::Enclosed);
    for name in ["gusset rolled in", "gusset turned out", "gusset layers held"] {
        assert!(has(&enclosed, name), "{name}");
    }
    assert!(does(&enclosed, "front gusset seam").contains("between the layers"));
    let tacked = of(Layers::Tacked);
    assert!(has(&tacked, "gusset lining tacked") && has(&tacked, "gusset layers held"));
    assert!(!has(&tacked, "gusset rolled in"));
    let one = of(Layers::One);
    assert!(!one.order_of_work.iter().any(|s| s.id.name().contains("lining") || said(s).contains("lining")));
    assert!(!has(&one, "gusset layers held"));
}

#[test]
fn a_woven_is_neatened_unless_the_overlock_does_it() {
    let of = |seams| made(&Choices { seams, layers: Layers::One, cloth: ClothKind::Woven, ..choices(flat("lapped")) });
    let seams = ["left side seam", "right side seam", "front gusset seam", "back gusset seam"];
    for (kind, neatens) in [(SeamKind::Overlock, false), (SeamKind::Zigzag, true), (SeamKind::Lockstitch, true)] {
        let garment = of(kind);
        assert!(seams.iter().all(|s| has(&garment, &format!("{s} neatened")) == neatens), "{kind:?}");
    }
    let knit = made(&Choices { seams: SeamKind::Zigzag, ..choices(flat("lapped")) });
    assert!(!knit.order_of_work.iter().any(|s| s.id.name().ends_with("neatened")));
}

/// The second row of every finish that has one is as long as what the pieces carry.
#[test]
fn second_rows_are_as_long_as_drawn() {
    for kind in KINDS.iter().copied().filter(|k| *k != "tunnel") {
        let garment = made(&choices(flat(kind)));
        // Front and back are halves on the fold, the gusset is whole, and its layers are sewn as one.
        let rows = |end: &str| -> f64 {
            garment
                .pieces
                .iter()
                .filter(|p| p.id != engine::topology::PieceId::GussetLining)
                .flat_map(|p| {
                    p.second_row.iter().map(move |e| (if p.extent == Extent::HalfOnFold { 2.0 } else { 1.0 }, e))
                })
                .filter(|(_, e)| e.id.name().ends_with(end))
                .map(|(times, e)| times * e.path.length())
                .sum()
        };
        let told = |edge: &str| {
            let row = garment.order_of_work.iter().find(|s| s.id.name() == format!("{edge} row 2"));
            row.map_or(0.0, |s| s.length.unwrap())
        };
        assert!((told("top edge") - rows("top")).abs() < 1e-6, "{kind}");
        assert!((told("left leg") + told("right leg") - rows("leg")).abs() < 1e-6, "{kind}");
    }
}

/// The unit behind every number that has one, and every fraction, of a sentence.
fn units_and_fractions(text: &str) -> (Vec<String>, Vec<(u32, u32)>) {
    let bare = |word: &str| word.trim_matches(|c: char| ";:,.()".contains(c)).to_owned();
    let words: Vec<String> = text.split_whitespace().map(bare).collect();
    let is_number = |word: &str| word.starts_with(|c: char| c.is_ascii_digit());
    let units = words.windows(2).filter(|w| is_number(&w[0]) && ["mm", "cm", "in"].contains(&w[1].as_str()));
    let fraction = |word: &String| {
        let (part, of) = word.split_once('/')?;
        Some((part.parse().ok()?, of.parse().ok()?))
    };
    (units.map(|w| w[1].clone()).collect(), words.iter().filter_map(fraction).collect())
}

#[test]
fn every_step_speaks_one_unit() {
    let mut told = 0;
    for choices in super::samples() {
        let garment = made(&choices);
        for (units, unit) in [(Units::Cm, "cm"), (Units::Mm, "mm"), (Units::In, "in")] {
            for step in &garment.order_of_work {
                let text = words::does(step, Speech(units));
                let (said, fractions) = units_and_fractions(&text);
                // "… fold 7 mm in along …" has its unit, and no other.
                assert!(said.iter().all(|u| u == unit), "{unit}: {text}");
                let is_sound =
                    |(part, of): &(u32, u32)| part % 2 == 1 && part < of && of.is_power_of_two() && *of <= 32;
                assert!(fractions.iter().all(is_sound), "{text}");
                assert!(units == Units::In || fractions.is_empty(), "{text}");
                told += said.len();
            }
        }
    }
    assert!(told > 2000, "{told} lengths were told");
}

/// Common practice: which face lies up and which edge meets the raw edge, finish by finish.
#[test]
fn an_elastic_is_laid_the_right_way_up() {
    for (kind, name, how) in [
        (
            "trim",
            "pinned",
            "on the right side of the cloth, the soft side for the skin up, lying towards the garment, one of its edges on the raw edge",
        ),
        ("turned", "pinned", "on the right side of the cloth, the soft side for the skin up"),
        ("encased", "pinned", "on the wrong side of the cloth, either side up"),
        ("lapped", "pinned", "its right side up, on the right side of the cloth"),
        ("binding", "fold", "the side to be seen outside"),
    ] {
        let garment = made(&choices(flat(kind)));
        let text = does(&garment, &format!("left leg {name}"));
        assert!(text.contains(how), "{kind}: {text}");
    }
}

/// A ring that is not shortened is as long as its edge; nobody can stretch it by nothing.
#[test]
fn what_is_not_shortened_is_never_stretched() {
    for choices in super::samples() {
        let garment = made(&choices);
        for step in &garment.order_of_work {
            let text = said(step);
            assert!(!text.contains(" 0 %") && !text.contains("0.0 %"), "{text}");
        }
    }
}

/// Whatever is sewn by machine has its settings and one needle, by the cloth.
#[test]
fn every_row_has_settings_and_a_needle() {
    for choices in super::samples() {
        let steps = made(&choices).order_of_work;
        let needles: Vec<_> = steps.iter().filter_map(|s| s.needle).collect();
        let needle = if choices.cloth == ClothKind::Woven { Needle::Sharp } else { Needle::Stretch };
        assert!(!needles.is_empty() && needles.iter().all(|n| *n == needle), "{needles:?}");
        for step in &steps {
            assert_eq!(step.sewing.is_some(), step.needle.is_some(), "{:?}", step.id);
            let is_fed_in = step.sewing.and_then(|s| s.differential).map(|feed| feed.from > 1.0);
            assert!(is_fed_in.is_none_or(|fed| fed == (choices.cloth == ClothKind::Knit)), "{:?}", step.id);
        }
    }
}

/// Heeded all along, it is said once.
#[test]
fn the_iron_is_tested_once() {
    let steps = made(&choices(flat("turned"))).order_of_work;
    let iron = steps.iter().filter(|s| s.caution == Some(Caution::Iron)).count();
    let first = steps.iter().find(|s| s.id.name() == "gusset pressed").unwrap();
    assert_eq!((iron, first.caution), (1, Some(Caution::Iron)));
}
