//! Points of a garment that mean something: who pulls one of them sets a key of the sheet.
//!
//! How a point goes with its key is found by drafting twice, a nudge apart: the secant over one
//! millimetre, or two hundredths of a share. It holds near today's value; whoever pulls far looks
//! where the point went and goes on from there.

use crate::draft::Draft;
use crate::drawing::on_body::Seen;
use crate::garment::{Source, Value};
use crate::keys::{Field, Key, Kind, Single, gusset, style};
use crate::on_body;
use crate::plan::Plan;
use crate::quantity::Length;
use crate::sheet::Sheet;
use crate::stages;
use crate::topology::PieceId;
use kurbo::{Point, Vec2};

/// A point that can be pulled.
#[derive(Clone, Debug)]
pub struct Handle {
    /// What it stands for.
    pub grip: &'static Grip,
    /// On what it is shown.
    pub on: On,
    /// Where, mm: on a piece in the coordinates of the piece, else of the view.
    pub at: Point,
    /// How it is pulled; none where the garment cannot be made a nudge away.
    pub pull: Option<Pull>,
}

/// Which way a handle goes, and how far its key goes with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Unit vector, the way of a growing key.
    pub along: Vec2,
    /// The key's change for each mm, in mm or shares of one.
    pub per_mm: f64,
}

/// What a handle is shown on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// The piece as it is cut.
    Piece(PieceId),
    /// The garment on the body.
    View(Seen),
}

/// Where a handle is shown, and how its point is found there.
type Spot = (On, fn(&Shown) -> Point);

/// A key with points that stand for it.
#[derive(Debug)]
pub struct Grip {
    /// Stable, for programs.
    pub name: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// Which key.
    pub field: Field<Single>,
    slot: fn(&mut Sheet) -> Slot<'_>,
    /// What the draft made of it, where a rule can change it.
    drawn: fn(&Draft) -> Option<f64>,
    spots: &'static [Spot],
}

