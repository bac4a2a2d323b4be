//! What a remedy can turn, and a sheet with one of them turned.

use super::change::{Change, hem_depth};
use super::setting::{self, Spot, as_set, spec};
use crate::garment::Garment;
use crate::keys::{Edges, Field, Home, Key, Kind, PerEdge, body, fabric, finish, gusset as gusset_keys, style};
use crate::plan::Plan;
use crate::quantity::{Length, Ratio};
use crate::sheet::Sheet;
use crate::terms::{Opening, Reach, Section};

/// Something that can be turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Knob {
    /// How much is sewn on shorter than both legs, %.
    Legs,
    /// The same of the top edge, %.
    Top,
    /// Of a part of both legs, %.
    LegPart(Section),
    /// Of a part of the top edge, %.
    TopPart(Section),
    /// Whether edgings stand out beyond the legs; turned, they do not.
    Reach,
    /// Depth of a hem at the top, mm.
    TopHem,
    /// Ease of the cloth round the body, %.
    Ease,
    /// Depth of the top edge at the centre front, mm.
    DropFront,
    /// At the sides, mm.
    DropSide,
    /// At the centre back, mm.
    DropBack,
    /// Length of the side seam, mm.
    Side,
    /// Of the front leg edge, a share.
    Scoop,
    /// Of the back, a share.
    Cover,
    /// Length of the gusset, mm.
    GussetLength,
    /// All its widths, mm.
    GussetWidth,
    /// How far it reaches in front of the lowest point, mm.
    GussetForward,
}

impl Knob {
    /// Every one, parts of edges as far as a remedy turns them.
    pub const ALL: [Self; 17] = [
        Self::Legs,
        Self::Top,
        Self::LegPart(Section::Front),
        Self::LegPart(Section::Back),
        Self::TopPart(Section::Back),
        Self::Reach,
        Self::TopHem,
        Self::Ease,
        Self::DropFront,
        Self::DropSide,
        Self::DropBack,
        Self::Side,
        Self::Scoop,
        Self::Cover,
        Self::GussetLength,
        Self::GussetWidth,
        Self::GussetForward,
    ];

    /// Is it turned by a length?
    pub const fn is_length(self) -> bool {
        use Knob::{DropBack, DropFront, DropSide, GussetForward, GussetLength, GussetWidth, Side, TopHem};
        matches!(self, TopHem | DropFront | DropSide | DropBack | Side | GussetLength | GussetWidth | GussetForward)
    }

    /// Does turning it write this key?
    pub fn is_of(self, change: &Change) -> bool {
        let key = |known: Key| change.key == known;
        let part = |section: Section| change.section == Some(section);
        let top = || *change.key.home() == Home::Finish(Edges::Top);
        let leg = || matches!(change.key.home(), Home::Finish(edges) if *edges != Edges::Top);
        let named = |field: Field<PerEdge>| change.key.name() == field.name();
        match self {
            Self::Legs => leg() && (named(finish::REDUCTION) || named(finish::LENGTH) || named(finish::SECTIONS)),
            Self::Top => {
                top() && (named(finish::REDUCTION) || named(finish::LENGTH) || named(finish::SECTIONS))
                    || key(body::ELASTIC_TOP.into())
            }
            Self::LegPart(section) => leg() && named(finish::SECTIONS) && part(section),
            Self::TopPart(section) => top() && named(finish::SECTIONS) && part(section),
            Self::Reach => named(finish::REACH),
            Self::TopHem => top() && named(finish::DEPTH),
            Self::Ease => key(fabric::EASE_ACROSS.into()),
            Self::DropFront => key(style::TOP_DROP_FRONT.into()),
            Self::DropSide => key(style::TOP_DROP_SIDE.into()),
            Self::DropBack => key(style::TOP_DROP_BACK.into()),
            Self::Side => key(style::SIDE_SEAM.into()),
            Self::Scoop => key(style::FRONT_SCOOP.into()),
            Self::Cover => key(style::BACK_COVER.into()),
            Self::GussetLength => key(gusset_keys::LENGTH.into()),
            Self::GussetWidth => [gusset_keys::WIDTH, gusset_keys::FRONT_WIDTH, gusset_keys::BACK_WIDTH]
                .into_iter()
                .any(|width| key(width.into())),
            Self::GussetForward => key(gusset_keys::FORWARD.into()),
        }
    }
}

/// Ease is turned between these, %.
const EASE: (f64, f64) = (-15.0, 10.0);

/// Shares are written in so many parts of one.
const SHARES: f64 = 100.0;

