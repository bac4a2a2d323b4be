//! No file needs, by way of others, one that needs it: what is read first can be understood first.

use crate::sources::sources;
use std::collections::{BTreeMap, BTreeSet};
use syn::visit::{self, Visit};
use syn::{Attribute, ItemFn, ItemMod, ItemUse, Macro, UseTree};

/// A module, or what is in one, from the root of the crate.
type Place = Vec<String>;

/// What a file names of its crate.
#[derive(Default)]
struct Names {
    /// Names that stand for something elsewhere, with its path as written.
    imported: Vec<(String, Place)>,
    /// Paths as written.
    paths: Vec<Place>,
}

impl Names {
    fn imports(&mut self, before: &[String], tree: &UseTree) {
        let with = |name: &dyn ToString| [before, &[name.to_string()]].concat();
        match tree {
            UseTree::Path(path) => self.imports(&with(&path.ident), &path.tree),
            UseTree::Name(name) if name.ident == "self" => {
                self.imported.extend(before.last().map(|last| (last.clone(), before.to_vec())));
            }
            UseTree::Name(name) => self.imported.push((name.ident.to_string(), with(&name.ident))),
            UseTree::Rename(renamed) => self.imported.push((renamed.rename.to_string(), with(&renamed.ident))),
            UseTree::Glob(_) => self.paths.push(with(&"*")),
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.imports(before, tree)),
        }
    }
}

fn is_of_tests(attributes: &[Attribute]) -> bool {
    let is_test = |a: &Attribute| a.meta.require_list().is_ok_and(|list| list.tokens.to_string() == "test");
    attributes.iter().any(|a| a.path().is_ident("cfg") && is_test(a))
}

