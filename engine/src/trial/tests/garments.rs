//! From the trials of a sheet to the next setting of its garment.

use crate::base::Base;
use crate::garment::Garment;
use crate::keys::Edges;
use crate::make::record;
use crate::measure::pressure::Pull;
use crate::quantity::Ratio;
use crate::sheet::{Basis, Sheet, Trial};
use crate::support::numbers::Numbers;
use crate::support::{self, elastic_finish, mm, random};
use crate::terms::{Section, Verdict};
use crate::trial::evidence::{Carried, judged};
use crate::trial::setting::{self, Spot};
use crate::trial::{Next, Take, learn, next, row};

fn brief() -> Sheet {
    support::sheet(&support::ordinary(), Base::named("brief").unwrap())
}

fn with_legs(reductions: (f64, f64)) -> Sheet {
    let mut sheet = brief();
    sheet.finish.left_leg.basis = percent(reductions.0);
    sheet.finish.right_leg.basis = percent(reductions.1);
    sheet
}

/// The sheet after a garment of it was judged.
fn tried(sheet: &Sheet, verdicts: &[(Edges, Verdict)]) -> Sheet {
    let garment = record(sheet).unwrap();
    let mut sheet = sheet.clone();
    let rows = verdicts.iter().map(|(edge, verdict)| row(&sheet, &garment, Spot::whole(*edge), *verdict));
    let rows: Vec<Trial> = rows.collect();
    sheet.trials.extend(rows);
    sheet
}

fn of(sheet: &Sheet, edge: Edges) -> Next {
    let all = next(sheet, &record(sheet).unwrap());
    all.into_iter().find(|next| next.spot == Spot::whole(edge)).unwrap()
}

fn percent(value: f64) -> Option<Basis> {
    Some(Basis::Reduction(Ratio::from_percent(value)))
}

#[test]
fn without_a_trial_it_starts_as_the_trade_does() {
    let legs = of(&brief(), Edges::Legs);
    assert_eq!((legs.pair, legs.low, legs.high, legs.converged), (Some((0.0, 10.0)), 0.0, 10.0, false));
    let top = of(&brief(), Edges::Top);
    let garment = record(&brief()).unwrap();
    let cloth = setting::walk(&garment, top.spot.opening()).unwrap().worn.cloth_stretch;
    let worn = [top.low, top.high].map(|setting| setting::worn_stretch(setting, cloth));
    assert!((worn[0] - 10.0).abs() < 0.01 && (worn[1] - 20.0).abs() < 0.01, "{worn:?}");
}

/// The example: left at 0 % right, right at 10 % tight.
#[test]
fn two_settings_on_two_legs_say_where_comfort_lies() {
    let sheet = tried(&with_legs((0.0, 10.0)), &[(Edges::LeftLeg, Verdict::Right), (Edges::RightLeg, Verdict::Tight)]);
    let legs = of(&sheet, Edges::Legs);
    assert!(legs.now[0] == 0.0 && (legs.now[1] - 10.0).abs() < 1e-9);
    assert!(legs.proposal < 3.0 && legs.high < 7.0 && legs.contradictions.is_empty(), "{legs:?}");
    let lesson = learn(&sheet, &record(&sheet).unwrap(), &[], Take::Proposal).unwrap();
    let settings = |garment: &Garment| {
        [Edges::LeftLeg, Edges::RightLeg]
            .map(|leg| setting::of(setting::walk(garment, Spot::whole(leg).opening()).unwrap(), None).unwrap())
    };
    for setting in settings(&lesson.garment) {
        assert!((setting - legs.proposal).abs() < 1e-6, "{setting} of {}", legs.proposal);
    }
    let pair = learn(&sheet, &record(&sheet).unwrap(), &[], Take::Pair).unwrap();
    let (left, right) = legs.pair.unwrap();
    assert!(settings(&pair.garment).iter().zip([left, right]).all(|(is, wanted)| (is - wanted).abs() < 1e-6));
}

/// A hem has nothing that could be set: what is said of it says nothing of the elastic of the other leg.
#[test]
fn a_verdict_on_a_hem_is_not_one_on_the_other_leg() {
    let mut sheet = with_legs((6.0, 0.0));
    sheet.finish.right_leg = support::finish("hem", "");
    let left = tried(&sheet, &[(Edges::LeftLeg, Verdict::Right)]);
    let both = tried(&sheet, &[(Edges::LeftLeg, Verdict::Right), (Edges::RightLeg, Verdict::Tight)]);
    let (alone, with_hem) = (of(&left, Edges::LeftLeg), of(&both, Edges::LeftLeg));
    assert_eq!(with_hem.judged.len(), 1, "{with_hem:?}");
    assert_eq!((alone.proposal, alone.low, alone.high), (with_hem.proposal, with_hem.low, with_hem.high));
}

