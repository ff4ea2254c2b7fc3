//! The head of a baseline JPEG (ITU-T T.81, annex B): sizes, tables and where the entropy-coded
//! data lie. `None` for every file that is not of the plain kind that cameras write; such a file
//! is decoded whole.

use super::super::jpeg;
use super::code::{Code, Codes, Shorts};

/// The order in which the 64 coefficients are stored: column and row of each (T.81, figure 5).
pub fn zigzag() -> [(usize, usize); 64] {
    let mut out = [(0, 0); 64];
    let (mut u, mut v) = (0_usize, 0_usize);
    for place in &mut out {
        *place = (u, v);
        let up = (u + v).is_multiple_of(2);
        match (up, u, v) {
            (true, 7, _) => v += 1,
            (true, _, 0) => u += 1,
            (true, ..) => (u, v) = (u + 1, v - 1),
            (false, _, 7) => u += 1,
            (false, 0, _) => v += 1,
            (false, ..) => (u, v) = (u - 1, v + 1),
        }
    }
    out
}

/// One of the three components.
#[derive(Debug, Clone, Copy, Default)]
pub struct Component {
    pub id: u8,
    /// Blocks per MCU, across and down.
    pub across: usize,
    pub down: usize,
    quantisation: usize,
    dc: usize,
    ac: usize,
}

/// What is needed to walk through the scan and to decode parts of it.
pub struct Frame {
    pub width: usize,
    pub height: usize,
    pub components: [Component; 3],
    quantisation: [Option<[u16; 64]>; 4],
    dc: [Option<Code>; 4],
    ac: [Option<(Code, Shorts)>; 4],
    /// MCUs between two restarts; 0 for none.
    pub restart: usize,
    /// Where the entropy-coded data begin in the file.
    pub scan: usize,
}

impl Frame {
    /// Reads the head.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        let mut frame = Self {
            width: 0,
            height: 0,
            components: [Component::default(); 3],
            quantisation: [const { None }; 4],
            dc: [const { None }; 4],
            ac: [const { None }; 4],
            restart: 0,
            scan: 0,
        };
        let mut at = 2;
        loop {
            let (marker, after) = jpeg::marker(bytes, at)?;
            let (segment, next) = jpeg::segment(bytes, after)?;
            at = next;
            match marker {
                0xC0 | 0xC1 if frame.width == 0 => frame.size(segment)?,
                0xC4 => frame.codes(segment)?,
                0xDB => frame.tables(segment)?,
                0xDD => {
                    frame.restart = usize::from(u16::from_be_bytes(*segment.first_chunk()?));
                }
                // Adobe's mark tells whether the components are YCbCr.
                0xEE if segment.starts_with(b"Adobe") => {
                    if segment.get(11) != Some(&1) {
                        return None;
                    }
                }
                0xE0..=0xEF | 0xFE => {}
                0xDA => {
                    frame.scan_head(segment)?;
                    frame.scan = at;
                    return Some(frame);
                }
                _ => return None,
            }
        }
    }

    fn size(&mut self, segment: &[u8]) -> Option<()> {
        let [8, h0, h1, w0, w1, 3, rest @ ..] = segment else {
            return None;
        };
        self.height = usize::from(u16::from_be_bytes([*h0, *h1]));
        self.width = usize::from(u16::from_be_bytes([*w0, *w1]));
        let (parts, []) = rest.as_chunks::<3>() else {
            return None;
        };
        if parts.len() != 3 || self.width == 0 || self.height == 0 {
            return None;
        }
        for (component, [id, sampling, table]) in self.components.iter_mut().zip(parts) {
            *component = Component {
                id: *id,
                across: usize::from(sampling >> 4),
                down: usize::from(sampling & 15),
                quantisation: usize::from(*table),
                ..Component::default()
            };
        }
        let [y, cb, cr] = &self.components;
        let plain = |c: &Component| (c.across, c.down) == (1, 1);
        let usual = matches!((y.across, y.down), (1 | 2, 1 | 2)) && plain(cb) && plain(cr);
        // Ids other than these are taken for other colour spaces by some.
        (usual && matches!([y.id, cb.id, cr.id], [1, 2, 3] | [0, 1, 2])).then_some(())
    }

    fn codes(&mut self, segment: &[u8]) -> Option<()> {
        Code::all_of(segment, |kind, code| {
            let id = usize::from(kind & 15);
            if kind >> 4 == 0 {
                *self.dc.get_mut(id)? = Some(code);
            } else {
                let shorts = Shorts::new(&code);
                *self.ac.get_mut(id)? = Some((code, shorts));
            }
            Some(())
        })
    }

    fn tables(&mut self, mut segment: &[u8]) -> Option<()> {
        while let [kind, rest @ ..] = segment {
            let table = self.quantisation.get_mut(usize::from(*kind))?;
            let (values, rest) = rest.split_first_chunk::<64>()?;
            *table = Some(values.map(u16::from));
            segment = rest;
        }
        Some(())
    }

    fn scan_head(&mut self, segment: &[u8]) -> Option<()> {
        let [3, a, b, c, d, e, f, 0, 63, 0] = segment else {
            return None;
        };
        for (component, [id, tables]) in self.components.iter_mut().zip([[a, b], [c, d], [e, f]]) {
            if component.id != *id {
                return None;
            }
            (component.dc, component.ac) = (usize::from(tables >> 4), usize::from(tables & 15));
        }
        (self.width > 0).then_some(())
    }

    /// What the blocks of a component are written in, and the steps of their coefficients.
    pub fn written(&self, component: &Component) -> Option<(Codes<'_>, &[u16; 64])> {
        let codes = Codes {
            mean: self.dc.get(component.dc)?.as_ref()?,
            others: self.ac.get(component.ac)?.as_ref()?,
        };
        Some((
            codes,
            self.quantisation.get(component.quantisation)?.as_ref()?,
        ))
    }

    /// Pixels per MCU, across and down.
    pub const fn mcu_px(&self) -> (usize, usize) {
        let [y, ..] = &self.components;
        (8 * y.across, 8 * y.down)
    }

    /// MCUs across and down.
    pub const fn mcus(&self) -> (usize, usize) {
        let (w, h) = self.mcu_px();
        (self.width.div_ceil(w), self.height.div_ceil(h))
    }

    /// Blocks per MCU.
    pub fn blocks(&self) -> usize {
        self.components.iter().map(|c| c.across * c.down).sum()
    }
}
