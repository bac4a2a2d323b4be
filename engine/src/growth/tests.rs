use super::*;
use crate::base::Base;
use crate::quantity::Length;
use crate::support;

/// Sizes of a row, the hip a tenth of a metre wider each.
fn row() -> Vec<Garment> {
    let size = |i: u16| {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let more = f64::from(i) * 40.0;
        sheet.body.waist_girth = Length::from_mm(640.0 + more);
        sheet.body.hip_girth = Length::from_mm(900.0 + more);
        sheet.body.crotch_length = Length::from_mm(690.0 + 0.365 * more);
        sheet.finish.top = support::finish("turned", "soft");
        sheet.elastics.insert("soft".to_owned(), support::elastic(12.0));
        crate::record(&sheet).unwrap()
    };
    (0..5).map(size).collect()
}

#[test]
fn what_is_told_is_what_the_garments_are() {
    let sizes = row();
    let growth = Growth::of(&sizes.iter().collect::<Vec<_>>());
    let line = |what: &What| growth.lines.iter().find(|line| line.what == *what).unwrap();
    let top: Vec<Option<f64>> =
        sizes.iter().map(|g| g.openings.iter().find(|o| o.opening == Opening::Top).map(|o| o.finished)).collect();
    assert_eq!(line(&What::Edge(Opening::Top)).lengths, top);
    let hip = line(&What::Measure(Key::from(body::HIP_GIRTH)));
    assert!(hip.growth().iter().all(|step| step.is_some_and(|mm| (mm - 40.0).abs() < 1e-9)), "{hip:?}");
    let marks = growth.lines.iter().filter(|line| matches!(line.what, What::Mark(Opening::Top, ..))).count();
    assert_eq!(marks, sizes[0].openings[0].elastic.as_ref().unwrap().marks.len());
}

#[test]
fn what_is_alike_on_both_sides_is_listed_once() {
    let mut sizes = row();
    let growth = Growth::of(&sizes.iter().collect::<Vec<_>>());
    let is_listed = |growth: &Growth, what: &What| growth.listed().any(|line| line.what == *what);
    let [left, right] = [Opening::LeftLeg, Opening::RightLeg].map(What::Edge);
    assert!(is_listed(&growth, &left) && !is_listed(&growth, &right) && growth.is_shortened());
    let leg = sizes[3].openings.iter_mut().find(|o| o.opening == Opening::RightLeg).unwrap();
    leg.finished += 0.1;
    let growth = Growth::of(&sizes.iter().collect::<Vec<_>>());
    assert!(is_listed(&growth, &left) && is_listed(&growth, &right));
}

/// A body that grows evenly gets a garment that does.
#[test]
fn an_even_row_of_bodies_grows_evenly() {
    let sizes = row();
    let growth = Growth::of(&sizes.iter().collect::<Vec<_>>());
    for line in &growth.lines {
        let steps = growth.steps(line);
        assert!(steps.iter().all(|step| *step == Some(Step::Even)), "{:?}: {:?}", line.what, line.growth());
    }
}

#[test]
fn a_jump_and_a_step_back_are_told() {
    let hip = Line {
        what: What::Measure(Key::from(body::HIP_GIRTH)),
        lengths: [900.0, 940.0, 980.0, 1020.0, 1060.0].map(Some).to_vec(),
    };
    let seam = Line {
        what: What::Edge(Opening::Top),
        lengths: vec![Some(700.0), Some(736.0), Some(772.0), Some(820.0), Some(810.0)],
    };
    let growth = Growth { lines: vec![hip, seam.clone()] };
    let steps: Vec<Step> = growth.steps(&seam).into_iter().flatten().collect();
    assert_eq!(steps, [Step::Even, Step::Even, Step::Uneven, Step::Against]);
    let gap = Line { lengths: vec![Some(1.0), None, Some(3.0)], ..seam };
    assert_eq!(gap.growth(), [None, None]);
}

/// A table may add as much to a measure from each size to the next; an edge has to follow the hip.
#[test]
fn a_measure_may_go_by_equal_steps() {
    let line = |what: What, lengths: [f64; 5]| Line { what, lengths: lengths.map(Some).to_vec() };
    let hip = line(What::Measure(Key::from(body::HIP_GIRTH)), [900.0, 940.0, 980.0, 1020.0, 1100.0]);
    let steady = [680.0, 710.0, 740.0, 770.0, 800.0];
    let (crotch, top) =
        (line(What::Measure(Key::from(body::CROTCH_LENGTH)), steady), line(What::Edge(Opening::Top), steady));
    let growth = Growth { lines: vec![hip, crotch.clone(), top.clone()] };
    assert_eq!(growth.steps(&crotch), [Some(Step::Even); 4]);
    assert_eq!(growth.steps(&top)[3], Some(Step::Uneven));
}
