//! Two garments laid over each other: the cut lines of the first solid, those of the second dashed.

use super::document;
use super::shape::{closed, number};
use crate::outline::{self, Flaw};
use engine::curve::Path;
use engine::drawing::{Drawing, Piece, Role};
use kurbo::{Rect, Size, Vec2};
use svg::node::element::{Group, Path as Drawn, Text};

/// Round everything and between pieces, mm.
const MARGIN: f64 = 15.0;
/// Height of a line of text, mm.
const LINE: f64 = 9.0;

/// Colour and dashes of the first and the second garment; told apart in black and white too.
const LOOKS: [(&str, &str); 2] = [("#000000", ""), ("#c2410c", "5 2.5")];

/// Both drawings in one picture, whole pieces of one name on the same place, true size in mm.
///
/// # Errors
/// [`Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn overlay(first: (&str, &Drawing), second: (&str, &Drawing)) -> Result<String, Flaw> {
    outline::check(first.1)?;
    outline::check(second.1)?;
    let both = [first.1, second.1].map(|drawing| drawing.pieces.iter().map(Piece::unfolded).collect::<Vec<_>>());
    let more = both[1].iter().filter(|piece| !both[0].iter().any(|own| own.name == piece.name));
    let names: Vec<&str> = both[0].iter().chain(more).map(|piece| piece.name.as_str()).collect();
    let of_name = |name: &str| both.each_ref().map(|pieces| pieces.iter().find(|piece| piece.name == name));
    let boxes: Vec<Rect> = names.iter().filter_map(|name| bounds(of_name(name))).collect();
    let wide: f64 = boxes.iter().map(|b| b.width() + MARGIN).sum();
    let tall = boxes.iter().map(Rect::height).fold(0.0, f64::max);
    let size = Size::new((wide + MARGIN).max(120.0), tall + 3.0 * MARGIN + 2.0 * LINE);
    let described = format!("{} and {} laid over each other, true size in millimetres", first.0, second.0);
    let mut document = document::begin(first.1, &described, None, size);
    let mut left = MARGIN;
    for (name, bounds) in names.iter().zip(&boxes) {
        let shift = Vec2::new(left - bounds.x0, MARGIN + LINE - bounds.y0);
        let mut group = Group::new().add(text(name, left, MARGIN));
        for (piece, look) in of_name(name).into_iter().zip(LOOKS) {
            group =
                piece.and_then(cut_line).into_iter().fold(group, |g, line| g.add(drawn(closed(&line, shift), look)));
        }
        document = document.add(group);
        left += bounds.width() + MARGIN;
    }
    for (i, ((name, _), look)) in [first, second].into_iter().zip(LOOKS).enumerate() {
        let y = tall + 2.0 * MARGIN + LINE * (i as f64 + 1.0);
        let sample = format!("M{} {} L{} {}", number(MARGIN), number(y), number(MARGIN + 20.0), number(y));
        document = document.add(drawn(sample, look)).add(text(name, MARGIN + 24.0, y + 2.5));
    }
    Ok(document::written(&document))
}

fn bounds(pieces: [Option<&Piece>; 2]) -> Option<Rect> {
    pieces.into_iter().flatten().map(Piece::bounds).reduce(|a, b| a.union(b))
}

fn cut_line(piece: &Piece) -> Option<Path> {
    let cut = piece.loops.iter().find(|l| l.role == Role::Cut)?;
    cut.edges.iter().map(|edge| edge.path.clone()).reduce(Path::joined)
}

fn drawn(d: String, (colour, dashes): (&str, &str)) -> Drawn {
    let path = Drawn::new().set("d", d).set("fill", "none").set("stroke", colour).set("stroke-width", "0.6");
    if dashes.is_empty() { path } else { path.set("stroke-dasharray", dashes) }
}

fn text(words: &str, x: f64, y: f64) -> Text {
    Text::new(super::shape::clean(words))
        .set("x", number(x))
        .set("y", number(y))
        .set("font-family", "sans-serif")
        .set("font-size", "7")
        .set("fill", "#000000")
}
