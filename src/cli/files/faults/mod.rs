//! The table of faults: every single step of writing fails once, or fails from there on, or is where the process is killed;
//! the disk fills up at every kind of byte. Each time what can be read is the old packet or the new one, and the next run
//! leaves nothing else.

mod cases;
mod kill;
mod scene;
