//! Variants of the same garment: their pieces lie over each other, so that pieces of one name
//! share their place on the paper, and a reader shows one variant at a time.

use super::layer::Layer;
use super::layout::extent;
use engine::drawing::{Drawing, Piece, QuarterTurns, Role, Size, TextStyle, Trials, Variant};
use kurbo::Rect;

/// What may be drawn in one place on the paper.
#[derive(Clone)]
pub(super) struct Place {
    /// Round all of it, in the coordinates that it has in common.
    pub(super) bounds: Rect,
    pub(super) shown: Vec<Drawn>,
}

/// A piece, and the layer that it shows on; none where it always shows.
#[derive(Clone)]
pub(super) struct Drawn {
    pub(super) piece: Piece,
    pub(super) on: Option<Layer>,
    pub(super) shows: Shows,
}

/// What of a piece is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shows {
    /// All of it.
    All,
    /// Its cut line and its name, as those of the first or the second of two garments.
    Outline(usize),
    /// Its lines alone, as those of this size of a table.
    Lines(usize),
    /// What all sizes have in common: words, arrows and the fold.
    Words,
}

fn solid_and_dashed([solid, dashed]: [String; 2]) -> String {
    format!("solid: {solid}, dashed: {dashed}")
}

/// A name that leaves room for another one beside it, at the head of a page.
fn shortened(name: &str) -> String {
    const MOST: usize = 8;
    if name.chars().count() <= MOST {
        return name.to_owned();
    }
    let kept: String = name.chars().take(MOST - 1).collect();
    format!("{}…", kept.trim_end_matches([' ', ',']))
}

/// A drawing with its variants, place by place.
pub(super) struct Overlay {
    /// One piece for every place, with all the lines that may be drawn there.
    pub(super) whole: Drawing,
    /// In the order of those pieces.
    pub(super) places: Vec<Place>,
    /// So many of them, the first ones, are pieces of the sheet itself.
    pub(super) own: usize,
    /// What two garments are called, where their outlines are shown together.
    pub(super) together: Option<[String; 2]>,
}

impl Overlay {
    pub(super) fn of(drawing: &Drawing) -> Self {
        if !drawing.sizes.is_empty() {
            let places = of_sizes(drawing);
            let whole = drawing.with(places.iter().filter_map(merged_sizes).collect(), drawing.variants.clone());
            return Self { whole, places, own: drawing.pieces.len(), together: None };
        }
        let ways = ways(drawing);
        let mut places: Vec<Place> = Vec::new();
        for piece in ways.iter().flat_map(|pieces| pieces.iter()) {
            if !places.iter().any(|place| place.shown.iter().any(|shown| shown.piece.name == piece.name)) {
                places.push(place(&piece.name, &ways));
            }
        }
        let whole = drawing.with(places.iter().filter_map(merged).collect(), drawing.variants.clone());
        Self { whole, places, own: drawing.pieces.len(), together: None }
    }

    /// The outlines of two garments over each other, both shown.
    pub(super) fn together(first: (&str, &Drawing), second: (&str, &Drawing)) -> Self {
        let [pieces, others] = [first.1, second.1].map(outlines);
        let other = Variant { name: second.0.to_owned(), pieces: others };
        let name = solid_and_dashed([first.0, second.0].map(str::to_owned));
        let both = Drawing { name, pieces, variants: vec![other], trials: Trials::default(), ..first.1.clone() };
        let mut overlay = Self::of(&both);
        overlay.whole.variants.clear();
        overlay.own = overlay.places.len();
        let shown = overlay.places.iter_mut().flat_map(|place| &mut place.shown);
        for drawn in shown {
            drawn.on = drawn.on.map(Layer::as_garment);
            drawn.shows = Shows::Outline(if drawn.on == Some(Layer::Garment(1)) { 1 } else { 0 });
        }
        // One name is enough.
        let seconds = overlay.places.iter_mut().flat_map(|place| place.shown.iter_mut().skip(1));
        seconds.for_each(|drawn| drawn.piece.text.clear());
        Self { together: Some([first.0, second.0].map(str::to_owned)), ..overlay }
    }

    /// What stands at the head of a page: of two garments both, if not all of their names.
    pub(super) fn head(&self) -> String {
        let names = self.together.as_ref().map(|names| names.each_ref().map(|name| shortened(name)));
        names.map_or_else(|| self.whole.name.clone(), solid_and_dashed)
    }

    /// The same with every place turned.
    pub(super) fn turned(self, turns: &[QuarterTurns]) -> Self {
        let places = self.places.into_iter().zip(turns);
        let places =
            places.map(|(place, by)| if *by == QuarterTurns::None { place } else { place.turned(*by) }).collect();
        let pieces = self.whole.pieces.into_iter().zip(turns);
        let pieces =
            pieces.map(|(piece, by)| if *by == QuarterTurns::None { piece } else { piece.turned(*by) }).collect();
        Self { whole: Drawing { pieces, ..self.whole }, places, ..self }
    }
}

