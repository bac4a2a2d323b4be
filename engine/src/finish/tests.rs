//! Every finish of the table, and one more that only a table line knows of.

use super::*;
use crate::finish::profile::{Ply, SHOWN, Stuff};
use crate::keys::{Field, PerEdge};

use crate::stitch::Sewing;
use crate::support;
use crate::terms::Opening;

/// A finish that is in no other file: a narrow picot edge, rolled once.
pub(super) struct Scallop;

impl Finish for Scallop {
    fn name(&self) -> &'static str {
        "scallop"
    }

    fn summary(&self) -> &'static str {
        "the edge drawn in by a zigzag"
    }

    fn takes(&self) -> Takes {
        Takes::Nothing
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[]
    }

    fn lines(&self, _: &Settings) -> Lines {
        Lines {
            cut: 2.0,
            sewing: Some(-1.0),
            second: None,
            measured: None,
            turned_in: TurnedIn::No,
            elastic: None,
            skin: Skin::Covered,
        }
    }

    fn profile(&self, _: &Settings) -> Profile {
        Profile { plies: vec![Ply::cloth(&[(-SHOWN, 0.0), (2.0, 0.0)])], rows: Vec::new() }
    }

    fn tasks(&self, _: &Settings) -> Vec<Task> {
        vec![Task::row(task::TaskId::Row1, Sewing::over_edge(), -1.0, [task::Act::ZigzagOverEdge])]
    }
}

fn settings(opening: Opening) -> Settings {
    Settings {
        opening,
        width: 12.0,
        picot: 2.0,
        bite: 3.0,
        reach: Reach::Keep,
        lap: 6.0,
        room: 3.0,
        catch: 2.0,
        turn: 6.0,
        depth: 7.0,
        band_width: 20.0,
        seam: 7.0,
    }
}

fn variants() -> Vec<Settings> {
    let base = settings(Opening::LeftLeg);
    vec![
        base.clone(),
        Settings { reach: Reach::Add, turn: 0.0, ..base.clone() },
        Settings { width: 8.0, picot: 0.0, lap: 8.0, ..base },
    ]
}

/// What is drawn across is what is cut: laid out flat again, the cloth of a profile ends at the
/// cut line, and an elastic has its width.
#[test]
fn a_profile_laid_out_flat_is_the_piece() {
    for settings in variants() {
        for finish in FinishKind::all() {
            let (lines, profile) = (finish.lines(&settings), finish.profile(&settings));
            let cloth = profile.plies.iter().find(|p| p.stuff == Stuff::Cloth).expect("there is cloth");
            let inside = cloth.course[0].0;
            let raw = inside + cloth.unfolded();
            assert!((raw - lines.cut).abs() < 1e-12, "{finish:?}: cut at {}, drawn to {raw}", lines.cut);
            for elastic in profile.plies.iter().filter(|p| p.stuff == Stuff::Elastic) {
                assert!((elastic.unfolded() - settings.width).abs() < 1e-12, "{finish:?}");
                let (from, to) = lines.elastic.expect("the lines know of it");
                assert!(elastic.course.iter().all(|(d, _)| (from..=to).contains(d)), "{finish:?}");
            }
        }
    }
}

/// Rows lie where the lines say, mirrored in the fold where they were sewn before folding.
#[test]
fn a_profile_has_the_rows_of_the_lines() {
    for settings in variants() {
        for finish in FinishKind::all().filter(|f| f.name() != "scallop") {
            let (lines, profile) = (finish.lines(&settings), finish.profile(&settings));
            let said: Vec<f64> = [lines.sewing, lines.second].into_iter().flatten().map(|d| -d.abs()).collect();
            let drawn: Vec<f64> = profile.rows.iter().map(|r| r.at).collect();
            assert_eq!(said.len(), drawn.len(), "{finish:?}");
            assert!(said.iter().zip(&drawn).all(|(a, b)| (a - b).abs() < 1e-12), "{finish:?}: {said:?} {drawn:?}");
        }
    }
}

/// Tasks name the rows of the lines, and no other.
#[test]
fn tasks_follow_the_lines() {
    for settings in variants() {
        for finish in FinishKind::all() {
            let lines = finish.lines(&settings);
            let said: Vec<f64> = [lines.sewing, lines.second].into_iter().flatten().collect();
            let sewn: Vec<f64> = finish.tasks(&settings).iter().filter_map(|t| t.along).collect();
            assert_eq!(said, sewn, "{finish:?}");
        }
    }
}

#[test]
fn names_are_unique_and_found() {
    let names: Vec<&str> = FinishKind::all().map(|f| f.name()).collect();
    for name in &names {
        assert_eq!(names.iter().filter(|n| *n == name).count(), 1);
        assert_eq!(FinishKind::named(name).map(|f| f.name()), Some(*name));
    }
}

/// The finish of this test goes through every stage: every base, every opening, with an order of work.
#[test]
fn a_finish_of_one_file_and_one_line_makes_garments() {
    for base in crate::base::Base::all() {
        for opening in Opening::ALL {
            let mut sheet = support::sheet(&support::ordinary(), base);
            let finish = support::finish("scallop", "");
            match opening {
                Opening::Top => sheet.finish.top = finish,
                Opening::LeftLeg => sheet.finish.left_leg = finish,
                Opening::RightLeg => sheet.finish.right_leg = finish,
            }
            let made = crate::make(&sheet).unwrap_or_else(|e| panic!("{base:?}, {opening:?}: {e}"));
            let walk = made.garment.openings.iter().find(|o| o.opening == opening).expect("walked");
            assert_eq!(walk.finish.name(), "scallop");
            assert!((walk.cut - walk.finished).abs() > 0.1, "its cut line runs beside the finished edge");
            let row = format!("{} row 1", opening.name());
            assert!(made.garment.order_of_work.iter().any(|s| s.id.name() == row), "{row}");
        }
    }
}
