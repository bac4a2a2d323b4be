//! A value as it stands in a cell of a table: without quotes, perhaps with a decimal comma, its unit
//! or the sign of percent.

use super::value::length::{split_unit, unit_named};
use super::value::{Value, Wrong, typed};
use engine::finish::FinishKind;
use engine::keys::{Kind, Row};
use engine::quantity::Units;
use toml::Spanned;
use toml::de::DeValue;

/// Reads a cell as the key wants it, by the readers of a sheet. `units` is what holds where the cell
/// does not say its unit.
pub(super) fn typed_cell(key: &Row, cell: &str, units: Units) -> Result<Value, Wrong> {
    let cell = cell.trim();
    match key.kind {
        Kind::Length(..) | Kind::Size(..) => length(key, cell, units),
        Kind::Paper(..) => number(key, cell, units),
        Kind::Percent(..) => number(key, cell.trim_end_matches('%').trim_end(), units),
        Kind::Share(..) | Kind::Price(..) | Kind::Count(..) => number(key, cell, units),
        Kind::Text | Kind::Note => read(key, &text(cell), units),
        Kind::Word(words) => read(key, &word(cell, &words()), units),
        Kind::Finish => read(key, &word(cell, &FinishKind::all().map(|kind| kind.name()).collect::<Vec<_>>()), units),
        Kind::YesNo => read(key, &yes_or_no(cell), units),
        // Written as in a sheet; what cannot be read so is text, and refused as such.
        Kind::Date | Kind::Pull { .. } | Kind::Sections(..) => {
            let written = DeValue::parse(cell).map_or_else(|_| text(cell), Spanned::into_inner);
            read(key, &written, units)
        }
    }
}

fn read(key: &Row, value: &DeValue<'_>, units: Units) -> Result<Value, Wrong> {
    // A part of a cell is not pointed at.
    typed(key, &Spanned::new(0..0, value.clone()), Some(units)).map_err(|wrong| Wrong { at: None, ..wrong })
}

/// A length; a cell that says its unit means that.
fn length(key: &Row, cell: &str, units: Units) -> Result<Value, Wrong> {
    let (digits, own) = match split_unit(cell) {
        (digits, Some(suffix)) => match unit_named(suffix) {
            Some(unit) => (digits, unit),
            None => (cell, units),
        },
        (digits, None) => (digits, units),
    };
    number(key, digits, own)
}

fn text(cell: &str) -> DeValue<'static> {
    DeValue::String(cell.to_owned().into())
}

/// A plain number as TOML writes it, else text.
fn number(key: &Row, cell: &str, units: Units) -> Result<Value, Wrong> {
    let plain = plain_number(cell);
    match plain.as_deref().map(DeValue::parse) {
        Some(Ok(parsed)) => read(key, parsed.get_ref(), units),
        _ => read(key, &text(cell), units),
    }
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
fn word(cell: &str, words: &[&'static str]) -> DeValue<'static> {
    text(words.iter().find(|known| known.eq_ignore_ascii_case(cell)).copied().unwrap_or(cell))
}

fn yes_or_no(cell: &str) -> DeValue<'static> {
    match cell.to_lowercase().as_str() {
        "yes" | "y" | "true" | "x" | "1" => DeValue::Boolean(true),
        "no" | "n" | "false" | "0" | "-" => DeValue::Boolean(false),
        _ => text(cell),
    }
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
