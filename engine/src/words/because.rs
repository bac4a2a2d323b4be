//! Why a step waits for another one, in words.

use crate::finish::task::TaskId;
use crate::work::because::Because;

/// The reason, as a clause.
pub fn because(reason: Because) -> &'static str {
    match reason {
        Because::IsCut => "it has to be cut",
        Because::LayersAreCut => "every layer of the seam has to be cut",
        Because::RollsWhileOpen => "front and back can be rolled into the gusset only while their sides are open",
        Because::JoinedBeforeRoll => "the layers are joined at the front before they close round the roll",
        Because::RolledLiesInside => "only what is rolled in lies inside when the second seam closes the layers",
        Because::ClosedBeforeTurning => "both seams have to be closed to lie hidden when it is turned out",
        Because::SewnBeforePressing => "a seam is pressed once it is sewn, before another row crosses it",
        Because::LiesBeforeHeld => "the layers have to lie as they will be worn before they are held",
        Because::NeatenedTogether => "the allowances are neatened together",
        Because::EndInReach => "the loose end is within reach only while the lining is flat",
        Because::TackedWherePressed => "the loose end is tacked to allowances that lie where they stay",
        Because::PinnedLevel => "finished edges that meet in a seam are pinned first, so that none stands higher",
        Because::CaughtBeforeTrimming => "what lies in the seam can only be trimmed when it is caught",
        Because::TrimmedBeforeNeatening => "the edges are neatened as they will lie, after all trimming",
        Because::NothingMoreCutOff => "a seam is pressed when nothing more is cut off it",
        Because::TackedWhereIroned => "the allowances are tacked where the iron laid them",
        Because::CaughtByThisSeam => {
            "what is put on flat is finished while this seam is open, which then catches its ends"
        }
        Because::OneStrip => "put on flat, the top edge is one strip from side seam to side seam: one closed, one open",
        Because::OneRing => "put on round, the opening is a ring, and its fold or stitches run across pressed seams",
        Because::RunsOverGusset => {
            "the leg edge runs over the gusset, whose seams are closed and pressed, and whose layers are one"
        }
        Because::ReadyToPutOn => "what is put on is ready before the edge is worked on",
        Because::MarkedBeforeJoining => "it is marked along a rule while it is a strip, and joined mark on mark",
        Because::MeasuredFromEnd => "the marks are measured from its cut end",
        Because::EndsFoldedWithBand => "the seam of its ends is folded with it",
        Because::NotchesOnEachOther => "the notches of both layers lie on each other once it is folded",
        Because::LaidBeforePinned => "what is folded round the edge is laid before it is pinned",
        Because::SpreadBeforeHeld => "what is put on is spread by its marks before any stitch holds it",
        Because::CutWhereEdgeEnds => "laid on from the length in hand, it is cut where the edge ends",
        Because::HoldsTogether => "a pair that is tried on holds together at all its seams",
        Because::Follows(task) => follows(task),
        Because::AllIsSewn => "the pair is looked over when all of it is sewn",
    }
}

/// Why a task of a finish comes after the one before.
const fn follows(task: TaskId) -> &'static str {
    match task {
        TaskId::Row1 => "the edge has to lie as it will be worn before it is stitched",
        TaskId::Press => "the first row forms the edge that is turned and pressed",
        TaskId::Row2 => "the second row holds what lies as it will be worn",
        TaskId::Thread => "there has to be a tunnel / casing to thread through",
        TaskId::TryOn => "the elastic is drawn in on the body, where it can still be let out",
        TaskId::Join => "once it is joined its length is settled",
        TaskId::Close => "the gap is needed until the elastic is joined",
        TaskId::Fold | TaskId::Baste => "it goes on from the step before",
    }
}
