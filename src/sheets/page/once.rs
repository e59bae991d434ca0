//! Something that several sheets share and one of them works out: kept so that it is worked out once.

use std::any::Any;
use std::sync::{Arc, OnceLock};

use crate::diag::Problem;

/// A place for one value, empty at first; clones share it. It does not know what it keeps: the sheet that works it out does.
#[derive(Debug, Clone, Default)]
pub struct Once(Arc<OnceLock<Box<dyn Any + Send + Sync>>>);

impl Once {
    /// The value, worked out by the first who asks. Fails when that failed, or when a value of another type is kept.
    pub fn get<T: Send + Sync + 'static>(&self, work: impl FnOnce() -> Result<T, Problem>) -> Result<&T, Problem> {
        let kept = self.0.get_or_init(|| Box::new(work()));
        match kept.downcast_ref::<Result<T, Problem>>() {
            Some(worked) => worked.as_ref().map_err(Clone::clone),
            None => Err(Problem::new("internal: two sheets share one place").hint("please report this")),
        }
    }
}
