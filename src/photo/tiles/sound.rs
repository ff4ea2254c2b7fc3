//! Whether all of a picture is there, in a JPEG that is not taken in tiles: progressive, grey, its
//! components one after another, or spoilt. Decoders fill what is missing with something, and a
//! reading must not; so every scan is walked through, and the words in which its blocks are
//! written have to come out even (ITU-T T.81, F.2.2 and G.1.2). A value that was changed within
//! its own bits cannot be told, and the last bits of a progressive file may come out even by chance.

use super::super::jpeg::{end_of_scan, marker, segment};
use super::code::{Bits, Code};
use super::scan::clean;
use super::words::{again, filled, mean, pass, range};

/// More scans are written by nobody, and each of them takes its time.
const MOST_SCANS: usize = 100;
/// Bits of a coefficient that are still to come when nothing of it has been there.
const UNSEEN: u8 = 255;

/// A component's blocks.
struct Component {
    id: u8,
    /// Blocks per MCU, across and down.
    across: usize,
    down: usize,
    /// Blocks of the picture, across and down.
    columns: usize,
    rows: usize,
    /// Blocks of a row, with those that fill the last MCU.
    line: usize,
    /// For each block the coefficients that are not zero, as far as is known.
    seen: Vec<u64>,
    /// For each coefficient the lowest bits that are still to come.
    missing: [u8; 64],
}

/// What a scan is made of.
#[derive(Clone, Copy)]
enum Step {
    /// Whole blocks.
    Blocks,
    /// Means, or their next bit.
    Means,
    MoreOfMeans,
    /// The coefficients of a range, or their next bit.
    Others(u32, u32),
    MoreOfOthers(u32, u32),
}

#[derive(Default)]
struct Walk {
    progressive: bool,
    components: Vec<Component>,
    /// MCUs across and down, where a scan holds several components.
    mcus: (usize, usize),
    means: [Option<Code>; 4],
    others: [Option<Code>; 4],
    restart: usize,
}

/// `None` when a part of the picture is missing or spoilt. The size has to be one that is taken.
pub fn sound(bytes: &[u8]) -> Option<()> {
    let mut walk = Walk::default();
    let (mut at, mut scans) = (2, 0);
    loop {
        let (marker, after) = marker(bytes, at)?;
        match marker {
            0xD9 => return walk.complete(),
            0x01 | 0xD0..=0xD8 => {
                at = after;
                continue;
            }
            _ => {}
        }
        let (segment, next) = segment(bytes, after)?;
        at = next;
        match marker {
            0xC0..=0xC2 => walk.frame(marker, segment)?,
            0xC4 => Code::all_of(segment, |kind, code| {
                let codes = if kind < 16 {
                    &mut walk.means
                } else {
                    &mut walk.others
                };
                *codes.get_mut(usize::from(kind & 15))? = Some(code);
                Some(())
            })?,
            0xDD => walk.restart = usize::from(u16::from_be_bytes(*segment.first_chunk()?)),
            0xDA => {
                scans += 1;
                if scans > MOST_SCANS {
                    return None;
                }
                at = end_of_scan(bytes, next);
                walk.scan(segment, bytes.get(next..at)?)?;
            }
            _ => {}
        }
    }
}

impl Walk {
    fn frame(&mut self, marker: u8, segment: &[u8]) -> Option<()> {
        let [_, h0, h1, w0, w1, _, rest @ ..] = segment else {
            return None;
        };
        let height = usize::from(u16::from_be_bytes([*h0, *h1]));
        let width = usize::from(u16::from_be_bytes([*w0, *w1]));
        let (parts, []) = rest.as_chunks::<3>() else {
            return None;
        };
        let sampling = |[_, s, _]: &[u8; 3]| (usize::from(s >> 4), usize::from(s & 15));
        let most = |of: fn((usize, usize)) -> usize| parts.iter().map(sampling).map(of).max();
        let (across, down) = (most(|s| s.0)?, most(|s| s.1)?);
        if !self.components.is_empty() || parts.len() > 3 || across > 4 || down > 4 {
            return None;
        }
        self.progressive = marker == 0xC2;
        // A single component has MCUs of one block, whatever it says.
        self.mcus = (
            width.div_ceil(8 * across.max(1)),
            height.div_ceil(8 * down.max(1)),
        );
        for part in parts {
            let (h, v) = sampling(part);
            if h == 0 || v == 0 {
                return None;
            }
            let line = self.mcus.0 * h;
            self.components.push(Component {
                id: part[0],
                across: h,
                down: v,
                columns: (width * h).div_ceil(8 * across),
                rows: (height * v).div_ceil(8 * down),
                line,
                seen: if self.progressive {
                    vec![0; line * self.mcus.1 * v]
                } else {
                    Vec::new()
                },
                missing: [UNSEEN; 64],
            });
        }
        Some(())
    }

