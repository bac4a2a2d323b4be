//! 260 real women, as an open data set has them.

use crate::outside_python;
use crate::support::Measures;
use engine::sheet::WaistLevel;
use std::path::Path;
use std::process::Command;

/// The women as the Python side prints them: waist, hip, thigh, stature, mm.
pub fn all() -> Vec<[f64; 4]> {
    let python = outside_python();
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bodies/women.py");
    let output = Command::new(python).args(["-I", "-B"]).arg(script).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let text = String::from_utf8(output.stdout).unwrap();
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some("waist,hip,thigh,stature"));
    lines.map(woman).collect()
}

fn woman(line: &str) -> [f64; 4] {
    let numbers: Vec<f64> = line.split(',').map(|n| n.parse().unwrap()).collect();
    numbers.try_into().unwrap()
}

/// What the data set has, and estimates for what it has not.
pub fn measures([waist, hip, thigh, stature]: [f64; 4]) -> Measures {
    // Common practice: the hip level lies an eighth of the stature under the natural waist.
    let waist_to_hip = 0.125 * stature;
    // Least squares over 1,986 women, ANSUR II (Gordon et al. 2014, NATICK/TR-15/007), crotch
    // length from navel to navel, cm: 5.2 + 0.307·hip + 0.157·stature. The navel lies 14.6 cm over
    // the hip level there; the natural waist is higher, in front and behind.
    let crotch = 52.0 + 0.307 * hip + 0.157 * stature + 2.0 * (waist_to_hip - 146.0);
    Measures { waist, level: WaistLevel::Natural, hip, waist_to_hip, crotch, crotch_front: None, thigh: Some(thigh) }
}
