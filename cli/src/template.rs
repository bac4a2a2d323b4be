//! The sheet that `new` writes: every key with its unit and how to measure it, valid as it
//! stands, with invented values to write over.

mod demo;
mod in_force;
mod value;

use engine::base::Base;
use engine::finish::FinishKind;
use engine::keys::{Absent, Home, Key, Kind, Row, Sample, Section, Shape, finish};
use engine::quantity::Units;
use engine::sheet::{Opening, Paper};
use in_force::InForce;
use value::{Closeness, written};

/// Comments are wrapped to this many columns.
const WIDTH: usize = 88;

/// What stands behind a value starts in this column.
const NOTE_COLUMN: usize = 30;

/// A commented sheet in the given unit, with every key. It reads as it stands; keys that may stay
/// out are written with `#` before them and the value that holds without them, or an example.
pub fn commented_sheet(units: Units) -> String {
    let template = Template { units, written: demo::written(units), in_force: None };
    let in_force = InForce::of(&template.bare());
    Template { in_force, ..template }.commented()
}

struct Template {
    units: Units,
    written: Vec<(Key, Sample)>,
    in_force: Option<InForce>,
}

/// A line of the sheet: read, or shown behind `#`.
struct Line {
    off: &'static str,
    value: String,
}

impl Template {
    /// The values that are set, without a comment.
    fn bare(&self) -> String {
        let section = |home: &Home| {
            let own = self.written.iter().filter(|(key, _)| key.home() == home);
            let lines: String = own
                .map(|(key, sample)| format!("{} = {}\n", key.name(), written(*sample, self.units, Closeness::Tape)))
                .collect();
            if lines.is_empty() { lines } else { format!("{}\n{lines}", head(home)) }
        };
        demo::homes().iter().map(section).collect()
    }

    fn commented(&self) -> String {
        let mut out = comment(&preface(self.units));
        let mut last = None;
        for home in demo::homes() {
            out.push('\n');
            let Some(section) = Section::of(&home) else { continue };
            if last.replace(section.path) != Some(section.path) {
                out.push_str(&rule(section.title));
                out.push_str(&comment(&intro(section, self.units)));
            }
            let off = demo::is_begun(&home) || section.shape == Shape::List;
            out.push_str(&format!("{}{}\n", if off { "#" } else { "" }, head(&home)));
            out.push_str(&self.keys_text(section, &home));
        }
        out
    }

    /// The keys of a section; where each is explained, with some air between them.
    fn keys_text(&self, section: &Section, home: &Home) -> String {
        let texts = section.rows().map(|row| self.key_text(&Key::new(home.clone(), row)));
        let texts: Vec<String> = texts.filter(|text| !text.is_empty()).collect();
        let changes = if section.over.is_empty() { String::new() } else { self.changes() };
        texts.join(if explains(home) { "\n" } else { "" }) + &changes
    }

    /// What a variant changes, by dotted names.
    fn changes(&self) -> String {
        let line =
            |(key, sample): &(Key, Sample)| format!("#{key} = {}\n", written(*sample, self.units, Closeness::Tape));
        demo::changed().iter().map(line).collect()
    }

    fn key_text(&self, key: &Key) -> String {
        let Some(Line { off, value }) = self.line(key) else { return String::new() };
        let how = if explains(key.home()) { comment(&how(key)) } else { String::new() };
        let line = format!("{off}{} = {value}", key.name());
        let note = self.note(key, off);
        if note.is_empty() {
            return format!("{how}{line}\n");
        }
        let beside = format!("{line:<NOTE_COLUMN$} # {note}");
        if beside.chars().count() > WIDTH {
            return format!("{how}{}{line}\n", comment(&note));
        }
        format!("{how}{beside}\n")
    }

    /// What stands for a key: its value, else what holds without it, else an example.
    fn line(&self, key: &Key) -> Option<Line> {
        let of = |list: &[(Key, Sample)]| list.iter().find(|(known, _)| known == key).map(|(_, sample)| *sample);
        if let Some(sample) = of(&self.written) {
            return Some(Line { off: "", value: written(sample, self.units, Closeness::Tape) });
        }
        let begun = of(&demo::begun());
        if (demo::is_begun(key.home()) && begun.is_none()) || means_nothing(key) {
            return None;
        }
        let own = begun.filter(|sample| *sample != Sample::None);
        let in_force = self.in_force.as_ref().and_then(|all| all.value(key)).filter(|_| own.is_none());
        let (sample, closeness) = match (own, in_force) {
            (_, Some(sample)) => (sample, Closeness::Computed),
            (Some(sample), _) => (sample, Closeness::Tape),
            (None, None) => (key.row().example, Closeness::Tape),
        };
        let value = written(sample, self.units, closeness);
        (!value.is_empty()).then_some(Line { off: "#", value })
    }

