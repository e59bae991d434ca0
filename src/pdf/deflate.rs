//! Deflating: bytes in, a zlib stream out, with reused states for each thread.

use flate2::{Compress, Compression, FlushCompress, Status};

use crate::diag::Problem;

/// Streams up to this many bytes stay as they are: deflated they would be hardly smaller, or even larger.
const TINY: usize = 96;
/// Streams up to this many bytes are searched quickly. Most of what a careful search costs them is its start, and the
/// pages of a class set have thousands of them.
const SMALL: usize = 1_536;

/// Compressors that are reset, not rebuilt, for each stream.
pub struct Deflater {
    quick: Compress,
    careful: Compress,
}

impl Deflater {
    /// Compressors at the levels that small and other streams are best served by; `cargo bench --bench pdf` compares them.
    pub fn new() -> Self {
        Self {
            quick: Compress::new(Compression::new(1), true),
            careful: Compress::new(Compression::new(CAREFUL), true),
        }
    }

    /// Puts the zlib stream of `plain` into the emptied `out`; whether there is one, which a tiny stream has not.
    pub fn deflate(&mut self, plain: &[u8], out: &mut Vec<u8>) -> Result<bool, Problem> {
        out.clear();
        if plain.len() <= TINY {
            return Ok(false);
        }
        let state = if plain.len() <= SMALL { &mut self.quick } else { &mut self.careful };
        state.reset();
        // Stored blocks cost 5 bytes for 16 kB, so this room is always enough.
        out.reserve(plain.len() + plain.len() / 1000 + 64);
        match state.compress_vec(plain, out, FlushCompress::Finish) {
            Ok(Status::StreamEnd) => Ok(true),
            Ok(_) | Err(_) => Err(super::internal("a stream could not be deflated")),
        }
    }
}

/// The level for streams that are not small.
const CAREFUL: u32 = 6;
