//! A step of the order of work, as data. Its sentences are made in `words::work`.

use super::because::Because;
use super::doing::Doing;
use crate::finish::task::{Caution, TaskId};
use crate::stitch::{Needle, Sewing};
use crate::terms::Opening;
use crate::topology::{PieceId, SeamId, Side};

/// One step of the order of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Which one; unique in the garment.
    pub id: StepId,
    /// What is done.
    pub doing: Doing,
    /// Of what is cut or sewn, mm.
    pub length: Option<f64>,
    /// The stitch and what the machine is set to, where something is sewn by machine.
    pub sewing: Option<Sewing>,
    /// The needle for it.
    pub needle: Option<Needle>,
    /// The steps that come first, each with its reason; direct needs only.
    pub needs: Vec<Need>,
    /// What to take care of.
    pub caution: Option<Caution>,
}

/// Why a step waits for another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Need {
    /// The step that comes before.
    pub step: StepId,
    /// The reason.
    pub because: Because,
}

/// A step's identity: where it is done, and which of the things that are done there it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StepId {
    /// Cutting a piece.
    Cut(PieceId),
    /// At the gusset as a whole.
    Gusset(GussetStep),
    /// At a seam.
    Seam(SewnSeam, SeamStep),
    /// At an opening.
    Edge(Opening, EdgeStep),
    /// Looking the pair over.
    LastLook,
}

/// A seam as it is sewn: a gusset seam in one go from leg to leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SewnSeam {
    /// Front to gusset.
    FrontGusset,
    /// Back to gusset.
    BackGusset,
    /// A side seam.
    Side(Side),
}

/// What is done at the gusset beside its seams.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GussetStep {
    /// Front and back rolled up between the layers.
    RolledIn,
    /// Both drawn out again.
    TurnedOut,
    /// The loose end of the lining neatened.
    LiningEndNeatened,
    /// The seams pressed.
    Pressed,
    /// The loose end of the lining tacked down.
    LiningTacked,
    /// Both layers held along the leg edges.
    LayersHeld,
}

/// What is done at a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SeamStep {
    /// Finished edges pinned on each other.
    Aligned,
    /// The seam sewn.
    Sewn,
    /// What stands out trimmed.
    Trimmed,
    /// Raw edges neatened.
    Neatened,
    /// The seam pressed.
    Pressed,
    /// Allowances held down at finished edges.
    Tacked,
}

/// What is done at an opening: making ready what is put on, and the tasks of its finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EdgeStep {
    /// The elastic cut.
    ElasticCut,
    /// Its ends joined to a ring.
    ElasticJoined,
    /// Its marks made.
    ElasticMarked,
    /// The band's ends seamed.
    BandEnds,
    /// The band folded lengthwise.
    BandFolded,
    /// Its marks made.
    BandMarked,
    /// Elastic or band pinned to the edge.
    Pinned,
    /// A task of the finish.
    Task(TaskId),
}

impl StepId {
    /// The step after which a side seam can be worked over.
    pub(super) const fn side_pressed(side: Side) -> Self {
        Self::Seam(SewnSeam::Side(side), SeamStep::Pressed)
    }

    /// The stable name in the record.
    pub fn name(self) -> String {
        match self {
            Self::Cut(piece) => format!("cut {}", piece.name()),
            Self::Gusset(step) => format!("gusset {}", step.name()),
            Self::Seam(line, SeamStep::Sewn) => line.name().to_owned(),
            Self::Seam(line, step) => format!("{} {}", line.name(), step.name()),
            Self::Edge(opening, step) => format!("{} {}", opening.name(), step.name()),
            Self::LastLook => "last look".to_owned(),
        }
    }

    /// The seam, opening or part it is done at, as the record names it; none for cutting and looking.
    pub const fn edge(self) -> Option<&'static str> {
        match self {
            Self::Cut(_) | Self::LastLook => None,
            Self::Gusset(_) => Some("gusset"),
            Self::Seam(line, _) => Some(line.name()),
            Self::Edge(opening, _) => Some(opening.name()),
        }
    }

    /// The opening it is done at.
    pub const fn opening(self) -> Option<Opening> {
        match self {
            Self::Edge(opening, _) => Some(opening),
            _ => None,
        }
    }

    /// The piece it cuts.
    pub const fn piece(self) -> Option<PieceId> {
        match self {
            Self::Cut(piece) => Some(piece),
            _ => None,
        }
    }
}

impl SewnSeam {
    /// The seam's name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FrontGusset => "front gusset seam",
            Self::BackGusset => "back gusset seam",
            Self::Side(side) => SeamId::Side(side).name(),
        }
    }

    /// The seams of the garment that are sewn in one go along it.
    pub const fn parts(self) -> &'static [SeamId] {
        const FRONT: [SeamId; 2] = [SeamId::FrontGusset(Side::Left), SeamId::FrontGusset(Side::Right)];
        const BACK: [SeamId; 2] = [SeamId::BackGusset(Side::Left), SeamId::BackGusset(Side::Right)];
        match self {
            Self::FrontGusset => &FRONT,
            Self::BackGusset => &BACK,
            Self::Side(Side::Left) => &[SeamId::Side(Side::Left)],
            Self::Side(Side::Right) => &[SeamId::Side(Side::Right)],
        }
    }
}

impl GussetStep {
    const fn name(self) -> &'static str {
        match self {
            Self::RolledIn => "rolled in",
            Self::TurnedOut => "turned out",
            Self::LiningEndNeatened => "lining end neatened",
            Self::Pressed => "pressed",
            Self::LiningTacked => "lining tacked",
            Self::LayersHeld => "layers held",
        }
    }
}

impl SeamStep {
    const fn name(self) -> &'static str {
        match self {
            Self::Aligned => "aligned",
            Self::Sewn => "sewn",
            Self::Trimmed => "trimmed",
            Self::Neatened => "neatened",
            Self::Pressed => "pressed",
            Self::Tacked => "tacked",
        }
    }
}

impl EdgeStep {
    const fn name(self) -> &'static str {
        match self {
            Self::ElasticCut => "elastic cut",
            Self::ElasticJoined => "elastic joined",
            Self::ElasticMarked => "elastic marked",
            Self::BandEnds => "band ends",
            Self::BandFolded => "band folded",
            Self::BandMarked => "band marked",
            Self::Pinned => "pinned",
            Self::Task(task) => task.name(),
        }
    }
}
