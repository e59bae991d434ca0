//! The only place that touches the disk.
//!
//! [`read`] turns paths into texts and bytes, each with a limit on its size; [`write`] puts a lesson's packets in place,
//! all or none; [`watch`] waits until something it was given changes.

mod ours;
pub mod read;
pub mod watch;
pub mod write;
