//! What a picture shows, for those who hear it.

use super::{Speech, listed};
use crate::drawing::{Piece, Role};
use crate::garment::{Garment, Used, Value};
use crate::keys::{Field, Key, Single, style};
use crate::sheet::Sheet;
use crate::terms::Extent;

/// A piece: how it is cut, how large it is, and its edges in order.
pub fn piece(piece: &Piece, say: Speech) -> String {
    let bounds = piece.bounds();
    let (how, width) = match piece.extent {
        Extent::HalfOnFold => ("half, on the fold", 2.0 * bounds.x1),
        Extent::Full => ("whole", bounds.width()),
    };
    let edges = piece.loops.iter().find(|l| l.role == Role::Finished).or(piece.cut());
    let edges: Vec<String> = edges
        .map(|l| l.edges.iter().map(|e| format!("{} {}", e.name, say.tape(e.path.length()))).collect())
        .unwrap_or_default();
    let edges: Vec<&str> = edges.iter().map(String::as_str).collect();
    format!(
        "{}, {how}: {} wide and {} high when it is whole. Clockwise from the top: {}.",
        super::capital(&piece.name),
        say.tape(width),
        say.tape(bounds.height()),
        listed(&edges)
    )
}

/// The pair on the body.
pub fn garment(sheet: &Sheet, garment: &Garment) -> String {
    let say = Speech(sheet.units);
    let mm = |field: Field<Single>| {
        let is_it = |used: &&Used| used.key == Key::from(field);
        match garment.used.iter().find(is_it).map(|used| &used.value) {
            Some(Value::Mm(mm)) => *mm,
            _ => 0.0,
        }
    };
    let depth = |field| match mm(field) {
        depth if depth < 0.0 => format!("{} above", say.tape(-depth)),
        depth => format!("{} below", say.tape(depth)),
    };
    let finishes = garment.openings.iter().map(|walk| (walk.opening.name(), walk.finish.name().to_owned()));
    let finishes = super::together(finishes);
    let finishes: Vec<&str> = finishes.iter().map(String::as_str).collect();
    format!(
        "{}, seen from the front, the side, the back and below. The top edge sits {} the waist level at the centre \
         front, {} it at the sides, {} it at the centre back. The side seams are {} long. Finishes: {}.",
        super::capital(sheet.style.base.name()),
        depth(style::TOP_DROP_FRONT),
        depth(style::TOP_DROP_SIDE),
        depth(style::TOP_DROP_BACK),
        say.tape(mm(style::SIDE_SEAM)),
        listed(&finishes)
    )
}
