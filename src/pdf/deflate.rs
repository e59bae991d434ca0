//! Deflating: bytes in, a zlib stream out, with reused states for each thread.

use flate2::{Compress, Compression, FlushCompress, Status};

use crate::diag::Problem;

/// Streams up to this many bytes stay as they are: deflated they would be hardly smaller, or even larger.
const TINY: usize = 96;
/// Streams up to this many bytes are searched quickly: most of what a careful search costs them is its start.
const SMALL: usize = 1_536;

/// Compressors that are reset, not rebuilt, for each stream.
///
/// The levels are chosen by measurement on the structure of 12,000 pages: level 6 takes almost three times as long as level
/// 3 and makes it 6 % smaller; level 2 takes a fifth less time and makes it 10 % larger, too large for what a page may cost.
pub struct Deflater {
    quick: Compress,
    careful: Compress,
}

impl Deflater {
    /// For streams that a file has by the thousands.
    pub fn many() -> Self {
        Self::at(1, 3)
    }

    /// For streams that a file has once, such as fonts.
    pub fn once() -> Self {
        Self::at(6, 6)
    }

    fn at(quick: u32, careful: u32) -> Self {
        let state = |level| Compress::new(Compression::new(level), true);
        Self { quick: state(quick), careful: state(careful) }
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

#[cfg(test)]
mod tests {
    use std::io::Read;

    use super::*;

    #[test]
    fn what_is_deflated_comes_back_whole() {
        for mut deflater in [Deflater::many(), Deflater::once()] {
            let mut out = Vec::new();
            for size in [97, 500, 1_536, 1_537, 100_000] {
                let plain: Vec<u8> = (0..size).map(|k: u32| (k % 251) as u8).collect();
                assert!(deflater.deflate(&plain, &mut out).unwrap());
                let mut back = Vec::new();
                flate2::read::ZlibDecoder::new(out.as_slice()).read_to_end(&mut back).unwrap();
                assert!(back == plain, "{size}");
            }
            assert!(!deflater.deflate(b"q Q", &mut out).unwrap() && out.is_empty());
        }
    }
}
