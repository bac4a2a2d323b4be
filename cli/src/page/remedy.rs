//! The nearest value of a key with which a finding is gone: tried in growing steps away from today's, then
//! halved, on the garments that come of it.

use super::Trouble;
use super::change::Change;
use super::desk::{Answer, Desk};
use super::reading::Reading;
use engine::garment::Value as Worth;
use engine::keys::{Key, Kind};
use serde::Deserialize;

/// What is to go, and which way to turn for it.
#[derive(Debug, Deserialize)]
pub(super) struct Wanted {
    finding: String,
    place: String,
    key: String,
    way: String,
}

/// So often a step is doubled, and halved.
const TRIES: i32 = 9;

/// Sets the key, as a step that can be undone.
pub(super) fn remedy(desk: &mut Desk, wanted: &Wanted) -> Answer {
    let key = Key::named(&wanted.key)
        .ok_or_else(|| Trouble::asked_wrongly(format!("a sheet has no key “{}”", wanted.key)))?;
    let search = Search { desk, wanted, kind: key.row().kind, now: now(desk, &key)? };
    let change = search.value().ok_or_else(|| {
        Trouble::refused(format!("no value of {} alone helps", key.label()), "try the other remedies, or more than one")
    })?;
    desk.set(&[change], Some(key.label()))
}

/// What holds of the key, in its own unit: mm, % or a share.
fn now(desk: &Desk, key: &Key) -> Result<f64, Trouble> {
    let open = desk.sheet()?;
    let used = match &open.now {
        Reading::Made(good) => good.made.garment.used.as_slice(),
        Reading::Refused(_, refused) => refused.reached.plan.as_ref().map(|p| p.used.as_slice()).unwrap_or_default(),
        Reading::Unread(_) => &[],
    };
    match used.iter().find(|used| used.key == *key).map(|used| &used.value) {
        Some(Worth::Mm(number) | Worth::Percent(number) | Worth::Number(number)) => Ok(*number),
        _ => Err(Trouble::refused(format!("nothing is known of {}", key.label()), "write it into its field")),
    }
}

struct Search<'a> {
    desk: &'a Desk,
    wanted: &'a Wanted,
    kind: Kind,
    now: f64,
}

impl Search<'_> {
    /// The least turn that helps.
    fn value(&self) -> Option<Change> {
        let step = self.step();
        let (mut good, mut bad) = (None, 0.0);
        for doubled in 0..TRIES {
            let by = step * f64::from(1 << doubled);
            if self.helps(by) {
                good = Some(by);
                break;
            }
            bad = by;
        }
        let mut good = good?;
        while good - bad > step * 1.001 {
            let middle = bad + step * (0.5 * (good - bad) / step).floor().max(1.0);
            if self.helps(middle) { good = middle } else { bad = middle }
        }
        Some(self.change(good))
    }

    const fn step(&self) -> f64 {
        match self.kind {
            Kind::Length(..) | Kind::Size(..) => 1.0,
            Kind::Share(..) => 0.01,
            _ => 0.5,
        }
    }

    fn change(&self, by: f64) -> Change {
        let sign = match self.wanted.way.as_str() {
            "larger" => 1.0,
            "smaller" => -1.0,
            _ => -self.now.signum(),
        };
        let to = self.now + sign * by;
        let is_length = matches!(self.kind, Kind::Length(..) | Kind::Size(..));
        let (mm, number) = if is_length { (Some(to), None) } else { (None, Some(to)) };
        Change { key: self.wanted.key.clone(), value: None, mm, number }
    }

    /// Is the garment made, and the finding gone?
    fn helps(&self, by: f64) -> bool {
        let Ok(open) = self.desk.sheet() else { return false };
        let Ok(text) = open.with(&[self.change(by)]) else { return false };
        let Reading::Made(good) = Reading::of(&text, &open.path) else { return false };
        let is_it = |found: &engine::finding::Finding| {
            found.code == self.wanted.finding && found.place.to_string() == self.wanted.place
        };
        !good.made.garment.checks.iter().flat_map(|found| found.all()).any(is_it)
    }
}
