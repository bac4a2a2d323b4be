//! An invented drawing for the tests: a half front, a half back and a gusset.

use engine::curve::Path;
use engine::drawing::{
    Drawing, Edge, Extent, Loop, Notch, NotchKind, Open, Piece, Role, TextLine, TextStyle, Trials, Vertex,
};
use kurbo::{CubicBez, Line, Point, Rect, Vec2};

/// A drawing of this name.
pub(super) fn drawing(name: &str) -> Drawing {
    Drawing {
        variants: Vec::new(),
        sizes: Vec::new(),
        on_body: Default::default(),
        card: Default::default(),
        name: name.to_owned(),
        date: Some("2026-03-02".to_owned()),
        pieces: vec![half("front", 1.0, name), half("back", 1.15, name), gusset(name)],
        trials: Trials::default(),
    }
}

fn cubic(points: [(f64, f64); 4]) -> Path {
    let [a, b, c, d] = points.map(Point::from);
    Path::cubic(CubicBez::new(a, b, c, d))
}

fn edge(name: &str, path: Path) -> Edge {
    Edge { name: name.to_owned(), path, start: Vertex::Turn }
}

fn half(name: &str, grow: f64, title: &str) -> Piece {
    let outline = |inset: f64| {
        let (x, y) = (225.0 - inset, inset);
        let edges = [
            edge("top edge", cubic([(0.0, 12.0 + y), (90.0, 12.0 + y), (150.0, 4.0 + y), (x, y)])),
            edge("side seam", Path::line(Point::new(x, y), Point::new(x, 90.0 - y))),
            edge("leg", cubic([(x, 90.0 - y), (120.0, 92.0 - y), (35.0 - inset, 150.0), (35.0 - inset, 210.0 - y)])),
            edge("gusset seam", Path::line(Point::new(35.0 - inset, 210.0 - y), Point::new(0.0, 210.0 - y))),
            edge("fold", Path::line(Point::new(0.0, 210.0 - y), Point::new(0.0, 12.0 + y))),
        ];
        let scaled = |e: Edge| Edge { path: e.path.map(|p| Point::new(p.x, grow * p.y)), ..e };
        edges.map(scaled).to_vec()
    };
    Piece {
        extent: Extent::HalfOnFold,
        mirror: Some(Line::new((0.0, 210.0 * grow), (0.0, 12.0 * grow))),
        grain: Line::new((14.0, 60.0), (14.0, 150.0)),
        stretch: Line::new((60.0, 82.0), (100.0, 82.0)),
        text_box: Rect::new(40.0, 30.0, 140.0, 70.0),
        notches: vec![notch(name, Point::new(225.0, 45.0 * grow), Vec2::new(-1.0, 0.0))],
        lines: vec![Open { role: Role::SecondRow, edge: "top edge".to_owned(), path: outline(18.0)[0].path.clone() }],
        ..piece(name, title, vec![(Role::Cut, outline(0.0)), (Role::Sewing, outline(12.0))])
    }
}

fn gusset(title: &str) -> Piece {
    let side = |s: f64| cubic([(36.0 * s, 0.0), (30.0 * s, 50.0), (33.0 * s, 90.0), (62.0 * s, 144.0)]);
    let edges = vec![
        edge("front gusset seam", Path::line(Point::new(-36.0, 0.0), Point::new(36.0, 0.0))),
        edge("right leg", side(1.0)),
        edge("back gusset seam", Path::line(Point::new(62.0, 144.0), Point::new(-62.0, 144.0))),
        edge("left leg", side(-1.0).reversed()),
    ];
    Piece {
        quantity: 2,
        grain: Line::new((0.0, 15.0), (0.0, 55.0)),
        stretch: Line::new((-20.0, 132.0), (20.0, 132.0)),
        text_box: Rect::new(-24.0, 62.0, 24.0, 122.0),
        ..piece("gusset", title, vec![(Role::Cut, edges)])
    }
}

fn piece(name: &str, title: &str, loops: Vec<(Role, Vec<Edge>)>) -> Piece {
    let body = |text: &str| TextLine { style: TextStyle::Body, text: text.to_owned() };
    Piece {
        name: name.to_owned(),
        material: "cotton jersey".to_owned(),
        quantity: 1,
        extent: Extent::Full,
        mirror: None,
        grain: Line::new((0.0, 0.0), (0.0, 1.0)),
        stretch: Line::new((0.0, 0.0), (1.0, 0.0)),
        loops: loops.into_iter().map(|(role, edges)| Loop { role, edges }).collect(),
        lines: vec![],
        notches: vec![],
        numbers: vec![],
        text: vec![
            TextLine { style: TextStyle::Title, text: format!("{title} – {name}") },
            body("cut 1 of cotton jersey, right side up"),
            body("seam allowance 7.0 mm (0.28 in), included"),
        ],
        text_box: Rect::ZERO,
    }
}

fn notch(piece: &str, at: Point, inward: Vec2) -> Notch {
    Notch { id: format!("{piece} side seam, quarter"), at, inward, depth: 4.0, kind: NotchKind::Slit }
}
