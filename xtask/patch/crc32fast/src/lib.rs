//! CRC-32 (ISO 3309, the one of PNG and gzip) with one table of 256 entries.
//!
//! It stands in for the crate of the same name, whose sixteen tables are 16 KB of
//! incompressible data in a page that has 350 KB to spend; PNG decoders ask for it. Only what
//! they call is here. A checksum over a photo costs a few milliseconds more.

/// Reversed polynomial 0x04C11DB7.
const POLYNOMIAL: u32 = 0xEDB8_8320;

const TABLE: [u32; 256] = {
    let mut table = [0_u32; 256];
    let mut i = 0;
    while i < 256 {
        let mut value = i as u32;
        let mut bit = 0;
        while bit < 8 {
            value = if value & 1 == 1 {
                (value >> 1) ^ POLYNOMIAL
            } else {
                value >> 1
            };
            bit += 1;
        }
        table[i] = value;
        i += 1;
    }
    table
};

/// The checksum of some bytes.
pub fn hash(bytes: &[u8]) -> u32 {
    let mut hasher = Hasher::new();
    hasher.update(bytes);
    hasher.finalize()
}

/// A checksum in the making.
#[derive(Debug, Clone, Default)]
pub struct Hasher {
    crc: u32,
    amount: u64,
}

impl Hasher {
    /// Of no bytes yet.
    pub const fn new() -> Self {
        Self::new_with_initial(0)
    }

    /// Going on from a checksum.
    pub const fn new_with_initial(crc: u32) -> Self {
        Self::new_with_initial_len(crc, 0)
    }

    /// Going on from a checksum of `amount` bytes.
    pub const fn new_with_initial_len(crc: u32, amount: u64) -> Self {
        Self { crc, amount }
    }

    /// Takes more bytes in.
    pub fn update(&mut self, bytes: &[u8]) {
        self.amount = self.amount.wrapping_add(bytes.len() as u64);
        self.crc = !bytes.iter().fold(!self.crc, |crc, byte| {
            TABLE[usize::from(crc as u8 ^ byte)] ^ (crc >> 8)
        });
    }

    /// The checksum.
    pub fn finalize(self) -> u32 {
        self.crc
    }

    /// Goes on with what another hasher took in.
    pub fn combine(&mut self, next: &Self) {
        // Zero bytes in the place of the other's; linear, and nobody here calls it on much.
        let shifted = (0..next.amount).fold(self.crc, |crc, _| {
            TABLE[usize::from(crc as u8)] ^ (crc >> 8)
        });
        self.crc = shifted ^ next.crc;
        self.amount = self.amount.wrapping_add(next.amount);
    }

    /// Starts again.
    pub fn reset(&mut self) {
        *self = Self::new();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of the CRC catalogues for CRC-32/ISO-HDLC, and the CRC that every PNG
    /// ends with (PNG specification, IEND).
    #[test]
    fn published_values() {
        assert_eq!(hash(b"123456789"), 0xCBF4_3926);
        assert_eq!(hash(b"IEND"), 0xAE42_6082);
        assert_eq!(hash(b""), 0);
    }

    #[test]
    fn in_parts() {
        let mut h = Hasher::new();
        h.update(b"12345");
        let mut h = Hasher::new_with_initial(h.finalize());
        h.update(b"6789");
        assert_eq!(h.clone().finalize(), 0xCBF4_3926);
        h.reset();
        assert_eq!(h.clone().finalize(), 0);
        let mut tail = Hasher::new();
        h.update(b"123");
        tail.update(b"456789");
        h.combine(&tail);
        assert_eq!(h.finalize(), 0xCBF4_3926);
    }
}
