//! Layout texts, the sheet's word on the first line: read, and the sheet laid out.

#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses a part of it")]
#[path = "../../tests/support/trials.rs"]
mod trials;

fuzz_target!(|bytes: &[u8]| {
    trials::layout(bytes);
});
