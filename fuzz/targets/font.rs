//! Font files: read, and a set of strips written in them.

#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses a part of it")]
#[path = "../../tests/support/trials.rs"]
mod trials;

fuzz_target!(|bytes: &[u8]| {
    trials::font(bytes);
});
