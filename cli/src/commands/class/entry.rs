//! What became of one person.

use crate::people::Reason;
use engine::drawing::Piece;
use engine::garment::Garment;
use engine::lay;
use engine::shopping::Needs;
use engine::terms::Opening;
use export::cloth::Part;

/// What became of one person.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    /// Her row in the table.
    pub(crate) row: usize,
    /// As written.
    pub(crate) name: String,
    /// Her folder inside that of the class.
    pub(crate) folder: String,
    pub(crate) status: Status,
    /// Why nothing was made or written; of what was, what is odd.
    pub(crate) reasons: Vec<Reason>,
    /// What is to be sewn; none where nothing could be made.
    pub(crate) pair: Option<Pair>,
}

/// How it ended for somebody.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Status {
    /// Her pattern is there.
    Done,
    /// It was made, and her files could not be written: what lies in her folder is of before.
    Unwritten,
    /// Her row was understood, and the garment refused.
    Refused,
    /// Her row cannot be read.
    Unreadable,
}

/// What was made for somebody, as far as the whole class wants to know.
#[derive(Clone, Debug)]
pub(crate) struct Pair {
    /// Of what it was made.
    pub(crate) digest: String,
    /// To print, over all her files.
    pub(crate) pages: usize,
    /// Were her files written, or were they there already?
    pub(crate) files: Files,
    pub(crate) base: &'static str,
    /// Of the edges, finished, in the order of [`Opening::ALL`], mm.
    pub(crate) edges: [f64; 3],
    /// So many of it are wanted.
    pub(crate) times: usize,
    /// Of one.
    pub(crate) needs: Needs,
    pub(crate) cloth: Cloth,
}

/// What was done about somebody's files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Files {
    /// Made and written.
    Written,
    /// Nothing changed since the last time.
    Unchanged,
    /// Only looked at.
    None,
}

/// The cloth of a pair.
#[derive(Clone, Debug)]
pub(crate) struct Cloth {
    /// Selvedge to selvedge, mm; none where the sheet does not say.
    pub(crate) width: Option<f64>,
    /// Of a metre, or of a yard.
    pub(crate) price: Option<f64>,
    pub(crate) parts: Vec<Part>,
    /// To be laid with everybody else's, each with its cloth; none where nobody asked for that, or the
    /// width is not known.
    pub(crate) pieces: Vec<(lay::Cloth, Piece)>,
}

impl Status {
    /// The word in the record.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Unwritten => "not written",
            Self::Refused => "refused",
            Self::Unreadable => "unreadable",
        }
    }
}

impl Pair {
    /// The finished length of every edge.
    pub(super) fn edges_of(garment: &Garment) -> [f64; 3] {
        Opening::ALL.map(|opening| {
            garment.openings.iter().find(|walk| walk.opening == opening).map_or(0.0, |walk| walk.finished)
        })
    }
}
