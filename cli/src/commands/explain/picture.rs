//! Which picture goes with a code, a term or a finish: a sketch, an edge cut across, or pieces of the
//! sheet that `new` writes, over the same ones with something changed.

use crate::commands::finishes;
use crate::sheet::read;
use crate::template::commented_sheet;
use engine::Made;
use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::{Length, Units};
use engine::sheet::Sheet;
use export::sketch::{self, Sketch};
use export::svg::overlay;

/// Two garments: pieces of the first solid, of the second dashed.
struct Pieces {
    shown: &'static [&'static str],
    first: Garment,
    second: Garment,
}

/// What it is called, and how it differs from the sheet that `new` writes.
struct Garment(&'static str, fn(&mut Sheet));

enum Picture {
    Sketch(fn() -> Sketch),
    Pieces(Pieces),
}

/// Every picture but those of the finishes.
const PICTURES: &[(&[&str], Picture)] = &[
    (&["reduction", "elastic.cannot_reach_edge"], Picture::Sketch(sketch::reduction)),
    (
        &[
            "worn stretch",
            "worn.tight",
            "worn.loose",
            "worn.pressure",
            "opening.elastic_cannot_pass",
            "opening.cloth_cannot_pass",
        ],
        Picture::Sketch(sketch::worn_stretch),
    ),
    (&["ease", "cloth.reduction_trap"], Picture::Sketch(sketch::ease)),
    (&["stretch"], Picture::Sketch(sketch::fold_test)),
    (&["elastic.flutes"], Picture::Sketch(sketch::flutes)),
    (&["elastic.longer_than_edge"], Picture::Sketch(sketch::waves)),
    (&["finish.fold_on_curve"], Picture::Sketch(sketch::fold_on_a_hollow)),
    (&["quarter marks"], Picture::Sketch(sketch::quarters)),
    (&["notch", "seam", "seam.unequal", "to walk a seam"], Picture::Sketch(sketch::notches)),
    (&["crossing", "shape.foot_angle"], Picture::Sketch(sketch::crossing)),
    (&["gusset.as_worn"], Picture::Sketch(sketch::edging_at_the_gusset)),
    (&["finished edge", "sewing line", "cut line"], Picture::Sketch(sketch::lines)),
    (&["scoop"], Picture::Pieces(SCOOP)),
    (&["cover"], Picture::Pieces(COVER)),
    (&["drop"], Picture::Pieces(DROP)),
    (&["side seam", "shape.side_seam_short", "shape.level_leg", "shape.edges_overlap"], Picture::Pieces(SIDE_SEAM)),
    (&["gusset", "shape.gusset_narrow", "draft.gusset_too_wide"], Picture::Pieces(GUSSET)),
    (&["base"], Picture::Pieces(BASES)),
];

const SCOOP: Pieces = Pieces {
    shown: &["front"],
    first: Garment("front_scoop 0.3", |sheet| sheet.style.front_scoop = Some(0.3)),
    second: Garment("front_scoop 0.6", |sheet| sheet.style.front_scoop = Some(0.6)),
};

const COVER: Pieces = Pieces {
    shown: &["back"],
    first: Garment("back_cover 0.7", |sheet| sheet.style.back_cover = Some(0.7)),
    second: Garment("back_cover 0.4", |sheet| sheet.style.back_cover = Some(0.4)),
};

const DROP: Pieces = Pieces {
    shown: &["front", "back"],
    first: Garment("drops of 8, 7 and 6 cm", |sheet| dropped(sheet, [80, 70, 60], 97)),
    second: Garment("all 3 cm lower, and a shorter side seam", |sheet| dropped(sheet, [110, 100, 90], 67)),
};

const SIDE_SEAM: Pieces = Pieces {
    shown: &["front", "back"],
    first: Garment("side_seam 10 cm", |sheet| sheet.style.side_seam = mm(100)),
    second: Garment("side_seam 5 cm", |sheet| sheet.style.side_seam = mm(50)),
};

const GUSSET: Pieces = Pieces {
    shown: &["gusset", "front", "back"],
    first: Garment("width 6.4 cm", |sheet| sheet.gusset.width = mm(64)),
    second: Garment("width 5 cm", |sheet| sheet.gusset.width = mm(50)),
};

const BASES: Pieces = Pieces {
    shown: &["front", "back"],
    first: Garment("brief", |sheet| with_base(sheet, "brief")),
    second: Garment("tanga", |sheet| with_base(sheet, "tanga")),
};

fn mm(whole: i64) -> Option<Length> {
    Some(Length::from_whole_mm(whole))
}

fn dropped(sheet: &mut Sheet, [front, side, back]: [i64; 3], side_seam: i64) {
    sheet.style.top_drop_front = mm(front);
    sheet.style.top_drop_side = mm(side);
    sheet.style.top_drop_back = mm(back);
    sheet.style.side_seam = mm(side_seam);
}

fn with_base(sheet: &mut Sheet, name: &str) {
    sheet.style.base = Base::named(name).unwrap_or(sheet.style.base);
}

/// The picture of a code, a term or a finish; none where there is none.
pub(super) fn of(name: &str) -> Option<String> {
    if let Some(kind) = FinishKind::named(name) {
        return Some(finishes::picture_of(kind));
    }
    let is_it = |known: &&str| known.eq_ignore_ascii_case(name.trim());
    match PICTURES.iter().find(|(names, _)| names.iter().any(&is_it))? {
        (_, Picture::Sketch(draw)) => Some(draw().written()),
        (_, Picture::Pieces(pieces)) => pieces.drawn(),
    }
}

/// Every name that has one, but for the finishes.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    PICTURES.iter().flat_map(|(names, _)| names.iter().copied())
}

impl Pieces {
    fn drawn(&self) -> Option<String> {
        let [first, second] = [&self.first, &self.second].map(|garment| self.made(garment.1));
        overlay((self.first.0, &first?.drawing), (self.second.0, &second?.drawing)).ok()
    }

    fn made(&self, change: fn(&mut Sheet)) -> Option<Made> {
        let mut sheet = read(&commented_sheet(Units::Cm), "sheet").ok()?;
        sheet.variants.clear();
        change(&mut sheet);
        let mut made = engine::make(&sheet).ok()?;
        made.drawing.pieces.retain(|piece| self.shown.contains(&piece.name.as_str()));
        Some(made)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::words::explain;

    #[test]
    fn every_picture_is_of_something_known_and_can_be_drawn() {
        for name in names() {
            assert!(explain::of(name).is_some(), "{name} is not explained");
            assert!(of(name).is_some_and(|drawn| drawn.contains("<svg")), "{name}");
        }
        assert!(FinishKind::all().all(|kind| of(kind.name()).is_some()));
        assert!(of("body.child").is_none());
    }

    /// What is said to differ does.
    #[test]
    fn two_garments_of_a_picture_are_not_alike() {
        for (names, picture) in PICTURES {
            let Picture::Pieces(pieces) = picture else { continue };
            let [first, second] = [&pieces.first, &pieces.second].map(|g| pieces.made(g.1).unwrap().drawing.pieces);
            assert!(first.len() == pieces.shown.len() && first[0].loops != second[0].loops, "{names:?}");
        }
    }
}
