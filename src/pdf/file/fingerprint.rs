//! The identifier of a file, from its bytes.

/// A fingerprint of the bytes written, from which the file's identifier is made: the same bytes, the same identifier.
///
/// Two FNV-1a sums over words of eight bytes (Fowler, Noll and Vo; offset and prime as in the Internet draft
/// draft-eastlake-fnv); no secret depends on it.
pub struct Fingerprint([u64; 2]);

impl Fingerprint {
    /// The fingerprint of nothing.
    pub fn new() -> Self {
        Self([0xCBF2_9CE4_8422_2325, 0x6C62_272E_07BB_0142])
    }

    /// Takes in the next bytes.
    pub fn take(&mut self, bytes: &[u8]) {
        for word in bytes.chunks(8) {
            let mut padded = [0; 8];
            padded[..word.len()].copy_from_slice(word);
            let value = u64::from_le_bytes(padded);
            let [a, b] = self.0;
            self.0 = [
                (a ^ value).wrapping_mul(0x0000_0100_0000_01B3),
                (b.rotate_left(31) ^ value).wrapping_mul(0x0000_0100_0000_01B3),
            ];
        }
    }

    /// 32 hexadecimal digits.
    pub fn text(&self) -> String {
        format!("{:016X}{:016X}", self.0[0], self.0[1])
    }
}
