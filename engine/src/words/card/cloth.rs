//! What the pieces take of their cloth, and how they lie on it.

use crate::curve::Path;
use crate::drawing::card::{Laid, LaidPiece};
use crate::drawing::{Drawing, Piece, QuarterTurns};
use crate::lay::laid::{Lay, Placed, Turn};
use crate::terms::Extent;
use crate::words::Speech;

/// Puts lays onto the card of a drawing.
pub(crate) fn pictured(drawing: &mut Drawing, lays: &[Lay], speech: Speech) {
    let is_folded = drawing.pieces.iter().any(|piece| piece.extent == Extent::HalfOnFold);
    let extent = if is_folded { Extent::HalfOnFold } else { Extent::Full };
    let letters = letters(&drawing.pieces);
    let laid = lays.iter().map(|lay| laid(lay, &drawing.pieces, &letters, (speech, extent))).collect();
    (drawing.card.cloth, drawing.card.lays) = (speech.cloth_taken(lays, extent), laid);
}

fn laid(lay: &Lay, pieces: &[Piece], letters: &[char], (speech, extent): (Speech, Extent)) -> Laid {
    let whole: Vec<Piece> = pieces.iter().map(Piece::unfolded).collect();
    let known = |placed: &Placed| {
        let (piece, letter) = whole.iter().zip(letters).find(|(piece, _)| piece.name == placed.piece)?;
        on_cloth(piece, *letter, placed)
    };
    Laid {
        width: lay.cloth.width,
        length: lay.length,
        pieces: lay.placed.iter().filter_map(known).collect(),
        told: speech.lay_pictured(lay, extent),
    }
}

fn on_cloth(piece: &Piece, letter: char, placed: &Placed) -> Option<LaidPiece> {
    let is_turned = placed.turn == Turn::Half;
    let turned = if is_turned { piece.turned(QuarterTurns::Two) } else { piece.clone() };
    let edges = turned.cut()?.edges.iter().flat_map(|edge| edge.path.segments()).copied();
    let outline = Path::new(edges.collect()).map(|p| p + placed.at.to_vec2());
    Some(LaidPiece { name: piece.name.clone(), letter, outline, is_turned })
}

/// A letter for each piece, the first of a word of its name that is still free.
fn letters(pieces: &[Piece]) -> Vec<char> {
    let mut taken: Vec<char> = Vec::new();
    for piece in pieces {
        let first = piece.name.split(' ').filter_map(|word| word.chars().next()).map(|c| c.to_ascii_uppercase());
        let free = first.chain('A'..='Z').find(|letter| !taken.contains(letter));
        taken.push(free.unwrap_or('*'));
    }
    taken
}

#[cfg(test)]
mod tests {
    use crate::base::Base;
    use crate::lay::{Rules, of_pairs};
    use crate::support;
    use kurbo::Rect;

    /// Every piece of the lay is on the picture, inside its cloth, and those that are turned are told.
    #[test]
    fn the_picture_is_the_lay() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.fabric.width = Some(support::mm(1500.0));
        let mut made = crate::make(&sheet).unwrap();
        assert!(made.drawing.card.lays.is_empty());
        let lays = of_pairs(&made.drawing, &made.drawing, &sheet.fabric, 2, Rules::default(), &mut |_| ()).unwrap();
        made.lay(lays.clone());
        let (laid, lay) = (&made.drawing.card.lays[0], &lays[0]);
        assert_eq!(laid.pieces.len(), lay.placed.len());
        let cloth = Rect::new(0.0, 0.0, laid.width, laid.length).inset(0.01);
        assert!(laid.pieces.iter().all(|piece| cloth.contains_rect(piece.outline.bounds())));
        let turned = laid.pieces.iter().filter(|piece| piece.is_turned).count();
        assert_eq!(turned > 0, lay.is_any_turned());
        assert_eq!(laid.told.len(), 2 + usize::from(turned > 0), "{:?}", laid.told);
        let letters: Vec<char> =
            made.drawing.pieces.iter().zip(super::letters(&made.drawing.pieces)).map(|p| p.1).collect();
        let mut distinct = letters.clone();
        distinct.sort_unstable();
        distinct.dedup();
        assert_eq!(distinct.len(), letters.len(), "{letters:?}");
    }
}
