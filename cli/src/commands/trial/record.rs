//! The answer for programs.

use engine::garment::Value;
use engine::keys::Edges;
use engine::trial::change::Change;
use engine::trial::remedy::{Conflict, Remedy};
use engine::trial::{Contradiction, Lesson, Next};
use engine::words::trial as words;
use export::number::millionth;
use serde_json::{Value as Json, json};

pub(super) fn json(lesson: &Lesson) -> String {
    let of = |next: &Next| next.contradictions.iter().map(|found| contradiction(next, found)).collect::<Vec<_>>();
    let contradictions = lesson.next.iter().flat_map(of);
    let all = json!({
        "version": 1,
        "next": lesson.next.iter().map(next).collect::<Vec<_>>(),
        "remedies": lesson.remedies.iter().map(remedy).collect::<Vec<_>>(),
        "conflicts": lesson.conflicts.iter().map(conflict).chain(contradictions).collect::<Vec<_>>(),
    });
    format!("{all:#}\n")
}

fn next(next: &Next) -> Json {
    // A leg that is finished otherwise than the other one is tried by itself.
    let alone = |leg: Edges| (next.spot.edge == leg).then_some(next.proposal);
    let left = next.pair.map(|pair| pair.0).or(alone(Edges::LeftLeg));
    let right = next.pair.map(|pair| pair.1).or(alone(Edges::RightLeg));
    json!({
        "edge": words::spot(next.spot),
        "low": millionth(next.low),
        "high": millionth(next.high),
        "estimate": millionth(next.estimate),
        "proposal": millionth(next.proposal),
        "converged": next.converged,
        "try_left": left.map(millionth),
        "try_right": right.map(millionth),
        "why": words::why(next),
    })
}

fn remedy(remedy: &Remedy) -> Json {
    json!({
        "remark": remedy.said.remark.row().words,
        "changes": remedy.changes.iter().map(change).collect::<Vec<_>>(),
        "why": if remedy.changes.is_empty() { words::unchanged(remedy).to_owned() } else { words::remedy(remedy) },
    })
}

fn change(change: &Change) -> Json {
    let unit = match change.to {
        Value::Mm(_) => "mm",
        Value::Percent(_) => "%",
        Value::Number(_) => "share",
        Value::Word(_) => "word",
    };
    json!({ "key": words::key(change), "from": worth(&change.from), "to": worth(&change.to), "unit": unit })
}

fn worth(value: &Value) -> Json {
    match value {
        Value::Mm(number) | Value::Percent(number) | Value::Number(number) => json!(millionth(*number)),
        Value::Word(word) => json!(word),
    }
}

fn conflict(conflict: &Conflict) -> Json {
    let remarks = [conflict.one, conflict.other].map(|remark| remark.row().words);
    json!({ "remarks": remarks, "text": words::conflict(conflict) })
}

fn contradiction(next: &Next, found: &Contradiction) -> Json {
    let both = [&found.one, &found.other];
    let to_settle = next.to_settle() == Some(found);
    let retest = next.pair.map(|(left, right)| json!({ "left": millionth(left), "right": millionth(right) }));
    let retest = retest.or_else(|| next.again.map(|setting| json!({ "setting": millionth(setting) })));
    json!({
        "edge": words::spot(next.spot),
        "trials": both.map(|judged| judged.trial),
        "dates": both.map(|judged| &judged.date),
        "settings": both.map(|judged| millionth(judged.setting)),
        "verdicts": both.map(|judged| judged.verdict.name()),
        "refuted": found.refuted.as_ref().map(|refuted| refuted.trial),
        "retest": retest.filter(|_| to_settle),
        "text": words::contradiction(next, found),
    })
}
