//! The order of work, tried on a work table that knows only what cloth, needle and iron allow.

mod choices;
mod said;
mod table;

use crate::support::measure::{length, resolve, sewing};
use crate::support::numbers::Numbers;
use choices::{Choices, Edge, KINDS, Layers};
use engine::finding::Finding;
use engine::garment::{Garment, Step};
use engine::sheet::{ClothKind, Opening, PerOpening, PutOn, SeamKind};
use engine::words::{Speech, work as words};
use engine::work::step::StepId;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::io::Write as _;
use table::sewn;

/// The steps as a person reads them: the work table knows nothing of how they are planned.
fn names(steps: &[Step]) -> Vec<String> {
    steps.iter().map(|s| s.id.name()).collect()
}

/// Does the whole work.
fn try_out(choices: &Choices, names: &[impl AsRef<str>]) -> Result<(), String> {
    sewn(choices, names.iter().map(AsRef::as_ref))
}

fn steps(choices: &Choices) -> Vec<Step> {
    engine::make(&choices.sheet()).unwrap_or_else(|e| panic!("{choices:?}: {e}")).garment.order_of_work
}

/// A list that can be sewn from the first line to the last: every need before what needs it, with
/// a reason; nothing twice, nothing for nothing; and the work table agrees, also with another order
/// that keeps the needs.
fn judge(choices: &Choices, garment: &Garment) -> Result<(), String> {
    let steps = &garment.order_of_work;
    let mut before = BTreeSet::new();
    for step in steps {
        for need in &step.needs {
            if !before.contains(&need.step) {
                return Err(format!("{:?} comes before its need {:?}", step.id, need.step));
            }
            if words::because(need.because).is_empty() {
                return Err(format!("{:?} needs {:?} without a reason", step.id, need.step));
            }
        }
        let is_told = !words::title(step).is_empty() && !words::does(step, Speech(garment.units)).is_empty();
        if !is_told || !before.insert(step.id) {
            return Err(format!("{:?} says nothing, or comes twice", step.id));
        }
    }
    if steps.iter().map(|s| s.id.name()).collect::<BTreeSet<_>>().len() < steps.len() {
        return Err("two steps have one name".to_owned());
    }
    let needed: BTreeSet<StepId> = steps.iter().flat_map(|s| &s.needs).map(|n| n.step).collect();
    if let Some(idle) = steps[..steps.len() - 1].iter().find(|s| !needed.contains(&s.id)) {
        return Err(format!("{:?} is done for nothing", idle.id));
    }
    measured(garment)?;
    try_out(choices, &names(steps))?;
    let lot = by_lot(steps, &mut Numbers::seeded(steps.len() as u64));
    try_out(choices, &lot).map_err(|why| format!("by lot: {why}: {lot:?}"))
}

/// Rows and seams are as long as the pieces say, and everything that is sewn has its stitch.
fn measured(garment: &Garment) -> Result<(), String> {
    let of = |name: &str| garment.order_of_work.iter().find(|s| s.id.name() == name);
    for walk in &garment.openings {
        let Some(row) = of(&format!("{} row 1", walk.opening.name())) else { continue };
        let along: f64 = walk.path.iter().map(|at| length(&resolve(garment, at, sewing))).sum();
        let told = row.length.ok_or_else(|| format!("{:?} has no length", row.id))?;
        if (told - along).abs() > 1e-3 || row.sewing.is_none() {
            return Err(format!("{:?} is {told} mm, measured {along}; {:?}", row.id, row.sewing));
        }
    }
    for walk in &garment.openings {
        let Some(row) = of(&format!("{} row 2", walk.opening.name())) else { continue };
        let near = row.length.is_some_and(|mm| (mm / walk.finished - 1.0).abs() < 0.1);
        if !near || row.sewing.is_none() {
            return Err(format!("{:?} is {:?} mm along an edge of {}", row.id, row.length, walk.finished));
        }
    }
    for seam in ["left side seam", "right side seam", "front gusset seam", "back gusset seam"] {
        let walked: f64 = garment.seams.iter().filter(|s| s.id.name().starts_with(seam)).map(|s| s.length_b).sum();
        let step = of(seam).ok_or_else(|| format!("the {seam} is never sewn"))?;
        if step.length.is_none_or(|mm| (mm - walked).abs() > 0.05) || step.sewing.is_none() {
            return Err(format!("the {seam} is {:?} mm, walked {walked}; {:?}", step.length, step.sewing));
        }
    }
    Ok(())
}

