//! Words as a person means and lists them.

/// The known word that a person most likely meant.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // Nothing that is known is longer than this; a longer word only costs time.
    if word.chars().count() > 40 {
        return None;
    }
    let plain = word.to_lowercase().replace(['-', ' '], "_");
    let near = |known: &str| {
        let known = known.to_lowercase().replace(['-', ' '], "_");
        let edits = strsim::damerau_levenshtein(&plain, &known);
        let allowed = known.chars().count().div_ceil(3);
        let first = known.split('_').next().unwrap_or("");
        // Half a name, such as `hips` for `hip_girth`, is as good as a slip of the finger.
        let half = first.len() >= 3 && strsim::damerau_levenshtein(&plain, first) <= 1;
        let alike = if half { 0.88 } else { strsim::jaro_winkler(&plain, &known) };
        (edits <= allowed || alike >= 0.88).then_some((edits, 1.0 - alike))
    };
    known
        .into_iter()
        .filter_map(|k| near(k).map(|n| (k, n)))
        .min_by(|(_, a), (_, b)| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)))
        .map(|(k, _)| k)
}

/// Words as a person lists them: `a`, `b` or `c`.
pub(crate) fn listed(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|w| format!("\"{w}\"")).collect();
    match quoted.split_last() {
        None => "nothing".to_owned(),
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
    }
}
