use super::*;
use crate::cutter::{Cutting, Notches};
use engine::drawing::Drawing;

fn cut(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    super::cut(drawing, &Options::default()).map(|f| f.bytes)
}

fn pieces(drawing: &Drawing) -> Result<Vec<u8>, DxfError> {
    super::pieces(drawing, Notches::Slits)
}

use crate::outline::{joined, stitched};
use crate::sample;
use kurbo::{Point, Shape};
use tags::Tag;

fn read(bytes: &[u8]) -> Vec<Tag<'_>> {
    tags::read(std::str::from_utf8(bytes).unwrap()).unwrap()
}

/// The records of one section: what stands between its head and its end.
fn section<'b>(bytes: &'b [u8], name: &str) -> Vec<Vec<Tag<'b>>> {
    let mut records: Vec<Vec<Tag<'_>>> = Vec::new();
    for tag in read(bytes) {
        match records.last_mut() {
            Some(record) if tag.code != 0 => record.push(tag),
            _ => records.push(vec![tag]),
        }
    }
    let start = records.iter().position(|r| r.iter().any(|t| t.is(2, name)) && r[0].is(0, "SECTION")).unwrap();
    records.into_iter().skip(start).take_while(|r| !r[0].is(0, "ENDSEC")).collect()
}

fn texts<'r>(record: &'r [Tag<'_>], code: i32) -> Vec<&'r str> {
    record.iter().filter(|t| t.code == code).map(|t| &*t.value).collect()
}

fn numbers(record: &[Tag<'_>], code: i32) -> Vec<f64> {
    texts(record, code).iter().map(|v| v.trim().parse().unwrap()).collect()
}

fn of<'b>(records: &[Vec<Tag<'b>>], kind: &str, layer: &str) -> Vec<Vec<Tag<'b>>> {
    records.iter().filter(|r| r[0].is(0, kind) && r.iter().any(|t| t.is(8, layer))).cloned().collect()
}

