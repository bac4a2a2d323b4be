//! Verdicts that do not go together: told, sewn again, settled.

use crate::base::Base;
use crate::keys::Edges;
use crate::make::record;
use crate::quantity::Ratio;
use crate::sheet::{Sheet, Trial};
use crate::support;
use crate::support::numbers::Numbers;
use crate::terms::Verdict::{self, Loose, Right, Tight};
use crate::trial::belief::{Belief, HALF_BAND, Told};
use crate::trial::setting::Spot;
use crate::trial::{LEG_START, Next, Refuted, Take, learn, next};
use Edges::{LeftLeg, RightLeg, Top};

/// A brief after some verdicts, each on a reduction in %.
fn sheet(told: &[(Edges, f64, Verdict)]) -> Sheet {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
    let row = |(edge, reduction, verdict): &(Edges, f64, Verdict)| Trial {
        date: Some("2026-03-02".to_owned()),
        edge: *edge,
        section: None,
        finish: None,
        elastic: None,
        reduction: Some(Ratio::from_percent(*reduction)),
        length: None,
        sections: Default::default(),
        worn_stretch: None,
        cloth: None,
        verdict: *verdict,
        note: None,
    };
    sheet.trials = told.iter().map(row).collect();
    sheet
}

fn of(edge: Edges, told: &[(Edges, f64, Verdict)]) -> Next {
    let sheet = sheet(told);
    let all = next(&sheet, &record(&sheet).unwrap());
    all.into_iter().find(|next| next.spot == Spot::whole(edge)).unwrap()
}

fn legs(told: &[(Edges, f64, Verdict)]) -> Next {
    of(Edges::Legs, told)
}

const PAIR: [(Edges, f64, Verdict); 2] = [(LeftLeg, 2.0, Tight), (RightLeg, 14.0, Right)];

#[test]
fn both_are_sewn_again_each_on_the_other_leg() {
    let found = legs(&PAIR);
    assert_eq!((found.contradictions.len(), found.pair, found.converged), (1, Some((14.0, 2.0)), false));
    let (one, other) = (&found.contradictions[0].one, &found.contradictions[0].other);
    assert_eq!((one.trial, other.trial, one.date.as_deref()), (1, 2, Some("2026-03-02")));
    let sheet = sheet(&PAIR);
    let lesson = learn(&sheet, &record(&sheet).unwrap(), &[], Take::Pair).unwrap();
    let reduction = |spec: &crate::sheet::FinishSpec| match spec.basis {
        Some(crate::sheet::Basis::Reduction(r)) => r.percent(),
        _ => f64::NAN,
    };
    let finish = &lesson.sheet.finish;
    assert_eq!((reduction(&finish.left_leg), reduction(&finish.right_leg)), (14.0, 2.0));
}

#[test]
fn sewn_again_it_is_settled_whoever_was_mistaken() {
    let after = |more: &[(Edges, f64, Verdict)]| legs(&[&PAIR, more].concat());
    for (more, mistaken, low, high) in [
        (&[(LeftLeg, 14.0, Right), (RightLeg, 2.0, Loose)], 1, 9.0, 19.0),
        (&[(LeftLeg, 14.0, Tight), (RightLeg, 2.0, Tight)], 2, 0.0, 1.0),
    ] {
        let found = after(more);
        let refuted: Vec<usize> = found.contradictions.iter().map(|c| c.refuted.as_ref().unwrap().trial).collect();
        assert!(!refuted.is_empty() && refuted.iter().all(|trial| *trial == mistaken), "{found:?}");
        assert!(found.to_settle().is_none() && found.low >= low && found.high <= high, "{found:?}");
    }
    // One leg alone settles it as well.
    assert!(after(&[(LeftLeg, 2.0, Loose)]).to_settle().is_none());
    // Told the same once more, in whatever order, it is as open as before.
    for more in [[(LeftLeg, 14.0, Right), (RightLeg, 2.0, Tight)], [(LeftLeg, 2.0, Tight), (RightLeg, 14.0, Right)]] {
        assert!(after(&more).to_settle().is_some());
    }
}

#[test]
fn one_against_many_is_refuted_and_told() {
    let found = legs(&[(LeftLeg, 4.0, Right), (RightLeg, 8.0, Tight), (LeftLeg, 5.0, Right), (RightLeg, 12.0, Loose)]);
    assert!(found.to_settle().is_none() && found.contradictions.len() == 3, "{found:?}");
    let refuted = Refuted { trial: 4, by: vec![1, 2, 3] };
    assert!(found.contradictions.iter().all(|c| c.refuted.as_ref() == Some(&refuted)));
    assert!(found.high < 7.0, "{found:?}");
}

/// The top edge is one: the setting that is easier to wear is sewn again.
#[test]
fn a_single_edge_is_sewn_again_by_itself() {
    let found = of(Top, &[(Top, 5.0, Tight), (Top, 8.0, Loose)]);
    let again = found.again.unwrap();
    assert!(found.pair.is_none() && (again == 5.0 || again == 8.0), "{found:?}");
    assert_eq!(found.to_settle().map(|c| (c.one.trial, c.other.trial)), Some((1, 2)));
    assert_eq!(legs(&[]).again, None);
}

/// One verdict already says something to go by.
#[test]
fn an_interval_can_be_acted_on() {
    for (setting, verdict, low, high) in
        [(3.0, Tight, 0.0, 0.0), (5.0, Right, 2.0, 8.0), (12.0, Tight, 0.0, 10.0), (4.0, Loose, 6.0, 30.0)]
    {
        let found = legs(&[(LeftLeg, setting, verdict)]);
        assert!(found.low >= low && found.high <= high, "{verdict:?} at {setting}: {found:?}");
    }
}

/// Of a thousand wearers who are never mistaken, eight in ten have their comfort inside what is told,
/// whatever was tried.
#[test]
fn the_interval_holds_what_it_says() {
    let mut n = Numbers::seeded(21);
    let mut inside = 0;
    for _ in 0..1000 {
        let comfortable = n.between(0.0, 25.0);
        let verdicts: Vec<(f64, Verdict)> = (0..3)
            .map(|_| {
                let setting = n.between(0.0, 25.0);
                let off: f64 = setting - comfortable;
                (
                    setting,
                    if off.abs() <= HALF_BAND {
                        Right
                    } else if off < 0.0 {
                        Loose
                    } else {
                        Tight
                    },
                )
            })
            .collect();
        let belief = Belief::usual(LEG_START).at_their_word(&[Told { verdicts, doubt: 0.0 }]).unwrap();
        inside += usize::from((belief.quantile(0.1)..=belief.quantile(0.9)).contains(&comfortable));
    }
    assert!(inside >= 780, "{inside} of 1000");
}

#[test]
fn nothing_is_left_where_all_of_it_cannot_be() {
    let told = [Told { verdicts: vec![(2.0, Tight), (14.0, Right)], doubt: 0.0 }];
    assert!(Belief::usual(LEG_START).at_their_word(&told).is_none());
}
