//! From an ICC profile, or a tagged space, to linear light: exact tables for matrix profiles,
//! interpolation in floating point for LUT profiles. `moxcms` parses them.
//!
//! Linear RGB is the photo's own: the profile's colorants for matrix profiles, sRGB's
//! (unbounded) for LUT profiles. Profiles connect through D50; the matrix given is to D65
//! (Bradford).

use super::curve;
use super::exif::clean;
use super::lut::Lut;
use crate::colour::adaptation::{WHITE_ICC_PCS, bradford};
use crate::colour::rgb_space::{RgbSpace, SRGB};
use crate::colour::{Matrix3, WHITE_D65};
use moxcms::{ColorProfile, DataColorSpace, ParsingOptions, ProfileText, ToneReprCurve};
use std::sync::Arc;

/// A way from codes to linear light.
pub enum ToLinear {
    /// One table per channel, indexed by code (256 or 65 536 entries).
    Tables([Arc<Vec<f32>>; 3]),
    /// A LUT profile, evaluated per pixel.
    Lut {
        /// Encoded RGB to XYZ of the connection space.
        lut: Box<Lut>,
        /// From there to the photo's linear RGB.
        linear_rgb_from_pcs: Matrix3,
    },
}

/// What a profile or tagged space gives.
pub struct Space {
    /// Its name.
    pub name: String,
    /// Codes to linear.
    pub to_linear: ToLinear,
    /// Linear RGB to XYZ D65.
    pub xyz_d65_from_linear_rgb: Matrix3,
}

/// More tags than any profile has.
const MAX_TAGS: usize = 100;
/// Longest description looked at.
const MAX_DESCRIPTION: u32 = 4096;

const fn entries(bits: u8) -> usize {
    if bits == 8 { 256 } else { 65_536 }
}

/// The space of a standard.
pub fn from_standard(space: &RgbSpace, bits: u8) -> Space {
    let n = entries(bits);
    let table: Vec<f32> = (0..n)
        .map(|code| {
            space
                .transfer
                .linear_from_encoded(code as f64 / (n - 1) as f64) as f32
        })
        .collect();
    let table = Arc::new(table);
    Space {
        name: space.name.to_owned(),
        to_linear: ToLinear::Tables([Arc::clone(&table), Arc::clone(&table), table]),
        xyz_d65_from_linear_rgb: space.xyz_d65_from_linear_rgb(),
    }
}

/// The space of an ICC profile; the reason in words when it cannot be used.
pub fn from_icc(bytes: &[u8], bits: u8, grey_pixels: bool) -> Result<Space, String> {
    let damaged = || "it is damaged".to_owned();
    // Device links, abstract and named-colour profiles describe no picture.
    if matches!(bytes.get(12..16), Some(b"link" | b"abst" | b"nmcl")) {
        return Err("it is made for another kind of pixels".to_owned());
    }
    let bytes = with_used_tags_only(bytes).ok_or_else(damaged)?;
    let options = ParsingOptions {
        max_allowed_trc_size: 65_536,
        ..ParsingOptions::default()
    };
    let profile =
        ColorProfile::new_from_slice_with_options(&bytes, options).map_err(|_| damaged())?;
    let name = profile
        .description
        .as_ref()
        .and_then(text_of)
        .unwrap_or_else(|| "embedded profile".to_owned());
    match (profile.color_space, grey_pixels) {
        (DataColorSpace::Rgb, false) => {}
        (DataColorSpace::Gray, true) if profile.pcs == DataColorSpace::Xyz => {
            return grey(&profile, name, bits);
        }
        // A grey picture with an RGB profile: equal codes through that profile.
        (DataColorSpace::Rgb, true) => {}
        _ => return Err("it is made for another kind of pixels".to_owned()),
    }
    let has_lut =
        profile.lut_a_to_b_colorimetric.is_some() || profile.lut_a_to_b_perceptual.is_some();
    if has_lut {
        return lut(&profile, name);
    }
    matrix(&profile, name, bits)
}

/// The profile with all tags made unknown, and so skipped, that are not read here; `None` when
/// one that is read lies outside.
///
/// The parser reads every tag it knows: tables for printing, texts in hundreds of languages. One
/// damaged tag among them would lose the profile, some can be made to fill any memory, and on 32
/// bits its check of a curve's end overflows.
fn with_used_tags_only(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut own = bytes.to_vec();
    let length = own.len() as u64;
    let (count, table) = own.get_mut(128..)?.split_first_chunk_mut::<4>()?;
    let count = u32::from_be_bytes(*count) as usize;
    if count > MAX_TAGS {
        return None;
    }
    for entry in table.as_chunks_mut::<12>().0.iter_mut().take(count) {
        let (signature, place) = entry.split_first_chunk_mut::<4>()?;
        let (offset, size) = place.split_first_chunk::<4>()?;
        let (offset, size) = (
            u32::from_be_bytes(*offset),
            u32::from_be_bytes(*size.as_array()?),
        );
        let used = match &*signature {
            b"rXYZ" | b"gXYZ" | b"bXYZ" | b"rTRC" | b"gTRC" | b"bTRC" | b"kTRC" | b"A2B0"
            | b"A2B1" => true,
            b"desc" => size <= MAX_DESCRIPTION,
            _ => false,
        };
        if !used {
            *signature = [0; 4];
        } else if u64::from(offset) + u64::from(size) > length {
            return None;
        } else if signature.starts_with(b"A2B") {
            let tag = bytes.get(offset as usize..)?;
            // Offsets of the B, M and A curves.
            for place in [12, 20, 28] {
                let set = u32::from_be_bytes(*tag.get(place..)?.first_chunk::<4>()?) as usize;
                if tag.starts_with(b"mAB ") && set != 0 && mixes_empty_curves(tag.get(set..)?)? {
                    return None;
                }
            }
        }
    }
    Some(own)
}

