//! The work card of every mix of finishes: short, numbered through, and nothing told twice.

use crate::support;
use engine::base::Base;
use engine::drawing::card::{Card, Part, Picture};
use engine::finish::FinishKind;
use engine::lay::{Rules, of_pairs};
use engine::quantity::Ratio;
use engine::sheet::{Basis, FinishSpec, PerOpening, SeamKind, Seams};
use engine::words::card::{CAUTIONS, COLUMNS, DATE, EDGES, GRAIN, PICTURES, STRIPS, TRIAL, VERDICTS, WHERE, WORK};

/// Words on either side of the paper: more is not read beside a machine.
const MOST: usize = 450;

fn words(texts: impl IntoIterator<Item = impl AsRef<str>>) -> usize {
    let is_word = |word: &&str| word.contains(char::is_alphabetic);
    texts.into_iter().map(|text| text.as_ref().split_whitespace().filter(is_word).count()).sum()
}

fn front(card: &Card) -> usize {
    let rulers = card.strips.iter().flat_map(|s| [&s.heading, &s.told]);
    words([&card.title, &card.about, &card.in_hand, &card.strips_use])
        + words([EDGES, STRIPS, CAUTIONS])
        + words(COLUMNS)
        + words(card.edges.iter().flatten())
        + words(rulers)
        + words(&card.cautions)
}

/// With the names in the figure, which stands there where the front is full.
fn back(card: &Card) -> usize {
    const FIGURE: usize = 2 * (5 * 2) - 2 + 2;
    let lines = card.work.iter().flat_map(|part| &part.lines);
    let said = |part: &Part| part.heading.clone();
    words([&card.title])
        + words([WORK, TRIAL, DATE, WHERE])
        + words(VERDICTS)
        + words(&card.trial)
        + words(&card.setting_up)
        + words([PICTURES])
        + words(card.work.iter().map(said))
        + words(lines.clone().map(|line| &line.text))
        + words(lines.filter_map(|line| line.setting.as_ref()))
        + FIGURE
}

/// Every finish at every opening, in every order, overlocked and zigzagged.
fn each(mut with: impl FnMut(&PerOpening<FinishKind>, &Card)) {
    let base = Base::named("hipster").unwrap();
    let finish = |kind: FinishKind| support::finish(kind.name(), "soft 8");
    let mut made = 0;
    for seams in [SeamKind::Overlock, SeamKind::Zigzag] {
        for top in FinishKind::all() {
            for left in FinishKind::all() {
                for right in FinishKind::all() {
                    let mut sheet = support::sheet(&support::ordinary(), base);
                    sheet.seams = Seams { kind: Some(seams), ..sheet.seams };
                    sheet.finish = PerOpening { top: finish(top), left_leg: finish(left), right_leg: finish(right) };
                    let Ok(garment) = engine::make(&sheet) else { continue };
                    with(&PerOpening { top, left_leg: left, right_leg: right }, &garment.drawing.card);
                    made += 1;
                }
            }
        }
    }
    assert!(made > 1000, "{made}");
}

/// What is said of the cloth and beside the picture of the lay, with a letter for every piece: the most there is.
fn of_cloth() -> usize {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("hipster").unwrap());
    sheet.fabric.width = Some(support::mm(1500.0));
    sheet.finish = support::finish("band", "").everywhere();
    let mut made = engine::make(&sheet).unwrap();
    let lays = of_pairs(&made.drawing, &made.drawing, &sheet.fabric, 2, Rules::default(), &mut |_| ()).unwrap();
    made.lay(lays);
    let card = &made.drawing.card;
    let key = card.lays[0].pieces.iter().map(|piece| format!("{} {}", piece.letter, piece.name));
    let key: std::collections::BTreeSet<String> = key.collect();
    assert!(card.cloth.contains("turned upside down") && card.cloth.contains("on a fold"), "{}", card.cloth);
    words([&card.cloth, GRAIN]) + words(&card.lays[0].told) + words(key)
}

#[test]
fn a_card_is_short_whatever_is_sewn() {
    let (mut most, cloth) = ([(0, String::new()), (0, String::new())], of_cloth());
    each(|mix, card| {
        for (worst, count) in most.iter_mut().zip([front(card) + cloth, back(card)]) {
            if count > worst.0 {
                *worst = (count, format!("{mix:?}"));
            }
        }
    });
    assert!(most.iter().all(|(count, _)| *count <= MOST), "{most:?}");
}

