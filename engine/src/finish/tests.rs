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
            fold: None,
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
        overlap: 20.0,
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

fn named(name: &str) -> FinishKind {
    FinishKind::named(name).unwrap()
}

/// Of a finish 12 mm wide with 3 mm of bite, and a hem of 7: how far it stands out, how deep it reaches, is it
/// folded in, does its raw edge show (worked out from a sketch of each).
#[test]
fn what_a_finish_takes_of_the_edge() {
    let plain = Settings { picot: 0.0, ..settings(Opening::LeftLeg) };
    for (name, settings, wanted) in [
        ("trim", plain.clone(), (0.0, 12.0, false, false)),
        ("trim", Settings { reach: Reach::Add, ..plain.clone() }, (6.0, 6.0, false, false)),
        ("turned", plain.clone(), (0.0, 12.0, true, false)),
        ("turned", Settings { picot: 2.0, ..plain.clone() }, (2.0, 10.0, true, false)),
        ("encased", plain.clone(), (0.0, 12.0, true, false)),
        ("lapped", plain.clone(), (0.0, 12.0, false, false)),
        ("binding", plain.clone(), (0.0, 6.0, false, false)),
        // 12 and 3 to move in, 2 beyond the row, 6 turned under.
        ("tunnel", plain.clone(), (0.0, 23.0, true, false)),
        ("hem", plain.clone(), (0.0, 7.0, true, false)),
        ("band", plain.clone(), (0.0, 20.0, false, false)),
        ("raw", plain.clone(), (0.0, 0.0, false, true)),
    ] {
        let lines = named(name).lines(&settings);
        let found = (lines.beyond(), lines.depth(), lines.is_folded(), lines.shows_raw_edge());
        assert_eq!(found, wanted, "{name} {settings:?}");
    }
    // Cloth that stands out beyond what is sewn on shows, and so does cloth that does not reach under it.
    for (cut, shows) in [(2.0, true), (0.0, false), (-6.0, false), (-8.0, true)] {
        let lines = Lines { cut, ..named("binding").lines(&plain) };
        assert_eq!(lines.shows_raw_edge(), shows, "{cut}");
    }
    // Nothing is folded where nothing lies beyond the edge.
    let nothing = Lines { cut: 0.0, ..named("hem").lines(&plain) };
    assert!(!nothing.is_folded() && nothing.shows_raw_edge());
}

/// A threaded elastic lies in the middle of its tunnel, and what is turned under lies inside it.
#[test]
fn an_elastic_lies_in_the_middle_of_its_tunnel() {
    let tunnel = named("tunnel");
    let settings = settings(Opening::Top);
    let lines = tunnel.lines(&settings);
    assert_eq!((lines.cut, lines.sewing, lines.measured), (23.0, Some(-15.0), Some(-7.5)));
    assert_eq!(lines.elastic, Some((-13.5, -1.5)));
    let profile = tunnel.profile(&settings);
    let course = |stuff: Stuff| profile.plies.iter().find(|p| p.stuff == stuff).unwrap().course.clone();
    assert_eq!(course(Stuff::Elastic), [(-13.5, 2.0), (-1.5, 2.0)]);
    assert_eq!(course(Stuff::Cloth).last(), Some(&(-11.0, 1.0)));
    let folded = |settings: &Settings| tunnel.tasks(settings)[0].acts.clone();
    use task::Act::{FoldIn, Press, TurnUnder};
    assert_eq!(folded(&settings), [TurnUnder(6.0), FoldIn(17.0), Press]);
    assert_eq!(folded(&Settings { turn: 0.0, ..settings.clone() }), [FoldIn(17.0), Press]);
    let jersey = tunnel.profile(&Settings { turn: 0.0, ..settings.clone() });
    assert_eq!(jersey.plies[0].course.last(), Some(&(-17.0, 0.0)));
    // 30 mm are left open, and for a wide elastic a centimetre more than it is wide.
    let gap = |width: f64| tunnel.gap(&Settings { width, ..settings.clone() });
    assert_eq!([12.0, 20.0, 25.0].map(gap), [Some(30.0), Some(30.0), Some(35.0)]);
    assert_eq!(named("turned").gap(&settings), None);
}

/// The row near the inner edge of a lapped elastic holds cloth, on a narrow lap in its middle.
#[test]
fn a_narrow_lap_is_held_in_its_middle() {
    let row = |lap: f64| named("lapped").lines(&Settings { lap, ..settings(Opening::LeftLeg) }).sewing;
    assert_eq!([6.0, 3.0, 2.0, 1.0].map(row), [Some(-10.5), Some(-10.5), Some(-11.0), Some(-11.5)]);
}

/// An edging that stands out lies by its bite on the cloth, the rest of its width beyond the row; a band from
/// its seam to the edge, its allowances towards the garment.
#[test]
fn what_is_put_on_lies_where_it_was_sewn() {
    let settings = settings(Opening::LeftLeg);
    let lies = |name: &str, settings: &Settings| named(name).lines(settings).elastic;
    assert_eq!(lies("trim", &settings), Some((-12.0, 0.0)));
    assert_eq!(lies("trim", &Settings { reach: Reach::Add, ..settings.clone() }), Some((-6.0, 6.0)));
    assert_eq!(lies("band", &settings), Some((-20.0, 0.0)));
    let band = named("band").profile(&settings);
    let reaches = |stuff: Stuff| {
        let ply = band.plies.iter().find(|p| p.stuff == stuff).unwrap();
        ply.course.iter().map(|(d, _)| *d).fold(f64::MAX, f64::min)
    };
    assert_eq!((reaches(Stuff::Band), reaches(Stuff::Cloth)), (-27.0, -27.0 - SHOWN));
}

