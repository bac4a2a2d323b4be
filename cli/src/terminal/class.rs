//! What came of a class, for the teacher.

use super::{heading, plain, wrapped};
use crate::commands::class::entry::{Entry, Files, Status};
use crate::commands::class::total::{By, ClothBuy, Total};
use crate::people::Reason;
use engine::quantity::Units;
use engine::sheet::Paper;
use engine::words::{Speech, shopping};
use std::path::Path;

/// What there is to know beside the people.
pub(crate) struct Shown<'a> {
    /// The folder of the class; none where nothing was written.
    pub(crate) into: Option<&'a Path>,
    pub(crate) units: Units,
    /// Somebody of the table whose own sheet the base is.
    pub(crate) whose: Option<&'a str>,
    /// Of lengths in the table, where it does not say.
    pub(crate) table_units: Units,
    pub(crate) paper: Paper,
    /// In so many rows there are fractions where lengths are not in inches.
    pub(crate) fractions: usize,
    /// Columns that mean nothing.
    pub(crate) unused: &'a [String],
    /// Folders of people of earlier runs.
    pub(crate) gone: &'a [String],
    /// Files of a lay of an earlier run.
    pub(crate) older: &'a [String],
    /// Those who were not wanted this time, and have no files that hold.
    pub(crate) left_out: &'a [String],
}

/// Pages first, then what became of everybody, and what to buy.
pub(crate) fn render(entries: &[Entry], total: &Total, shown: &Shown<'_>) -> String {
    let mut out: String = head(entries, total, shown).iter().map(|line| wrapped(line, 0) + "\n").collect();
    out += &told("Cannot be read", entries, Status::Unreadable);
    out += &told("Refused", entries, Status::Refused);
    out += &told("Not written", entries, Status::Unwritten);
    let rest = if shown.into.is_some() { Rest::InSummary } else { Rest::Here };
    let odd = odd(entries, "everybody", rest);
    if !odd.is_empty() {
        out += &heading("Odd, to look at");
        out.extend(odd.iter().map(|line| format!("  {}\n", wrapped(line, 4))));
    }
    out += &gone_folders("people who", shown.gone);
    if !shown.older.is_empty() {
        let files: Vec<String> = shown.older.iter().map(|file| plain(file)).collect();
        let said = format!(
            "Of the lay of an earlier run, with the pieces of then: {}. Do not cut by it: lay everybody again with \
             --lay, or take the files out",
            files.join(", ")
        );
        out += &format!("\n{}\n", wrapped(&said, 0));
    }
    out += &to_buy(total, shown.units);
    if let Some(into) = shown.into {
        let lay = if total.cloths.iter().any(|c| c.by == By::Outlines) { " the lay," } else { "" };
        out += &format!(
            "\nWritten to {}: a folder for each person,{lay} class.pdf, summary.csv and class.json\n",
            plain(&into.display().to_string())
        );
    }
    out
}

/// Folders of earlier runs that are nobody's of this one; nothing where there are none.
pub(crate) fn gone_folders(whose: &str, gone: &[String]) -> String {
    let folders: Vec<String> = gone.iter().map(|folder| plain(folder)).collect();
    let said = format!(
        "Folders of {whose} are not in the table any more, with all that is in them: {}. Take out what is not \
         wanted",
        folders.join(", ")
    );
    if folders.is_empty() { String::new() } else { format!("\n{}\n", wrapped(&said, 0)) }
}

/// The first lines: pages, people, units.
pub(crate) fn head(entries: &[Entry], total: &Total, shown: &Shown<'_>) -> Vec<String> {
    let units = shown.table_units.name();
    let lengths = format!("Lengths in the table are {units} where no row, column or cell says another unit");
    let whose = shown.whose.map(|whose| {
        let whose = plain(whose);
        format!("The base is the sheet of {whose}: what was chosen for {whose} alone would be everybody's")
    });
    // Before all else: what somebody wrote there is in nobody's pattern.
    let columns: Vec<String> = shown.unused.iter().map(|c| plain(c)).collect();
    let unused = (!columns.is_empty()).then(|| format!("Columns that are not used: {}", columns.join(", ")));
    let fractions = (shown.fractions > 1).then(|| {
        format!("There are fractions in {} rows: where the table is in inches, say --units in", shown.fractions)
    });
    let more = fractions.into_iter().chain(unused).chain(part(shown.left_out)).chain(whose);
    [pages(total, shown), count(entries, shown), lengths].into_iter().chain(more).collect()
}

