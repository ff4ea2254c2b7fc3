//! The directories of an EXIF block or a TIFF file, freed in place (TIFF 6.0, section 2): entries
//! that go are closed up, and what they pointed to is filled with zeros. In an EXIF block all that
//! no entry points to goes as well, the thumbnail with it.

use super::super::exif::MAX_ENTRIES;
use super::{Removed, tags};
use std::ops::Range;

/// Strips and tiles of one file.
const MAX_PIECES: u64 = 1 << 20;

/// The byte order of a block.
#[derive(Clone, Copy)]
struct Order {
    little: bool,
}

impl Order {
    fn u16_at(self, block: &[u8], at: usize) -> Option<u16> {
        let pair = *block.get(at..)?.first_chunk()?;
        Some(if self.little {
            u16::from_le_bytes(pair)
        } else {
            u16::from_be_bytes(pair)
        })
    }

    fn u32_at(self, block: &[u8], at: usize) -> Option<u32> {
        let quad = *block.get(at..)?.first_chunk()?;
        Some(if self.little {
            u32::from_le_bytes(quad)
        } else {
            u32::from_be_bytes(quad)
        })
    }

    fn put_u16(self, block: &mut [u8], at: usize, v: u16) -> Option<()> {
        let to = block.get_mut(at..)?.first_chunk_mut::<2>()?;
        *to = if self.little {
            v.to_le_bytes()
        } else {
            v.to_be_bytes()
        };
        Some(())
    }
}

/// One entry of a directory.
#[derive(Clone, Copy)]
struct Entry {
    at: usize,
    tag: u16,
    kind: u16,
    count: u32,
}

impl Entry {
    fn read(block: &[u8], order: Order, at: usize) -> Option<Self> {
        Some(Self {
            at,
            tag: order.u16_at(block, at)?,
            kind: order.u16_at(block, at + 2)?,
            count: order.u32_at(block, at + 4)?,
        })
    }

    /// Bytes of one of its values; `None` for kinds that are not known.
    const fn width(self) -> Option<u64> {
        Some(match self.kind {
            1 | 2 | 6 | 7 => 1,
            3 | 8 => 2,
            4 | 9 | 11 | 13 => 4,
            5 | 10 | 12 => 8,
            _ => return None,
        })
    }

    /// Where its values are.
    fn values(self, block: &[u8], order: Order) -> Option<Range<usize>> {
        let size = self.width()?.checked_mul(u64::from(self.count))?;
        let start = if size <= 4 {
            self.at + 8
        } else {
            order.u32_at(block, self.at + 8)? as usize
        };
        let end = start.checked_add(usize::try_from(size).ok()?)?;
        (end <= block.len()).then_some(start..end)
    }

    /// Its values as whole numbers, bounded.
    fn numbers(self, block: &[u8], order: Order) -> Option<Vec<u32>> {
        if u64::from(self.count) > MAX_PIECES {
            return None;
        }
        let at = self.values(block, order)?.start;
        (0..self.count as usize)
            .map(|i| match self.kind {
                3 => order.u16_at(block, at + 2 * i).map(u32::from),
                4 | 13 => order.u32_at(block, at + 4 * i),
                _ => None,
            })
            .collect()
    }
}

/// Frees a block; `None` when it is damaged.
pub fn scrub(block: &mut [u8], whole_file: bool, removed: &mut Removed) -> Option<()> {
    let order = Order {
        little: block.starts_with(b"II"),
    };
    if !(block.starts_with(b"II*\0") || block.starts_with(b"MM\0*")) {
        return None;
    }
    let main = order.u32_at(block, 4)? as usize;
    let mut walk = Walk {
        order,
        whole_file,
        left: MAX_ENTRIES,
        keep: std::iter::once(0..8).collect(),
        erase: if whole_file {
            Vec::new()
        } else {
            std::iter::once(8..block.len()).collect()
        },
        tables: Vec::new(),
        pixels: Vec::new(),
        removed,
    };
    let (mut waiting, mut seen) = (vec![main], Vec::new());
    while let Some(at) = waiting.pop() {
        if !seen.contains(&at) {
            seen.push(at);
            walk.directory(block, at, at == main, &mut waiting)?;
        }
    }
    let Walk {
        mut keep,
        erase,
        tables,
        pixels,
        ..
    } = walk;
    // Pixels that lie in a directory would be other ones now.
    let within = |p: &Range<usize>| tables.iter().any(|t| p.start < t.end && t.start < p.end);
    if pixels.iter().any(within) {
        return None;
    }
    keep.extend(pixels);
    erase_but(block, &erase, keep);
    Some(())
}

struct Walk<'a> {
    order: Order,
    whole_file: bool,
    left: usize,
    keep: Vec<Range<usize>>,
    erase: Vec<Range<usize>>,
    tables: Vec<Range<usize>>,
    pixels: Vec<Range<usize>>,
    removed: &'a mut Removed,
}

