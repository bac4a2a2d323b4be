//! What a trial taught: one page.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{heading, plain, wrapped};
use engine::garment::{Garment, OpeningWalk};
use engine::keys::Edges;
use engine::sheet::{Sheet, Trial};
use engine::trial::remark::REMARKS;
use engine::trial::remedy::Remedy;
use engine::trial::{Lesson, Next};
use engine::words::number::{fixed, percent, short};
use engine::words::{Fineness, Speech, trial as words};
use std::path::Path;

/// What became of the sheet.
#[derive(Clone, Copy, Debug)]
pub struct Told<'a> {
    /// Its file.
    pub sheet: &'a Path,
    /// The copy of what was there before, where something was written.
    pub undo: Option<&'a Path>,
    /// As it is now.
    pub new: &'a Sheet,
    /// As many of its trials are new.
    pub new_trials: usize,
    /// Remarks as they were typed.
    pub fit: &'a [String],
    /// Were the changes written?
    pub applied: bool,
    /// The picture of the new garment over the old one.
    pub picture: Option<&'a Path>,
}

/// The page. `old` is today's garment.
pub fn render(lesson: &Lesson, old: &Garment, told: &Told<'_>) -> String {
    let say = Speech(old.units);
    let page = [
        recorded(told),
        next(lesson),
        contradictions(lesson),
        remedies(lesson, say),
        changes(lesson, old, say),
        checks(lesson, old, say),
        to_do(lesson, told),
        format!("\n{}\n", wrapped(CAUTION, 0)),
    ];
    page.concat().trim_start().to_owned()
}

/// Beside every proposal.
const CAUTION: &str = "Deep marks, numbness, tingling or swelling mean loosen it, whatever is proposed here.";

fn recorded(told: &Told<'_>) -> String {
    let Some(undo) = told.undo else { return String::new() };
    let trials = &told.new.trials;
    let (known, new_ones) = trials.split_at(trials.len() - told.new_trials.min(trials.len()));
    let lines: String = new_ones.iter().map(|trial| format!("  {}\n", wrapped(&words::tried(trial), 4))).collect();
    let head = format!("Written into {}; as it was before: {}", told.sheet.display(), undo.display());
    let doubt = if is_another(known, new_ones) {
        format!("  {}\n", wrapped(IS_ANOTHER, 2))
    } else if sewn_alike(new_ones) {
        format!("  {}\n", wrapped(AS_SEWN, 2))
    } else {
        String::new()
    };
    heading(&plain(&head)) + &lines + &doubt
}

const AS_SEWN: &str = "By the sheet both legs were sewn alike, and they did not feel alike. Were they sewn so? If not, \
    write what was sewn, such as `reduction = 10` under [finish.right_leg], into the sheet as it was before, and judge \
    it again.";

const IS_ANOTHER: &str = "A trial of today was of another garment, and the sheet has changed since. Was this one sewn \
    and worn? If not, put the sheet back as it was before.";

/// Was an edge judged before, on the same day, when it had another length?
fn is_another(known: &[Trial], new: &[Trial]) -> bool {
    let of = |t: &Trial| (t.date.clone(), t.edge, t.section);
    new.iter().any(|now| known.iter().any(|then| of(then) == of(now) && then.length != now.length))
}

/// Were both legs sewn with one setting, and judged otherwise?
fn sewn_alike(trials: &[Trial]) -> bool {
    let of = |edge: Edges| trials.iter().find(|trial| trial.edge == edge && trial.section.is_none());
    let (Some(left), Some(right)) = (of(Edges::LeftLeg), of(Edges::RightLeg)) else { return false };
    left.reduction == right.reduction && left.verdict != right.verdict && left.elastic == right.elastic
}

fn next(lesson: &Lesson) -> String {
    let heads =
        [("edge", Left), ("now", Right), ("proposal", Right), ("between", Right), ("sure", Right), ("try next", Left)];
    let mut table = Columns::new(&heads);
    for next in &lesson.next {
        table.line([
            words::spot(next.spot),
            now(next),
            percent(next.proposal),
            format!("{} to {}", short(next.low, 0), percent(next.high.round())),
            format!("{} %", short(100.0 * next.chance, 0)),
            to_try(next),
        ]);
    }
    let why: String = lesson.next.iter().map(why).collect();
    heading("The next setting (how much shorter than its line what is sewn on is)") + &table.text() + &why
}

/// Of both legs, where they differ.
fn now(next: &Next) -> String {
    let mut all: Vec<String> = next.now.iter().map(|setting| short(*setting, 1)).collect();
    all.dedup();
    format!("{} %", all.join(" and "))
}

fn to_try(next: &Next) -> String {
    match next.pair {
        Some(_) if next.converged => "sew both so".to_owned(),
        Some((left, right)) if left == right => format!("both {}", percent(left)),
        Some((left, right)) => format!("left {}, right {}", percent(left), percent(right)),
        None if next.judged.is_empty() => "not judged yet".to_owned(),
        None => percent(next.again.unwrap_or(next.proposal)),
    }
}

fn why(next: &Next) -> String {
    format!("  {}\n", wrapped(&format!("{}: {}.", words::spot(next.spot), words::why(next)), 2))
}

fn contradictions(lesson: &Lesson) -> String {
    let of =
        |next: &Next| next.contradictions.iter().map(|found| words::contradiction(next, found)).collect::<Vec<_>>();
    let lines: String = lesson.next.iter().flat_map(of).map(|line| format!("  {}\n", wrapped(&line, 2))).collect();
    if lines.is_empty() { lines } else { heading("What does not go together") + &lines }
}

