//! A thousand simulated wearers, each with a hidden comfortable reduction between 0 and 25 %, judge
//! two legs of every test garment.

use crate::support::numbers::Numbers;
use crate::terms::Verdict;
use crate::trial::belief::{BAND, Belief, HALF_BAND, Told};
use crate::trial::evidence::Carried;
use crate::trial::next::{LEG_START, easier};
use crate::trial::pair::telling_most;
use crate::trial::setting::rounded;
use std::collections::BTreeMap;

const WEARERS: usize = 1000;
const GARMENTS: usize = 6;
/// Settings that can be sewn, %.
const SEWN: (f64, f64) = (0.0, 30.0);

/// Somebody who judges.
struct Wearer {
    comfortable: f64,
    /// Half-width of her band of comfort.
    band: f64,
    /// How often she is mistaken.
    wrong: f64,
}

impl Wearer {
    fn finds(&self, setting: f64) -> Verdict {
        match setting - self.comfortable {
            off if off < -self.band => Verdict::Loose,
            off if off > self.band => Verdict::Tight,
            _ => Verdict::Right,
        }
    }

    fn says(&self, setting: f64, n: &mut Numbers) -> Verdict {
        let found = self.finds(setting);
        let (mistaken, which) = (n.unit() < self.wrong, n.unit() < 0.5);
        if !mistaken {
            return found;
        }
        let others = [Verdict::Loose, Verdict::Right, Verdict::Tight].map(|v| (v != found).then_some(v));
        let mut others = others.into_iter().flatten();
        if which { others.next() } else { others.nth(1) }.expect("two others")
    }
}

/// A way to learn: what to sew on both legs, and what to propose.
trait Way {
    fn pair(&mut self) -> (f64, f64);
    fn hear(&mut self, setting: f64, verdict: Verdict);
    fn proposal(&self) -> f64;
    /// Another elastic, on which settings may be worn otherwise by up to so much.
    fn change(&mut self, doubt: f64);
}

/// Pairs that were worked out before, by what had been told: wearers share their beginnings.
type Known = BTreeMap<Vec<(i64, u8)>, (f64, f64)>;

struct Model<'k> {
    told: Vec<Told>,
    known: &'k mut Known,
}

impl Model<'_> {
    fn belief(&self) -> Belief {
        Belief::usual(LEG_START).after(&self.told)
    }

    fn history(&self) -> Vec<(i64, u8)> {
        let of = |told: &Told| {
            let doubt = (-1 - (told.doubt * 4.0) as i64, 0);
            told.verdicts.iter().map(|(s, v)| ((s * 4.0) as i64, *v as u8)).chain([doubt]).collect::<Vec<_>>()
        };
        self.told.iter().flat_map(of).collect()
    }
}

impl Way for Model<'_> {
    fn pair(&mut self) -> (f64, f64) {
        if self.told.iter().all(|told| told.verdicts.is_empty()) {
            return LEG_START;
        }
        let (history, belief) = (self.history(), self.belief());
        *self.known.entry(history).or_insert_with(|| telling_most(&belief, SEWN))
    }

    fn hear(&mut self, setting: f64, verdict: Verdict) {
        self.told.last_mut().expect("a group").verdicts.push((setting, verdict));
    }

    fn proposal(&self) -> f64 {
        let (belief, last) = (self.belief(), self.told.last().expect("a group"));
        let estimate = rounded(belief.quantile(0.5)).clamp(SEWN.0, SEWN.1);
        let right: Vec<f64> = last.verdicts.iter().filter(|(_, v)| *v == Verdict::Right).map(|(s, _)| *s).collect();
        easier(&belief, estimate, &right, true)
    }

    fn change(&mut self, doubt: f64) {
        self.told.last_mut().expect("a group").doubt = doubt;
        self.told.push(Told::default());
    }
}

/// Cuts what is left in three, and takes every verdict at its word.
struct Halving {
    low: f64,
    high: f64,
}

impl Way for Halving {
    fn pair(&mut self) -> (f64, f64) {
        let third = (self.high - self.low) / 3.0;
        (self.low + third, self.high - third)
    }

    fn hear(&mut self, setting: f64, verdict: Verdict) {
        match verdict {
            Verdict::Loose => self.low = setting.max(self.low),
            Verdict::Tight => self.high = setting.min(self.high),
            Verdict::Right => {
                (self.low, self.high) = ((setting - HALF_BAND).max(self.low), (setting + HALF_BAND).min(self.high));
            }
        }
        if self.low > self.high {
            (self.low, self.high) = (setting, setting);
        }
    }

    fn proposal(&self) -> f64 {
        0.5 * (self.low + self.high)
    }

