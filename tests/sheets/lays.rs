//! Lays of garments as a person asks for them.

use engine::lay::{self, Rules};

/// A strip for a band beside a small hipster: the search once went on for minutes, as no piece had to be looked
/// after any more and nothing counted.
const WITH_A_STRIP: &str = r#"
[sheet]
version = 1
name = "strip"
units = "cm"
[body]
waist_level = "natural"
waist_girth = 66
hip_girth = 90
waist_to_hip = 19
crotch_length = 66
crotch_length_front = 30
[fabric]
kind = "knit"
stretch_across = 60
stretch_along = 40
width = 150
[style]
base = "hipster"
[gusset]
layers = 2
lining = "tacked"
[seams]
kind = "overlock"
[finish.top]
kind = "trim"
elastic = "narrow"
reduction = 6
put_on = "flat"
[finish.left_leg]
kind = "band"
[finish.right_leg]
kind = "raw"
[elastic.narrow]
width = 0.8
stretch = 110
"#;

#[test]
fn a_lay_that_cannot_be_shorter_is_done() {
    let sheet = quarterpin::sheet::read(WITH_A_STRIP, "strip.toml").unwrap();
    let made = engine::make(&sheet).unwrap();
    let mut told = 0;
    let mut count = |progress: lay::Progress| {
        told += 1;
        assert!(told <= progress.of, "{told} times for {} steps", progress.of);
    };
    let lays = lay::of_pairs(&made.drawing, &made.drawing, &sheet.fabric, 1, Rules::default(), &mut count).unwrap();
    assert!(lays.len() == 1 && lays[0].length < 400.0, "{lays:?}");
}