/// The key's place in a sheet.
enum Slot<'s> {
    Length(&'s mut Option<Length>),
    Share(&'s mut Option<f64>),
}

/// What handles are placed on.
struct Shown {
    draft: Draft,
    body: on_body::Ends,
}

impl Shown {
    fn of(plan: &Plan, draft: Draft) -> Self {
        Self { body: on_body::ends(&draft, plan), draft }
    }
}

const FRONT: On = On::Piece(PieceId::Front);
const BACK: On = On::Piece(PieceId::Back);
const GUSSET: On = On::Piece(PieceId::Gusset);
const FROM_FRONT: On = On::View(Seen::Front);
const FROM_BACK: On = On::View(Seen::Back);
const FROM_SIDE: On = On::View(Seen::Side);

/// Every one, from the top down.
pub static GRIPS: [Grip; 10] = [
    Grip {
        name: "top front",
        label: "top edge, centre front",
        field: style::TOP_DROP_FRONT,
        slot: |sheet| Slot::Length(&mut sheet.style.top_drop_front),
        drawn: |_| None,
        spots: &[(FRONT, |s| s.draft.front.top.start()), (FROM_FRONT, |s| s.body.front.top)],
    },
    Grip {
        name: "top side",
        label: "top edge, sides",
        field: style::TOP_DROP_SIDE,
        slot: |sheet| Slot::Length(&mut sheet.style.top_drop_side),
        drawn: |_| None,
        spots: &[
            (FRONT, |s| s.draft.front.side.start()),
            (BACK, |s| s.draft.back.side.start()),
            (FROM_SIDE, |s| s.body.side.top),
        ],
    },
    Grip {
        name: "top back",
        label: "top edge, centre back",
        field: style::TOP_DROP_BACK,
        slot: |sheet| Slot::Length(&mut sheet.style.top_drop_back),
        drawn: |_| None,
        spots: &[(BACK, |s| s.draft.back.top.start()), (FROM_BACK, |s| s.body.back.top)],
    },
    Grip {
        name: "side seam",
        label: "side seam",
        field: style::SIDE_SEAM,
        slot: |sheet| Slot::Length(&mut sheet.style.side_seam),
        drawn: |draft| Some(draft.side_seam),
        spots: &[
            (FRONT, |s| s.draft.front.side.end()),
            (BACK, |s| s.draft.back.side.end()),
            (FROM_SIDE, |s| s.body.side.foot),
        ],
    },
    Grip {
        name: "scoop",
        label: "front leg edge",
        field: style::FRONT_SCOOP,
        slot: |sheet| Slot::Share(&mut sheet.style.front_scoop),
        drawn: |_| None,
        spots: &[(FRONT, |s| middle(&s.draft.front.leg)), (FROM_FRONT, |s| s.body.front.leg)],
    },
    Grip {
        name: "cover",
        label: "back leg edge",
        field: style::BACK_COVER,
        slot: |sheet| Slot::Share(&mut sheet.style.back_cover),
        drawn: |_| None,
        spots: &[(BACK, |s| middle(&s.draft.back.leg)), (FROM_BACK, |s| s.body.back.leg)],
    },
    Grip {
        name: "gusset front",
        label: "gusset, width at the front seam",
        field: gusset::FRONT_WIDTH,
        slot: |sheet| Slot::Length(&mut sheet.gusset.front_width),
        drawn: |_| None,
        spots: &[(GUSSET, |s| s.draft.gusset.leg.start())],
    },
    Grip {
        name: "gusset width",
        label: "gusset, narrowest width",
        field: gusset::WIDTH,
        slot: |sheet| Slot::Length(&mut sheet.gusset.width),
        drawn: |_| None,
        spots: &[(GUSSET, |s| narrowest(&s.draft.gusset.leg))],
    },
    Grip {
        name: "gusset back",
        label: "gusset, width at the back seam",
        field: gusset::BACK_WIDTH,
        slot: |sheet| Slot::Length(&mut sheet.gusset.back_width),
        drawn: |_| None,
        spots: &[(GUSSET, |s| s.draft.gusset.leg.end())],
    },
    Grip {
        name: "gusset length",
        label: "gusset, length",
        field: gusset::LENGTH,
        slot: |sheet| Slot::Length(&mut sheet.gusset.length),
        drawn: |_| None,
        spots: &[(GUSSET, |s| s.draft.gusset.back.end())],
    },
];

fn middle(path: &crate::curve::Path) -> Point {
    path.at(0.5 * path.length()).0
}

/// The place of a gusset's edge that is nearest to its middle.
fn narrowest(leg: &crate::curve::Path) -> Point {
    let points = leg.flatten(0.05);
    points.into_iter().min_by(|a, b| a.x.total_cmp(&b.x)).unwrap_or_default()
}

impl Grip {
    /// The one of a key.
    pub fn of(key: &Key) -> Option<&'static Self> {
        GRIPS.iter().find(|grip| Key::from(grip.field) == *key)
    }

    /// The key's value in a plan, and where it comes from.
    pub fn value(&self, plan: &Plan) -> Option<(f64, Source)> {
        let key = Key::from(self.field);
        let used = plan.used.iter().find(|used| used.key == key)?;
        match used.value {
            Value::Mm(number) | Value::Number(number) => Some((number, used.source)),
            Value::Percent(_) | Value::Word(_) => None,
        }
    }

    /// Is it a length, in mm? Else a share of one.
    pub const fn is_length(&self) -> bool {
        matches!(self.field.row().kind, Kind::Length(..) | Kind::Size(..))
    }

    /// What its key takes at all.
    pub const fn range(&self) -> (f64, f64) {
        match self.field.row().kind {
            Kind::Length(least, most) | Kind::Size(least, most) | Kind::Share(least, most) => (least, most),
            _ => (0.0, 0.0),
        }
    }

    /// What the draft made of a value of its key.
    pub(crate) fn drawn(&self, draft: &Draft, asked: f64) -> f64 {
        (self.drawn)(draft).unwrap_or(asked)
    }

    /// The sheet with its key at a value.
    pub fn set(&self, sheet: &Sheet, value: f64) -> Sheet {
        let mut new = sheet.clone();
        match (self.slot)(&mut new) {
            Slot::Length(slot) => *slot = Some(Length::from_mm(value)),
            Slot::Share(slot) => *slot = Some(value),
        }
        new
    }

    fn nudge(&self) -> f64 {
        if self.is_length() { 1.0 } else { 0.02 }
    }

    /// As drafted a nudge away, upwards if it can be, and how far that is.
    fn nudged(&self, sheet: &Sheet, plan: &Plan) -> Option<(Shown, f64)> {
        let (now, _) = self.value(plan)?;
        let (least, most) = self.range();
        [self.nudge(), -self.nudge()].into_iter().filter(|by| (least..=most).contains(&(now + by))).find_map(|by| {
            let plan = stages::plan(&self.set(sheet, now + by)).ok()?;
            let draft = stages::draft(&plan).ok()?;
            Some((Shown::of(&plan, draft), by))
        })
    }
}

