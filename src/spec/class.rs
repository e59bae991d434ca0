//! `[class]`: for whom.

use super::keys::list;
use super::log::Log;
use super::table::Table;
use super::types::ClassSpec;

pub(super) fn read(mut table: Table, log: &mut Log) -> ClassSpec {
    let class = ClassSpec {
        learners: table.settle(&list::LEARNERS, log),
        spares: table.settle(&list::SPARES, log),
        versions: table.settle(&list::VERSIONS, log),
        roster: table.read(&list::ROSTER, log),
    };
    table.finish(log);
    class
}
