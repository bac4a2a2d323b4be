//! The table holds together.

use super::*;
use std::collections::BTreeSet;

#[test]
fn a_key_of_a_section_is_there_once() {
    for section in &SECTIONS {
        let names: BTreeSet<&str> = section.rows().map(|row| row.name).collect();
        assert_eq!(names.len(), section.rows().count(), "{}", section.path);
        assert!(!names.is_empty() && section.rows().all(|row| !row.how.is_empty()), "{}", section.path);
    }
}

#[test]
fn every_place_has_its_section() {
    let singles =
        [Single::Sheet, Single::Body, Single::Fabric, Single::Style, Single::Gusset, Single::Seams, Single::Print];
    let homes = singles.map(Home::Single).into_iter().chain(Edges::ALL.map(Home::Finish));
    let more = [Home::Elastic("soft".to_owned()), Home::Alternative(1), Home::Variant(1), Home::Trial(1)];
    let paths: BTreeSet<&str> =
        homes.chain(more).map(|home| Section::of(&home).map(|s| s.path).unwrap_or_default()).collect();
    assert_eq!(paths, SECTIONS.iter().map(|s| s.path).collect());
}

#[test]
fn keys_of_one_name_are_told_apart_by_their_place() {
    let keys = [
        finish::WIDTH.on(Edges::Top),
        finish::WIDTH.on(Edges::Legs),
        elastic::WIDTH.of("a"),
        elastic::WIDTH.of("b"),
        Key::from(gusset::WIDTH),
        Key::from(fabric::WIDTH),
    ];
    assert_eq!(keys.iter().collect::<BTreeSet<_>>().len(), keys.len());
    assert_eq!(elastic::WIDTH.of("a").to_string(), "elastic.\"a\".width");
    assert_eq!(trial::EDGE.in_trial(2).to_string(), "trial.2.edge");
    assert_eq!(finish::BITE.in_alternative(1).to_string(), "alternative.1.bite");
    assert_eq!(alternative::NAME.in_alternative(1).to_string(), "alternative.1.name");
}
