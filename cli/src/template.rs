//! The sheet that `new` writes: every key with its unit and how to measure it, valid as it
//! stands, with invented values to write over.

mod demo;

use demo::{Demo, demo};
use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::sheet::keys::{Kind, Row, SECTIONS, Section, Shape, finish};

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
    let off = matches!(section.path, "finish.left_leg" | "finish.right_leg" | "alternative" | "trial");
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
    let texts = section.rows().map(|key| key_text(path, key, units)).filter(|text| !text.is_empty());
    texts.collect::<Vec<_>>().join(if explains(path) { "\n" } else { "" })
}

fn key_text(path: &str, key: &Row, units: Units) -> String {
    let Some(demo) = demo(path, key.name) else { return String::new() };
    let is_finish = path.starts_with("finish.");
    if is_finish && !finish::named(key.name).is_some_and(|field| FinishKind::all().any(|kind| kind.takes_key(field))) {
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
    !matches!(path, "alternative" | "finish.legs" | "finish.left_leg" | "finish.right_leg" | "elastic.soft 8")
}

fn how(path: &str, key: &Row) -> String {
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
fn note_text(path: &str, key: &Row, units: Units, note: &str) -> String {
    let unit = match key.kind {
        Kind::Length(..) | Kind::Size(..) => units.name().to_owned(),
        Kind::Percent(..) => "%".to_owned(),
        Kind::Share(low, high) => format!("a share, {low} to {high}"),
        Kind::Word(words) => words().join(" | "),
        Kind::Paper(..) => {
            let names: Vec<&str> = Paper::NAMED.iter().map(|(name, _)| *name).collect();
            format!("{} | width of a roll", names.join(" | "))
        }
        Kind::YesNo => "true | false".to_owned(),
        Kind::Sections(..) => "% for front, gusset, back".to_owned(),
        Kind::Pull { .. } => "pairs of stretch in % and grams-force".to_owned(),
        Kind::Count(..) | Kind::Text | Kind::Note | Kind::Date => String::new(),
    };
    let need = if key.is_needed() { "needed" } else { "" };
    let takers = if path.starts_with("finish.") { takers(key.name) } else { String::new() };
    let parts = [unit.as_str(), need, takers.as_str(), note];
    parts.iter().filter(|p| !p.is_empty()).copied().collect::<Vec<_>>().join("; ")
}

/// Which finishes a key is for, where it is not for all that have an elastic.
fn takers(key: &str) -> String {
    let own: Vec<&str> =
        FinishKind::all().filter(|k| k.keys().iter().any(|own| own.name() == key)).map(|k| k.name()).collect();
    if own.is_empty() { String::new() } else { format!("for {}", own.join(", ")) }
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
        "alternative" => "Other finishes to compare",
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
        "alternative" => {
            "The same pattern with an edge finished in another way: the print has its lines on a layer of its own, and \
             --alternative makes every file of it. Any key of a finish can be set, over what is said above."
        }
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
