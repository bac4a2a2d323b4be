//! What is said of what cannot be drawn.

use crate::finding::fact::{DraftFact, Part};
use crate::words::Speech;

pub(super) fn text(say: Speech, fact: &DraftFact) -> String {
    match fact {
        DraftFact::CentreTooShort { part, length, least } => format!(
            "the centre {} would {}, and at least {} can be sewn: the crotch length is too short for this drop of the \
             top edge and this gusset",
            name(*part),
            if *length > 0.0 { format!("be {} long", say.tape(*length)) } else { "have no length".to_owned() },
            say.tape(*least)
        ),
        DraftFact::LegTooLevel { .. } => {
            "no side seam is short enough for the front leg edge to fall towards the gusset".to_owned()
        }
        DraftFact::SideSeam { part, length } => format!(
            "the {} cannot be drawn: a side seam of {} does not reach from the top edge to the hip",
            name(*part),
            say.tape(*length)
        ),
        DraftFact::GussetTooWide { width, most } => format!(
            "a front gusset seam of {} leaves no hollow for the leg in this front: there is room for {}",
            say.tape(*width),
            say.tape(*most)
        ),
        DraftFact::BackLeg { room, least } => format!(
            "the back leg edge would have {}, and needs {}",
            if *room > 0.0 { format!("only {} of room", say.tape(*room)) } else { "no room".to_owned() },
            say.tape(*least)
        ),
        DraftFact::NoSmoothLeg => "no smooth leg edge runs through this gusset".to_owned(),
        DraftFact::GussetEnd { part, width, narrowest } => format!(
            "the gusset's {} width of {} is less than its narrowest width of {}",
            name(*part),
            say.tape(*width),
            say.tape(*narrowest)
        ),
        DraftFact::LegEdgeOutOfReach { wanted, reach: Some((least, most)) } => format!(
            "a leg edge of {} is out of reach: this shape reaches {}",
            say.tape(*wanted),
            say.within(*least, *most)
        ),
        DraftFact::LegEdgeOutOfReach { reach: None, .. } => {
            "no leg edge can be drawn with these measurements".to_owned()
        }
    }
}

const fn name(part: Part) -> &'static str {
    match part {
        Part::Front => "front",
        Part::Back => "back",
    }
}
