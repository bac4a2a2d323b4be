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
            Fact::Outline(OutlineFact::TurnsTight { opening: a, .. }),
            Fact::Outline(OutlineFact::TurnsTight { opening: b, .. }),
        ) => alike(*a, *b),
        (
            Fact::Outline(OutlineFact::StripNarrow { openings: a, .. }),
            Fact::Outline(OutlineFact::StripNarrow { openings: b, .. }),
        ) => alike(a[0], b[0]) && alike(a[1], b[1]),
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
            | OutlineFact::StripNarrow { openings: [Opening::Top, _], .. }
            | OutlineFact::SeamUnequal { seam: SeamId::Side(_), .. }
    )
}

/// Leg finishes that are too wide for the gusset are so for its neighbours too.
const fn is_of_gusset(outline: &OutlineFact) -> bool {
    matches!(
        outline,
        OutlineFact::NotSimple { .. }
            | OutlineFact::OutOfOrder { .. }
            | OutlineFact::StripNarrow { openings: [Opening::LeftLeg | Opening::RightLeg, _], .. }
            | OutlineFact::SeamUnequal { seam: SeamId::FrontGusset(_) | SeamId::BackGusset(_), .. }
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Misread;
    use crate::finding::fact::{Fault, Likely, Odd};
    use crate::population::Study;
    use crate::quantity::Units;
    use crate::terms::ClothKind;
    use crate::topology::{SectionId, Side};

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

    /// What a cause explains is known by its code beside that of its effect.
    fn explained(cause: impl Into<Finding>, effect: impl Into<Finding>) -> bool {
        let found = by_cause(vec![cause.into(), effect.into()]);
        found.len() == 1
    }

    #[test]
    fn what_concerns_no_line_is_not_laid_to_a_narrow_gusset() {
        let narrow = || GussetFact::Narrow { width: 5.0, least: 10.0 };
        assert!(!explained(narrow(), OutlineFact::EdgesCross { piece: PieceId::Front }));
        assert!(!explained(narrow(), OutlineFact::NoCorner { piece: PieceId::Front, opening: Opening::Top }));
        let fold = |section, side| EdgeFact::FoldOnCurve {
            section: SectionId { opening: Opening::LeftLeg, section, side },
            needed: 50.0,
            can: 40.0,
            cloth: ClothKind::Knit,
            flat: Vec::new(),
        };
        assert!(explained(narrow(), fold(Section::Gusset, Side::Left)));
        assert!(!explained(narrow(), fold(Section::Front, Side::Left)));
    }

    /// Both legs are sewn alike; the top edge is another one.
    #[test]
    fn one_leg_explains_the_other_and_not_the_top() {
        use Opening::{LeftLeg, RightLeg, Top};
        let out = |opening| OutlineFact::OutOfOrder { piece: PieceId::Front, opening };
        let tight = |opening| OutlineFact::NoCorner { piece: PieceId::Front, opening };
        let fold = |opening| EdgeFact::FoldOnCurve {
            section: SectionId { opening, section: Section::Front, side: Side::Left },
            needed: 50.0,
            can: 40.0,
            cloth: ClothKind::Knit,
            flat: Vec::new(),
        };
        let short = |opening, name: &str| {
            let name = name.to_owned();
            ElasticFact::CannotReachEdge { opening, name, needed: 50.0, can: 40.0 }
        };
        for (a, b, alike) in [
            (LeftLeg, RightLeg, true),
            (RightLeg, LeftLeg, true),
            (Top, Top, true),
            (Top, LeftLeg, false),
            (RightLeg, Top, false),
        ] {
            assert_eq!(explained(out(a), out(b)), alike, "{a:?} and {b:?}");
            assert_eq!(explained(tight(a), tight(b)), alike, "{a:?} and {b:?}");
            assert_eq!(explained(fold(a), fold(b)), alike, "{a:?} and {b:?}");
            assert_eq!(explained(short(a, "soft"), short(b, "soft")), alike, "{a:?} and {b:?}");
        }
        assert!(!explained(short(LeftLeg, "soft"), short(RightLeg, "firm")));
    }

    #[test]
    fn a_short_side_seam_explains_what_crosses_beside_it() {
        let short = || ShapeFact::SideSeamShort { seam: SeamId::Side(Side::Left), length: 4.0, least: 10.0 };
        let not_simple = |piece| OutlineFact::NotSimple { piece, fault: Fault::SewingCrossesItself };
        assert!(explained(short(), not_simple(PieceId::Back)) && explained(short(), not_simple(PieceId::Front)));
        assert!(explained(short(), OutlineFact::EdgesCross { piece: PieceId::Back }));
        assert!(!explained(short(), not_simple(PieceId::Gusset)));
        assert!(!explained(short(), OutlineFact::NoCorner { piece: PieceId::Front, opening: Opening::Top }));
        let crossed = |piece| OutlineFact::EdgesCross { piece };
        assert!(explained(crossed(PieceId::Front), crossed(PieceId::Back)));
        assert!(explained(not_simple(PieceId::Gusset), not_simple(PieceId::GussetLining)));
        assert!(!explained(not_simple(PieceId::Front), not_simple(PieceId::Back)));
    }

    /// A measure in another unit, or a hip below the legs, explains what is drawn by it; a thigh girth draws
    /// nothing, and an elastic of another unit no body.
    #[test]
    fn a_mistaken_number_explains_what_is_made_of_it() {
        let crossed = || OutlineFact::EdgesCross { piece: PieceId::Front };
        let one = |measure| {
            let misread = Misread::MeasuredIn(Units::In);
            let (odd, likely) = (Odd { measure, mm: 300.0 }, Likely { measure, misread, mm: 762.0 });
            BodyFact::OneInAnotherUnit { odd, deviations: -9.0, study: Study::Ansur2, likely }
        };
        assert!(explained(one(Measure::HipGirth), crossed()) && !explained(one(Measure::ThighGirth), crossed()));
        assert!(!explained(one(Measure::HipGirth), BodyFact::Child));
        let below = || BodyFact::HipLevelBelowLegs { depth: 400.0, limit: 350.0 };
        assert!(explained(below(), crossed()) && !explained(below(), BodyFact::Child));
        assert!(explained(one(Measure::HipGirth), below()));
        let whole = BodyFact::OtherUnits { written: Units::Cm, likely: Units::In, odd: Vec::new() };
        assert!(explained(whole, BodyFact::Child));
        let wide = || ElasticFact::WidthInAnotherUnit {
            name: "soft".to_owned(),
            opening: Opening::Top,
            width: 80.0,
            limit: 35.0,
            unit: Units::Mm,
            mm: 8.0,
        };
        assert!(explained(wide(), crossed()) && !explained(wide(), BodyFact::Child));
    }

    #[test]
    fn both_side_seams_are_short_for_one_reason() {
        let short = |side| ShapeFact::SideSeamShort { seam: SeamId::Side(side), length: 4.0, least: 10.0 }.into();
        let found = by_cause(Side::ALL.map(short).to_vec());
        assert_eq!((found.len(), found[0].effects.len()), (1, 1));
    }
}
