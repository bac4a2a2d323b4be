//! Why a garment is refused, pointing into the sheet where a line of it is to be changed.

use super::{checks, plain};
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use engine::finding::Finding;
use engine::quantity::Units;
use engine::words::{Said, Speech};
use std::ops::Range;
use std::path::Path;

/// Every finding, with its line of the sheet, its reason, what else comes of it, and what to do.
pub fn render(path: &Path, source: &str, findings: &[Finding], units: Units) -> String {
    let path = plain(&path.display().to_string());
    findings.iter().map(|finding| one(&path, source, finding, Speech(units)) + "\n").collect()
}

fn one(path: &str, source: &str, finding: &Finding, say: Speech) -> String {
    let Said { text, next, .. } = say.finding(finding);
    let title = plain(&format!("{}: {text}", say.place(finding)));
    let level = match finding.level {
        engine::finding::Level::Refusal => Level::ERROR,
        _ => Level::WARNING,
    };
    let mut report = Group::with_title(level.primary_title(title).id(finding.code));
    report = match crate::sheet::locate_place(source, finding) {
        Some(span) => report.element(snippet(path, source, span)),
        None => report.element(annotate_snippets::Origin::path(path.to_owned())),
    };
    for effect in finding.all().skip(1) {
        report = report.element(Level::NOTE.message(plain(&format!("also {}", checks::in_short(effect, say)))));
    }
    if !next.is_empty() {
        report = report.element(Level::HELP.message(plain(&next)));
    }
    Renderer::styled().render(&[report]) + "\n"
}

fn snippet<'a>(path: &'a str, source: &'a str, span: Range<usize>) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    Snippet::source(source).path(path).annotation(AnnotationKind::Primary.span(span))
}