impl Walk<'_> {
    /// Frees one directory; further ones wait in `waiting`.
    fn directory(
        &mut self,
        block: &mut [u8],
        at: usize,
        main: bool,
        waiting: &mut Vec<usize>,
    ) -> Option<()> {
        let order = self.order;
        let count = usize::from(order.u16_at(block, at)?);
        self.left = self.left.checked_sub(count + 1)?;
        let first = at + 2;
        let entries: Vec<Entry> = (0..count)
            .map(|i| Entry::read(block, order, first + 12 * i).filter(|e| e.at + 12 <= block.len()))
            .collect::<Option<_>>()?;
        let (stay, go): (Vec<Entry>, Vec<Entry>) = entries.into_iter().partition(|e| {
            tags::is_capture(e.tag) || (self.whole_file && tags::is_structure(e.tag))
        });
        for entry in &go {
            self.removed.insert(tags::called(entry.tag));
            self.erase.extend(entry.values(block, order));
            if self.whole_file && entry.tag == tags::PLACES {
                self.erase_directory(block, order.u32_at(block, entry.at + 8)? as usize)?;
            }
        }
        for entry in &stay {
            let values = entry.values(block, order)?;
            if tags::DIRECTORIES.contains(&entry.tag) {
                let further = entry.numbers(block, order)?;
                waiting.extend(further.into_iter().map(|v| v as usize));
            }
            // Those within the entry move with it.
            if values.start != entry.at + 8 {
                self.keep.push(values);
            }
        }
        self.pieces(block, &stay)?;
        // Some writers leave even the zeros of "no next directory" away.
        let next = order.u32_at(block, first + 12 * count);
        let linked = next.filter(|n| *n != 0 && (main || self.whole_file));
        if let Some(next) = linked {
            if self.whole_file {
                waiting.push(next as usize);
            } else {
                self.removed.insert(tags::THUMBNAIL);
            }
        }
        self.close_up(block, at, count, &stay, next.is_some())
    }

    /// Moves what stays together, and the link to the next directory behind it.
    fn close_up(
        &mut self,
        block: &mut [u8],
        at: usize,
        count: usize,
        stay: &[Entry],
        linked: bool,
    ) -> Option<()> {
        let first = at + 2;
        let (old_end, new_end) = (first + 12 * count, first + 12 * stay.len());
        for (i, entry) in stay.iter().enumerate() {
            block.copy_within(entry.at..entry.at + 12, first + 12 * i);
        }
        let link = if linked { 4 } else { 0 };
        if linked {
            block.copy_within(old_end..old_end + 4, new_end);
            if !self.whole_file {
                block.get_mut(new_end..new_end + 4)?.fill(0);
            }
        }
        self.order
            .put_u16(block, at, u16::try_from(stay.len()).ok()?)?;
        self.keep.push(at..new_end + link);
        self.tables.push(at..old_end + link);
        self.erase.push(new_end + link..old_end + link);
        Some(())
    }

    /// The compressed pixels of a TIFF directory stay wherever they lie.
    fn pieces(&mut self, block: &[u8], stay: &[Entry]) -> Option<()> {
        if !self.whole_file {
            return Some(());
        }
        for (starts, lengths) in [(0x0111, 0x0117), (0x0144, 0x0145), (0x0201, 0x0202)] {
            let find = |tag| stay.iter().find(|e| e.tag == tag);
            if let (Some(starts), Some(lengths)) = (find(starts), find(lengths)) {
                let starts = starts.numbers(block, self.order)?;
                let lengths = lengths.numbers(block, self.order)?;
                for (start, length) in starts.iter().zip(lengths) {
                    let start = *start as usize;
                    self.pixels
                        .push(start..start.saturating_add(length as usize));
                }
            }
        }
        Some(())
    }

    /// A directory that goes as a whole.
    fn erase_directory(&mut self, block: &[u8], at: usize) -> Option<()> {
        let count = usize::from(self.order.u16_at(block, at)?);
        self.left = self.left.checked_sub(count + 1)?;
        self.erase.push(at..at + 2 + 12 * count + 4);
        for i in 0..count {
            let entry = Entry::read(block, self.order, at + 2 + 12 * i)?;
            self.erase.extend(entry.values(block, self.order));
        }
        Some(())
    }
}

/// Fills ranges with zeros, but for what is kept.
fn erase_but(block: &mut [u8], erase: &[Range<usize>], mut keep: Vec<Range<usize>>) {
    keep.sort_unstable_by_key(|r| r.start);
    for range in erase {
        let mut from = range.start;
        for kept in keep.iter().skip_while(|k| k.end <= range.start) {
            if kept.start >= range.end {
                break;
            }
            zero(block, from..kept.start);
            from = from.max(kept.end);
        }
        zero(block, from..range.end);
    }
}

fn zero(block: &mut [u8], range: Range<usize>) {
    let end = range.end.min(block.len());
    if let Some(part) = block.get_mut(range.start..end) {
        part.fill(0);
    }
}