/// What came of many choices.
#[derive(Default)]
struct Tally {
    made: BTreeMap<&'static str, usize>,
    refused: BTreeMap<String, usize>,
    broken: Vec<String>,
}

impl Tally {
    fn add(&mut self, choices: &Choices) {
        let cloth = if choices.cloth == ClothKind::Knit { "knit" } else { "woven" };
        let verdict = match engine::make(&choices.sheet()) {
            Ok(_) if choices.is_impossible() => Err("made, though it is impossible".to_owned()),
            Ok(made) => {
                *self.made.entry(cloth).or_default() += 1;
                judge(choices, &made.garment)
            }
            Err(refused) => {
                let code = refused.findings.first().map_or("", |f| f.code);
                *self.refused.entry(format!("{cloth}, {code}")).or_default() += 1;
                explained(&refused.findings)
            }
        };
        self.broken.extend(verdict.err().map(|why| format!("{choices:?}: {why}")));
    }

    fn merge(mut self, other: Self) -> Self {
        for (cloth, n) in other.made {
            *self.made.entry(cloth).or_default() += n;
        }
        for (code, n) in other.refused {
            *self.refused.entry(code).or_default() += n;
        }
        self.broken.extend(other.broken);
        self
    }

    /// Says what it found past the test runner's capture, and fails where something broke.
    fn settle(&self) {
        let mut text = format!("\norder of work: made {:?}\n", self.made);
        for (code, n) in &self.refused {
            let _ = writeln!(text, "  refused {n:6}  {code}");
        }
        let _ = std::io::stderr().lock().write_all(text.as_bytes());
        let first = &self.broken[..self.broken.len().min(20)];
        assert!(first.is_empty(), "{} of the choices broke:\n{}", self.broken.len(), first.join("\n"));
    }
}

/// A refusal says where, why and what to do, and is not a fault of the planning itself.
fn explained(findings: &[Finding]) -> Result<(), String> {
    if findings.is_empty()
        || !findings.iter().all(crate::support::is_told)
        || findings.iter().any(|f| f.code.starts_with("work."))
    {
        return Err(format!("refused without a reason: {findings:?}"));
    }
    Ok(())
}

#[test]
fn some_hundred_pairs_can_be_sewn_from_first_step_to_last() {
    let mut n = Numbers::seeded(0x05_1b);
    let mut tally = Tally::default();
    (0..600).for_each(|_| tally.add(&Choices::drawn(&mut n)));
    tally.settle();
    assert!(tally.made["knit"] > 100 && tally.made["woven"] > 50, "{:?}", tally.made);
}

/// Every finish, flat or round on each opening, one layer or two, knit and woven.
#[test]
#[ignore = "34,992 garments"]
fn every_pair_can_be_sewn_from_first_step_to_last() {
    let all: Vec<Choices> = choices::all().collect();
    assert_eq!(all.len(), 9_usize.pow(3) * 8 * 3 * 2);
    let work = |part: &[Choices]| {
        let mut tally = Tally::default();
        part.iter().for_each(|c| tally.add(c));
        tally
    };
    let (one, other) = all.split_at(all.len() / 2);
    let (one, other) = std::thread::scope(|scope| {
        let first = scope.spawn(|| work(one));
        (work(other), first.join().unwrap())
    });
    one.merge(other).settle();
}

