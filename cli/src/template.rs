//! The sheet that `new` writes: every key with its unit and how to measure it, valid as it
//! stands, with invented values to write over.

use crate::sheet::keys::{Form, Key, Need, SECTIONS, Section, Shape};
use crate::sheet::takes_key;
use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::{Length, Units};
use engine::sheet::Paper;

/// Comments are wrapped to this many columns.
const WIDTH: usize = 88;

/// What stands behind a value starts in this column.
const NOTE_COLUMN: usize = 30;

/// A commented sheet in the given unit, with every key. It reads as it stands; keys that may stay
/// out are written with `#` before them and their default, or an example, behind it.
pub fn commented_sheet(units: Units) -> String {
    let mut out = comment(&preface(units));
    for section in &SECTIONS {
        out.push('\n');
        out.push_str(&section_text(section, units));
    }
    out
}

fn preface(units: Units) -> String {
    let unit = match units {
        Units::Cm => "centimetres",
        Units::Mm => "millimetres",
        Units::In => "inches, also as fractions in quotes such as \"29\u{a0}1/2\"",
    };
    format!(
        "A measurement sheet for knickers. Write your own numbers over the ones given here, which belong to nobody. \
         Lengths are in {unit}; stretch, ease and reduction are in percent.\n\n\
         Measure over thin, close underwear, standing relaxed, feet together, breathing out. Keep the tape snug but \
         never tight, level where it goes round, and measure twice. All girths are full girths. Left and right are \
         the wearer's.\n\n\
         A line that starts with # is not read. Take the # away to set that key. Everything you leave out is filled \
         in, and listed as filled in."
    )
}

fn section_text(section: &Section, units: Units) -> String {
    let mut out = String::new();
    out.push_str(&rule(title(section.path)));
    out.push_str(&comment(&intro(section.path, units)));
    let off = matches!(section.path, "finish.left_leg" | "finish.right_leg" | "trial");
    match section.shape {
        Shape::Named => {
            let [first, second] = ["soft 12", "soft 8"].map(|name| named(section, name, units));
            out.push_str(&format!("{first}\n{second}"));
        }
        _ => {
            out.push_str(&format!("{}{}\n", if off { "#" } else { "" }, section.head()));
            out.push_str(&keys_text(section, section.path, units));
        }
    }
    out
}

/// One elastic. Only the first one says how its keys are measured.
fn named(section: &Section, name: &str, units: Units) -> String {
    let mut out = format!("[{}.\"{name}\"]\n", section.path);
    out.push_str(&keys_text(section, &format!("{}.{name}", section.path), units));
    out
}

/// The keys of a section; where each is explained, with some air between them.
fn keys_text(section: &Section, path: &str, units: Units) -> String {
    let texts = section.keys.iter().map(|key| key_text(path, key, units)).filter(|text| !text.is_empty());
    texts.collect::<Vec<_>>().join(if explains(path) { "\n" } else { "" })
}

fn key_text(path: &str, key: &Key, units: Units) -> String {
    let Some(demo) = demo(path, key.name) else { return String::new() };
    let is_finish = path.starts_with("finish.");
    if is_finish && !FinishKind::all().any(|kind| takes_key(kind, key.name)) {
        return String::new();
    }
    let how = if explains(path) { comment(&how(path, key)) } else { String::new() };
    let (off, sample, note) = match demo {
        Demo::Set(sample) => ("", sample, ""),
        Demo::Off(sample, note) => ("#", sample, note),
    };
    let line = format!("{off}{} = {}", key.name, sample.written(units));
    let note = note_text(path, key, units, note);
    if note.is_empty() {
        return format!("{how}{line}\n");
    }
    let beside = format!("{line:<NOTE_COLUMN$} # {note}");
    if beside.chars().count() > WIDTH {
        return format!("{how}{}{line}\n", comment(&note));
    }
    format!("{how}{beside}\n")
}

/// Repeated sections say once how their keys are meant.
fn explains(path: &str) -> bool {
    !matches!(path, "finish.legs" | "finish.left_leg" | "finish.right_leg" | "elastic.soft 8")
}

fn how(path: &str, key: &Key) -> String {
    match (path, key.name) {
        ("style", "base") => Base::all().map(base_words).collect::<Vec<_>>().join("; ") + ".",
        ("finish.top", "kind") => {
            let kinds: Vec<String> = FinishKind::all().map(|k| format!("{}: {}", k.name(), k.summary())).collect();
            kinds.join(".\n") + "."
        }
        _ => key.how.to_owned(),
    }
}

