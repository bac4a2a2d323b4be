//! The gusset: its two seams, its second layer, and both layers held together.

use super::{Bench, Job, Phase, cutting};
use crate::finish::task::stitch;
use crate::garment::Outline;
use crate::terms::{ClothKind, Lining};
use crate::words::both;

const FRONT: &str = "front gusset seam";
const BACK: &str = "back gusset seam";
const ROLLED: &str = "gusset rolled in";
const TURNED: &str = "gusset turned out";
const END_NEATENED: &str = "gusset lining end neatened";
const PRESSED: &str = "gusset pressed";
const TACKED: &str = "gusset lining tacked";
const HELD: &str = "gusset layers held";

const CUT: &str = "every layer of the seam has to be cut";

/// The step after which an edge can run over the gusset.
pub(super) fn ready(bench: Bench<'_>) -> &'static str {
    if bench.plan.gusset.layers > 1 { HELD } else { PRESSED }
}

/// The step that draws front and back out from between the layers, if they were rolled in.
pub(super) fn turned_out(bench: Bench<'_>) -> Option<&'static str> {
    (bench.plan.gusset.layers > 1 && bench.plan.gusset.lining == Lining::Enclosed).then_some(TURNED)
}

/// Everything at the gusset.
pub(super) fn jobs(bench: Bench<'_>) -> Vec<Job> {
    match (bench.plan.gusset.layers > 1, bench.plan.gusset.lining) {
        (false, _) => single(bench),
        (true, Lining::Enclosed) => enclosed(bench),
        (true, Lining::Tacked) => tacked(bench),
    }
}

fn job(name: &str, title: &str, does: impl Into<String>) -> Job {
    Job::new(Phase::Gusset, name, title, does).edge("gusset")
}

/// One of the two seams, sewn.
fn seam(bench: Bench<'_>, name: &'static str, how: &str, layers: &[&str]) -> Job {
    let title = if name == FRONT { "Front gusset seam, sew" } else { "Back gusset seam, sew" };
    let job = Job::new(Phase::Gusset, name, title, how)
        .edge(name)
        .length(bench.seam_length(name))
        .stitch(bench.seam_stitch())
        .caution(bench.seam_caution());
    layers.iter().fold(job, |job, piece| job.after(&cutting::name(piece), CUT))
}

/// A zigzag over the raw edges of a seam, and the step that waits for them.
fn neatened(bench: Bench<'_>, name: &'static str) -> (Option<Job>, String) {
    if !bench.neatens() {
        return (None, name.to_owned());
    }
    let done = format!("{name} neatened");
    let title = if name == FRONT { "Front gusset seam, neaten" } else { "Back gusset seam, neaten" };
    let does = "zigzag over the raw edges of the allowances together: a woven frays";
    let job = Job::new(Phase::Gusset, &done, title, does)
        .edge(name)
        .length(bench.seam_length(name))
        .stitch(stitch::ZIGZAG)
        .after(name, "the allowances are neatened together");
    (Some(job), done)
}

fn pressed(bench: Bench<'_>, how: &str) -> Job {
    let does = format!("press both gusset seams; the allowances, {}, {how}", both(bench.plan.seams.gusset));
    job(PRESSED, "Gusset, press", does).caution("test the iron on a scrap first")
}

const PRESS: &str = "a seam is pressed once it is sewn, before another row crosses it";

fn single(bench: Bench<'_>) -> Vec<Job> {
    let allowance = both(bench.plan.seams.gusset);
    let how = |panel: &str, marks: &str| {
        format!("lay gusset and {panel} right sides together, {marks}, and sew {allowance} from the raw edges")
    };
    let front = seam(bench, FRONT, &how("front", "notches at the centre on each other"), &["front", "gusset"]);
    let back = seam(bench, BACK, &how("back", "pairs of notches on each other"), &["back", "gusset"]);
    let ((front_neat, front_done), (back_neat, back_done)) = (neatened(bench, FRONT), neatened(bench, BACK));
    let pressed = pressed(bench, "away from the gusset").after(&front_done, PRESS).after(&back_done, PRESS);
    let neat = [front_neat, back_neat].into_iter().flatten();
    [front, back].into_iter().chain(neat).chain([pressed]).collect()
}

fn enclosed(bench: Bench<'_>) -> Vec<Job> {
    let allowance = both(bench.plan.seams.gusset);
    let front = format!(
        "lay the front between the layers: the gusset on its right side, the lining on its wrong side, right sides \
         towards the front, notches at the centre on each other; sew all three {allowance} from the raw edges, then \
         fold both layers away from the front: the seam lies between them"
    );
    let rolled = "lay gusset and back right sides together, pairs of notches on each other; roll up the front, and the \
                  back from its top edge, between the two layers; bring the lining round the roll until its right side \
                  lies on the wrong side of the back, and pin all three";
    let back = format!("sew all three layers {allowance} from the raw edges; the roll lies loose inside");
    vec![
        seam(bench, FRONT, &front, &["front", "gusset", "gusset lining"]),
        job(ROLLED, "Gusset, roll in the front", rolled)
            .after(FRONT, "the layers are joined at the front before they close round the roll")
            .after(&cutting::name("back"), CUT),
        seam(bench, BACK, &back, &[])
            .after(ROLLED, "only what is rolled in lies inside when the second seam closes the layers")
            .caution("catch nothing of the roll in the seam"),
        job(TURNED, "Gusset, turn out", "draw front and back out through one open leg edge, between the layers")
            .after(BACK, "both seams have to be closed to lie hidden when it is turned out"),
        pressed(bench, "lie between the layers, towards the gusset").after(TURNED, PRESS),
        held(bench).after(PRESSED, LIES),
    ]
}

const LIES: &str = "the layers have to lie as they will be worn before they are held";

fn tacked(bench: Bench<'_>) -> Vec<Job> {
    let allowance = both(bench.plan.seams.gusset);
    let back = format!(
        "lay the back between the layers: the gusset on its right side, the lining on its wrong side, right sides \
         towards the back, pairs of notches on each other; sew all three {allowance} from the raw edges, and fold both \
         layers away from the back"
    );
    let front = format!(
        "fold the lining out of the way; lay gusset and front right sides together, notches at the centre on each \
         other, and sew {allowance} from the raw edges"
    );
    let loose = "lay the lining over the front gusset seam, so that its end covers the allowances, and tack the end to \
                 the allowances with a few stitches at both sides and in the middle; they do not show outside";
    let (front_neat, front_done) = neatened(bench, FRONT);
    let mut jobs: Vec<Job> = Vec::new();
    let mut back = seam(bench, BACK, &back, &["back", "gusset", "gusset lining"]);
    if bench.plan.cloth.kind == ClothKind::Woven {
        jobs.push(end_neatened());
        back = back.after(END_NEATENED, "the loose end is within reach only while the lining is flat");
    }
    jobs.push(back);
    jobs.push(seam(bench, FRONT, &front, &["front", "gusset"]));
    jobs.extend(front_neat);
    jobs.push(pressed(bench, "towards the gusset").after(BACK, PRESS).after(&front_done, PRESS));
    jobs.push(
        job(TACKED, "Gusset lining, tack its loose end", loose)
            .stitch(stitch::LOCKSTITCH)
            .after(PRESSED, "the loose end is tacked to allowances that lie where they stay"),
    );
    jobs.push(held(bench).after(TACKED, LIES));
    jobs
}

fn end_neatened() -> Job {
    let does = "zigzag over the front end of the lining, which stays loose: a woven frays";
    job(END_NEATENED, "Gusset lining, neaten its loose end", does)
        .stitch(stitch::ZIGZAG)
        .after(&cutting::name("gusset lining"), "it has to be cut")
}

/// Both layers as one along the leg edges.
fn held(bench: Bench<'_>) -> Job {
    let does = "lay the layers flat on each other and hold them together along both leg edges with a narrow zigzag \
                2 mm (0.08 in) inside the raw edges; from here on they are one layer, and fold as one";
    let job = job(HELD, "Gusset, hold the layers together", does).stitch(stitch::ZIGZAG);
    match leg_edges(bench) {
        Some(mm) => job.length(mm),
        None => job,
    }
}

/// Both cut leg edges of the gusset, mm.
fn leg_edges(bench: Bench<'_>) -> Option<f64> {
    let gusset = bench.garment.pieces.iter().find(|p| p.name == "gusset")?;
    let Outline { edges } = &gusset.cut;
    Some(edges.iter().filter(|e| e.name.ends_with("leg")).map(|e| e.path.length()).sum())
}
