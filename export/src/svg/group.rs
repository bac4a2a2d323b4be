//! One piece: a named group with a sub-group for each kind of line.

use super::pen::Pen;
use super::shape::{arrow, centred, clean, closed, double_arrow, line, open, text, upwards};
use crate::fit;
use crate::outline::{finished_apart, joined, stitched};
use engine::drawing::{Piece, Role, TextStyle};
use kurbo::{Line, Point, Vec2};
use svg::node::element::{Group, Path, Title};

/// The em of the words at the arrows and the fold, mm.
const LABEL: f64 = 3.0;

/// The sign of the fold stands so far inside it, mm: between the fold and the grain line.
const FOLD_SIGN: f64 = 5.0;

/// A piece at its place on the page.
pub(super) fn piece(piece: &Piece, id: &str, shift: Vec2) -> Group {
    let title = format!("{}, cut {}", piece.name, piece.quantity);
    let mut group = Group::new().set("id", id).add(Title::new(clean(&title)));
    for (pen, paths) in lines(piece, shift) {
        group = group.add(sub_group(id, pen, paths));
    }
    if let Some(fold) = piece.mirror {
        group = group.add(fold_group(id, fold, shift));
    }
    group.add(grain(id, piece.grain, shift)).add(stretch(id, piece.stretch, shift)).add(words(id, piece, shift))
}

/// Every line of the outlines, kind by kind; kinds without a line are left out.
fn lines(piece: &Piece, shift: Vec2) -> Vec<(Pen, Vec<Path>)> {
    let cut = piece.cut().map(|l| closed(&joined(l), shift));
    let sewing = piece.loops.iter().filter(|l| l.role == Role::Sewing).flat_map(|l| stitched(piece, l));
    let sewing = sewing.map(|run| if run.is_closed { closed(&run.path, shift) } else { open(&run.path, shift) });
    let rows = piece.lines.iter().map(|o| (Pen::of(o.role), open(&o.path, shift)));
    let finished = finished_apart(piece).into_iter().map(|e| open(&e.path, shift));
    let slits = piece.notches.iter().map(|n| line(Line::new(n.at, n.at + n.inward * n.depth), shift));
    let all: Vec<(Pen, String)> = (cut.into_iter().map(|d| (Pen::Cut, d)))
        .chain(sewing.map(|d| (Pen::Sewing, d)))
        .chain(rows)
        .chain(finished.map(|d| (Pen::Finished, d)))
        .chain(slits.map(|d| (Pen::Notch, d)))
        .collect();
    Pen::ALL
        .into_iter()
        .map(|pen| (pen, all.iter().filter(|(p, _)| *p == pen).map(|(_, d)| pen.path(d.clone())).collect::<Vec<_>>()))
        .filter(|(_, paths)| !paths.is_empty())
        .collect()
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
