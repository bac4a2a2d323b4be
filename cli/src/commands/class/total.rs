//! What the whole class prints and buys.

use super::entry::{Entry, Pair};
use super::lay::Laid;
use engine::quantity::Units;
use engine::shopping::{Shopping, cost, sold};
use engine::words::shopping;
use export::cloth::{self, Part};

/// What the whole class prints and buys.
#[derive(Clone, Debug)]
pub(crate) struct Total {
    pub(crate) pages: usize,
    pub(crate) shopping: Shopping,
    pub(crate) cloths: Vec<ClothBuy>,
}

/// All of one cloth, by name and width.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ClothBuy {
    pub(crate) name: String,
    /// mm; none where no sheet says it.
    pub(crate) width: Option<f64>,
    pub(crate) pairs: usize,
    /// Rounded up to what shops sell, mm; none where the width is not known or a piece is wider.
    pub(crate) length: Option<f64>,
    pub(crate) by: By,
    /// Of a metre, or of a yard where shops sell in inches; the dearest, where sheets differ.
    pub(crate) price: Option<f64>,
    /// Of that length.
    pub(crate) cost: Option<f64>,
}

/// How pieces were laid to know how much they take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum By {
    /// Box by box.
    Boxes,
    /// By their outlines.
    Outlines,
}

impl Total {
    /// What all of it costs that has a price, in words.
    pub(crate) fn cost(&self) -> Option<String> {
        let elastics = self.shopping.elastics.iter().map(|e| e.cost);
        shopping::cost(elastics.chain(self.cloths.iter().map(|c| c.cost)))
    }

    pub(super) fn of(entries: &[Entry], laid: &[Laid], units: Units) -> Self {
        let pairs: Vec<&Pair> = entries.iter().filter_map(|e| e.pair.as_ref()).collect();
        Self {
            pages: pairs.iter().map(|p| p.pages).sum(),
            shopping: Shopping::of(pairs.iter().flat_map(|p| std::iter::repeat_n(&p.needs, p.times)), units),
            cloths: cloths(&pairs, laid, units),
        }
    }
}

fn cloths(pairs: &[&Pair], laid: &[Laid], units: Units) -> Vec<ClothBuy> {
    let mut all: Vec<(ClothBuy, Vec<&Part>)> = Vec::new();
    for pair in pairs {
        let mut named: Vec<&str> = pair.cloth.parts.iter().map(|p| p.material.as_str()).collect();
        named.dedup();
        for name in named {
            let own = || pair.cloth.parts.iter().filter(|p| p.material == name);
            let parts = (0..pair.times).flat_map(|_| own());
            let is_it = |(buy, _): &&mut (ClothBuy, Vec<&Part>)| buy.name == name && buy.width == pair.cloth.width;
            match all.iter_mut().find(is_it) {
                Some((buy, laid)) => {
                    buy.pairs += pair.times;
                    buy.price = buy.price.into_iter().chain(pair.cloth.price).reduce(f64::max);
                    laid.extend(parts);
                }
                None => {
                    let (width, by) = (pair.cloth.width, By::Boxes);
                    let buy = ClothBuy {
                        name: name.to_owned(),
                        width,
                        pairs: pair.times,
                        length: None,
                        by,
                        price: pair.cloth.price,
                        cost: None,
                    };
                    all.push((buy, parts.collect()));
                }
            }
        }
    }
    let buy = |(buy, parts): (ClothBuy, Vec<&Part>)| {
        let on_it = laid.iter().map(|laid| &laid.lay).filter(|lay| {
            lay.cloth.name == buy.name && buy.width.is_some_and(|width| (lay.cloth.width - width).abs() < 1e-6)
        });
        if let Some(length) = on_it.map(|lay| lay.length).reduce(|a, b| a + b) {
            return ClothBuy { length: Some(sold(length, units)), by: By::Outlines, ..buy };
        }
        let length = buy.width.and_then(|width| cloth::length(&parts, width).ok()).map(|mm| sold(mm, units));
        ClothBuy { length, ..buy }
    };
    let priced = |buy: ClothBuy| {
        let cost = buy.length.zip(buy.price).map(|(length, price)| cost(length, price, units));
        ClothBuy { cost, ..buy }
    };
    all.into_iter().map(buy).map(priced).collect()
}
