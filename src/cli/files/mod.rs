//! The only place that touches the disk.
//!
//! [`read`] turns paths into texts and bytes, each with a limit on its size; [`write`] puts a lesson's packets in place,
//! all or none, under the names and the lock of a [`place`], by the single steps of [`disk`]; [`recover`] clears up after
//! runs that were stopped; [`earlier`] knows what a packet holds that is there already; [`watch`] waits until something it was given changes.

mod disk;
pub mod earlier;
mod encoding;
mod ours;
mod place;
pub mod read;
mod recover;
mod sink;
pub mod watch;
pub mod write;

pub use place::{folder, is_device};
pub use recover::tidy;

#[cfg(test)]
mod faults;
