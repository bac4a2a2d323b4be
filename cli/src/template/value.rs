//! Values as a person writes them in a sheet.

use crate::sheet::number::short;
use engine::keys::Sample;
use engine::quantity::{Length, Units};

/// How closely a length is written: a measure of the body as one reads it off a tape, or a computed
/// one so closely that taking it in changes nothing one could cut.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Closeness {
    Tape,
    Computed,
}

/// As it stands behind the equals sign; nothing where there is no value.
pub(super) fn written(sample: Sample, units: Units, closeness: Closeness) -> String {
    match sample {
        Sample::None => String::new(),
        Sample::Mm(mm) if units == Units::In => inches(mm, closeness),
        Sample::Mm(mm) => {
            let tenth = (mm * 10.0).round() / 10.0;
            short(Length::from_mm(tenth).to(units))
        }
        Sample::Number(number) => short((number * 100.0).round() / 100.0),
        Sample::Text(text) => format!("\"{text}\""),
        Sample::Date(day) => day.to_owned(),
        Sample::YesNo(yes) => yes.to_string(),
        Sample::Sections(parts) => {
            let parts: Vec<String> =
                parts.iter().map(|(name, percent)| format!("{name} = {}", short(*percent))).collect();
            format!("{{ {} }}", parts.join(", "))
        }
        Sample::Pull(pairs) => {
            let pairs: Vec<String> = pairs.iter().map(|(a, b)| format!("[{}, {}]", short(*a), short(*b))).collect();
            format!("[{}]", pairs.join(", "))
        }
    }
}

/// In inches as one writes them: on a tape to a quarter, small ones to a sixteenth; computed ones
/// to a thirty-second.
fn inches(mm: f64, closeness: Closeness) -> String {
    let step = match closeness {
        Closeness::Tape if mm >= 150.0 => 8,
        Closeness::Tape => 2,
        Closeness::Computed => 1,
    };
    let n = (mm.abs() / 25.4 * 32.0 / f64::from(step)).round() as i64 * i64::from(step);
    let sign = if mm < 0.0 && n > 0 { "-" } else { "" };
    let (whole, rest) = (n / 32, n % 32);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let shift = rest.trailing_zeros();
    let fraction = format!("{}/{}", rest >> shift, 32 >> shift);
    if whole == 0 { format!("\"{sign}{fraction}\"") } else { format!("\"{sign}{whole} {fraction}\"") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_a_tape_reads() {
        let tape = |mm, units| written(Sample::Mm(mm), units, Closeness::Tape);
        assert_eq!(tape(710.0, Units::Cm), "71");
        assert_eq!(tape(710.0, Units::In), "28");
        assert_eq!(tape(8.0, Units::In), "\"5/16\"");
        let computed = |mm, units| written(Sample::Mm(mm), units, Closeness::Computed);
        assert_eq!(computed(88.37, Units::Cm), "8.84");
        assert_eq!(computed(88.37, Units::Mm), "88.4");
        assert_eq!(computed(88.37, Units::In), "\"3 15/32\"");
        assert_eq!(computed(-12.7, Units::In), "\"-1/2\"");
        assert_eq!(computed(25.4, Units::In), "1");
    }
}
