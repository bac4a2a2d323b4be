//! What was measured and worked out at an opening, in words.

use super::Speech;
use super::number::fixed;
use crate::elastic::{BandCut, ElasticCut, Ends, Joining, Meeting};
use crate::garment::GirthSource;
use crate::terms::Opening;

/// Something with ends that meet.
pub trait Joined {
    /// How they are joined.
    fn joining(&self) -> &Joining;

    /// What else there is to know before it is cut.
    fn more(&self, _: Speech) -> Vec<String> {
        Vec::new()
    }
}

impl Joined for BandCut {
    fn joining(&self) -> &Joining {
        &self.joining
    }
}

impl Joined for ElasticCut {
    fn joining(&self) -> &Joining {
        &self.joining
    }

    fn more(&self, speech: Speech) -> Vec<String> {
        let growth = self.growth.map(|p| format!("cut {} % short, which it grows in sewing", fixed(p, 1)));
        let in_hand = self.in_hand.map(|mm| {
            let length = speech.tape(mm);
            format!("lay it on flat, without any stretch, and cut it after sewing; have at least {length} in hand")
        });
        growth.into_iter().chain(in_hand).collect()
    }
}

/// How the ends of an elastic or a band are joined.
pub fn joining(cut: &impl Joined, speech: Speech) -> String {
    let mut said = vec![ends(cut.joining(), speech)];
    said.extend(cut.more(speech));
    said.join("; ")
}

fn ends(joining: &Joining, speech: Speech) -> String {
    let at = joining.at.name();
    let mark = match joining.to_first_mark {
        along if along > 0.0 => format!("{} before mark 1", speech.tape(along)),
        _ => "mark 1".to_owned(),
    };
    match joining.ends {
        Ends::Lapped(by) => {
            let by = speech.tool(by);
            format!("joined in a ring, untwisted, ends lapped {by}, {at}, {mark}, away from the seams")
        }
        Ends::ThroughAllowances(width) => {
            let width = speech.tool(width);
            format!("begins and ends {at}, {mark}; run through both seam allowances there, {width} each, unstretched")
        }
        Ends::Seamed => format!("ends seamed {at}, {mark}"),
        Ends::CaughtInSeam => format!("ends caught in the seam {at}, {mark}"),
    }
}

impl Meeting {
    /// Where that is, in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::CentreBack => "at centre back",
            Self::MiddleOfBack => "in the middle of the back",
            Self::RightSideSeam => "at the right side seam",
            Self::SideSeam => "at the side seam",
        }
    }
}

/// Where the girth under an opening comes from.
pub const fn girth_source(source: GirthSource, opening: Opening) -> &'static str {
    match (source, opening) {
        (GirthSource::Measured, Opening::Top) => "measured: top_edge_girth",
        (GirthSource::Measured, _) => "measured: leg_line_girth",
        (GirthSource::DraftAtZeroEase, _) => "the same draft at zero ease",
    }
}