/// The sheet with a knob turned by so much, in its own unit; none where the garment has no such knob
/// or it is at its end.
pub(super) fn turned(sheet: &Sheet, (plan, garment): (&Plan, &Garment), knob: Knob, by: f64) -> Option<Sheet> {
    let mut new = sheet.clone();
    let units = sheet.units;
    let length = |now: f64| (by != 0.0).then(|| as_set(now + by, units));
    let share = |now: f64, by: f64, (least, most): (f64, f64)| {
        let to = ((now + by).clamp(least, most) * SHARES).round() / SHARES;
        ((to - now) * SHARES).abs().ge(&0.5).then_some(to)
    };
    let (knobs, gusset) = (&plan.knobs, &plan.gusset);
    match knob {
        Knob::Legs => return shorter(sheet, garment, &[Edges::LeftLeg, Edges::RightLeg], None, by),
        Knob::Top => return shorter(sheet, garment, &[Edges::Top], None, by),
        Knob::LegPart(section) => {
            return shorter(sheet, garment, &[Edges::LeftLeg, Edges::RightLeg], Some(section), by);
        }
        Knob::TopPart(section) => return shorter(sheet, garment, &[Edges::Top], Some(section), by),
        Knob::Reach => return kept(new),
        Knob::TopHem => {
            let spec = &mut new.finish.top;
            if !spec.kind.takes_key(finish::DEPTH) {
                return None;
            }
            spec.depth = Some(length(hem_depth(garment, Opening::Top))?);
        }
        Knob::Ease => {
            let now = 100.0 * plan.cloth.ease_across;
            let to = setting::rounded(now + by).clamp(EASE.0, EASE.1);
            new.fabric.ease_across = (to != now).then(|| Ratio::from_percent(to));
            new.fabric.ease_across?;
        }
        Knob::DropFront => new.style.top_drop_front = Some(length(knobs.drop_front)?),
        Knob::DropSide => new.style.top_drop_side = Some(length(knobs.drop_side)?),
        Knob::DropBack => new.style.top_drop_back = Some(length(knobs.drop_back)?),
        Knob::Side => new.style.side_seam = Some(length(knobs.side_seam)?),
        Knob::Scoop => new.style.front_scoop = Some(share(knobs.scoop, by, range(style::FRONT_SCOOP.row().kind))?),
        Knob::Cover => new.style.back_cover = Some(share(knobs.cover, by, range(style::BACK_COVER.row().kind))?),
        Knob::GussetLength => new.gusset.length = Some(length(gusset.length)?),
        Knob::GussetWidth => {
            new.gusset.width = Some(length(gusset.width)?);
            // Left open, the ends follow by themselves.
            let follow = |end: &mut Option<Length>| *end = end.map(|end| as_set(end.mm() + by, units));
            follow(&mut new.gusset.front_width);
            follow(&mut new.gusset.back_width);
        }
        Knob::GussetForward => {
            new.gusset.forward =
                Some(share(gusset.forward, by / gusset.length, range(gusset_keys::FORWARD.row().kind))?);
        }
    }
    Some(new)
}

const fn range(kind: Kind) -> (f64, f64) {
    match kind {
        Kind::Share(least, most) => (least, most),
        _ => (0.0, 1.0),
    }
}

/// With a shorter or longer elastic or band on some edges, never longer than its line.
fn shorter(sheet: &Sheet, garment: &Garment, edges: &[Edges], part: Option<Section>, by: f64) -> Option<Sheet> {
    let mut new = sheet.clone();
    let mut turned = false;
    for edge in edges {
        let spot = Spot { edge: *edge, section: part };
        let walk = setting::walk(garment, spot.opening())?;
        let free = sheet.finish.get(spot.opening()).kind.takes().runs_freely();
        let Some(now) = setting::of(walk, part).filter(|_| part.is_none() || !free) else { continue };
        let to = setting::rounded(now + by).max(0.0);
        if (to - now).abs() >= 0.5 * setting::STEP {
            new = setting::set(&new, garment, spot, to);
            turned = true;
        }
    }
    turned.then_some(new)
}

/// With edgings that end at the finished edge, where they stood out beyond it.
fn kept(mut sheet: Sheet) -> Option<Sheet> {
    let mut turned = false;
    for leg in [Opening::LeftLeg, Opening::RightLeg] {
        let spec = spec(&mut sheet, leg);
        if spec.reach == Some(Reach::Add) {
            spec.reach = Some(Reach::Keep);
            turned = true;
        }
    }
    turned.then_some(sheet)
}
