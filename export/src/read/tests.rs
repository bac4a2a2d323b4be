use super::*;
use crate::cutter::{Cutting, Notches, Start};
use crate::dxf::{Curves, Options, Version};
use crate::sample;
use engine::drawing::{Drawing, Role};

/// Every edge of cut and sewing lines with its length in the drawing.
fn wanted(drawing: &Drawing) -> Vec<(String, &'static str, String, f64)> {
    let mut out = Vec::new();
    for piece in &drawing.pieces {
        for l in piece.loops.iter().filter(|l| matches!(l.role, Role::Cut | Role::Sewing)) {
            let line = if l.role == Role::Cut { "cut" } else { "sewing" };
            let on_fold = |name: &str| line == "sewing" && name == "fold";
            let edges = l.edges.iter().filter(|e| !on_fold(&e.name));
            out.extend(edges.map(|e| (piece.name.clone(), line, e.name.clone(), e.path.length())));
        }
    }
    out
}

fn compare(found: &Outlines, drawing: &Drawing, allowed: f64) {
    for (piece, line, name, length) in wanted(drawing) {
        let read = found.lines.iter().find(|l| l.piece == piece && l.line == line).expect(&piece);
        let edge = read.edges.iter().find(|e| e.name == name).unwrap_or_else(|| panic!("{piece} {line} {name}"));
        assert_eq!(edge.found, Found::Name, "{piece} {line} {name}");
        assert!((edge.length - length).abs() <= allowed, "{piece} {line} {name}: {} for {length}", edge.length);
    }
}

fn cut(options: &Options) -> Vec<u8> {
    crate::dxf::cut(&sample::drawing(), options).unwrap().bytes
}

#[test]
fn edges_come_back_from_every_form_of_the_cutter_file() {
    let whole = sample::drawing().unfolded();
    for (curves, allowed) in [(Curves::Polylines, 0.05), (Curves::Arcs, 0.05), (Curves::Splines, 0.001)] {
        for start in [Start::AsDrawn, Start::AwayFromCorners] {
            let options = Options { curves, cutting: Cutting { start, ..Cutting::default() }, ..Options::default() };
            compare(&read(&cut(&options), Format::Dxf).unwrap(), &whole, allowed);
        }
    }
}

#[test]
fn vees_do_not_shorten_an_edge() {
    let whole = sample::drawing().unfolded();
    let options = Options {
        curves: Curves::Splines,
        cutting: Cutting { notches: Notches::Vees, ..Cutting::default() },
        ..Options::default()
    };
    // The mouth of a V is a chord; on these curves it is shorter than the edge by under a hundredth.
    compare(&read(&cut(&options), Format::Dxf).unwrap(), &whole, 0.02);
}

#[test]
fn edges_come_back_from_the_svg() {
    let text = crate::svg::svg(&sample::drawing()).unwrap();
    compare(&read(text.as_bytes(), Format::Svg).unwrap(), &sample::drawing(), 0.001);
    // Moved, turned and saved in centimetres by another program.
    let moved = text.replacen("<g ", "<g transform=\"translate(30, 4) rotate(-90)\" ", 1);
    compare(&read(moved.as_bytes(), Format::Svg).unwrap(), &sample::drawing(), 0.001);
}

#[test]
fn edges_come_back_from_r12_and_the_file_to_exchange() {
    for curves in [Curves::Polylines, Curves::Arcs] {
        let options = Options { version: Version::R12, curves, ..Options::default() };
        compare(&read(&cut(&options), Format::Dxf).unwrap(), &sample::drawing().unfolded(), 0.05);
    }
    let exchange = crate::dxf::pieces(&sample::drawing(), Notches::Slits).unwrap();
    let found = read(&exchange, Format::Dxf).unwrap();
    compare(&found, &sample::drawing(), 0.05);
    let lines = |name: &str| found.lines.iter().filter(|l| l.line == name).count();
    assert_eq!(["cut", "sewing", "second row"].map(lines), [2, 2, 1]);
}

