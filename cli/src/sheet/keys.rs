//! Every section and key of a sheet, in one table: what it takes, whether it is needed, and how a
//! person gets the value. Reading, messages and the sheet that `new` writes all go by it.
//!
//! Ranges say what the key could mean for any body or cloth at all, broad enough that a sheet in
//! the wrong unit still reads as a whole (the mix-up is then suspected aloud). Whether a garment
//! comes out of it is judged later, by the engine.

use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Units;
use engine::sheet::{ClothKind, Lining, Marks, Opening, PutOn, Reach, SeamKind, Spread, Verdict, WaistLevel};

/// One section of a sheet.
#[derive(Debug)]
pub(crate) struct Section {
    /// Dotted, as in its head.
    pub(crate) path: &'static str,
    pub(crate) shape: Shape,
    pub(crate) keys: &'static [Key],
}

/// How a section is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shape {
    /// Once: `[body]`.
    One,
    /// Once for each name: `[elastic."soft 8"]`.
    Named,
    /// As often as wanted: `[[trial]]`.
    List,
}

/// One key.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Key {
    pub(crate) name: &'static str,
    pub(crate) form: Form,
    pub(crate) need: Need,
    /// How a person gets the value, one or two sentences.
    pub(crate) how: &'static str,
}

/// Must a key be there, once its section is?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Need {
    Needed,
    Optional,
}

/// What a key takes. Lengths are mm, both ends allowed; a lowest length of 0 with [`Form::Length`]
/// allows 0 itself, [`Form::Size`] wants more than 0.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Form {
    /// A whole number between two.
    Whole(i64, i64),
    /// Text of the person's own.
    Text,
    /// One of these words.
    Word(fn() -> Vec<&'static str>),
    /// `true` or `false`.
    Flag,
    /// A day.
    Date,
    /// A length that can also be nothing or less than nothing.
    Length(f64, f64),
    /// A length of something that is there: never 0.
    Size(f64, f64),
    /// Percent.
    Percent(f64, f64),
    /// A share of one.
    Share(f64, f64),
    /// A paper's name, or the width of a roll.
    Paper,
    /// Stretch and grams-force, in pairs.
    Pull,
    /// A reduction for each section of an edge.
    Sections,
}

const fn needed(name: &'static str, form: Form, how: &'static str) -> Key {
    Key { name, form, need: Need::Needed, how }
}

const fn optional(name: &'static str, form: Form, how: &'static str) -> Key {
    Key { name, form, need: Need::Optional, how }
}

