//! The words of one block of a scan, read for how many bits they take: of whole blocks, and of the
//! parts that a progressive JPEG sends one after another (ITU-T T.81, F.2.2 and G.1.2).

use super::code::{Bits, Code};

/// Whether up to a bit there is only what fills: the rest of a byte, or bytes of noughts or ones.
pub fn filled(bits: &mut Bits<'_>, end: u64) -> bool {
    bits.refill();
    bits.skip((bits.position().wrapping_neg() % 8) as u32);
    while bits.position() < end {
        bits.refill();
        if !matches!(bits.number(8), 0 | 0xFF) {
            return false;
        }
        bits.skip(8);
    }
    bits.position() == end
}

/// Takes the next word: its run and its size. At least 17 bits are there after it.
#[inline(never)]
fn word(bits: &mut Bits<'_>, code: &Code) -> Option<(u32, u32)> {
    bits.refill();
    let word = code.word(bits.peek_16())?;
    bits.skip(word.length.into());
    Some((word.run.into(), word.size.into()))
}

/// Leaves out so many bits.
#[inline(never)]
pub fn pass(bits: &mut Bits<'_>, mut count: u32) {
    while count > 0 {
        let some = count.min(32);
        bits.refill();
        bits.skip(some);
        count -= some;
    }
}

/// The mean of a block.
pub fn mean(bits: &mut Bits<'_>, code: &Code) -> Option<()> {
    let (run, size) = word(bits, code)?;
    bits.skip(size);
    (run == 0 && size <= 11).then_some(())
}

/// The coefficients of a range, when they come first. `empty`: further blocks without any, where
/// such are told together.
#[inline(never)]
pub fn range(
    bits: &mut Bits<'_>,
    code: &Code,
    (from, to): (u32, u32),
    mut empty: Option<&mut u32>,
    seen: &mut u64,
) -> Option<()> {
    if let Some(blocks) = empty.as_deref_mut().filter(|blocks| **blocks > 0) {
        *blocks -= 1;
        return Some(());
    }
    let mut k = from;
    while k <= to {
        let (run, size) = word(bits, code)?;
        match (run, size) {
            (15, 0) => k += 16,
            (_, 0) => {
                match empty {
                    Some(blocks) => *blocks = (1 << run) - 1 + bits.number(run),
                    None if run > 0 => return None,
                    None => {}
                }
                bits.skip(run);
                return Some(());
            }
            _ => {
                bits.skip(size);
                k += run + 1;
                *seen |= 1_u64.checked_shl(k - 1)?;
            }
        }
    }
    (k == to + 1).then_some(())
}

/// The next bit of the coefficients of a range, and those that come with it (T.81, G.1.2.3).
#[inline(never)]
pub fn again(
    bits: &mut Bits<'_>,
    code: &Code,
    (from, to): (u32, u32),
    empty: &mut u32,
    seen: &mut u64,
) -> Option<()> {
    let before = *seen;
    let mut k = from;
    while *empty == 0 && k <= to {
        let (mut zeros, size) = word(bits, code)?;
        match (zeros, size) {
            (15, 0) => {}
            (_, 0) => {
                *empty = (1 << zeros) + bits.number(zeros);
                bits.skip(zeros);
                break;
            }
            (_, 1) => bits.skip(1),
            _ => return None,
        }
        // Those that were there have their bit; of the others so many stay as they are.
        loop {
            if k > to {
                return None;
            }
            if before >> k & 1 == 1 {
                pass(bits, 1);
            } else if zeros == 0 {
                break;
            } else {
                zeros -= 1;
            }
            k += 1;
        }
        *seen |= u64::from(size) << k;
        k += 1;
    }
    if *empty > 0 {
        *empty -= 1;
        // `k` may be one beyond the range, and then beyond all.
        if k <= to {
            let those = before & (!0_u64 << k) & (!0_u64 >> (63 - to));
            pass(bits, those.count_ones());
        }
    }
    Some(())
}
