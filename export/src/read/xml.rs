//! Just enough XML for drawings: tags and attributes, one after the other.

/// Something between two angle brackets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Event {
    /// An element begins.
    Open(String, Vec<(String, String)>),
    /// It ends, or ends where it began.
    Close,
}

/// Elements inside each other: more than this is no drawing.
const DEEPEST: usize = 200;

/// Reads a document's tags; text between them is left out.
///
/// # Errors
/// What is wrong with it.
pub(super) fn events(text: &str) -> Result<Vec<Event>, &'static str> {
    let mut out = Vec::new();
    let (mut rest, mut depth) = (text, 0_usize);
    while let Some(at) = rest.find('<') {
        rest = &rest[at..];
        let skipped = [("<!--", "-->"), ("<![CDATA[", "]]>"), ("<?", "?>"), ("<!", ">")];
        if let Some((_, end)) = skipped.iter().find(|(start, _)| rest.starts_with(start)) {
            let to = rest.find(end).ok_or("something is not closed")?;
            rest = &rest[to + end.len()..];
            continue;
        }
        let end = tag_end(rest).ok_or("a tag is not closed")?;
        let inside = &rest[1..end];
        rest = &rest[end + 1..];
        if inside.starts_with('/') {
            depth = depth.checked_sub(1).ok_or("an element ends that did not begin")?;
            out.push(Event::Close);
            continue;
        }
        let (body, is_empty) = inside.strip_suffix('/').map_or((inside, false), |b| (b, true));
        out.push(open(body)?);
        if is_empty {
            out.push(Event::Close);
        } else {
            depth += 1;
        }
        if depth > DEEPEST {
            return Err("it is nested too deeply");
        }
    }
    if depth == 0 { Ok(out) } else { Err("an element does not end") }
}

/// The closing bracket, not one in quotes.
fn tag_end(text: &str) -> Option<usize> {
    let mut quote = None;
    for (i, c) in text.char_indices() {
        match (quote, c) {
            (None, '>') => return Some(i),
            (None, '"' | '\'') => quote = Some(c),
            (Some(q), _) if q == c => quote = None,
            _ => {}
        }
    }
    None
}

fn open(body: &str) -> Result<Event, &'static str> {
    let name_end = body.find(char::is_whitespace).unwrap_or(body.len());
    let (name, mut rest) = body.split_at(name_end);
    let mut attributes = Vec::new();
    while let Some((key, after)) = rest.split_once('=') {
        let after = after.trim_start();
        let quote = after.chars().next().filter(|c| matches!(c, '"' | '\'')).ok_or("an attribute has no quotes")?;
        let (value, next) = after[1..].split_once(quote).ok_or("an attribute is not closed")?;
        attributes.push((key.trim().to_owned(), decoded(value)));
        rest = next;
    }
    // A prefix (svg:path) says where the name comes from.
    Ok(Event::Open(name.rsplit(':').next().unwrap_or(name).to_owned(), attributes))
}

fn decoded(text: &str) -> String {
    let mut parts = text.split('&');
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        match part.split_once(';').and_then(|(name, rest)| Some((entity(name)?, rest))) {
            Some((c, rest)) => {
                out.push(c);
                out.push_str(rest);
            }
            None => {
                out.push('&');
                out.push_str(part);
            }
        }
    }
    out
}

fn entity(name: &str) -> Option<char> {
    match name {
        "lt" => Some('<'),
        "gt" => Some('>'),
        "amp" => Some('&'),
        "quot" => Some('"'),
        "apos" => Some('\''),
        _ => {
            let number = name.strip_prefix('#')?;
            let hex = number.strip_prefix(['x', 'X']).map(|h| u32::from_str_radix(h, 16));
            char::from_u32(hex.unwrap_or_else(|| number.parse()).ok()?)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_and_attributes_are_read() {
        let text = "<?xml version='1.0'?><!-- <g> --><svg:svg a=\"1 &gt; 0\" b='x>y'><path d = \"M0 0\"/></svg:svg>";
        let found = events(text).unwrap();
        let own = |k: &str, v: &str| (k.to_owned(), v.to_owned());
        assert_eq!(found[0], Event::Open("svg".into(), vec![own("a", "1 > 0"), own("b", "x>y")]));
        assert_eq!(found[1..], [Event::Open("path".into(), vec![own("d", "M0 0")]), Event::Close, Event::Close]);
    }

    #[test]
    fn broken_documents_are_refused() {
        for text in ["<a", "<a b=c>", "<a>", "</a>", "<!-- ", "<a b='></a>", &"<g>".repeat(5000)] {
            assert!(events(text).is_err(), "{text:.40}");
        }
    }
}
