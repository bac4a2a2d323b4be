//! The sheet that is open: its text, what that comes to, and how it stands to its file.

use super::history::History;
use super::reading::{Good, Reading, drawer_of};
use super::unsaved::{self, Left};
use super::{Trouble, drawer};
use crate::own_file::{OwnError, OwnFile};
use crate::sheet::{Drawer, Place, Typed, fields, read_file, typed};
use engine::finish::FinishKind;
use engine::keys::{Edges, Field, PerEdge, finish};
use engine::quantity::Units;
use engine::words::number::short;
use engine::words::{Fineness, Speech};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

/// One value that is to be otherwise.
#[derive(Clone, Debug, Deserialize)]
pub(super) struct Change {
    pub(super) key: String,
    /// As typed; with neither of the others, none takes the key out.
    #[serde(default)]
    pub(super) value: Option<String>,
    /// A length, to be written as a tool is set.
    #[serde(default)]
    pub(super) mm: Option<f64>,
    /// A share or percent.
    #[serde(default)]
    pub(super) number: Option<f64>,
}

/// How a file stands to what was read of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum OnDisk {
    Same,
    Changed,
    Gone,
}

impl OnDisk {
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Changed => "changed",
            Self::Gone => "gone",
        }
    }
}

/// A sheet that is open.
pub(super) struct Open {
    pub(super) file: String,
    pub(super) path: PathBuf,
    /// As it was read from its file, or written to it.
    pub(super) saved: String,
    pub(super) text: String,
    pub(super) history: History,
    pub(super) now: Reading,
    /// The last garment that could be made, and what was made when it was saved.
    pub(super) good: Option<Arc<Good>>,
    pub(super) ghost: Option<Arc<Good>>,
    pub(super) left: Option<Left>,
    pub(super) on_disk: OnDisk,
}

impl Open {
    /// Opens a file.
    pub(super) fn file(file: &str, path: PathBuf) -> Result<Self, Trouble> {
        let text = text_of(&path)?;
        let now = Reading::of(&text, &path);
        let good = now.good().cloned();
        let left = unsaved::left(&path, &text);
        Ok(Self {
            file: file.to_owned(),
            path,
            saved: text.clone(),
            text,
            history: History::default(),
            ghost: good.clone(),
            good,
            now,
            left,
            on_disk: OnDisk::Same,
        })
    }

    /// Its text and where that lies, to be read by a command; none where it is no sheet.
    pub(super) fn readable(&self) -> Result<(&str, String), Trouble> {
        match &self.now {
            Reading::Unread(problems) => {
                let (_, _, text, next) = problems.told().next().unwrap_or_default();
                Err(Trouble::refused(text, next))
            }
            _ => Ok((&self.text, self.path.display().to_string())),
        }
    }

    pub(super) fn is_saved(&self) -> bool {
        self.text == self.saved
    }

    pub(super) fn is_read_only(&self) -> bool {
        fs::metadata(&self.path).is_ok_and(|there| there.permissions().readonly())
    }

    /// The unit that its lengths are in, as far as it says one.
    pub(super) fn units(&self) -> Units {
        self.now.sheet().map_or_else(|| units_of(&self.text), |sheet| sheet.units)
    }

    /// The text with some values otherwise.
    pub(super) fn with(&self, changes: &[Change]) -> Result<String, Trouble> {
        let hers = self.elastics_of_drawer();
        changes.iter().try_fold(self.text.clone(), |text, change| changed(text, change, &hers))
    }

    /// Names of the elastics in the drawer that the sheet names.
    pub(super) fn elastics_of_drawer(&self) -> Vec<String> {
        let drawer = drawer_of(&self.text, &self.path).and_then(|(name, text)| Drawer::of(&text, &name).ok());
        drawer.iter().flat_map(Drawer::elastics).map(|(name, _)| name.to_owned()).collect()
    }

    /// Takes a new text, as a step that can be undone.
    pub(super) fn step(&mut self, label: &str, new: String) -> Result<(), Trouble> {
        if new.len() > crate::sheet::MAX_BYTES {
            return Err(Trouble::refused("the sheet would be larger than 1 MiB", "write less"));
        }
        self.history.step(label, &mut self.text, new);
        self.read_again();
        self.keep();
        Ok(())
    }

    pub(super) fn undo(&mut self) {
        if self.history.undo(&mut self.text) {
            self.read_again();
            self.keep();
        }
    }

    pub(super) fn redo(&mut self) {
        if self.history.redo(&mut self.text) {
            self.read_again();
            self.keep();
        }
    }

    fn read_again(&mut self) {
        self.now = Reading::of(&self.text, &self.path);
        if let Some(good) = self.now.good() {
            self.good = Some(Arc::clone(good));
        }
    }

    /// Keeps what is not saved beside the sheet. Where that cannot be, the page still says that it is not
    /// saved.
    fn keep(&mut self) {
        if let Some(left) = self.left.as_mut().filter(|left| !left.is_aside) {
            left.is_aside = true;
            unsaved::set_aside(&self.path);
        }
        if self.is_saved() {
            unsaved::forget(&self.path);
        } else {
            let _ = unsaved::keep(&self.path, &self.saved, &self.text);
        }
    }

