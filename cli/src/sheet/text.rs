//! A sheet, from the first letter of its text to the engine's sheet; of a file, or of what stands for one.

use super::file::{ReadError, read_text, text_from};
use super::problem::{Problem, Problems};
use super::{build, drawer, syntax, walk};
use engine::sheet::Sheet;
use std::io::Read;
use std::path::Path;
use toml::de::DeTable;

/// Reads a sheet. `path_label` is what the file is called in messages.
///
/// Lengths are kept to the nanometre, without passing through floating point; digits finer than
/// that are rounded to the nearest nanometre, an exact half to the even one.
///
/// # Errors
/// [`Problems`] with everything that is wrong, in the order of the file.
pub fn read(source: &str, path_label: &str) -> Result<Sheet, Problems> {
    read_in(source, path_label, None)
}

/// Reads a sheet that lies in a folder, and the drawer that it may name there.
///
/// # Errors
/// As [`read`].
pub fn read_in(source: &str, path_label: &str, folder: Option<&Path>) -> Result<Sheet, Problems> {
    let (tree, errors) = DeTable::parse_recoverable(source);
    let mut problems = syntax::problems(source, &errors);
    // A broken line leaves a tree with holes: what is missing from it may well be there.
    if !syntax::only_repeated_keys(source, &errors) {
        return Err(Problems::new(source, path_label, problems));
    }
    let (mut found, more) = walk::Walk::new(source, tree.get_ref()).whole(tree.get_ref());
    problems.extend(more);
    if let Err(of_drawer) = drawer::lay_under(&mut found, folder) {
        // What is missing may well lie in it.
        problems.extend(of_drawer);
        return Err(Problems::new(source, path_label, problems));
    }
    let end = source.trim_end().len();
    match build::sheet(&found, end..end, &mut problems) {
        Some(sheet) => Ok(sheet),
        None => Err(Problems::new(source, path_label, or_something(problems, end))),
    }
}

/// Reads a sheet from a file; its text is given back too, so that later findings can be pointed
/// at.
///
/// # Errors
/// [`ReadError`] where the file cannot be read or is no sheet.
pub fn read_file(path: &Path) -> Result<(String, Sheet), ReadError> {
    of_text(read_text(path)?, path)
}

/// The same from anything that can be read, called by a name in messages.
///
/// # Errors
/// [`ReadError`] where it cannot be read or is no sheet.
pub fn read_from(from: impl Read, name: &Path) -> Result<(String, Sheet), ReadError> {
    of_text(text_from(from, name)?, name)
}

fn of_text(source: String, name: &Path) -> Result<(String, Sheet), ReadError> {
    let path_label = name.display().to_string();
    match read_in(&source, &path_label, name.parent()) {
        Ok(sheet) => Ok((source, sheet)),
        Err(problems) => Err(ReadError::Sheet { source_text: source, path_label, problems }),
    }
}

/// A refusal always says something.
fn or_something(problems: Vec<Problem>, end: usize) -> Vec<Problem> {
    if !problems.is_empty() {
        return problems;
    }
    vec![Problem {
        span: end..end,
        key: String::new(),
        title: "this sheet could not be put together".to_owned(),
        label: "up to here".to_owned(),
        help: "start from a fresh sheet, as the command `new` writes it, and fill it in anew".to_owned(),
    }]
}
