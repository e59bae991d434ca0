//! `[class]`: for whom.

use std::collections::BTreeMap;

use super::keys::kind::Readable;
use super::keys::{Keyed, list};
use super::log::Log;
use super::sheet_kind::SheetKind;
use super::table::Table;
use super::types::{ClassSpec, Given};

pub(super) fn read(mut table: Table, log: &mut Log) -> ClassSpec {
    let class = ClassSpec {
        learners: table.settle(&list::LEARNERS, log),
        spares: table.settle(&list::SPARES, log),
        versions: table.settle(&list::VERSIONS, log),
        roster: table.read(&list::ROSTER, log),
        share: share(&mut table, log),
    };
    table.finish(log);
    class
}

/// How many learners use one copy of each kit's sheet.
fn share(table: &mut Table, log: &mut Log) -> BTreeMap<SheetKind, Given<u32>> {
    let key = list::SHARE.key();
    let mut table = table.inner(key.name, log);
    let mut shares = BTreeMap::new();
    for kind in key.kind.of {
        let given = table.take_named(kind.word()).and_then(|value| key.kind.count.read(&value, log));
        shares.insert(*kind, given.unwrap_or(Given::assumed(list::SHARED)));
    }
    table.finish(log);
    shares
}
