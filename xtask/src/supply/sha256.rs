//! SHA-256 (FIPS 180-4), to compare builds by a word that others can compare too. It keeps no secret.

const START: [u32; 8] = [
    0x6a09_e667,
    0xbb67_ae85,
    0x3c6e_f372,
    0xa54f_f53a,
    0x510e_527f,
    0x9b05_688c,
    0x1f83_d9ab,
    0x5be0_cd19,
];

/// The first 64 primes.
const PRIMES: [u32; 64] = primes();

const fn primes() -> [u32; 64] {
    let mut found = [0; 64];
    let (mut count, mut n) = (0, 2);
    while count < 64 {
        let (mut by, mut prime) = (2, true);
        while by * by <= n {
            prime &= n % by != 0;
            by += 1;
        }
        if prime {
            found[count] = n;
            count += 1;
        }
        n += 1;
    }
    found
}

/// The first 32 bits of the fraction of a number's cube root, in whole numbers: the root of
/// n · 2⁹⁶ is that of n, moved by 32 bits.
fn cube_root_fraction(n: u32) -> u32 {
    let (mut low, mut high) = (0_u128, 8_u128 << 32);
    while high - low > 1 {
        let middle = (low + high) / 2;
        // 35 bits to the third power are 105.
        if middle * middle * middle <= u128::from(n) << 96 {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low & 0xffff_ffff) as u32
}

/// The hash in hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    let rounds = PRIMES.map(cube_root_fraction);
    let mut padded = bytes.to_vec();
    padded.push(0x80);
    while padded.len() % 64 != 56 {
        padded.push(0);
    }
    padded.extend((bytes.len() as u64 * 8).to_be_bytes());
    let mut state = START;
    for block in padded.chunks_exact(64) {
        mix(&mut state, block, &rounds);
    }
    state.iter().map(|word| format!("{word:08x}")).collect()
}

fn mix(state: &mut [u32; 8], block: &[u8], rounds: &[u32; 64]) {
    let mut w = [0_u32; 64];
    for (word, four) in w.iter_mut().zip(block.chunks_exact(4)) {
        *word = four.iter().fold(0, |sum, byte| sum << 8 | u32::from(*byte));
    }
    for t in 16..64 {
        let (x, y) = (w[t - 15], w[t - 2]);
        let s0 = x.rotate_right(7) ^ x.rotate_right(18) ^ x >> 3;
        let s1 = y.rotate_right(17) ^ y.rotate_right(19) ^ y >> 10;
        w[t] = w[t - 16]
            .wrapping_add(s0)
            .wrapping_add(w[t - 7])
            .wrapping_add(s1);
    }
    let [mut a, mut b, mut c, mut d, mut e, mut f, mut g, mut h] = *state;
    for (k, w) in rounds.iter().zip(w) {
        let s1 = e.rotate_right(6) ^ e.rotate_right(11) ^ e.rotate_right(25);
        let t1 = h
            .wrapping_add(s1)
            .wrapping_add(e & f ^ !e & g)
            .wrapping_add(*k)
            .wrapping_add(w);
        let s0 = a.rotate_right(2) ^ a.rotate_right(13) ^ a.rotate_right(22);
        let t2 = s0.wrapping_add(a & b ^ a & c ^ b & c);
        (h, g, f, e, d, c, b, a) = (g, f, e, d.wrapping_add(t1), c, b, a, t1.wrapping_add(t2));
    }
    for (word, new) in state.iter_mut().zip([a, b, c, d, e, f, g, h]) {
        *word = word.wrapping_add(new);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashes_are_those_of_the_standards_examples() {
        for (text, hash) in [
            (
                "",
                "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            ),
            (
                "abc",
                "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            ),
            (
                "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
        ] {
            assert_eq!(hex(text.as_bytes()), hash, "{text}");
        }
        assert_eq!(
            hex(&vec![b'a'; 1_000_000]),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"
        );
    }
}
