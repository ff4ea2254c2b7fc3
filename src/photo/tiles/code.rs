//! Huffman codes of a JPEG (ITU-T T.81, annex C and F.2.2), reading bits, and the coefficients of a
//! block from them.

/// Bits that are looked up at once.
const QUICK: u32 = 10;
/// The same for coefficients together with their values.
const COEFFICIENT: u32 = 12;

/// What a code word stands for.
#[derive(Debug, Clone, Copy, Default)]
pub struct Word {
    /// Bits of the word; 0 for none such.
    pub length: u8,
    /// Zero coefficients before this one.
    pub run: u8,
    /// Bits of the value that follows.
    pub size: u8,
}

/// A coefficient whose word and value are short enough to be looked up together; or the end of a
/// block.
#[derive(Debug, Clone, Copy, Default)]
struct Short {
    /// Bits of both; 0 for none such.
    length: u8,
    /// Zero coefficients before this one, or [`END`].
    run: u8,
    /// The value.
    value: i16,
}

/// The run that ends a block: beyond any.
const END: u8 = 128;

/// Those of a code, by the next bits.
pub struct Shorts(Box<[Short; 1 << COEFFICIENT]>);

impl Shorts {
    /// Of a code for coefficients (not for means).
    pub fn new(code: &Code) -> Self {
        let mut all = Box::new([Short::default(); 1 << COEFFICIENT]);
        for (next, short) in all.iter_mut().enumerate() {
            let words = [(next as u32) << (32 - COEFFICIENT)];
            let bits = Bits::at(&words, 0);
            let Some(word) = code.word(bits.peek_16()) else {
                continue;
            };
            let length = word.length + word.size;
            if u32::from(length) > COEFFICIENT || (word.size == 0 && word.run != 0) {
                continue;
            }
            let value = bits.value(u32::from(word.length), u32::from(word.size)) as i16;
            let run = if word.size == 0 { END } else { word.run };
            *short = Short { length, run, value };
        }
        Self(all)
    }

    /// What the next 16 bits begin with, if it is short.
    #[inline(always)]
    fn next(&self, next_16: u32) -> Short {
        let at = (next_16 >> (16 - COEFFICIENT)) as usize;
        self.0.get(at).copied().unwrap_or_default()
    }
}

/// A code, for looking up.
pub struct Code {
    values: Vec<u8>,
    quick: Box<[Word; 1 << QUICK]>,
    /// Per length above `QUICK`: first code word above those of this length, aligned to 16 bits;
    /// and what to add to a word to have the place of its value.
    long: [(u32, i32); 17],
}

impl Code {
    /// From the counts per length and the values. `None` when they are no prefix code.
    pub fn new(counts: &[u8; 16], values: &[u8]) -> Option<Self> {
        let mut quick = Box::new([Word::default(); 1 << QUICK]);
        let mut long = [(0, 0); 17];
        let mut all = values.iter();
        let (mut word, mut place) = (0_u32, 0_i32);
        for ((length, count), long) in (1_u32..).zip(counts).zip(long.iter_mut().skip(1)) {
            let last = word + u32::from(*count);
            if last > 1 << length {
                return None;
            }
            *long = (last << (16 - length), place - word as i32);
            for w in word..last {
                let value = *all.next()?;
                if length <= QUICK {
                    let from = (w << (QUICK - length)) as usize;
                    let to = ((w + 1) << (QUICK - length)) as usize;
                    quick.get_mut(from..to)?.fill(Word {
                        length: length as u8,
                        run: value >> 4,
                        size: value & 15,
                    });
                }
            }
            place += i32::from(*count);
            word = last << 1;
        }
        all.next().is_none().then_some(Self {
            values: values.to_vec(),
            quick,
            long,
        })
    }

    /// The codes of a DHT segment: each with its kind and number, as one byte. `None` when one is none.
    pub fn all_of(mut segment: &[u8], mut put: impl FnMut(u8, Self) -> Option<()>) -> Option<()> {
        while let [kind, rest @ ..] = segment {
            let (counts, rest) = rest.split_first_chunk::<16>()?;
            let count: usize = counts.iter().map(|c| usize::from(*c)).sum();
            let (values, rest) = rest.split_at_checked(count)?;
            put(*kind, Self::new(counts, values)?)?;
            segment = rest;
        }
        Some(())
    }

    /// The word that the next 16 bits begin with.
    #[inline(always)]
    pub fn word(&self, next_16: u32) -> Option<Word> {
        let word = *self.quick.get((next_16 >> (16 - QUICK)) as usize)?;
        if word.length != 0 {
            return Some(word);
        }
        self.long_word(next_16)
    }

