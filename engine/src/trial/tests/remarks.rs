//! Every remark moves the garment the right way, inside what the checks allow; what cannot be had at
//! once is told.

use crate::base::Base;
use crate::finding::Level;
use crate::garment::{Garment, Piece, Value};
use crate::keys::{Key, style};
use crate::make::record;
use crate::quantity::Ratio;
use crate::sheet::{Basis, Sheet};
use crate::support::{self, hem};
use crate::terms::{Opening, Reach, Section};
use crate::topology::{OutlineEdge, PieceId};
use crate::trial::knob::turned;
use crate::trial::remark::{REMARKS, Remark};
use crate::trial::remedy::{By, Said, Solved, solve};
use crate::trial::setting;

fn said(remark: Remark) -> Said {
    Said { remark, by: None }
}

fn elastics() -> Sheet {
    let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
    for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        leg.basis = Some(Basis::Reduction(Ratio::from_percent(6.0)));
    }
    sheet
}

/// Laid on flat: nothing can be let out.
fn flat() -> Sheet {
    let mut sheet = elastics();
    for spec in [&mut sheet.finish.top, &mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        spec.basis = Some(Basis::Reduction(Ratio::ZERO));
    }
    sheet
}

/// Nothing is sewn on.
fn hems() -> Sheet {
    let mut sheet = elastics();
    for spec in [&mut sheet.finish.top, &mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        *spec = hem(8.0);
    }
    sheet
}

fn piece(garment: &Garment, id: PieceId) -> &Piece {
    garment.pieces.iter().find(|piece| piece.id == id).unwrap()
}

/// Of a piece's finished outline, mm.
fn height(garment: &Garment, id: PieceId) -> f64 {
    let edges = &piece(garment, id).finished.edges;
    edges.iter().map(|e| e.path.bounds()).reduce(|a, b| a.union(b)).unwrap().height()
}

fn area(garment: &Garment, id: PieceId) -> f64 {
    piece(garment, id).area_mm2
}

/// The elastic on an opening or a part of it, mm.
fn elastic(garment: &Garment, opening: Opening, section: Option<Section>) -> f64 {
    let walk = setting::walk(garment, opening).unwrap();
    let wanted = walk.sections.iter().filter(|s| section.is_none_or(|section| s.id.section == section));
    wanted.filter_map(|s| s.elastic_length).sum()
}

fn leg(garment: &Garment) -> f64 {
    setting::walk(garment, Opening::LeftLeg).unwrap().finished
}

/// The centre front, mm.
fn centre(garment: &Garment) -> f64 {
    centre_of(garment, PieceId::Front)
}

fn centre_of(garment: &Garment, id: PieceId) -> f64 {
    piece(garment, id).finished.edge(OutlineEdge::Centre).unwrap().path.length()
}

fn drop_front(garment: &Garment) -> f64 {
    let key = Key::from(style::TOP_DROP_FRONT);
    match garment.used.iter().find(|used| used.key == key).unwrap().value {
        Value::Mm(mm) => mm,
        _ => panic!("a length"),
    }
}

fn side(garment: &Garment) -> f64 {
    garment.seams[0].length_a
}

