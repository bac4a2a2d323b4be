//! Pictures of the table: how a measure is taken, how a finish lies cut across.

use super::Trouble;
use crate::commands::finishes::panel;
use engine::finish::FinishKind;
use engine::keys::Key;
use export::{profile, svg};

const NONE: &str = "choose another one";

/// The figure of a key of the body.
pub(super) fn figure(name: &str) -> Result<String, Trouble> {
    let key = name.strip_suffix(".svg").and_then(Key::named);
    let drawn = key.filter(|key| key.home().path() == "body").and_then(|key| svg::figure(key.row()));
    drawn.ok_or_else(|| Trouble::not_there(format!("there is no figure of “{name}”"), NONE))
}

/// A finish cut across.
pub(super) fn finish(name: &str) -> Result<String, Trouble> {
    let kind = name.strip_suffix(".svg").and_then(FinishKind::named);
    let kind = kind.ok_or_else(|| Trouble::not_there(format!("there is no finish “{name}”"), NONE))?;
    Ok(profile::alone(&panel(kind)))
}
