//! Random sheets that a person could have written.

use super::numbers::Numbers;
use super::seven::used;
use super::{Measures, elastic, elastic_finish, hem, mm, sheet};
use engine::base::Base;
use engine::plan::BodyPlan;
use engine::quantity::Ratio;
use engine::sheet::{FinishSpec, PerOpening, Reach, Sheet, WaistLevel};

/// A body: normal around the means of published women, with their spread.
///
/// ANSUR II women (Gordon et al. 2014, NATICK/TR-15/007, public release): hip 102.1 ± 7.6 cm,
/// waist at the navel 86.1 ± 10.0, navel to hip 14.6 ± 2.5, crotch length by the regression on hip
/// and stature 5.2 + 0.307·hip + 0.157·stature ± 3.1, its front share 0.449 ± 0.033. The natural
/// waist is taken as 10 cm smaller in girth and 5 cm higher: invented, in keeping with bdims.
pub fn body(n: &mut Numbers) -> Measures {
    let level = *n.pick(&[WaistLevel::Natural, WaistLevel::Natural, WaistLevel::Midway, WaistLevel::Navel]);
    let higher = match level {
        WaistLevel::Natural => 50.0,
        WaistLevel::Midway => 25.0,
        WaistLevel::Navel => 0.0,
    };
    let hip = n.normal(1021.0, 76.0).clamp(800.0, 1340.0);
    let stature = n.normal(1630.0, 64.0);
    let crotch = 52.0 + 0.307 * hip + 0.157 * stature + n.normal(0.0, 20.0) + 2.0 * higher;
    Measures {
        waist: (n.normal(0.84, 0.05) * hip - 2.0 * higher).max(520.0),
        level,
        hip,
        waist_to_hip: n.normal(146.0, 15.0).clamp(105.0, 190.0) + higher,
        crotch,
        crotch_front: Some(crotch * n.normal(0.449, 0.02)),
        thigh: Some(0.691 * hip - 89.0 + n.normal(0.0, 19.0)),
    }
}

/// Random bodies with their estimates filled in.
pub fn planned(seed: u64, many: usize) -> Vec<BodyPlan> {
    let mut n = Numbers::seeded(seed);
    (0..many).map(|_| super::planned(&body(&mut n))).collect()
}

fn finish(n: &mut Numbers, widths: &[f64]) -> FinishSpec {
    let width = *n.pick(widths);
    match *n.pick(&["trim", "trim", "turned", "hem"]) {
        "hem" => hem(n.between(5.0, 10.0)),
        kind => {
            let mut spec = elastic_finish(kind, &format!("soft {width}"));
            if kind == "trim" && n.unit() < 0.3 {
                spec.reach = Some(Reach::Add);
            }
            spec
        }
    }
}

/// A sheet with a random body, cloth and finishes; one in three has different legs.
pub fn plain(n: &mut Numbers) -> Sheet {
    let bases: Vec<Base> = Base::all().collect();
    let base = *n.pick(&bases);
    let mut s = sheet(&body(n), base);
    s.fabric.stretch_across = Ratio::from_percent(n.between(15.0, 110.0));
    s.fabric.ease_along = (n.unit() < 0.3).then(|| Ratio::from_percent(n.between(-4.0, 2.0)));
    if n.unit() < 0.25 {
        s.fabric.shrink_across = Some(Ratio::from_percent(n.between(0.0, 6.0)));
        s.fabric.shrink_along = Some(Ratio::from_percent(n.between(0.0, 6.0)));
    }
    let leg = finish(n, &[6.0, 8.0, 10.0]);
    let other = if n.unit() < 0.33 { finish(n, &[6.0, 8.0, 10.0]) } else { leg.clone() };
    s.finish = PerOpening { top: finish(n, &[8.0, 10.0, 12.0, 15.0]), left_leg: leg, right_leg: other };
    for width in [6.0, 15.0] {
        s.elastics.insert(format!("soft {width}"), elastic(width));
    }
    s
}

/// Sets knobs at random around what the base draws on this body, each with one chance in two.
///
/// Ranges: drops 20 mm up or down; side seam 0.75 to 1.3 of the base's; scoop and cover 0.25 up or
/// down within 0 to 1; back share 0.49 to 0.54; gusset 15 mm longer or shorter, its widths 5 mm
/// wider or narrower.
pub fn turn_knobs(s: &mut Sheet, n: &mut Numbers) {
    let Ok(made) = engine::make(s) else { return };
    let now = |key: &str| used(&made.garment, key);
    let mut some = |value: f64| (n.unit() < 0.5).then_some(value).map(|v| (v, n.between(-1.0, 1.0)));
    let style = &mut s.style;
    let drop = |v: f64, by: f64| mm(v + 20.0 * by);
    style.top_drop_front = some(now("style.top_drop_front")).map(|(v, by)| drop(v, by));
    style.top_drop_side = some(now("style.top_drop_side")).map(|(v, by)| drop(v, by));
    style.top_drop_back = some(now("style.top_drop_back")).map(|(v, by)| drop(v, by));
    let seam = |v: f64, by: f64| mm(v * if by < 0.0 { 1.0 + 0.25 * by } else { 1.0 + 0.3 * by });
    style.side_seam = some(now("style.side_seam")).map(|(v, by)| seam(v, by));
    let share = |v: f64, by: f64| (v + 0.25 * by).clamp(0.0, 1.0);
    style.front_scoop = some(now("style.front_scoop")).map(|(v, by)| share(v, by));
    style.back_cover = some(now("style.back_cover")).map(|(v, by)| share(v, by));
    style.back_share = some(0.515).map(|(v, by)| v + 0.025 * by);
    let g = &mut s.gusset;
    g.length = some(now("gusset.length")).map(|(v, by)| mm(v + 15.0 * by));
    g.width = some(now("gusset.width")).map(|(v, by)| mm(v + 5.0 * by));
}

/// The sheet in short, for a message about it.
pub fn told(s: &Sheet) -> String {
    format!(
        "{:?}, {:?}, {:?}, {:?}, ease {:?} {:?}, shrink {:?} {:?}, top {:?} {:?} {:?}, left {:?} {:?} {:?} {:?}, \
         right {:?} {:?} {:?} {:?}",
        s.body,
        s.style,
        s.gusset,
        s.fabric.stretch_across,
        s.fabric.ease_across,
        s.fabric.ease_along,
        s.fabric.shrink_across,
        s.fabric.shrink_along,
        s.finish.top.kind,
        s.finish.top.elastic,
        s.finish.top.depth,
        s.finish.left_leg.kind,
        s.finish.left_leg.elastic,
        s.finish.left_leg.depth,
        s.finish.left_leg.reach,
        s.finish.right_leg.kind,
        s.finish.right_leg.elastic,
        s.finish.right_leg.depth,
        s.finish.right_leg.reach,
    )
}
