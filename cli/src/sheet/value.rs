//! One value of a sheet: from what was typed to a quantity, or to what is wrong with it.

mod flaw;
pub(super) mod length;

pub(super) use flaw::flaw;
pub(crate) use flaw::flaw_of_name;

use super::number::{self, Bad};
use super::problem::quoted;
use super::words::{listed, nearest};
use engine::finish::FinishKind;
use engine::keys::{Absent, Kind, Row, Sample};
use engine::quantity::{Length, Ratio, Units};
use engine::sheet::{Paper, Section};
use std::collections::BTreeMap;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeArray, DeString, DeValue};

/// A value that the key takes.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Value {
    Whole(i64),
    /// Free text, a word of a list, or a day.
    Text(String),
    Flag(bool),
    Length(Length),
    Percent(Ratio),
    Share(f64),
    /// Money.
    Price(f64),
    Paper(Paper),
    Pull(Vec<(Ratio, f64)>),
    Sections(BTreeMap<Section, Ratio>),
}

/// What is wrong with a value.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Wrong {
    /// A part of the value, where only a part is wrong.
    pub(super) at: Option<Range<usize>>,
    pub(super) title: String,
    pub(super) label: String,
    pub(super) help: String,
}

fn wrong(title: impl Into<String>, label: impl Into<String>, help: impl Into<String>) -> Wrong {
    Wrong { at: None, title: title.into(), label: label.into(), help: help.into() }
}

type Read = Result<Value, Wrong>;

/// Reads a value as its key wants it.
pub(super) fn typed(key: &Row, value: &Spanned<DeValue<'_>>, units: Option<Units>) -> Read {
    let cx = Context { key, units };
    let it = value.get_ref();
    match key.kind {
        Kind::Count(low, high) => cx.whole(it, low, high),
        Kind::Text => cx.text(it, Lines::One),
        Kind::Note => cx.text(it, Lines::Many),
        Kind::Word(words) => cx.word(it, &words()),
        Kind::Finish => cx.word(it, &FinishKind::all().map(|kind| kind.name()).collect::<Vec<_>>()),
        Kind::YesNo => it.as_bool().map(Value::Flag).ok_or_else(|| cx.mistyped(it, "true or false", "true")),
        Kind::Date => cx.date(it),
        Kind::Length(low, high) => cx.length(value, low, high, Nothing::Allowed).map(Value::Length),
        Kind::Size(low, high) => cx.length(value, low, high, Nothing::Refused).map(Value::Length),
        Kind::Percent(low, high) => {
            cx.number(value, low, high, "%").map(|percent| Value::Percent(Ratio::from_percent(percent)))
        }
        Kind::Share(low, high) => cx.number(value, low, high, "share").map(Value::Share),
        Kind::Price(low, high) => cx.number(value, low, high, "price").map(Value::Price),
        Kind::Paper(low, high) => cx.paper(value, low, high),
        Kind::Pull { stretch, pull, pairs } => cx.pull(it, (stretch, pull, pairs)),
        Kind::Sections(low, high) => cx.sections(it, low, high),
    }
}

/// Does a length of nothing make sense?
#[derive(Clone, Copy, PartialEq, Eq)]
enum Nothing {
    Allowed,
    Refused,
}

struct Context<'a> {
    key: &'a Row,
    units: Option<Units>,
}