    /// Takes what was left unsaved last time, or throws it away.
    pub(super) fn settle(&mut self, takes: bool) -> Result<(), Trouble> {
        let Some(Left { text, is_aside, .. }) = self.left.take() else {
            return Err(Trouble::not_now("nothing was left unsaved", "go on"));
        };
        if is_aside {
            unsaved::forget_aside(&self.path);
        }
        if takes {
            return self.step("what was not saved", text);
        }
        if self.is_saved() {
            unsaved::forget(&self.path);
        }
        Ok(())
    }

    /// Looks whether the file is another one meanwhile; says whether that is news.
    pub(super) fn look(&mut self) -> bool {
        let now = match fs::read(&self.path) {
            Ok(bytes) if bytes == self.saved.as_bytes() => OnDisk::Same,
            Ok(_) => OnDisk::Changed,
            Err(_) => OnDisk::Gone,
        };
        std::mem::replace(&mut self.on_disk, now) != now
    }

    /// The file's own text, as it is now.
    pub(super) fn theirs(&self) -> Result<String, Trouble> {
        text_of(&self.path)
    }

    /// Takes the file's own text, as a step that can be undone.
    pub(super) fn reload(&mut self) -> Result<(), Trouble> {
        let theirs = self.theirs()?;
        self.saved.clone_from(&theirs);
        self.step("the file as it is", theirs)?;
        self.ghost = self.now.good().cloned();
        self.on_disk = OnDisk::Same;
        Ok(())
    }

    /// Writes the text into its file. One that was changed meanwhile is only replaced by force, and then
    /// what it was is in the copy beside it.
    pub(super) fn save(&mut self, is_forced: bool) -> Result<(), Trouble> {
        let failed = |e: &OwnError| Trouble::not_now(e.to_string(), e.next());
        if !self.path.exists() {
            let folder = self.path.parent().unwrap_or(std::path::Path::new("."));
            let put = crate::output::put_beside(folder, ".quarterpin-new-", self.text.as_bytes());
            put.and_then(|file| file.persist_noclobber(&self.path).map_err(|e| e.error))
                .map_err(|e| Trouble::not_now(format!("{} cannot be written: {e}", self.file), "check its folder"))?;
        } else {
            let own = OwnFile::take(&self.path).map_err(|e| failed(&e))?;
            let disk = fs::read(&self.path).unwrap_or_default();
            if disk != self.saved.as_bytes() && !is_forced {
                self.on_disk = OnDisk::Changed;
                let next = "look at both, then take the file's or write this one over it";
                return Err(Trouble::not_now(format!("{} was changed meanwhile", self.file), next));
            }
            own.replace(&disk, self.text.as_bytes()).map_err(|e| failed(&e))?;
        }
        self.saved.clone_from(&self.text);
        self.ghost = self.now.good().cloned();
        self.on_disk = OnDisk::Same;
        unsaved::forget(&self.path);
        Ok(())
    }
}

pub(super) fn text_of(path: &std::path::Path) -> Result<String, Trouble> {
    use crate::sheet::ReadError;
    match read_file(path) {
        Ok((text, _)) => Ok(text),
        Err(ReadError::Sheet { source_text, .. }) => Ok(source_text),
        Err(other) => {
            let said = other.to_string();
            let (text, next) = said.split_once("; ").unwrap_or((&said, "choose another one"));
            Err(Trouble::refused(text, next))
        }
    }
}

fn units_of(text: &str) -> Units {
    let said = fields(text).and_then(|fields| fields.get("sheet.units").cloned()).unwrap_or_default();
    Units::ALL.iter().find(|(word, _)| *word == said).map(|(_, units)| *units).unwrap_or_default()
}

/// A text with one value otherwise, and with what has to go along. Elastics of these names lie in the drawer of
/// the sheet, which need not describe them.
pub(super) fn changed(text: String, change: &Change, hers: &[String]) -> Result<String, Trouble> {
    let place = Place::named(&change.key)
        .ok_or_else(|| Trouble::asked_wrongly(format!("a sheet has no key “{}”", change.key)))?;
    let units = units_of(&text);
    let cell = change.cell(units);
    let written = set(&text, &place, cell.clone(), units)?;
    along(written, &change.key, &place, cell.as_deref(), &Home { units, hers })
}

fn set(text: &str, place: &Place, cell: Option<String>, units: Units) -> Result<String, Trouble> {
    typed(text, &Typed { place: place.clone(), cell }, units).ok_or_else(|| {
        Trouble::not_now(
            "the sheet is written in a way that cannot be changed here",
            "change it in an editor, then reload",
        )
    })
}

impl Change {
    /// A key as it would be typed; none takes it out.
    pub(super) fn typed(key: &str, value: Option<String>) -> Self {
        Self { key: key.to_owned(), value, mm: None, number: None }
    }