/// Every handle of a draft, without which way it is pulled: quick, while one of them is.
pub fn places(plan: &Plan, draft: &Draft) -> Vec<Handle> {
    on_garment(draft, on_body::ends(draft, plan))
}

/// The same where it is known how the garment lies on the body.
pub(crate) fn on_garment(draft: &Draft, body: on_body::Ends) -> Vec<Handle> {
    let shown = &Shown { draft: draft.clone(), body };
    let all = GRIPS.iter().flat_map(|grip| grip.spots.iter().map(move |spot| (grip, spot)));
    all.map(|(grip, (on, at))| Handle { grip, on: *on, at: at(shown), pull: None }).collect()
}

/// Every handle of a draft.
pub fn handles(sheet: &Sheet, plan: &Plan, draft: &Draft) -> Vec<Handle> {
    let shown = Shown::of(plan, draft.clone());
    GRIPS.iter().flat_map(|grip| pulled(grip, sheet, plan, &shown)).collect()
}

fn pulled(grip: &'static Grip, sheet: &Sheet, plan: &Plan, shown: &Shown) -> Vec<Handle> {
    let nudged = grip.nudged(sheet, plan);
    let one = |(on, at): &(On, fn(&Shown) -> Point)| {
        let from = at(shown);
        let pull = nudged.as_ref().and_then(|(there, by)| pull(at(there) - from, *by));
        Handle { grip, on: *on, at: from, pull }
    };
    grip.spots.iter().map(one).collect()
}

/// Less than this, mm for a nudge, is no movement.
const STILL: f64 = 1e-3;

fn pull(moved: Vec2, by: f64) -> Option<Pull> {
    let far = moved.hypot();
    (far > STILL).then(|| Pull { along: moved / far * by.signum(), per_mm: by.abs() / far })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::support;

    /// Pulled by 4 mm along its way, a key moves its point there within a quarter, on every base.
    #[test]
    fn a_handle_goes_where_it_is_pulled() {
        let mut pulled = 0;
        for base in Base::all() {
            let sheet = support::sheet(&support::ordinary(), base);
            let plan = stages::plan(&sheet).unwrap();
            let draft = stages::draft(&plan).unwrap();
            for handle in handles(&sheet, &plan, &draft) {
                let Some(pull) = handle.pull else { continue };
                let (now, _) = handle.grip.value(&plan).unwrap();
                let plan = stages::plan(&handle.grip.set(&sheet, now + 4.0 * pull.per_mm)).unwrap();
                let Ok(draft) = stages::draft(&plan) else { continue };
                let there = places(&plan, &draft);
                let same = |h: &&Handle| h.grip.name == handle.grip.name && h.on == handle.on;
                let moved = there.iter().find(same).unwrap().at - handle.at;
                let off = (moved - 4.0 * pull.along).hypot();
                assert!(off < 1.0, "{} of {}: {moved:?} for {:?}", handle.grip.name, base.name(), 4.0 * pull.along);
                pulled += 1;
            }
        }
        assert!(pulled > 90, "{pulled}");
    }
}
