//! The work table: what hands, needle and iron can do to the cloth that lies there, one step after
//! another. It knows pieces, seams, layers and edges, and what each step needs physically; it knows
//! nothing of how an order is planned.

use super::choices::{Choices, Edge, Layers};
use engine::sheet::{Opening, PutOn};
use std::collections::BTreeSet;

/// A reason why a step cannot be done now.
pub type Refused = Result<(), String>;

fn need(holds: bool, reason: &str) -> Refused {
    if holds { Ok(()) } else { Err(reason.to_owned()) }
}

/// What lies on the table.
pub struct Table<'a> {
    choices: &'a Choices,
    cut: BTreeSet<String>,
    /// Everything done so far, by name. Marks of chalk, pins, folds and stitches all stay.
    done: BTreeSet<String>,
}

const TOP: &str = "top edge";
const LEGS: [(&str, &str); 2] = [("left leg", "left side seam"), ("right leg", "right side seam")];
const SIDES: [&str; 2] = ["left side seam", "right side seam"];
const GUSSET_SEAMS: [&str; 2] = ["front gusset seam", "back gusset seam"];

/// Does the whole work, and looks at the pair.
pub fn sewn<'n>(choices: &Choices, steps: impl Iterator<Item = &'n str>) -> Refused {
    let mut table = Table { choices, cut: BTreeSet::new(), done: BTreeSet::new() };
    for step in steps {
        table.take(step).map_err(|reason| format!("{step}: {reason}"))?;
    }
    table.is_pair()
}