/// That some of the class are in none of the lists, and who; nothing where all are.
pub(crate) fn part(left_out: &[String]) -> Option<String> {
    let names: Vec<String> = left_out.iter().map(|name| plain(name)).collect();
    (!names.is_empty())
        .then(|| format!("This is a part of the class: not in it, and not in what to buy, are {}", names.join(", ")))
}

fn pages(total: &Total, shown: &Shown<'_>) -> String {
    let paper = match Paper::NAMED.iter().find(|(_, paper)| *paper == shown.paper) {
        Some((name, _)) => (*name).to_owned(),
        None => "a roll".to_owned(),
    };
    format!("Pages to print: {} on {paper}", total.pages)
}

fn count(entries: &[Entry], shown: &Shown<'_>) -> String {
    let of = |status| entries.iter().filter(|e| e.status == status).count();
    let done = |e: &&Entry| e.status == Status::Done;
    let files =
        |files| entries.iter().filter(done).filter(|e| e.pair.as_ref().is_some_and(|p| p.files == files)).count();
    let n = |n: usize, what: &str| if n == 0 { String::new() } else { format!(", {n} {what}") };
    let (done, all) = (of(Status::Done), entries.len());
    let verb = if shown.into.is_some() { "done" } else { "would be done" };
    format!(
        "People: {done} of {all} {verb}{}{}{}{}{}",
        n(files(Files::Unchanged), "of them unchanged and left as they were"),
        n(of(Status::Unwritten), "whose files could not be written"),
        n(of(Status::Refused), "refused"),
        n(of(Status::Unreadable), "that cannot be read"),
        n(shown.left_out.len(), "left out"),
    )
}

/// Those who ended so, each with the reasons.
pub(crate) fn told(title: &str, entries: &[Entry], status: Status) -> String {
    let told: Vec<&Entry> = entries.iter().filter(|e| e.status == status && !e.reasons.is_empty()).collect();
    if told.is_empty() {
        return String::new();
    }
    let mut out = heading(title);
    let columns = columns_missing(&told);
    for (reason, of) in &columns {
        let names = if of.len() == told.len() { "all of them".to_owned() } else { named(of) };
        let text = format!("{names}: no column of the table is for it: {} [{}]", reason.text, reason.code);
        out += &format!("  {}\n", wrapped(&text, 4));
    }
    for entry in told {
        let is_told = |reason: &&Reason| columns.iter().any(|(other, _)| is_alike(other, reason));
        let others: Vec<&Reason> = entry.reasons.iter().filter(|reason| !is_told(reason)).collect();
        if others.is_empty() {
            continue;
        }
        let name = if entry.name.is_empty() { "(no name)".to_owned() } else { plain(&entry.name) };
        out += &format!("  {name}\n");
        for reason in others {
            out += &format!("    {}\n", wrapped(&format!("{} [{}]", reason.whole(), reason.code), 6));
        }
    }
    out
}

/// What a table has no column for, told once for several people.
fn columns_missing<'e>(told: &[&'e Entry]) -> Vec<(&'e Reason, Vec<&'e Entry>)> {
    let mut all: Vec<(&Reason, Vec<&Entry>)> = Vec::new();
    for (entry, reason) in told.iter().flat_map(|entry| entry.reasons.iter().map(move |reason| (*entry, reason))) {
        match all.iter_mut().find(|(other, _)| is_alike(other, reason)) {
            Some((_, of)) => of.push(entry),
            None if reason.is_of_no_column() => all.push((reason, vec![entry])),
            None => {}
        }
    }
    all.retain(|(_, of)| of.len() > 1);
    all
}

fn is_alike(one: &Reason, other: &Reason) -> bool {
    (&one.code, &one.key, &one.text) == (&other.code, &other.key, &other.text) && other.is_of_no_column()
}

