//! Bytes to pixels, upright, at their own depth, with what the file says about their colours.

use super::exif::{self, ExifFindings};
use super::pixels::{Pixels, has_transparency};
use super::sniff::{Kind, sniff};
use super::tiles::{Tiles, sound};
use super::types::{PhotoInfo, SpaceInfo, SpaceSource};
use super::{Photo, jpeg, png, processed, profile, tiff, webp};
use crate::colour::rgb_space::{ADOBE_RGB_1998, RgbSpace, SRGB};
use crate::error::{CheckCode, Error, LightCheck, Result, Severity};
use image::codecs::{jpeg::JpegDecoder, png::PngDecoder, webp::WebPDecoder};
use image::{ColorType, ImageDecoder, ImageError, Limits};
use std::io::Cursor;

/// Pixels that are taken on.
///
/// A search for crashes, whose build is several times slower, keeps to small pictures.
pub const MAX_PIXELS: u64 = if cfg!(fuzzing) {
    2_000_000
} else {
    100_000_000
};
/// Decoded bytes that are taken on.
pub const MAX_DECODED_BYTES: u64 = if cfg!(fuzzing) { 16 << 20 } else { 400 << 20 };
/// Smallest side.
const MIN_SIDE_PX: u32 = 16;
/// Largest ICC profile looked at.
const MAX_PROFILE_BYTES: usize = 8 << 20;

const AGAIN: &str = "Copy it again from the camera or ask the sender for the original file.";

/// A picture as stored, with what the file says about it.
struct Raw {
    pixels: Pixels,
    width: u32,
    height: u32,
    transparent: bool,
    icc: Option<Vec<u8>>,
    exif: ExifFindings,
    /// The space by marks of the format itself.
    marked: Option<RgbSpace>,
    several: bool,
    /// The quantisation table of a JPEG.
    table: Option<[u16; 64]>,
}

/// Decodes a photo.
pub fn decode(bytes: &[u8]) -> Result<Photo> {
    let kind = sniff(bytes)?;
    let raw = match kind {
        Kind::Jpeg => {
            let found = jpeg::check(bytes)?;
            let exif = found
                .exif
                .map_or_else(ExifFindings::default, |block| exif::read(&block, false));
            let raw = match Tiles::new(bytes, MAX_PIXELS) {
                Some(tiles) => {
                    let (width, height) = tiles.size();
                    let (width, height) = (width as u32, height as u32);
                    check_size(width, height, 3 * u64::from(width) * u64::from(height))?;
                    Raw {
                        pixels: match tiles.whole() {
                            Some(all) => Pixels::Rgb8(all),
                            None => Pixels::Tiled(Box::new(tiles)),
                        },
                        width,
                        height,
                        transparent: false,
                        icc: found.icc,
                        exif,
                        marked: None,
                        several: false,
                        table: None,
                    }
                }
                None => {
                    let (mut decoder, layout) = begin(JpegDecoder::new(Cursor::new(bytes)), kind)?;
                    decoder
                        .set_limits(limits())
                        .map_err(|e| explain(&e, kind))?;
                    // The decoder fills what is missing with something.
                    sound(bytes).ok_or_else(|| damaged(kind))?;
                    pixels(decoder, kind, layout, found.icc, exif, false)?
                }
            };
            Ok(Raw {
                table: found.table,
                ..raw
            })
        }
        Kind::Png => {
            let decoder = PngDecoder::with_limits(Cursor::new(bytes), limits());
            let several = decoder.as_ref().is_ok_and(|d| d.is_apng().unwrap_or(false));
            if png::is_hdr(bytes) {
                return Err(Error::unsupported(
                    "This PNG holds a high-dynamic-range picture (PQ or HLG), which is not read.",
                    "Export the photo for an ordinary screen: sRGB, 8 or 16 bits.",
                ));
            }
            let raw = take(decoder, kind, several)?;
            Ok(Raw {
                marked: png::space(bytes),
                ..raw
            })
        }
        Kind::WebP => {
            let whole = webp::riff(bytes).filter(|riff| webp::is_whole(riff));
            let whole = whole.ok_or_else(|| {
                Error::damaged("The WebP file ends before the picture does.", AGAIN)
            })?;
            let decoder = WebPDecoder::new(Cursor::new(whole));
            let several = decoder.as_ref().is_ok_and(WebPDecoder::has_animation);
            take(decoder, kind, several)
        }
        Kind::Tiff => {
            let t = tiff::decode(bytes, MAX_DECODED_BYTES as usize, check_size)?;
            Ok(Raw {
                pixels: t.pixels,
                width: t.width,
                height: t.height,
                transparent: t.transparent,
                icc: t.icc,
                exif: exif::read(bytes, true),
                marked: None,
                several: t.several,
                table: None,
            })
        }
    }?;
    finish(raw, kind)
}

