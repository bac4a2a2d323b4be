//! One cause, one refusal: what else comes of it is listed under it.

use crate::finding::fact::{BodyFact, EdgeFact, ElasticFact, GussetFact, OutlineFact, ShapeFact};
use crate::finding::{Fact, Finding};
use crate::population::Measure;
use crate::terms::{Opening, Section};
use crate::topology::{PieceId, SeamId};

/// Every finding under its cause, if that is among those before it. A cause is as serious as what
/// comes of it.
pub(crate) fn by_cause(found: Vec<Finding>) -> Vec<Finding> {
    let mut causes: Vec<Finding> = Vec::new();
    for finding in found {
        match causes.iter_mut().find(|cause| explains(&cause.fact, &finding.fact)) {
            Some(cause) => cause.add_effect(finding),
            None => causes.push(finding),
        }
    }
    causes
}

/// Does what is done about the one mend the other?
fn explains(cause: &Fact, effect: &Fact) -> bool {
    match (cause, effect) {
        (Fact::Body(BodyFact::OtherUnits { .. }), _)
        | (
            Fact::Elastic(ElasticFact::WidthInAnotherUnit { .. }),
            Fact::Shape(_) | Fact::Gusset(_) | Fact::Outline(_) | Fact::Edge(_),
        ) => true,
        (Fact::Body(BodyFact::OneInAnotherUnit { odd, .. }), effect) => {
            odd.measure != Measure::ThighGirth && is_of_the_drawing(effect)
        }
        (Fact::Body(BodyFact::HipLevelBelowLegs { .. } | BodyFact::HipBelowWaist { .. }), effect) => {
            is_of_the_drawing(effect)
        }

        (Fact::Shape(ShapeFact::SideSeamShort { .. }), Fact::Shape(ShapeFact::SideSeamShort { .. })) => true,
        (Fact::Shape(ShapeFact::SideSeamShort { .. }), Fact::Outline(outline)) => is_of_side(outline),
        (Fact::Gusset(GussetFact::Narrow { .. }), Fact::Outline(outline)) => is_of_gusset(outline),
        (Fact::Gusset(GussetFact::Narrow { .. }), Fact::Edge(EdgeFact::FoldOnCurve { section, .. })) => {
            section.section == Section::Gusset
        }
        (
            Fact::Edge(EdgeFact::FoldOnCurve { section: a, .. }),
            Fact::Edge(EdgeFact::FoldOnCurve { section: b, .. }),
        ) => alike(a.opening, b.opening),
        (
            Fact::Elastic(ElasticFact::CannotReachEdge { opening: a, name: one, .. }),
            Fact::Elastic(ElasticFact::CannotReachEdge { opening: b, name: other, .. }),
        ) => alike(*a, *b) && one == other,
        (
            Fact::Outline(OutlineFact::TooTight { opening: a, .. } | OutlineFact::NoCorner { opening: a, .. }),
            Fact::Outline(OutlineFact::TooTight { opening: b, .. } | OutlineFact::NoCorner { opening: b, .. }),
        ) => alike(*a, *b),
        (Fact::Outline(OutlineFact::EdgesCross { .. }), Fact::Outline(OutlineFact::EdgesCross { .. })) => true,
        (
            Fact::Outline(OutlineFact::OutOfOrder { opening: a, .. }),
            Fact::Outline(OutlineFact::OutOfOrder { opening: b, .. }),
        ) => alike(*a, *b),
        (
            Fact::Outline(OutlineFact::NotSimple { piece: PieceId::Gusset, .. }),
            Fact::Outline(OutlineFact::NotSimple { piece: PieceId::GussetLining, .. }),
        ) => true,
        _ => false,
    }
}

/// Does it follow from the measures of the body?
const fn is_of_the_drawing(fact: &Fact) -> bool {
    matches!(
        fact,
        Fact::Body(BodyFact::HipLevelBelowLegs { .. })
            | Fact::Draft(_)
            | Fact::Shape(_)
            | Fact::Gusset(_)
            | Fact::Outline(_)
            | Fact::Worn(_)
    )
}

/// The same opening, or both legs.
fn alike(a: Opening, b: Opening) -> bool {
    a == b || (a != Opening::Top && b != Opening::Top)
}

const fn is_of_side(outline: &OutlineFact) -> bool {
    matches!(
        outline,
        OutlineFact::NotSimple { piece: PieceId::Front | PieceId::Back, .. }
            | OutlineFact::EdgesCross { .. }
            | OutlineFact::OutOfOrder { piece: PieceId::Front | PieceId::Back, .. }
            | OutlineFact::SeamUnequal { seam: SeamId::Side(_), .. }
    )
}

/// Leg finishes that are too wide for the gusset are so for its neighbours too.
const fn is_of_gusset(outline: &OutlineFact) -> bool {
    matches!(
        outline,
        OutlineFact::NotSimple { .. }
            | OutlineFact::OutOfOrder { .. }
            | OutlineFact::SeamUnequal { seam: SeamId::FrontGusset(_) | SeamId::BackGusset(_), .. }
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::fact::Fault;
    use crate::topology::Side;

    fn codes(found: &[Finding]) -> Vec<&'static str> {
        found.iter().map(|f| f.code).collect()
    }

    #[test]
    fn a_narrow_gusset_explains_the_outlines_and_nothing_else() {
        let not_simple = |piece| OutlineFact::NotSimple { piece, fault: Fault::SewingCrossesItself }.into();
        let found = by_cause(vec![
            GussetFact::Narrow { width: -1.0, least: 10.0 }.into(),
            not_simple(PieceId::Front),
            not_simple(PieceId::Gusset),
            not_simple(PieceId::GussetLining),
            BodyFact::Child.into(),
        ]);
        assert_eq!(codes(&found), ["shape.gusset_narrow", "body.child"]);
        assert_eq!(codes(&found[0].effects), ["outline.not_simple"; 3]);
    }

    #[test]
    fn both_side_seams_are_short_for_one_reason() {
        let short = |side| ShapeFact::SideSeamShort { seam: SeamId::Side(side), length: 4.0, least: 10.0 }.into();
        let found = by_cause(Side::ALL.map(short).to_vec());
        assert_eq!((found.len(), found[0].effects.len()), (1, 1));
    }
}