/// Only what is on the fold has a fold to be nicked, and an elastic that is never marked is not said to be.
#[test]
fn what_is_cut_and_marked_is_what_there_is() {
    let (mut folded, mut mixed) = ([0, 0], 0);
    each(|mix, card| {
        let lines: Vec<&str> = card.work.iter().flat_map(|part| &part.lines).map(|line| line.text.as_str()).collect();
        let is_halved = mix.left_leg == mix.right_leg;
        assert_eq!(lines.iter().any(|line| line.contains("fold end")), is_halved, "{mix:?}: {lines:?}");
        folded[usize::from(is_halved)] += 1;
        let (marked, plain): (Vec<_>, Vec<_>) = card.strips.iter().partition(|strip| !strip.marks.is_empty());
        let said = lines.iter().find(|line| line.contains("on their rulers")).copied();
        let is_mixed = !marked.is_empty() && !plain.is_empty();
        assert_eq!(said.is_some_and(|line| line.contains("where given")), is_mixed, "{mix:?}: {said:?}");
        assert_eq!(said.is_some_and(|line| line.contains("mark")), !marked.is_empty(), "{mix:?}: {said:?}");
        mixed += usize::from(is_mixed);
        assert!(!lines.iter().any(|line| line.contains("mark on notch")), "{mix:?}");
    });
    assert!(folded.iter().all(|n| *n > 100) && mixed > 100, "{folded:?} {mixed}");
}

/// What a tunnel asks for is told to its end: on what the elastic is drawn, what becomes of its other end, and how
/// far its ends lap, as in the table.
#[test]
fn a_tunnel_is_threaded_and_joined_by_the_card_alone() {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("hipster").unwrap());
    sheet.finish = FinishSpec { overlap: Some(support::mm(15.0)), ..support::finish("tunnel", "soft 8") }.everywhere();
    let card = engine::make(&sheet).unwrap().drawing.card;
    let said = |what: &str| card.work.iter().flat_map(|part| &part.lines).any(|line| line.text.contains(what));
    let lapped = engine::words::Speech(sheet.units).tool(15.0);
    assert!(said("by safety pin, other end pinned at the gap"));
    assert!(said(&format!("ap the ends {lapped}, sew across")));
    assert!(card.edges.iter().all(|cells| cells[4].ends_with(&format!("lapped {lapped}"))), "{:?}", card.edges);
}

#[test]
fn lines_are_numbered_through_and_legs_that_are_alike_are_told_once() {
    each(|mix, card| {
        let numbers: Vec<usize> = card.work.iter().flat_map(|part| &part.lines).map(|line| line.number).collect();
        assert!(numbers.iter().enumerate().all(|(i, n)| *n == i + 1), "{mix:?}: {numbers:?}");
        let is_headed = |what: &str| card.work.iter().any(|part| part.heading == what);
        let is_sewn = mix.left_leg.name() != "raw";
        assert_eq!(is_headed("Each leg"), mix.left_leg == mix.right_leg && is_sewn, "{mix:?}");
        let is_of_edge = |part: &&Part| matches!(part.picture, Some(Picture::Edge(_)));
        let pictures = card.work.iter().filter(is_of_edge).count();
        let mut kinds: Vec<&str> = [mix.top, mix.left_leg, mix.right_leg].map(|k| k.name()).to_vec();
        kinds.retain(|kind| *kind != "raw");
        kinds.sort_unstable();
        kinds.dedup();
        assert_eq!(pictures, kinds.len(), "{mix:?}: a picture of each finish, once");
        assert!(card.work.iter().all(|part| part.lines.iter().all(|line| !line.text.is_empty())), "{mix:?}");
    });
}

/// Elastics whose edges differ are marked in a mirrored pair: from mark to mark the left leg has the garment to the
/// right hand, seen from outside, and picots point to it where they lie inwards.
#[test]
fn picots_lie_on_the_ruler_as_they_are_pinned() {
    for (kind, left, right) in [("turned", "down", "up"), ("trim", "down", "up"), ("lapped", "up", "down")] {
        for picot in [0.0, 2.0] {
            let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
            sheet.elastics.values_mut().for_each(|elastic| elastic.picot = support::mm(picot));
            sheet.finish.left_leg = support::finish(kind, "soft 8");
            sheet.finish.right_leg = support::finish(kind, "soft 8");
            let card = engine::make(&sheet).unwrap().drawing.card;
            let legs = card.strips.iter().find(|strip| strip.heading.starts_with("Each leg")).unwrap();
            let said = format!("picots {left} for the left leg, {right} for the right");
            assert_eq!(legs.heading.contains(&said), picot > 0.0, "{kind}: {}", legs.heading);
        }
    }
}

/// What is laid on flat and cut after sewing has no strip, and its amount is what one pair takes.
#[test]
fn what_is_cut_after_sewing_is_had_in_hand() {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("hipster").unwrap());
    let flat = Some(Basis::Reduction(Ratio::from_percent(0.0)));
    sheet.finish = FinishSpec { basis: flat, ..support::elastic_finish("trim", "soft 8") }.everywhere();
    let made = engine::make(&sheet).unwrap();
    let total = &made.garment.elastics[0];
    let each: f64 = made.garment.openings.iter().filter_map(|o| o.elastic.as_ref()?.in_hand).sum();
    assert!((total.in_hand - each).abs() < 1e-9 && total.in_hand > total.cut_length, "{total:?}");
    assert!(made.drawing.card.strips.is_empty());
    assert!(made.drawing.card.edges.iter().all(|cells| cells[3] == "after sewing"), "{:?}", made.drawing.card.edges);
    let said = engine::words::Speech(sheet.units).tape(total.in_hand);
    assert!(made.drawing.card.in_hand.contains(&said), "{}", made.drawing.card.in_hand);
}