    fn cell(&self, units: Units) -> Option<String> {
        let length = self.mm.filter(|mm| mm.is_finite()).map(|mm| Speech(units).bare(mm, Fineness::Tool));
        let number = self.number.filter(|n| n.is_finite()).map(|n| short(n, 3));
        self.value.clone().or(length).or(number)
    }

    /// What a step with it is called.
    pub(super) fn label(&self) -> String {
        let name = self.key.rsplit('.').next().unwrap_or(&self.key);
        name.trim_matches('"').replace('_', " ")
    }
}

/// What is known of the sheet beside its text.
struct Home<'a> {
    units: Units,
    /// Names of the elastics in its drawer.
    hers: &'a [String],
}

/// One of these says how long what is sewn on is.
const BASES: [Field<PerEdge>; 3] = [finish::REDUCTION, finish::LENGTH, finish::FROM];

/// With what goes along with a key of a finish: a new kind drops what it does not take, and has an elastic
/// where it needs one; one basis of a length takes the place of another.
fn along(text: String, key: &str, place: &Place, cell: Option<&str>, home: &Home<'_>) -> Result<String, Trouble> {
    let units = home.units;
    let Some((section, name)) = key.rsplit_once('.').filter(|(section, _)| is_finish(section)) else { return Ok(text) };
    let Some(cell) = cell else { return Ok(text) };
    let out = |text: String, name: &str| match place.beside(name) {
        Some(place) => set(&text, &place, None, units),
        None => Ok(text),
    };
    match FinishKind::named(cell) {
        Some(kind) if name == finish::KIND.name() => {
            let fields = fields(&text).unwrap_or_default();
            let is_foreign = |field: &Field<PerEdge>| *field != finish::KIND && !kind.takes_key(*field);
            let foreign = finish::all().filter(|field| is_foreign(field) && is_said(&fields, section, field.name()));
            let text = foreign.map(|field| field.name()).try_fold(text, out)?;
            if kind.takes().elastic() { with_elastic(text, section, kind, home) } else { Ok(text) }
        }
        _ if name == finish::ELASTIC.name() => with_drawer(text, cell, home),
        _ if BASES.iter().any(|basis| basis.name() == name) => {
            let others = BASES.iter().map(|basis| basis.name()).filter(|basis| *basis != name);
            others.into_iter().try_fold(text, out)
        }
        _ => Ok(text),
    }
}

fn is_finish(section: &str) -> bool {
    Edges::ALL.iter().any(|edges| section == edges.path() || section.ends_with(&format!(".{}", edges.path())))
}

/// Is a key, or a part of it, written in a section?
fn is_said(fields: &BTreeMap<String, String>, section: &str, name: &str) -> bool {
    let key = format!("{section}.{name}");
    fields.keys().any(|said| *said == key || said.starts_with(&format!("{key}.")))
}

/// With an elastic named for a section that needs one: the usual one, where none is named, or one that is usual
/// for another finish and not for this.
fn with_elastic(text: String, section: &str, kind: FinishKind, home: &Home<'_>) -> Result<String, Trouble> {
    let said = fields(&text).unwrap_or_default();
    let of = |section: &str| said.get(&format!("{section}.{}", finish::ELASTIC.name()));
    let below = || if section.ends_with("_leg") { of(Edges::Legs.path()) } else { None };
    let Some(name) = drawer::usual(kind) else { return Ok(text) };
    let is_of_another =
        |named: &String| *named != name && FinishKind::all().any(|other| drawer::usual(other).as_ref() == Some(named));
    let is_hers = |named: &String| home.hers.contains(named);
    match of(section).or_else(below) {
        Some(named) if is_hers(named) || !is_of_another(named) => return Ok(text),
        _ => {}
    }
    let Some(place) = Place::named(&format!("{section}.{}", finish::ELASTIC.name())) else { return Ok(text) };
    let text = set(&text, &place, Some(name.clone()), home.units)?;
    with_drawer(text, &name, home)
}

/// With the section of a usual elastic, where neither the sheet nor its drawer has one of this name.
fn with_drawer(text: String, name: &str, home: &Home<'_>) -> Result<String, Trouble> {
    let units = home.units;
    let Some(elastic) = drawer::all().into_iter().find(|elastic| elastic.name == name) else {
        return Ok(text);
    };
    let home_of = format!("elastic.{}", toml_edit::Key::new(name));
    let is_described = fields(&text).unwrap_or_default().keys().any(|key| key.starts_with(&format!("{home_of}.")));
    if is_described || home.hers.iter().any(|hers| hers == name) {
        return Ok(text);
    }
    let length = |mm: f64| Speech(units).bare(mm, Fineness::Tool);
    let picot = (elastic.picot > 0.0).then(|| ("picot", length(elastic.picot)));
    let cells = [Some(("width", length(elastic.width))), picot, Some(("stretch", short(elastic.stretch, 1)))];
    cells.into_iter().flatten().try_fold(text, |text, (key, cell)| match Place::named(&format!("{home_of}.{key}")) {
        Some(place) => set(&text, &place, Some(cell), units),
        None => Ok(text),
    })
}