fn points(record: &[Tag<'_>]) -> Vec<Point> {
    numbers(record, 10).into_iter().zip(numbers(record, 20)).map(Point::from).collect()
}

/// Area (clockwise as seen, y up: negative) and perimeter of a closed polygon.
fn measure(points: &[Point]) -> (f64, f64) {
    let next = points.iter().cycle().skip(1);
    points
        .iter()
        .zip(next)
        .fold((0.0, 0.0), |(area, round), (a, b)| (area + 0.5 * (a.x * b.y - b.x * a.y), round + a.distance(*b)))
}

#[test]
fn one_closed_outline_per_piece_with_its_area() {
    let drawing = sample::drawing().unfolded();
    let bytes = cut(&sample::drawing()).unwrap();
    let outlines = of(&section(&bytes, "ENTITIES"), "LWPOLYLINE", "CUT");
    assert_eq!(outlines.len(), drawing.pieces.len());
    for (piece, outline) in drawing.pieces.iter().zip(&outlines) {
        assert_eq!(numbers(outline, 70), [1.0], "closed");
        let points = points(outline);
        assert_eq!(points.len(), numbers(outline, 90)[0] as usize);
        assert!(points[0].distance(points[points.len() - 1]) > 1e-3, "the first point is not repeated");
        let path = joined(piece.cut().unwrap());
        let (area, round) = measure(&points);
        // y is negated: clockwise as seen is negative here and positive in the drawing.
        let want = path.to_bez_path().area();
        assert!(area < 0.0 && want > 0.0);
        assert!((area + want).abs() <= 5e-4 * want, "{}: {area} {want}", piece.name);
        assert!((round - path.length()).abs() <= 5e-4 * path.length(), "{}: {round}", piece.name);
    }
}

#[test]
fn chords_keep_to_their_curve() {
    let bytes = cut(&sample::drawing()).unwrap();
    let outlines = of(&section(&bytes, "ENTITIES"), "LWPOLYLINE", "CUT");
    let drawing = sample::drawing().unfolded();
    for (piece, outline) in drawing.pieces.iter().zip(&outlines) {
        let points = points(outline);
        let path = joined(piece.cut().unwrap());
        // The piece was moved and its y negated: the first points tell by how much.
        let shift = Point::new(points[0].x - path.start().x, points[0].y + path.start().y);
        let bez = path.to_bez_path();
        for pair in points.windows(2) {
            for share in [0.0, 0.25, 0.5, 0.75] {
                let p = pair[0].lerp(pair[1], share);
                let q = Point::new(p.x - shift.x, shift.y - p.y);
                let off = bez
                    .segments()
                    .map(|s| kurbo::ParamCurveNearest::nearest(&s, q, 1e-9).distance_sq)
                    .fold(f64::INFINITY, f64::min)
                    .sqrt();
                assert!(off <= Cutting::default().tolerance, "{}: {off} mm off at {q:?}", piece.name);
            }
        }
    }
}

#[test]
fn pieces_lie_apart_at_positive_coordinates() {
    let bytes = cut(&sample::drawing()).unwrap();
    let outlines = of(&section(&bytes, "ENTITIES"), "LWPOLYLINE", "CUT");
    let boxes: Vec<_> = outlines
        .iter()
        .map(|o| {
            points(o).into_iter().fold(None, |b: Option<kurbo::Rect>, p| {
                Some(b.map_or(kurbo::Rect::from_points(p, p), |b| b.union_pt(p)))
            })
        })
        .map(Option::unwrap)
        .collect();
    assert!(boxes.iter().all(|b| b.x0 >= 0.0 && b.y0 >= 0.0));
    assert!(boxes.windows(2).all(|w| w[0].x1 + 10.0 < w[1].x0));
}

#[test]
fn the_cut_file_says_millimetres_and_nothing_of_the_clock() {
    let bytes = cut(&sample::drawing()).unwrap();
    let header = section(&bytes, "HEADER").remove(0);
    let after = |name: &str| header.iter().position(|t| t.is(9, name)).map(|i| header[i + 1].value.trim().to_owned());
    assert_eq!(after("$ACADVER").unwrap(), "AC1015");
    assert_eq!(after("$INSUNITS").unwrap(), "4");
    assert_eq!(after("$MEASUREMENT").unwrap(), "1");
    for gone in ["$TDCREATE", "$TDUPDATE", "$TDUCREATE", "$FINGERPRINTGUID", "$VERSIONGUID"] {
        assert_eq!(after(gone), None);
    }
    assert!(bytes.starts_with(b"999\r\nquarterpin sheet "));
    assert!(String::from_utf8(bytes).unwrap().contains("never PVC"));
}

#[test]
fn handles_are_unique_and_below_the_seed() {
    let bytes = cut(&sample::drawing()).unwrap();
    let all = read(&bytes);
    let seed = all.iter().position(|t| t.is(9, "$HANDSEED")).unwrap() + 1;
    let own = all.iter().enumerate().filter(|(i, t)| matches!(t.code, 5 | 105) && *i != seed);
    let mut handles: Vec<u64> = own.map(|(_, t)| u64::from_str_radix(&t.value, 16).unwrap()).collect();
    let count = handles.len();
    handles.sort_unstable();
    handles.dedup();
    assert_eq!(handles.len(), count);
    assert!(*handles.last().unwrap() < u64::from_str_radix(&all[seed].value, 16).unwrap());
    let owners = all.iter().filter(|t| t.code == 330 && t.value != "0");
    assert!(owners.clone().count() > 20);
    for owner in owners {
        assert!(handles.contains(&u64::from_str_radix(&owner.value, 16).unwrap()), "{owner:?} owns nothing");
    }
}

#[test]
fn the_exchange_file_has_a_block_for_each_piece() {
    let drawing = sample::drawing();
    let bytes = pieces(&drawing).unwrap();
    let blocks = section(&bytes, "BLOCKS");
    let names: Vec<_> = blocks.iter().filter(|r| r[0].is(0, "BLOCK")).map(|r| texts(r, 2)[0]).collect();
    assert_eq!(names, ["FRONT", "GUSSET"]);
    let entities = section(&bytes, "ENTITIES");
    let inserts: Vec<_> = entities.iter().filter(|r| r[0].is(0, "INSERT")).map(|r| texts(r, 2)[0]).collect();
    assert_eq!(inserts, names);
    let boundaries = of(&blocks, "POLYLINE", "1");
    assert_eq!(boundaries.len(), 2);
    assert!(boundaries.iter().all(|b| numbers(b, 70) == [1.0]), "closed");
    assert_eq!(of(&blocks, "LINE", "6").len(), 1, "the half has a mirror line");
    assert_eq!(of(&blocks, "LINE", "7").len(), 2);
    assert_eq!(of(&blocks, "POINT", "4").len(), 3);
    // Nothing is sewn along the fold.
    let sewn: Vec<_> = of(&blocks, "POLYLINE", "14").iter().map(|r| numbers(r, 70) == [1.0]).collect();
    assert_eq!(sewn, [false, false, true], "front open at the fold, its second row, gusset closed");
    let style = of(&entities, "TEXT", "1");
    assert_eq!(texts(&style[0], 1), ["Style Name: first pair"]);
    let keyed: Vec<_> = of(&blocks, "TEXT", "1").iter().map(|t| texts(t, 1)[0].to_owned()).collect();
    assert!(keyed.contains(&"Piece Name: gusset".to_owned()) && keyed.contains(&"Quantity: 2".to_owned()));
}

#[test]
fn every_vertex_is_a_turn_or_a_curve_point() {
    let bytes = pieces(&sample::drawing()).unwrap();
    let blocks = section(&bytes, "BLOCKS");
    let marked: Vec<Point> = ["2", "3"].iter().flat_map(|l| of(&blocks, "POINT", l)).map(|r| points(&r)[0]).collect();
    let vertices: Vec<Point> = of(&blocks, "VERTEX", "1").iter().map(|r| points(r)[0]).collect();
    assert!(vertices.len() > 40);
    assert!(vertices.iter().all(|v| marked.iter().any(|m| m.distance(*v) < 1e-6)));
    // Five corners of the half front and four of the gusset, on cut and sewing line.
    assert_eq!(of(&blocks, "POINT", "2").len(), 2 * (5 + 4));
}

#[test]
fn notches_carry_depth_and_direction() {
    let bytes = pieces(&sample::drawing()).unwrap();
    let blocks = section(&bytes, "BLOCKS");
    let notches = of(&blocks, "POINT", "4");
    assert_eq!(numbers(&notches[0], 30), [4.0]);
    // Down the body is 270° where y points up; towards the centre is 180°.
    assert_eq!(numbers(&notches[0], 50), [270.0]);
    assert_eq!(numbers(&notches[1], 50), [180.0]);
}

#[test]
fn notches_are_slits_without_a_width_or_vs_with_one() {
    let widths = |notches| {
        let bytes = super::pieces(&sample::drawing(), notches).unwrap();
        let points = of(&section(&bytes, "BLOCKS"), "POINT", "4");
        points.iter().flat_map(|n| numbers(n, 39)).collect::<Vec<f64>>()
    };
    assert_eq!(widths(Notches::Slits), [0.0; 3]);
    assert_eq!(widths(Notches::Marks), [0.0; 3]);
    // As wide as deep, on the fold, inside an edge, and inside another.
    let vees = widths(Notches::Vees);
    assert!(vees.len() == 3 && vees.iter().all(|w| (w - 4.0).abs() < 0.01), "{vees:?}");
    // In a sharp corner there is no room for a V.
    let mut drawing = sample::drawing();
    drawing.pieces[1].notches[0].at = Point::new(37.0, 0.0);
    let bytes = super::pieces(&drawing, Notches::Vees).unwrap();
    assert_eq!(numbers(&of(&section(&bytes, "BLOCKS"), "POINT", "4")[2], 39), [0.0]);
}

#[test]
fn names_stand_on_every_line_that_is_measured() {
    let r12 = Options { version: Version::R12, ..Options::default() };
    let cut = super::cut(&sample::drawing(), &r12).unwrap().bytes;
    let bytes = pieces(&sample::drawing()).unwrap();
    for (bytes, of_section, outlines) in [(cut, "ENTITIES", "CUT"), (bytes, "BLOCKS", "1")] {
        let tables = section(&bytes, "TABLES");
        assert!(tables.iter().any(|r| r[0].is(0, "APPID") && texts(r, 2) == ["QUARTERPIN"]));
        let lines = of(&section(&bytes, of_section), "POLYLINE", outlines);
        assert_eq!(lines.len(), 2);
        assert!(lines.iter().all(|l| texts(l, 1001) == ["QUARTERPIN"] && texts(l, 1000)[1] == "line=cut"));
        assert_eq!(texts(&lines[1], 1000)[2], "edge=front gusset seam");
    }
}

#[test]
fn r12_carries_nothing_of_later_versions() {
    let bytes = pieces(&sample::drawing()).unwrap();
    let tags = read(&bytes);
    assert!(tags.iter().any(|t| t.is(1, "AC1009")));
    assert!(tags.iter().all(|t| t.code != 100 && t.code != 330));
    assert!(tags.iter().all(|t| !t.is(0, "LWPOLYLINE") && !t.is(0, "BLOCK_RECORD")));
    assert!(tags.iter().all(|t| t.value.is_ascii()));
}

#[test]
fn the_same_bytes_every_time() {
    for write in [cut, pieces] {
        let first = write(&sample::drawing()).unwrap();
        // Another document in between must not shift any counter.
        write(&sample::awkward()).unwrap();
        assert_eq!(write(&sample::drawing()).unwrap(), first);
    }
}

#[test]
fn awkward_names_stay_in_their_tags() {
    let cut = cut(&sample::awkward()).unwrap();
    let pieces = pieces(&sample::awkward()).unwrap();
    assert!(cut.is_ascii() && pieces.is_ascii());
    for bytes in [&cut, &pieces] {
        let ends = read(bytes).iter().filter(|t| t.is(0, "EOF")).count();
        assert_eq!(ends, 1, "no name ends the file");
    }
    // Polish letters: escaped for those who can read that, plain for those who cannot.
    assert!(String::from_utf8(cut).unwrap().contains("\\U+017C"));
    assert!(String::from_utf8(pieces).unwrap().contains("Material: bawelna - 1/2"));
}

#[test]
fn flawed_drawings_are_refused_by_piece() {
    type Harm = fn(&mut engine::drawing::Piece);
    let harms: [(Harm, &str); 7] = [
        (|p| p.loops[0].edges.clear(), "empty"),
        (|p| p.loops.retain(|l| l.role != engine::drawing::Role::Cut), "0 cut outlines"),
        (|p| p.notches[0].at.x = f64::NAN, "no length"),
        (|p| p.grain.p0.y = f64::INFINITY, "no length"),
        (|p| p.loops[1].edges.truncate(2), "open after"),
        (|p| p.mirror = None, "without a fold"),
        (|p| p.loops[0].edges.iter_mut().for_each(|e| e.path = e.path.map(|q| Point::new(0.0, q.y))), "no cloth"),
    ];
    for (harm, words) in harms {
        let mut drawing = sample::drawing();
        harm(&mut drawing.pieces[0]);
        let message = pieces(&drawing).unwrap_err().to_string();
        assert!(message.contains("`front`") && message.contains(words), "{message}");
    }
    let mut nothing = sample::drawing();
    nothing.pieces.clear();
    assert!(cut(&nothing).is_err());
}

#[test]
fn a_sewing_line_is_open_at_the_fold_only() {
    let drawing = sample::drawing();
    let runs: Vec<Vec<bool>> =
        drawing.pieces.iter().map(|p| stitched(p, &p.loops[1]).iter().map(|r| r.is_closed).collect()).collect();
    assert_eq!(runs, [vec![false], vec![true]]);
}
