//! `[class]`: for whom.

use super::limits;
use super::log::Log;
use super::table::Table;
use super::types::{ClassSpec, Given};

const LEARNERS: u32 = 24;
const SPARES: u32 = 2;
const VERSIONS: u32 = 1;

pub(super) fn read(mut table: Table, log: &mut Log) -> ClassSpec {
    let learners = table.take("learners").and_then(|v| v.count(log, limits::LEARNERS));
    let spares = table.take("spares").and_then(|v| v.count(log, limits::SPARES));
    let versions = table.take("versions").and_then(|v| v.count(log, limits::VERSIONS));
    let roster = table.take("roster").and_then(|v| v.line(log, limits::PATH));
    table.finish(log);
    ClassSpec {
        learners: learners.unwrap_or(Given::assumed(LEARNERS)),
        spares: spares.unwrap_or(Given::assumed(SPARES)),
        versions: versions.unwrap_or(Given::assumed(VERSIONS)),
        roster,
    }
}