impl<'a> Visit<'a> for Names {
    fn visit_item_mod(&mut self, item: &'a ItemMod) {
        if !is_of_tests(&item.attrs) {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_fn(&mut self, item: &'a ItemFn) {
        if !is_of_tests(&item.attrs) {
            visit::visit_item_fn(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'a ItemUse) {
        if !is_of_tests(&item.attrs) {
            self.imports(&[], &item.tree);
        }
    }

    fn visit_path(&mut self, path: &'a syn::Path) {
        self.paths.push(path.segments.iter().map(|segment| segment.ident.to_string()).collect());
        visit::visit_path(self, path);
    }

    /// What stands in a macro is no syntax yet: its paths are taken from its text.
    fn visit_macro(&mut self, item: &'a Macro) {
        let text = item.tokens.to_string().replace(" :: ", "::");
        let words = text.split(|c: char| !c.is_alphanumeric() && c != '_' && c != ':');
        self.paths.extend(words.map(|word| word.split("::").map(str::to_owned).collect()));
        visit::visit_macro(self, item);
    }
}

/// The module that a file is; none of a program, and of tests.
fn module(file: &str) -> Option<Place> {
    let parts: Place = file.strip_suffix(".rs")?.split('/').map(str::to_owned).collect();
    match parts.as_slice() {
        [root] if root == "lib" => Some(Vec::new()),
        [root] if root == "main" => None,
        parts if parts.iter().any(|part| part == "tests") => None,
        _ => Some(parts),
    }
}

/// The files of a crate, and what each says that it takes from elsewhere.
struct Crate(BTreeMap<Place, Names>);

impl Crate {
    fn of(files: &[(String, String)]) -> Self {
        let read = |(file, text): &(String, String)| {
            let mut names = Names::default();
            names.visit_file(&syn::parse_file(text).unwrap_or_else(|e| panic!("{file}: {e}")));
            Some((module(file)?, names))
        };
        Self(files.iter().filter_map(read).collect())
    }

    /// A path as written in a module, from the root; none where it leads out of the crate.
    fn rooted(&self, module: &Place, path: &[String]) -> Option<Place> {
        let (first, rest) = path.split_first()?;
        match first.as_str() {
            "crate" => Some(rest.to_vec()),
            "self" => Some([module, rest].concat()),
            "super" => {
                self.rooted(&module[..module.len().checked_sub(1)?].to_vec(), &[&["self".to_owned()], rest].concat())
            }
            _ => {
                let own = [module.as_slice(), std::slice::from_ref(first)].concat();
                self.0.contains_key(&own).then(|| [own.as_slice(), rest].concat())
            }
        }
    }

    /// What a name stands for in a module that imports it.
    fn imported(&self, module: &Place, name: &str) -> Option<Place> {
        let (_, path) = self.0.get(module)?.imported.iter().find(|(own, _)| own == name)?;
        self.rooted(module, path)
    }

    /// The file in which something is written, where it is more than a file: names that are handed on are
    /// followed to where they come from.
    fn home(&self, place: &Place) -> Option<Place> {
        let mut place = place.clone();
        loop {
            let known = (0..=place.len()).rev().find(|n| self.0.contains_key(&place[..*n]))?;
            let (module, rest) = (place[..known].to_vec(), &place[known..]);
            let name = rest.first()?;
            match self.imported(&module, name) {
                Some(there) if there != place => place = [&there, &rest[1..]].concat(),
                _ => return Some(module),
            }
        }
    }

    /// Which file needs which others.
    fn needs(&self) -> BTreeSet<(Place, Place)> {
        let mut needs = BTreeSet::new();
        for (module, names) in &self.0 {
            let written = names.paths.iter().chain(names.imported.iter().map(|(_, path)| path));
            for path in written {
                let by_name = || Some([&self.imported(module, path.first()?)?, &path[1..]].concat());
                let place = self.rooted(module, path).or_else(by_name);
                let home = place.and_then(|place| self.home(&place));
                needs.extend(home.filter(|home| home != module).map(|home| (module.clone(), home)));
            }
        }
        needs
    }

    /// The files that need each other in a circle, each with the one that it needs for that; empty where
    /// there is none. A file and those in its folder are of one thing and may know each other: the circles
    /// are those that are left without what the file takes from its folder, or the folder from its file.
    fn circles(&self) -> Vec<String> {
        let is_in = |inner: &Place, outer: &Place| inner.starts_with(outer);
        let needs = self.needs();
        let down = needs.iter().filter(|(from, to)| !is_in(from, to));
        let up = needs.iter().filter(|(from, to)| !is_in(to, from));
        let mut found: BTreeSet<String> = in_circles(down.collect()).into_iter().collect();
        found.extend(in_circles(up.collect()));
        found.into_iter().collect()
    }
}

/// What is left of needs when those of files that need nothing more, and that nothing more needs, are taken
/// away again and again.
fn in_circles(mut needs: BTreeSet<&(Place, Place)>) -> Vec<String> {
    loop {
        let from: BTreeSet<&Place> = needs.iter().map(|(from, _)| from).collect();
        let to: BTreeSet<&Place> = needs.iter().map(|(_, to)| to).collect();
        let before = needs.len();
        needs.retain(|(a, b)| from.contains(b) && to.contains(a));
        if needs.len() == before {
            return needs.iter().map(|(from, to)| format!("{} needs {}", from.join("/"), to.join("/"))).collect();
        }
    }
}

#[test]
fn no_files_of_a_crate_need_each_other_in_a_circle() {
    for folder in ["engine/src", "export/src", "cli/src"] {
        let files = Crate::of(&sources(folder));
        assert!(files.needs().len() > 300, "{folder}: {} needs", files.needs().len());
        assert_eq!(files.circles(), Vec::<String>::new(), "{folder}");
    }
}

/// Invented files, each with its text.
fn invented(files: &[(&str, &str)]) -> Vec<String> {
    let files: Vec<_> = files.iter().map(|(file, text)| ((*file).to_owned(), (*text).to_owned())).collect();
    Crate::of(&files).circles()
}

#[test]
fn circles_are_seen_through_names_that_are_handed_on_and_in_macros() {
    let three = [
        ("lib.rs", "mod cloth; mod thread; mod needle;"),
        ("cloth.rs", "use crate::thread::Thread; pub struct Cloth(Thread);"),
        ("thread.rs", "pub struct Thread; fn f() { println!(\"{}\", crate::needle::SIZE); }"),
        ("needle.rs", "pub const SIZE: f64 = crate::cloth::WEIGHT;"),
    ];
    assert_eq!(invented(&three), ["cloth needs thread", "needle needs cloth", "thread needs needle"]);
    let handed_on = [
        ("lib.rs", "mod cloth; mod thread;"),
        ("cloth.rs", "mod grain; mod nap; pub use grain::Grain;"),
        ("cloth/grain.rs", "use super::nap::Nap; pub struct Grain(Nap);"),
        ("cloth/nap.rs", "use crate::thread::*; pub struct Nap;"),
        ("thread.rs", "use crate::cloth::{self}; fn f(_: cloth::Grain) {}"),
    ];
    assert_eq!(
        invented(&handed_on),
        ["cloth/grain needs cloth/nap", "cloth/nap needs thread", "thread needs cloth/grain"]
    );
}

#[test]
fn a_file_and_its_folder_are_of_one_thing_but_no_way_round_for_others() {
    let within = [
        ("lib.rs", "mod cloth;"),
        ("cloth.rs", "mod nap; use nap::Nap; pub struct Cloth(Nap);"),
        ("cloth/nap.rs", "use super::Cloth; pub struct Nap;"),
    ];
    assert_eq!(invented(&within), Vec::<String>::new());
    let round = [
        ("lib.rs", "mod cloth; mod thread;"),
        ("cloth.rs", "mod nap; use nap::Nap; pub struct Cloth(Nap);"),
        ("cloth/nap.rs", "use crate::thread::Thread; pub struct Nap(Thread);"),
        (
            "thread.rs",
            "#[cfg(test)] mod tests { use crate::lost::Nowhere; } pub struct Thread; use crate::cloth::Cloth;",
        ),
    ];
    assert_eq!(invented(&round), ["cloth needs cloth/nap", "cloth/nap needs thread", "thread needs cloth"]);
}
