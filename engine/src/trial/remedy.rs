//! Several remarks solved together: what to turn, by how much, and what cannot be had at once.

use super::change::{Change, changes};
use super::knob::{Knob, turned};
use super::remark::{Part, Remark, Turn};
use crate::finding::{Finding, Level, Place};
use crate::garment::Garment;
use crate::make::record;
use crate::plan::Plan;
use crate::sheet::Sheet;
use crate::stages;
use std::collections::BTreeSet;

/// A remark as it was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Said {
    /// Which.
    pub remark: Remark,
    /// By how much, mm, where she says so.
    pub by: Option<By>,
}

/// How much something is too wide, too long, too far.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum By {
    /// So many mm.
    Mm(f64),
    /// What the edgings stand out beyond the finished edges.
    ItsEdging,
}

/// What is done about the remarks.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The sheet with all of it.
    pub sheet: Sheet,
    /// Its garment.
    pub garment: Garment,
    /// Each remark with what is done about it.
    pub remedies: Vec<Remedy>,
    /// What cannot be had at once.
    pub conflicts: Vec<Conflict>,
}

/// What is done about one remark.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// Which.
    pub said: Said,
    /// What is turned for it, as much as can be.
    pub turns: Vec<Turned>,
    /// The keys that say so.
    pub changes: Vec<Change>,
}

/// A knob, how far it was to be turned and how far it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned {
    /// Which.
    pub knob: Knob,
    /// By how much, in its own unit.
    pub by: f64,
    /// The share of it that the checks allow: 0 is none.
    pub share: f64,
}

/// Two remarks that pull at one knob from both sides: it is left as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conflict {
    /// Which.
    pub knob: Knob,
    /// One remark.
    pub one: Remark,
    /// The other.
    pub other: Remark,
}

/// Solves the remarks together. A knob that two of them want is turned by the larger of both; one
/// that they want turned both ways is a conflict. Each knob is turned as far as the checks allow: no
/// refusal, and no warning that the garment did not have.
///
/// # Errors
/// Every reason why the sheet itself makes no garment.
pub fn solve(sheet: &Sheet, remarks: &[Said]) -> Result<Solved, Vec<Finding>> {
    let bare = Sheet { variants: Vec::new(), ..sheet.clone() };
    let plan = stages::plan(&bare)?;
    let garment = record(&bare).map_err(|refused| refused.findings)?;
    let wanted: Vec<(Said, Vec<Turn>)> =
        remarks.iter().map(|said| (*said, turns(&bare, &plan, &garment, *said))).collect();
    let conflicts = conflicts(&wanted);
    let mut now = (bare.clone(), plan.clone(), garment.clone());
    let mut turned = Vec::new();
    for (knob, by) in together(&wanted, &conflicts) {
        turned.push(Turned { knob, by, share: turn(&mut now, knob, by) });
    }
    let all = changes(&bare, &now.0, &plan, &garment);
    let remedies = wanted.iter().map(|(said, turns)| remedy(*said, turns, &turned, &all)).collect();
    let new = Sheet { variants: sheet.variants.clone(), ..now.0 };
    Ok(Solved { sheet: new, garment: now.2, remedies, conflicts })
}

/// The first remedy of a remark that this garment can take.
fn turns(sheet: &Sheet, plan: &Plan, garment: &Garment, said: Said) -> Vec<Turn> {
    let beyond = plan.finish.left_leg.lines.beyond() + plan.finish.right_leg.lines.beyond();
    let by = match said.by {
        Some(By::Mm(mm)) => Some(mm),
        Some(By::ItsEdging) => Some(beyond).filter(|mm| *mm > 0.0),
        None => None,
    };
    let sized = |turn: &Turn| match by.filter(|_| turn.knob.is_length()) {
        Some(mm) => Turn { by: mm.abs() * turn.by.signum(), ..*turn },
        None => *turn,
    };
    // An edging is no remedy for a width that she measured.
    let meant = |turn: &&Turn| !(turn.knob == Knob::Reach && matches!(said.by, Some(By::Mm(_))));
    let can = |turns: &Vec<Turn>| {
        !turns.is_empty() && turns.iter().all(|t| super::knob::turned(sheet, (plan, garment), t.knob, t.by).is_some())
    };
    let all = said.remark.row().remedies.iter();
    all.map(|turns| turns.iter().filter(meant).map(sized).collect()).find(can).unwrap_or_default()
}