#[test]
fn without_names_edges_are_measured_between_turn_points() {
    let bytes = crate::dxf::pieces(&sample::drawing(), Notches::Slits).unwrap();
    let text = String::from_utf8(bytes).unwrap().replace("1001\r\nQUARTERPIN", "1001\r\nSOMEBODY");
    let found = read(text.as_bytes(), Format::Dxf).unwrap();
    let front = found.lines.iter().find(|l| l.piece == "front" && l.line == "cut").unwrap();
    assert!(front.edges.iter().all(|e| e.found == Found::TurnPoints));
    let drawing = sample::drawing();
    let want: Vec<f64> = drawing.pieces[0].cut().unwrap().edges.iter().map(|e| e.path.length()).collect();
    assert_eq!(front.edges.len(), want.len());
    for (edge, want) in front.edges.iter().zip(want) {
        assert!((edge.length - want).abs() < 0.05, "{} {want}", edge.length);
    }
}

#[test]
fn an_edited_outline_keeps_its_names_at_the_nearest_turn_points() {
    let text = String::from_utf8(cut(&Options::default())).unwrap();
    // A person pulls the lower corner of the side out by 5 mm: the vertex moves, the names do not.
    let at = sample::drawing().unfolded().pieces[0].cut().unwrap().edges[2].path.start();
    let first = sample::drawing().unfolded().pieces[0].cut().unwrap().edges[0].path.start();
    let vertex = |record: &str| record.contains("LWPOLYLINE") && record.contains("\r\nCUT\r\n");
    let outline = text.split("\r\n  0\r\n").find(|r| vertex(r)).unwrap();
    let number = |code: &str| -> f64 {
        outline.split(&format!("\r\n {code}\r\n")).nth(1).unwrap().lines().next().unwrap().parse().unwrap()
    };
    let x = number("10") + at.x - first.x;
    let places: Vec<&str> = outline.match_indices(&format!("{x}")).map(|(_, m)| m).collect();
    assert!(!places.is_empty(), "the corner is at {x}");
    let edited = text.replacen(&format!(" 10\r\n{x}"), &format!(" 10\r\n{}", x + 5.0), 1);
    assert_ne!(edited, text);
    let found = read(edited.as_bytes(), Format::Dxf).unwrap();
    let front = found.lines.iter().find(|l| l.piece == "front" && l.line == "cut").unwrap();
    let side = front.edges.iter().find(|e| e.name == "side seam").unwrap();
    assert_eq!(side.found, Found::NearestTurn);
    // From (220, −20) to (228 + 5, 70).
    assert!((side.length - 13.0_f64.hypot(90.0)).abs() < 1e-3, "{}", side.length);
}

#[test]
fn what_cannot_be_read_is_said() {
    assert_eq!(read(b"AutoCAD Binary DXF\r\n\x1a\0", Format::Dxf), Err(ReadError::Binary));
    assert!(matches!(read(b"hello\nthere", Format::Dxf), Err(ReadError::NotTags(1))));
    assert!(matches!(read(b"  0\nEOF\n", Format::Dxf), Err(ReadError::NoOutlines)));
    assert!(matches!(read(b"<html></html>", Format::Svg), Err(ReadError::NotSvg(_))));
    assert!(matches!(read(&[0xff, 0xfe], Format::Svg), Err(ReadError::NotText)));
    assert!(matches!(read(&vec![b' '; LARGEST as usize + 1], Format::Dxf), Err(ReadError::TooLarge(_))));
    let hatch = "  0\nSECTION\n  2\nENTITIES\n  0\nHATCH\n  8\nCUT\n  0\nLWPOLYLINE\n  8\nCUT\n 70\n1\n 10\n0\n 20\n0\n 10\n9\n 20\n0\n 10\n9\n 20\n9\n  0\nENDSEC\n";
    assert_eq!(read(hatch.as_bytes(), Format::Dxf), Err(ReadError::CutOff));
    let hatch = format!("{hatch}  0\nEOF\n");
    let found = read(hatch.as_bytes(), Format::Dxf).unwrap();
    assert!(found.notes.iter().any(|n| n.contains("HATCH")));
    assert!((found.lines[0].length - (18.0 + 162.0_f64.sqrt())).abs() < 1e-9);
}

/// Lehmer's generator, multiplier 48271.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0 * 48_271 % 0x7fff_ffff;
        (self.0 as usize) % n
    }
}

