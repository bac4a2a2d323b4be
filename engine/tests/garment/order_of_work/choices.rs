//! What a person can choose about how a pair is put together, and sheets for every choice.

use crate::support::numbers::Numbers;
use crate::support::{Measures, finish, ordinary, sheet};
use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Ratio;
use engine::sheet::{Basis, ClothKind, FinishSpec, Lining, Opening, PerOpening, PutOn, SeamKind, Sheet};
use std::sync::LazyLock;

/// Every finish of a sheet, by its word: one that the work table was not taught is refused there.
pub static KINDS: LazyLock<Vec<&str>> = LazyLock::new(|| FinishKind::all().map(|kind| kind.name()).collect());

/// How the gusset's second layer is held, if there is one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layers {
    One,
    Enclosed,
    Tacked,
}

/// How one opening is finished.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edge {
    pub kind: &'static str,
    pub put_on: PutOn,
    /// Percent, of an elastic.
    pub reduction: u8,
}

/// Everything that bears on the order of work.
#[derive(Clone, Debug, PartialEq)]
pub struct Choices {
    pub edges: PerOpening<Edge>,
    pub layers: Layers,
    pub cloth: ClothKind,
    pub seams: SeamKind,
}

impl Edge {
    pub fn has_elastic(&self) -> bool {
        FinishKind::named(self.kind).is_some_and(|kind| kind.takes().elastic())
    }

    /// An elastic that is not shortened is laid on from the length in hand, where its end is free.
    pub fn is_laid_on(&self) -> bool {
        self.has_elastic() && self.put_on == PutOn::Flat && self.reduction == 0
    }

    fn spec(&self, elastic: &str) -> FinishSpec {
        let spec = FinishSpec { put_on: Some(self.put_on), ..finish(self.kind, elastic) };
        if !self.has_elastic() {
            return spec;
        }
        FinishSpec { basis: Some(Basis::Reduction(Ratio::from_percent(f64::from(self.reduction)))), ..spec }
    }
}

impl Choices {
    /// Is this combination impossible by itself, whatever the body: a tunnel on a strip, or a woven
    /// where the edge has to give or would fray?
    pub fn is_impossible(&self) -> bool {
        Opening::ALL.iter().map(|o| self.edges.get(*o)).any(|edge| {
            (edge.kind == "tunnel" && edge.put_on == PutOn::Flat)
                || (self.cloth == ClothKind::Woven && ["hem", "band", "raw"].contains(&edge.kind))
        })
    }

    /// Does the cloth fray at a seam that the seam's own stitch leaves raw?
    pub fn frays(&self) -> bool {
        self.cloth == ClothKind::Woven && self.seams != SeamKind::Overlock
    }

    pub fn sheet(&self) -> Sheet {
        let mut s = match self.cloth {
            ClothKind::Knit => sheet(&ordinary(), base("brief")),
            ClothKind::Woven => woven(),
        };
        s.finish = PerOpening {
            top: self.edges.top.spec("soft 10"),
            left_leg: self.edges.left_leg.spec("soft 8"),
            right_leg: self.edges.right_leg.spec("soft 8"),
        };
        (s.gusset.layers, s.gusset.lining) = match self.layers {
            Layers::One => (Some(1), None),
            Layers::Enclosed => (Some(2), Some(Lining::Enclosed)),
            Layers::Tacked => (Some(2), Some(Lining::Tacked)),
        };
        s.seams.kind = Some(self.seams);
        s
    }

    /// One of all, at random; most woven legs are finished as a woven leg can be.
    pub fn drawn(n: &mut Numbers) -> Self {
        let cloth = *n.pick(&[ClothKind::Knit, ClothKind::Knit, ClothKind::Woven]);
        let edges = PerOpening::from_fn(|opening| {
            let unfolded = cloth == ClothKind::Woven && opening != Opening::Top && n.unit() < 0.8;
            let kinds: &[&'static str] = if unfolded { &["trim", "lapped", "binding"] } else { &KINDS };
            Edge {
                kind: n.pick::<&str>(kinds),
                put_on: *n.pick(&[PutOn::Flat, PutOn::Round]),
                reduction: *n.pick(&[0, 5]),
            }
        });
        Self {
            edges,
            layers: *n.pick(&[Layers::One, Layers::Enclosed, Layers::Tacked]),
            cloth,
            seams: *n.pick(&[SeamKind::Overlock, SeamKind::Zigzag, SeamKind::Lockstitch]),
        }
    }
}

fn base(name: &str) -> Base {
    Base::all().find(|b| b.name() == name).unwrap()
}

/// A woven that passes an even body, with a milder leg.
fn woven() -> Sheet {
    let even = Measures { waist: 900.0, ..ordinary() };
    let mut s = sheet(&even, base("full brief"));
    s.fabric.kind = Some(ClothKind::Woven);
    s.fabric.stretch_across = Ratio::from_percent(6.0);
    s.fabric.stretch_along = Ratio::from_percent(4.0);
    s
}

/// Every finish on every opening, flat or round, every gusset, both cloths: finishes³ · 2³ · 3 · 2. What
/// is left (reductions, kind of seam) is dealt in turn.
pub fn all() -> impl Iterator<Item = Choices> {
    let one = || KINDS.iter().flat_map(|kind| [PutOn::Flat, PutOn::Round].map(move |put_on| (*kind, put_on)));
    let rest = || {
        [Layers::One, Layers::Enclosed, Layers::Tacked]
            .into_iter()
            .flat_map(|layers| [ClothKind::Knit, ClothKind::Woven].map(move |cloth| (layers, cloth)))
    };
    let edges = one().flat_map(move |top| one().flat_map(move |left| one().map(move |right| [top, left, right])));
    edges.flat_map(move |edges| rest().map(move |(layers, cloth)| (edges, layers, cloth))).enumerate().map(
        |(i, ([top, left, right], layers, cloth))| {
            let edge =
                |(kind, put_on), nth: usize| Edge { kind, put_on, reduction: if (i >> nth) & 1 == 0 { 5 } else { 0 } };
            let seams = [SeamKind::Overlock, SeamKind::Zigzag, SeamKind::Lockstitch][i % 3];
            let edges = PerOpening { top: edge(top, 0), left_leg: edge(left, 1), right_leg: edge(right, 2) };
            Choices { edges, layers, cloth, seams }
        },
    )
}