/// A block that says only the edge and the reduction, as sheets have had them; of both legs at once.
#[test]
fn old_blocks_go_on_working() {
    let mut sheet = brief();
    let bare = |edge, reduction, verdict| Trial {
        date: None,
        edge,
        section: None,
        finish: None,
        elastic: None,
        reduction: Some(Ratio::from_percent(reduction)),
        length: None,
        sections: Default::default(),
        worn_stretch: None,
        cloth: None,
        verdict,
        note: None,
    };
    sheet.trials = vec![bare(Edges::Legs, 9.0, Verdict::Tight), bare(Edges::RightLeg, 5.0, Verdict::Right)];
    let legs = of(&sheet, Edges::Legs);
    let heard: Vec<_> = legs.judged.iter().map(|j| (j.edge, j.setting, j.verdict, j.carried)).collect();
    let as_sewn = Carried::AsSewn;
    assert_eq!(heard, [(Edges::Legs, 9.0, Verdict::Tight, as_sewn), (Edges::RightLeg, 5.0, Verdict::Right, as_sewn)]);
    assert!(of(&sheet, Edges::Top).judged.is_empty());
    sheet.trials[0].reduction = None;
    assert_eq!(of(&sheet, Edges::Legs).judged.len(), 1, "nothing can be learned from a block without a figure");
}

#[test]
fn a_setting_comes_back_as_it_was_sewn() {
    for reduction in [0.0, 4.0, 12.5] {
        let sheet = tried(&with_legs((reduction, 5.0)), &[(Edges::LeftLeg, Verdict::Right)]);
        let legs = of(&sheet, Edges::Legs);
        // Kept to a tenth of a percent of stretch.
        assert!((legs.judged[0].setting - reduction).abs() < 0.06, "{:?}", legs.judged);
        assert_eq!(legs.judged[0].carried, Carried::AsSewn);
    }
}

/// With pull tests of both, the setting that pulls alike on the body; without, the one that is
/// stretched alike.
#[test]
fn a_change_of_elastic_carries_over() {
    let before = tried(&with_legs((6.0, 6.0)), &[(Edges::LeftLeg, Verdict::Right)]);
    let pull = |factor: f64| {
        [(10.0, 30.0), (25.0, 60.0), (50.0, 110.0)].map(|(s, g)| (Ratio::from_percent(s), factor * g)).to_vec()
    };
    let mut other = before.clone();
    for leg in [&mut other.finish.left_leg, &mut other.finish.right_leg] {
        *leg = elastic_finish("trim", "soft 10");
    }
    let walk =
        |sheet: &Sheet| setting::walk(&record(sheet).unwrap(), Spot::whole(Edges::Legs).opening()).unwrap().clone();
    let spot = Spot::whole(Edges::Legs);
    let by_stretch = judged(&other, &walk(&other), spot);
    assert_eq!(by_stretch[0].carried, Carried::ByStretch);
    let then = before.trials[0].worn_stretch.unwrap().percent();
    let now = setting::worn_stretch(by_stretch[0].setting, walk(&other).worn.cloth_stretch);
    assert!((now - then).abs() < 1e-6, "{now} {then}");

    for (name, factor) in [("soft 8", 1.0), ("soft 10", 2.0)] {
        other.elastics.get_mut(name).unwrap().pull = pull(factor);
    }
    let by_pull = judged(&other, &walk(&other), spot);
    assert_eq!(by_pull[0].carried, Carried::ByTension);
    let tension = |name: &str, stretch: f64| Pull::of(&other.elastics[name].pull).tension(stretch).unwrap();
    let now = setting::worn_stretch(by_pull[0].setting, walk(&other).worn.cloth_stretch);
    assert!((tension("soft 10", now) - tension("soft 8", then)).abs() < 1e-6);
    assert!(now < then, "twice as firm, it is stretched less");
    // What is less sure is believed less.
    let of_old = of(&before, Edges::Legs);
    let of_new = of(&Sheet { trials: other.trials.clone(), ..other.clone() }, Edges::Legs);
    // Below, the interval ends at 0: above it reaches further beyond what was judged right.
    let above = |next: &Next| next.high - next.judged[0].setting;
    assert!(above(&of_new) > above(&of_old) && of_new.chance < of_old.chance, "{of_new:?}, {of_old:?}");
}

