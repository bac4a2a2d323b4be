//! Elastics and bands on a leg opening of straight lines, worked out by hand.

use super::*;
use crate::base::Base;
use crate::curve::Path;
use crate::quantity::Ratio;
use crate::sheet::Sheet;
use crate::support::{finish, mm, ordinary, sheet};
use crate::terms::Section;
use crate::topology::{PairJunction, pair};
use kurbo::Point;

/// Front, gusset and back, mm, and 5 % less.
const EDGE: [f64; 3] = [100.0, 80.0, 220.0];
const SHORTER: [f64; 3] = [95.0, 76.0, 209.0];

fn plan(change: impl FnOnce(&mut Sheet)) -> Plan {
    let mut sheet = sheet(&ordinary(), Base::named("brief").unwrap());
    change(&mut sheet);
    Plan::of(&sheet).unwrap()
}

fn round(sheet: &mut Sheet) {
    sheet.finish.left_leg.put_on = Some(PutOn::Round);
    sheet.finish.left_leg.overlap = Some(mm(20.0));
    sheet.elastics.values_mut().for_each(|e| e.growth = Some(Ratio::from_percent(4.0)));
}

/// Marks where the parts begin, and at these shares of the back.
fn ring(in_back: &[f64]) -> Ring {
    let arcs = pair().unwrap().arcs(Opening::LeftLeg);
    let at =
        |arc: usize, share: f64| MarkAt { arc, share, place: MarkPlace::Junction(Opening::LeftLeg, arcs[arc].from) };
    Ring {
        arcs,
        lines: EDGE.map(|long| Path::line(Point::ORIGIN, Point::new(long, 0.0))).to_vec(),
        measured: EDGE.to_vec(),
        lengths: None,
        marks: (0..3).map(|arc| at(arc, 0.0)).chain(in_back.iter().map(|share| at(2, *share))).collect(),
        gap: None,
    }
}