impl Table<'_> {
    fn has(&self, step: &str) -> bool {
        self.done.contains(step)
    }

    fn edge(&self, name: &str) -> &Edge {
        let opening = Opening::ALL.into_iter().find(|o| o.name() == name).expect("one of the three");
        self.choices.edges.get(opening)
    }

    fn take(&mut self, step: &str) -> Refused {
        need(!self.has(step), "done already")?;
        need(!self.has("last look"), "after the last look")?;
        if let Some(piece) = step.strip_prefix("cut ") {
            self.cut.insert(piece.to_owned());
        } else if step == "last look" {
            self.is_sewn()?;
        } else if step.starts_with("gusset") || GUSSET_SEAMS.iter().any(|s| step.starts_with(s)) {
            self.at_gusset(step)?;
        } else if let Some((seam, what)) = split(step, &SIDES) {
            self.at_side(seam, what)?;
        } else if let Some((edge, what)) = split(step, &[TOP, "left leg", "right leg"]) {
            self.at_edge(edge, what)?;
        } else {
            return Err("nobody knows what this is".to_owned());
        }
        self.done.insert(step.to_owned());
        Ok(())
    }

    fn are_cut(&self, pieces: &[&str]) -> Refused {
        pieces.iter().try_for_each(|p| need(self.cut.contains(*p), &format!("the {p} is not cut")))
    }

    // The gusset.

    fn at_gusset(&self, step: &str) -> Refused {
        let layers = self.choices.layers;
        match step {
            "front gusset seam" => {
                self.are_cut(&["front", "gusset"])?;
                if layers == Layers::Enclosed {
                    self.are_cut(&["gusset lining"])?;
                }
                need(!self.has("gusset rolled in") || layers != Layers::Enclosed, "the front is in the roll")
            }
            "gusset rolled in" => {
                need(layers == Layers::Enclosed, "there is nothing to roll in")?;
                self.are_cut(&["back"])?;
                need(self.has("front gusset seam"), "front and layers are not joined: the roll falls out")?;
                need(SIDES.iter().all(|s| !self.has(s)), "front and back are joined at a side: they do not roll up")
            }
            "back gusset seam" => {
                self.are_cut(&["back", "gusset"])?;
                if layers != Layers::One {
                    self.are_cut(&["gusset lining"])?;
                }
                need(layers != Layers::Enclosed || self.has("gusset rolled in"), "the front is in the way")
            }
            "gusset turned out" => {
                need(self.has("gusset rolled in") && self.has("back gusset seam"), "nothing to turn out")
            }
            "gusset lining end neatened" => {
                need(layers == Layers::Tacked, "no end is loose")?;
                self.are_cut(&["gusset lining"])?;
                need(!self.has("back gusset seam"), "the lining is not flat any more")
            }
            "front gusset seam neatened" | "back gusset seam neatened" => {
                let seam = step.trim_end_matches(" neatened");
                need(self.has(seam), "there is no seam to neaten")?;
                need(!self.is_hidden(seam), "the allowances lie between the layers")?;
                need(!self.has("gusset pressed"), "the allowances are pressed down already")
            }
            "gusset pressed" => self.gusset_can_be_pressed(),
            "gusset lining tacked" => {
                need(layers == Layers::Tacked, "no end is loose")?;
                need(self.has("gusset pressed"), "the allowances do not lie yet")
            }
            "gusset layers held" => {
                need(layers != Layers::One, "there is one layer")?;
                need(self.has("gusset pressed"), "the layers do not lie flat")?;
                need(layers != Layers::Tacked || self.has("gusset lining tacked"), "the loose end can shift")?;
                need(LEGS.iter().all(|(leg, _)| !self.is_begun(leg)), "a leg edge is begun: its raw edge is gone")
            }
            _ => Err("nobody knows what this is".to_owned()),
        }
    }

    /// Do the allowances of a gusset seam lie between two layers?
    fn is_hidden(&self, seam: &str) -> bool {
        match self.choices.layers {
            Layers::One => false,
            Layers::Enclosed => true,
            Layers::Tacked => seam == "back gusset seam",
        }
    }

    fn gusset_can_be_pressed(&self) -> Refused {
        need(GUSSET_SEAMS.iter().all(|s| self.has(s)), "a gusset seam is open")?;
        need(self.choices.layers != Layers::Enclosed || self.has("gusset turned out"), "it is inside out")?;
        GUSSET_SEAMS.iter().try_for_each(|s| self.is_neat(s, "an allowance frays, and will be out of reach"))
    }

    fn is_neat(&self, seam: &str, reason: &str) -> Refused {
        need(!self.choices.frays() || self.is_hidden_seam(seam) || self.has(&format!("{seam} neatened")), reason)
    }

    fn is_hidden_seam(&self, seam: &str) -> bool {
        GUSSET_SEAMS.contains(&seam) && self.is_hidden(seam)
    }

    // Side seams.

    /// The flat edges whose ends lie in a side seam: by the program's rule a flat top ends on the right.
    fn caught(&self, seam: &str) -> Vec<&'static str> {
        let all = [("left leg", "left side seam"), (TOP, "right side seam"), ("right leg", "right side seam")];
        let ends_here = all.iter().filter(|(_, s)| *s == seam).map(|(edge, _)| *edge);
        ends_here.filter(|e| self.edge(e).put_on == PutOn::Flat && self.edge(e).kind != "raw").collect()
    }

    /// The edges that stay raw where they meet this seam: nothing will hold its allowances down.
    fn raw_at(&self, seam: &str) -> bool {
        let own = LEGS.iter().find(|(_, side)| *side == seam).map(|(leg, _)| *leg);
        [Some(TOP), own].into_iter().flatten().any(|edge| self.edge(edge).kind == "raw")
    }

    fn at_side(&self, seam: &str, what: &str) -> Refused {
        let has = |what: &str| self.has(&format!("{seam}{what}"));
        let caught = self.caught(seam);
        let is_over = !caught.is_empty();
        let waits = || {
            caught.iter().try_for_each(|e| {
                need(self.is_finished(e), &format!("the {e} is not finished: once closed it is no strip"))
            })
        };
        match what {
            "" => {
                self.are_cut(&["front", "back"])?;
                need(!self.has("gusset rolled in") || self.has("gusset turned out"), "front and back are rolled up")?;
                waits()?;
                need(!is_over || has(" aligned"), "finished edges slip if they are not aligned")
            }
            " aligned" => {
                need(is_over && !has(""), "there is nothing to align")?;
                waits()
            }
            " trimmed" => {
                need(is_over && has("") && !has(" pressed"), "there is nothing to trim, or it is pressed over")
            }
            " neatened" => {
                need(has("") && !has(" pressed"), "there is no raw edge in reach")?;
                need(!is_over || has(" trimmed"), "the trimming would cut the row")
            }
            " pressed" => {
                need(has(""), "it is not sewn")?;
                need(!is_over || has(" trimmed"), "ends of elastic lie under the iron")?;
                self.is_neat(seam, "the allowances fray")
            }
            " tacked" => {
                need((is_over || self.raw_at(seam)) && has(" pressed"), "there is nothing to tack, or it does not lie")
            }
            _ => Err("nobody knows what this is".to_owned()),
        }
    }

    // Edges.

    /// Was anything done on the edge itself, as against what is put on it?
    fn is_begun(&self, edge: &str) -> bool {
        let on_it = ["pinned", "fold", "baste", "row 1", "press"];
        on_it.iter().any(|what| self.has(&format!("{edge} {what}")))
    }

    fn is_finished(&self, edge: &str) -> bool {
        let has = |what: &str| self.has(&format!("{edge} {what}"));
        match self.edge(edge).kind {
            "trim" | "turned" | "encased" | "lapped" => has("row 2") && has("elastic cut"),
            "binding" => has("row 1") && has("elastic cut"),
            "tunnel" => has("close"),
            "hem" => has("row 1"),
            "band" => has("press"),
            "raw" => true,
            kind => panic!("this table does not know when a {kind} edge is finished"),
        }
    }

    /// Can hands and machine get along the whole edge now, as a strip or as a ring?
    fn is_within_reach(&self, edge: &str) -> Refused {
        let closed = |seam: &str| self.has(seam);
        let pressed = |seam: &str| need(self.has(&format!("{seam} pressed")), &format!("the {seam} is not pressed"));
        let put_on = self.edge(edge).put_on;
        if edge == TOP {
            let sides = SIDES.iter().filter(|s| closed(s)).count();
            if put_on == PutOn::Flat {
                need(sides == 1, &format!("a strip has one side seam closed, not {sides}"))?;
                return pressed("left side seam");
            }
            need(sides == 2, "it is no ring yet")?;
            return SIDES.iter().try_for_each(|s| pressed(s));
        }
        let (_, own) = LEGS.iter().find(|(leg, _)| *leg == edge).expect("a leg");
        need(GUSSET_SEAMS.iter().all(|s| closed(s)), "the gusset is not sewn in")?;
        pressed("gusset").map_err(|_| "the edge runs over a gusset that is not pressed".to_owned())?;
        let held = self.choices.layers == Layers::One || self.has("gusset layers held");
        need(held, "the layers of the gusset slip")?;
        match put_on {
            PutOn::Flat => need(!closed(own), "its side seam is closed: it is no strip any more"),
            PutOn::Round => need(closed(own), "its side seam is open: it is no ring yet").and_then(|()| pressed(own)),
        }
    }

    fn at_edge(&self, edge: &str, what: &str) -> Refused {
        let what = what.trim_start();
        let Edge { kind, put_on, .. } = *self.edge(edge);
        match what {
            "elastic cut" | "elastic joined" | "elastic marked" => self.at_elastic(edge, what),
            "band ends" | "band folded" | "band marked" => self.at_band(edge, what),
            _ => {
                self.is_within_reach(edge)?;
                self.on_the_edge(edge, kind, put_on, what)
            }
        }
    }

    fn at_elastic(&self, edge: &str, what: &str) -> Refused {
        let has = |what: &str| self.has(&format!("{edge} {what}"));
        let plan = self.edge(edge);
        need(plan.has_elastic(), "there is no elastic here")?;
        match what {
            "elastic cut" if plan.is_laid_on() => {
                need(has("row 1"), "how long it is only shows when it is laid on")?;
                need(!has("press") && !has("row 2"), "its end was left hanging while the edge was worked on")
            }
            "elastic cut" => Ok(()),
            _ if plan.is_laid_on() => Err("an elastic that is laid on from the hand is not measured out".to_owned()),
            "elastic joined" => {
                need(plan.put_on == PutOn::Round && plan.kind != "tunnel", "it stays a strip")?;
                need(has("elastic cut"), "it is not cut")?;
                need(has("elastic marked"), "a ring cannot be laid along a rule, and its ends have no mark to meet at")
            }
            _ => {
                need(has("elastic cut"), "it is not cut")?;
                need(!has("elastic joined"), "a ring cannot be laid along a rule")
            }
        }
    }

    fn at_band(&self, edge: &str, what: &str) -> Refused {
        let has = |what: &str| self.has(&format!("{edge} {what}"));
        let plan = self.edge(edge);
        need(plan.kind == "band", "there is no band here")?;
        let short = if edge == TOP { "top band".to_owned() } else { format!("{edge} band") };
        let is_cut = self.cut.contains(&short) || (edge != TOP && self.cut.contains("leg band"));
        need(is_cut, "the band is not cut")?;
        match what {
            "band ends" => {
                need(plan.put_on == PutOn::Round && !has("band folded"), "its ends stay open, or are folded")
            }
            "band folded" => {
                need(plan.put_on == PutOn::Flat || has("band ends"), "the ends of a folded band cannot be seamed")
            }
            _ => need(has("band folded"), "the two edges do not lie on each other yet"),
        }
    }

    /// Is what is put on the edge spread along it, so that a stitch can hold it?
    fn is_spread(&self, edge: &str) -> Refused {
        let laid = self.edge(edge).is_laid_on();
        need(laid || self.has(&format!("{edge} pinned")), "it is not spread along the edge")
    }

    fn on_the_edge(&self, edge: &str, kind: &str, put_on: PutOn, what: &str) -> Refused {
        let has = |what: &str| self.has(&format!("{edge} {what}"));
        let laid = self.edge(edge).is_laid_on();
        let after = |before: &str| need(has(before), &format!("{before} is not done"));
        let is_ready = || {
            let ring = put_on == PutOn::Flat || has("elastic joined");
            need(laid || (has("elastic marked") && ring), "the elastic is not ready")
        };
        match (kind, what) {
            ("trim" | "turned" | "encased" | "lapped", "pinned") => is_ready(),
            ("binding", "pinned") => is_ready().and_then(|()| after("fold")),
            ("band", "pinned") => after("band marked"),
            ("trim" | "turned" | "encased", "row 1") => self.is_spread(edge),
            ("trim" | "turned" | "encased", "press") | ("lapped", "row 2") => {
                after("row 1")?;
                need(!laid || has("elastic cut"), "the elastic still hangs on its length")
            }
            ("trim" | "turned" | "encased", "row 2") => after("press"),
            ("lapped", "baste") => self.is_spread(edge),
            ("lapped", "row 1") => after("baste"),
            ("binding", "fold") => is_ready(),
            ("binding", "row 1") => after("fold").and_then(|()| self.is_spread(edge)),
            ("tunnel", "fold") => need(put_on == PutOn::Round, "a tunnel runs across closed seams"),
            ("tunnel", "row 1") => after("fold"),
            ("tunnel", "thread") => after("row 1").and_then(|()| after("elastic cut")),
            ("tunnel", "try on") => after("thread").and_then(|()| self.can_be_worn()),
            ("tunnel", "join") => after("try on"),
            ("tunnel", "close") => after("join"),
            ("hem", "press") => Ok(()),
            ("hem", "row 1") => after("press"),
            ("band", "row 1") => self.is_spread(edge),
            ("band", "press") => after("row 1"),
            _ => Err(format!("this is not done at a {kind} edge")),
        }
    }

    // The pair.

    fn can_be_worn(&self) -> Refused {
        let pressed = ["left side seam pressed", "right side seam pressed", "gusset pressed"];
        need(pressed.iter().all(|p| self.has(p)), "nobody can put it on yet")?;
        need(self.choices.layers == Layers::One || self.has("gusset layers held"), "the lining hangs loose")
    }

    fn is_sewn(&self) -> Refused {
        self.can_be_worn()?;
        for edge in [TOP, "left leg", "right leg"] {
            need(self.is_finished(edge), &format!("the {edge} is not finished"))?;
        }
        for seam in SIDES.iter().filter(|s| !self.caught(s).is_empty() || self.raw_at(s)) {
            need(self.has(&format!("{seam} tacked")), &format!("the ends in the {seam} stand out"))?;
        }
        let frays = self.choices.cloth == engine::sheet::ClothKind::Woven && self.choices.layers == Layers::Tacked;
        need(!frays || self.has("gusset lining end neatened"), "the loose end of the lining frays")
    }

    fn is_pair(&self) -> Refused {
        need(self.has("last look"), "nobody looked at it")
    }
}

/// A step's subject and what is done to it.
fn split<'s>(step: &'s str, subjects: &[&'static str]) -> Option<(&'static str, &'s str)> {
    subjects.iter().find_map(|subject| step.strip_prefix(subject).map(|what| (*subject, what)))
}