/// Choices that between them have every kind of step.
fn samples() -> Vec<Choices> {
    let edge = |kind, put_on, reduction| Edge { kind, put_on, reduction };
    let ways = [(PutOn::Flat, 5), (PutOn::Flat, 0), (PutOn::Round, 5)];
    let mut all = Vec::new();
    for (i, kind) in KINDS.iter().enumerate() {
        for (k, (put_on, reduction)) in ways.into_iter().enumerate() {
            for cloth in [ClothKind::Knit, ClothKind::Woven] {
                // A woven leg cannot be folded over a hollow curve.
                let legs: &[&'static str] =
                    if cloth == ClothKind::Knit { &KINDS } else { &["trim", "lapped", "binding"] };
                let leg = |nth: usize, way: usize| edge(legs[nth % legs.len()], ways[way % 3].0, ways[way % 3].1);
                let edges = PerOpening {
                    top: edge(kind, put_on, reduction),
                    left_leg: leg(i, k + 1),
                    right_leg: leg(i + 4, k),
                };
                let layers = [Layers::One, Layers::Enclosed, Layers::Tacked][(i + k) % 3];
                let seams = if cloth == ClothKind::Knit { SeamKind::Overlock } else { SeamKind::Lockstitch };
                all.push(Choices { edges, layers, cloth, seams });
            }
        }
    }
    all.retain(|c| !c.is_impossible() && engine::make(&c.sheet()).is_ok());
    all
}

#[test]
fn the_table_notices_a_step_left_out_done_twice_or_done_too_early() {
    let (mut faults, mut missed) = (0, BTreeSet::new());
    let mut told = |choices: &Choices, list: &[&str], fault: String| {
        faults += 1;
        if try_out(choices, list).is_ok() {
            missed.insert(fault);
        }
    };
    for choices in samples() {
        let steps = steps(&choices);
        let all = names(&steps);
        let list: Vec<&str> = all.iter().map(String::as_str).collect();
        try_out(&choices, &list).unwrap();
        for (i, step) in steps.iter().enumerate() {
            let without: Vec<&str> = list.iter().enumerate().filter(|(k, _)| *k != i).map(|(_, s)| *s).collect();
            told(&choices, &without, format!("without {}", list[i]));
            let twice: Vec<&str> = list[..=i].iter().chain(&list[i..]).copied().collect();
            told(&choices, &twice, format!("{} twice", list[i]));
            for need in &step.needs {
                let mut early = without.clone();
                let needed = need.step.name();
                let place = early.iter().position(|s| *s == needed).unwrap();
                early.insert(place, list[i]);
                told(&choices, &early, format!("{} before {needed}", list[i]));
            }
        }
    }
    assert!(missed.is_empty(), "{} of {faults} faults went unnoticed: {missed:#?}", missed.len());
    assert!(faults > 2500, "{faults} faults were tried");
}

/// The needs alone make the order right: whatever else is drawn by lot, it can be sewn.
#[test]
fn any_order_that_keeps_the_needs_can_be_sewn() {
    let mut n = Numbers::seeded(0xa11);
    for choices in samples() {
        let steps = steps(&choices);
        for _ in 0..20 {
            let order = by_lot(&steps, &mut n);
            try_out(&choices, &order).unwrap_or_else(|why| panic!("{choices:?}: {why}: {order:#?}"));
        }
    }
}

fn by_lot(steps: &[Step], n: &mut Numbers) -> Vec<String> {
    let mut order: Vec<StepId> = Vec::new();
    while order.len() < steps.len() {
        let is_free = |s: &&Step| !order.contains(&s.id) && s.needs.iter().all(|need| order.contains(&need.step));
        let free: Vec<&Step> = steps.iter().filter(is_free).collect();
        order.push(n.pick(&free).id);
    }
    order.into_iter().map(StepId::name).collect()
}

#[test]
fn the_table_notices_an_order_for_other_choices() {
    for choices in samples() {
        let steps = steps(&choices);
        for opening in Opening::ALL {
            let mut other = choices.clone();
            let edge = match opening {
                Opening::Top => &mut other.edges.top,
                Opening::LeftLeg => &mut other.edges.left_leg,
                Opening::RightLeg => &mut other.edges.right_leg,
            };
            edge.put_on = if edge.put_on == PutOn::Flat { PutOn::Round } else { PutOn::Flat };
            // Nothing is done at a raw edge, early or late.
            if edge.kind != "raw" {
                assert!(try_out(&other, &names(&steps)).is_err(), "{choices:?} is taken for {other:?}");
            }
        }
        let layers = if choices.layers == Layers::One { Layers::Enclosed } else { Layers::One };
        assert!(try_out(&Choices { layers, ..choices.clone() }, &names(&steps)).is_err(), "{choices:?}");
    }
}

/// What another finish at one edge does not concern stays, word for word and in its order: every
/// step but those of that edge, and those of the seam that catches its ends.
#[test]
fn changing_one_finish_changes_only_what_must_change() {
    let edge = |kind, put_on| Edge { kind, put_on, reduction: 5 };
    let ways: Vec<Edge> = KINDS
        .iter()
        .flat_map(|kind| [PutOn::Flat, PutOn::Round].map(|put_on| edge(kind, put_on)))
        .filter(|e| (e.kind, e.put_on) != ("tunnel", PutOn::Flat))
        .collect();
    let start = Choices {
        edges: PerOpening::from_fn(|_| edge("trim", PutOn::Flat)),
        layers: Layers::Enclosed,
        cloth: ClothKind::Knit,
        seams: SeamKind::Overlock,
    };
    let first = steps(&start);
    for (opening, seam) in
        [(Opening::Top, "right side"), (Opening::LeftLeg, "left side"), (Opening::RightLeg, "right side")]
    {
        let untouched = |steps: &[Step]| -> Vec<String> {
            let own = |s: &&Step| {
                let name = s.id.name();
                let about_cutting = name.starts_with("cut ") || name == "last look";
                !name.starts_with(opening.name()) && !name.starts_with(seam) && !about_cutting
            };
            steps.iter().filter(own).map(|s| format!("{:?} | {} | {:?}", s.id, words::title(s), s.needs)).collect()
        };
        for way in &ways {
            let mut other = start.clone();
            match opening {
                Opening::Top => other.edges.top = *way,
                Opening::LeftLeg => other.edges.left_leg = *way,
                Opening::RightLeg => other.edges.right_leg = *way,
            }
            let changed = steps(&other);
            assert_eq!(untouched(&changed), untouched(&first), "{opening:?} {way:?}");
            let seam_is_sewn = names(&changed).iter().filter(|n| **n == format!("{seam} seam")).count();
            assert_eq!(seam_is_sewn, 1);
        }
    }
}

#[test]
fn the_same_choices_give_the_same_list() {
    let mut n = Numbers::seeded(77);
    for _ in 0..20 {
        let choices = Choices::drawn(&mut n);
        let list = || engine::make(&choices.sheet()).ok().map(|m| format!("{:?}", m.garment.order_of_work));
        assert_eq!(list(), list());
    }
}

/// A ring cannot be lapped by more than itself, and a tunnel cannot be put on flat.
#[test]
fn impossible_choices_are_refused_with_the_reason() {
    let round = Edge { kind: "trim", put_on: PutOn::Round, reduction: 5 };
    let mut choices = Choices {
        edges: PerOpening::from_fn(|_| round),
        layers: Layers::One,
        cloth: ClothKind::Knit,
        seams: SeamKind::Overlock,
    };
    let mut sheet = choices.sheet();
    sheet.finish.left_leg.overlap = Some(crate::support::mm(400.0));
    let found = engine::make(&sheet).unwrap_err().findings;
    assert_eq!(
        (found[0].code, found[0].place.to_string().as_str()),
        ("work.overlap_too_long", "finish.left_leg.overlap")
    );
    choices.edges.right_leg = Edge { kind: "tunnel", put_on: PutOn::Flat, reduction: 5 };
    let found = engine::make(&choices.sheet()).unwrap_err().findings;
    assert_eq!((found[0].code, found[0].place.to_string().as_str()), ("finish.round_only", "finish.right_leg.put_on"));
    let text = crate::support::said(&found[0]).text;
    assert!(text.contains("closed first"), "{text}");
}