/// What a remark is about, measured on the garment, and whether it is to grow (+1) or shrink (−1).
fn measured(remark: Remark, sheet: &str, g: &Garment) -> (f64, f64) {
    use PieceId::{Back, Front, Gusset};
    let has_elastic = sheet != "hems";
    match remark {
        Remark::GapesFrontLeg if has_elastic => (elastic(g, Opening::LeftLeg, Some(Section::Front)), -1.0),
        Remark::GapesBackLeg if has_elastic => (elastic(g, Opening::RightLeg, Some(Section::Back)), -1.0),
        Remark::GapesFrontLeg | Remark::GapesBackLeg => (leg(g), -1.0),
        Remark::CutsFrontLeg if sheet == "elastics" => (elastic(g, Opening::LeftLeg, Some(Section::Front)), 1.0),
        Remark::CutsFrontLeg => (area(g, Front), -1.0),
        Remark::CutsSeat if sheet == "elastics" => (elastic(g, Opening::LeftLeg, Some(Section::Back)), 1.0),
        Remark::CutsSeat | Remark::RidesUp | Remark::BackTooBare => (area(g, Back), 1.0),
        Remark::BackTooFull => (area(g, Back), -1.0),
        Remark::CutsWaist if sheet == "elastics" => (elastic(g, Opening::Top, None), 1.0),
        Remark::CutsWaist => (setting::walk(g, Opening::Top).unwrap().finished, 1.0),
        Remark::GussetTooWide => (area(g, Gusset), -1.0),
        Remark::GussetTooNarrow => (area(g, Gusset), 1.0),
        Remark::GussetTooLong => (height(g, Gusset), -1.0),
        Remark::GussetTooShort => (height(g, Gusset), 1.0),
        // Further back, it leaves more of the crotch to the front.
        Remark::GussetTooFarForward => (height(g, Front) - height(g, Back), 1.0),
        Remark::GussetTooFarBack => (height(g, Front) - height(g, Back), -1.0),
        Remark::TopRolls if sheet == "elastics" => (elastic(g, Opening::Top, None), 1.0),
        Remark::TopRolls => (super::super::change::hem_depth(g, Opening::Top), 1.0),
        Remark::GapesBackWaist if has_elastic => (elastic(g, Opening::Top, Some(Section::Back)), -1.0),
        Remark::GapesBackWaist => (centre_of(g, Back), -1.0),
        Remark::TopTooHigh => (height(g, Front), -1.0),
        Remark::TopTooLow => (height(g, Front), 1.0),
        Remark::SideTooLong => (side(g), -1.0),
        Remark::SideTooShort => (side(g), 1.0),
        Remark::WrinklesFront => (centre(g), -1.0),
        Remark::Sags => (area(g, Front) + area(g, Back), -1.0),
    }
}

fn warnings(garment: &Garment) -> usize {
    garment.checks.iter().filter(|f| f.level >= Level::Warning).count()
}

fn solved(sheet: &Sheet, remarks: &[Remark]) -> Solved {
    let said: Vec<Said> = remarks.iter().map(|remark| said(*remark)).collect();
    solve(sheet, &said).unwrap()
}

#[test]
fn every_remark_moves_the_garment_the_right_way() {
    for (name, sheet) in [("elastics", elastics()), ("flat", flat()), ("hems", hems())] {
        let old = record(&sheet).unwrap();
        for row in &REMARKS {
            let new = solved(&sheet, &[row.remark]);
            let (was, way) = measured(row.remark, name, &old);
            let (is, _) = measured(row.remark, name, &new.garment);
            let remedy = &new.remedies[0];
            // Laid on flat, a top that rolls has nothing to be let out, and no hem.
            if (name, row.remark) == ("flat", Remark::TopRolls) {
                assert!(remedy.changes.is_empty() && is == was, "{remedy:?}");
                continue;
            }
            assert!(way * (is - was) > 0.2, "{name}, {}: {was} to {is}, {remedy:?}", row.words);
            assert!(!remedy.changes.is_empty(), "{name}, {}", row.words);
            assert!(warnings(&new.garment) <= warnings(&old), "{name}, {}: {:?}", row.words, new.garment.checks);
        }
    }
}

/// How far pieces move is what was asked for, to half a millimetre.
#[test]
fn lengths_move_by_what_was_asked_for() {
    let old = record(&elastics()).unwrap();
    let by = |remark: Remark, of: &dyn Fn(&Garment) -> f64| of(&solved(&elastics(), &[remark]).garment) - of(&old);
    let is = |moved: f64, asked: f64, by: f64| assert!((moved - asked).abs() < by, "{moved}, not {asked}");
    is(by(Remark::GussetTooLong, &|g| height(g, PieceId::Gusset)), -10.0, 0.6);
    is(by(Remark::SideTooLong, &side), -10.0, 0.6);
    is(by(Remark::TopTooHigh, &side), -10.0, 0.6);
    is(by(Remark::TopTooHigh, &centre), -10.0, 0.6);
    is(by(Remark::WrinklesFront, &centre), -8.0, 0.6);
    // From the waist level: a top edge by its base follows a little. A share is written to a hundredth
    // of the gusset's length.
    is(by(Remark::GussetTooFarForward, &|g| centre(g) + drop_front(g)), 10.0, 0.8);
}

