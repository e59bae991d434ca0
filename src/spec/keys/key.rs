//! What a key is: its name and place, what it takes, and what becomes of a lesson without it.

use serde_json::Value;

use super::kind::{Kind, Shape};

/// A key of the lesson file.
#[derive(Debug, Clone, Copy)]
pub struct Key<K> {
    /// The table it stands in: empty for the top of the file, [`ROLE`] for each role's table.
    pub table: &'static str,
    /// Its name there.
    pub name: &'static str,
    /// What can be given.
    pub kind: K,
    /// What becomes of a lesson without it, unless it has a fixed default.
    without: Without,
    /// A value as a lesson gives it.
    pub example: &'static str,
    /// What it means, in a few words without a full stop.
    pub says: &'static str,
}

/// The table of a role: `numbers.model`, `numbers.sort` and `numbers.exit` have the same keys.
pub const ROLE: &str = "numbers.ROLE";
/// What stands for `ROLE`.
pub const ROLES: [&str; 3] = ["model", "sort", "exit"];

/// The table of the role that has versions.
pub const SORT: &str = "numbers.sort";

/// The table of a group; a lesson may have several.
pub const GROUP: &str = "group";
/// The table of a group's role: `group.sort` and `group.exit` have the same keys.
pub const GROUP_ROLE: &str = "group.ROLE";
/// The table of a group's role that has versions.
pub const GROUP_SORT: &str = "group.sort";
/// What stands for `ROLE` there: model numbers are built with the whole class.
pub const GROUP_ROLES: [&str; 2] = ["sort", "exit"];
/// What a group calls forms.
pub const GROUP_NAMES: &str = "group.names";

/// What becomes of a lesson that is silent.
#[derive(Debug, Clone, Copy)]
enum Without {
    /// It cannot be made.
    Needed,
    /// Nothing is asked.
    Nothing,
    /// The value is worked out, in these words.
    Worked(&'static str),
}

/// A key with a value that is taken where the file is silent.
#[derive(Debug, Clone)]
pub struct Usually<K: Kind> {
    key: Key<K>,
    /// The value.
    pub value: K::Value,
}

impl<K> Key<K> {
    /// A key that may be left out: then it asks for nothing.
    pub(super) const fn new(
        table: &'static str,
        name: &'static str,
        kind: K,
        example: &'static str,
        says: &'static str,
    ) -> Self {
        Self { table, name, kind, without: Without::Nothing, example, says }
    }

    /// The same key, without which no lesson can be made.
    pub(super) const fn needed(mut self) -> Self {
        self.without = Without::Needed;
        self
    }

    /// The same key, whose value is worked out where the file is silent.
    pub(super) const fn worked(mut self, how: &'static str) -> Self {
        self.without = Without::Worked(how);
        self
    }
}

impl<K: Kind> Key<K> {
    /// The same key with a default.
    pub(super) const fn usually(self, value: K::Value) -> Usually<K> {
        Usually { key: self, value }
    }
}

/// A key, with a default or without.
pub trait Keyed {
    /// What can be given.
    type Kind: Kind;

    /// The key itself.
    fn key(&self) -> &Key<Self::Kind>;

    /// What is taken where the file is silent, if that is one value.
    fn usual(&self) -> Option<Value>;

    /// Its name in messages and in what is assumed: `print.margin`.
    fn path(&self) -> String {
        let Key { table, name, .. } = self.key();
        if table.is_empty() { (*name).to_owned() } else { format!("{table}.{name}") }
    }

    /// What the reference says of it.
    fn row(&self) -> KeyRow {
        let key = self.key();
        let default = match (self.usual(), key.without) {
            (Some(value), _) => Default::Value(value),
            (None, Without::Needed) => Default::Needed,
            (None, Without::Nothing) => Default::Nothing,
            (None, Without::Worked(how)) => Default::Worked(how),
        };
        KeyRow {
            table: key.table,
            name: key.name,
            shape: key.kind.shape(),
            default,
            example: key.example,
            says: key.says,
        }
    }
}

impl<K: Kind> Keyed for Key<K> {
    type Kind = K;

    fn key(&self) -> &Self {
        self
    }

    fn usual(&self) -> Option<Value> {
        None
    }
}

impl<K: Kind> Keyed for Usually<K> {
    type Kind = K;

    fn key(&self) -> &Key<K> {
        &self.key
    }

    fn usual(&self) -> Option<Value> {
        Some(self.key.kind.json(&self.value))
    }
}

/// A key as the reference shows it.
#[derive(Debug, Clone)]
pub struct KeyRow {
    /// Its table, as in [`Key::table`].
    pub table: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What can be given.
    pub shape: Shape,
    /// What is taken where the file is silent.
    pub default: Default,
    /// A value as a lesson gives it.
    pub example: &'static str,
    /// What it means.
    pub says: &'static str,
}

impl KeyRow {
    /// The same key in the table of a group, which takes the class's value where it is silent.
    pub(super) fn of_group(self) -> Self {
        let table = match self.table {
            ROLE => GROUP_ROLE,
            SORT => GROUP_SORT,
            "forms.names" => GROUP_NAMES,
            _ => GROUP,
        };
        Self { table, default: Default::Worked("the class's"), ..self }
    }

    /// The tables in which it stands, with the names of the roles.
    pub fn tables(&self) -> Vec<String> {
        let roles = match self.table {
            ROLE => &ROLES[..],
            GROUP_ROLE => &GROUP_ROLES[..],
            _ => return vec![self.table.to_owned()],
        };
        roles.iter().map(|role| self.table.replace("ROLE", role)).collect()
    }
}

/// What is taken where the file is silent, for the reference.
#[derive(Debug, Clone, PartialEq)]
pub enum Default {
    /// The key must be given.
    Needed,
    /// Nothing.
    Nothing,
    /// This value.
    Value(Value),
    /// A value that is worked out, in these words.
    Worked(&'static str),
}

impl Default {
    /// In words, without a full stop.
    pub fn words(&self) -> String {
        match self {
            Self::Needed => "must be given".to_owned(),
            Self::Nothing => "nothing".to_owned(),
            Self::Value(value) => as_toml(value),
            Self::Worked(how) => (*how).to_owned(),
        }
    }
}

/// A value as a lesson file would give it.
pub fn as_toml(value: &Value) -> String {
    match value {
        Value::Array(items) => format!("[{}]", items.iter().map(as_toml).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}