/// Whether a set of three curves of a lutAToBType has some with samples and some without. The
/// parser does not step over a curve without samples, and would take it for the next one too.
fn mixes_empty_curves(set: &[u8]) -> Option<bool> {
    let (mut at, mut empty) = (0_usize, 0);
    for _ in 0..3 {
        let (kind, rest) = set.get(at..)?.split_first_chunk::<4>()?;
        let [_, _, _, _, a, b, c, d] = *rest.first_chunk::<8>()?;
        let size = match kind {
            b"curv" => u32::from_be_bytes([a, b, c, d]).checked_mul(2)?,
            // By function type; what is not one fails in the parser.
            _ => match b {
                0 => 4,
                1 => 12,
                2 => 16,
                3 => 20,
                _ => 28,
            },
        };
        empty += u8::from(size == 0);
        at = at.checked_add(12 + (size as usize).checked_next_multiple_of(4)?)?;
    }
    Some(empty == 1 || empty == 2)
}

fn matrix(profile: &ColorProfile, name: String, bits: u8) -> Result<Space, String> {
    if profile.pcs != DataColorSpace::Xyz {
        return Err("it connects through a space that does not fit its primaries".to_owned());
    }
    let curve = |trc: &Option<ToneReprCurve>| table(trc.as_ref(), bits);
    let tables = [
        curve(&profile.red_trc)?,
        curve(&profile.green_trc)?,
        curve(&profile.blue_trc)?,
    ];
    let (r, g, b) = (
        profile.red_colorant,
        profile.green_colorant,
        profile.blue_colorant,
    );
    let colorants = Matrix3([[r.x, g.x, b.x], [r.y, g.y, b.y], [r.z, g.z, b.z]]);
    if colorants.inverse().is_none() || colorants.0.iter().flatten().any(|v| v.abs() > 4.0) {
        return Err("its primaries are not those of a colour space".to_owned());
    }
    Ok(Space {
        name,
        to_linear: ToLinear::Tables(tables),
        xyz_d65_from_linear_rgb: bradford(WHITE_ICC_PCS, WHITE_D65).times(&colorants),
    })
}

fn grey(profile: &ColorProfile, name: String, bits: u8) -> Result<Space, String> {
    let t = table(profile.gray_trc.as_ref(), bits)?;
    Ok(Space {
        name,
        to_linear: ToLinear::Tables([Arc::clone(&t), Arc::clone(&t), t]),
        // Three equal values through any RGB space of white D65 are a D65 neutral.
        xyz_d65_from_linear_rgb: SRGB.xyz_d65_from_linear_rgb(),
    })
}

fn table(trc: Option<&ToneReprCurve>, bits: u8) -> Result<Arc<Vec<f32>>, String> {
    let missing = || "its tone curve is missing or damaged".to_owned();
    let trc = trc.ok_or_else(missing)?;
    let n = entries(bits);
    let out: Option<Vec<f32>> = (0..n)
        .map(|code| curve::evaluate(trc, code as f64 / (n - 1) as f64).map(|v| v as f32))
        .collect();
    let out = out.ok_or_else(missing)?;
    let sane = out
        .iter()
        .all(|v| v.is_finite() && (-0.01..=1.5).contains(v));
    let spans = out
        .last()
        .zip(out.first())
        .is_some_and(|(last, first)| last - first > 0.5);
    if sane && spans {
        Ok(Arc::new(out))
    } else {
        Err(missing())
    }
}

/// Through its tables to XYZ, taken as the photo's linear RGB in sRGB's primaries (unbounded).
fn lut(profile: &ColorProfile, name: String) -> Result<Space, String> {
    let lut = Lut::new(profile)?;
    let xyz_d65_from_linear_rgb = SRGB.xyz_d65_from_linear_rgb();
    let from_pcs = xyz_d65_from_linear_rgb
        .inverse()
        .ok_or("sRGB has no inverse")?
        .times(&bradford(WHITE_ICC_PCS, WHITE_D65));
    Ok(Space {
        name,
        to_linear: ToLinear::Lut {
            lut: Box::new(lut),
            linear_rgb_from_pcs: from_pcs,
        },
        xyz_d65_from_linear_rgb,
    })
}

fn text_of(text: &ProfileText) -> Option<String> {
    match text {
        ProfileText::PlainString(s) => clean(s),
        ProfileText::Localizable(all) => all.first().and_then(|l| clean(&l.value)),
        ProfileText::Description(d) => clean(&d.ascii_string).or_else(|| clean(&d.unicode_string)),
    }
}