/// Every pair of remarks that want a knob turned both ways.
fn conflicts(wanted: &[(Said, Vec<Turn>)]) -> Vec<Conflict> {
    let mut all = Vec::new();
    for (i, (one, turns)) in wanted.iter().enumerate() {
        for (other, others) in &wanted[i + 1..] {
            let against = |turn: &&Turn| {
                let opposed = |t: &Turn| t.knob == turn.knob && t.part == Part::Asked && t.by * turn.by < 0.0;
                turn.part == Part::Asked && others.iter().any(opposed)
            };
            let (one, other) = (one.remark, other.remark);
            all.extend(turns.iter().filter(against).map(|turn| Conflict { knob: turn.knob, one, other }));
        }
    }
    all
}

/// What is turned in all, knob by knob. What goes along stays where what it goes along with does.
fn together(wanted: &[(Said, Vec<Turn>)], conflicts: &[Conflict]) -> Vec<(Knob, f64)> {
    let is_open = |turn: &Turn| turn.part == Part::Asked && !conflicts.iter().any(|c| c.knob == turn.knob);
    let of_remark = |turns: &Vec<Turn>| {
        let goes = turns.iter().any(is_open);
        turns.iter().filter(|turn| is_open(turn) || (goes && turn.part == Part::Along)).copied().collect::<Vec<_>>()
    };
    let turns: Vec<Turn> = wanted.iter().flat_map(|(_, turns)| of_remark(turns)).collect();
    let knobs: BTreeSet<Knob> = turns.iter().map(|turn| turn.knob).collect();
    let most = |knob: Knob, part: Part| {
        let own = turns.iter().filter(|t| t.knob == knob && t.part == part).map(|t| t.by);
        own.fold(0.0, |most: f64, by| if by.abs() > most.abs() { by } else { most })
    };
    let all = knobs.into_iter().map(|knob| (knob, most(knob, Part::Asked) + most(knob, Part::Along)));
    all.filter(|(_, by)| *by != 0.0).collect()
}

/// Turns a knob as far as the checks allow, and says how far that was.
fn turn(now: &mut (Sheet, Plan, Garment), knob: Knob, by: f64) -> f64 {
    let known = warnings(&now.2);
    for share in [1.0, 0.75, 0.5, 0.25] {
        let Some(sheet) = turned(&now.0, (&now.1, &now.2), knob, share * by) else { continue };
        let (Ok(plan), Ok(garment)) = (stages::plan(&sheet), record(&sheet)) else { continue };
        if warnings(&garment).is_subset(&known) {
            *now = (sheet, plan, garment);
            return share;
        }
    }
    0.0
}

/// Code and place of every warning.
fn warnings(garment: &Garment) -> BTreeSet<(&'static str, Place)> {
    let all = garment.checks.iter().filter(|f| f.level >= Level::Warning);
    all.map(|f| (f.code, f.place.clone())).collect()
}

fn remedy(said: Said, turns: &[Turn], turned: &[Turned], all: &[Change]) -> Remedy {
    let own = |knob: Knob| turns.iter().any(|turn| turn.knob == knob);
    let changes = all.iter().filter(|c| Knob::ALL.into_iter().any(|k| own(k) && k.is_of(c))).cloned().collect();
    Remedy { said, turns: turned.iter().filter(|t| own(t.knob)).copied().collect(), changes }
}