fn limits() -> Limits {
    let mut limits = Limits::default();
    limits.max_alloc = Some(2 * MAX_DECODED_BYTES);
    limits
}

/// Channels per pixel, 16 bits or not.
#[derive(Clone, Copy)]
struct Layout {
    channels: usize,
    wide: bool,
}

/// Size and layout, checked before anything is allocated for the pixels.
fn begin<D: ImageDecoder>(
    decoder: std::result::Result<D, ImageError>,
    kind: Kind,
) -> Result<(D, Layout)> {
    let decoder = decoder.map_err(|e| explain(&e, kind))?;
    let (width, height) = decoder.dimensions();
    check_size(width, height, decoder.total_bytes())?;
    let color = decoder.color_type();
    let wide = match color {
        ColorType::L8 | ColorType::La8 | ColorType::Rgb8 | ColorType::Rgba8 => false,
        ColorType::L16 | ColorType::La16 | ColorType::Rgb16 | ColorType::Rgba16 => true,
        _ => {
            return Err(Error::unsupported(
                format!("This {} holds floating-point pixels.", kind.name()),
                "Save it with 16 bits per channel.",
            ));
        }
    };
    let layout = Layout {
        channels: usize::from(color.channel_count()),
        wide,
    };
    Ok((decoder, layout))
}

fn take<D: ImageDecoder>(
    decoder: std::result::Result<D, ImageError>,
    kind: Kind,
    several: bool,
) -> Result<Raw> {
    let (mut decoder, layout) = begin(decoder, kind)?;
    decoder
        .set_limits(limits())
        .map_err(|e| explain(&e, kind))?;
    let icc = decoder.icc_profile().ok().flatten();
    let exif = match decoder.exif_metadata() {
        Ok(Some(block)) => exif::read(&block, false),
        Ok(None) => ExifFindings::default(),
        Err(_) => ExifFindings {
            damaged: true,
            ..ExifFindings::default()
        },
    };
    pixels(decoder, kind, layout, icc, exif, several)
}

fn pixels<D: ImageDecoder>(
    decoder: D,
    kind: Kind,
    layout: Layout,
    icc: Option<Vec<u8>>,
    exif: ExifFindings,
    several: bool,
) -> Result<Raw> {
    let (width, height) = decoder.dimensions();
    // `begin` has bounded this.
    let mut values = vec![0_u8; usize::try_from(decoder.total_bytes()).unwrap_or(0)];
    decoder
        .read_image(&mut values)
        .map_err(|e| explain(&e, kind))?;
    let (pixels, transparent) = if layout.wide {
        let values: Vec<u16> = values
            .as_chunks::<2>()
            .0
            .iter()
            .map(|b| u16::from_ne_bytes(*b))
            .collect();
        let transparent = has_transparency(&values, layout.channels, u16::MAX);
        (Pixels::from_u16(values, layout.channels), transparent)
    } else {
        let transparent = has_transparency(&values, layout.channels, u8::MAX);
        (Pixels::from_u8(values, layout.channels), transparent)
    };
    Ok(Raw {
        pixels: pixels
            .ok_or_else(|| Error::internal("a picture with an unknown number of channels."))?,
        width,
        height,
        transparent,
        icc,
        exif,
        marked: None,
        several,
        table: None,
    })
}

pub fn check_size(width: u32, height: u32, bytes: u64) -> Result<()> {
    let pixels = u64::from(width) * u64::from(height);
    if pixels > MAX_PIXELS || bytes > MAX_DECODED_BYTES {
        return Err(Error::too_large(
            format!(
                "The photo has {width} × {height} pixels ({:.0} megapixels); at most 100 are taken.",
                pixels as f64 / 1e6
            ),
            "Open a smaller version, or crop it to the teeth, tabs and card.",
        ));
    }
    if width < MIN_SIDE_PX || height < MIN_SIDE_PX {
        return Err(Error::unsupported(
            format!("The picture has only {width} × {height} pixels."),
            "Open the original photo, not a thumbnail.",
        ));
    }
    Ok(())
}

