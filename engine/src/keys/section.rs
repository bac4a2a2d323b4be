//! The sections of a sheet, in the order that it is written.

use super::key::{Edges, Home, Single};
use super::row::Row;
use super::{alternative, body, elastic, fabric, finish, gusset, head, print, seams, style, trial, variant};

/// One section.
#[derive(Clone, Copy, Debug)]
pub struct Section {
    /// Dotted, as in its head.
    pub path: &'static str,
    /// What it is about, as a heading.
    pub title: &'static str,
    /// What to know before its keys are filled in; mostly empty.
    pub intro: &'static str,
    /// How it is written.
    pub shape: Shape,
    /// Keys of its own, in the order of a sheet.
    pub own: &'static [&'static Row],
    /// Keys that it shares with other sections.
    pub shared: &'static [&'static Row],
    /// Sections whose keys can be set inside it, dotted, over what the sheet says; of a variant.
    pub over: &'static [&'static str],
}

/// What a variant can change.
const OVER: &[&str] = &[
    Single::Body.path(),
    Single::Fabric.path(),
    Single::Style.path(),
    Single::Gusset.path(),
    Edges::Top.path(),
    Edges::Legs.path(),
    Edges::LeftLeg.path(),
    Edges::RightLeg.path(),
];

/// How a section is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Once: `[body]`.
    One,
    /// Once for each name: `[elastic."soft 8"]`.
    Named,
    /// As often as wanted: `[[trial]]`.
    List,
}

/// Every section.
pub static SECTIONS: [Section; 15] = [
    one(Single::Sheet.path(), "This file", "", head::ROWS),
    one(
        Single::Body.path(),
        "The body",
        "Tie a thin ribbon or elastic round the waist first and leave it there: it is the waist level, and every \
         depth starts from it. Mark the hip level the same way.",
        body::ROWS,
    ),
    one(
        Single::Fabric.path(),
        "The cloth",
        "Test the cloth as you will cut it, washed if you wash it first.",
        fabric::ROWS,
    ),
    one(
        Single::Style.path(),
        "The shape",
        "A base, and any knob set over it. What you do not set comes from the base and the body.",
        style::ROWS,
    ),
    one(Single::Gusset.path(), "The gusset", "Finished sizes.", gusset::ROWS),
    one(Single::Seams.path(), "The seams", "Allowances are added outside the sewing line.", seams::ROWS),
    edges(
        Edges::Top,
        "The top edge",
        "Each opening is finished in its own way. Flat or round decides the order of sewing.",
    ),
    edges(Edges::Legs, "Both leg edges", "The same keys as for the top edge; from = \"body\" is for the top only."),
    edges(
        Edges::LeftLeg,
        "The left leg alone",
        "Only where the legs differ: keys set here replace those for both legs, one by one, and any key of a finish \
         can be set. Take the # away from the head as well.",
    ),
    edges(Edges::RightLeg, "The right leg alone", "The same for the other leg."),
    Section {
        path: "alternative",
        title: "Other finishes to compare, an edge at a time",
        intro: "The same pattern with an edge finished in another way: the print has its lines on a layer of its own, \
                and --variant makes every file of it. Any key of a finish can be set, over what is said above.",
        shape: Shape::List,
        own: alternative::ROWS,
        shared: finish::ROWS,
        over: &[],
    },
    Section {
        path: "variant",
        title: "Variants to compare",
        intro: "The same sheet with something changed: any key of body, fabric, style, gusset or a finish, by its \
                dotted name. The print has its lines on a layer of its own, and --variant makes every file of it.",
        shape: Shape::List,
        own: variant::ROWS,
        shared: &[],
        over: OVER,
    },
    Section {
        path: "elastic",
        title: "The elastics",
        intro: "One section for each elastic that is named above, under the name you give it.",
        shape: Shape::Named,
        own: elastic::ROWS,
        shared: &[],
        over: &[],
    },
    one(Single::Print.path(), "Printing at home", "", print::ROWS),
    Section {
        path: "trial",
        title: "Trials",
        intro: "What each test garment taught. One block for each edge that was judged.",
        shape: Shape::List,
        own: trial::ROWS,
        shared: &[],
        over: &[],
    },
];

/// `[cloth."NAME"]`, of a drawer: the keys of `[fabric]` but for its name.
pub static CLOTH: Section = Section {
    path: "cloth",
    title: "The cloths",
    intro: "",
    shape: Shape::Named,
    own: match fabric::ROWS {
        [_name, rest @ ..] => rest,
        [] => &[],
    },
    shared: &[],
    over: &[],
};

const fn one(path: &'static str, title: &'static str, intro: &'static str, own: &'static [&'static Row]) -> Section {
    Section { path, title, intro, shape: Shape::One, own, shared: &[], over: &[] }
}

const fn edges(edges: Edges, title: &'static str, intro: &'static str) -> Section {
    Section { path: edges.path(), title, intro, shape: Shape::One, own: &[], shared: finish::ROWS, over: &[] }
}

impl Section {
    /// The section of this dotted path.
    pub fn at(path: &str) -> Option<&'static Self> {
        SECTIONS.iter().find(|s| s.path == path)
    }

    /// The section that a key stands in; none only for one that the table forgot.
    pub fn of(home: &Home) -> Option<&'static Self> {
        Self::at(home.path())
    }

    /// The sections whose keys can be set inside it.
    pub fn inside(&self) -> impl Iterator<Item = &'static Self> + use<> {
        self.over.iter().filter_map(|path| Self::at(path))
    }

    /// Every key, in the order of a sheet.
    pub fn rows(&self) -> impl Iterator<Item = &'static Row> + Clone + use<> {
        self.own.iter().chain(self.shared).copied()
    }

    /// Its key of this name.
    pub fn row(&self, name: &str) -> Option<&'static Row> {
        self.rows().find(|r| r.name == name)
    }

    /// Its head, as it is written.
    pub fn head(&self) -> String {
        match self.shape {
            Shape::One => format!("[{}]", self.path),
            Shape::Named => format!("[{}.\"NAME\"]", self.path),
            Shape::List => format!("[[{}]]", self.path),
        }
    }
}