    /// Unit, choice, whether it is needed, and what holds where it is not written.
    fn note(&self, key: &Key, off: &str) -> String {
        let row = key.row();
        let otherwise = match row.absent {
            Absent::Needed => "needed".to_owned(),
            _ if off.is_empty() || demo::is_begun(key.home()) => String::new(),
            Absent::Default("") => "default".to_owned(),
            Absent::Default(words) => format!("default, {words}"),
            Absent::Estimated(words) => format!("else estimated: {words}"),
            Absent::Derived(words) => format!("else {words}"),
            Absent::Nothing(words) => words.to_owned(),
        };
        let takers = if matches!(key.home(), Home::Finish(_)) { takers(key.name()) } else { String::new() };
        let parts = [unit(row, self.units), takers, otherwise];
        parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("; ")
    }
}

/// A key of a finish that nothing on this edge takes.
fn means_nothing(key: &Key) -> bool {
    let Home::Finish(edges) = key.home() else { return false };
    let Some(field) = finish::named(key.name()) else { return false };
    let is_of_the_top_alone = field == finish::FROM && edges.openings() != [Opening::Top];
    is_of_the_top_alone || !FinishKind::all().any(|kind| kind.takes_key(field))
}

fn preface(units: Units) -> String {
    let fractions = if units == Units::In { ", also as fractions in quotes such as \"29\u{a0}1/2\"" } else { "" };
    let unit = units.plural();
    format!(
        "A measurement sheet for knickers. Write your own numbers over the ones given here, which belong to nobody. \
         Lengths are in {unit}{fractions}; stretch, ease and reduction are in percent.\n\n\
         Measure over thin, close underwear, standing relaxed, feet together, breathing out. Keep the tape snug but \
         never tight, level where it goes round, and measure twice. All girths are full girths. Left and right are \
         the wearer's.\n\n\
         A line that starts with # is not read. Take the # away to set that key. Everything you leave out is filled \
         in, and listed as filled in: the values behind # are those that hold for the numbers given here."
    )
}

fn head(home: &Home) -> String {
    match Section::of(home).map_or(Shape::One, |section| section.shape) {
        Shape::List => format!("[[{}]]", home.path()),
        _ => format!("[{home}]"),
    }
}

/// Repeated sections say once how their keys are meant.
fn explains(home: &Home) -> bool {
    match home {
        Home::Finish(edges) => edges.openings() == [Opening::Top],
        Home::Alternative(_) | Home::Variant(_) => false,
        Home::Elastic(_) => demo::is_first_elastic(home),
        Home::Single(_) | Home::Trial(_) => true,
    }
}

fn how(key: &Key) -> String {
    let row = key.row();
    if *key == engine::keys::style::BASE.into() {
        return Base::all().map(base_words).collect::<Vec<_>>().join("; ") + ".";
    }
    if row.name == finish::KIND.name() && matches!(key.home(), Home::Finish(_)) {
        let kinds: Vec<String> = FinishKind::all().map(|k| format!("{}: {}", k.name(), k.summary())).collect();
        return kinds.join(".\n") + ".";
    }
    if row.advice.is_empty() { row.how.to_owned() } else { format!("{} {}", row.how, row.advice) }
}

fn base_words(base: Base) -> String {
    match base.shares().also {
        Some(also) => format!("{} (US {also})", base.name()),
        None => base.name().to_owned(),
    }
}

/// The unit of a key, or its choice.
fn unit(row: &Row, units: Units) -> String {
    match row.kind {
        Kind::Length(..) | Kind::Size(..) => units.name().to_owned(),
        Kind::Percent(..) => "%".to_owned(),
        Kind::Share(low, high) => format!("a share, {low} to {high}"),
        Kind::Price(..) => match units {
            Units::In => "money for a yard",
            Units::Cm | Units::Mm => "money for a metre",
        }
        .to_owned(),
        Kind::Word(words) => words().join(" | "),
        Kind::Finish => FinishKind::all().map(|k| k.name()).collect::<Vec<_>>().join(" | "),
        Kind::Paper(..) => {
            let names: Vec<&str> = Paper::NAMED.iter().map(|(name, _)| *name).collect();
            format!("{} | width of a roll", names.join(" | "))
        }
        Kind::YesNo => "true | false".to_owned(),
        Kind::Sections(..) => "% for front, gusset, back".to_owned(),
        Kind::Pull { .. } => "pairs of stretch in % and grams-force".to_owned(),
        Kind::Count(..) | Kind::Text | Kind::Note | Kind::Date => String::new(),
    }
}

/// Which finishes a key is for, where it is not for all that have an elastic.
fn takers(key: &str) -> String {
    let own: Vec<&str> =
        FinishKind::all().filter(|k| k.keys().iter().any(|own| own.name() == key)).map(|k| k.name()).collect();
    if own.is_empty() { String::new() } else { format!("for {}", own.join(", ")) }
}

fn intro(section: &Section, units: Units) -> String {
    let text = section.intro;
    match (section.path, units) {
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
