//! What to buy, for one pair in its record or for many in that of a class.

use super::number::{At, RecordError};
use engine::shopping::{ElasticBuy, Shopping, ThreadBuy};
use engine::words::{Speech, work};
use serde_json::{Value, json};

/// `elastic`, `thread` and `needles`; lengths in mm. The unit is that of the texts.
///
/// # Errors
/// [`RecordError`] names the field that holds something that is no number.
pub fn shopping(shopping: &Shopping, speech: Speech) -> Result<Value, RecordError> {
    let root = At::root(speech);
    let at = root.key("shopping");
    let needles = shopping.needles.iter().map(|n| json!({ "needle": work::needle(n.needle), "pairs": n.pairs }));
    Ok(json!({
        "elastic": shopping.elastics.iter().map(|e| elastic(e, &at)).collect::<Result<Vec<_>, _>>()?,
        "thread": shopping.threads.iter().map(|t| thread(t, &at)).collect::<Result<Vec<_>, _>>()?,
        "needles": needles.collect::<Vec<_>>(),
    }))
}

fn elastic(e: &ElasticBuy, at: &At) -> Result<Value, RecordError> {
    Ok(json!({
        "name": e.name,
        "width_mm": at.key("width_mm").number(e.width)?,
        "pairs": e.pairs,
        "cut_mm": at.key("cut_mm").number(e.cut)?,
        "in_hand_mm": at.key("in_hand_mm").number(e.in_hand)?,
        "waste_mm": at.key("waste_mm").number(e.waste)?,
        "samples_mm": at.key("samples_mm").number(e.samples)?,
        "length_mm": at.key("length_mm").number(e.length)?,
        "price": e.price,
        "cost": e.cost,
    }))
}

fn thread(t: &ThreadBuy, at: &At) -> Result<Value, RecordError> {
    let ratio = t.stitch.thread();
    Ok(json!({
        "stitch": t.stitch.code(),
        "sewn_mm": at.key("sewn_mm").number(t.sewn)?,
        "ratio": ratio.times,
        "ratio_is": ratio.sure.name(),
        "length_mm": at.key("length_mm").number(t.length)?,
    }))
}