/// Cut, double, swap or overwrite something.
fn harmed(bytes: &[u8], dice: &mut Dice) -> Vec<u8> {
    const WORDS: [&[u8]; 8] = [b"nan", b"-1", b"1e308", b"0", b"999999999999999999999", b"\xff", b"\r\n", b"SEQEND"];
    let mut out = bytes.to_vec();
    for _ in 0..=dice.below(4) {
        let (a, b) = (dice.below(out.len()), dice.below(out.len()));
        match dice.below(5) {
            0 => out.truncate(a.max(1)),
            1 => out[a] = (dice.below(256)) as u8,
            2 => drop(out.splice(a..a, WORDS[dice.below(WORDS.len())].iter().copied())),
            3 => drop(out.drain(a.min(b)..a.max(b).min(a.min(b) + 60))),
            _ => out.swap(a, b),
        }
        if out.is_empty() {
            out.push(b' ');
        }
    }
    out
}

#[test]
fn no_mutation_panics() {
    let drawing = sample::drawing();
    let splines = Options { curves: Curves::Splines, ..Options::default() };
    let files = [
        (cut(&Options::default()), Format::Dxf),
        (cut(&splines), Format::Dxf),
        (crate::dxf::pieces(&drawing, Notches::Slits).unwrap(), Format::Dxf),
        (crate::svg::svg(&drawing).unwrap().into_bytes(), Format::Svg),
    ];
    let mut dice = Dice(20_260_302);
    let mut read_anyway = 0;
    for _ in 0..250 {
        for (bytes, format) in &files {
            let harmed = harmed(bytes, &mut dice);
            if let Ok(found) = read(&harmed, *format) {
                read_anyway += 1;
                assert!(found.lines.iter().all(|l| l.length.is_finite()));
                walk(&found);
            }
            if *format == Format::Dxf {
                let _ = crate::validate::exchange(&harmed);
            }
        }
    }
    assert!(read_anyway > 100, "{read_anyway}: most harm leaves something to read");
}

/// As XML, whoever wrote it: prefixes, quotes, entities, comments, a document type.
#[test]
fn an_svg_of_another_program_is_read() {
    let text = r##"<?xml version='1.0'?>
<!DOCTYPE svg:svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [<!ENTITY side "30">]>
<!-- <g> -->
<svg:svg xmlns:svg="http://www.w3.org/2000/svg" width="10cm" viewBox='0 0 200 200'>
  <svg:style><![CDATA[ path > .x { } ]]></svg:style>
  <svg:g id="front-cut" data-piece="a &lt; b" transform="scale(2)"><svg:path d = "M0 0 H&side; V30 H0 Z"/></svg:g>
</svg:svg>"##;
    let found = read(text.as_bytes(), Format::Svg).unwrap();
    let [line] = found.lines.as_slice() else { panic!("{found:?}") };
    assert_eq!((line.piece.as_str(), line.line.as_str(), line.is_closed), ("a < b", "cut", true));
    // Twice as large, on a page where two units are a millimetre.
    assert!((line.length - 120.0).abs() < 1e-9, "{}", line.length);
}

#[test]
fn broken_and_hostile_svgs_are_refused() {
    let nested = "<g>".repeat(300) + &"</g>".repeat(300);
    let namespace = "xmlns=\"http://www.w3.org/2000/svg\"";
    let bomb = (1..20).map(|i| format!("<!ENTITY e{i} '{}'>", format!("&e{};", i - 1).repeat(10))).collect::<String>();
    for text in [
        "<a".to_owned(),
        "<a b=c>".to_owned(),
        "<svg><g></svg>".to_owned(),
        "</svg>".to_owned(),
        "<!-- ".to_owned(),
        String::new(),
        "<html></html>".to_owned(),
        format!("<svg {namespace}>{nested}</svg>"),
        format!("<svg {namespace}>{}", "<g>".repeat(400_000)),
        format!("<!DOCTYPE svg [<!ENTITY e0 'x'>{bomb}]><svg {namespace}><title>&e19;</title></svg>"),
    ] {
        let refused = read(text.as_bytes(), Format::Svg);
        assert!(matches!(refused, Err(ReadError::NotSvg(_))), "{text:.60}: {refused:?}");
    }
}
