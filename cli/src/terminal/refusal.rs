//! Why a garment is refused, pointing into the sheet where a line of it is to be changed.

use super::plain;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use engine::garment::Finding;
use std::ops::Range;
use std::path::Path;

/// Every finding, with its line of the sheet, its reason and what to do.
pub fn render(path: &Path, source: &str, findings: &[Finding]) -> String {
    let path = plain(&path.display().to_string());
    findings.iter().map(|finding| one(&path, source, finding) + "\n").collect()
}

fn one(path: &str, source: &str, finding: &Finding) -> String {
    let Finding { code, level, place, text, next, .. } = finding;
    let title = plain(&format!("{place}: {text}"));
    let next = plain(next);
    let level = match level {
        engine::garment::Level::Refusal => Level::ERROR,
        _ => Level::WARNING,
    };
    let mut report = Group::with_title(level.primary_title(title).id(*code));
    report = match locate(source, place) {
        Some(span) => report.element(snippet(path, source, span)),
        None => report.element(annotate_snippets::Origin::path(path.to_owned())),
    };
    if !next.is_empty() {
        report = report.element(Level::HELP.message(next));
    }
    Renderer::styled().render(&[report]) + "\n"
}

/// The key's value, or the head of the nearest section that it would be written in.
fn locate(source: &str, key: &str) -> Option<Range<usize>> {
    crate::sheet::locate(source, key).or_else(|| key.rsplit_once('.').and_then(|(section, _)| locate(source, section)))
}

fn snippet<'a>(path: &'a str, source: &'a str, span: Range<usize>) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    Snippet::source(source).path(path).annotation(AnnotationKind::Primary.span(span))
}
