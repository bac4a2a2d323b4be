//! How pieces lie on the cloth, in words.

use super::Speech;
use super::number::percent;
use super::shopping::by_the_metre;
use crate::lay::{Lay, LayError, Ways};
use crate::shopping::sold;
use crate::terms::Extent;

impl Speech {
    /// What to buy: the length of the lay, up to what shops sell.
    pub fn cloth_to_buy(self, lay: &Lay) -> String {
        // A thousandth over a full step is not cut off again.
        by_the_metre(sold(lay.length - 1e-3, self.0), self.0)
    }

    /// A lay in one sentence, without a full stop.
    pub fn lay(self, lay: &Lay) -> String {
        let pairs = if lay.pairs == 1 { "1 pair".to_owned() } else { format!("{} pairs", lay.pairs) };
        let ways = ways(std::slice::from_ref(lay));
        format!(
            "{} of {}, {} wide, for {pairs}: {} of it used, whole pieces on one layer at least {} apart, {ways}",
            self.cloth_to_buy(lay),
            lay.cloth.name,
            self.chosen(lay.cloth.width),
            percent(lay.use_percent.round()),
            self.tool(lay.gap),
        )
    }

    /// What pieces of this extent take of their cloths, for the card; nothing where none was laid.
    pub fn cloth_taken(self, lays: &[Lay], extent: Extent) -> String {
        let one = |lay: &Lay| {
            format!("{} of {}, {} wide", self.cloth_to_buy(lay), lay.cloth.name, self.chosen(lay.cloth.width))
        };
        let Some(first) = lays.first() else { return String::new() };
        let of = if first.pairs == 1 { String::new() } else { format!(" for {} pairs", first.pairs) };
        let cloths = lays.iter().map(one).collect::<Vec<_>>().join("; ");
        // The steps speak of a fold, on which pieces take more.
        let fold = match extent {
            Extent::HalfOnFold => "on a fold, or ",
            Extent::Full => "",
        };
        format!(
            "Cloth{of}: {cloths}. Whole pieces on one layer, {}; more {fold}if it shrinks or its end is crooked.",
            ways(lays)
        )
    }

    /// Beside the picture of a lay on the card.
    pub(crate) fn lay_pictured(self, lay: &Lay, extent: Extent) -> Vec<String> {
        let turned = lay.is_any_turned().then(|| "Lighter pieces lie upside down.".to_owned());
        let long = format!("{} long, selvedges left and right.", self.tape(lay.length));
        let whole = (extent == Extent::HalfOnFold).then(|| "Half patterns are turned over at their fold.".to_owned());
        std::iter::once(long).chain(turned).chain(whole).collect()
    }

    /// Why pieces cannot be laid, and what to do.
    pub fn not_laid(self, error: &LayError) -> (String, &'static str) {
        match error {
            LayError::TooWide { piece, needs, width } => (
                format!(
                    "the {piece} is {} wide and the cloth {}: it does not go on it along the grain",
                    self.tape(*needs),
                    self.chosen(*width)
                ),
                "take a wider cloth, and its width for fabric.width in the sheet",
            ),
            LayError::Unsound { piece } => (
                format!("the lay that was found does not keep the gap or the width of the cloth at the {piece}"),
                "report it with the sheet: it is a fault of the program",
            ),
        }
    }
}

/// Which way round pieces lie.
fn ways(lays: &[Lay]) -> &'static str {
    let same = lays.iter().all(|lay| lay.cloth.ways == Ways::One);
    match (same, lays.iter().any(Lay::is_any_turned)) {
        (true, _) => "all the same way up",
        (false, true) => "some turned upside down",
        (false, false) => "none turned",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lay::Cloth;
    use crate::quantity::Units;

    fn lay(length: f64) -> Lay {
        let cloth = Cloth { name: "jersey".to_owned(), width: 1500.0, ways: Ways::Both };
        Lay { cloth, length, use_percent: 70.0, pairs: 1, gap: 5.0, steps: 1, placed: Vec::new() }
    }

    /// Bought as all else is: by tenths of a metre, by eighths of a yard.
    #[test]
    fn cloth_is_bought_as_shops_sell_it() {
        let buy = |mm, units| Speech(units).cloth_to_buy(&lay(mm));
        // 14 5/8 in is more than 3/8 yd, which is 13 1/2.
        assert_eq!(buy(14.625 * 25.4, Units::In), "1/2 yd");
        assert_eq!(buy(13.5 * 25.4, Units::In), "3/8 yd");
        assert_eq!(["0.4 m", "0.3 m"], [301.0, 300.0].map(|mm| buy(mm, Units::Cm)));
    }

    /// The amount is of whole pieces, and whoever folds the cloth is told that it takes more.
    #[test]
    fn the_card_says_how_pieces_lie() {
        let taken = |extent| Speech(Units::Cm).cloth_taken(&[lay(290.0)], extent);
        assert_eq!(
            taken(Extent::HalfOnFold),
            "Cloth: 0.3 m of jersey, 150 cm wide. Whole pieces on one layer, none turned; more on a fold, or if it \
             shrinks or its end is crooked."
        );
        assert!(!taken(Extent::Full).contains("fold"));
        assert_eq!(Speech(Units::Cm).cloth_taken(&[], Extent::Full), "");
    }
}
