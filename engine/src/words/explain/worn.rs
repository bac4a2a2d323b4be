//! Of getting in and wearing it.

use super::{Entry, entry};

pub(super) const ENTRIES: &[Entry] = &[
    entry(
        "opening.cloth_cannot_pass",
        "The cloth of an opening has to stretch by more than it can to pass over hips or thigh.",
        "(girth passed over)/(opening at rest) − 1, against its stretch along the edge by the fold test.",
        "A stretchier cloth, more ease, or an edge that sits elsewhere.",
    ),
    entry(
        "opening.elastic_cannot_pass",
        "The elastic has to stretch by more than it can to pass over hips or thigh.",
        "(girth passed over)/(opening at rest) − 1, against its `stretch`.",
        "Reduce it less, or take a stretchier elastic.",
    ),
    entry(
        "worn.loose",
        "At rest the edge is longer than the body there: it stands off.",
        "Opening at rest against the girth under it, as measured or as the same draft at zero ease.",
        "Reduce it more, or cut the cloth smaller.",
    ),
    entry(
        "worn.tight",
        "Worn, the edge is stretched by more than half of what it can.",
        "(girth)/(opening at rest) − 1 against half of the stretch of elastic or cloth (common practice).",
        "Reduce it less, and sew a trial / muslin.",
    ),
    entry(
        "worn.pressure",
        "How hard the elastic presses: an indicative average, no medical advice.",
        "P = 2πT/(C·w) after Laplace, T by the pull test; bands of *Anthropometry, Apparel Sizing and Design*, Table 13.5. Sensors read up to 42 % lower (J. Wound Care 30(4), 2021); for the leg edge of a brief no published threshold was found.",
        "Look at the marks after an hour. Deep marks, numbness, tingling or swelling mean loosen it.",
    ),
    entry(
        "worn.pull_test_ends",
        "Worn, the elastic is stretched beyond its pull test: its pressure is unknown.",
        "Worn stretch against the last pair of `pull`.",
        "Carry the pull test on to a larger stretch.",
    ),
];
