//! Take and finish: a table gives up its keys one by one, and what is left at the end is an error.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::keys::kind::{Kind, Readable};
use super::keys::{Keyed, Usually};
use super::log::Log;
use super::types::Given;
use super::value::Value;

/// A table of the file while it is read. A table that the file lacks is an empty one, so that its keys become known.
pub(super) struct Table<'t> {
    /// `numbers.sort`; empty for the file itself.
    path: String,
    entries: BTreeMap<&'t str, (Range<usize>, &'t Spanned<DeValue<'t>>)>,
    taken: Vec<&'static str>,
    /// Where the file names it.
    header: Range<usize>,
    /// False when the file gives something else in its place.
    sound: bool,
}

impl<'t> Table<'t> {
    /// The file itself.
    pub(super) fn root(table: &'t DeTable<'t>) -> Self {
        Self::new(String::new(), 0..0, Some(table), true)
    }

    pub(super) fn new(path: String, header: Range<usize>, table: Option<&'t DeTable<'t>>, sound: bool) -> Self {
        let entries = table.into_iter().flatten().map(|(key, value)| (key.get_ref().as_ref(), (key.span(), value)));
        Self { path, entries: entries.collect(), taken: Vec::new(), header, sound }
    }

    /// Whether it has the last name of this path: `sort` of `numbers.sort` and of `group.sort`.
    pub(super) fn is_of(&self, path: &str) -> bool {
        self.path.rsplit('.').next() == path.rsplit('.').next()
    }

    /// Where a message about something missing points.
    pub(super) fn header(&self) -> Range<usize> {
        self.header.clone()
    }

    /// Whether it makes sense to miss something in it.
    pub(super) fn is_sound(&self) -> bool {
        self.sound
    }

    /// The value of a key, if the file gives it.
    pub(super) fn take(&mut self, key: &impl Keyed) -> Option<Value<'t>> {
        self.take_named(key.key().name)
    }

    /// [`Table::take`] for names that are no keys of their own: tables, places, and the two ends of a count.
    pub(super) fn take_named(&mut self, key: &'static str) -> Option<Value<'t>> {
        self.taken.push(key);
        self.refuse(key)
    }

    /// The value of a name that is no key of this table, to be refused in words of its own.
    pub(super) fn refuse(&mut self, key: &'static str) -> Option<Value<'t>> {
        let (key_span, value) = self.entries.remove(key)?;
        let name = if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) };
        Some(Value::new(name, key_span, value))
    }

    /// What the file says under a key, if it can be read.
    pub(super) fn read<K: Keyed<Kind: Readable>>(
        &mut self,
        key: &K,
        log: &mut Log,
    ) -> Option<Given<<K::Kind as Kind>::Value>> {
        self.take(key).and_then(|value| key.key().kind.read(&value, log))
    }

    /// What the file says under a key, or the key's default.
    pub(super) fn settle<K: Readable>(&mut self, key: &Usually<K>, log: &mut Log) -> Given<K::Value> {
        self.read(key, log).unwrap_or_else(|| Given::assumed(key.value.clone()))
    }

    /// A table inside this one; empty when the file lacks it or gives something else there.
    pub(super) fn inner(&mut self, key: &'static str, log: &mut Log) -> Self {
        if let Some(value) = self.take_named(key) {
            return Self::of(&value, log);
        }
        self.missing(key)
    }

    /// A table that the file lacks, so that its keys become known.
    pub(super) fn missing(&self, key: &'static str) -> Self {
        let path = if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) };
        Self::new(path, self.header.clone(), None, true)
    }

    /// A value as a table.
    pub(super) fn of(value: &Value<'t>, log: &mut Log) -> Self {
        let inner = value.inner();
        if !inner.is_table() {
            let name = value.name();
            value.mistaken(log, "a section", &format!("expected a section that begins with the line [{name}]"));
        }
        Self::new(value.name().to_owned(), value.key(), inner.as_table(), inner.is_table())
    }

    /// Reports what no one took.
    pub(super) fn finish(self, log: &mut Log) {
        for (key, (span, _)) in &self.entries {
            log.left(&self.path, key, span.clone());
        }
        log.known(&self.path, self.taken);
    }
}