#[test]
fn what_does_not_go_together_is_told() {
    let low = tried(&with_legs((2.0, 14.0)), &[(Edges::LeftLeg, Verdict::Tight), (Edges::RightLeg, Verdict::Right)]);
    let legs = of(&low, Edges::Legs);
    assert_eq!(legs.contradictions.len(), 1, "{legs:?}");
    assert!(!legs.converged);
    // Not the middle of both, where neither verdict would have it.
    assert!((legs.proposal - 8.0).abs() > 2.0, "{legs:?}");
    let fine = tried(&with_legs((2.0, 14.0)), &[(Edges::LeftLeg, Verdict::Loose), (Edges::RightLeg, Verdict::Tight)]);
    assert!(of(&fine, Edges::Legs).contradictions.is_empty());
}

/// Whatever is said, what is proposed can be sewn and worn: no check speaks against it.
#[test]
fn proposals_stay_inside_what_the_checks_allow() {
    let mut n = Numbers::seeded(11);
    let mut tight = 0;
    for _ in 0..25 {
        let mut sheet = random::plain(&mut n);
        for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
            *leg = elastic_finish("trim", "soft 8");
        }
        sheet.elastics.get_mut("soft 8").unwrap().stretch = Some(Ratio::from_percent(n.between(20.0, 100.0)));
        let Ok(garment) = record(&sheet) else { continue };
        let verdict = *n.pick(&[Verdict::Loose, Verdict::Right, Verdict::Tight]);
        sheet.trials.extend([row(&sheet, &garment, Spot::whole(Edges::LeftLeg), verdict)]);
        sheet.trials.extend([row(&sheet, &garment, Spot::whole(Edges::LeftLeg), verdict)]);
        let legs = of(&sheet, Edges::Legs);
        let Some(_) = legs.allowed else { continue };
        let (left, right) = legs.pair.unwrap();
        for setting in [legs.proposal, left, right] {
            let new = record(&setting::set(&sheet, &garment, legs.spot, setting)).unwrap();
            let against = ["worn.tight", "worn.loose", "opening.elastic_cannot_pass", "elastic.longer_than_edge"];
            let of_leg = |f: &&crate::finding::Finding| f.place.to_string().contains("left leg");
            let found: Vec<_> = new.checks.iter().filter(of_leg).map(|f| f.code).collect();
            assert!(!found.iter().any(|code| against.contains(code)), "{setting}: {found:?}");
        }
        tight += usize::from(legs.held_back);
    }
    assert!(tight > 0, "some proposal was held back");
}

/// A smaller setting keeps what lies flat flat; a larger one keeps the differences.
#[test]
fn sections_keep_their_pattern() {
    let mut sheet = with_legs((0.0, 0.0));
    for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        leg.sections.insert(Section::Back, Ratio::from_percent(12.0));
    }
    let garment = record(&sheet).unwrap();
    let spot = Spot::whole(Edges::Legs);
    let now = setting::of(setting::walk(&garment, spot.opening()).unwrap(), None).unwrap();
    let parts = |to: f64| {
        let new = setting::set(&sheet, &garment, spot, to);
        let walk = setting::walk(&record(&new).unwrap(), spot.opening()).unwrap().clone();
        let part = |section| setting::of(&walk, section).unwrap();
        (part(None), part(Some(Section::Front)), part(Some(Section::Back)))
    };
    let (whole, front, back) = parts(0.5 * now);
    assert!((whole - 0.5 * now).abs() < 0.5 && front == 0.0 && back < 12.0, "{whole} {front} {back}");
    let (whole, front, back) = parts(now + 4.0);
    assert!((whole - now - 4.0).abs() < 0.5 && (front - 4.0).abs() < 0.3 && (back - 16.0).abs() < 0.3);
}

/// A length, and the length from the body, are changed in proportion.
#[test]
fn a_length_stays_a_length() {
    let mut sheet = brief();
    sheet.finish.top.basis = Some(Basis::Body);
    sheet.body.elastic_top = Some(mm(720.0));
    sheet.finish.left_leg.basis = Some(Basis::Length(mm(520.0)));
    let garment = record(&sheet).unwrap();
    for (edge, to) in [(Edges::Top, 6.0), (Edges::LeftLeg, 3.0)] {
        let new = setting::set(&sheet, &garment, Spot::whole(edge), to);
        let made = record(&new).unwrap();
        let is = setting::of(setting::walk(&made, Spot::whole(edge).opening()).unwrap(), None).unwrap();
        // To half a millimetre.
        assert!((is - to).abs() < 0.1, "{edge:?}: {is}");
        let kind = |sheet: &Sheet| sheet.finish.get(Spot::whole(edge).opening()).basis.map(Basis::name);
        assert_eq!(kind(&new), kind(&sheet));
    }
}
