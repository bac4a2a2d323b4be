//! The numbers of marks beside their places on a piece: the same as on the elastic.

use super::Number;
use crate::elastic::Mark;
use crate::garment::{EdgeRef, Garment, OpeningWalk, Piece, SectionWalk};
use crate::topology::{Half, MarkPlace, NotchId, PAIR, Side, Way};
use crate::words::piece::numbers;
use kurbo::{Point, Vec2};

/// Places nearer to each other than this are one, mm.
const SAME: f64 = 0.5;

/// A mark on one half of a piece, its other half turned over onto it.
struct Found {
    at: Point,
    inward: Vec2,
    number: usize,
    half: Half,
}

/// Every number on a piece.
pub(super) fn on_piece(piece: &Piece, garment: &Garment) -> Vec<Number> {
    if piece.id.is_band() {
        return on_band(piece, garment);
    }
    let mut found: Vec<Found> = Vec::new();
    for walk in &garment.openings {
        let Some(marks) = pinned(walk, garment) else { continue };
        for (edge, section) in walk.path.iter().zip(&walk.sections).filter(|(edge, _)| edge.piece == piece.id) {
            found.extend(on_edge(piece, *edge, section, walk, marks));
        }
    }
    let mut all: Vec<Number> = Vec::new();
    for here in found.iter().filter(|f| f.half == Half::Plus) {
        let is_here = |f: &&Found| f.at.distance(here.at) < SAME;
        if all.iter().any(|n| n.at.distance(here.at) < SAME && n.text == here.number.to_string()) {
            continue;
        }
        let other = found.iter().filter(|f| f.half == Half::Minus).find(is_here).filter(|_| here.at.x.abs() > SAME);
        all.push(number(piece, here, other.map(|f| f.number)));
    }
    all
}

/// What is pinned to an opening; nothing where nothing is marked: there a number would be looked for in vain.
fn pinned<'a>(walk: &'a OpeningWalk, garment: &Garment) -> Option<&'a [Mark]> {
    if !garment.is_marked(walk.opening) {
        return None;
    }
    let elastic = walk.elastic.as_ref().map(|e| e.marks.as_slice());
    elastic.or(walk.band.as_ref().map(|b| b.marks.as_slice()))
}

/// The marks on one part of an opening; one where two parts meet is on both.
fn on_edge<'a>(
    piece: &'a Piece,
    edge: EdgeRef,
    section: &'a SectionWalk,
    walk: &'a OpeningWalk,
    marks: &'a [Mark],
) -> impl Iterator<Item = Found> {
    let line = edge.path(&piece.sewing).ok();
    marks.iter().filter_map(move |mark| {
        let line = line.as_ref()?;
        let share = match mark.place {
            MarkPlace::Junction(opening, at) if opening == walk.opening && at == section.from => 0.0,
            MarkPlace::Junction(opening, at) if opening == walk.opening && at == section.to => 1.0,
            MarkPlace::Within { section: of, share, .. } if of == section.id => share,
            _ => return None,
        };
        let (at, along) = line.at(share * line.length());
        // Clockwise as seen, the piece lies on the right; the other half is read against that.
        let side = if (edge.way == Way::Back) == (edge.half == Half::Minus) { 1.0 } else { -1.0 };
        let (at, inward) = (at, Vec2::new(-along.y, along.x).normalize() * side);
        let fold = |x: f64| match edge.half {
            Half::Plus => x,
            Half::Minus => -x,
        };
        let (at, inward) = (Point::new(fold(at.x), at.y), Vec2::new(fold(inward.x), inward.y));
        Some(Found { at, inward, number: mark.number, half: edge.half })
    })
}

fn number(piece: &Piece, here: &Found, other: Option<usize>) -> Number {
    let (at, inward) = (here.at, here.inward);
    let drafted = PAIR.pieces.iter().find(|p| p.id == piece.id).map_or(Side::Left, |p| p.drafted);
    let text = match other {
        Some(other) if other != here.number => numbers(here.number, other, drafted),
        _ => here.number.to_string(),
    };
    Number { at, inward, text, halves: other.map(|other| [here.number, other].map(|n| n.to_string())) }
}

