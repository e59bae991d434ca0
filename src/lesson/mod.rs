//! The lesson as it will be taught: chosen numbers, their forms, strips and times. No lengths, no pages.
//!
//! In: a [`Spec`](crate::spec::Spec). Out: a [`Lesson`], or the reason why there is none.

mod types;

pub use types::{Chosen, Lesson, Reason, Role, SortSet, Strip, Version, Wrong};