fn base_words(base: Base) -> String {
    match base.shares().also {
        Some(also) => format!("{} (US {also})", base.name()),
        None => base.name().to_owned(),
    }
}

/// Unit, choice, and whether it is needed.
fn note_text(path: &str, key: &Key, units: Units, note: &str) -> String {
    let unit = match key.form {
        Form::Length(..) | Form::Size(..) => units.name().to_owned(),
        Form::Percent(..) => "%".to_owned(),
        Form::Share(low, high) => format!("a share, {low} to {high}"),
        Form::Word(words) => words().join(" | "),
        Form::Paper => {
            let names: Vec<&str> = Paper::NAMED.iter().map(|(name, _)| *name).collect();
            format!("{} | width of a roll", names.join(" | "))
        }
        Form::Flag => "true | false".to_owned(),
        Form::Sections => "% for front, gusset, back".to_owned(),
        Form::Pull => "pairs of stretch in % and grams-force".to_owned(),
        Form::Whole(..) | Form::Text | Form::Date => String::new(),
    };
    let need = if key.need == Need::Needed { "needed" } else { "" };
    let takers = if path.starts_with("finish.") { takers(key.name) } else { String::new() };
    let parts = [unit.as_str(), need, takers.as_str(), note];
    parts.iter().filter(|p| !p.is_empty()).copied().collect::<Vec<_>>().join("; ")
}

/// Which finishes a key is for, where it is not for all that have an elastic.
fn takers(key: &str) -> String {
    let own: Vec<&str> = FinishKind::all().filter(|k| k.keys().contains(&key)).map(|k| k.name()).collect();
    if own.is_empty() { String::new() } else { format!("for {}", own.join(", ")) }
}

