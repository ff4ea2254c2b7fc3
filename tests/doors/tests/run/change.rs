//! Seeded changes of sound bytes: what parsers trip over.

/// Makes changed inputs, the same ones for the same name.
pub struct Change {
    state: u64,
}

/// Values at the edges of what fits.
const EDGES: &[&[u8]] = &[
    &[0],
    &[0xFF],
    &[0x7F],
    &[0x80],
    &[0xFF, 0xFF],
    &[0, 0, 0, 0],
    &[0xFF, 0xFF, 0xFF, 0xFF],
    &[0x7F, 0xFF, 0xFF, 0xFF],
    &[0xFF, 0xFF, 0xFF, 0x7F],
    b"1e999",
    b"-0",
    b"null",
    b"[]",
    b"{}",
    b"\"\"",
    b"1e-320",
    b"\xE2\x80\xAE",
];

impl Change {
    pub fn new(name: &str) -> Self {
        let seed = name
            .bytes()
            .fold(7, |s: u64, b| s.wrapping_mul(31).wrapping_add(u64::from(b)));
        Self { state: seed | 1 }
    }

    fn next(&mut self, below: usize) -> usize {
        // xorshift64* (Marsaglia 2003, Vigna 2016).
        self.state ^= self.state >> 12;
        self.state ^= self.state << 25;
        self.state ^= self.state >> 27;
        let mixed = self.state.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 33;
        (mixed as usize) % below.max(1)
    }

    /// One of the inputs with one to six changes.
    pub fn one_of(&mut self, from: &[Vec<u8>]) -> Vec<u8> {
        let mut bytes = from[self.next(from.len())].clone();
        for _ in 0..=self.next(6) {
            self.once(&mut bytes, from);
        }
        bytes
    }

    fn once(&mut self, bytes: &mut Vec<u8>, from: &[Vec<u8>]) {
        // Heads hold most of what is parsed.
        let reach = if self.next(2) == 0 {
            bytes.len().min(300)
        } else {
            bytes.len()
        };
        let at = self.next(reach + 1);
        let count = (1 + self.next(16)).min(bytes.len() - at);
        match self.next(7) {
            0 if at < bytes.len() => bytes[at] ^= 1 << self.next(8),
            1 if at < bytes.len() => bytes[at] = self.next(256) as u8,
            2 => {
                let edge = EDGES[self.next(EDGES.len())];
                let end = (at + edge.len()).min(bytes.len());
                bytes.splice(at..end, edge.iter().copied());
            }
            3 => drop(bytes.drain(at..at + count)),
            4 => {
                let piece = bytes[at..at + count].to_vec();
                let to = self.next(bytes.len() + 1);
                bytes.splice(to..to, piece);
            }
            5 => {
                let other = &from[self.next(from.len())];
                let cut = self.next(other.len() + 1);
                bytes.truncate(at);
                bytes.extend(&other[cut..]);
            }
            _ => bytes.truncate(at.max(1)),
        }
    }
}
