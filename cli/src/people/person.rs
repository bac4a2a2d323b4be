//! One row: who it is, what she measures, and what is wrong with it.

use super::column::{Column, Meaning, name_rank};
use super::grid::Line;
use crate::sheet::typed_length;
use crate::sheet::{Base, Entry, Fault, unit_named};
use engine::keys::Key;
use engine::quantity::Units;
use engine::sheet::Sheet;

/// Somebody of the table.
#[derive(Clone, Debug)]
pub struct Person {
    /// Her row, as the file counts it.
    pub row: usize,
    /// As written; empty where it is not.
    pub name: String,
    /// What her papers and her folder are called after: the name, with a number where somebody before her has
    /// the same.
    pub called: String,
    /// The rows of others who are called the same.
    pub(super) namesakes: Vec<usize>,
    /// Her row as it is written, from the first column.
    pub cells: Vec<String>,
    values: Vec<Value>,
    /// What the row says of its unit, where that is no unit.
    bad_units: Option<(Column, String)>,
}

/// A cell with something in it.
#[derive(Clone, Debug)]
struct Value {
    key: Key,
    column: Column,
    cell: String,
    units: Units,
}

/// What there is to say of a person: why nothing was made for her, or what is odd.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    /// Stable, for programs.
    pub code: String,
    /// A dotted key of the sheet, or a part of the garment.
    pub key: String,
    /// Where in the table: `row 5, column C (hips), “98”`.
    pub place: String,
    /// What it is, and what to do.
    pub text: String,
}

impl Reason {
    /// With its place.
    pub fn whole(&self) -> String {
        format!("{}: {}", self.place, self.text)
    }

    /// Is it of something that the table has no column for?
    pub(crate) fn is_of_no_column(&self) -> bool {
        self.place.ends_with(NO_COLUMN)
    }
}

impl Person {
    /// Of a row; `units` is what lengths are in where it does not say.
    pub(super) fn of(line: &Line, columns: &[Column], units: Units) -> Self {
        let mut parts: Vec<&Column> = columns.iter().filter(|c| c.meaning == Meaning::Name).collect();
        parts.sort_by_key(|c| name_rank(&c.header));
        let parts: Vec<&str> = parts.iter().map(|c| line.cell(c.index)).filter(|part| !part.is_empty()).collect();
        let said = columns.iter().find(|c| c.meaning == Meaning::Units).map(|c| (c, line.cell(c.index)));
        let own = said.and_then(|(_, cell)| unit_named(cell));
        let bad_units = said.filter(|(_, cell)| !cell.is_empty() && own.is_none());
        let value = |column: &Column| match &column.meaning {
            Meaning::Key(key) if !line.cell(column.index).is_empty() => Some(Value {
                key: key.clone(),
                column: column.clone(),
                cell: line.cell(column.index).to_owned(),
                units: column.units.or(own).unwrap_or(units),
            }),
            _ => None,
        };
        let name = parts.join(" ");
        Self {
            row: line.number,
            called: name.clone(),
            name,
            namesakes: Vec::new(),
            cells: line.cells.clone(),
            values: columns.iter().filter_map(value).collect(),
            bad_units: bad_units.map(|(column, cell)| (column.clone(), cell.to_owned())),
        }
    }

    /// Her sheet: what she measures, laid over the base.
    ///
    /// # Errors
    /// Every [`Reason`] why it cannot be read, with row and column.
    pub fn sheet(&self, base: &Base, columns: &[Column]) -> Result<Sheet, Vec<Reason>> {
        self.laid(columns, |entries| base.with(&self.called, entries))
    }

    /// The sheet of a size, where the row is one: what it does not say is estimated.
    ///
    /// # Errors
    /// Every [`Reason`] why it cannot be read, with row and column.
    pub fn size(&self, base: &Base, columns: &[Column]) -> Result<Sheet, Vec<Reason>> {
        self.laid(columns, |entries| base.with_size(&self.called, entries))
    }

    fn laid(
        &self,
        columns: &[Column],
        over: impl FnOnce(&[Entry]) -> Result<Sheet, Vec<Fault>>,
    ) -> Result<Sheet, Vec<Reason>> {
        let mut reasons = self.of_the_row(columns);
        let sheet = over(&self.entries()).map_err(|faults| {
            // Lengths in a unit that is not known are no lengths yet.
            if self.bad_units.is_none() {
                reasons.extend(faults.iter().map(|fault| self.reason(fault, columns)));
            }
        });
        match sheet {
            Ok(sheet) if reasons.is_empty() => Ok(sheet),
            _ => Err(reasons),
        }
    }

    /// Every value that the row says.
    pub fn entries(&self) -> Vec<Entry> {
        let entry = |v: &Value| Entry { key: v.key.clone(), cell: v.cell.clone(), units: v.units };
        self.values.iter().map(entry).collect()
    }

