//! Small steps of the knobs make small steps of the shape.

use crate::support::measure::at_shares;
use crate::support::mm;
use crate::support::numbers::Numbers;
use crate::support::random::{plain, told, turn_knobs};
use crate::support::seven::used;
use engine::garment::{Garment, Outline, Piece};
use engine::sheet::Sheet;

/// One row of lines of a piece.
type Row = fn(&Piece) -> &Outline;

/// 17 steps each: 400 pairs of sheets, or 2,000.
const SHEETS: usize = 24;
const MANY: usize = 118;
/// mm; the design's own numbers.
const STEP: f64 = 0.1;
const MOST: f64 = 1.0;
/// Of knobs that are shares: a tenth of a millimetre on a hundred.
const SHARE: f64 = 0.001;

type Step = (&'static str, fn(&mut Sheet, &Garment));

/// Every knob and every measure of the body, one step further.
const STEPS: [Step; 17] = [
    ("top_drop_front", |s, g| s.style.top_drop_front = Some(mm(used(g, "style.top_drop_front") + STEP))),
    ("top_drop_side", |s, g| s.style.top_drop_side = Some(mm(used(g, "style.top_drop_side") + STEP))),
    ("top_drop_back", |s, g| s.style.top_drop_back = Some(mm(used(g, "style.top_drop_back") + STEP))),
    ("side_seam", |s, g| s.style.side_seam = Some(mm(used(g, "style.side_seam") + STEP))),
    ("front_scoop", |s, g| s.style.front_scoop = Some(stepped(used(g, "style.front_scoop")))),
    ("back_cover", |s, g| s.style.back_cover = Some(stepped(used(g, "style.back_cover")))),
    ("back_share", |s, g| s.style.back_share = Some(used(g, "style.back_share") + SHARE)),
    ("gusset.length", |s, g| s.gusset.length = Some(mm(used(g, "gusset.length") + STEP))),
    ("gusset.width", |s, g| s.gusset.width = Some(mm(used(g, "gusset.width") - STEP))),
    ("gusset.front_width", |s, g| s.gusset.front_width = Some(mm(used(g, "gusset.front_width") + STEP))),
    ("gusset.back_width", |s, g| s.gusset.back_width = Some(mm(used(g, "gusset.back_width") + STEP))),
    ("forward", |s, g| s.gusset.forward = Some(used(g, "gusset.forward") + SHARE)),
    ("waist_girth", |s, _| s.body.waist_girth = mm(s.body.waist_girth.mm() + STEP)),
    ("hip_girth", |s, _| s.body.hip_girth = mm(s.body.hip_girth.mm() + STEP)),
    ("waist_to_hip", |s, _| s.body.waist_to_hip = mm(s.body.waist_to_hip.mm() + STEP)),
    ("crotch_length", |s, _| s.body.crotch_length = mm(s.body.crotch_length.mm() + STEP)),
    ("crotch_length_front", |s, _| {
        s.body.crotch_length_front = s.body.crotch_length_front.map(|f| mm(f.mm() + STEP));
    }),
];

fn stepped(share: f64) -> f64 {
    if share + SHARE <= 1.0 { share + SHARE } else { share - SHARE }
}

#[test]
fn a_tenth_of_a_millimetre_moves_nothing_by_more_than_one() {
    moves_little(17, SHEETS);
}

#[test]
#[ignore = "a minute; the usual run takes a fifth of it"]
fn a_tenth_of_a_millimetre_moves_nothing_by_more_than_one_in_two_thousand_pairs() {
    moves_little(18, MANY);
}

fn moves_little(seed: u64, sheets: usize) {
    let mut n = Numbers::seeded(seed);
    let (mut compared, mut worst) = (0, vec![(0.0, String::new()); STEPS.len()]);
    for _ in 0..sheets {
        let mut sheet = plain(&mut n);
        turn_knobs(&mut sheet, &mut n);
        let Ok(before) = engine::make(&sheet) else { continue };
        for (k, (_, step)) in STEPS.iter().enumerate() {
            let mut next = sheet.clone();
            step(&mut next, &before.garment);
            let Ok(after) = engine::make(&next) else { continue };
            compared += 1;
            let (moved, place) = furthest(&before.garment, &after.garment);
            if moved > worst[k].0 {
                worst[k] = (moved, format!("{place}: {}", told(&sheet)));
            }
        }
    }
    for ((name, _), (moved, _)) in STEPS.iter().zip(&worst) {
        println!("{name:20} {moved:.3} mm");
    }
    println!("{compared} pairs compared");
    assert!(compared * 10 >= sheets * STEPS.len() * 8, "only {compared} steps were compared");
    for ((name, _), (moved, place)) in STEPS.iter().zip(&worst) {
        assert!(*moved <= MOST, "{name} moves {moved:.3} mm at the {place}");
        assert!(*moved > 0.0, "{name} moves nothing");
    }
}

fn furthest(a: &Garment, b: &Garment) -> (f64, String) {
    let rows: [(&str, Row); 3] = [("finished", |p| &p.finished), ("sewing", |p| &p.sewing), ("cut", |p| &p.cut)];
    let mut worst = (0.0, String::new());
    for (p, q) in a.pieces.iter().zip(&b.pieces) {
        for (row, of) in rows {
            for (e, f) in of(p).edges.iter().zip(&of(q).edges) {
                let pairs = at_shares(e.path.segments(), 10).into_iter().zip(at_shares(f.path.segments(), 10));
                let moved = pairs.map(|(u, v)| u.distance(v)).fold(0.0, f64::max);
                if moved > worst.0 {
                    worst = (moved, format!("{row} {} of the {}", e.id.name(), p.id.name()));
                }
            }
        }
    }
    worst
}
