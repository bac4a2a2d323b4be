//! The work of a finish that is in no file but its own, and the small parts of the planner.

use super::*;
use crate::base::Base;
use crate::garment::Level;
use crate::sheet::{FinishSpec, Sheet};
use crate::support;
use crate::terms::{PerOpening, PutOn};

/// An invented body in ordinary jersey, one layer of gusset, every edge finished like this.
fn sheet(kind: &str, put_on: PutOn) -> Sheet {
    let mut sheet = support::sheet(&support::ordinary(), Base::all().next().expect("there are bases"));
    let spec = FinishSpec { put_on: Some(put_on), ..support::finish(kind, "soft 8") };
    sheet.finish = PerOpening::from_fn(|_| spec.clone());
    sheet.gusset.layers = Some(1);
    sheet
}

fn names(kind: &str, put_on: PutOn) -> Vec<String> {
    let made = crate::make(&sheet(kind, put_on)).unwrap();
    assert!(made.garment.checks.iter().all(|f| f.level < Level::Refusal));
    made.garment.order_of_work.into_iter().map(|s| s.step).collect()
}

/// Its one row comes where a flat edge has it, and the seams that catch its ends are aligned.
#[test]
fn a_new_finish_is_put_in_order_by_its_own_file() {
    let flat = [
        "cut front",
        "cut back",
        "cut gusset",
        "front gusset seam",
        "back gusset seam",
        "gusset pressed",
        "left leg row 1",
        "right leg row 1",
        "left side seam aligned",
        "left side seam",
        "left side seam trimmed",
        "left side seam pressed",
        "left side seam tacked",
        "top edge row 1",
        "right side seam aligned",
        "right side seam",
        "right side seam trimmed",
        "right side seam pressed",
        "right side seam tacked",
        "last look",
    ];
    assert_eq!(names("scallop", PutOn::Flat), flat);
    let round = [
        "left side seam",
        "left side seam pressed",
        "right side seam",
        "right side seam pressed",
        "left leg row 1",
        "right leg row 1",
        "top edge row 1",
        "last look",
    ];
    let until_pressed = &flat[..6];
    assert_eq!(names("scallop", PutOn::Round), [until_pressed, round.as_slice()].concat());
}

#[test]
fn nothing_is_done_at_a_raw_edge() {
    let names = names("raw", PutOn::Flat);
    assert!(!names.iter().any(|n| n.contains("leg") || n.contains("top edge") || n.contains("aligned")), "{names:?}");
}

#[test]
fn a_chain_gives_each_job_the_one_before() {
    let job = |name: &str| Job::new(Phase::End, name, name, "");
    let jobs = chained(vec![(job("a"), "never read"), (job("b"), "b needs a"), (job("c"), "c needs b")]);
    let needs: Vec<Vec<Need>> = jobs.into_iter().map(|j| j.step.needs).collect();
    let need = |before: &str, because| vec![Need { before: before.to_owned(), because }];
    assert_eq!(needs, [Vec::new(), need("a", "b needs a"), need("b", "c needs b")]);
}

#[test]
fn everything_that_nobody_waits_for_comes_before_the_end() {
    let job = |name: &str| Job::new(Phase::End, name, name, "");
    let end = last(&[job("a"), job("b").after("a", "it must"), job("c")]);
    let before: Vec<&str> = end.step.needs.iter().map(|n| n.before.as_str()).collect();
    assert_eq!(before, ["b", "c"]);
}

#[test]
fn titles_begin_with_a_capital() {
    assert_eq!((capital("left leg").as_str(), capital("").as_str()), ("Left leg", ""));
}
