//! Marks on elastics and notches on edges: in what is cut and sewn, alike on both sides of a seam,
//! wherever the stretch changes, and where an elastic is threaded through.

use engine::elastic::{Mark, Meeting};
use engine::finding::{Finding, Help};
use engine::garment::{Garment, Notch, OpeningWalk, Piece};
use engine::sheet::{Opening, Section, Sheet, Spread};
use engine::topology::{EdgeId, End, NotchId, OutlineEdge, PieceId, SeamMark};

/// An invented body in the middle of published ones, mm.
fn text(style: &str, top: &str, legs: &str, width: f64) -> String {
    format!(
        "[sheet]\nversion = 1\nname = \"marked\"\nunits = \"mm\"\n\
         [body]\nwaist_girth = 740\nhip_girth = 990\nwaist_to_hip = 200\ncrotch_length = 710\n\
         crotch_length_front = 320\nthigh_girth = 580\n\
         [fabric]\nstretch_across = 60\nstretch_along = 40\n[style]\n{style}\n[gusset]\n[seams]\n\
         [finish.top]\n{top}\n[finish.legs]\n{legs}\n\
         [elastic.soft]\nwidth = {width}\n"
    )
}

fn read(text: &str) -> Sheet {
    quarterpin::sheet::read(text, "sheet.toml").unwrap_or_else(|p| panic!("{}", p.render(text, "sheet.toml", false)))
}

fn made(text: &str) -> Garment {
    engine::make(&read(text)).unwrap_or_else(|e| panic!("{e}")).garment
}

fn refused(sheet: &Sheet) -> Finding {
    let mut found = engine::make(sheet).expect_err("it cannot be made").findings;
    assert_eq!(found.len(), 1, "{found:?}");
    found.swap_remove(0)
}

fn opening(garment: &Garment, which: Opening) -> &OpeningWalk {
    garment.openings.iter().find(|o| o.opening == which).unwrap()
}

fn marks(walk: &OpeningWalk) -> &[Mark] {
    walk.elastic.as_ref().map(|e| &e.marks).or(walk.band.as_ref().map(|b| &b.marks)).unwrap()
}

fn piece(garment: &Garment, id: PieceId) -> &Piece {
    garment.pieces.iter().find(|p| p.id == id).unwrap()
}

const BRIEF: &str = "base = \"brief\"";
const BOUND: &str = "kind = \"binding\"\nelastic = \"soft\"\nreduction = 5";

/// Where a notch is on its seam as sewn: how far from the end at the top edge and from the other one,
/// mm. Measured on the pieces' own lines, not by what the notch says of itself.
fn on_sewn(piece: &Piece, notch: &Notch) -> (f64, f64) {
    let line = &piece.sewing.edge(notch.edge).unwrap().path;
    let along = line.along(line.nearest(notch.at));
    let (up, down) = (along, line.length() - along);
    if line.start().y < line.end().y { (up, down) } else { (down, up) }
}

fn side_notches(garment: &Garment) -> Vec<(f64, f64)> {
    let is_side = |n: &&Notch| matches!(n.id, NotchId::Seam { mark: SeamMark::Middle, .. });
    let pieces = garment.pieces.iter();
    pieces.flat_map(|p| p.notches.iter().filter(is_side).map(move |n| on_sewn(p, n))).collect()
}

/// A small brief with a short side seam under a deeply lapped top: the middle of the finished seam is
/// cut away there, and a notch in it would miss the cloth.
#[test]
fn a_side_notch_is_in_the_middle_of_what_is_sewn() {
    let lapped = "kind = \"lapped\"\nelastic = \"soft\"\nlap = 6\nreduction = 5";
    for (style, legs) in [
        ("base = \"small brief\"\nside_seam = 60", "kind = \"hem\""),
        ("base = \"small brief\"\nside_seam = 60", "kind = \"raw\""),
        ("base = \"brief\"\nside_seam = 90", "kind = \"band\""),
    ] {
        let garment = made(&text(style, lapped, legs, 40.0));
        let found = side_notches(&garment);
        assert_eq!(found.len(), 2, "front and back, on the fold");
        for (up, down) in &found {
            assert!((up - down).abs() < 0.1 && *up > 4.0, "{style}, {legs}: {found:?}");
        }
        assert!((found[0].0 - found[1].0).abs() < 0.05, "they meet: {found:?}");
    }
}

