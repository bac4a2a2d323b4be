//! Layers that are cut after one outline, as one piece: a gusset and its lining.

use super::{Drawing, Piece, TextStyle, Variant};
use crate::topology::PAIR;
use crate::words::piece;

impl Drawing {
    /// The same drawing with every layer that is cut after the outline of another as one with it, its
    /// quantity added: for paper, where one outline serves for both.
    pub fn layers_as_one(&self) -> Self {
        let variant = |v: &Variant| Variant { name: v.name.clone(), pieces: as_one(&v.pieces) };
        self.with(as_one(&self.pieces), self.variants.iter().map(variant).collect())
    }
}

fn as_one(pieces: &[Piece]) -> Vec<Piece> {
    let named = |name: &str| pieces.iter().find(|p| p.name == name);
    let pairs = PAIR.copies.iter().filter_map(|copy| named(copy.of.name()).zip(named(copy.piece.name())));
    let pairs: Vec<(&Piece, &Piece)> = pairs.filter(|(piece, layer)| is_cut_alike(piece, layer)).collect();
    let is_layer = |p: &&Piece| !pairs.iter().any(|(_, layer)| layer.name == p.name);
    let with_layer = |p: &Piece| match pairs.iter().find(|(piece, _)| piece.name == p.name) {
        Some((piece, layer)) => joined(piece, layer),
        None => p.clone(),
    };
    pieces.iter().filter(is_layer).map(with_layer).collect()
}

fn is_cut_alike(a: &Piece, b: &Piece) -> bool {
    (a.extent, &a.loops, &a.lines) == (b.extent, &b.loops, &b.lines)
}

/// One piece for both; it keeps the name by which it is known.
fn joined(piece: &Piece, layer: &Piece) -> Piece {
    let mut both = Piece { quantity: piece.quantity + layer.quantity, ..piece.clone() };
    for line in &mut both.text {
        match line.style {
            TextStyle::Title => line.text = piece::layers(&piece.name, &layer.name),
            TextStyle::Cutting => {
                let of = [piece, layer].map(|p| (p.quantity, p.material.as_str()));
                line.text = piece::cutting_layers(of, piece.extent);
            }
            TextStyle::Pattern | TextStyle::Body => {}
        }
    }
    both
}

#[cfg(test)]
mod tests {
    use crate::base::Base;
    use crate::drawing::{Drawing, TextStyle};
    use crate::support;

    fn drawn(layers: u8) -> Drawing {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.gusset.layers = Some(layers);
        crate::make(&sheet).unwrap().drawing
    }

    #[test]
    fn a_lining_is_cut_by_the_outline_of_its_gusset() {
        let drawing = drawn(2);
        let names = |d: &Drawing| d.pieces.iter().map(|p| (p.name.clone(), p.quantity)).collect::<Vec<_>>();
        let one = |name: &str| (name.to_owned(), 1);
        assert_eq!(names(&drawing), ["front", "back", "gusset", "gusset lining"].map(one));
        let paper = drawing.layers_as_one();
        assert_eq!(names(&paper), [one("front"), one("back"), ("gusset".to_owned(), 2)]);
        let said = |style| paper.pieces[2].text.iter().find(|l| l.style == style).map(|l| l.text.clone()).unwrap();
        assert_eq!(said(TextStyle::Title), "gusset and its lining");
        assert!(said(TextStyle::Cutting).starts_with("cut 2 of "), "{}", said(TextStyle::Cutting));
    }

    #[test]
    fn layers_of_two_cloths_say_both_and_another_outline_stays_apart() {
        let mut drawing = drawn(2);
        drawing.pieces[3].material = "cotton".to_owned();
        let text = &drawing.layers_as_one().pieces[2].text;
        assert!(text.iter().any(|l| l.text.contains("and 1 of cotton")), "{text:?}");
        drawing.pieces[3].loops[0].edges[0].path = drawing.pieces[0].loops[0].edges[0].path.clone();
        assert_eq!(drawing.layers_as_one().pieces.len(), 4);
        assert_eq!(drawn(1).layers_as_one().pieces.len(), 3);
    }
}