/// What is odd of those who were made, once for all of whom it is said.
pub(crate) fn odd(entries: &[Entry], all_of_them: &str, rest: Rest) -> Vec<String> {
    let mut said: Vec<(&Reason, Vec<&Entry>)> = Vec::new();
    for entry in entries.iter().filter(|e| e.status == Status::Done) {
        for reason in &entry.reasons {
            match said.iter_mut().find(|(other, _)| other.code == reason.code && other.text == reason.text) {
                Some((_, of)) => of.push(entry),
                None => said.push((reason, vec![entry])),
            }
        }
    }
    let of = |(reason, of): &(&Reason, Vec<&Entry>)| {
        let who = match of.as_slice() {
            [one] => format!("{}, {}", plain(&one.name), reason.place),
            all if all.len() == entries.len() => all_of_them.to_owned(),
            all => named(all),
        };
        format!("{who}: {}", reason.text)
    };
    let mut out = Vec::new();
    let mut codes: Vec<&str> = Vec::new();
    for (reason, _) in &said {
        if !codes.contains(&reason.code.as_str()) {
            codes.push(&reason.code);
        }
    }
    for code in codes {
        let alike: Vec<_> = said.iter().filter(|(reason, _)| reason.code == code).collect();
        let told = if rest == Rest::InSummary && alike.len() > ALIKE { WHOLE } else { alike.len() };
        out.extend(alike[..told].iter().map(|one| of(one)));
        let others: Vec<&Entry> = alike[told..].iter().flat_map(|(_, of)| of.iter().copied()).collect();
        if !others.is_empty() {
            out.push(format!("{}: the same with other numbers; summary.csv has them all", named(&others)));
        }
    }
    out
}

/// Where what is odd in one way, but each time with other numbers, is told to the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rest {
    /// Here.
    Here,
    /// In the summary, where there is much of it: a column in another unit makes every row odd.
    InSummary,
}

/// More than so many alike are much, and then so many are told whole.
const ALIKE: usize = 12;
const WHOLE: usize = 3;

/// The first of them, and how many more.
fn named(all: &[&Entry]) -> String {
    let names: Vec<String> = all.iter().take(NAMED).map(|e| plain(&e.name)).collect();
    let more = all.len().saturating_sub(NAMED);
    let more = if more == 0 { String::new() } else { format!(" and {more} more") };
    format!("{}{more}", names.join(", "))
}

/// So many are named of whom the same is said; the others stand in the summary.
const NAMED: usize = 8;

fn to_buy(total: &Total, units: Units) -> String {
    let mut out = heading("To buy");
    for (text, parts) in bought(total, units) {
        out += &format!("  {}\n", wrapped(&text, 2));
        if !parts.is_empty() {
            out += &format!("      {}\n", wrapped(&parts, 6));
        }
    }
    out
}

/// What to buy, a line each, with what it is the sum of.
pub(crate) fn bought(total: &Total, units: Units) -> Vec<(String, String)> {
    let (speech, buy) = (Speech(units), &total.shopping);
    let alone = |text: String| (text, String::new());
    let elastics = buy.elastics.iter().map(|e| (shopping::elastic(e, speech), shopping::elastic_parts(e, speech)));
    let cloths = total.cloths.iter().map(|c| alone(cloth(c, speech)));
    let threads = buy.threads.iter().map(|t| (shopping::thread(t, units), shopping::thread_parts(t, units)));
    let needles = buy.needles.iter().map(|n| alone(format!("needle, {}", shopping::needle(n))));
    let cost = total.cost().map(alone);
    elastics.chain(cloths).chain(threads).chain(needles).chain(cost).collect()
}

/// How much to buy of a cloth.
pub(crate) fn cloth(buy: &ClothBuy, speech: Speech) -> String {
    let pairs = if buy.pairs == 1 { "1 pair".to_owned() } else { format!("{} pairs", buy.pairs) };
    let cost = buy.cost.map(|cost| format!(", {}", shopping::money(cost))).unwrap_or_default();
    let how = match buy.by {
        By::Boxes => "laid box by box (--lay finds a shorter way)",
        By::Outlines => "laid by outlines",
    };
    match (buy.width, buy.length) {
        (Some(width), Some(length)) => {
            format!(
                "{}, {} wide: {}{cost}, for {pairs}, {how}",
                buy.name,
                speech.chosen(width),
                shopping::by_the_metre(length, speech.0)
            )
        }
        (Some(width), None) => {
            format!("{}, {} wide, for {pairs}: a piece is wider than the cloth", buy.name, speech.chosen(width))
        }
        (None, _) => format!("{}, for {pairs}: write `width` under [fabric] of the base to know how much", buy.name),
    }
}
