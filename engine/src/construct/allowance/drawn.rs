//! Lines that were drawn already: rows and halves share most of them.

use super::{AllowanceError, Beyond, NetEdge, beside};
use crate::curve::Path;
use std::cell::RefCell;
use std::rc::Rc;

/// The lines beside the edges of one draft, each drawn once.
///
/// Two halves that are finished alike share every row, a sewing line is often the measured line as
/// well, and halves that are finished differently still share the lines of their seams.
#[derive(Default)]
pub struct Drawn<'a> {
    /// By edge and distance.
    parallels: RefCell<Vec<(&'a Path, f64, Rc<Path>)>>,
    /// The smallest radius, by edge and side.
    radii: RefCell<Vec<(&'a Path, f64, f64)>>,
    rows: RefCell<Vec<Row<'a>>>,
}

/// A row that was asked for, and what came out.
struct Row<'a> {
    wanted: Vec<Wanted<'a>>,
    drawn: Result<Vec<Path>, AllowanceError>,
}

/// What one edge of a row has to be.
#[derive(Clone, Copy)]
struct Wanted<'a> {
    path: &'a Path,
    distance: f64,
    beyond: Beyond,
}

impl<'a> Wanted<'a> {
    fn of(side: &NetEdge<'a>) -> Self {
        Self { path: side.path, distance: side.distance, beyond: side.beyond }
    }

    /// The very same edge, not only one of the same shape.
    fn is(&self, side: &NetEdge<'a>) -> bool {
        std::ptr::eq(self.path, side.path) && self.distance == side.distance && self.beyond == side.beyond
    }
}

impl<'a> Drawn<'a> {
    /// The lines beside the edges of an open chain, trimmed and joined head to tail.
    ///
    /// The chain's own ends lie on the centre line and are square to it, so they stay as offset.
    ///
    /// # Errors
    /// [`AllowanceError`] where a line turns back on itself or neighbours do not meet.
    pub fn beside(&self, sides: &[NetEdge<'a>]) -> Result<Vec<Path>, AllowanceError> {
        let same =
            |row: &&Row<'a>| row.wanted.len() == sides.len() && row.wanted.iter().zip(sides).all(|(w, s)| w.is(s));
        if let Some(row) = self.rows.borrow().iter().find(same) {
            return row.drawn.clone();
        }
        let drawn = beside(sides, self);
        self.rows.borrow_mut().push(Row { wanted: sides.iter().map(Wanted::of).collect(), drawn: drawn.clone() });
        drawn
    }

    /// As [`Path::offset`].
    pub(super) fn offset(&self, edge: &'a Path, distance: f64) -> Rc<Path> {
        once(&self.parallels, edge, distance, || Rc::new(edge.offset(distance)))
    }

    /// As [`Path::tightest`].
    pub(super) fn tightest(&self, edge: &'a Path, distance: f64) -> f64 {
        once(&self.radii, edge, distance.signum(), || edge.tightest(distance))
    }
}

/// What was found for this very edge and number before, or is found now.
fn once<'a, T: Clone>(known: &RefCell<Vec<(&'a Path, f64, T)>>, edge: &'a Path, at: f64, find: impl Fn() -> T) -> T {
    if let Some((.., found)) = known.borrow().iter().find(|(p, d, _)| std::ptr::eq(*p, edge) && *d == at) {
        return found.clone();
    }
    let found = find();
    known.borrow_mut().push((edge, at, found.clone()));
    found
}