/// A band carries its numbers at its notches.
fn on_band(piece: &Piece, garment: &Garment) -> Vec<Number> {
    let mut bands = garment.openings.iter().filter_map(|o| o.band.as_ref());
    let Some(band) = bands.find(|b| b.piece == piece.id) else { return Vec::new() };
    let number = |(n, place): (&crate::garment::Notch, MarkPlace)| {
        let mark = band.marks.iter().find(|m| m.place == place)?;
        Some(Number { at: n.at, inward: n.inward, text: mark.number.to_string(), halves: None })
    };
    let pinned = piece.notches.iter().filter_map(|n| match n.id {
        NotchId::Band { place, .. } => Some((n, place)),
        _ => None,
    });
    pinned.filter_map(number).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::Base;
    use crate::garment::Garment;
    use crate::quantity::Ratio;
    use crate::sheet::Basis;
    use crate::support;
    use crate::terms::{Opening, PutOn};
    use crate::topology::PieceId;

    fn garment(put_on: PutOn, alike: bool) -> Garment {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let mut turned = support::finish("turned", "soft 12");
        turned.put_on = Some(put_on);
        (sheet.finish.top, sheet.finish.left_leg, sheet.finish.right_leg) = (turned.clone(), turned.clone(), turned);
        if !alike {
            sheet.finish.left_leg = support::finish("hem", "");
        }
        crate::record(&sheet).unwrap()
    }

    /// At every notch that something is pinned to stands the number of the mark there, and no mark
    /// is without a number on some piece.
    #[test]
    fn every_mark_has_its_number_on_the_pieces() {
        for (put_on, alike) in [(PutOn::Flat, true), (PutOn::Round, true), (PutOn::Flat, false), (PutOn::Round, false)]
        {
            let garment = garment(put_on, alike);
            for walk in &garment.openings {
                for mark in pinned(walk, &garment).unwrap_or_default() {
                    let stands = |n: &Number| {
                        n.text.split(' ').any(|word| word.trim_start_matches(['L', 'R']) == mark.number.to_string())
                    };
                    let on = |p: &Piece| on_piece(p, &garment).iter().any(stands);
                    assert!(garment.pieces.iter().any(on), "{put_on:?} {:?} {mark:?}", walk.opening);
                }
            }
            for piece in &garment.pieces {
                let numbers = on_piece(piece, &garment);
                for notch in piece.notches.iter().filter(|n| matches!(n.id, NotchId::Opening { .. })) {
                    let near = numbers.iter().filter(|n| n.at.distance(notch.at) < notch.to_stitches + 3.0).count();
                    assert!(near >= 1, "{notch:?} in {numbers:?}");
                }
                for n in &numbers {
                    let inside = piece.bounds().contains(n.at + n.inward * 3.0);
                    assert!(inside, "{n:?} on {:?}", piece.id);
                }
            }
        }
    }

    /// An elastic that is cut after sewing, or threaded through, has no marks; the others keep their numbers.
    #[test]
    fn what_is_never_marked_has_no_numbers() {
        let numbered = |sheet: &crate::sheet::Sheet| -> usize {
            let garment = crate::record(sheet).unwrap();
            garment.pieces.iter().map(|piece| on_piece(piece, &garment).len()).sum()
        };
        let flat = |finish: &str| {
            let mut spec = support::finish(finish, "soft 12");
            spec.put_on = Some(PutOn::Flat);
            spec.basis = Some(Basis::Reduction(Ratio::from_percent(0.0)));
            spec
        };
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.finish = flat("trim").everywhere();
        assert_eq!(numbered(&sheet), 0);
        sheet.finish = support::finish("tunnel", "soft 12").everywhere();
        assert_eq!(numbered(&sheet), 0);
        sheet.finish.top = support::finish("band", "");
        let top_alone = numbered(&sheet);
        sheet.finish = support::finish("band", "").everywhere();
        assert!(0 < top_alone && top_alone < numbered(&sheet), "{top_alone}");
    }

    /// A flat top ends at the right side seam: counting begins there, and goes round by the front.
    #[test]
    fn a_half_piece_says_both_sides_where_they_differ() {
        let garment = garment(PutOn::Flat, true);
        let front = garment.pieces.iter().find(|p| p.id == PieceId::Front).unwrap();
        let texts: Vec<String> = on_piece(front, &garment).into_iter().map(|n| n.text).collect();
        assert!(texts.contains(&"2".to_owned()) && texts.contains(&"L3 R1".to_owned()), "{texts:?}");
        let top = garment.openings.iter().find(|o| o.opening == Opening::Top).unwrap();
        let names: Vec<String> = pinned(top, &garment).unwrap().iter().map(|m| m.place.name()).collect();
        assert_eq!(names, ["right side seam", "centre front", "left side seam", "centre back"]);
    }
}
