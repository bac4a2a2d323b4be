//! What is said of getting in and wearing it.

use crate::finding::fact::{Over, WornFact};
use crate::population::{Comfort, SENSORS_READ_LOWER};
use crate::terms::Opening;
use crate::words::Speech;
use crate::words::number::{fixed, percent};

pub(super) fn text(say: Speech, fact: &WornFact) -> String {
    match fact {
        WornFact::ClothCannotPass { over, needed, can, .. } => passing(say, "cloth", *over, (*needed, *can)),
        WornFact::ElasticCannotPass { over, needed, can } => passing(say, "elastic", *over, (*needed, *can)),
        WornFact::Loose { opening, relaxed, girth, .. } => format!(
            "the {} is {} at rest, longer than the body there ({}): it stands off",
            opening.name(),
            say.tape(*relaxed),
            say.tape(*girth)
        ),
        WornFact::Tight { opening, stretch, most } => format!(
            "worn, the {} is stretched by {}, and half of what it can is {}: it will bite",
            opening.name(),
            percent(*stretch),
            percent(*most)
        ),
        WornFact::PullTestEnds { elastic, stretch, tested, .. } => format!(
            "worn, the elastic \"{elastic}\" is stretched by {}, beyond its pull test, which ends at {}: its pressure \
             is unknown",
            percent(*stretch),
            percent(*tested)
        ),
        WornFact::Pressure { opening, elastic, kpa } => pressure(*opening, elastic, *kpa),
    }
}

fn passing(say: Speech, what: &str, over: Over, (needed, can): (f64, f64)) -> String {
    let part = if over.opening == Opening::Top { "hips" } else { "thigh" };
    format!(
        "the {what} of the {} has to stretch by {} to pass over the {part} ({}), and can {}: it is hard to pull on and its stitches crack",
        over.opening.name(),
        percent(needed),
        say.tape(over.girth),
        percent(can)
    )
}

/// NIST SP 811.
const KPA_PER_MMHG: f64 = 0.133_322;

fn pressure(opening: Opening, elastic: &str, kpa: f64) -> String {
    let leg =
        if opening == Opening::Top { "" } else { "; for the leg edge of a brief no published threshold was found" };
    format!(
        "worn, the elastic \"{elastic}\" presses with about {} kPa ({} mmHg): {} in published bands for knitted \
         wear{leg}. An indicative average with all of its worn width in contact; the cloth's own pull and the body that is \
         no circle are not in it, and sensors read up to {} lower. No medical advice",
        fixed(kpa, 2),
        fixed(kpa / KPA_PER_MMHG, 1),
        felt(Comfort::of(kpa)),
        percent(SENSORS_READ_LOWER)
    )
}

const fn felt(band: Comfort) -> &'static str {
    match band {
        Comfort::Negligible => "negligible",
        Comfort::AllDay => "comfortable all day",
        Comfort::CriticalForCasualWear => "critical for casual wear",
        Comfort::ShapingOnly => "only for shaping or medical wear",
        Comfort::Critical => "critical",
    }
}