fn words<T>(all: &[(&'static str, T)]) -> Vec<&'static str> {
    all.iter().map(|(word, _)| *word).collect()
}

/// Round a body: from a small child's waist to far beyond any adult's, and wide enough that
/// centimetres typed as inches still read.
const GIRTH: Form = Form::Size(200.0, 3000.0);

/// Across a body, between two rulers.
const RULED: Form = Form::Size(50.0, 1200.0);

/// Lowest and highest reduction, %.
pub(super) const REDUCTION: (f64, f64) = (-20.0, 60.0);

static SHEET: [Key; 4] = [
    needed("version", Form::Whole(1, 1), "The version of this kind of file: 1."),
    needed("name", Form::Text, "A name for this pattern. It is written on every piece and becomes the file name."),
    needed(
        "units",
        Form::Word(|| words(&Units::ALL)),
        "The unit of every length in this file. With inches a length can also be a fraction in quotes: \"29\u{a0}1/2\".",
    ),
    optional("date", Form::Date, "A day to print on the pieces, year first. No clock is read."),
];

static BODY: [Key; 15] = [
    needed(
        "waist_girth",
        GIRTH,
        "Round the body at the waist level, tape level and snug but not pulled in, after breathing out.",
    ),
    optional(
        "waist_level",
        Form::Word(|| words(&WaistLevel::ALL)),
        "Where you took the waist: natural is the narrowest place, midway lies half way between the lowest rib and \
         the top of the hip bone (ISO 8559-1), navel is at the navel.",
    ),
    needed("hip_girth", GIRTH, "Round the fullest part of the seat, feet together, tape level all the way round."),
    needed(
        "waist_to_hip",
        Form::Size(20.0, 800.0),
        "Down the side of the body, from the waist level to the level where you took the hip.",
    ),
    needed(
        "crotch_length",
        Form::Size(200.0, 2500.0),
        "From the waist level in front, between the legs, up to the waist level at the back; tape close, not tight.",
    ),
    optional(
        "crotch_length_front",
        Form::Size(80.0, 1500.0),
        "The front part of the crotch length: from the waist level in front to the lowest point between the legs. \
         Worth measuring: half of all bodies are 15 mm (5/8 in) or more off the estimate.",
    ),
    optional("thigh_girth", Form::Size(150.0, 2000.0), "Round the fullest part of the thigh, standing."),
    optional(
        "waist_breadth",
        RULED,
        "Side to side at the waist level: stand between two books or rulers held upright, and measure from one to the \
         other.",
    ),
    optional("waist_depth", RULED, "Front to back at the waist level, between two rulers held upright."),
    optional("hip_breadth", RULED, "Side to side at the hip level, between two rulers held upright."),
    optional("hip_depth", RULED, "Front to back at the hip level, between two rulers held upright."),
    optional("top_edge_girth", GIRTH, "Round the body just where the top edge will sit."),
    optional(
        "leg_line_girth",
        Form::Size(150.0, 2500.0),
        "Round the leg on the slanting line where the leg edge will sit.",
    ),
    optional(
        "elastic_top",
        Form::Size(150.0, 3000.0),
        "Put the elastic round the body where the top edge will sit, pin it where it feels right, see that it goes \
         over the hips, take it off and measure the ring flat.",
    ),
    optional("child", Form::Flag, "Say true for a child, so that the cautions for children are given."),
];

static FABRIC: [Key; 9] = [
    optional("name", Form::Text, "What you call the cloth. It is written on the pieces."),
    optional("kind", Form::Word(|| words(&ClothKind::ALL)), "Knitted or woven."),
    needed(
        "stretch_across",
        Form::Percent(0.0, 400.0),
        "Fold test, from selvedge to selvedge: fold the cloth well inside its cut edge, mark 10\u{a0}cm (4\u{a0}in) on the \
         fold, pull until it resists, read. 10 cm that reach 16 cm are 60 %.",
    ),
    needed("stretch_along", Form::Percent(0.0, 400.0), "The same fold test along the length of the cloth."),
    optional("width", Form::Size(200.0, 6000.0), "Usable width of the cloth, from selvedge to selvedge."),
    optional(
        "ease_across",
        Form::Percent(-50.0, 60.0),
        "How much larger (+) or smaller (−) than the body the cloth is, round the body.",
    ),
    optional("ease_along", Form::Percent(-50.0, 60.0), "The same, up and down the body."),
    optional(
        "shrink_across",
        Form::Percent(0.0, 30.0),
        "Shrinkage still to come, across: mark a square, wash and dry it as you will the garment, measure again. \
         Leave it at 0 if the cloth is already washed.",
    ),
    optional("shrink_along", Form::Percent(0.0, 30.0), "Shrinkage still to come, along the length of the cloth."),
];

/// A depth under the waist level: less than nothing is above it.
const DROP: Form = Form::Length(-300.0, 800.0);

static STYLE: [Key; 9] = [
    needed("base", Form::Word(|| Base::all().map(Base::name).collect()), "The shape to start from."),
    optional("top_drop_front", DROP, "Depth of the top edge under the waist level, at the centre front."),
    optional("top_drop_side", DROP, "Depth of the top edge under the waist level, at the sides."),
    optional("top_drop_back", DROP, "Depth of the top edge under the waist level, at the centre back."),
    optional("side_seam", Form::Size(5.0, 800.0), "Finished length of the side seam."),
    optional("front_scoop", Form::Share(0.0, 1.0), "Front leg edge: 0 straight, 1 deeply cut away."),
    optional("back_cover", Form::Share(0.0, 1.0), "Back: 0 bare, 1 full."),
    optional("back_share", Form::Share(0.3, 0.7), "Share of the hip girth that the back takes."),
    optional(
        "leg_edge",
        Form::Size(150.0, 3000.0),
        "A wanted length of each finished leg edge: the shape is solved for it.",
    ),
];

static GUSSET: [Key; 7] = [
    optional("length", Form::Size(30.0, 600.0), "Finished length, from the front gusset seam to the back gusset seam."),
    optional("width", Form::Size(15.0, 300.0), "The narrowest width, finished edge to finished edge."),
    optional("front_width", Form::Size(15.0, 400.0), "Width at the front gusset seam."),
    optional("back_width", Form::Size(15.0, 600.0), "Width at the back gusset seam."),
    optional("forward", Form::Share(0.05, 0.95), "Share of the gusset's length in front of the lowest point."),
    optional("layers", Form::Whole(1, 2), "1, or 2 with a lining."),
    optional(
        "lining",
        Form::Word(|| words(&Lining::ALL)),
        "enclosed hides both gusset seams between the layers; tacked leaves one end of the lining loose and tacks it.",
    ),
];

static SEAMS: [Key; 3] = [
    optional(
        "kind",
        Form::Word(|| words(&SeamKind::ALL)),
        "overlock (UK overlocker, US serger), a narrow zigzag, or lockstitch, which cracks on a knit.",
    ),
    optional("side", Form::Length(0.0, 60.0), "Seam allowance of the side seams."),
    optional("gusset", Form::Length(0.0, 60.0), "Seam allowance of the gusset seams."),
];

/// The keys of an edge's finish.
pub(crate) const FINISH: [Key; 18] = [
    optional("kind", Form::Word(|| FinishKind::all().map(|k| k.name()).collect()), "How this edge is finished."),
    optional("elastic", Form::Text, "The name of one of the elastics of this sheet."),
    optional(
        "reduction",
        Form::Percent(REDUCTION.0, REDUCTION.1),
        "How much shorter than its line on the edge the elastic is; 0 lays it flat.",
    ),
    optional("length", Form::Size(100.0, 3000.0), "The joined length of the elastic, in place of a reduction."),
    optional(
        "from",
        Form::Word(|| vec!["body"]),
        "\"body\" takes the elastic's length from body.elastic_top, in place of a reduction; top edge only.",
    ),
    optional(
        "put_on",
        Form::Word(|| words(&PutOn::ALL)),
        "flat: before the last seam of this edge is closed; round: on the closed edge.",
    ),
    optional("marks", Form::Word(|| words(&Marks::ALL)), "How many matching marks on elastic and edge."),
    optional(
        "spread",
        Form::Word(|| words(&Spread::ALL)),
        "even: the same stretch all round, marks on seams and centres; equal: the elastic folded in equal parts.",
    ),
    optional("sections", Form::Sections, "A reduction of its own for front, gusset or back."),
    optional("overlap", Form::Length(0.0, 150.0), "How far the ends of a ring of elastic lie over each other."),
    optional(
        "bite",
        Form::Size(0.5, 40.0),
        "From the raw edge to the inner swing of the zigzag, where the fold forms.",
    ),
    optional(
        "reach",
        Form::Word(|| words(&Reach::ALL)),
        "keep: the elastic ends at the finished edge; add: it stands out beyond it.",
    ),
    optional("lap", Form::Size(0.5, 60.0), "How far a lapped elastic lies on the cloth; never more than its width."),
    optional("room", Form::Length(0.0, 60.0), "Room for the elastic to move in a tunnel (US casing)."),
    optional("catch", Form::Length(0.0, 40.0), "Cloth beyond the stitches that hold a tunnel (US casing)."),
    optional("turn", Form::Length(0.0, 60.0), "Turned under at the raw edge of a tunnel; 0 on jersey."),
    optional("depth", Form::Size(3.0, 200.0), "How deep a hem is folded in."),
    optional("width", Form::Size(3.0, 400.0), "Finished width of a band."),
];

static ELASTIC: [Key; 6] = [
    needed("width", Form::Size(1.0, 200.0), "Whole width, decorative edge included."),
    optional("picot", Form::Length(0.0, 100.0), "The decorative part of the width."),
    optional("stretch", Form::Percent(1.0, 500.0), "How far it can be stretched: 10 cm that reach 20 cm are 100 %."),
    optional(
        "growth",
        Form::Percent(-20.0, 60.0),
        "How much longer it comes out after sewing; sew a sample on scrap and measure it.",
    ),
    optional("latex", Form::Flag, "Does it contain rubber latex?"),
    optional(
        "pull",
        Form::Pull,
        "A pull test on one flat strip: stretch in %, and the pull in grams-force that holds it there.",
    ),
];

static PRINT: [Key; 3] = [
    optional("paper", Form::Paper, "The paper in your printer, or the width of a roll."),
    optional("margin", Form::Length(0.0, 100.0), "The edge of the paper that the printer leaves white."),
    optional("overlap", Form::Length(0.0, 150.0), "How far two pages lie over each other."),
];

/// Which edges a finish of its own can be for, with the openings they are.
pub(super) const EDGES: [(&str, &[Opening]); 4] = [
    (Opening::Top.name(), &[Opening::Top]),
    ("legs", &[Opening::LeftLeg, Opening::RightLeg]),
    (Opening::LeftLeg.name(), &[Opening::LeftLeg]),
    (Opening::RightLeg.name(), &[Opening::RightLeg]),
];

/// An alternative says what it is called and which edge it is for; the rest is a finish.
static ALTERNATIVE: [Key; 2 + FINISH.len()] = {
    let mut keys =
        [needed("name", Form::Text, "What you call it. Blocks of one name belong together."); 2 + FINISH.len()];
    keys[1] = needed("edge", Form::Word(|| words(&EDGES)), "The edge, or both legs, that it finishes in another way.");
    let mut i = 0;
    while i < FINISH.len() {
        keys[i + 2] = FINISH[i];
        i += 1;
    }
    keys
};

static TRIAL: [Key; 5] = [
    optional("date", Form::Date, "The day of the trial (US muslin)."),
    needed("edge", Form::Word(|| Opening::ALL.iter().map(|o| o.name()).collect()), "The edge that was judged."),
    optional("reduction", Form::Percent(REDUCTION.0, REDUCTION.1), "The reduction it was sewn with."),
    needed("verdict", Form::Word(|| words(&Verdict::ALL)), "What the body said."),
    optional("note", Form::Text, "Anything worth remembering."),
];

/// Every section, in the order that a sheet is written.
pub(crate) static SECTIONS: [Section; 14] = [
    one("sheet", &SHEET),
    one("body", &BODY),
    one("fabric", &FABRIC),
    one("style", &STYLE),
    one("gusset", &GUSSET),
    one("seams", &SEAMS),
    one("finish.top", &FINISH),
    one("finish.legs", &FINISH),
    one("finish.left_leg", &FINISH),
    one("finish.right_leg", &FINISH),
    Section { path: "alternative", shape: Shape::List, keys: &ALTERNATIVE },
    Section { path: "elastic", shape: Shape::Named, keys: &ELASTIC },
    one("print", &PRINT),
    Section { path: "trial", shape: Shape::List, keys: &TRIAL },
];

const fn one(path: &'static str, keys: &'static [Key]) -> Section {
    Section { path, shape: Shape::One, keys }
}

impl Section {
    /// The section of this dotted path.
    pub(crate) fn at(path: &str) -> Option<&'static Self> {
        SECTIONS.iter().find(|s| s.path == path)
    }

    /// Its key of this name.
    pub(crate) fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|k| k.name == name)
    }

    /// Its head, as it is written.
    pub(crate) fn head(&self) -> String {
        match self.shape {
            Shape::One => format!("[{}]", self.path),
            Shape::Named => format!("[{}.\"NAME\"]", self.path),
            Shape::List => format!("[[{}]]", self.path),
        }
    }
}