fn remedies(lesson: &Lesson, say: Speech) -> String {
    if lesson.remedies.is_empty() {
        return String::new();
    }
    let all: String = lesson.remedies.iter().map(|remedy| one_remedy(remedy, say)).collect();
    let conflicts: String =
        lesson.conflicts.iter().map(|c| format!("  {}\n", wrapped(&words::conflict(c), 2))).collect();
    heading("What was seen, and what is done about it") + &all + &conflicts
}

fn one_remedy(remedy: &Remedy, say: Speech) -> String {
    let remark = remedy.said.remark.row().words;
    if remedy.changes.is_empty() {
        return format!("  {}\n", wrapped(&format!("{remark}: nothing; {}", words::unchanged(remedy)), 4));
    }
    let changes: Vec<String> = remedy.changes.iter().map(|change| words::changed(change, say)).collect();
    let text = format!("{remark}: {}. Why: {}", changes.join("; "), words::remedy(remedy));
    format!("  {}\n", wrapped(&text, 4))
}

/// New against old: edges, elastics and how they are worn.
fn changes(lesson: &Lesson, old: &Garment, say: Speech) -> String {
    if lesson.changes.is_empty() {
        return String::new();
    }
    let unit = say.unit();
    let [edge, joined, cut] = [format!("edge {unit}"), format!("elastic joined {unit}"), format!("cut {unit}")];
    let mut heads = vec![
        ("opening", Left),
        (edge.as_str(), Right),
        (joined.as_str(), Right),
        (cut.as_str(), Right),
        ("worn stretch", Right),
    ];
    let is_known = [old, &lesson.garment].iter().any(|g| g.openings.iter().any(|o| o.worn.pressure_kpa.is_some()));
    heads.extend(is_known.then_some(("presses kPa", Right)));
    let mut table = Columns::new(&heads);
    for (was, is) in old.openings.iter().zip(&lesson.garment.openings) {
        let both = |of: &dyn Fn(&OpeningWalk) -> String| {
            let (was, is) = (of(was), of(is));
            if was == is { is } else { format!("{was} → {is}") }
        };
        let tape = |mm: Option<f64>| mm.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default();
        let joined = |o: &OpeningWalk| {
            let band = o.band.as_ref().map(|band| band.length);
            tape(o.elastic.as_ref().map(|elastic| elastic.finished_length).or(band))
        };
        let cut = |o: &OpeningWalk| tape(o.elastic.as_ref().map(|elastic| elastic.cut_length));
        let cells = [
            was.opening.name().to_owned(),
            both(&|o| tape(Some(o.finished))),
            both(&joined),
            both(&cut),
            both(&|o| percent(o.worn.stretch.round())),
            both(&|o| o.worn.pressure_kpa.map(|kpa| fixed(kpa, 2)).unwrap_or_default()),
        ];
        table.line(cells.into_iter().take(heads.len()));
    }
    let keys: String = lesson.changes.iter().map(|change| format!("  {}\n", words::changed(change, say))).collect();
    heading("New against old") + &table.text() + &keys
}

/// What the checks say of the new garment and did not say of the old one.
fn checks(lesson: &Lesson, old: &Garment, say: Speech) -> String {
    let known =
        |code: &str, place: &str| old.checks.iter().any(|found| found.code == code && found.place.to_string() == place);
    let new = lesson.garment.checks.iter().filter(|f| !known(f.code, &f.place.to_string()));
    let line = |f: &engine::finding::Finding| {
        let said = say.finding(f);
        format!("  {}\n", wrapped(&format!("{}, {}: {} [{}]", f.level.name(), said.place, said.text, f.code), 4))
    };
    let lines: String = new.map(line).collect();
    if lines.is_empty() { lines } else { heading("New to look at") + &lines }
}

fn to_do(lesson: &Lesson, told: &Told<'_>) -> String {
    let shown = plain(&told.sheet.display().to_string());
    let pair = lesson
        .next
        .iter()
        .any(|next| !next.converged && !next.judged.is_empty() && (next.pair.is_some() || next.again.is_some()));
    let mut lines = Vec::new();
    if told.applied && !lesson.changes.is_empty() {
        lines.push(format!("The changes are in the sheet. To draft it: quarterpin draft {shown} -o my-pattern"));
    } else if !lesson.changes.is_empty() {
        lines.push(format!(
            "To write the changes into the sheet: quarterpin trial {shown} --apply{}",
            remarks(told.fit)
        ));
    }
    if told.applied && lesson.changes.is_empty() {
        lines.push(
            "Nothing to change: the sheet has it so already, or no edge was judged (`--left right`, or loose, or tight)"
                .to_owned(),
        );
    }
    if pair && !told.applied {
        lines.push(format!("For another test garment with two settings: quarterpin trial {shown} --apply=pair"));
    }
    if let Some(picture) = told.picture {
        lines.push(format!("New over old is drawn in {}", plain(&picture.display().to_string())));
    }
    let lines: String = lines.iter().map(|line| format!("  {}\n", wrapped(line, 4))).collect();
    if lines.is_empty() { lines } else { heading("Next") + &lines }
}

/// The remarks are not kept in the sheet: they are said again.
fn remarks(typed: &[String]) -> String {
    typed.iter().map(|remark| format!(" --fit \"{}\"", plain(remark))).collect()
}

/// Every remark with other words for it.
pub fn known_remarks() -> String {
    let one = |row: &engine::trial::remark::Row| {
        format!("  {}\n", wrapped(&format!("{}; also: {}", row.words, row.also.join(", ")), 4))
    };
    let all: String = REMARKS.iter().map(one).collect();
    heading("Fit remarks").trim_start().to_owned()
        + &all
        + "\n"
        + &wrapped("A length says how much: “gusset too wide by 1” in the sheet's unit, or “by its edging”.", 0)
        + "\n"
}
