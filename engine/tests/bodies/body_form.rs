//! The body form against surfaces of bodies and a development by another program.

use crate::support::{Measures, planned, random};
use crate::{outside_python, python};
use engine::body::{Form, Half};
use engine::plan::BodyPlan;
use engine::terms::WaistLevel;
use serde_json::{Value, json};
use std::path::Path;

/// Bodies for the other program: the eight of the fixtures by their own rulers, and random ones.
fn dumped() -> Vec<Value> {
    let table = include_str!("../../../fixtures/bodies/mesh_bodies.csv");
    let mut all: Vec<(String, BodyPlan)> = table.lines().skip(1).map(surface).collect();
    all.extend(random::planned(37, 6).into_iter().enumerate().map(|(i, b)| (format!("random {i}"), b)));
    all.into_iter().map(|(name, b)| dump(&name, &b)).collect()
}

fn surface(line: &str) -> (String, BodyPlan) {
    let (name, numbers) = line.split_once(',').unwrap();
    let v: Vec<f64> = numbers.split(',').map(|n| n.parse().unwrap()).collect();
    let mut b = planned(&Measures {
        waist: v[0],
        level: WaistLevel::Natural,
        hip: v[1],
        waist_to_hip: v[9],
        crotch: v[10],
        crotch_front: Some(v[11]),
        thigh: None,
    });
    (b.waist_breadth, b.waist_depth, b.hip_breadth, b.hip_depth) = (v[2], v[3], v[4], v[5]);
    (name.to_owned(), b)
}

fn dump(name: &str, b: &BodyPlan) -> Value {
    const DOWN: u32 = 16;
    const ROUND: u32 = 24;
    let form = Form::of(b);
    let at = |i: u32| b.waist_to_hip * f64::from(i) / f64::from(DOWN);
    let quarter = |level: f64, half: Half| -> Vec<[f64; 2]> {
        let section = form.torso.section(level);
        (0..=ROUND).map(|j| section.at(half, f64::from(j) / f64::from(ROUND))).map(|p| [p.x, p.y]).collect()
    };
    let level = |i: u32| {
        let depth = at(i);
        let (front, back) = (quarter(depth, Half::Front), quarter(depth, Half::Back));
        json!({ "height": form.torso.height(depth), "girth": form.torso.girth(depth), "front": front, "back": back })
    };
    let said = |panel: &engine::body::Panel| {
        let (top, hip) = (at(DOWN / 4), at(DOWN));
        let way = panel.side(hip) - panel.side(top);
        json!({ "rise_top": panel.rise(top), "rise_hip": panel.rise(hip), "lean": (way.x / way.y).atan().to_degrees() })
    };
    let levels: Vec<Value> = (0..=DOWN).map(level).collect();
    json!({ "name": name, "levels": levels, "front": said(&form.front), "back": said(&form.back) })
}

/// A development by numpy and scipy on a net of triangles, every point free, and the eight
/// surfaces of the fixtures, laid over the form, and drawn (`surfaces.svg` among the tests' files).
#[test]
fn another_program_develops_the_form_alike() {
    let base = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let folder = tempfile::tempdir_in(base).unwrap();
    let file = folder.path().join("forms.json");
    std::fs::write(&file, serde_json::to_vec(&dumped()).unwrap()).unwrap();
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let output = python::process(&outside_python())
        .arg(here.join("tests/bodies/body_form.py"))
        .arg(&file)
        .arg(here.join("../fixtures/bodies"))
        .arg(base.join("surfaces.svg"))
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    println!("{said}");
    assert!(output.status.success(), "{said}\n{}", String::from_utf8_lossy(&output.stderr));
}
