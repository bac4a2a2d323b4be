//! Files made to take for ever: read within what a pattern has, or refused by name.

use super::*;
use crate::validate;
use std::fmt::Write as _;

fn dxf(sections: &str) -> String {
    format!("  0\nSECTION\n  2\n{sections}  0\nENDSEC\n  0\nEOF\n")
}

fn drawn(entities: &str) -> String {
    dxf(&format!("ENTITIES\n{entities}"))
}

fn refused_for(found: Result<Outlines, ReadError>) -> &'static str {
    match found {
        Err(ReadError::TooMany { what, .. }) => what,
        other => panic!("{other:?}"),
    }
}

fn repeated(count: usize, one: impl Fn(usize) -> String) -> String {
    (0..count).fold(String::new(), |mut all, i| {
        let _ = write!(all, "{}", one(i));
        all
    })
}

/// Once read, every vertex looked again at all that follow: 7 seconds.
#[test]
fn a_polyline_of_r12_with_fifty_thousand_vertices_is_read_once() {
    let round = |i: usize| {
        let angle = i as f64 / 50_000.0 * std::f64::consts::TAU;
        format!("0\nVERTEX\n8\nCUT\n10\n{}\n20\n{}\n", 100.0 * angle.cos(), 100.0 * angle.sin())
    };
    let text = drawn(&format!("0\nPOLYLINE\n8\nCUT\n70\n1\n{}0\nSEQEND\n", repeated(50_000, round)));
    let found = read(text.as_bytes(), Format::Dxf).unwrap();
    assert!((found.lines[0].length - 100.0 * std::f64::consts::TAU).abs() < 1e-3);
}

#[test]
fn more_than_a_pattern_has_is_refused_by_name() {
    let splines = format!("0\nSPLINE\n8\nCUT\n71\n3\n{}", repeated(20_000, |i| format!("10\n{i}\n20\n0\n")));
    let names = repeated(300, |i| format!("1000\nedge=e{i}\n1011\n{i}\n1021\n0\n"));
    let names = format!("0\nLWPOLYLINE\n8\nCUT\n10\n0\n20\n0\n10\n9\n20\n0\n1001\nQUARTERPIN\n{names}");
    let blocks = dxf(&format!("BLOCKS\n{}", repeated(20_000, |i| format!("0\nBLOCK\n2\nB{i}\n0\nENDBLK\n"))));
    let inserts = drawn(&repeated(20_000, |i| format!("0\nINSERT\n2\nB{i}\n")));
    let points = drawn(&repeated(400_000, |_| "0\nPOINT\n10\n0\n".to_owned()));
    let lines = drawn(&"0\nX\n".repeat(4_500_000));
    for (text, what) in [
        (drawn(&splines), "points of splines"),
        (drawn(&names), "edges of one line"),
        (blocks, "blocks"),
        (inserts, "inserts"),
        (points, "points"),
        (lines, "lines"),
    ] {
        assert_eq!(refused_for(read(text.as_bytes(), Format::Dxf)), what);
        assert!(matches!(validate::exchange(text.as_bytes()), Err(ReadError::TooMany { .. })), "{what}");
    }
    let kinds = drawn(&repeated(2_000, |i| format!("0\nX{i}\n")));
    assert!(matches!(validate::exchange(kinds.as_bytes()), Err(ReadError::TooMany { .. })));
}

