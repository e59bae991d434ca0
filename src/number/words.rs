//! Number words.
