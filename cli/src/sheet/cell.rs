//! A value as it stands in a cell of a table: without quotes, perhaps with a decimal comma, its unit
//! or the sign of percent.

use super::value::length::{parse_in, split_unit, unit_named};
use super::value::{Value, Wrong, typed};
use engine::finish::FinishKind;
use engine::keys::{Kind, Row};
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::words::Speech;
use toml::Spanned;
use toml::de::DeValue;

/// Reads a cell as the key wants it, by the readers of a sheet. `units` is what holds where the cell
/// does not say its unit.
pub(super) fn typed_cell(key: &Row, cell: &str, units: Units) -> Result<Value, Wrong> {
    let (bare, own) = without_unit(key, cell, units);
    let is_length = matches!(key.kind, Kind::Length(..) | Kind::Size(..));
    read(key, &Meant::by(key, bare), own).map_err(|wrong| {
        if !is_length || own == Units::In || parse_in(bare, Units::In).is_none() || plain_number(bare).is_some() {
            return wrong;
        }
        // A sheet has one unit, a cell may have its own.
        Wrong {
            label: "a fraction is read with its unit".to_owned(),
            help: format!("write “{bare} in”, or “in” in a column “units” where all of the row is"),
            ..wrong
        }
    })
}

/// A cell as it is written into a sheet of this unit: in the reader's way where it can be read, else as
/// text, so that reading says what is wrong with it.
pub(super) fn as_toml(key: &Row, cell: &str, units: Units) -> toml_edit::Value {
    let (bare, own) = without_unit(key, cell, units);
    let meant = Meant::by(key, bare);
    if own != units {
        return match read(key, &meant, own) {
            Ok(Value::Length(length)) => Meant::plain(&Speech(units).as_written(length.mm())).written(),
            _ => cell.trim().into(),
        };
    }
    meant.written()
}

/// A cell with its unit, where it is a length: so it means the same in a sheet of another one.
pub(crate) fn with_unit(key: &Row, cell: &str, units: Units) -> String {
    let (bare, own) = without_unit(key, cell, units);
    if matches!(key.kind, Kind::Length(..) | Kind::Size(..)) {
        format!("{bare} {}", own.name())
    } else {
        bare.to_owned()
    }
}

/// A cell of one unit as it is typed into a sheet of another.
pub(super) fn retyped(key: &Row, cell: &str, from: Units, to: Units) -> String {
    if from == to {
        return cell.to_owned();
    }
    let value = as_toml(key, &with_unit(key, cell, from), to);
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

/// What a cell stands for in a sheet.
enum Meant {
    /// This text.
    Text(String),
    /// A value as TOML writes it.
    Toml(String),
}

impl Meant {
    fn by(key: &Row, cell: &str) -> Self {
        match key.kind {
            Kind::Percent(..) => Self::number(cell.trim_end_matches('%').trim_end()),
            Kind::Length(..) | Kind::Size(..) | Kind::Share(..) | Kind::Price(..) | Kind::Count(..) => {
                Self::number(cell)
            }
            Kind::Paper(..) => Self::number(word(cell, Paper::NAMED.iter().map(|(name, _)| *name))),
            Kind::Text | Kind::Note => Self::Text(cell.to_owned()),
            Kind::Word(words) => Self::Text(word(cell, words()).to_owned()),
            Kind::Finish => Self::Text(word(cell, FinishKind::all().map(|kind| kind.name())).to_owned()),
            Kind::YesNo => Self::yes_or_no(cell),
            // Written as in a sheet; what cannot be read so is text, and refused as such.
            Kind::Date | Kind::Pull { .. } | Kind::Sections(..) => Self::plain(cell),
        }
    }

    /// As TOML writes it, else text.
    fn plain(cell: &str) -> Self {
        let is_toml = cell.parse::<toml_edit::Value>().is_ok();
        if is_toml { Self::Toml(cell.to_owned()) } else { Self::Text(cell.to_owned()) }
    }

    fn number(cell: &str) -> Self {
        plain_number(cell).map_or_else(|| Self::Text(cell.to_owned()), Self::Toml)
    }

    fn yes_or_no(cell: &str) -> Self {
        match cell.to_lowercase().as_str() {
            "yes" | "y" | "true" | "x" | "1" => Self::Toml("true".to_owned()),
            "no" | "n" | "false" | "0" | "-" => Self::Toml("false".to_owned()),
            _ => Self::Text(cell.to_owned()),
        }
    }

    fn written(self) -> toml_edit::Value {
        match self {
            Self::Text(text) => text.into(),
            Self::Toml(text) => text.parse().unwrap_or_else(|_| text.into()),
        }
    }
}

/// A length whose cell says its unit means that.
fn without_unit<'c>(key: &Row, cell: &'c str, units: Units) -> (&'c str, Units) {
    let cell = cell.trim();
    if !matches!(key.kind, Kind::Length(..) | Kind::Size(..)) {
        return (cell, units);
    }
    match split_unit(cell) {
        (digits, Some(suffix)) => unit_named(suffix).map_or((cell, units), |unit| (digits, unit)),
        (digits, None) => (digits, units),
    }
}