/// Where two remarks are each other's opposite, one takes back what the other did.
#[test]
fn and_back_again() {
    let pairs = [
        (Remark::GapesFrontLeg, Remark::CutsFrontLeg),
        (Remark::GapesBackLeg, Remark::CutsSeat),
        (Remark::BackTooBare, Remark::BackTooFull),
        (Remark::GussetTooWide, Remark::GussetTooNarrow),
        (Remark::GussetTooLong, Remark::GussetTooShort),
        (Remark::GussetTooFarForward, Remark::GussetTooFarBack),
        (Remark::TopTooHigh, Remark::TopTooLow),
        (Remark::SideTooLong, Remark::SideTooShort),
    ];
    let old = record(&elastics()).unwrap();
    for (there, back) in pairs {
        for (first, second) in [(there, back), (back, there)] {
            let away = solved(&elastics(), &[first]);
            let home = solved(&away.sheet, &[second]);
            let (was, _) = measured(first, "elastics", &old);
            let (moved, _) = measured(first, "elastics", &away.garment);
            let (is, _) = measured(first, "elastics", &home.garment);
            assert!((is - was).abs() < 0.07 * (moved - was).abs(), "{first:?}, {second:?}: {was}, {moved}, {is}");
        }
    }
}

/// What any remark turns, it is turned back by as much: the garment is as it was.
#[test]
fn every_remedy_can_be_taken_back() {
    for (name, sheet) in [("elastics", elastics()), ("hems", hems())] {
        let old = record(&sheet).unwrap();
        for row in &REMARKS {
            let away = solved(&sheet, &[row.remark]);
            let mut home = away.sheet.clone();
            for turn in away.remedies[0].turns.iter().rev() {
                let (plan, garment) = (crate::stages::plan(&home).unwrap(), record(&home).unwrap());
                home = turned(&home, (&plan, &garment), turn.knob, -turn.by * turn.share).unwrap();
            }
            let [was, moved, is] =
                [&old, &away.garment, &record(&home).unwrap()].map(|g| measured(row.remark, name, g).0);
            // A length is written as a tool is set, a share to a hundredth.
            assert!((is - was).abs() <= 0.08 * (moved - was).abs(), "{name}, {}: {was}, {moved}, {is}", row.words);
        }
    }
}

#[test]
fn what_cannot_be_had_at_once_is_told_and_left() {
    let pairs = [
        (Remark::GapesFrontLeg, Remark::CutsFrontLeg),
        (Remark::GapesBackLeg, Remark::CutsSeat),
        (Remark::BackTooBare, Remark::BackTooFull),
        (Remark::RidesUp, Remark::BackTooFull),
        (Remark::GussetTooWide, Remark::GussetTooNarrow),
        (Remark::GussetTooLong, Remark::GussetTooShort),
        (Remark::GussetTooFarForward, Remark::GussetTooFarBack),
        (Remark::TopTooHigh, Remark::TopTooLow),
        (Remark::SideTooLong, Remark::SideTooShort),
        (Remark::WrinklesFront, Remark::TopTooLow),
    ];
    let old = record(&elastics()).unwrap();
    for (one, other) in pairs {
        let new = solved(&elastics(), &[one, other]);
        assert!(new.conflicts.iter().any(|c| (c.one, c.other) == (one, other)), "{one:?}, {other:?}");
        let (was, is) = (measured(one, "elastics", &old).0, measured(one, "elastics", &new.garment).0);
        if one != Remark::WrinklesFront {
            assert!((was - is).abs() < 1e-6, "{one:?}, {other:?}: {was} to {is}");
        }
    }
    assert!(solved(&elastics(), &[Remark::GussetTooWide, Remark::RidesUp]).conflicts.is_empty());
}

