//! EXIF blocks (TIFF structure, EXIF 2.32) written entry by entry.

/// The value of an entry.
#[derive(Clone)]
pub enum Value {
    /// Type 2.
    Ascii(Vec<u8>),
    /// Type 3.
    Short(Vec<u16>),
    /// Type 4.
    Long(Vec<u32>),
    /// Type 5: numerator and denominator.
    Rational(Vec<[u32; 2]>),
    /// Type 7.
    Undefined(Vec<u8>),
    /// Type, count and offset exactly as given, whatever lies there.
    Lie(u16, u32, u32),
}

/// A text entry with its ending zero.
pub fn text(t: &str) -> Value {
    Value::Ascii([t.as_bytes(), b"\0"].concat())
}

/// One 16-bit number.
pub fn short(v: u16) -> Value {
    Value::Short(vec![v])
}

/// One fraction.
pub fn ratio(n: u32, d: u32) -> Value {
    Value::Rational(vec![[n, d]])
}

/// An EXIF block: entries of the main, EXIF, GPS and interoperability directories.
#[derive(Clone, Default)]
pub struct Exif {
    /// Directory 0.
    pub main: Vec<(u16, Value)>,
    /// Under tag 0x8769.
    pub exif: Vec<(u16, Value)>,
    /// Under tag 0x8825.
    pub gps: Vec<(u16, Value)>,
    /// Under tag 0xA005 of the EXIF directory.
    pub interoperability: Vec<(u16, Value)>,
    /// Big-endian instead of little-endian.
    pub big_endian: bool,
    /// Offset of the directory after the first.
    pub next: u32,
}

impl Exif {
    /// With one entry in directory 0.
    pub fn main(mut self, tag: u16, value: Value) -> Self {
        self.main.push((tag, value));
        self
    }

    /// With one entry in the EXIF directory.
    pub fn exif(mut self, tag: u16, value: Value) -> Self {
        self.exif.push((tag, value));
        self
    }

    /// With one entry in the GPS directory.
    pub fn gps(mut self, tag: u16, value: Value) -> Self {
        self.gps.push((tag, value));
        self
    }

    /// With one entry in the interoperability directory.
    pub fn interoperability(mut self, tag: u16, value: Value) -> Self {
        self.interoperability.push((tag, value));
        self
    }

    /// An EXIF block that states an orientation and nothing else.
    pub fn oriented(orientation: u16) -> Self {
        Self::default().main(0x0112, short(orientation))
    }

    /// The bytes, from the TIFF header on.
    pub fn block(&self) -> Vec<u8> {
        let w = Writer {
            big: self.big_endian,
        };
        let mut out = if self.big_endian {
            b"MM\0*".to_vec()
        } else {
            b"II*\0".to_vec()
        };
        w.u32(&mut out, 8);
        let mut main = self.main.clone();
        // Sizes are known before the bytes: directories come one after the other, each with
        // its own values behind it.
        let mut exif = self.exif.clone();
        let has_exif = !exif.is_empty() || !self.interoperability.is_empty();
        if has_exif {
            main.push((0x8769, Value::Long(vec![0])));
        }
        if !self.gps.is_empty() {
            main.push((0x8825, Value::Long(vec![0])));
        }
        if !self.interoperability.is_empty() {
            exif.push((0xA005, Value::Long(vec![0])));
        }
        let exif_at = 8 + w.size(&main);
        let gps_at = exif_at + if has_exif { w.size(&exif) } else { 0 };
        let interoperability_at = gps_at
            + if self.gps.is_empty() {
                0
            } else {
                w.size(&self.gps)
            };
        for (tag, value) in main.iter_mut().chain(&mut exif) {
            match tag {
                0x8769 if has_exif => *value = Value::Long(vec![exif_at]),
                0x8825 if !self.gps.is_empty() => *value = Value::Long(vec![gps_at]),
                0xA005 if !self.interoperability.is_empty() => {
                    *value = Value::Long(vec![interoperability_at]);
                }
                _ => {}
            }
        }
        w.directory(&mut out, &main, self.next);
        if has_exif {
            w.directory(&mut out, &exif, 0);
        }
        if !self.gps.is_empty() {
            w.directory(&mut out, &self.gps, 0);
        }
        if !self.interoperability.is_empty() {
            w.directory(&mut out, &self.interoperability, 0);
        }
        out
    }
}

/// Writes directories in one byte order.
pub struct Writer {
    /// Big-endian.
    pub big: bool,
}

impl Writer {
    /// 16 bits.
    pub fn u16(&self, out: &mut Vec<u8>, v: u16) {
        out.extend(if self.big {
            v.to_be_bytes()
        } else {
            v.to_le_bytes()
        });
    }

    /// 32 bits.
    pub fn u32(&self, out: &mut Vec<u8>, v: u32) {
        out.extend(if self.big {
            v.to_be_bytes()
        } else {
            v.to_le_bytes()
        });
    }

    fn bytes(&self, value: &Value) -> (u16, u32, Vec<u8>) {
        let mut out = Vec::new();
        match value {
            Value::Ascii(t) => (2, t.len() as u32, t.clone()),
            Value::Undefined(t) => (7, t.len() as u32, t.clone()),
            Value::Short(all) => {
                all.iter().for_each(|v| self.u16(&mut out, *v));
                (3, all.len() as u32, out)
            }
            Value::Long(all) => {
                all.iter().for_each(|v| self.u32(&mut out, *v));
                (4, all.len() as u32, out)
            }
            Value::Rational(all) => {
                all.as_flattened()
                    .iter()
                    .for_each(|v| self.u32(&mut out, *v));
                (5, all.len() as u32, out)
            }
            Value::Lie(kind, count, offset) => {
                self.u32(&mut out, *offset);
                (*kind, *count, out)
            }
        }
    }

    /// Bytes of a directory with its values.
    pub fn size(&self, entries: &[(u16, Value)]) -> u32 {
        let values: usize = entries
            .iter()
            .map(|(_, v)| self.bytes(v).2.len())
            .filter(|n| *n > 4)
            .map(|n| n + n % 2)
            .sum();
        (2 + 12 * entries.len() + 4 + values) as u32
    }

    /// A directory, the offset of the next one, and its values behind it.
    pub fn directory(&self, out: &mut Vec<u8>, entries: &[(u16, Value)], next: u32) {
        let mut entries = entries.to_vec();
        entries.sort_by_key(|(tag, _)| *tag);
        let mut at = out.len() + 2 + 12 * entries.len() + 4;
        let mut values = Vec::new();
        self.u16(out, entries.len() as u16);
        for (tag, value) in &entries {
            let (kind, count, mut bytes) = self.bytes(value);
            self.u16(out, *tag);
            self.u16(out, kind);
            self.u32(out, count);
            if bytes.len() <= 4 {
                bytes.resize(4, 0);
                out.extend(bytes);
            } else {
                self.u32(out, at as u32);
                if bytes.len() % 2 == 1 {
                    bytes.push(0);
                }
                at += bytes.len();
                values.extend(bytes);
            }
        }
        self.u32(out, next);
        out.extend(values);
    }
}
