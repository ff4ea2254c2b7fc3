//! Writing the container. The same parts give the same bytes: no time and no machine is noted.

use super::{CENTRAL, DEFLATED, END, LOCAL, MAX_BYTES, MAX_ENTRIES, STORED};
use crate::error::{Error, Result};
use miniz_oxide::deflate::compress_to_vec;

/// 1 January 1980, the first day that the format can state.
const DATE: u16 = 0x21;
/// Version 2.0 of the format: deflate and folders.
const VERSION: u16 = 20;
/// Of zlib's levels.
const LEVEL: u8 = 6;

/// A container that is being written.
#[derive(Default)]
pub struct Writer {
    out: Vec<u8>,
    central: Vec<u8>,
    entries: usize,
}

/// What both headers of an entry say.
struct Header {
    method: u16,
    crc: u32,
    packed: u32,
    unpacked: u32,
    name_length: u16,
}

impl Header {
    fn put(&self, out: &mut Vec<u8>) {
        for v in [VERSION, 0, self.method, 0, DATE] {
            out.extend(v.to_le_bytes());
        }
        for v in [self.crc, self.packed, self.unpacked] {
            out.extend(v.to_le_bytes());
        }
        out.extend(self.name_length.to_le_bytes());
        out.extend([0, 0]); // no extra field
    }
}

impl Writer {
    /// Adds a part as it is: photos are compressed already.
    pub fn store(&mut self, name: &str, bytes: &[u8]) -> Result<()> {
        self.add(name, bytes, STORED, bytes)
    }

    /// Adds a part compressed, where that makes it smaller.
    pub fn deflate(&mut self, name: &str, bytes: &[u8]) -> Result<()> {
        let packed = compress_to_vec(bytes, LEVEL);
        if packed.len() < bytes.len() {
            self.add(name, bytes, DEFLATED, &packed)
        } else {
            self.store(name, bytes)
        }
    }

    fn add(&mut self, name: &str, bytes: &[u8], method: u16, packed: &[u8]) -> Result<()> {
        let too_large = || {
            Error::too_large(
                format!(
                    "The case would be larger than {MAX_BYTES} bytes or have more than {MAX_ENTRIES} parts."
                ),
                "Leave photos out, or make two cases of it.",
            )
        };
        let size = (self.out.len() as u64) + (packed.len() as u64) + 64 * 1024;
        if size > MAX_BYTES || self.entries >= MAX_ENTRIES {
            return Err(too_large());
        }
        let narrow = |n: usize| u32::try_from(n).map_err(|_| too_large());
        let header = Header {
            method,
            crc: crc32fast::hash(bytes),
            packed: narrow(packed.len())?,
            unpacked: narrow(bytes.len())?,
            name_length: u16::try_from(name.len()).map_err(|_| too_large())?,
        };
        let offset = narrow(self.out.len())?;
        self.out.extend(LOCAL);
        header.put(&mut self.out);
        self.out.extend(name.as_bytes());
        self.out.extend(packed);

        self.central.extend(CENTRAL);
        self.central.extend(VERSION.to_le_bytes());
        header.put(&mut self.central);
        // No remark, first disk, no attributes.
        self.central.extend([0; 2 + 2 + 2 + 4]);
        self.central.extend(offset.to_le_bytes());
        self.central.extend(name.as_bytes());
        self.entries += 1;
        Ok(())
    }

    /// The whole file.
    pub fn finish(mut self) -> Result<Vec<u8>> {
        let narrow = |n: usize| {
            u32::try_from(n).map_err(|_| Error::internal("a case file beyond 4 GiB was written"))
        };
        let (offset, size) = (narrow(self.out.len())?, narrow(self.central.len())?);
        let entries = u16::try_from(self.entries)
            .map_err(|_| Error::internal("a case file with too many parts was written"))?;
        self.out.append(&mut self.central);
        self.out.extend(END);
        self.out.extend([0; 4]);
        for v in [entries, entries] {
            self.out.extend(v.to_le_bytes());
        }
        for v in [size, offset] {
            self.out.extend(v.to_le_bytes());
        }
        self.out.extend([0; 2]);
        Ok(self.out)
    }
}
