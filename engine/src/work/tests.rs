//! The work of a finish that is in no file but its own, and the small parts of the planner.

use super::*;
use crate::base::Base;
use crate::finish::FinishKind;
use crate::garment::Level;
use crate::quantity::{Length, Ratio, Units};
use crate::sheet::{Body, Fabric, FinishSpec, Gusset, PerOpening, Print, PutOn, Seams, Sheet, Style, WaistLevel};
use std::collections::BTreeMap;

fn mm(mm: u32) -> Length {
    Length::from_whole_mm(i64::from(mm))
}

/// An invented body in ordinary jersey, every edge finished like this.
fn sheet(kind: &str, put_on: PutOn) -> Sheet {
    let spec = FinishSpec {
        kind: FinishKind::named(kind).unwrap(),
        elastic: None,
        basis: None,
        put_on: Some(put_on),
        marks: None,
        spread: None,
        sections: BTreeMap::new(),
        bite: None,
        reach: None,
        lap: None,
        room: None,
        catch: None,
        turn: None,
        depth: None,
        width: None,
        overlap: None,
    };
    Sheet {
        name: "work".to_owned(),
        units: Units::Mm,
        date: None,
        body: body(),
        fabric: fabric(),
        style: style(),
        gusset: Gusset { layers: Some(1), ..Gusset::default() },
        seams: Seams::default(),
        finish: PerOpening::from_fn(|_| spec.clone()),
        elastics: BTreeMap::new(),
        print: Print::default(),
        trials: Vec::new(),
    }
}

fn body() -> Body {
    Body {
        waist_girth: mm(740),
        waist_level: Some(WaistLevel::Natural),
        hip_girth: mm(980),
        waist_to_hip: mm(200),
        crotch_length: mm(710),
        crotch_length_front: Some(mm(320)),
        thigh_girth: Some(mm(570)),
        top_edge_girth: None,
        leg_line_girth: None,
        elastic_top: None,
        child: None,
    }
}

fn fabric() -> Fabric {
    Fabric {
        name: None,
        kind: None,
        stretch_across: Ratio::from_percent(60.0),
        stretch_along: Ratio::from_percent(40.0),
        width: None,
        ease_across: None,
        ease_along: None,
        shrink_across: None,
        shrink_along: None,
    }
}

fn style() -> Style {
    Style {
        base: Base::all().find(|b| b.name() == "brief").unwrap(),
        top_drop_front: None,
        top_drop_side: None,
        top_drop_back: None,
        side_seam: None,
        front_scoop: None,
        back_cover: None,
        back_share: None,
        leg_edge: None,
    }
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
