//! One picture as files of many kinds: JPEG of every sampling, with restarts or progressive, PNG, TIFF,
//! WebP; grey; turned by EXIF; with profiles of a matrix or of tables.

use crate::support::exif::Value;
use crate::support::files::Picture as Pixels;
use crate::support::icc::{self, AToB, Profile};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use scene_render::develop::Picture;
use scene_render::file::{exif_block, icc_profile};
use scene_render::spec::{SceneSpec, Space};

/// A file's form.
#[derive(Debug, Clone, Copy)]
pub enum Form {
    /// Baseline JPEG: sampling of its colours, MCUs between restarts (0 for none).
    Jpeg(SamplingFactor, u16),
    /// JPEG that gets finer scan by scan.
    Progressive(SamplingFactor),
    /// JPEG with one channel.
    GreyJpeg,
    /// PNG of 8 or 16 bits.
    Png(u8),
    /// PNG with one channel, of 8 or 16 bits.
    GreyPng(u8),
    /// TIFF of 8 or 16 bits; big-endian.
    Tiff(u8, bool),
    /// TIFF packed by LZW in strips, without orientation and profile.
    TiffLzw,
    /// Lossless WebP.
    Webp,
    /// Lossy WebP: a small picture that is kept, since nothing here writes that form.
    KeptWebp,
}

/// What a file says of its colours.
#[derive(Debug, Clone, Copy)]
pub enum Tagged {
    /// Nothing.
    Nothing,
    /// A profile of a matrix and curves.
    Matrix,
    /// A profile with a table of colours in a cube (lut16Type), sRGB.
    Cube,
    /// A profile of curves, a matrix and curves (lutAToBType), sRGB.
    Stages,
}

/// sRGB's curve (IEC 61966-2-1).
fn linear(v: f64) -> f64 {
    if v <= 0.040_45 {
        v / 12.92
    } else {
        libm::pow((v + 0.055) / 1.055, 2.4)
    }
}

/// XYZ under D50 from linear sRGB (Bradford), as the connection space counts it: 1 is 1.99997.
fn connection(rgb: [f64; 3]) -> [f64; 3] {
    ROWS.map(|row| {
        let sum: f64 = row.iter().zip(rgb).map(|(m, v)| m * v).sum();
        sum * 32_768.0 / 65_535.0
    })
}

const ROWS: [[f64; 3]; 3] = [
    [0.436_074_7, 0.385_064_9, 0.143_080_4],
    [0.222_504_5, 0.716_878_6, 0.060_616_9],
    [0.013_932_2, 0.097_104_5, 0.714_173_3],
];

fn profile(tagged: Tagged, space: Space) -> Option<Vec<u8>> {
    match tagged {
        Tagged::Nothing => None,
        Tagged::Matrix => Some(icc_profile(space)),
        Tagged::Cube => {
            let table = icc::lut16(9, linear, connection, |v| v);
            Some(Profile::rgb(2, b"XYZ ").tag(b"A2B0", table).bytes())
        }
        Tagged::Stages => {
            let same = || vec![icc::curve(&[]); 3];
            let srgb =
                icc::parametric(3, &[2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.040_45]);
            let scaled = ROWS.map(|row| row.map(|v| v * 32_768.0 / 65_535.0));
            let mut matrix = [0.0; 12];
            matrix[..9].copy_from_slice(scaled.as_flattened());
            let stages = AToB {
                m: vec![srgb; 3],
                matrix: Some(matrix),
                b: same(),
                ..AToB::default()
            };
            Some(
                Profile::rgb(4, b"XYZ ")
                    .tag(b"A2B0", stages.bytes())
                    .bytes(),
            )
        }
    }
}

/// The picture's codes as they are stored under an EXIF orientation (EXIF 2.32, tag 0x0112).
fn stored(p: &Picture, bits: u8, orientation: u8) -> Pixels {
    let full = if bits == 8 { 255.0_f32 } else { 65_535.0 };
    let (w, h) = (p.w, p.h);
    let (sw, sh) = if orientation >= 5 { (h, w) } else { (w, h) };
    let mut codes = Vec::with_capacity(w * h * 3);
    for y in 0..sh {
        for x in 0..sw {
            let (u, v) = match orientation {
                2 => (w - 1 - x, y),
                3 => (w - 1 - x, h - 1 - y),
                4 => (x, h - 1 - y),
                5 => (y, x),
                6 => (w - 1 - y, x),
                7 => (w - 1 - y, h - 1 - x),
                8 => (y, h - 1 - x),
                _ => (x, y),
            };
            codes.extend(p.rgb[v * w + u].map(|c| (c.clamp(0.0, 1.0) * full + 0.5) as u16));
        }
    }
    Pixels {
        width: sw as u32,
        height: sh as u32,
        channels: 3,
        bits,
        codes,
        icc: None,
        exif: None,
    }
}

/// One channel: the green one.
fn grey(mut p: Pixels) -> Pixels {
    p.codes = p.codes.as_chunks::<3>().0.iter().map(|c| c[1]).collect();
    p.channels = 1;
    p
}

fn jpeg(p: &Pixels, quality: u8, set: impl FnOnce(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, quality);
    set(&mut encoder);
    if let Some(exif) = &p.exif {
        let block = [b"Exif\0\0", exif.as_slice()].concat();
        encoder.add_app_segment(1, block).expect("EXIF");
    }
    if let Some(icc) = &p.icc {
        encoder.add_icc_profile(icc).expect("a profile");
    }
    let bytes: Vec<u8> = p.codes.iter().map(|c| *c as u8).collect();
    let colours = if p.channels == 1 {
        ColorType::Luma
    } else {
        ColorType::Rgb
    };
    encoder
        .encode(&bytes, p.width as u16, p.height as u16, colours)
        .expect("a JPEG");
    out
}

/// The file.
pub fn file(spec: &SceneSpec, picture: &Picture, form: Form, tagged: Tagged) -> Vec<u8> {
    let bits = match form {
        Form::Png(bits) | Form::GreyPng(bits) | Form::Tiff(bits, _) => bits,
        _ => 8,
    };
    let orientation = spec.output.orientation;
    let mut p = stored(picture, bits, orientation);
    p.icc = profile(tagged, spec.output.space);
    p.exif = Some(exif_block(spec, p.width, p.height));
    let quality = spec.output.quality;
    match form {
        Form::Jpeg(sampling, every) => jpeg(&p, quality, |e| {
            e.set_sampling_factor(sampling);
            e.set_restart_interval(every);
        }),
        Form::Progressive(sampling) => jpeg(&p, quality, |e| {
            e.set_sampling_factor(sampling);
            e.set_progressive(true);
        }),
        Form::GreyJpeg => {
            p.icc = None;
            jpeg(&grey(p), quality, |_| {})
        }
        Form::Png(_) => p.png(),
        Form::GreyPng(_) => {
            p.icc = None;
            grey(p).png()
        }
        Form::Tiff(_, big) => {
            let turned = Value::Short(vec![u16::from(orientation)]);
            p.tiff(big, vec![(274, turned)])
        }
        Form::TiffLzw => p.tiff_lzw(),
        Form::Webp => p.webp(),
        Form::KeptWebp => include_bytes!("../support/lossy.webp").to_vec(),
    }
}
