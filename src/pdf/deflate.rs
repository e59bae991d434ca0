//! Deflating: bytes in, a zlib stream out, with one reused state for each thread.

use flate2::{Compress, Compression, FlushCompress, Status};

use crate::diag::Problem;

/// A compressor that is reset, not rebuilt, for each stream.
pub struct Deflater {
    state: Compress,
}

impl Deflater {
    /// A compressor at the level that a page stream is best served by.
    pub fn new() -> Self {
        Self { state: Compress::new(Compression::new(6), true) }
    }

    /// Adds the zlib stream of `plain` to `out`.
    pub fn deflate(&mut self, plain: &[u8], out: &mut Vec<u8>) -> Result<(), Problem> {
        self.state.reset();
        // Stored blocks cost 5 bytes for 16 kB, so this room is always enough.
        out.reserve(plain.len() + plain.len() / 1000 + 64);
        match self.state.compress_vec(plain, out, FlushCompress::Finish) {
            Ok(Status::StreamEnd) => Ok(()),
            Ok(_) | Err(_) => Err(super::internal("a stream could not be deflated")),
        }
    }
}
