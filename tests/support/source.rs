//! The project's own source, read for its shape: which file names which, and which types are public.
//!
//! A name that one file passes on (`pub use`) counts as the file's that defines it, so that a folder's front does not tie
//! its files together. Unit tests at the foot of a file are left out.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// A module's path from the crate down, such as `sheets`, `page`, `text`.
pub type Module = Vec<String>;

/// Every file of `src` as a module.
pub struct Source {
    files: BTreeMap<Module, (PathBuf, String)>,
    /// What a module passes on: a name, and the path it stands for.
    passed_on: BTreeMap<(Module, String), Module>,
}

impl Source {
    /// Reads the files below `root`, or those given as names and texts.
    pub fn read(root: &Path) -> Self {
        let mut texts = Vec::new();
        let mut open = vec![root.to_owned()];
        while let Some(folder) = open.pop() {
            for entry in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
                if entry.is_dir() {
                    open.push(entry);
                } else if entry.extension().is_some_and(|ending| ending == "rs") && !entry.ends_with("tests.rs") {
                    texts
                        .push((entry.strip_prefix(root).unwrap().to_owned(), std::fs::read_to_string(&entry).unwrap()));
                }
            }
        }
        Self::of(texts)
    }

    /// The same from texts.
    pub fn of(texts: impl IntoIterator<Item = (PathBuf, String)>) -> Self {
        let mut files = BTreeMap::new();
        for (path, text) in texts {
            let mut module: Module = path.with_extension("").iter().map(|part| part.to_string_lossy().into()).collect();
            if module.last().is_some_and(|last| last == "mod") {
                module.pop();
            }
            files.insert(module, (path, code(&text)));
        }
        let mut source = Self { files, passed_on: BTreeMap::new() };
        for (module, (_, text)) in &source.files {
            for (public, tree) in uses(text) {
                for path in paths(&tree).into_iter().filter(|_| public) {
                    if let (Some(full), Some(name)) = (source.absolute(module, &path), path.last()) {
                        source.passed_on.insert((module.clone(), name.clone()), full);
                    }
                }
            }
        }
        source
    }

    /// The files that a file names, itself left out.
    pub fn named(&self, module: &Module) -> BTreeSet<Module> {
        let text = &self.files[module].1;
        let mut found: Vec<Module> =
            uses(text).iter().filter(|(public, _)| !public).flat_map(|u| paths(&u.1)).collect();
        found.extend(inline(text));
        let ends = found.iter().filter_map(|path| self.file_of(&self.absolute(module, path)?, 0));
        ends.filter(|end| end != module).collect()
    }

    /// All modules.
    pub fn modules(&self) -> impl Iterator<Item = &Module> {
        self.files.keys()
    }

    /// Public types with the files that define them.
    pub fn public_types(&self) -> impl Iterator<Item = (String, &Path)> {
        self.files.values().flat_map(|(path, text)| {
            let words: Vec<&str> = text.split_whitespace().collect();
            let kinds = ["struct", "enum", "trait", "type"];
            let named = words.windows(3).filter(|w| w[0] == "pub" && kinds.contains(&w[1])).map(|w| word(w[2]));
            named.map(|name| (name.to_owned(), path.as_path())).collect::<Vec<_>>()
        })
    }

    /// A path as a module means it, from the crate down; `None` for names of other crates.
    fn absolute(&self, module: &Module, path: &[String]) -> Option<Module> {
        let rest = |from: usize| path[from..].iter().cloned();
        match path.first()?.as_str() {
            "crate" => Some(rest(1).collect()),
            "self" => Some(module.iter().cloned().chain(rest(1)).collect()),
            "super" => {
                let up = path.iter().take_while(|part| *part == "super").count();
                Some(module[..module.len().checked_sub(up)?].iter().cloned().chain(rest(up)).collect())
            }
            first => {
                let child: Module = module.iter().cloned().chain([first.to_owned()]).collect();
                self.files.contains_key(&child).then(|| module.iter().cloned().chain(rest(0)).collect())
            }
        }
    }

    /// The file that defines what a full path names.
    fn file_of(&self, path: &Module, depth: usize) -> Option<Module> {
        let file = (1..=path.len()).rev().map(|k| path[..k].to_vec()).find(|module| self.files.contains_key(module))?;
        let passed = path.get(file.len()).and_then(|name| self.passed_on.get(&(file.clone(), name.clone())));
        match passed {
            Some(full) if depth < 8 => {
                self.file_of(&full.iter().chain(&path[file.len() + 1..]).cloned().collect(), depth + 1)
            }
            _ => Some(file),
        }
    }
}

