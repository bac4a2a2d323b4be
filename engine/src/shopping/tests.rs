use super::*;
use crate::base::Base;
use crate::quantity::Ratio as Percent;
use crate::sheet::Basis;
use crate::support;
use crate::terms::PutOn;

fn need(name: &str, cut: f64, in_hand: f64) -> ElasticNeed {
    ElasticNeed { name: name.to_owned(), width: 8.0, cut, in_hand, price: None }
}

#[test]
fn lengths_are_rounded_up_to_what_shops_sell() {
    for (mm, cm, inch) in
        [(0.0, 0.0, 0.0), (1.0, 100.0, 114.3), (100.0, 100.0, 114.3), (114.3, 200.0, 114.3), (914.5, 1000.0, 1028.7)]
    {
        assert!((sold(mm, Units::Cm) - cm).abs() < 1e-9, "{mm}");
        assert!((sold(mm, Units::In) - inch).abs() < 1e-9, "{mm}");
    }
}

#[test]
fn every_part_of_the_sum_is_kept() {
    let pairs = [
        Needs { elastics: vec![need("soft", 1000.0, 30.0), need("firm", 700.0, 0.0)], ..Needs::default() },
        Needs { elastics: vec![need("soft", 1200.0, 0.0)], ..Needs::default() },
    ];
    let all = Shopping::of(&pairs, Units::Cm);
    let [firm, soft] = all.elastics.as_slice() else { panic!("{all:?}") };
    assert_eq!((soft.pairs, soft.cut, soft.in_hand, soft.samples), (2, 2200.0, 30.0, 300.0));
    assert!((soft.waste - 110.0).abs() < 1e-9);
    // 2200 + 30 + 110 + 300 = 2640.
    assert_eq!((soft.length, firm.length), (2700.0, 900.0));
    let wide = Needs { elastics: vec![ElasticNeed { width: 12.0, ..need("soft", 500.0, 0.0) }], ..Needs::default() };
    assert_eq!(Shopping::of([&pairs[0], &wide], Units::Cm).elastics.len(), 3, "another width is another elastic");
    assert_eq!(Shopping::of([], Units::Cm), Shopping::default());
}

/// A published worked example: 100 cm of 401 take 540 cm of thread, 621 with its waste; here the same
/// waste on a ratio of ours.
#[test]
fn thread_is_the_ratio_of_the_stitch_with_its_waste() {
    assert!((Ratio { times: 5.4, sure: Sureness::Published }.length(100.0) - 621.0).abs() < 1e-9);
    for stitch in [Stitch::Lockstitch, Stitch::Zigzag, Stitch::ThreeStep, Stitch::Overlock] {
        // No stitch takes less than twice its seam, none of these more than 28 times (605).
        assert!((2.0..=28.0).contains(&stitch.thread().times), "{stitch:?}");
    }
}

#[test]
fn a_pair_takes_what_is_cut_and_sewn_for_it() {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
    sheet.finish.top = support::finish("turned", "soft");
    sheet.elastics.insert("soft".to_owned(), support::elastic(12.0));
    sheet.finish.top.put_on = Some(PutOn::Round);
    let garment = crate::record(&sheet).unwrap();
    let needs = Needs::of(&garment);
    let cut: f64 = garment.openings.iter().filter_map(|o| o.elastic.as_ref()).map(|e| e.cut_length).sum();
    assert!((needs.elastics.iter().map(|e| e.cut).sum::<f64>() - cut).abs() < 1e-9 && cut > 500.0);
    let sewn: f64 = garment.order_of_work.iter().filter(|s| s.sewing.is_some()).filter_map(|s| s.length).sum();
    assert!((needs.threads.iter().map(|t| t.sewn).sum::<f64>() - sewn).abs() < 1e-9);
    // Two side seams, two gusset seams, three openings at least: more than two metres.
    assert!(sewn > 2000.0, "{sewn}");
    assert_eq!(needs.needle, garment.order_of_work.iter().find_map(|s| s.needle));
}

/// An elastic that is laid on flat is cut from what is in hand: it is not bought twice.
#[test]
fn what_is_laid_on_from_the_hand_is_bought_once() {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
    let mut trim = support::finish("trim", "soft");
    (trim.put_on, trim.basis) = (Some(PutOn::Flat), Some(Basis::Reduction(Percent::from_percent(0.0))));
    (sheet.finish.left_leg, sheet.finish.right_leg) = (trim.clone(), trim);
    sheet.elastics.insert("soft".to_owned(), support::elastic(8.0));
    let garment = crate::record(&sheet).unwrap();
    let total = garment.elastics.iter().find(|e| e.name == "soft").unwrap();
    assert!(total.in_hand > total.cut_length);
    let all = Shopping::of([&Needs::of(&garment)], Units::Cm);
    let soft = all.elastics.iter().find(|e| e.name == "soft").unwrap();
    assert!((soft.cut + soft.in_hand - total.in_hand).abs() < 1e-9, "{all:?}");
}

#[test]
fn a_price_is_that_of_a_metre_or_of_a_yard() {
    let priced =
        |price| Needs { elastics: vec![ElasticNeed { price, ..need("soft", 2200.0, 0.0) }], ..Needs::default() };
    let cost = |pairs: &[Needs], units| Shopping::of(pairs, units).elastics[0].cost;
    // 2200 + 110 + 150 = 2460 mm: 2.5 m, or 22 eighths of a yard.
    assert_eq!(cost(&[priced(Some(1.2))], Units::Cm), Some(3.0));
    assert_eq!(cost(&[priced(Some(1.2))], Units::In), Some(3.3));
    assert_eq!(cost(&[priced(None)], Units::Cm), None);
    // The dearer of two, for twice as much: 4920 mm.
    assert_eq!(cost(&[priced(Some(1.2)), priced(Some(1.5))], Units::Cm), Some(7.5));
}
