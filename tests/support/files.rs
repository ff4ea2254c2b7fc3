//! Small picture files: encoders of the `image` and `tiff` crates, and containers by hand where
//! those cannot write what a test needs.

pub use super::chunks::*;
use super::exif::{Value, Writer};
use image::codecs::{jpeg::JpegEncoder, png::PngEncoder, webp::WebPEncoder};
use image::{ExtendedColorType, ImageEncoder};

/// A picture with metadata.
#[derive(Clone)]
pub struct Picture {
    /// Width in pixels.
    pub width: u32,
    /// Height in pixels.
    pub height: u32,
    /// 1 grey, 2 grey and alpha, 3 RGB, 4 RGB and alpha.
    pub channels: u8,
    /// 8 or 16.
    pub bits: u8,
    /// Codes, channel by channel, row by row.
    pub codes: Vec<u16>,
    /// Embedded profile.
    pub icc: Option<Vec<u8>>,
    /// EXIF block from its TIFF header on.
    pub exif: Option<Vec<u8>>,
}

impl Picture {
    /// 8-bit RGB from a function of the place.
    pub fn rgb8(width: u32, height: u32, code: impl Fn(u32, u32) -> [u8; 3]) -> Self {
        let places = (0..height).flat_map(|y| (0..width).map(move |x| (x, y)));
        Self {
            width,
            height,
            channels: 3,
            bits: 8,
            codes: places
                .flat_map(|(x, y)| code(x, y).map(u16::from))
                .collect(),
            icc: None,
            exif: None,
        }
    }

    /// From codes, in rows of 64; the rest of the last row is black.
    pub fn from_codes(bits: u8, channels: u8, codes: &[u16]) -> Self {
        let per_row = 64 * usize::from(channels);
        let height = codes.len().div_ceil(per_row).max(16);
        let mut codes = codes.to_vec();
        codes.resize(height * per_row, 0);
        Self {
            width: 64,
            height: height as u32,
            channels,
            bits,
            codes,
            icc: None,
            exif: None,
        }
    }

    /// Soft gradients and blocks, which every format keeps well.
    pub fn scene() -> Self {
        Self::rgb8(48, 32, |x, y| {
            let block = if (x / 16 + y / 16) % 2 == 0 { 40 } else { 0 };
            [
                (x * 4) as u8 + block,
                (y * 6) as u8 + block,
                128_u8.wrapping_add(x as u8),
            ]
        })
    }

    /// With a profile.
    pub fn icc(mut self, profile: Vec<u8>) -> Self {
        self.icc = Some(profile);
        self
    }

    /// With an EXIF block.
    pub fn exif(mut self, block: Vec<u8>) -> Self {
        self.exif = Some(block);
        self
    }

    fn bytes(&self) -> Vec<u8> {
        if self.bits == 8 {
            self.codes.iter().map(|c| *c as u8).collect()
        } else {
            self.codes.iter().flat_map(|c| c.to_ne_bytes()).collect()
        }
    }

    fn color(&self) -> ExtendedColorType {
        match (self.channels, self.bits) {
            (1, 8) => ExtendedColorType::L8,
            (2, 8) => ExtendedColorType::La8,
            (3, 8) => ExtendedColorType::Rgb8,
            (4, 8) => ExtendedColorType::Rgba8,
            (1, _) => ExtendedColorType::L16,
            (2, _) => ExtendedColorType::La16,
            (3, _) => ExtendedColorType::Rgb16,
            _ => ExtendedColorType::Rgba16,
        }
    }

    fn encode(&self, mut encoder: impl ImageEncoder) {
        if let Some(icc) = &self.icc {
            encoder.set_icc_profile(icc.clone()).expect("a profile");
        }
        if let Some(exif) = &self.exif {
            encoder.set_exif_metadata(exif.clone()).expect("EXIF");
        }
        encoder
            .write_image(&self.bytes(), self.width, self.height, self.color())
            .expect("a picture");
    }

