//! What is done at an edge, in words.

use super::{Speech, act, spread};
use crate::finish::task::{Act, TaskId};
use crate::terms::Opening;
use crate::work::doing::{Runs, Spread};

/// A task's name for a title: a finish with one row says which.
pub(super) fn task(id: TaskId, acts: &[Act]) -> &'static str {
    match id {
        TaskId::Row1 if acts.contains(&Act::StitchHem) => "stitch the hem",
        TaskId::Row1 if acts.contains(&Act::StitchFolded) => "sew the elastic on",
        TaskId::Row1 if acts.contains(&Act::LayBand) => "sew the band on",
        TaskId::Row1 if acts.iter().any(|act| matches!(act, Act::StitchTunnel(_))) => "stitch the tunnel / casing",
        TaskId::Fold => "fold",
        TaskId::Baste => "baste the elastic",
        TaskId::Row1 => "sew the first row",
        TaskId::Press => "press",
        TaskId::Row2 => "sew the second row",
        TaskId::Thread => "thread the elastic",
        TaskId::TryOn => "try on",
        TaskId::Join => "join the elastic",
        TaskId::Close => "close the gap",
    }
}

/// Everything a task does, in one sentence.
pub(super) fn task_does(
    speech: Speech,
    opening: Option<Opening>,
    acts: &[Act],
    runs: Option<Runs>,
    spread: Option<&Spread>,
) -> String {
    let said: Vec<_> = acts.iter().map(|one| act::told(*one, opening, speech).full).collect();
    let mut text = match said.as_slice() {
        [before @ .., last] if !before.is_empty() => format!("{}, and {last}", before.join("; ")),
        _ => said.concat(),
    };
    match runs {
        Some(Runs::FromRawEdge(mm)) => {
            text += &format!("; the middle of the row {} from the raw edge", speech.tool(mm));
        }
        Some(Runs::SwingFromRawEdge(mm)) => {
            text += &format!("; the zigzag reaching {} inwards from the raw edge", speech.tool(mm));
        }
        Some(Runs::FromFold(mm)) => text += &format!("; the middle of the row {} from the fold", speech.tool(mm)),
        Some(Runs::FromOuterEdge(mm)) => {
            text += &format!("; the middle of the row {} from the outer edge of the elastic", speech.tool(mm));
        }
        None => {}
    }
    if let Some(spread) = spread {
        text += "; ";
        text += &spread::full(spread, speech);
    }
    text
}
