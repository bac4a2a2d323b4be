//! What to buy, in words.

use super::{Speech, work};
use crate::quantity::Units;
use crate::shopping::{ElasticBuy, NeedleBuy, ThreadBuy};
use crate::words::number::{fixed, short};

/// A length as a shop sells it: `2.7 m`, or `2 5/8 yd`.
pub fn by_the_metre(mm: f64, units: Units) -> String {
    match units {
        Units::In => {
            let eighths = (mm / (36.0 * 25.4) * 8.0).round() as u64;
            let (whole, rest) = (eighths / 8, eighths % 8);
            let common = 1 << rest.trailing_zeros().min(3);
            match (whole, rest) {
                (_, 0) => format!("{whole} yd"),
                (0, _) => format!("{}/{} yd", rest / common, 8 / common),
                _ => format!("{whole} {}/{} yd", rest / common, 8 / common),
            }
        }
        Units::Cm | Units::Mm => format!("{} m", fixed(mm / 1000.0, 1)),
    }
}

/// An amount of money: whose money, the person knows.
pub fn money(amount: f64) -> String {
    format!("costs {}", fixed(amount, 2))
}

/// What all that has a price costs together; nothing where nothing has one.
pub fn cost(costs: impl IntoIterator<Item = Option<f64>>) -> Option<String> {
    let costs: Vec<Option<f64>> = costs.into_iter().collect();
    let known: Vec<f64> = costs.iter().copied().flatten().collect();
    let rest = costs.len() - known.len();
    let without = if rest == 0 { String::new() } else { ", without what has no price in the sheet".to_owned() };
    (!known.is_empty()).then(|| format!("elastic and cloth together: {}{without}", fixed(known.iter().sum(), 2)))
}

/// `soft 8, 8 mm wide: 2.7 m, costs 3.24`; the cost where the price is known.
pub fn elastic(buy: &ElasticBuy, speech: Speech) -> String {
    let cost = buy.cost.map(|cost| format!(", {}", money(cost))).unwrap_or_default();
    format!("{}, {} wide: {}{cost}", buy.name, speech.tool(buy.width), by_the_metre(buy.length, speech.0))
}

/// What the length of an elastic is made of.
pub fn elastic_parts(buy: &ElasticBuy, speech: Speech) -> String {
    let pairs = if buy.pairs == 1 { "1 pair".to_owned() } else { format!("{} pairs", buy.pairs) };
    let in_hand =
        if buy.in_hand > 0.0 { format!(", {} more in hand", speech.tape(buy.in_hand)) } else { String::new() };
    format!(
        "{pairs}: {} to cut{in_hand}, {} for ends and joins, {} for samples",
        speech.tape(buy.cut),
        speech.tape(buy.waste),
        speech.tape(buy.samples)
    )
}

/// `zigzag (ISO 4915: 304): 53 m of thread`.
pub fn thread(buy: &ThreadBuy, units: Units) -> String {
    format!("{}: {} of thread", work::stitch(buy.stitch), sewn(buy.length, 0, units))
}

/// How the thread is reckoned, and how sure that is.
pub fn thread_parts(buy: &ThreadBuy, units: Units) -> String {
    let ratio = buy.stitch.thread();
    let length = sewn(buy.sewn, 1, units);
    format!("{length} sewn, {} times that ({}) and 15 % over", short(ratio.times, 1), ratio.sure.name())
}

/// `ball point (jersey), 70/10 … : for 20 pairs`.
pub fn needle(buy: &NeedleBuy) -> String {
    let pairs = if buy.pairs == 1 { "1 pair".to_owned() } else { format!("{} pairs", buy.pairs) };
    format!("{}: for {pairs}", work::needle(buy.needle))
}

/// Metres or yards with so many decimals, the last begun one too.
fn sewn(mm: f64, decimals: usize, units: Units) -> String {
    let (of, unit) = match units {
        Units::In => (36.0 * 25.4, "yd"),
        Units::Cm | Units::Mm => (1000.0, "m"),
    };
    let parts = f64::from(10_u32.pow(decimals as u32));
    format!("{} {unit}", short((mm / of * parts - 1e-9).ceil() / parts, decimals))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_on_a_price_tag() {
        assert_eq!(by_the_metre(2700.0, Units::Cm), "2.7 m");
        let yards = |eighths: f64| by_the_metre(eighths * 114.3, Units::In);
        assert_eq!([8.0, 21.0, 4.0, 6.0, 0.0].map(yards), ["1 yd", "2 5/8 yd", "1/2 yd", "3/4 yd", "0 yd"]);
    }
}
