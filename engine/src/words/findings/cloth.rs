//! What is said of cloth, thread and elastic.

use crate::finding::fact::{ClothFact, ElasticFact, Way};
use crate::words::Speech;
use crate::words::number::{percent, short};

pub(super) fn text(fact: &ClothFact) -> String {
    match fact {
        ClothFact::LockstitchOnKnit => "a lockstitched seam cracks when the knit stretches".to_owned(),
        ClothFact::ReductionTrap { way, smaller, needed, can } => format!(
            "cloth that is {} smaller than the body {} has to stretch by {} to reach it, and can {}",
            percent(*smaller),
            match way {
                Way::Across => "across",
                Way::Along => "along",
            },
            percent(*needed),
            percent(*can)
        ),
    }
}

pub(super) fn elastic(say: Speech, fact: &ElasticFact) -> String {
    match fact {
        ElasticFact::Latex { name, .. } => {
            format!("the elastic \"{name}\" holds rubber latex, which can cause immediate or delayed allergy")
        }
        ElasticFact::OnChildsSkin { name, .. } => format!("the elastic \"{name}\" lies against a child's skin"),
        ElasticFact::PicotsFolded { name, .. } => {
            format!("the elastic \"{name}\" has picots along one edge, and this finish folds it round the cloth")
        }
        ElasticFact::CannotReachEdge { name, needed, can, .. } => format!(
            "the elastic \"{name}\" has to stretch by {} to reach its edge while it is sewn, and can {}",
            percent(*needed),
            percent(*can)
        ),
        ElasticFact::LongerThanEdge { name, longer, .. } => {
            format!("the elastic \"{name}\" is {} longer than the edge it is sewn to: the edge waves", percent(*longer))
        }
        ElasticFact::WidthInAnotherUnit { name, opening, width, unit: read, .. } => format!(
            "the elastic \"{name}\" is {} wide, unlikely on the {}; read as {} it would be an ordinary one",
            say.tool(*width),
            opening.name(),
            read.plural()
        ),
        ElasticFact::NoSample { names, usual: (least, most) } => format!(
            "how much longer an elastic comes out after sewing is not known for \"{}\"; {} to {} is usual (from memory)",
            names.join("\", \""),
            short(*least, 1),
            percent(*most)
        ),
    }
}