#[test]
fn more_than_an_svg_of_a_pattern_has_is_refused_by_name() {
    let svg = |inner: &str| format!("<svg xmlns=\"http://www.w3.org/2000/svg\">{inner}</svg>");
    let path = |d: &str, more: &str| svg(&format!("<g id=\"front-cut\"><path {more} d=\"{d}\"/></g>"));
    let spaces = repeated(2_000, |i| format!("<a{i}:b xmlns:a{i}=\"u{i}\">"));
    let edges = repeated(60_000, |i| format!("e{i} {i} 0;"));
    for (text, what) in [
        (svg(&"<a/>".repeat(1_000_000)), "elements"),
        (svg(&"<m>".repeat(1_000_000)), "elements"),
        (svg(&format!("<metadata>{spaces}")), "name spaces"),
        (svg(&format!("<a {}/>", repeated(100_000, |i| format!("a{i}=\"\" ")))), "attributes of one element"),
        (path("M0 0L9 9", &format!("data-edges=\"{edges}\"")), "edges of one line"),
        (path(&format!("M{}", "0 ".repeat(1_000_000)), ""), "segments of paths"),
        (path(&format!("M{}", "0 ".repeat(5_000_000)), ""), "letters of paths"),
    ] {
        assert_eq!(refused_for(read(text.as_bytes(), Format::Svg)), what);
    }
    let parts = path(&repeated(60_000, |i| format!("M{i} 0l5 5")), "");
    let found = read(parts.as_bytes(), Format::Svg).unwrap();
    assert_eq!((found.lines.len(), found.lines[0].edges.len()), (1, 60_000));
    let clones = read(
        svg(&format!("<g id=\"front-cut\"><path d=\"M0 0L9 9\"/>{}</g>", "<use/>".repeat(9_000))).as_bytes(),
        Format::Svg,
    );
    assert_eq!(clones.unwrap().notes.len(), 1, "the same is noted once");
}

#[test]
fn a_dxf_is_read_whatever_its_lines_end_with_and_whatever_follows_its_end() {
    let plain = drawn("0\nLWPOLYLINE\n8\nCUT\n70\n1\n10\n0\n20\n0\n10\n50\n20\n0\n10\n0\n20\n50\n");
    let found = read(plain.as_bytes(), Format::Dxf).unwrap();
    for (how, text) in [
        ("CR and LF", plain.replace('\n', "\r\n")),
        ("CR alone", plain.replace('\n', "\r")),
        ("a mark of the encoding", format!("\u{feff}{plain}")),
        ("blank lines after the end", format!("{plain}\n\n \n")),
        ("other lines after the end", format!("{plain}this is\nno tag\nat all\n")),
        ("no line end", plain.trim_end().to_owned()),
    ] {
        assert_eq!(read(text.as_bytes(), Format::Dxf), Ok(found.clone()), "{how}");
        assert!(validate::exchange(text.as_bytes()).is_ok(), "{how}");
    }
}

/// Points and vertices on one straight line, the same in x: once the square of their number.
#[test]
fn points_are_found_wherever_they_lie() {
    let vertices = repeated(50_000, |i| format!("0\nVERTEX\n8\n1\n10\n0\n20\n{}\n", i as f64 * 0.2));
    let points = repeated(50_000, |i| format!("0\nPOINT\n8\n3\n10\n0.03\n20\n{}\n", i as f64 * 0.2 + 0.03));
    let block = format!("0\nBLOCK\n2\nP\n0\nPOLYLINE\n8\n1\n70\n1\n{vertices}0\nSEQEND\n{points}0\nENDBLK\n");
    let found = validate::exchange(dxf(&format!("BLOCKS\n{block}")).as_bytes()).unwrap();
    let said: Vec<&str> = found.iter().map(|doubt| doubt.code).collect();
    assert!(!said.contains(&"dxf-curve-points"), "{said:?}");
}

/// Found by chance: an arc whose radius has a hundred digits was cut into more curves than there is memory for.
#[test]
fn an_arc_as_large_as_the_sky_is_refused() {
    let radius = format!("2{}", "0".repeat(114));
    let text =
        format!("<svg width='9mm' viewBox='0 0 9 9'><path id='front-cut' d='M0 0A{radius} 1 2 3 0 1 5 6z'/></svg>");
    assert_eq!(read(text.as_bytes(), Format::Svg), Err(ReadError::TooFar { digits: 8 }));
}
