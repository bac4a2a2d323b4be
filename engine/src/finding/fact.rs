//! Every fact that a finding can be made of, one file per subject.

mod about;
mod body;
mod cloth;
mod draft;
mod edge;
mod finish;
mod gusset;
mod outline;
mod shape;
mod work;
mod worn;

pub use body::{BodyFact, Likely, Odd};
pub use cloth::{ClothFact, ElasticFact, Way};
pub use draft::{DraftFact, Part};
pub use edge::EdgeFact;
pub use finish::FinishFact;
pub use gusset::GussetFact;
pub use outline::{Fault, OutlineFact};
pub use shape::ShapeFact;
pub use work::WorkFact;
pub use worn::{Over, WornFact};

pub(super) use about::About;
use about::{note, refusal, warning};

macro_rules! facts {
    ($($variant:ident($fact:ty), $what:literal);+ $(;)?) => {
        /// What was found.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Fact {
            $(#[doc = $what] $variant($fact)),+
        }

        impl Fact {
            /// What follows from it.
            pub(super) fn about(&self) -> About {
                match self {
                    $(Self::$variant(fact) => fact.about()),+
                }
            }
        }

        $(impl From<$fact> for Fact {
            fn from(fact: $fact) -> Self {
                Self::$variant(fact)
            }
        })+
    };
}

facts! {
    Body(BodyFact), "Of the body's measures.";
    Draft(DraftFact), "What cannot be drawn.";
    Shape(ShapeFact), "Of the drawn shape.";
    Gusset(GussetFact), "Of the gusset.";
    Outline(OutlineFact), "Of lines that cannot be cut or sewn.";
    Cloth(ClothFact), "Of cloth and thread.";
    Elastic(ElasticFact), "Of an elastic.";
    Finish(FinishFact), "Of a finish that was asked for.";
    Edge(EdgeFact), "Of an edge that does not lie flat.";
    Worn(WornFact), "Of getting in and wearing it.";
    Work(WorkFact), "Of the order of work.";
}
