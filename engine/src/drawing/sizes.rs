//! Sizes of one style over each other: what they have in common, and the lines of each.

use super::label::places_among;
use super::{Drawing, Extent, Open, Piece, Size, TextLine, TextStyle};
use crate::words::piece;
use kurbo::{Line, Point, Rect};

impl Drawing {
    /// Sizes over each other under a name, the first one's coordinates for all; none where there is no
    /// size. A gusset and its lining are one piece, as on any paper.
    pub fn nested(name: &str, sizes: &[(&str, &Self)]) -> Option<Self> {
        let sizes: Vec<(&str, Self)> = sizes.iter().map(|(name, drawing)| (*name, drawing.layers_as_one())).collect();
        let (_, first) = sizes.first()?;
        let mut names: Vec<&str> = Vec::new();
        for piece in sizes.iter().flat_map(|(_, drawing)| &drawing.pieces) {
            if !names.contains(&piece.name.as_str()) {
                names.push(&piece.name);
            }
        }
        let alike: Vec<Vec<Option<Piece>>> = names.iter().map(|piece| in_every_size(piece, &sizes)).collect();
        let size = |(at, (name, _)): (usize, &(&str, Self))| Size {
            name: (*name).to_owned(),
            pieces: alike.iter().filter_map(|of_all| of_all.get(at)?.clone()).collect(),
        };
        Some(Self {
            name: name.to_owned(),
            pieces: alike.iter().filter_map(|of_all| common(name, of_all)).collect(),
            variants: Vec::new(),
            sizes: sizes.iter().enumerate().map(size).collect(),
            ..first.clone()
        })
    }
}

/// A piece in every size that has it; whole in all of them where one of them has it whole.
fn in_every_size(name: &str, sizes: &[(&str, Drawing)]) -> Vec<Option<Piece>> {
    let named = |drawing: &Drawing| drawing.pieces.iter().find(|p| p.name == name).cloned();
    let all: Vec<Option<Piece>> = sizes.iter().map(|(_, drawing)| named(drawing)).collect();
    if all.iter().flatten().all(|piece| piece.extent == Extent::HalfOnFold) {
        return all;
    }
    all.into_iter().map(|piece| piece.map(|piece| piece.unfolded())).collect()
}

/// What all sizes of a piece have in common: its words, arrows and numbers, clear of the lines of all.
///
/// Its outlines are those of the first size; the lines of the others are among its open ones.
fn common(pattern: &str, of_all: &[Option<Piece>]) -> Option<Piece> {
    let mut all = of_all.iter().flatten();
    let first = all.next()?.clone();
    let others: Vec<&Piece> = all.collect();
    let text = first.text.iter().filter_map(|line| said_of_all(line, pattern, &others)).collect();
    let (stretch, text_box) = room(&first, &others);
    let lines =
        others.iter().flat_map(|piece| piece.loops.iter().flat_map(|l| l.edges.iter().map(move |e| (l.role, e))));
    let lines = lines.map(|(role, edge)| Open { role, edge: edge.name.clone(), path: edge.path.clone() }).collect();
    Some(Piece { text, stretch, text_box, mirror: fold(&first, &others), notches: Vec::new(), lines, ..first })
}

/// The fold from the highest to the lowest of all sizes.
fn fold(first: &Piece, others: &[&Piece]) -> Option<Line> {
    let all = others.iter().filter_map(|piece| piece.mirror);
    let ends = |line: Line| [line.p0, line.p1];
    let whole = |own: Line| {
        let ys = all.flat_map(ends).chain(ends(own)).map(|p| p.y);
        let (low, high) = ys.fold((own.p0.y, own.p0.y), |(low, high), y| (low.min(y), high.max(y)));
        let (from, to) = if own.p0.y <= own.p1.y { (low, high) } else { (high, low) };
        Line::new(Point::new(own.p0.x, from), Point::new(own.p1.x, to))
    };
    first.mirror.map(whole)
}

/// A line of text as it holds for all sizes, if it does.
fn said_of_all(line: &TextLine, pattern: &str, others: &[&Piece]) -> Option<TextLine> {
    match line.style {
        TextStyle::Pattern => Some(TextLine { style: line.style, text: piece::pattern(pattern, None) }),
        TextStyle::Title => Some(line.clone()),
        TextStyle::Cutting | TextStyle::Body => {
            others.iter().all(|piece| piece.text.contains(line)).then(|| line.clone())
        }
    }
}

/// The arrow of greatest stretch and the box for text, inside the first and clear of the lines of all.
fn room(first: &Piece, others: &[&Piece]) -> (Line, Rect) {
    let outline: Vec<Point> =
        first.cut().into_iter().flat_map(|l| &l.edges).flat_map(|e| e.path.flatten(0.2)).collect();
    let drawn = |piece: &Piece| {
        let edges = piece.loops.iter().flat_map(|l| &l.edges).map(|e| &e.path);
        let paths = edges.chain(piece.lines.iter().map(|o| &o.path));
        let notches = piece.notches.iter().map(|n| vec![n.at, n.at + n.inward * n.depth]);
        paths.map(|path| path.flatten(0.2)).chain(notches).collect::<Vec<_>>()
    };
    let mut lines: Vec<Vec<Point>> = others.iter().copied().chain([first]).flat_map(drawn).collect();
    lines.push(vec![first.grain.p0, first.grain.p1]);
    places_among(&outline, first.bounds(), &lines)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::quantity::Length;
    use crate::support;

    fn drawn(hip: f64) -> Drawing {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        (sheet.body.waist_girth, sheet.body.hip_girth) = (Length::from_mm(hip - 240.0), Length::from_mm(hip));
        crate::make(&sheet).unwrap().drawing
    }

    #[test]
    fn every_size_keeps_its_lines_and_the_words_keep_clear_of_all() {
        let all = [900.0, 960.0, 1020.0, 1080.0].map(drawn);
        let named: Vec<(&str, &Drawing)> = ["36", "40", "44", "48"].into_iter().zip(&all).collect();
        let nest = Drawing::nested("a brief", &named).unwrap();
        assert_eq!(nest.sizes.iter().map(|s| s.name.as_str()).collect::<Vec<_>>(), ["36", "40", "44", "48"]);
        for (size, drawing) in nest.sizes.iter().zip(&all) {
            assert_eq!(size.pieces, drawing.layers_as_one().pieces);
        }
        for (at, piece) in nest.pieces.iter().enumerate() {
            assert!(
                piece.text.iter().any(|l| l.style == TextStyle::Pattern && l.text == "a brief"),
                "{:?}",
                piece.text
            );
            let room = piece.text_box;
            assert!(room.width() > 30.0 && room.height() > 5.0, "{}: {room:?}", piece.name);
            for size in &nest.sizes {
                let paths = size.pieces[at].loops.iter().flat_map(|l| &l.edges).map(|e| &e.path);
                let near = paths.flat_map(|p| p.flatten(0.1)).find(|p| room.contains(*p));
                assert!(near.is_none(), "{} {}: {near:?} in {room:?}", piece.name, size.name);
            }
        }
        assert!(Drawing::nested("none", &[]).is_none());
    }
}
