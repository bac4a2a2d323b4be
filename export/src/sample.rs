//! A drawing for the tests of exporters: a half front on the fold and a full gusset.

use engine::curve::Path;
use engine::drawing::on_body::{Ink, OnBody, Seen, Shape, View};
use engine::drawing::{
    Drawing, Edge, Extent, Loop, Notch, NotchKind, Open, Piece, Role, TextLine, TextStyle, Trials, Vertex,
};
use kurbo::{CubicBez, Line, Point, Rect, Vec2};

fn line(name: &str, a: (f64, f64), b: (f64, f64), start: Vertex) -> Edge {
    Edge { name: name.to_owned(), path: Path::line(a.into(), b.into()), start }
}

fn cubic(name: &str, p: [(f64, f64); 4], start: Vertex) -> Edge {
    let [a, b, c, d] = p.map(Point::from);
    Edge { name: name.to_owned(), path: Path::cubic(CubicBez::new(a, b, c, d)), start }
}

/// A front-like half: top edge, side seam, leg, gusset seam, fold; `d` moves it all inwards.
fn front_loop(role: Role, d: f64) -> Loop {
    let edges = vec![
        cubic("top edge", [(0.0, d), (80.0, d), (160.0, d - 8.0), (220.0 - d, d - 20.0)], Vertex::Turn),
        line("side seam", (220.0 - d, d - 20.0), (228.0 - d, 70.0 - d), Vertex::Turn),
        cubic("leg", [(228.0 - d, 70.0 - d), (120.0, 85.0 - d), (50.0, 140.0), (38.0 - d, 230.0 - d)], Vertex::Turn),
        line("gusset seam", (38.0 - d, 230.0 - d), (0.0, 230.0 - d), Vertex::Turn),
        line("fold", (0.0, 230.0 - d), (0.0, d), Vertex::Turn),
    ];
    Loop { role, edges }
}

fn gusset_loop(role: Role, d: f64) -> Loop {
    let edges = vec![
        line("front gusset seam", (-37.0 + d, d), (37.0 - d, d), Vertex::Turn),
        cubic("left leg", [(37.0 - d, d), (30.0 - d, 50.0), (32.0 - d, 90.0), (60.0 - d, 140.0 - d)], Vertex::Turn),
        line("back gusset seam", (60.0 - d, 140.0 - d), (-60.0 + d, 140.0 - d), Vertex::Turn),
        cubic(
            "right leg",
            [(-60.0 + d, 140.0 - d), (-32.0 + d, 90.0), (-30.0 + d, 50.0), (-37.0 + d, d)],
            Vertex::Turn,
        ),
    ];
    Loop { role, edges }
}

fn notch(id: &str, at: (f64, f64), inward: (f64, f64)) -> Notch {
    Notch { id: id.to_owned(), at: at.into(), inward: Vec2::from(inward), depth: 4.0, kind: NotchKind::Slit }
}

fn text(lines: &[&str]) -> Vec<TextLine> {
    let style = |i| if i == 0 { TextStyle::Title } else { TextStyle::Body };
    lines.iter().enumerate().map(|(i, t)| TextLine { style: style(i), text: (*t).to_owned() }).collect()
}

fn front() -> Piece {
    let second = front_loop(Role::SecondRow, 10.0).edges.swap_remove(2).path;
    Piece {
        name: "front".to_owned(),
        material: "cotton jersey".to_owned(),
        quantity: 1,
        extent: Extent::HalfOnFold,
        mirror: Some(Line::new((0.0, 230.0), (0.0, 0.0))),
        grain: Line::new((25.0, 60.0), (25.0, 190.0)),
        stretch: Line::new((40.0, 30.0), (140.0, 30.0)),
        loops: vec![front_loop(Role::Cut, 0.0), front_loop(Role::Sewing, 7.0), front_loop(Role::Finished, 3.0)],
        lines: vec![Open { role: Role::SecondRow, edge: "leg".to_owned(), path: second }],
        notches: vec![notch("top centre front", (0.0, 0.0), (0.0, 1.0)), notch("side", (224.0, 25.0), (-1.0, 0.0))],
        numbers: vec![],
        text: text(&["front", "first pair", "right side up", "legs: edging that stands out", "seam allowance 7 mm"]),
        text_box: Rect::new(36.0, 40.0, 110.0, 100.0),
    }
}

fn gusset() -> Piece {
    Piece {
        name: "gusset".to_owned(),
        material: "cotton jersey".to_owned(),
        quantity: 2,
        extent: Extent::Full,
        mirror: None,
        grain: Line::new((20.0, 40.0), (20.0, 110.0)),
        stretch: Line::new((-20.0, 20.0), (20.0, 20.0)),
        loops: vec![gusset_loop(Role::Cut, 0.0), gusset_loop(Role::Sewing, 7.0)],
        lines: Vec::new(),
        notches: vec![notch("front gusset seam, centre", (0.0, 0.0), (0.0, 1.0))],
        numbers: vec![],
        text: text(&["gusset", "cut 2"]),
        text_box: Rect::new(-22.0, 40.0, 14.0, 110.0),
    }
}

/// A square of cloth on a body, seen from the front.
fn on_body() -> OnBody {
    let square = |r: f64| {
        let corners = [(-r, 0.0), (r, 0.0), (r, 2.0 * r), (-r, 2.0 * r)].map(Point::from);
        (1..4).fold(Path::line(corners[0], corners[1]), |p, i| p.joined(Path::line(corners[i], corners[(i + 1) % 4])))
    };
    let shape = |ink: Ink, path: Path| Shape { ink, path };
    let edge = Path::line(Point::new(-90.0, 0.0), Point::new(90.0, 0.0));
    let shapes = vec![
        shape(Ink::Skin, square(120.0)),
        shape(Ink::Cloth, square(90.0)),
        shape(Ink::Contour, square(120.0)),
        shape(Ink::TopEdge, edge),
    ];
    OnBody { views: vec![View { seen: Seen::Front, shapes, labels: Vec::new() }] }
}

/// The sample, complete.
pub(crate) fn drawing() -> Drawing {
    Drawing {
        variants: Vec::new(),
        sizes: Vec::new(),
        on_body: on_body(),
        card: Default::default(),
        name: "first pair".to_owned(),
        date: Some("2026-03-02".to_owned()),
        pieces: vec![front(), gusset()],
        trials: Trials::default(),
    }
}

/// The same under names that every format has to escape somehow.
pub(crate) fn awkward() -> Drawing {
    let mut drawing = drawing();
    drawing.name = "δοκιμή <&> \"łódź\" %%c \r\n  0\r\nEOF ]]> -->".to_owned();
    for piece in &mut drawing.pieces {
        piece.name = format!("μπροστά <&>\"' {}", piece.name);
        piece.material = "bawełna – ½".to_owned();
        piece.text[0].text = format!("żółw \u{7} & <b> {}", piece.text[0].text);
    }
    drawing
}