/// A value in the sheet.
#[derive(Clone, Copy)]
enum Sample {
    /// A length, mm.
    Mm(f64),
    /// As it is written.
    Plain(&'static str),
    /// The unit of the sheet itself.
    Unit,
    /// The same, where inches are written otherwise.
    ByUnit { metric: Metric, inch: &'static str },
}

#[derive(Clone, Copy)]
enum Metric {
    Mm(f64),
    Plain(&'static str),
}

impl Sample {
    fn written(self, units: Units) -> String {
        match (self, units) {
            (Self::Plain(text), _) => text.to_owned(),
            (Self::Unit, unit) => format!("\"{}\"", unit.name()),
            (Self::Mm(mm), Units::In) => inches(mm),
            (Self::ByUnit { inch, .. }, Units::In) => inch.to_owned(),
            (Self::Mm(mm) | Self::ByUnit { metric: Metric::Mm(mm), .. }, unit) => {
                format!("{}", Length::from_mm(mm).to(unit))
            }
            (Self::ByUnit { metric: Metric::Plain(text), .. }, _) => text.to_owned(),
        }
    }
}

/// In inches as one writes them: measures of the body to a quarter, small ones to a sixteenth.
fn inches(mm: f64) -> String {
    let step = if mm >= 150.0 { 4 } else { 1 };
    let n = (mm / 25.4 * 16.0 / f64::from(step)).round() as i64 * i64::from(step);
    let (whole, rest) = (n / 16, n % 16);
    if rest == 0 {
        return whole.to_string();
    }
    let shift = rest.trailing_zeros();
    let fraction = format!("{}/{}", rest >> shift, 16 >> shift);
    if whole == 0 { format!("\"{fraction}\"") } else { format!("\"{whole} {fraction}\"") }
}

/// Is the key set in the sheet, or shown with `#` before it?
#[derive(Clone, Copy)]
enum Demo {
    Set(Sample),
    Off(Sample, &'static str),
}

const fn set(text: &'static str) -> Option<Demo> {
    Some(Demo::Set(Sample::Plain(text)))
}

const fn set_mm(mm: f64) -> Option<Demo> {
    Some(Demo::Set(Sample::Mm(mm)))
}

const fn off(text: &'static str, note: &'static str) -> Option<Demo> {
    Some(Demo::Off(Sample::Plain(text), note))
}

const fn off_mm(mm: f64, note: &'static str) -> Option<Demo> {
    Some(Demo::Off(Sample::Mm(mm), note))
}

const BY_BASE: &str = "else from the base";

fn demo(path: &str, key: &str) -> Option<Demo> {
    match path {
        "sheet" => demo_sheet(key),
        "body" => demo_body(key),
        "fabric" => demo_fabric(key),
        "style" => demo_style(key),
        "gusset" => demo_gusset(key),
        "seams" => demo_seams(key),
        "finish.top" => demo_top(key),
        "finish.legs" => demo_legs(key),
        "finish.left_leg" | "finish.right_leg" => demo_one_leg(key),
        "elastic.soft 12" => demo_elastic(key, 12.0, 2.0),
        "elastic.soft 8" => demo_elastic(key, 8.0, 0.0),
        "print" => demo_print(key),
        "trial" => demo_trial(key),
        _ => None,
    }
}

fn demo_sheet(key: &str) -> Option<Demo> {
    match key {
        "version" => set("1"),
        "name" => set("\"my first pair\""),
        "units" => Some(Demo::Set(Sample::Unit)),
        "date" => off("2026-03-02", ""),
        _ => None,
    }
}

fn demo_body(key: &str) -> Option<Demo> {
    match key {
        "waist_girth" => set_mm(710.0),
        "waist_level" => set("\"natural\""),
        "hip_girth" => set_mm(970.0),
        "waist_to_hip" => set_mm(200.0),
        "crotch_length" => set_mm(710.0),
        "crotch_length_front" => off_mm(320.0, "else 45 % of the crotch length, with a warning"),
        "thigh_girth" => off_mm(580.0, "else estimated from the hip"),
        "top_edge_girth" => off_mm(830.0, "else worked out from waist and hip"),
        "leg_line_girth" => off_mm(610.0, "else the same draft without ease"),
        "elastic_top" => off_mm(760.0, "wanted for from = \"body\" below"),
        "child" => off("false", "default"),
        _ => None,
    }
}

fn demo_fabric(key: &str) -> Option<Demo> {
    const BY_STRETCH: &str = "else by stretch: under 25 % 0, 25–50 −4, 50–75 −8, more −10; woven +4";
    match key {
        "name" => set("\"cotton jersey\""),
        "kind" => set("\"knit\""),
        "stretch_across" => set("60"),
        "stretch_along" => set("35"),
        "width" => off_mm(1500.0, ""),
        "ease_across" => off("-8", BY_STRETCH),
        "ease_along" | "shrink_across" | "shrink_along" => off("0", "default"),
        _ => None,
    }
}

fn demo_style(key: &str) -> Option<Demo> {
    match key {
        "base" => set("\"brief\""),
        "top_drop_front" => off_mm(60.0, BY_BASE),
        "top_drop_side" => off_mm(50.0, BY_BASE),
        "top_drop_back" => off_mm(40.0, BY_BASE),
        "side_seam" => off_mm(90.0, BY_BASE),
        "front_scoop" => off("0.45", BY_BASE),
        "back_cover" => off("0.62", BY_BASE),
        "back_share" => off("0.52", BY_BASE),
        "leg_edge" => off_mm(560.0, "else as the shape gives it"),
        _ => None,
    }
}

fn demo_gusset(key: &str) -> Option<Demo> {
    const BY_BODY: &str = "else from the body and the base";
    match key {
        "length" => off_mm(140.0, BY_BODY),
        "width" => off_mm(65.0, BY_BODY),
        "front_width" => off_mm(75.0, BY_BODY),
        "back_width" => off_mm(120.0, BY_BODY),
        "forward" => off("0.36", "default"),
        "layers" => set("2"),
        "lining" => set("\"enclosed\""),
        _ => None,
    }
}

fn demo_seams(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"overlock\""),
        "side" | "gusset" => {
            off_mm(7.0, "else by the kind of seam; knit overlocked 7 mm, zigzag 8, lockstitch 10; woven 12")
        }
        _ => None,
    }
}

fn demo_top(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"turned\""),
        "elastic" => set("\"soft 12\""),
        "reduction" => set("8"),
        "length" => off_mm(760.0, "in place of reduction"),
        "from" => off("\"body\"", "in place of reduction"),
        "put_on" => set("\"flat\""),
        "sections" => off("{ back = 10 }", "front and back at the top"),
        "depth" => off_mm(10.0, "default"),
        "width" => off_mm(30.0, "default"),
        _ => demo_any_finish(key),
    }
}

fn demo_legs(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"trim\""),
        "elastic" => set("\"soft 8\""),
        "reduction" => set("0"),
        "length" => off_mm(540.0, "in place of reduction"),
        "from" => None,
        "put_on" => set("\"flat\""),
        "sections" => off("{ back = 10 }", "the back of a leg can carry more"),
        "depth" => off_mm(7.0, "default"),
        "width" => off_mm(20.0, "default"),
        _ => demo_any_finish(key),
    }
}

