//! The sheets that are checked: the demo sheets, and one of each base with other finishes.

use anyhow::{Context, Result};
use std::path::Path;

/// Is the harm test run on this one as well?
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum SelfTest {
    Here,
    No,
}

/// In which forms the print is examined.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Prints {
    Every,
    Usual,
}

/// One sheet.
pub(crate) struct Case {
    pub(crate) prints: Prints,
    pub(crate) title: String,
    pub(crate) text: String,
    pub(crate) selftest: SelfTest,
}

const DEMOS: [(&str, SelfTest, Prints); 3] = [
    ("first-pair", SelfTest::Here, Prints::Every),
    ("saturday-hipster", SelfTest::No, Prints::Usual),
    ("uneven-legs", SelfTest::No, Prints::Every),
];

impl Case {
    /// Is it one of the demo sheets?
    pub(crate) fn is_demo(&self) -> bool {
        DEMOS.iter().any(|(name, ..)| *name == self.title)
    }
}

/// Every sheet of the batch.
pub(crate) fn cases() -> Result<Vec<Case>> {
    let mut cases = DEMOS.map(demo).into_iter().collect::<Result<Vec<_>>>()?;
    cases.extend(GENERATED.iter().map(Generated::case));
    Ok(cases)
}

fn demo((name, selftest, prints): (&str, SelfTest, Prints)) -> Result<Case> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("../fixtures/{name}.toml"));
    let text = std::fs::read_to_string(&path).with_context(|| format!("the demo sheet {name} cannot be read"))?;
    Ok(Case { title: name.to_owned(), text, selftest, prints })
}

/// What differs from sheet to sheet; everything else is as in [`Generated::case`].
struct Generated {
    base: &'static str,
    name: &'static str,
    body: &'static str,
    fabric: &'static str,
    style: &'static str,
    seams: &'static str,
    top: &'static str,
    legs: &'static str,
    right_leg: &'static str,
    /// Whole sections at the end.
    more: &'static str,
    paper: &'static str,
}

/// An invented body between the demo sheets, mm.
const BODY: &str =
    "waist_girth = 740\nhip_girth = 980\nwaist_to_hip = 200\ncrotch_length = 700\ncrotch_length_front = 320";
const JERSEY: &str = "kind = \"knit\"\nstretch_across = 60\nstretch_along = 40";
const TURNED: &str = "kind = \"turned\"\nelastic = \"wide\"\nreduction = 8";
const TRIM: &str = "kind = \"trim\"\nelastic = \"narrow\"\nreduction = 5";
const HEM: &str = "kind = \"hem\"";
const ENCASED: &str = "kind = \"encased\"\nelastic = \"narrow\"\nreduction = 6\nput_on = \"round\"";
const LAPPED: &str = "kind = \"lapped\"\nelastic = \"narrow\"\nreduction = 5\nlap = 4";
const BINDING: &str = "kind = \"binding\"\nelastic = \"wide\"\nlength = 610\nmarks = \"eighths\"";
const TUNNEL: &str = "kind = \"tunnel\"\nelastic = \"wide\"\nreduction = 12\nturn = 6";
const BAND: &str = "kind = \"band\"\nreduction = 12";
const RAW: &str = "kind = \"raw\"";
const ADD: &str = "kind = \"trim\"\nelastic = \"narrow\"\nreduction = 0\nreach = \"add\"";

const PLAIN: Generated = Generated {
    base: "brief",
    name: "plain",
    body: BODY,
    fabric: JERSEY,
    style: "",
    seams: "kind = \"overlock\"",
    top: TURNED,
    legs: TRIM,
    right_leg: "",
    more: "",
    paper: "A4",
};