    #[cold]
    fn long_word(&self, next_16: u32) -> Option<Word> {
        for (length, (above, add)) in (0_u32..).zip(&self.long).skip(QUICK as usize + 1) {
            if next_16 < *above {
                let place = (next_16 >> (16 - length)) as i32 + add;
                let value = *self.values.get(usize::try_from(place).ok()?)?;
                return Some(Word {
                    length: length as u8,
                    run: value >> 4,
                    size: value & 15,
                });
            }
        }
        None
    }
}

/// The codes that the blocks of a component are written in.
#[derive(Clone, Copy)]
pub struct Codes<'a> {
    /// For the mean coefficient.
    pub mean: &'a Code,
    /// For the others.
    pub others: &'a (Code, Shorts),
}

/// Largest magnitude of a quantised mean in 8-bit pictures.
const MAX_MEAN: i32 = 2047;

impl Codes<'_> {
    /// One block: tells the coefficients that are not zero, by their place in stored order, the
    /// mean (which may be) first. `mean` is that of the block before, then of this one. `None` for
    /// what is no block of an 8-bit baseline JPEG.
    #[inline(always)]
    pub fn block(
        &self,
        from: &mut Bits<'_>,
        mean: &mut i32,
        mut tell: impl FnMut(usize, i32),
    ) -> Option<()> {
        let (others, shorts) = self.others;
        // A copy, so that it is held in registers.
        let mut bits = *from;
        bits.refill();
        let word = self.mean.word(bits.peek_16())?;
        if word.run != 0 || word.size > 11 {
            return None;
        }
        let (length, size) = (u32::from(word.length), u32::from(word.size));
        *mean += bits.value(length, size);
        bits.skip(length + size);
        if mean.abs() > MAX_MEAN {
            return None;
        }
        tell(0, *mean);
        let mut k = 1;
        while k < 64 {
            bits.refill();
            let short = shorts.next(bits.peek_16());
            if short.length != 0 {
                bits.skip(u32::from(short.length));
                k += usize::from(short.run);
                if k >= 64 {
                    *from = bits;
                    return (k >= usize::from(END)).then_some(());
                }
                tell(k, i32::from(short.value));
                k += 1;
                continue;
            }
            let word = others.word(bits.peek_16())?;
            let (length, size) = (u32::from(word.length), u32::from(word.size));
            match (word.run, size) {
                (0, 0) => {
                    bits.skip(length);
                    *from = bits;
                    return Some(());
                }
                (15, 0) => k += 16,
                (_, 0) => return None,
                (run, _) => {
                    k += usize::from(run);
                    if k >= 64 {
                        return None;
                    }
                    tell(k, bits.value(length, size));
                    k += 1;
                }
            }
            bits.skip(length + size);
        }
        *from = bits;
        (k == 64).then_some(())
    }
}

/// Bits, first to last, of 32-bit words whose highest bit comes first. Beyond the end come zeros.
#[derive(Clone, Copy)]
pub struct Bits<'a> {
    words: &'a [u32],
    at: usize,
    next: u64,
    have: u32,
}

impl<'a> Bits<'a> {
    /// From a bit on.
    pub fn at(words: &'a [u32], bit: u64) -> Self {
        let mut bits = Self {
            words,
            at: (bit / 32) as usize,
            next: 0,
            have: 0,
        };
        bits.refill();
        bits.skip((bit % 32) as u32);
        bits.refill();
        bits
    }

    /// At least 33 bits are there after it.
    #[inline(always)]
    pub fn refill(&mut self) {
        if self.have <= 32 {
            let word = self.words.get(self.at).copied().unwrap_or(0);
            self.next |= u64::from(word) << (32 - self.have);
            self.have += 32;
            self.at += 1;
        }
    }

    /// The next 16, without taking them.
    #[inline(always)]
    pub const fn peek_16(&self) -> u32 {
        (self.next >> 48) as u32
    }

    /// Leaves out up to 32 that are there.
    #[inline(always)]
    pub const fn skip(&mut self, count: u32) {
        self.next <<= count;
        self.have = self.have.wrapping_sub(count);
    }

    /// The value of `size` bits that stand after the next `after` (T.81, F.2.2.1).
    #[inline(always)]
    const fn value(&self, after: u32, size: u32) -> i32 {
        // A size of 0 shifts in two steps to nothing.
        let raw = ((self.next << after) >> 1 >> (63 - size)) as i32;
        let half = (1_i32 << size) >> 1;
        if raw < half {
            raw - (1 << size) + 1
        } else {
            raw
        }
    }

    /// The number in the next `size` bits, at most 31 that are there.
    pub const fn number(&self, size: u32) -> u32 {
        (self.next >> 1 >> (63 - size)) as u32
    }

    /// The bit that comes next.
    pub const fn position(&self) -> u64 {
        self.at as u64 * 32 - self.have as u64
    }
}
