//! One piece: a named group with a sub-group for each kind of line.

use super::ids::{slug, unique};
use super::pen::Pen;
use super::shape::{arrow, centred, clean, closed, double_arrow, line, open, started, text, upwards};
use crate::fit;
use crate::outline::{finished_apart, joined, stitched};
use engine::curve::Path as CurvePath;
use engine::drawing::{Loop, Piece, Role, TextStyle};
use kurbo::{Line, Point, Vec2};
use svg::node::element::{Group, Path, Title};

/// The em of the words at the arrows and the fold, mm.
const LABEL: f64 = 3.0;

/// The sign of the fold stands so far inside it, mm: between the fold and the grain line.
const FOLD_SIGN: f64 = 5.0;

/// A piece at its place on the page.
pub(super) fn piece(piece: &Piece, id: &str, shift: Vec2) -> Group {
    let title = format!("{}, cut {}", piece.name, piece.quantity);
    let mut group = Group::new().set("id", id).set("data-piece", clean(&piece.name)).add(Title::new(clean(&title)));
    for pen in Pen::ALL {
        let paths = lines(piece, pen, id, shift);
        if !paths.is_empty() {
            group = group.add(sub_group(id, pen, paths));
        }
    }
    if let Some(fold) = piece.mirror {
        group = group.add(fold_group(id, fold, shift));
    }
    group.add(grain(id, piece.grain, shift)).add(stretch(id, piece.stretch, shift)).add(words(id, piece, shift))
}

/// The lines of one kind: the cut outline as one path that says where its edges start, everything
/// else edge by edge, with the edge's name in the id.
fn lines(piece: &Piece, pen: Pen, id: &str, shift: Vec2) -> Vec<Path> {
    let own = |role: Role| piece.loops.iter().filter(move |l| l.role == role);
    let open = |role: Role| piece.lines.iter().filter(move |o| o.role == role).map(|o| (o.edge.as_str(), &o.path));
    match pen {
        Pen::Cut => own(Role::Cut).map(|l| outline(l, id, shift)).collect(),
        Pen::Sewing => {
            let runs: Vec<_> = own(Role::Sewing).flat_map(|l| stitched(piece, l)).collect();
            let edges = runs.iter().flat_map(|run| &run.edges).map(|e| (e.name.as_str(), &e.path));
            by_edge(edges, pen, id, shift)
        }
        Pen::SecondRow => by_edge(open(Role::SecondRow), pen, id, shift),
        // A band's fold is where the garment ends.
        Pen::Finished => {
            let apart = finished_apart(piece);
            let apart = apart.iter().map(|e| (e.name.as_str(), &e.path));
            by_edge(apart.chain(open(Role::Finished)), pen, id, shift)
        }
        Pen::Notch => {
            let slits = piece.notches.iter().map(|n| line(Line::new(n.at, n.at + n.inward * n.depth), shift));
            slits.map(|d| pen.path(d)).collect()
        }
        Pen::Fold | Pen::Grain | Pen::Stretch => Vec::new(),
    }
}

fn outline(l: &Loop, id: &str, shift: Vec2) -> Path {
    let edges = l.edges.iter().map(|e| (e.name.as_str(), &e.path));
    let names: Vec<String> = edges.map(|(name, path)| started(name, path, shift)).collect();
    let drawn = Pen::Cut.path(closed(&joined(l), shift));
    drawn.set("id", format!("{id}-{}-outline", Pen::Cut.id())).set("data-edges", names.join("; "))
}

fn by_edge<'a>(edges: impl Iterator<Item = (&'a str, &'a CurvePath)>, pen: Pen, id: &str, shift: Vec2) -> Vec<Path> {
    let mut ids: Vec<String> = Vec::new();
    let mut out = Vec::new();
    for (name, path) in edges {
        let own = unique(&format!("{id}-{}-{}", pen.id(), slug(name)), &ids);
        let drawn = pen.path(open(path, shift)).set("id", own.as_str());
        out.push(drawn.set("data-edges", started(name, path, shift)));
        ids.push(own);
    }
    out
}

fn sub_group(id: &str, pen: Pen, paths: impl IntoIterator<Item = Path>) -> Group {
    paths.into_iter().fold(Group::new().set("id", format!("{id}-{}", pen.id())), Group::add)
}

/// A bracket whose arrows point at the fold, and the word.
fn fold_group(id: &str, fold: Line, shift: Vec2) -> Group {
    let (top, bottom) = if fold.p0.y < fold.p1.y { (fold.p0, fold.p1) } else { (fold.p1, fold.p0) };
    let inside = Vec2::new(FOLD_SIGN, 0.0);
    let at = |share: f64| top.lerp(bottom, share);
    let (from, to) = (at(0.3), at(0.7));
    let bar = Line::new(from + inside, to + inside);
    let mut group = sub_group(id, Pen::Fold, [Pen::Fold.path(line(bar, shift))]);
    for foot in [from, to] {
        for drawn in arrow(Pen::Fold, Line::new(foot + inside, foot), shift) {
            group = group.add(drawn);
        }
    }
    // Between the bar and the fold, reading upwards.
    let middle = at(0.5) + Vec2::new(FOLD_SIGN - 1.2, 0.0) + shift;
    group.add(upwards("fold", middle, LABEL))
}

fn grain(id: &str, grain: Line, shift: Vec2) -> Group {
    let group = sub_group(id, Pen::Grain, double_arrow(Pen::Grain, grain, shift));
    // On the left of its line, reading upwards.
    let at = grain.midpoint() + Vec2::new(-1.0, 0.0) + shift;
    group.add(upwards("grain", at, 0.8 * LABEL))
}

fn stretch(id: &str, stretch: Line, shift: Vec2) -> Group {
    let group = sub_group(id, Pen::Stretch, double_arrow(Pen::Stretch, stretch, shift));
    let at: Point = stretch.midpoint() + Vec2::new(0.0, 1.1 * LABEL) + shift;
    group.add(centred("stretch", at, LABEL))
}

fn words(id: &str, piece: &Piece, shift: Vec2) -> Group {
    fit::into_box(&piece.text, piece.text_box).into_iter().fold(
        Group::new().set("id", format!("{id}-text")),
        |group, set| {
            let drawn = text(&set.text, set.at + shift, set.size);
            group.add(if set.style == TextStyle::Title { drawn.set("font-weight", "bold") } else { drawn })
        },
    )
}