/// Circles among things: each group that can be walked round, by name.
pub fn circles<T: Ord + Clone>(edges: &BTreeMap<T, BTreeSet<T>>) -> Vec<Vec<T>> {
    let reach = |from: &T| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from.clone()]);
        while let Some(next) = open.pop().and_then(|at| edges.get(&at)) {
            open.extend(next.iter().filter(|to| seen.insert((*to).clone())).cloned());
        }
        seen
    };
    let reached: BTreeMap<&T, BTreeSet<T>> = edges.keys().map(|from| (from, reach(from))).collect();
    let mut found: Vec<Vec<T>> = Vec::new();
    for (from, to) in &reached {
        let ring: Vec<T> =
            to.iter().filter(|other| reached.get(other).is_some_and(|back| back.contains(from))).cloned().collect();
        if ring.len() > 1 && !found.contains(&ring) {
            found.push(ring);
        }
    }
    found
}

/// A file without comments and without the unit tests at its foot.
fn code(text: &str) -> String {
    let body = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    body.lines().map(|line| line.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n")
}

/// The `use` trees of a file, and whether each passes on what it names.
fn uses(code: &str) -> Vec<(bool, String)> {
    let mut found = Vec::new();
    for statement in code.split(';') {
        let Some(at) = statement.rfind("use ").filter(|at| statement[..*at].ends_with(['\n', ' ']) || *at == 0) else {
            continue;
        };
        let line = statement[..at].rsplit(['\n', '{', '}']).next().unwrap_or_default();
        let before = line.trim();
        if before.is_empty() || before.starts_with("pub") {
            found.push((
                before.starts_with("pub"),
                statement[at + 4..].split_whitespace().collect::<Vec<_>>().join(" "),
            ));
        }
    }
    found
}

/// The paths of a `use` tree.
fn paths(tree: &str) -> Vec<Module> {
    let tree = tree.trim();
    let Some(open) = tree.find('{') else {
        let plain = tree.split(" as ").next().unwrap_or_default();
        let parts: Module = plain.split("::").map(|part| part.trim().to_owned()).filter(|p| p != "*").collect();
        return if parts.iter().all(String::is_empty) { Vec::new() } else { vec![parts] };
    };
    let before: Module = tree[..open].split("::").map(|p| p.trim().to_owned()).filter(|p| !p.is_empty()).collect();
    let inner = &tree[open + 1..tree.rfind('}').unwrap_or(tree.len())];
    let (mut depth, mut start, mut parts) = (0, 0, Vec::new());
    for (at, letter) in inner.char_indices().chain([(inner.len(), ',')]) {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                parts.push(&inner[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    let below = parts.into_iter().flat_map(paths);
    below.map(|path| before.iter().cloned().chain(path.into_iter().filter(|part| part != "self")).collect()).collect()
}

/// The paths named in the midst of code.
fn inline(code: &str) -> Vec<Module> {
    let starts = |marker: &'static str| code.match_indices(marker).map(move |(at, _)| at);
    let from = |at: usize| {
        let rest = &code[at..];
        let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')).unwrap_or(rest.len());
        rest[..end].split("::").map(str::to_owned).filter(|part| !part.is_empty()).collect()
    };
    // What may see a thing (`pub(in crate::a)`) is not leant on.
    let alone = |at: &usize| {
        let before = &code[..*at];
        !before.ends_with(|c: char| c.is_alphanumeric() || c == '_' || c == ':') && !before.ends_with("pub(in ")
    };
    starts("crate::").chain(starts("super::")).filter(alone).map(from).collect()
}

fn word(text: &str) -> &str {
    &text[..text.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(text.len())]
}
