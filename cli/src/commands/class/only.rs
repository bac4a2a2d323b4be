//! Which people are wanted alone.

use crate::commands::stop::Stop;
use crate::people::Person;
use crate::sheet::words::nearest;

/// Of everybody, whether she is wanted.
pub(super) fn chosen(persons: &[Person], only: &[String]) -> Result<Vec<bool>, Stop> {
    let mut chosen = vec![only.is_empty(); persons.len()];
    for wanted in only {
        let mut is_there = false;
        for (person, chosen) in persons.iter().zip(&mut chosen) {
            let names = [person.name.as_str(), person.called.as_str()];
            let is_meant = is_row(wanted, person.row) || names.contains(&wanted.trim());
            *chosen |= is_meant;
            is_there |= is_meant;
        }
        if !is_there {
            return Err(nobody(wanted, persons));
        }
    }
    Ok(chosen)
}

/// `5`, or `3-8`.
fn is_row(wanted: &str, row: usize) -> bool {
    let (first, last) = wanted.split_once('-').unwrap_or((wanted, wanted));
    match (first.trim().parse::<usize>(), last.trim().parse::<usize>()) {
        (Ok(first), Ok(last)) => (first..=last).contains(&row),
        _ => false,
    }
}

fn nobody(wanted: &str, persons: &[Person]) -> Stop {
    let shown = crate::terminal::plain(wanted);
    let next = match nearest(wanted, persons.iter().map(|p| p.name.as_str())) {
        Some(near) => format!("did you mean “{}”?", crate::terminal::plain(near)),
        None => "write the number of a row as the table counts it, such as 5 or 3-8, or a name as it stands there"
            .to_owned(),
    };
    Stop::plain(&format!("--only “{shown}”: there is nobody like that in the table"), &next)
}