    /// Every coefficient came, to its last bit.
    fn complete(&self) -> Option<()> {
        let whole = |c: &Component| c.missing.iter().all(|bits| *bits == 0);
        (!self.components.is_empty() && self.components.iter().all(whole)).then_some(())
    }

    fn scan(&mut self, head: &[u8], data: &[u8]) -> Option<()> {
        let (count, rest) = head.split_first()?;
        let (ids, tail) = rest.split_at_checked(2 * usize::from(*count))?;
        let [from, to, bits] = *tail.first_chunk()?;
        let (high, low) = (bits >> 4, bits & 15);
        let alone = *count == 1;
        // The others come one component at a time, and what was there before one bit at a time.
        let (step, allowed) = match (self.progressive, from, high) {
            (false, ..) => (Step::Blocks, true),
            (_, 0, 0) => (Step::Means, to == 0),
            (_, 0, _) => (Step::MoreOfMeans, to == 0),
            (_, _, 0) => (Step::Others(from.into(), to.into()), alone),
            (..) => (Step::MoreOfOthers(from.into(), to.into()), alone),
        };
        let (from, to, high, low) = if self.progressive {
            (from, to, high, low)
        } else {
            (0, 63, 0, 0)
        };
        if !allowed || from > to || to > 63 || (high > 0 && high != low + 1) {
            return None;
        }
        let due = if high > 0 { high } else { UNSEEN };
        let mut lanes: Vec<(&mut Component, Option<&Code>, Option<&Code>)> = Vec::new();
        let (mut blocks, mut found) = (0, 0);
        for component in &mut self.components {
            let Some([_, tables]) = ids.as_chunks::<2>().0.iter().find(|i| i[0] == component.id)
            else {
                continue;
            };
            found += 1;
            for missing in component.missing.get_mut(from.into()..=to.into())? {
                if std::mem::replace(missing, low) != due {
                    return None;
                }
            }
            blocks += component.columns * component.rows;
            lanes.push((
                component,
                self.means.get(usize::from(tables >> 4))?.as_ref(),
                self.others.get(usize::from(tables & 15))?.as_ref(),
            ));
        }
        if found != usize::from(*count) {
            return None;
        }
        // A mean takes a bit at least, so that no time is spent on a picture that is not there.
        if from == 0 && blocks > 8 * data.len() {
            return None;
        }
        let (words, starts, _) = clean(data)?;
        let (columns, rows) = match lanes.first() {
            Some((only, ..)) if alone => (only.columns, only.rows),
            _ => self.mcus,
        };
        let mut bits = Bits::at(&words, 0);
        let (mut interval, mut left, mut empty) = (0, self.restart, 0);
        for mcu in 0..columns * rows {
            if self.restart > 0 {
                if left == 0 {
                    interval += 1;
                    let start = *starts.get(interval)? as u64 * 8;
                    if empty != 0 || !filled(&mut bits, start) {
                        return None;
                    }
                    bits = Bits::at(&words, start);
                    left = self.restart;
                }
                left -= 1;
            }
            let (column, row) = (mcu % columns, mcu / columns);
            for (component, means, others) in &mut lanes {
                let (across, down) = if alone {
                    (1, 1)
                } else {
                    (component.across, component.down)
                };
                for i in 0..across * down {
                    let at =
                        (row * down + i / across) * component.line + column * across + i % across;
                    match step {
                        Step::Blocks => {
                            mean(&mut bits, (*means)?)?;
                            let mut all = 0;
                            range(&mut bits, (*others)?, (1, 63), None, &mut all)?;
                        }
                        Step::Means => mean(&mut bits, (*means)?)?,
                        Step::MoreOfMeans => pass(&mut bits, 1),
                        Step::Others(from, to) => {
                            let seen = component.seen.get_mut(at)?;
                            range(&mut bits, (*others)?, (from, to), Some(&mut empty), seen)?;
                        }
                        Step::MoreOfOthers(from, to) => {
                            let seen = component.seen.get_mut(at)?;
                            again(&mut bits, (*others)?, (from, to), &mut empty, seen)?;
                        }
                    }
                }
            }
        }
        let end = *starts.last()? as u64 * 8;
        (empty == 0 && interval + 2 == starts.len() && filled(&mut bits, end)).then_some(())
    }
}