fn read(key: &Row, meant: &Meant, units: Units) -> Result<Value, Wrong> {
    let value = match meant {
        Meant::Text(text) => DeValue::String(text.as_str().into()),
        Meant::Toml(text) => {
            DeValue::parse(text).map_or_else(|_| DeValue::String(text.as_str().into()), Spanned::into_inner)
        }
    };
    // A part of a cell is not pointed at.
    typed(key, &Spanned::new(0..0, value), Some(units)).map_err(|wrong| Wrong { at: None, ..wrong })
}

/// Digits with one point or comma: written as TOML takes them, `74,5` as `74.5`, `.5` as `0.5`.
fn plain_number(cell: &str) -> Option<String> {
    let (sign, digits) = match cell.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => ("-", rest),
        None => ("", cell.strip_prefix('+').unwrap_or(cell)),
    };
    let (whole, behind) = digits.split_once(['.', ',']).unwrap_or((digits, ""));
    let are_digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if !(are_digits(whole) && are_digits(behind)) || whole.len() + behind.len() == 0 {
        return None;
    }
    let whole = match whole.trim_start_matches('0') {
        "" => "0",
        rest => rest,
    };
    Some(if behind.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{behind}") })
}

/// The word of the list, in capitals or not.
fn word(cell: &str, words: impl IntoIterator<Item = &'static str>) -> &str {
    words.into_iter().find(|known| known.eq_ignore_ascii_case(cell)).unwrap_or(cell)
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::keys::{body, fabric, style};

    fn mm(cell: &str, units: Units) -> Option<f64> {
        match typed_cell(body::WAIST_GIRTH.row(), cell, units) {
            Ok(Value::Length(length)) => Some(length.mm()),
            _ => None,
        }
    }

    #[test]
    fn lengths_are_read_as_people_type_them_into_tables() {
        for cell in ["74.93", "74,93", " 74.93 ", "+74.930", "074,93", "749.3 mm", "29 1/2 in", "29½\"", "29.5in"] {
            assert_eq!(mm(cell, Units::Cm), Some(749.3), "{cell}");
        }
        for cell in ["29.5", "29,5", "29 1/2", "29½", "29-1/2", "74.93 cm", "74,93cm"] {
            assert_eq!(mm(cell, Units::In), Some(749.3), "{cell}");
        }
        for cell in ["", "seventy", "7 4", "1,074.5", "74 ells", "=74", "#DIV/0!", "29 1/2", "7.4", "inf", "1e3"] {
            assert_eq!(mm(cell, Units::Cm), None, "{cell}");
        }
    }

    #[test]
    fn other_cells_are_read_by_their_keys() {
        let percent = |cell| typed_cell(fabric::STRETCH_ACROSS.row(), cell, Units::Cm);
        assert_eq!(percent("60 %"), percent("60"));
        assert!(percent("60,5%").is_ok() && percent("much").is_err());
        let base = |cell| typed_cell(style::BASE.row(), cell, Units::Cm);
        assert_eq!(base("High Leg"), Ok(Value::Text("high leg".to_owned())));
        assert!(base("trousers").is_err_and(|wrong| wrong.help.contains("hipster")));
        let share = |cell| typed_cell(style::BACK_COVER.row(), cell, Units::Cm);
        assert_eq!(share(",5"), Ok(Value::Share(0.5)));
        let child = |cell| typed_cell(body::CHILD.row(), cell, Units::Cm);
        assert_eq!((child("Yes"), child("n")), (Ok(Value::Flag(true)), Ok(Value::Flag(false))));
        assert!(child("perhaps").is_err());
    }
}