/// Keys with the same default on every opening.
fn demo_any_finish(key: &str) -> Option<Demo> {
    match key {
        "marks" => set("\"quarters\""),
        "spread" => set("\"even\""),
        "overlap" => Some(Demo::Off(Sample::ByUnit { metric: Metric::Mm(20.0), inch: "1" }, "default")),
        "bite" => off_mm(3.0, "default"),
        "reach" => off("\"keep\"", "default"),
        "lap" => off_mm(6.0, "default"),
        "room" => off_mm(3.0, "default"),
        "catch" => off_mm(2.0, "default"),
        "turn" => off("0", "default"),
        _ => None,
    }
}

fn demo_one_leg(key: &str) -> Option<Demo> {
    match key {
        "kind" => off("\"hem\"", ""),
        "depth" => off_mm(7.0, "default"),
        _ => None,
    }
}

fn demo_elastic(key: &str, width: f64, picot: f64) -> Option<Demo> {
    match key {
        "width" => set_mm(width),
        "picot" => Some(Demo::Set(Sample::Mm(picot))),
        "stretch" => set("100"),
        "growth" => off("0", "default"),
        "latex" => set("false"),
        "pull" => {
            off("[[25, 60], [50, 110], [100, 220]]", "the same in every unit; without it the pressure is unknown")
        }
        _ => None,
    }
}

fn demo_print(key: &str) -> Option<Demo> {
    match key {
        "paper" => Some(Demo::Set(Sample::ByUnit { metric: Metric::Plain("\"A4\""), inch: "\"Letter\"" })),
        "margin" | "overlap" => off_mm(10.0, "default"),
        _ => None,
    }
}

fn demo_trial(key: &str) -> Option<Demo> {
    match key {
        "date" => off("2026-03-02", ""),
        "edge" => off("\"left leg\"", ""),
        "reduction" => off("10", ""),
        "verdict" => off("\"tight\"", ""),
        "note" => off("\"marks after an hour\"", ""),
        _ => None,
    }
}

fn title(path: &str) -> &'static str {
    match path {
        "sheet" => "This file",
        "body" => "The body",
        "fabric" => "The cloth",
        "style" => "The shape",
        "gusset" => "The gusset",
        "seams" => "The seams",
        "finish.top" => "The top edge",
        "finish.legs" => "Both leg edges",
        "finish.left_leg" => "The left leg alone",
        "finish.right_leg" => "The right leg alone",
        "elastic" => "The elastics",
        "print" => "Printing at home",
        _ => "Trials",
    }
}

fn intro(path: &str, units: Units) -> String {
    let text = match path {
        "body" => {
            "Tie a thin ribbon or elastic round the waist first and leave it there: it is the waist level, and \
             every depth starts from it. Mark the hip level the same way."
        }
        "fabric" => "Test the cloth as you will cut it, washed if you wash it first.",
        "style" => "A base, and any knob set over it. What you do not set comes from the base and the body.",
        "gusset" => "Finished sizes.",
        "seams" => "Allowances are added outside the sewing line.",
        "finish.top" => "Each opening is finished in its own way. Flat or round decides the order of sewing.",
        "finish.legs" => "The same keys as for the top edge; from = \"body\" is for the top only.",
        "finish.left_leg" => {
            "Only where the legs differ: keys set here replace those for both legs, one by one, and any key of a \
             finish can be set. Take the # away from the head as well."
        }
        "finish.right_leg" => "The same for the other leg.",
        "elastic" => "One section for each elastic that is named above, under the name you give it.",
        "trial" => "What each test garment taught. One block for each edge that was judged.",
        _ => "",
    };
    match (path, units) {
        ("body", Units::In) => format!("{text} To the nearest eighth of an inch is good."),
        ("body", _) => format!("{text} To the nearest half centimetre is good."),
        _ => text.to_owned(),
    }
}

fn rule(title: &str) -> String {
    let line = format!("# ---- {title} ");
    format!("{line:-<WIDTH$}\n")
}

/// Paragraphs as comment lines.
fn comment(text: &str) -> String {
    let mut out = String::new();
    for paragraph in text.split('\n').filter(|_| !text.is_empty()) {
        let mut line = "#".to_owned();
        for word in paragraph.split(' ').filter(|word| !word.is_empty()) {
            if line.chars().count() + word.chars().count() + 1 > WIDTH {
                out.push_str(&format!("{line}\n"));
                line = "#".to_owned();
            }
            line.push(' ');
            line.push_str(word);
        }
        out.push_str(&format!("{line}\n"));
    }
    // What must not be torn apart was joined by a space that does not break.
    out.replace('\u{a0}', " ")
}