/// The known word that a person most likely meant.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // Nothing that is known is longer than this; a longer word only costs time.
    if word.chars().count() > 40 {
        return None;
    }
    let plain = word.to_lowercase().replace(['-', ' '], "_");
    let near = |known: &str| {
        let known = known.to_lowercase().replace(['-', ' '], "_");
        let edits = strsim::damerau_levenshtein(&plain, &known);
        let allowed = known.chars().count().div_ceil(3);
        let first = known.split('_').next().unwrap_or("");
        // Half a name, such as `hips` for `hip_girth`, is as good as a slip of the finger.
        let half = first.len() >= 3 && strsim::damerau_levenshtein(&plain, first) <= 1;
        let alike = if half { 0.88 } else { strsim::jaro_winkler(&plain, &known) };
        (edits <= allowed || alike >= 0.88).then_some((edits, 1.0 - alike))
    };
    known
        .into_iter()
        .filter_map(|k| near(k).map(|n| (k, n)))
        .min_by(|(_, a), (_, b)| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)))
        .map(|(k, _)| k)
}

/// Words as a person lists them: `a`, `b` or `c`.
pub(crate) fn listed(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|w| format!("\"{w}\"")).collect();
    match quoted.split_last() {
        None => "nothing".to_owned(),
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
    }
}
