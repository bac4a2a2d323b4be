//! What a sheet's trials and a few remarks come to: the next setting of every edge, what is changed
//! beside it, and the garment that would be.

use super::change::{Change, changes};
use super::next::{Next, next};
use super::remedy::{Conflict, Remedy, Said, solve};
use super::setting::{self, Spot};
use crate::finding::Finding;
use crate::garment::Garment;
use crate::keys::Edges;
use crate::make::record;
use crate::sheet::Sheet;
use crate::stages;

/// Which of the answers the new sheet takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Take {
    /// The best single setting of each edge.
    Proposal,
    /// On the two legs the two settings that teach most; on a single edge what is to be sewn again.
    Pair,
}

/// All of it.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// The next setting of every edge.
    pub next: Vec<Next>,
    /// What is done about each remark.
    pub remedies: Vec<Remedy>,
    /// Remarks that cannot be had at once.
    pub conflicts: Vec<Conflict>,
    /// Everything that the new sheet has otherwise.
    pub changes: Vec<Change>,
    /// With the settings of every edge that was judged, and the remedies.
    pub sheet: Sheet,
    /// What it makes.
    pub garment: Garment,
}

/// Learns from the trials of a sheet, `garment` being what it makes today, and from remarks. What
/// the remarks ask for is laid over the settings that the trials propose.
///
/// # Errors
/// Every reason why the new sheet makes no garment.
pub fn learn(sheet: &Sheet, garment: &Garment, remarks: &[Said], take: Take) -> Result<Lesson, Vec<Finding>> {
    let next = next(sheet, garment);
    let mut settled = sheet.clone();
    // What nobody judged stays, but for the two settings to begin with.
    let is_set = |next: &&Next| !next.judged.is_empty() || (take == Take::Pair && next.pair.is_some());
    for (spot, to) in next.iter().filter(is_set).flat_map(|next| settings(next, take)) {
        settled = setting::set(&settled, garment, spot, to);
    }
    let solved = solve(&settled, remarks)?;
    let plan = stages::plan(sheet)?;
    let changes = changes(sheet, &solved.sheet, &plan, garment);
    let all = |sheet: &Sheet| record(sheet).map_err(|refused| refused.findings);
    let garment = if sheet.variants.is_empty() { solved.garment } else { all(&solved.sheet)? };
    let (remedies, conflicts) = (solved.remedies, solved.conflicts);
    Ok(Lesson { next, remedies, conflicts, changes, sheet: solved.sheet, garment })
}

/// What is sewn next, where it is not so already.
fn settings(next: &Next, take: Take) -> Vec<(Spot, f64)> {
    let pair = next.pair.filter(|_| take == Take::Pair);
    let alone = next.again.filter(|_| take == Take::Pair).unwrap_or(next.proposal);
    let (left, right) = pair.unwrap_or((alone, alone));
    let of = |edge: Edges, to: f64| (Spot { edge, ..next.spot }, to);
    let all = match next.spot.edge {
        Edges::Legs => vec![of(Edges::LeftLeg, left), of(Edges::RightLeg, right)],
        edge => vec![of(edge, alone)],
    };
    let is_new = |(now, (_, to)): &(&f64, (Spot, f64))| (*now - to).abs() >= 0.5 * setting::STEP;
    next.now.iter().zip(all).filter(is_new).map(|(_, setting)| setting).collect()
}