fn leg(plan: &Plan, lengths: &[f64], in_back: &[f64]) -> ElasticCut {
    cut(plan, &plan.finish.left_leg, &ring(in_back), lengths).unwrap()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// Flat, it runs through both seam allowances, and nothing is known of its growth.
#[test]
fn a_flat_elastic_runs_through_both_allowances() {
    let plan = plan(|_| ());
    let e = leg(&plan, &SHORTER, &[]);
    assert!(near(e.finished_length, 380.0) && near(e.reduction, 5.0), "{e:?}");
    assert!(near(e.cut_length, 380.0 + 2.0 * plan.seams.side) && plan.seams.side > 0.0, "{e:?}");
    assert_eq!((e.growth, e.in_hand, e.joining.ends), (None, None, Ends::ThroughAllowances(plan.seams.side)));
    assert!(
        cut(&plan, &self::plan(|s| s.finish.left_leg = finish("hem", "")).finish.left_leg, &ring(&[]), &EDGE).is_none()
    );
}

/// What grows by 4 % is cut so much shorter, but for its overlap.
#[test]
fn growth_is_left_off_before_sewing() {
    let e = leg(&plan(round), &SHORTER, &[]);
    assert!(near(e.cut_length, 380.0 / 1.04 + 20.0) && near(e.finished_length, 380.0), "{e:?}");
    assert!(e.growth.is_some_and(|growth| near(growth, 4.0)), "{e:?}");
    let threaded = plan(|s| {
        s.finish.left_leg = finish("tunnel", "soft 8");
        round(s);
    });
    let e = leg(&threaded, &SHORTER, &[]);
    assert!(near(e.cut_length, 400.0) && e.growth.is_none(), "it is sewn along nothing: {e:?}");
}

/// Joined in the middle of the back, 290 of 400 mm on from the side seam.
#[test]
fn marks_are_counted_from_where_the_ends_meet() {
    // The last is a hair before the joint.
    let e = leg(&plan(round), &SHORTER, &[0.5, 0.75, 0.5 - 1e-10]);
    let edge: Vec<f64> = e.marks.iter().map(|m| m.along_edge).collect();
    let wanted = [0.0, 0.0, 55.0, 110.0, 210.0, 290.0];
    assert!(edge.iter().zip(wanted).all(|(a, b)| near(*a, b)) && edge.len() == 6, "{edge:?}");
    let elastic: Vec<f64> = e.marks.iter().map(|m| m.along_elastic * 1.04).collect();
    assert!(elastic.iter().zip(wanted).all(|(a, b)| near(*a, 0.95 * b)), "{elastic:?}");
    assert!(e.marks.iter().map(|m| m.number).eq(1..=6));
    assert!(near(e.joining.to_first_mark, 0.0) && e.joining.at == Meeting::MiddleOfBack);
    assert!(near(leg(&plan(round), &SHORTER, &[]).joining.to_first_mark * 1.04, 0.95 * 110.0));
}

#[test]
fn ends_meet_in_the_back_or_in_the_last_side_seam() {
    let of = |put_on| {
        plan(|s| {
            s.finish.left_leg.put_on = Some(put_on);
            s.finish.top.put_on = Some(put_on);
        })
    };
    let (ring, flat) = (of(PutOn::Round), of(PutOn::Flat));
    let top = [10.0, 20.0, 30.0, 40.0];
    assert_eq!(meeting(&ring.finish.top, &top), (30.0, Meeting::CentreBack));
    assert_eq!(meeting(&flat.finish.top, &top), (60.0, Meeting::RightSideSeam));
    assert_eq!(meeting(&ring.finish.left_leg, &EDGE), (290.0, Meeting::MiddleOfBack));
    assert_eq!(meeting(&flat.finish.left_leg, &EDGE), (0.0, Meeting::SideSeam));
}

/// Over its length a twentieth more, and 50 mm to hold on to (common practice).
#[test]
fn what_is_not_shortened_is_laid_on_from_the_hand() {
    let flat = plan(|_| ());
    let e = leg(&flat, &EDGE, &[]);
    assert!(e.in_hand.is_some_and(|hand| near(hand, 1.05 * e.cut_length + 50.0)), "{e:?}");
    assert_eq!(leg(&plan(round), &EDGE, &[]).in_hand, None, "a ring is cut first");
    assert_eq!(leg(&flat, &[105.0, 84.0, 231.0], &[]).in_hand, None, "eased in");
    let parted = plan(|s| {
        s.finish.left_leg.sections.insert(Section::Back, Ratio::from_percent(8.0));
    });
    assert_eq!(leg(&parted, &EDGE, &[]).in_hand, None, "each part has its length");
    let laid_on = &flat.finish.left_leg;
    assert!(is_laid_on(laid_on, 0.5 * UNREDUCED) && !is_laid_on(laid_on, UNREDUCED));
}

#[test]
fn a_band_is_sewn_to_a_ring_by_its_allowances() {
    let band_of = |plan: &Plan, opening| band(plan, plan.finish.get(opening), &ring(&[]), &SHORTER);
    let banded = plan(|s| {
        let band = finish("band", "");
        (s.finish.top, s.finish.left_leg, s.finish.right_leg) = (band.clone(), band.clone(), band);
    });
    let b = band_of(&banded, Opening::LeftLeg).unwrap();
    let seam = banded.finish.left_leg.settings.seam;
    assert!(near(b.length, 380.0) && near(b.cut_length, 380.0 + 2.0 * seam) && seam > 0.0, "{b:?}");
    assert!(near(b.reduction, 5.0), "{b:?}");
    let piece = |plan: &Plan, opening| band_of(plan, opening).map(|b| b.piece);
    assert_eq!(
        Opening::ALL.map(|o| piece(&banded, o)),
        [PieceId::TopBand, PieceId::LegBand, PieceId::LegBand].map(Some)
    );
    let other = |opening: Opening| {
        plan(|s| {
            let hems = if opening == Opening::LeftLeg { &mut s.finish.right_leg } else { &mut s.finish.left_leg };
            *hems = finish("hem", "");
            match opening {
                Opening::LeftLeg => s.finish.left_leg = finish("band", ""),
                _ => s.finish.right_leg = finish("band", ""),
            }
        })
    };
    assert_eq!(piece(&other(Opening::LeftLeg), Opening::LeftLeg), Some(PieceId::LeftLegBand));
    assert_eq!(piece(&other(Opening::RightLeg), Opening::RightLeg), Some(PieceId::RightLegBand));
    assert_eq!(piece(&plan(|_| ()), Opening::LeftLeg), None, "an elastic is no band");
}

#[test]
fn the_ends_of_a_band_carry_no_notch() {
    let banded = plan(|s| s.finish.left_leg = finish("band", ""));
    let mut b = band(&banded, &banded.finish.left_leg, &ring(&[]), &SHORTER).unwrap();
    let place = MarkPlace::Junction(Opening::LeftLeg, PairJunction::Centre(PieceId::Back));
    let mark = |along| Mark { number: 1, place, along_elastic: along, along_edge: along };
    b.marks = [0.0, 0.5, 0.75, 200.0, 379.25, 379.5, 379.75].map(mark).to_vec();
    assert_eq!(band_notches(&b), [0.75, 200.0, 379.25].map(|along| (place, along)));
}

#[test]
fn an_elastic_is_added_up_by_its_name() {
    let mut sheet = sheet(&ordinary(), Base::named("brief").unwrap());
    for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        leg.basis = Some(Basis::Reduction(Ratio::from_percent(0.0)));
    }
    let garment = crate::record(&sheet).unwrap();
    let [top, left, right] = Opening::ALL
        .map(|o| garment.openings.iter().find(|walk| walk.opening == o).and_then(|walk| walk.elastic.clone()).unwrap());
    let all = totals(&garment.openings);
    assert!(all.iter().map(|t| t.name.as_str()).eq(["soft 12", "soft 8"]), "{all:?}");
    assert!(near(all[0].cut_length, top.cut_length) && near(all[0].in_hand, top.cut_length), "{all:?}");
    assert!(near(all[1].cut_length, left.cut_length + right.cut_length), "{all:?}");
    assert!(near(all[1].in_hand, left.in_hand.unwrap() + right.in_hand.unwrap()), "{all:?}");
}
