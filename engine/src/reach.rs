//! How far a key can go: the range round today's value in which the garment can be made.

use crate::finding::{Finding, Help, Level, Place};
use crate::handle::Grip;
use crate::keys::Key;
use crate::make::record;
use crate::refused::Refused;
use crate::sheet::Sheet;
use crate::stages;

/// The range of a key.
#[derive(Clone, Debug)]
pub struct Reach {
    /// Today's value, mm or a share of one.
    pub now: f64,
    /// The lower end.
    pub low: End,
    /// The upper one.
    pub high: End,
}

/// An end of a range.
#[derive(Clone, Debug)]
pub struct End {
    /// The garment can be made here.
    pub at: f64,
    /// What refuses it a step further, or says that a rule gave the key another value there; nothing where
    /// that is the key's own range.
    pub stopped_by: Vec<Finding>,
}

/// Ends are found to so much, and lie on whole steps: of mm, and of a share.
const STEPS: (f64, f64) = (0.5, 0.01);

/// The longest stride at which a range is looked through, in steps: a gap that is narrower may be
/// stepped over, far from today's value.
const STRIDE: f64 = 16.0;

/// Looks for the range of a key: in growing strides away from today's value until the garment is refused,
/// then halving.
///
/// # Errors
/// [`Refused`] where the garment cannot be made today.
pub fn reach(sheet: &Sheet, grip: &Grip) -> Result<Option<Reach>, Refused> {
    let bare = Sheet { variants: Vec::new(), ..sheet.clone() };
    record(&bare)?;
    let Some((now, _)) = stages::plan(&bare).ok().and_then(|plan| grip.value(&plan)) else { return Ok(None) };
    let search = Search { sheet: &bare, grip, step: if grip.is_length() { STEPS.0 } else { STEPS.1 }, now };
    Ok(Some(Reach { now, low: search.end(-1.0), high: search.end(1.0) }))
}

struct Search<'a> {
    sheet: &'a Sheet,
    grip: &'a Grip,
    step: f64,
    now: f64,
}

impl Search<'_> {
    /// So many whole steps from nothing, that lie on today's side of a value.
    fn end(&self, way: f64) -> End {
        let limit = if way > 0.0 { self.grip.range().1 } else { self.grip.range().0 };
        let last = ((limit - self.now) * way / self.step).floor().max(0.0);
        let (mut good, mut stride) = (0.0, 1.0);
        let mut bad: Option<(f64, Vec<Finding>)> = None;
        while bad.is_none() && good < last {
            let next = f64::min(good + stride, last);
            match self.refused(way * next) {
                None => good = next,
                Some(found) => bad = Some((next, found)),
            }
            stride = f64::min(2.0 * stride, STRIDE);
        }
        let mut stopped_by = Vec::new();
        if let Some((mut beyond, mut found)) = bad {
            while beyond - good > 1.0 {
                let middle = (0.5 * (good + beyond)).floor().clamp(good + 1.0, beyond - 1.0);
                match self.refused(way * middle) {
                    None => good = middle,
                    Some(more) => (beyond, found) = (middle, more),
                }
            }
            stopped_by = found;
        }
        End { at: self.value(way * good), stopped_by }
    }

    fn value(&self, steps: f64) -> f64 {
        self.now + steps * self.step
    }

    fn refused(&self, steps: f64) -> Option<Vec<Finding>> {
        let asked = self.value(steps);
        let sheet = self.grip.set(self.sheet, asked);
        let garment = match record(&sheet) {
            Err(refused) => return Some(refused.findings.into_iter().filter(|f| f.level == Level::Refusal).collect()),
            Ok(garment) => garment,
        };
        let draft = stages::plan(&sheet).and_then(|plan| stages::draft(&plan)).ok()?;
        if (self.grip.drawn(&draft, asked) - asked).abs() <= 0.5 * self.step {
            return None;
        }
        let key = Key::from(self.grip.field);
        let is_about = |found: &Finding| {
            found.place == Place::Key(key.clone()) || found.helps.iter().flat_map(Help::keys).any(|other| other == key)
        };
        let (about, others): (Vec<_>, Vec<_>) = garment.checks.into_iter().partition(is_about);
        Some(if about.is_empty() { others } else { about })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::handle::GRIPS;
    use crate::support;

    /// Both ends can be made; a step beyond them the garment is refused, or the key's own range ends.
    #[test]
    fn a_range_ends_where_the_garment_does() {
        let mut stopped = 0;
        for base in ["full brief", "brief", "tanga"] {
            let sheet = support::sheet(&support::ordinary(), Base::named(base).unwrap());
            for grip in &GRIPS {
                let found = reach(&sheet, grip).unwrap().unwrap();
                assert!(found.low.at <= found.now && found.now <= found.high.at, "{} {found:?}", grip.name);
                let step = if grip.is_length() { STEPS.0 } else { STEPS.1 };
                for (end, beyond) in [(&found.low, -step), (&found.high, step)] {
                    assert!(record(&grip.set(&sheet, end.at)).is_ok(), "{base}, {}: {}", grip.name, end.at);
                    let further = end.at + beyond;
                    let (least, most) = grip.range();
                    if end.stopped_by.is_empty() {
                        assert!(!(least + 1e-9..=most - 1e-9).contains(&further), "{base}, {}: {further}", grip.name);
                    } else {
                        let beyond = grip.set(&sheet, further);
                        let is_followed = stages::plan(&beyond).and_then(|plan| stages::draft(&plan));
                        let is_followed = is_followed.is_ok_and(|d| (grip.drawn(&d, further) - further).abs() < 0.25);
                        assert!(record(&beyond).is_err() || !is_followed, "{base}, {}: {further}", grip.name);
                        stopped += 1;
                    }
                }
            }
        }
        assert!(stopped > 20, "{stopped}");
    }
}