/// Two that ask for the same are not added up; two that touch are solved together.
#[test]
fn several_are_solved_together() {
    let cover = |remarks: &[Remark]| solved(&elastics(), remarks).sheet.style.back_cover.unwrap();
    assert_eq!(cover(&[Remark::RidesUp, Remark::BackTooBare]), cover(&[Remark::BackTooBare]));
    // Lower at the top and longer at the side: the leg comes down by as much as the side grows.
    let both = solved(&elastics(), &[Remark::TopTooHigh, Remark::SideTooShort]);
    let old = record(&elastics()).unwrap();
    assert!(both.conflicts.is_empty() && (side(&both.garment) - side(&old)).abs() < 0.6);
    // Less round the waist, and held at the back: the back stays, the front is let out.
    let mut sheet = elastics();
    sheet.finish.top.basis = Some(Basis::Reduction(Ratio::from_percent(8.0)));
    let old = record(&sheet).unwrap();
    let both = solved(&sheet, &[Remark::CutsWaist, Remark::GapesBackWaist]);
    let part = |g: &Garment, section| elastic(g, Opening::Top, Some(section));
    assert!((part(&both.garment, Section::Back) - part(&old, Section::Back)).abs() < 1.0);
    assert!(part(&both.garment, Section::Front) > part(&old, Section::Front) + 5.0);
}

#[test]
fn edgings_that_stand_out_are_taken_in() {
    let mut sheet = elastics();
    for leg in [&mut sheet.finish.left_leg, &mut sheet.finish.right_leg] {
        leg.reach = Some(Reach::Add);
    }
    let worn = |sheet: &Sheet| {
        let plan = crate::plan::Plan::of(sheet).unwrap();
        plan.gusset.width + plan.finish.left_leg.lines.beyond() + plan.finish.right_leg.lines.beyond()
    };
    for by in [None, Some(By::ItsEdging)] {
        let new = solve(&sheet, &[Said { remark: Remark::GussetTooWide, by }]).unwrap();
        let plan = crate::plan::Plan::of(&sheet).unwrap();
        assert!(worn(&sheet) > plan.gusset.width + 1.0 && (worn(&new.sheet) - plan.gusset.width).abs() < 1e-9);
    }
    let new = solve(&sheet, &[Said { remark: Remark::GussetTooWide, by: Some(By::Mm(5.0)) }]).unwrap();
    assert!((worn(&sheet) - worn(&new.sheet) - 5.0).abs() < 0.3, "what she measured is what it loses");
}

#[test]
fn plain_words_are_understood() {
    for (words, remark) in [
        ("Rides up at the back", Remark::RidesUp),
        ("the back rides up", Remark::RidesUp),
        ("crotch is too wide", Remark::GussetTooWide),
        ("It sags.", Remark::Sags),
        ("gapes at front leg", Remark::GapesFrontLeg),
    ] {
        assert_eq!(Remark::of(words), Some(remark), "{words}");
    }
    assert_eq!(Remark::of("is lovely"), None);
    for (i, row) in REMARKS.iter().enumerate() {
        assert_eq!(row.remark as usize, i);
        for words in std::iter::once(&row.words).chain(row.also) {
            assert_eq!(Remark::of(words), Some(row.remark), "{words}");
        }
    }
}

/// At its end nothing is turned, and never beyond it.
#[test]
fn knobs_stay_between_their_ends() {
    let mut sheet = elastics();
    for _ in 0..12 {
        sheet = solved(&sheet, &[Remark::BackTooBare, Remark::GapesFrontLeg, Remark::GussetTooNarrow]).sheet;
    }
    let garment = record(&sheet).unwrap();
    assert!(sheet.style.back_cover.unwrap() <= 1.0);
    assert_eq!(warnings(&garment), warnings(&record(&elastics()).unwrap()), "{:?}", garment.checks);
    let again = solved(&sheet, &[Remark::BackTooBare]);
    assert!((again.sheet.style.back_cover.unwrap() - sheet.style.back_cover.unwrap()).abs() < 0.051);
}