impl Place {
    pub(super) fn turned(&self, by: QuarterTurns) -> Self {
        let turned = |s: &Drawn| Drawn { piece: s.piece.turned(by), ..*s };
        Self { bounds: by.rect(self.bounds), shown: self.shown.iter().map(turned).collect() }
    }
}

/// Whole pieces with nothing but their cut lines and their names: two halves of one piece may not be
/// folded alike.
fn outlines(drawing: &Drawing) -> Vec<Piece> {
    let outline = |piece: &Piece| {
        let mut piece = piece.unfolded();
        piece.loops.retain(|l| l.role == Role::Cut);
        piece.text.retain(|line| line.style == TextStyle::Title);
        Piece { lines: Vec::new(), notches: Vec::new(), numbers: Vec::new(), ..piece }
    };
    drawing.pieces.iter().map(outline).collect()
}

/// The pieces of every way to make it; first those of the sheet itself.
fn ways(drawing: &Drawing) -> Vec<&[Piece]> {
    let others = drawing.variants.iter().map(|a| a.pieces.as_slice());
    std::iter::once(drawing.pieces.as_slice()).chain(others).collect()
}

fn place(name: &str, ways: &[&[Piece]]) -> Place {
    let named = |pieces: &&[Piece]| pieces.iter().find(|p| p.name == name).cloned();
    let mut shown: Vec<Drawn> = Vec::new();
    for (way, piece) in ways.iter().map(named).enumerate() {
        shown.extend(piece.map(|piece| Drawn { piece, on: Some(Layer::Way(way)), shows: Shows::All }));
    }
    let is_common = shown.len() == ways.len() && shown.iter().all(|s| s.piece == shown[0].piece);
    if is_common {
        shown.truncate(1);
        shown.iter_mut().for_each(|s| s.on = None);
    }
    let boxes = shown.iter().map(|s| extent(&s.piece));
    Place { bounds: boxes.reduce(|a, b| a.union(b)).unwrap_or_default(), shown }
}

/// All lines of a place in one piece, as far as room on paper goes.
fn merged(place: &Place) -> Option<Piece> {
    let (first, others) = place.shown.split_first()?;
    let mut piece = first.piece.clone();
    for Drawn { piece: other, .. } in others {
        piece.loops.extend_from_slice(&other.loops);
        piece.lines.extend_from_slice(&other.lines);
        piece.text_box = piece.text_box.union(other.text_box);
    }
    Some(piece)
}

/// One place for every piece: the words of all sizes, and the lines of each on a layer of its own.
fn of_sizes(drawing: &Drawing) -> Vec<Place> {
    drawing.pieces.iter().map(|piece| place_of_sizes(piece, &drawing.sizes)).collect()
}

fn place_of_sizes(common: &Piece, sizes: &[Size]) -> Place {
    let words = Drawn { piece: common.clone(), on: None, shows: Shows::Words };
    let lines = sizes.iter().enumerate().filter_map(|(n, size)| {
        let piece = size.pieces.iter().find(|p| p.name == common.name)?;
        let piece = Piece { text: Vec::new(), text_box: common.text_box, ..piece.clone() };
        Some(Drawn { piece, on: Some(Layer::Size(n)), shows: Shows::Lines(n) })
    });
    let shown: Vec<Drawn> = std::iter::once(words).chain(lines).collect();
    let boxes = shown.iter().map(|s| extent(&s.piece));
    Place { bounds: boxes.reduce(|a, b| a.union(b)).unwrap_or_default(), shown }
}

/// All lines of a place in one piece: first the largest outline, which a map shows.
fn merged_sizes(place: &Place) -> Option<Piece> {
    let mut piece = place.shown.first()?.piece.clone();
    let mut all: Vec<&Piece> = place.shown.iter().skip(1).map(|s| &s.piece).collect();
    all.sort_by(|a, b| b.bounds().area().total_cmp(&a.bounds().area()));
    piece.loops = all.iter().flat_map(|p| p.loops.iter().cloned()).collect();
    piece.lines = all.iter().flat_map(|p| p.lines.iter().cloned()).collect();
    Some(piece)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_names_go_on_the_head_of_a_page() {
        let drawing = crate::sample::drawing();
        let both = Overlay::together(("Mirela, first pair", &drawing), ("Ragna", &drawing));
        assert_eq!(both.whole.name, "solid: Mirela, first pair, dashed: Ragna");
        assert_eq!(both.head(), "solid: Mirela…, dashed: Ragna");
        assert_eq!(Overlay::of(&drawing).head(), drawing.name);
    }
}