    /// What a finding is about, where that is a cell of hers: `column C (hips), "98"`.
    pub fn cell_of(&self, key: &str) -> Option<String> {
        let value = self.values.iter().find(|v| v.key.to_string() == key)?;
        Some(format!("column {}, “{}”", value.column.shown(), short(&value.cell)))
    }

    /// Are there lengths in her row that can only be read as inches, and are not in inches?
    pub fn has_fractions(&self) -> bool {
        let is_of_inches =
            |cell: &str| typed_length(cell, Units::Cm).is_none() && typed_length(cell, Units::In).is_some();
        self.values.iter().any(|value| value.units != Units::In && is_of_inches(&value.cell))
    }

    /// Her name as a message quotes it.
    pub fn shown(&self) -> String {
        if self.name.is_empty() { "somebody without a name".to_owned() } else { short(&self.name) }
    }

    /// What is odd about the row itself, although it can be read.
    pub fn odd(&self) -> Option<Reason> {
        let others: Vec<String> = self.namesakes.iter().map(usize::to_string).collect();
        let rows = match others.as_slice() {
            [] => return None,
            [one] => format!("row {one} is"),
            _ => format!("rows {} are", others.join(", ")),
        };
        Some(Reason {
            code: "table.same_name".to_owned(),
            key: "sheet.name".to_owned(),
            place: format!("row {}", self.row),
            text: format!(
                "{rows} called {} as well; write names that tell them apart, or look that each gets her own: here \
                 she is “{}”, by her place in the table",
                self.shown(),
                short(&self.called)
            ),
        })
    }

    fn of_the_row(&self, columns: &[Column]) -> Vec<Reason> {
        let mut reasons = Vec::new();
        if self.name.is_empty() {
            let column = columns.iter().find(|c| c.meaning == Meaning::Name).map_or_else(String::new, Column::shown);
            reasons.push(Reason {
                code: "table.name".to_owned(),
                key: "sheet.name".to_owned(),
                place: format!("row {}, column {column}", self.row),
                text: "the name is missing; write who it is".to_owned(),
            });
        } else if is_of_all(&self.name) {
            reasons.push(Reason {
                code: "table.total".to_owned(),
                key: "sheet.name".to_owned(),
                place: format!("row {}", self.row),
                text: format!(
                    "“{}” reads like a row about all the others; take it out, or write another name",
                    short(&self.name)
                ),
            });
        } else if let Some((label, help)) = crate::sheet::flaw_of_name(&self.name) {
            reasons.push(Reason {
                code: "table.name".to_owned(),
                key: "sheet.name".to_owned(),
                place: format!("row {}", self.row),
                text: format!("the name “{}” {label}; {help}", short(&self.name)),
            });
        }
        reasons.extend(self.bad_units.iter().map(|(column, cell)| Reason {
            code: "table.units".to_owned(),
            key: "sheet.units".to_owned(),
            place: format!("row {}, column {}, “{}”", self.row, column.shown(), short(cell)),
            text: "this is no unit; write cm, mm or in".to_owned(),
        }));
        reasons
    }

    fn reason(&self, fault: &Fault, columns: &[Column]) -> Reason {
        let Fault { code, key, text, next } = fault;
        let is_it = |c: &&Column| matches!(&c.meaning, Meaning::Key(it) if it.to_string() == *key);
        let place = match (self.cell_of(key), columns.iter().find(is_it)) {
            (Some(cell), _) => format!(", {cell}"),
            (None, Some(column)) => format!(", column {}", column.shown()),
            (None, None) if *code == "table.missing" => format!(", {NO_COLUMN}"),
            (None, None) => String::new(),
        };
        Reason {
            code: (*code).to_owned(),
            key: key.clone(),
            place: format!("row {}{place}", self.row),
            text: format!("{text}; {next}"),
        }
    }
}

/// Ends the place of what the table has no column for.
const NO_COLUMN: &str = "no column for it";

/// Rows that spreadsheets have under their people.
const OF_ALL: [&str; 14] = [
    "average",
    "averages",
    "count",
    "grand total",
    "max",
    "maximum",
    "mean",
    "median",
    "min",
    "minimum",
    "subtotal",
    "sum",
    "total",
    "totals",
];

fn is_of_all(name: &str) -> bool {
    let name = name.trim_end_matches([':', '.', ' ']).to_lowercase();
    OF_ALL.contains(&name.as_str())
}

/// A text of the table as it is quoted in a message.
fn short(text: &str) -> String {
    let plain = |c: char| if c.is_control() { '\u{fffd}' } else { c };
    let mut short: String = text.chars().take(40).map(plain).collect();
    if text.chars().count() > 40 {
        short.push('…');
    }
    short
}