/// In plain words; a decoder's own words help nobody at the chair, and their texts for every
/// possible damage would add kilobytes to the page.
fn explain(error: &ImageError, kind: Kind) -> Error {
    let name = kind.name();
    match error {
        ImageError::Limits(_) => Error::too_large(
            format!("The {name} file asks for more memory than a photo needs."),
            "Open a smaller version of it.",
        ),
        ImageError::Unsupported(_) => Error::unsupported(
            format!("This kind of {name} is not read."),
            "Save it as an ordinary RGB JPEG, PNG or TIFF with 8 or 16 bits.",
        ),
        _ => damaged(kind),
    }
}

/// What is said of a file that breaks off or cannot be understood.
pub fn damaged(kind: Kind) -> Error {
    Error::damaged(
        format!(
            "The {} file is damaged, or it ends before the picture does.",
            kind.name()
        ),
        AGAIN,
    )
}

fn finish(raw: Raw, kind: Kind) -> Result<Photo> {
    let mut checks = Vec::new();
    let mut note = |code, text: String, remedy: &str| {
        checks.push(LightCheck::new(code, Severity::Note, text, remedy));
    };
    let mut facts = raw.exif.facts;
    kind.name().clone_into(&mut facts.format);
    if raw.several {
        note(
            CheckCode::FirstOfSeveral,
            "The file holds several pictures; the first one is read.".into(),
            "Open the single photo if that is not the one meant.",
        );
    }
    if raw.exif.damaged {
        note(
            CheckCode::MetadataDamaged,
            "The facts about the capture could not all be read.".into(),
            "Nothing to do; the picture itself is whole.",
        );
    }
    if raw.transparent {
        note(
            CheckCode::TransparencyIgnored,
            "Parts of the picture are transparent; their colours are read as if they were not."
                .into(),
            "Photos have no transparent parts; check that this is the original.",
        );
    }
    // Before it is turned: a JPEG's blocks start at its stored corner.
    let signs = processed::Signs {
        kind,
        facts: &facts,
        treatments: &raw.exif.treatments,
        hints: &raw.exif.hints,
        table: raw.table.as_ref(),
        pixels: &raw.pixels,
        width: raw.width,
        height: raw.height,
    };
    signs.check(&mut checks);
    // Once, and only here.
    facts.orientation = facts.orientation.max(1);
    let (pixels, width, height) = raw.pixels.upright(raw.width, raw.height, facts.orientation);
    let bits = pixels.bits();
    let from_profile = raw.icc.map(|p| {
        if p.len() > MAX_PROFILE_BYTES {
            return Err("it is too large".to_owned());
        }
        profile::from_icc(&p, bits, pixels.is_grey())
    });
    let (space, source) = match from_profile {
        Some(Ok(space)) => (space, SpaceSource::Icc),
        failed => {
            if let Some(Err(why)) = failed {
                checks.push(LightCheck::new(
                    CheckCode::ProfileUnusable,
                    Severity::Care,
                    format!("The colour profile inside the file cannot be used: {why}."),
                    "Export the photo again as sRGB.",
                ));
            }
            if let Some(space) = &raw.marked {
                (profile::from_standard(space, bits), SpaceSource::Format)
            } else if raw.exif.says_adobe_rgb {
                (
                    profile::from_standard(&ADOBE_RGB_1998, bits),
                    SpaceSource::Exif,
                )
            } else if raw.exif.says_srgb {
                (profile::from_standard(&SRGB, bits), SpaceSource::Exif)
            } else {
                checks.push(LightCheck::new(
                    CheckCode::SpaceAssumed,
                    Severity::Note,
                    "The file does not say which colour space it is in; sRGB is assumed.",
                    "Export photos with their colour profile embedded.",
                ));
                (profile::from_standard(&SRGB, bits), SpaceSource::Assumed)
            }
        }
    };
    Ok(Photo {
        info: PhotoInfo {
            width,
            height,
            space: SpaceInfo {
                name: space.name,
                source,
                bits,
            },
            facts,
        },
        pixels,
        to_linear: space.to_linear,
        xyz_d65_from_linear_rgb: space.xyz_d65_from_linear_rgb,
        checks,
    })
}