    /// PNG.
    pub fn png(&self) -> Vec<u8> {
        let mut out = Vec::new();
        self.encode(PngEncoder::new(&mut out));
        out
    }

    /// Baseline JPEG of high quality; EXIF and profile are written by hand.
    pub fn jpeg(&self) -> Vec<u8> {
        let mut out = Vec::new();
        let mut bare = self.clone();
        (bare.icc, bare.exif) = (None, None);
        bare.encode(JpegEncoder::new_with_quality(&mut out, 98));
        let mut head = Vec::new();
        if let Some(exif) = &self.exif {
            head.extend(segment(0xE1, &[b"Exif\0\0", exif.as_slice()].concat()));
        }
        if let Some(icc) = &self.icc {
            let parts: Vec<&[u8]> = icc.chunks(60_000).collect();
            for (i, part) in parts.iter().enumerate() {
                let numbers = [i as u8 + 1, parts.len() as u8];
                head.extend(segment(
                    0xE2,
                    &[b"ICC_PROFILE\0", numbers.as_slice(), part].concat(),
                ));
            }
        }
        out.splice(2..2, head);
        out
    }

    /// Lossless WebP.
    pub fn webp(&self) -> Vec<u8> {
        let mut out = Vec::new();
        self.encode(WebPEncoder::new_lossless(&mut out));
        out
    }

    /// Uncompressed TIFF in one strip, with the entries of `more` in its directory.
    pub fn tiff(&self, big_endian: bool, mut more: Vec<(u16, Value)>) -> Vec<u8> {
        let w = Writer { big: big_endian };
        let mut pixels = Vec::new();
        for c in &self.codes {
            if self.bits == 8 {
                pixels.push(*c as u8);
            } else {
                w.u16(&mut pixels, *c);
            }
        }
        let grey = self.channels <= 2;
        let had = |more: &[(u16, Value)], tag| more.iter().any(|(t, _)| *t == tag);
        let mut put = |tag: u16, value: Value| {
            if !had(&more, tag) {
                more.push((tag, value));
            }
        };
        put(256, Value::Long(vec![self.width]));
        put(257, Value::Long(vec![self.height]));
        put(
            258,
            Value::Short(vec![u16::from(self.bits); self.channels.into()]),
        );
        put(259, Value::Short(vec![1]));
        put(262, Value::Short(vec![if grey { 1 } else { 2 }]));
        put(273, Value::Long(vec![8]));
        put(277, Value::Short(vec![self.channels.into()]));
        put(278, Value::Long(vec![self.height]));
        put(279, Value::Long(vec![pixels.len() as u32]));
        if self.channels.is_multiple_of(2) {
            put(338, Value::Short(vec![2]));
        }
        if let Some(icc) = &self.icc {
            put(34_675, Value::Undefined(icc.clone()));
        }
        let mut out = if big_endian {
            b"MM\0*".to_vec()
        } else {
            b"II*\0".to_vec()
        };
        pixels.resize(pixels.len().next_multiple_of(2), 0);
        w.u32(&mut out, 8 + pixels.len() as u32);
        out.extend(pixels);
        w.directory(&mut out, &more, 0);
        out
    }

    /// LZW TIFF in strips of a few rows, by the `tiff` crate.
    pub fn tiff_lzw(&self) -> Vec<u8> {
        use tiff::encoder::{Compression, TiffEncoder, colortype::RGB8};
        let mut out = std::io::Cursor::new(Vec::new());
        let mut encoder = TiffEncoder::new(&mut out)
            .expect("TIFF")
            .with_compression(Compression::Lzw);
        let mut image = encoder
            .new_image::<RGB8>(self.width, self.height)
            .expect("a picture");
        image.rows_per_strip(5).expect("strips");
        image.write_data(&self.bytes()).expect("pixels");
        out.into_inner()
    }
}
