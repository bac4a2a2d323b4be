//! `NAME-card.md`: the work card as text, for screens, for notes, for readers aloud.

use crate::choice::Measures;
use crate::mark::BLANK;
use engine::drawing::Drawing;
use engine::drawing::card::{Card, Line, Part};
use engine::words::card as words;

/// The card of a drawing in Markdown (CommonMark, with the tables of its usual extension).
pub fn markdown(drawing: &Drawing, measures: Measures) -> String {
    let card = &drawing.card;
    let mut blocks = vec![
        format!("<!-- {BLANK} -->"),
        format!("# {}", plain(&card.title)),
        plain(&card.about),
        headed(words::EDGES, &table(&words::COLUMNS, &card.edges)),
        plain(&card.takes()),
    ];
    if !card.strips.is_empty() {
        let strips: Vec<String> = card.strips.iter().map(|s| format!("{}. {}", s.heading, s.told)).collect();
        blocks.push(headed(words::STRIPS, &lines(&strips)));
    }
    blocks.push(headed(words::WORK, &lines(&card.setting_up)));
    blocks.extend(card.work.iter().map(part));
    blocks.push(headed(words::TRIAL, &trial(card)));
    blocks.push(headed(words::CAUTIONS, &lines(&card.cautions)));
    if measures == Measures::Told && !card.measures.is_empty() {
        let told: Vec<String> = card.measures.iter().map(|[what, value]| format!("{what} {value}")).collect();
        blocks.push(headed(words::MEASURES, &lines(&told)));
    }
    blocks.retain(|block| !block.is_empty());
    blocks.join("\n\n") + "\n"
}

fn headed(heading: &str, body: &str) -> String {
    format!("## {heading}\n\n{body}")
}

fn lines(lines: &[String]) -> String {
    lines.iter().map(|line| format!("- {}", plain(line.trim_end()))).collect::<Vec<_>>().join("\n")
}

fn part(part: &Part) -> String {
    let step = |line: &Line| {
        let setting = line.setting.as_ref().map(|set| format!(" – {set}")).unwrap_or_default();
        format!("{}. {}{setting}", line.number, plain(&line.text))
    };
    let steps: Vec<String> = part.lines.iter().map(step).collect();
    format!("### {}\n\n{}", part.heading, steps.join("\n"))
}

fn trial(card: &Card) -> String {
    let [loose, right, tight] = words::VERDICTS;
    let heads = ["", loose, right, tight, words::WHERE];
    let row = |edge: &String| [edge.clone(), "☐".to_owned(), "☐".to_owned(), "☐".to_owned(), String::new()];
    format!("{}:\n\n{}", words::DATE, table(&heads, &card.trial.iter().map(row).collect::<Vec<_>>()))
}

fn table<const N: usize>(heads: &[&str; N], rows: &[[String; N]]) -> String {
    let row = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
    let head = row(heads.iter().map(|h| (*h).to_owned()).collect());
    let under = row(vec!["---".to_owned(); N]);
    let body = rows.iter().map(|cells| row(cells.iter().map(|cell| plain(cell)).collect()));
    std::iter::once(head).chain([under]).chain(body).collect::<Vec<_>>().join("\n")
}

/// Words that a person chose, so that no sign of them is taken for a sign of the format.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | '`' | '*' | '_' | '<' | '>' | '|' | '[' | ']' | '#' => out.extend(['\\', c]),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    fn drawing() -> Drawing {
        let card = Card {
            title: "a|b *c*".to_owned(),
            edges: vec![["top edge", "turned", "soft <8>", "60 cm", "joined", "held"].map(str::to_owned)],
            measures: vec![["waist girth".to_owned(), "74 cm".to_owned()]],
            trial: vec!["top edge".to_owned()],
            ..Card::default()
        };
        Drawing { card, ..sample::drawing() }
    }

    #[test]
    fn a_persons_words_are_no_signs_of_the_format() {
        let text = markdown(&drawing(), Measures::Left);
        assert!(text.starts_with(&format!("<!-- {BLANK} -->\n\n# a\\|b \\*c\\*\n")), "{text}");
        assert!(text.contains("| top edge | turned | soft \\<8\\> | 60 cm |"), "{text}");
    }

    #[test]
    fn the_body_is_told_only_where_it_is_asked_for() {
        assert!(!markdown(&drawing(), Measures::Left).contains("74 cm"));
        assert!(markdown(&drawing(), Measures::Told).contains("- waist girth 74 cm"));
    }
}