/// Legs that are finished in two ways: each side seam has a middle of its own, and both its sides
/// agree on it.
#[test]
fn each_side_seam_has_its_own_middle() {
    let band = "kind = \"band\"\n[finish.right_leg]\nkind = \"raw\"";
    let garment = made(&text("base = \"brief\"\nside_seam = 90", BOUND, band, 12.0));
    let found = side_notches(&garment);
    assert_eq!(found.len(), 4, "front and back, left and right");
    assert!(found.iter().all(|(up, down)| (up - down).abs() < 0.1), "{found:?}");
    let mut downs: Vec<f64> = found.iter().map(|(_, down)| *down).collect();
    downs.sort_by(f64::total_cmp);
    // The band's line runs 20 mm inside, so that the middle of its seam is about 10 mm nearer to the top.
    assert!((downs[0] - downs[1]).abs() < 0.05 && (downs[2] - downs[3]).abs() < 0.05, "{downs:?}");
    assert!((downs[2] - downs[1] - 10.0).abs() < 1.0, "{downs:?}");
}

/// A pair of notches on a gusset seam stays in what is sewn, however much of it the legs take.
#[test]
fn a_pair_of_notches_stays_between_the_stitches_of_the_legs() {
    let deep = "kind = \"band\"\nwidth = 22\nreduction = 5";
    // Little is left between the stitches and the centre, and the pair would stand 5 mm from it.
    let gusset = "[gusset]\nwidth = 54\nfront_width = 66\nback_width = 62\n";
    let garment =
        made(&text("base = \"tanga\"\nside_seam = 80", "kind = \"raw\"", deep, 12.0).replace("[gusset]\n", gusset));
    let mut seen = 0;
    for piece in &garment.pieces {
        for notch in &piece.notches {
            let NotchId::Seam { mark: SeamMark::Pair, .. } = notch.id else { continue };
            let line = &piece.sewing.edge(notch.edge).unwrap().path;
            let along = line.along(line.nearest(notch.at));
            assert!(
                line.length() < 20.0 && along.min(line.length() - along) > 2.5,
                "{notch:?} on {} mm",
                line.length()
            );
            seen += 1;
        }
    }
    assert!(seen >= 3, "{seen}");
}

/// Only halves are asked for, and the stretch changes at seams: there are marks there, numbered in
/// their order round the edge.
#[test]
fn the_stretch_never_changes_without_a_mark() {
    let halves = |more: &str| format!("{BOUND}\nmarks = \"halves\"\n{more}");
    let cases = [
        (halves(""), halves(""), 2, 2),
        (halves("sections = { back = 15 }"), halves("sections = { back = 12 }"), 4, 3),
        (halves("sections = { front = 15 }"), halves("sections = { gusset = 0 }"), 4, 3),
        // As everywhere else: no change.
        (halves("sections = { back = 5 }"), halves("sections = { gusset = 5 }"), 2, 2),
    ];
    for (top, legs, at_top, at_leg) in cases {
        let garment = made(&text(BRIEF, &top, &legs, 12.0));
        for walk in &garment.openings {
            let marks = marks(walk);
            let around = walk.sections.iter().cycle().skip(walk.sections.len() - 1);
            for (before, after) in around.zip(&walk.sections) {
                let changes = (before.reduction.unwrap() - after.reduction.unwrap()).abs() > 1e-6;
                let place = after.from.name(walk.opening);
                assert!(!changes || marks.iter().any(|m| m.place.name() == place), "{place}: {marks:?}");
            }
            let least = if walk.opening == Opening::Top { at_top } else { at_leg };
            assert!(marks.len() >= least && (least > 2 || marks.len() == 2), "{top} {legs}: {marks:?}");
            assert!(marks.windows(2).all(|w| w[0].along_elastic < w[1].along_elastic), "{marks:?}");
            assert!(marks.windows(2).all(|w| w[0].along_edge < w[1].along_edge), "{marks:?}");
            assert!(marks.iter().enumerate().all(|(i, m)| m.number == i + 1), "{marks:?}");
        }
    }
}

/// Parts with a reduction of their own take more than the whole: the range that is named works from
/// one end to the other, and a little beyond it is refused again. Elastics and bands alike.
#[test]
fn a_whole_length_leaves_every_part_its_share() {
    for kind in ["kind = \"binding\"\nelastic = \"soft\"", "kind = \"band\""] {
        let of = |length: f64| {
            let legs = format!("{kind}\nlength = {length:.3}\nsections = {{ back = -10, gusset = 0 }}");
            read(&text(BRIEF, BOUND, &legs, 12.0))
        };
        let found = refused(&of(400.0));
        assert_eq!(
            (found.code, found.place.to_string().as_str()),
            ("finish.rest_out_of_reach", "finish.left_leg.length")
        );
        let Some(Help::Between(key, least, most)) = found.helps.first() else { panic!("{found:?}") };
        assert_eq!(key.to_string(), "finish.left_leg.length");
        for length in [least + 0.01, 0.5 * (least + most), most - 0.01] {
            let garment = engine::make(&of(length)).unwrap_or_else(|e| panic!("{length}: {e}")).garment;
            let walk = opening(&garment, Opening::LeftLeg);
            assert!(walk.sections.iter().all(|s| s.elastic_length.unwrap() > 10.0), "{:?}", walk.sections);
            assert!(marks(walk).windows(2).all(|w| w[0].along_elastic < w[1].along_elastic));
        }
        for length in [least - 0.5, most + 0.5] {
            assert_eq!(refused(&of(length)).code, "finish.rest_out_of_reach", "{length}");
        }
    }
}