/// Common practice, as the table of every finish says: a knit for what has to give or must not fray.
#[test]
fn a_woven_takes_what_it_can() {
    let woven = FinishKind::for_cloth(ClothKind::Woven);
    for (name, can) in
        [("trim", true), ("tunnel", true), ("binding", true), ("hem", false), ("band", false), ("raw", false)]
    {
        assert_eq!(woven.contains(&name), can, "{name}");
        assert!(FinishKind::for_cloth(ClothKind::Knit).contains(&name), "{name}");
    }
}

/// Which keys mean something: those of every finish, of what has a length, of what has an elastic, its own.
#[test]
fn a_finish_takes_its_own_keys_and_no_others() {
    use crate::keys::finish::{
        BITE, DEPTH, ELASTIC, FROM, KIND, LAP, LENGTH, PUT_ON, REDUCTION, ROOM, SECTIONS, SPREAD, WIDTH,
    };
    for (name, takes, leaves) in [
        (
            "trim",
            vec![KIND, PUT_ON, REDUCTION, LENGTH, SPREAD, SECTIONS, ELASTIC, FROM, BITE],
            vec![ROOM, DEPTH, WIDTH],
        ),
        ("tunnel", vec![KIND, PUT_ON, REDUCTION, LENGTH, ELASTIC, FROM, ROOM], vec![SPREAD, SECTIONS, BITE]),
        ("lapped", vec![KIND, PUT_ON, REDUCTION, LENGTH, SPREAD, SECTIONS, ELASTIC, FROM, LAP], vec![BITE, WIDTH]),
        ("band", vec![KIND, PUT_ON, REDUCTION, LENGTH, SPREAD, SECTIONS, WIDTH], vec![ELASTIC, FROM, DEPTH]),
        ("hem", vec![KIND, PUT_ON, DEPTH], vec![REDUCTION, LENGTH, SPREAD, ELASTIC, FROM]),
        ("raw", vec![KIND, PUT_ON], vec![REDUCTION, LENGTH, SPREAD, ELASTIC, FROM, DEPTH]),
    ] {
        assert!(takes.iter().all(|key| named(name).takes_key(*key)), "{name}");
        assert!(leaves.iter().all(|key| !named(name).takes_key(*key)), "{name}");
    }
}

/// Common practice: 7 mm of hem at a leg, 10 at the top; bands of 20 and 30 mm, which leave two fifths of a
/// short side seam between them; a woven is turned under.
#[test]
fn what_is_usual_follows_edge_and_cloth() {
    let usual = |opening, cloth, side_seam| Settings::usual(opening, cloth, (4.0, 0.0), 7.0, side_seam);
    let (leg, top) = (usual(Opening::LeftLeg, ClothKind::Knit, 50.0), usual(Opening::Top, ClothKind::Knit, 50.0));
    assert_eq!((leg.depth, top.depth, leg.turn, leg.lap), (7.0, 10.0, 0.0, 4.0));
    assert_eq!((leg.band_width, top.band_width), (12.0, 18.0));
    assert!((leg.band_width + top.band_width - 0.6 * 50.0).abs() < 1e-9);
    let (leg, top) = (usual(Opening::RightLeg, ClothKind::Woven, 100.0), usual(Opening::Top, ClothKind::Woven, 100.0));
    assert_eq!((leg.band_width, top.band_width, leg.turn), (20.0, 30.0, 6.0));
}

/// The table of what is usual: an edging lies flat round a leg, lower tops are held by more.
#[test]
fn reductions_follow_the_place_of_the_edge() {
    use crate::base::Base;
    let (high, low) = (Base::named("full brief").unwrap(), Base::named("hipster").unwrap());
    let of = |name: &str, opening, base| named(name).reductions().of(opening, base);
    for (name, leg, waist, lower) in
        [("trim", 0.0, 5.0, 8.0), ("turned", 5.0, 5.0, 8.0), ("tunnel", 10.0, 10.0, 12.0), ("band", 10.0, 10.0, 10.0)]
    {
        let found = [
            of(name, Opening::LeftLeg, high),
            of(name, Opening::RightLeg, low),
            of(name, Opening::Top, high),
            of(name, Opening::Top, low),
        ];
        assert_eq!(found.map(|(percent, _)| percent), [leg, leg, waist, lower], "{name}");
        let why = found.map(|(_, why)| why);
        assert_eq!(why[0].contains("laid on flat"), leg == 0.0, "{name}: {why:?}");
        assert!(why[2].contains("at the waist") && why[3].contains("below the waist"), "{name}: {why:?}");
    }
}

#[test]
fn a_finish_is_told_by_its_name() {
    assert_eq!(format!("{:?}", named("hem")), "hem");
    assert!(named("hem") == named("hem") && named("hem") != named("raw"));
    let summaries: Vec<&str> = FinishKind::all().map(|f| f.summary()).collect();
    // Each says more than a word, and nothing that another one says.
    assert!(summaries.iter().all(|s| s.contains(' ') && summaries.iter().filter(|t| *t == s).count() == 1));
}

/// Picots stand away from the garment; pressing scorches.
#[test]
fn a_picot_edge_is_laid_away_from_the_raw_edge() {
    use task::{Act, Caution, Meets};
    assert_eq!((Meets::of(0.0), Meets::of(2.0)), (Meets::EitherEdge, Meets::PlainEdge));
    assert_eq!(Task::press(Act::FlipOut).caution, Some(Caution::Iron));
}