    fn change(&mut self, doubt: f64) {
        (self.low, self.high) = (self.low - doubt, self.high + doubt);
    }
}

/// After which garment another elastic is taken, and how far it may be off.
type Change = Option<(usize, f64)>;

/// In how many of a hundred wearers the proposal is comfortable, after each garment.
fn comfortable(seed: u64, wrong: f64, bands: (f64, f64), change: Change, halving: bool) -> [f64; GARMENTS] {
    let mut n = Numbers::seeded(seed);
    let mut known = Known::new();
    let mut right = [0.0; GARMENTS];
    for _ in 0..WEARERS {
        let mut wearer = Wearer { comfortable: n.between(0.0, 25.0), band: n.between(bands.0, bands.1), wrong };
        let mut model = Model { told: vec![Told::default()], known: &mut known };
        let mut halves = Halving { low: 0.0, high: 25.0 };
        let way: &mut dyn Way = if halving { &mut halves } else { &mut model };
        for (i, right) in right.iter_mut().enumerate() {
            if let Some((_, doubt)) = change.filter(|(after, _)| *after == i) {
                wearer.comfortable += n.between(-doubt, doubt);
                way.change(doubt);
            }
            let pair = way.pair();
            for setting in [pair.0, pair.1] {
                way.hear(setting, wearer.says(setting, &mut n));
            }
            if wearer.finds(way.proposal()) == Verdict::Right {
                *right += 100.0 / WEARERS as f64;
            }
        }
    }
    right
}

const SAME: (f64, f64) = (HALF_BAND, HALF_BAND);

/// 95 % after three garments where nobody is mistaken, after five where 15 % of verdicts are wrong;
/// halving the interval, in the same run, gains nothing on it and loses where verdicts are wrong.
#[test]
fn a_comfortable_setting_is_found_in_three_garments_or_five() {
    let sure = comfortable(1, 0.0, SAME, None, false);
    let noisy = comfortable(2, 0.15, SAME, None, false);
    let halved = comfortable(1, 0.0, SAME, None, true);
    let halved_noisy = comfortable(2, 0.15, SAME, None, true);
    assert!(sure[2] >= 95.0 && noisy[4] >= 95.0, "{sure:?} {noisy:?}");
    assert!(halved[2] <= sure[2] + 0.5, "{halved:?} {sure:?}");
    assert!(halved_noisy[4] < noisy[4] - 5.0, "{halved_noisy:?} {noisy:?}");
}

/// Bands as different as the model allows for: they are found in one garment more.
#[test]
fn people_with_narrow_and_wide_bands_of_comfort_are_served() {
    let sure = comfortable(3, 0.0, BAND, None, false);
    let noisy = comfortable(4, 0.15, BAND, None, false);
    assert!(sure[3] >= 95.0, "{sure:?}");
    assert!(noisy[5] >= 90.0, "{noisy:?}");
}

/// Another elastic after the first or second garment, of which pull tests or the stretch alone are
/// known, costs one garment at most.
#[test]
fn a_change_of_elastic_costs_one_garment_at_most() {
    for carried in [Carried::ByTension, Carried::ByStretch] {
        for after in [1, 2] {
            let change = Some((after, carried.doubt()));
            let sure = comfortable(5, 0.0, SAME, change, false);
            let noisy = comfortable(6, 0.15, SAME, change, false);
            assert!(sure[3] >= 95.0 && noisy[5] >= 95.0, "{carried:?} after {after}: {sure:?} {noisy:?}");
        }
    }
}

/// Nothing of the model favours the wearers it is tried on: it is as sure as it is right.
#[test]
fn it_is_as_sure_as_it_is_right() {
    let mut n = Numbers::seeded(7);
    let (mut sure, mut right, mut said) = (0.0, 0.0, 0.0);
    for _ in 0..WEARERS {
        let wearer = Wearer { comfortable: n.between(0.0, 25.0), band: HALF_BAND, wrong: 0.15 };
        let verdicts = [(); 6].map(|()| {
            let setting = n.between(0.0, 25.0);
            (setting, wearer.says(setting, &mut n))
        });
        let belief = Belief::usual(LEG_START).after(&[Told { verdicts: verdicts.into(), doubt: 0.0 }]);
        let proposal = rounded(belief.quantile(0.5));
        let is_right = f64::from(u8::from(wearer.finds(proposal) == Verdict::Right));
        if belief.chance(proposal) >= super::super::SURE {
            (sure, said, right) = (sure + 1.0, said + belief.chance(proposal), right + is_right);
        }
    }
    let tally = format!("of {sure} that were sure, it said {:.3} and {:.3} were right", said / sure, right / sure);
    assert!(sure > 100.0 && right / sure >= super::super::SURE, "{tally}");
}