/// The same where the whole is what felt right on the body.
#[test]
fn a_length_from_the_body_leaves_every_part_its_share() {
    let top = "kind = \"turned\"\nelastic = \"soft\"\nfrom = \"body\"\nsections = { back = -20 }";
    let text = text(BRIEF, top, BOUND, 12.0).replace("thigh_girth", "elastic_top = 500\nthigh_girth");
    let found = refused(&read(&text));
    assert_eq!((found.code, found.place.to_string().as_str()), ("finish.rest_out_of_reach", "body.elastic_top"));
}

const TUNNEL: &str = "kind = \"tunnel\"\nelastic = \"soft\"\nreduction = 10";

/// The ends of a gap on the back, mm along the finished edge that they are on.
fn gap_ends(garment: &Garment, edge: EdgeId) -> Vec<(OutlineEdge, End, f64)> {
    let of = |n: &Notch| match n.id {
        NotchId::Threading { edge: on, end, .. } if on == edge => Some((n.edge, end, n.along)),
        _ => None,
    };
    piece(garment, PieceId::Back).notches.iter().filter_map(of).collect()
}

/// An elastic of 8 mm goes through 30 mm, one of 25 mm through 35 (its width and 10 more: common
/// practice); the notches are where the row stops.
#[test]
fn a_tunnel_is_left_open_between_two_notches_in_the_back() {
    for (width, gap) in [(8.0, 30.0), (25.0, 35.0)] {
        let garment = made(&text("base = \"brief\"\nside_seam = 110", TUNNEL, "kind = \"raw\"", width));
        let walk = opening(&garment, Opening::Top);
        let found = walk.gap.unwrap();
        assert!((found.length - gap).abs() < 1e-9 && found.at == Meeting::CentreBack, "{found:?}");
        let ends = gap_ends(&garment, EdgeId::BackTop);
        assert_eq!(ends.len(), 1, "on the fold, its mirror image is the other one");
        assert!((ends[0].2 - 0.5 * gap).abs() < 1e-6, "{ends:?}");
        assert!(opening(&garment, Opening::LeftLeg).gap.is_none());
    }
    // One leg alone: the back is whole, and that leg has both notches.
    let legs = format!("kind = \"raw\"\n[finish.left_leg]\n{TUNNEL}");
    let garment = made(&text("base = \"full brief\"\ntop_drop_front = 20", "kind = \"raw\"", &legs, 6.0));
    let found = opening(&garment, Opening::LeftLeg).gap.unwrap();
    assert_eq!(found.at, Meeting::MiddleOfBack);
    let ends = gap_ends(&garment, EdgeId::BackLeg);
    assert_eq!(ends.len(), 2, "{ends:?}");
    assert!(ends[0].0 == ends[1].0 && ends[0].1 != ends[1].1, "{ends:?}");
    assert!(((ends[0].2 - ends[1].2).abs() - found.length).abs() < 1e-6, "{ends:?}");
    assert!(opening(&garment, Opening::RightLeg).gap.is_none());
}

/// What is threaded through is held nowhere: the reader says so, and so does the engine to whoever
/// makes a sheet without it.
#[test]
fn a_tunnel_has_no_parts() {
    for (more, key) in [("sections = { back = 15 }", "sections"), ("spread = \"equal\"", "spread")] {
        let text = text(BRIEF, &format!("{TUNNEL}\n{more}"), BOUND, 8.0);
        let said =
            quarterpin::sheet::read(&text, "sheet.toml").expect_err("no parts").render(&text, "sheet.toml", false);
        assert!(said.contains(key) && said.contains("runs freely"), "{said}");
    }
    let plain = read(&text(BRIEF, TUNNEL, BOUND, 8.0));
    let mut parted = plain.clone();
    parted.finish.top.sections.insert(Section::Back, engine::quantity::Ratio::from_percent(15.0));
    assert_eq!((refused(&parted).code, refused(&parted).place.to_string().as_str()), FREELY_SECTIONS);
    let mut spread = plain.clone();
    spread.finish.top.spread = Some(Spread::Equal);
    assert_eq!(refused(&spread).code, "finish.runs_freely");
    let garment = engine::make(&plain).unwrap().garment;
    let sections = &opening(&garment, Opening::Top).sections;
    let first = sections[0].stretch.unwrap();
    assert!(sections.iter().all(|s| (s.stretch.unwrap() - first).abs() < 1e-9), "{sections:?}");
}

const FREELY_SECTIONS: (&str, &str) = ("finish.runs_freely", "finish.top.sections");
