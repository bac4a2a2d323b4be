//! What is said of a finish as it was asked for, and of an edge that does not lie flat.

use crate::finding::fact::{EdgeFact, FinishFact};
use crate::finish::Demand;
use crate::sheet::Basis;
use crate::words::Speech;
use crate::words::number::percent;

pub(super) fn text(say: Speech, fact: &FinishFact) -> String {
    match fact {
        FinishFact::ClothCannot { kind, .. } => {
            format!("a woven cannot be finished with \"{}\": {}", kind.name(), because(kind.demands()))
        }
        FinishFact::RoundOnly { kind, .. } => format!(
            "\"{}\" cannot be put on flat: its fold runs across the seams, so that they have to be closed first",
            kind.name()
        ),
        FinishFact::NoElastic { kind, .. } => format!("\"{}\" needs an elastic", kind.name()),
        FinishFact::UnknownElastic { name, .. } => format!("there is no elastic \"{name}\" in the sheet"),
        FinishFact::TwoSpreads { .. } => {
            "`spread = \"equal\"` folds the elastic in equal parts, and `sections` asks for other parts".to_owned()
        }
        FinishFact::TwoLengths { .. } => {
            "a whole length is given, and a reduction for every section: one contradicts the other".to_owned()
        }
        FinishFact::RestOutOfReach { opening, basis, whole, taken, left, .. } => {
            let key = match basis {
                Basis::Body => "elastic_top",
                Basis::Length(_) | Basis::Reduction(_) => "length",
            };
            let parts = format!(
                "on the {}, the parts with a reduction of their own take {} of the {} that `{key}` gives",
                opening.name(),
                say.tape(*taken),
                say.tape(*whole)
            );
            let rest = whole - taken;
            if rest > 0.0 {
                format!("{parts}: {} is left for {} of edge", say.tape(rest), say.tape(*left))
            } else {
                format!("{parts}: nothing is left for the other {} of edge", say.tape(*left))
            }
        }
        FinishFact::RunsFreely { kind, key, .. } => format!(
            "`{}` asks for parts of their own, and the elastic of a \"{}\" runs freely: it has one stretch all round",
            key.name(),
            kind.name()
        ),
    }
}

/// Why another cloth will not do.
const fn because(demand: Demand) -> &'static str {
    match demand {
        Demand::AnyCloth => "",
        Demand::Knit => "the edge itself has to give, and only a knit does",
        Demand::NoFraying => "its raw edge frays",
    }
}

pub(super) fn edge(fact: &EdgeFact) -> String {
    match fact {
        EdgeFact::FoldOnCurve { section, needed, can, .. } => format!(
            "on the {} of the {}, what is folded in has to stretch by {} to lie on the hollow curve, and the cloth \
             can {}",
            section.name(),
            section.opening.name(),
            percent(*needed),
            percent(*can)
        ),
        EdgeFact::Flutes { section, longer, worn } => format!(
            "the free edge of the elastic is {} longer than the hollow edge that it is sewn to in the {}, and worn it \
             is stretched by {}, so that it flutes",
            percent(*longer),
            section.name(),
            percent(worn.max(0.0))
        ),
    }
}