impl Context<'_> {
    fn name(&self) -> &'static str {
        self.key.name
    }

    fn mistyped(&self, it: &DeValue<'_>, wanted: &str, example: &str) -> Wrong {
        wrong(
            format!("`{}` has to be {wanted}", self.name()),
            format!("this is {}", described(it)),
            format!("write it like this: {} = {example}", self.name()),
        )
    }

    fn whole(&self, it: &DeValue<'_>, low: i64, high: i64) -> Read {
        let wanted = if low == high { low.to_string() } else { format!("a whole number from {low} to {high}") };
        let number = it.as_integer().and_then(|n| i64::from_str_radix(n.as_str(), n.radix()).ok());
        match (number, it) {
            (Some(n), _) if (low..=high).contains(&n) => Ok(Value::Whole(n)),
            (_, DeValue::Integer(n)) => Err(wrong(
                format!("`{}` has to be {wanted}", self.name()),
                format!("{} is outside of that", quoted(n.as_str())),
                if low == high {
                    format!("this program reads {} {low} only", self.name())
                } else {
                    format!("write {low} or {high}")
                },
            )),
            _ => Err(self.mistyped(it, &wanted, &high.to_string())),
        }
    }

    fn text(&self, it: &DeValue<'_>, lines: Lines) -> Read {
        let Some(text) = it.as_str() else {
            return Err(self.mistyped(it, "text in quotes", "\"…\""));
        };
        match flaw(text, lines) {
            None => Ok(Value::Text(text.trim().to_owned())),
            Some((label, help)) => Err(wrong(format!("`{}` cannot be used as text", self.name()), label, help)),
        }
    }

    fn word(&self, it: &DeValue<'_>, words: &[&'static str]) -> Read {
        let choice = listed(words);
        let Some(word) = it.as_str() else {
            let example = format!("\"{}\"", words.first().unwrap_or(&""));
            return Err(self.mistyped(it, &format!("one of the words {choice}, in quotes"), &example));
        };
        if words.contains(&word) {
            return Ok(Value::Text(word.to_owned()));
        }
        let other_name = engine::base::Base::all().find(|b| b.shares().also == Some(word)).map(|b| b.name());
        let plain = word.to_lowercase().replace(['-', '_'], " ");
        let finish = FinishKind::all().find(|finish| finish.also().contains(&plain.as_str())).map(|f| f.name());
        let known = other_name.or(finish).filter(|name| words.contains(name));
        let near = known.or_else(|| nearest(word, words.iter().copied()));
        let label = match (near, other_name) {
            (Some(near), Some(_)) => format!("US word for \"{near}\""),
            (Some(near), None) => format!("did you mean \"{near}\"?"),
            (None, _) => "not one of the words".to_owned(),
        };
        Err(wrong(format!("unknown {} {}", self.name(), quoted(word)), label, format!("write {choice}")))
    }

    fn date(&self, it: &DeValue<'_>) -> Read {
        let example = "write the day only, year first and without quotes: 2026-03-02";
        let DeValue::Datetime(moment) = it else {
            return Err(wrong(
                format!("`{}` has to be a day", self.name()),
                format!("this is {}", described(it)),
                example,
            ));
        };
        match (moment.date, moment.time, moment.offset) {
            (Some(day), None, None) if (1900..=2999).contains(&day.year) => Ok(Value::Text(day.to_string())),
            (Some(_), None, None) => {
                Err(wrong(format!("`{}` is not in our time", self.name()), "year out of range", example))
            }
            _ => Err(wrong(format!("`{}` has to be a day", self.name()), "this has a time of day", example)),
        }
    }

    /// The number as it was typed; `None` for what is no number.
    fn digits<'v>(it: &'v DeValue<'_>) -> Option<&'v str> {
        match it {
            DeValue::Integer(n) if n.radix() == 10 => Some(n.as_str()),
            DeValue::Float(n) => Some(n.as_str()),
            _ => None,
        }
    }

    fn number(&self, value: &Spanned<DeValue<'_>>, low: f64, high: f64, what: &str) -> Result<f64, Wrong> {
        let it = value.get_ref();
        let (wanted, range) = match what {
            "%" => {
                ("a number of percent, without a sign", format!("{} to {} %", number::short(low), number::short(high)))
            }
            "share" => ("a share of one", format!("{} to {}", number::short(low), number::short(high))),
            "price" => ("a price, as a plain number", format!("{} to {}", number::short(low), number::short(high))),
            _ => ("a number", format!("{} to {} {what}", number::short(low), number::short(high))),
        };
        let example = number::short(if low < 0.0 { 0.0 } else { (low + high) / 2.0 });
        let Some(text) = Self::digits(it) else {
            let example = it.as_str().and_then(leading_number).map_or(example, str::to_owned);
            return Err(self.mistyped(it, wanted, &example));
        };
        match number::plain(text) {
            Ok(n) if (low..=high).contains(&n) => Ok(n),
            Ok(n) => Err(wrong(
                format!("`{}` is out of range", self.name()),
                format!("allowed: {range}"),
                match what {
                    "share" if n > 1.0 && (low..=high).contains(&(n / 100.0)) => {
                        format!("a share of one is wanted: {} for {} %", number::short(n / 100.0), number::short(n))
                    }
                    _ => format!("write a number from {range}"),
                },
            )),
            Err(bad) => Err(self.bad_number(bad, text)),
        }
    }

    fn bad_number(&self, bad: Bad, text: &str) -> Wrong {
        let (title, label) = match bad {
            Bad::NotFinite => ("is not a number that can be measured", "not finite".to_owned()),
            Bad::TooManyDigits => ("has more digits than can be kept", format!("{} digits", text.len())),
            Bad::TooLarge => ("is out of range", "far too large".to_owned()),
            Bad::Fraction => ("is not a fraction", "the part above has to be less than the part below".to_owned()),
            Bad::NotANumber => ("is not a number", quoted(text)),
        };
        let help = match self.key.kind {
            Kind::Length(low, high) | Kind::Size(low, high) => format!("write a length {}", self.range(low, high)),
            _ => "write a plain number such as 10 or 7.5".to_owned(),
        };
        wrong(format!("`{}` {title}", self.name()), label, help)
    }

    fn paper(&self, value: &Spanned<DeValue<'_>>, low: f64, high: f64) -> Read {
        let it = value.get_ref();
        if let Some(word) = it.as_str() {
            if let Some((_, paper)) = Paper::NAMED.iter().find(|(name, _)| *name == word) {
                return Ok(Value::Paper(*paper));
            }
            if !word.starts_with(|c: char| c.is_ascii_digit()) {
                let names: Vec<&'static str> = Paper::NAMED.iter().map(|(name, _)| *name).collect();
                return self
                    .word(it, &names)
                    .map_err(|w| Wrong { help: format!("{}, or the width of a roll as a number", w.help), ..w });
            }
        }
        let width = self.length(value, low, high, Nothing::Refused)?;
        Ok(Value::Paper(Paper::Roll(width)))
    }

    fn pull(&self, it: &DeValue<'_>, (most, strongest, longest): (f64, f64, usize)) -> Read {
        let example = "write pairs of stretch in % and grams-force: pull = [[25, 60], [50, 110]]";
        let bad = |at: Option<Range<usize>>, label: &str| Wrong {
            at,
            ..wrong(format!("`{}` is not a pull test", self.name()), label, example)
        };
        let rows = it.as_array().ok_or_else(|| bad(None, "not a list of pairs"))?;
        if rows.is_empty() || rows.len() > longest {
            return Err(bad(None, if rows.is_empty() { "no pairs" } else { "too many pairs" }));
        }
        let mut pairs: Vec<(Ratio, f64)> = Vec::new();
        for row in rows.iter() {
            let at = Some(row.span());
            let pair =
                row.get_ref().as_array().and_then(pair_of).ok_or_else(|| bad(at.clone(), "not a pair of numbers"))?;
            let (stretch, grams) = pair;
            if !(0.0..=most).contains(&stretch) || !(0.0..=strongest).contains(&grams) {
                return Err(bad(at, &format!("out of range: 0 to {most} %, 0 to {strongest} grams-force")));
            }
            if pairs.last().is_some_and(|(before, _)| before.percent() >= stretch) {
                return Err(bad(at, "its stretch is not more than the one before"));
            }
            pairs.push((Ratio::from_percent(stretch), grams));
        }
        Ok(Value::Pull(pairs))
    }

    fn sections(&self, it: &DeValue<'_>, low: f64, high: f64) -> Read {
        let example = "write a reduction in % for front, gusset or back: sections = { back = 10 }";
        let table =
            it.as_table().ok_or_else(|| wrong("`sections` is not a set of reductions", described(it), example))?;
        let mut sections = BTreeMap::new();
        for (key, value) in table.iter() {
            let (section, percent) = self.section(key, value, low, high)?;
            sections.insert(section, percent);
        }
        Ok(Value::Sections(sections))
    }

    fn section(
        &self,
        key: &Spanned<DeString<'_>>,
        value: &Spanned<DeValue<'_>>,
        low: f64,
        high: f64,
    ) -> Result<(Section, Ratio), Wrong> {
        let name = key.get_ref().as_ref();
        let words: Vec<&'static str> = Section::ALL.iter().map(|(word, _)| *word).collect();
        let Some((word, section)) = Section::ALL.iter().find(|(word, _)| *word == name) else {
            let near = nearest(name, words.iter().copied());
            let label = near.map_or("not a section of an edge".to_owned(), |near| format!("did you mean `{near}`?"));
            let unknown =
                wrong(format!("unknown section {}", quoted(name)), label, format!("write {}", listed(&words)));
            return Err(Wrong { at: Some(key.span()), ..unknown });
        };
        let one = Row {
            name: word,
            kind: Kind::Percent(low, high),
            absent: Absent::Nothing(""),
            how: "",
            advice: "",
            example: Sample::None,
        };
        let cx = Context { key: &one, ..*self };
        let percent = cx.number(value, low, high, "%").map_err(|w| Wrong { at: Some(value.span()), ..w })?;
        Ok((*section, Ratio::from_percent(percent)))
    }
}

/// Longest text that fits on a piece or in a note.
const MAX_TEXT: usize = 500;

/// May a text have several lines?
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Lines {
    One,
    Many,
}

fn pair_of(row: &DeArray<'_>) -> Option<(f64, f64)> {
    let number = |i: usize| Context::digits(row.get(i)?.get_ref()).and_then(|t| number::plain(t).ok());
    if row.len() == 2 { Some((number(0)?, number(1)?)) } else { None }
}

fn described(it: &DeValue<'_>) -> &'static str {
    match it {
        DeValue::String(_) => "text",
        DeValue::Integer(n) if n.radix() != 10 => "not a decimal number",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a section",
    }
}

/// The number a text starts with, if it does: `60` of `60 %`.
fn leading_number(text: &str) -> Option<&str> {
    let text = text.trim();
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != '-').unwrap_or(text.len());
    let digits = text.get(..end)?;
    number::plain(digits).ok().map(|_| digits)
}
