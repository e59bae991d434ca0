//! The numbers in a font's tables: big-endian, at a place that may lie outside.

/// The 16 bits at a place.
pub fn word(bytes: &[u8], at: usize) -> Option<u16> {
    bytes.get(at..)?.first_chunk().map(|pair| u16::from_be_bytes(*pair))
}

/// The 32 bits at a place.
pub fn long(bytes: &[u8], at: usize) -> Option<u32> {
    bytes.get(at..)?.first_chunk().map(|four| u32::from_be_bytes(*four))
}