/// A variant of the body, and two other ways to finish: one leaves the top as it is, the other both
/// front and back.
const WAYS: &str = "[[variant]]\nname = \"larger\"\nbody.hip_girth = 1030\nfinish.top.reduction = 10\n\n\
    [[alternative]]\nname = \"bound legs\"\nedge = \"legs\"\nkind = \"binding\"\n\n\
    [[alternative]]\nname = \"Bänder\"\nedge = \"top edge\"\nkind = \"band\"\n\n\
    [[alternative]]\nname = \"Bänder\"\nedge = \"left leg\"\nkind = \"band\"\nwidth = 15\n\n\
    [[trial]]\ndate = 2026-04-11\nedge = \"left leg\"\nreduction = 9\nverdict = \"tight\"\nnote = \"marks\"\n\n\
    [[trial]]\ndate = 2026-04-25\nedge = \"left leg\"\nreduction = 5\nverdict = \"right\"\n";

static GENERATED: [Generated; 10] = [
    Generated { name: "four ways", more: WAYS, ..PLAIN },
    Generated {
        base: "full brief",
        name: "Zoë, größer ≤ 2",
        body: "waist_girth = 800\nwaist_level = \"natural\"\nhip_girth = 1060\nwaist_to_hip = 210\ncrotch_length = 760",
        legs: TURNED,
        ..PLAIN
    },
    Generated {
        base: "brief",
        name: "Žofie Dvořák",
        fabric: "kind = \"knit\"\nstretch_across = 40\nstretch_along = 30\nshrink_across = 5\nshrink_along = 8",
        top: HEM,
        legs: ADD,
        ..PLAIN
    },
    Generated {
        base: "hipster",
        name: "Ελένη",
        body: "waist_girth = 860\nwaist_level = \"navel\"\nhip_girth = 1000\nwaist_to_hip = 150\ncrotch_length = 640\ncrotch_length_front = 290",
        seams: "kind = \"zigzag\"\nside = 9\ngusset = 6",
        legs: HEM,
        paper: "Letter",
        ..PLAIN
    },
    Generated { name: "tunnel, encased", top: TUNNEL, legs: ENCASED, ..PLAIN },
    Generated { base: "hipster", name: "bands, raw", top: BAND, legs: BAND, right_leg: RAW, ..PLAIN },
    Generated { base: "full brief", name: "lapped, binding", top: LAPPED, legs: BINDING, right_leg: LAPPED, ..PLAIN },
    Generated {
        base: "high leg",
        name: "Дарья",
        fabric: "kind = \"knit\"\nstretch_across = 80\nstretch_along = 50\nease_along = -2",
        top: TRIM,
        right_leg: "kind = \"turned\"\nelastic = \"narrow\"\nreduction = 4",
        ..PLAIN
    },
    Generated { base: "small brief", name: "תמר, ليلى (2)", top: HEM, legs: TURNED, paper: "A3", ..PLAIN },
    Generated {
        base: "tanga",
        name: "tanga",
        style: "side_seam = 45",
        body: "waist_girth = 700\nwaist_level = \"midway\"\nhip_girth = 920\nwaist_to_hip = 170\ncrotch_length = 640\ntop_edge_girth = 830",
        ..PLAIN
    },
];

impl Generated {
    fn case(&self) -> Case {
        let Self { base, name, body, fabric, style, seams, top, legs, right_leg, more, paper } = self;
        let right = if right_leg.is_empty() { String::new() } else { format!("[finish.right_leg]\n{right_leg}\n") };
        let text = format!(
            "[sheet]\nversion = 1\nname = \"{name}\"\nunits = \"mm\"\n\n[body]\n{body}\n\n[fabric]\n{fabric}\n\n\
             [style]\nbase = \"{base}\"\n{style}\n\n[gusset]\nlayers = 2\n\n[seams]\n{seams}\n\n\
             [finish.top]\n{top}\n\n[finish.legs]\n{legs}\n\n{right}\
             [elastic.wide]\nwidth = 12\npicot = 2\nstretch = 110\n\n[elastic.narrow]\nwidth = 8\nstretch = 100\n\n\
             [print]\npaper = \"{paper}\"\n\n{more}"
        );
        Case { title: format!("generated {base} \"{name}\""), text, selftest: SelfTest::No, prints: Prints::Usual }
    }
}
