//! How what is put on is spread along its edge: in full, for the order of work, and in brief, for the card.

use super::{Speech, together};
use crate::topology::SectionId;
use crate::words::number::short;
use crate::work::doing::Spread;

/// As a sentence goes on.
pub(super) fn full(spread: &Spread, speech: Speech) -> String {
    match spread {
        Spread::LaidOn(hand) => format!(
            "take the elastic without any stretch from a length of at least {} in hand, and let it run over the seam \
             allowances at both ends",
            speech.tape(*hand)
        ),
        Spread::Alike(percent) => match Pull::of(*percent) {
            Pull::None => {
                "it is as long as the edge: lay it on from mark to mark, and stretch neither it nor the cloth"
                    .to_owned()
            }
            Pull::Eased => "it is longer than the edge: ease it in from mark to mark".to_owned(),
            Pull::Stretched => format!(
                "stretch it by {} % from mark to mark, until it lies flat, and do not stretch the cloth",
                short(*percent, 1)
            ),
        },
        Spread::BySection(parts) => {
            let taken = |percent: f64| match Pull::of(percent) {
                Pull::None => "lay the elastic on without any stretch".to_owned(),
                Pull::Eased => "ease the elastic in, as it is longer than the edge there".to_owned(),
                Pull::Stretched => format!("stretch the elastic by {} %", short(percent, 1)),
            };
            let along = by_section(parts, taken).join("; along ");
            format!("from mark to mark, along {along}; do not stretch the cloth")
        }
    }
}

/// In as few words as a card has room for.
pub(super) fn brief(spread: &Spread, speech: Speech) -> String {
    match spread {
        Spread::LaidOn(hand) => {
            format!("unstretched, from {} in hand, over the allowances at both ends", speech.tape(*hand))
        }
        Spread::Alike(percent) => match Pull::of(*percent) {
            Pull::None => "stretch nothing".to_owned(),
            Pull::Eased => "ease it in".to_owned(),
            Pull::Stretched => format!("stretch it {} %", short(*percent, 1)),
        },
        Spread::BySection(parts) => {
            let taken = |percent: f64| match Pull::of(percent) {
                Pull::None => "flat".to_owned(),
                Pull::Eased => "eased in".to_owned(),
                Pull::Stretched => format!("stretched {} %", short(percent, 1)),
            };
            by_section(parts, taken).join(", ")
        }
    }
}

/// Sections that are taken alike are said together.
fn by_section(parts: &[(SectionId, f64)], taken: impl Fn(f64) -> String) -> Vec<String> {
    together(parts.iter().map(|(section, percent)| (section.name(), taken(*percent))))
}

/// What hands do with a strip on its way to the needle.
enum Pull {
    None,
    Eased,
    Stretched,
}

impl Pull {
    /// By a stretch in percent; under half of what is shown it is none.
    fn of(percent: f64) -> Self {
        match percent {
            p if p.abs() < 0.05 => Self::None,
            p if p < 0.0 => Self::Eased,
            _ => Self::Stretched,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Units;
    use crate::terms::{Opening, Section};
    use crate::topology::Side::Left;

    fn said(spread: &Spread) -> String {
        full(spread, Speech(Units::Cm))
    }

    #[test]
    fn what_is_not_shortened_is_never_stretched() {
        for spread in [Spread::LaidOn(600.0), Spread::Alike(0.0), Spread::Alike(-0.04), Spread::Alike(-3.0)] {
            let (text, brief) = (said(&spread), brief(&spread, Speech(Units::Cm)));
            assert!(!text.contains("stretch it by") && !text.contains("0.0 %"), "{text}");
            assert!(!brief.contains('%'), "{brief}");
        }
        let of = |section, percent| (SectionId { opening: Opening::LeftLeg, section, side: Left }, percent);
        let parts = vec![of(Section::Front, 0.0), of(Section::Gusset, 0.01), of(Section::Back, 11.11)];
        let text = said(&Spread::BySection(parts));
        assert!(text.contains("along front and gusset lay the elastic on without any stretch; along back stretch the elastic by 11.1 %;"), "{text}");
    }
}
