//! Requests to the desk, one after the other to one that stays open.

#![no_main]

use libfuzzer_sys::fuzz_target;

#[allow(dead_code, reason = "each target uses a part of it")]
#[path = "../../tests/support/requests.rs"]
mod requests;

fuzz_target!(|bytes: &[u8]| {
    requests::desk(bytes);
});
