//! A garment as it is seen while one of its points is pulled: as much of its drawing as moves.

use crate::draft::Draft;
use crate::drawing::on_body::OnBody;
use crate::drawing::{Piece, plot};
use crate::garment::Garment;
use crate::handle::{self, Handle};
use crate::on_body;
use crate::plan::Plan;

/// Lines of a garment, and what can be pulled.
#[derive(Clone, Debug)]
pub struct Sketch {
    /// Lines and notches of the pieces; nothing is written on them, and no arrow of stretch is drawn.
    pub pieces: Vec<Piece>,
    /// The garment on the body.
    pub on_body: OnBody,
    /// What can be pulled, without which way.
    pub handles: Vec<Handle>,
}

impl Sketch {
    /// In half the time of a drawing: no room is looked for to write in, and what lies on the body is placed
    /// there once for the picture and for the handles.
    pub fn of(plan: &Plan, draft: &Draft, garment: &Garment) -> Self {
        let (on_body, ends) = on_body::with_ends(draft, plan);
        Self {
            pieces: garment.pieces.iter().map(plot::lines).collect(),
            on_body,
            handles: handle::on_garment(draft, ends),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::Piece;
    use crate::{base, stages, support};
    use kurbo::{Line, Point, Rect};

    /// What it shows is what the whole drawing shows.
    #[test]
    fn a_sketch_has_the_lines_of_the_drawing() {
        let base = base::Base::named("brief").unwrap();
        let sheet = support::sheet(&support::ordinary(), base);
        let plan = stages::plan(&sheet).unwrap();
        let draft = stages::draft(&plan).unwrap();
        let cut = stages::cut(&plan, &draft).unwrap();
        let garment = stages::walk(&sheet, &plan, &draft, &cut).unwrap();
        let (sketch, drawing) =
            (Sketch::of(&plan, &draft, &garment), stages::draw(&sheet, &plan, &draft, &garment, &[]));
        let bare = |piece: &Piece| Piece {
            stretch: Line::new(Point::ZERO, Point::ZERO),
            text_box: Rect::ZERO,
            text: Vec::new(),
            numbers: Vec::new(),
            ..piece.clone()
        };
        let both = [&sketch.pieces, &drawing.pieces].map(|all| all.iter().map(bare).collect::<Vec<_>>());
        assert_eq!(both[0], both[1]);
        assert_eq!(format!("{:?}", sketch.on_body), format!("{:?}", drawing.on_body));
        assert_eq!(format!("{:?}", sketch.handles), format!("{:?}", handle::places(&plan, &draft)));
        assert!(sketch.pieces.iter().all(|piece| piece.text.is_empty() && piece.numbers.is_empty()));
    }
}
