//! Colour profiles: the photo module against LittleCMS.
//!
//! Ours: code → linear RGB → XYZ D65 → Lab. Theirs: code → Lab D50 by a floating-point transform
//! (relative colorimetric, no black point compensation, no cache, no optimisation), then linear
//! Bradford to D65. What differs between the two is reported as ΔE00.

#![allow(
    clippy::disallowed_methods,
    reason = "an oracle may use any mathematics"
)]

mod support;

use lcms2::{CIExyY, CIExyYTRIPLE, Flags, GlobalContext, Intent, PixelFormat, Transform};
use moxcms::ColorProfile;
use support::files::Picture;
use support::icc::{self, AToB, Profile};
use support::{Dice, codes};
use tabside::colour::{Lab, delta_e_00};
use tabside::photo::{Photo, SpaceSource};

/// D50 of the ICC connection space, ICC.1:2022 7.2.16.
const D50: [f64; 3] = [0.9642, 1.0, 0.8249];

/// Bradford from D50 of the connection space to D65 (0.95047, 1, 1.08883), by an independent
/// script in double precision.
const D65_FROM_D50: [[f64; 3]; 3] = [
    [0.955_552_529_8, -0.023_052_146_4, 0.063_254_209_1],
    [-0.028_298_929_7, 1.009_933_131_8, 0.021_036_121_0],
    [0.012_318_111_5, -0.020_517_726_3, 1.330_428_661_9],
];

/// Limit for profiles of a matrix and curves, and for tables.
const MATRIX: f64 = 0.02;
const TABLES: f64 = 0.1;

/// Lab D65 of every code by LittleCMS.
fn theirs(profile: &[u8], channels: u8, bits: u8, codes: &[u16]) -> Vec<Lab> {
    let full = if bits == 8 { 255.0 } else { 65_535.0 };
    let input = lcms2::Profile::new_icc(profile).expect("LittleCMS reads the profile");
    let white = CIExyY {
        x: D50[0] / (D50[0] + D50[1] + D50[2]),
        y: D50[1] / (D50[0] + D50[1] + D50[2]),
        Y: 1.0,
    };
    let lab = lcms2::Profile::new_lab4_context(GlobalContext::new(), &white).expect("Lab");
    let flags = Flags::NO_OPTIMIZE | Flags::HIGHRES_PRECALC | Flags::NO_WHITE_ON_WHITE_FIXUP;
    let intent = Intent::RelativeColorimetric;
    let values: Vec<f32> = codes
        .iter()
        .map(|c| (f64::from(*c) / full) as f32)
        .collect();
    let mut out = vec![[0.0_f64; 3]; codes.len() / usize::from(channels)];
    if channels == 1 {
        let pixels: Vec<[f32; 1]> = values.iter().map(|v| [*v]).collect();
        Transform::<[f32; 1], [f64; 3], _, _>::new_flags(
            &input,
            PixelFormat::GRAY_FLT,
            &lab,
            PixelFormat::Lab_DBL,
            intent,
            flags,
        )
        .expect("a transform")
        .transform_pixels(&pixels, &mut out);
    } else {
        let (pixels, _) = values.as_chunks::<3>();
        Transform::<[f32; 3], [f64; 3], _, _>::new_flags(
            &input,
            PixelFormat::RGB_FLT,
            &lab,
            PixelFormat::Lab_DBL,
            intent,
            flags,
        )
        .expect("a transform")
        .transform_pixels(pixels, &mut out);
    }
    out.into_iter()
        .map(|lab| {
            let xyz = Lab(lab).to_xyz(D50);
            let d65 = D65_FROM_D50.map(|row| row.iter().zip(xyz).map(|(m, v)| m * v).sum());
            Lab::from_xyz_d65(d65)
        })
        .collect()
}

/// Lab D65 of every pixel by the photo module.
fn ours(photo: &Photo, count: usize) -> Vec<Lab> {
    let matrix = photo.xyz_d65_from_linear_rgb();
    (0..count as u32)
        .map(|i| {
            let sample = photo.sample(i % 64, i / 64).expect("inside");
            Lab::from_xyz_d65(matrix.apply(sample.linear_rgb.map(f64::from)))
        })
        .collect()
}

/// Thousands of codes: random ones, the whole grey axis, and the corners.
fn trial_codes(bits: u8, channels: u8) -> Vec<u16> {
    let mut dice = Dice(7);
    let full = if bits == 8 { 255 } else { u16::MAX };
    let mut out = Vec::new();
    for i in 0..256_u32 {
        let code = (i * u32::from(full) / 255) as u16;
        out.extend(vec![code; channels.into()]);
    }
    if channels == 3 {
        for corner in 0..8_u8 {
            out.extend([4, 2, 1].map(|bit| if corner & bit == 0 { 0 } else { full }));
        }
    }
    while out.len() < 4000 * usize::from(channels) {
        out.push(if bits == 8 {
            dice.code() >> 8
        } else {
            dice.code()
        });
    }
    out
}

/// The largest difference over the trial codes, with `embedded` in the file and `reference`
/// given to LittleCMS.
fn worst(embedded: &[u8], reference: &[u8], channels: u8, bits: u8, tiff: bool) -> f64 {
    let codes = trial_codes(bits, channels);
    let picture = Picture::from_codes(bits, channels, &codes).icc(embedded.to_vec());
    let file = if tiff {
        picture.tiff(bits == 16, vec![])
    } else {
        picture.png()
    };
    let photo = Photo::decode(&file).expect("the picture opens");
    assert_eq!(
        photo.info().space.source,
        SpaceSource::Icc,
        "{:?}",
        photo.checks()
    );
    assert_eq!(photo.info().space.bits, bits);
    let theirs = theirs(reference, channels, bits, &codes);
    // A cube to XYZ, by LittleCMS in integers.
    let in_steps = reference.get(20..24) == Some(b"XYZ ")
        && [b"A2B0".as_slice(), b"A2B1"]
            .iter()
            .any(|tag| reference.windows(4).any(|w| w == *tag));
    ours(&photo, theirs.len())
        .into_iter()
        .zip(theirs)
        .filter(|(a, b)| !(in_steps && as_16_bits_have_it(*a, *b)))
        .map(|(a, b)| delta_e_00(a, b))
        .fold(0.0, f64::max)
}

/// Whether two colours are within two steps of 16-bit XYZ (1 + 32767/32768 in 65 535 steps).
///
/// LittleCMS takes numbers through a cube as 16-bit integers, in and out, also in its
/// floating-point transforms. In tables to XYZ that alone is up to ΔE00 0.16 near black, where
/// one step is much; ours stay in floating point.
fn as_16_bits_have_it(a: Lab, b: Lab) -> bool {
    let step = (1.0 + 32_767.0 / 32_768.0) / 65_535.0;
    a.to_xyz_d65()
        .iter()
        .zip(b.to_xyz_d65())
        .all(|(a, b)| (a - b).abs() < 2.0 * step)
}

/// PNG and TIFF, 8 and 16 bits.
fn agrees(name: &str, profile: &[u8], limit: f64) {
    for (bits, tiff) in [(8, false), (16, false), (8, true), (16, true)] {
        let worst = worst(profile, profile, 3, bits, tiff);
        println!("{name}, {bits} bits: at most {worst:.6}");
        assert!(
            worst < limit,
            "{name}, {bits} bits, TIFF {tiff}: ΔE00 {worst}"
        );
    }
}

#[test]
fn published_spaces() {
    for (name, profile) in [
        ("sRGB", ColorProfile::new_srgb()),
        ("Display P3", ColorProfile::new_display_p3()),
        ("Adobe RGB", ColorProfile::new_adobe_rgb()),
        ("ProPhoto", ColorProfile::new_pro_photo_rgb()),
    ] {
        agrees(name, &profile.encode().expect("a profile"), MATRIX);
    }
}

/// Profiles that LittleCMS wrote itself, version 2 and 4.
#[test]
fn made_by_littlecms() {
    let white = CIExyY {
        x: 0.3127,
        y: 0.3290,
        Y: 1.0,
    };
    let point = |x, y| CIExyY { x, y, Y: 1.0 };
    let primaries = CIExyYTRIPLE {
        Red: point(0.64, 0.33),
        Green: point(0.30, 0.60),
        Blue: point(0.15, 0.06),
    };
    // sRGB's curve, as IEC 61966-2-1 has it.
    let srgb = [2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045];
    let parametric = lcms2::ToneCurve::new_parametric(4, &srgb).expect("a curve");
    let gamma = lcms2::ToneCurve::new(1.8);
    for (version, curve) in [(2.1, &gamma), (4.3, &gamma), (4.3, &parametric)] {
        let mut profile =
            lcms2::Profile::new_rgb(&white, &primaries, &[curve, curve, curve]).expect("RGB");
        profile.set_version(version);
        let bytes = profile.icc().expect("bytes");
        agrees(&format!("LittleCMS, version {version}"), &bytes, MATRIX);
    }
}

/// The colorants of sRGB under D50, from moxcms.
fn with_colorants(profile: Profile) -> Profile {
    let srgb = ColorProfile::new_srgb();
    [
        (b"rXYZ", srgb.red_colorant),
        (b"gXYZ", srgb.green_colorant),
        (b"bXYZ", srgb.blue_colorant),
    ]
    .into_iter()
    .fold(profile, |p, (tag, c)| p.tag(tag, icc::xyz([c.x, c.y, c.z])))
}

fn with_curves(curves: [Vec<u8>; 3]) -> Vec<u8> {
    let [r, g, b] = curves;
    with_colorants(Profile::rgb(4, b"XYZ "))
        .tag(b"rTRC", r)
        .tag(b"gTRC", g)
        .tag(b"bTRC", b)
        .bytes()
}

/// Every kind of curve of ICC.1:2022 10.6 and 10.18, different ones per channel.
#[test]
fn every_kind_of_curve() {
    let table: Vec<u16> = (0..37_u32)
        .map(|i| (i * i * 65_535 / 1296) as u16)
        .collect();
    let kinds = [
        icc::parametric(0, &[2.2]),
        icc::parametric(1, &[2.0, 0.9, 0.1]),
        icc::parametric(2, &[2.0, 0.85, 0.1, 0.05]),
        icc::parametric(3, &[2.4, 0.948, 0.052, 0.0774, 0.04045]),
        icc::parametric(4, &[2.3, 0.93, 0.05, 0.1, 0.06, 0.02, 0.01]),
        icc::curve(&[]),
        icc::curve(&[563]),
        icc::curve(&table),
    ];
    for i in 0..kinds.len() {
        let pick = |j: usize| kinds[(i + j) % kinds.len()].clone();
        let profile = with_curves([pick(0), pick(1), pick(2)]);
        agrees(&format!("curves from {i}"), &profile, MATRIX);
    }
}

/// The comparison sees a slightly different curve: gamma 2.2 in the file, 2.25 as reference.
#[test]
fn a_wrong_curve_is_seen() {
    let of = |gamma: f64| with_curves([(); 3].map(|()| icc::parametric(0, &[gamma])));
    assert!(worst(&of(2.2), &of(2.2), 3, 8, false) < MATRIX);
    let worst = worst(&of(2.2), &of(2.25), 3, 8, false);
    assert!(worst > 0.3, "{worst}");
}

#[test]
fn grey() {
    let white = CIExyY {
        x: 0.3457,
        y: 0.3585,
        Y: 1.0,
    };
    let profile = lcms2::Profile::new_gray(&white, &lcms2::ToneCurve::new(2.2)).expect("grey");
    let profile = profile.icc().expect("bytes");
    for bits in [8, 16] {
        let worst = worst(&profile, &profile, 1, bits, false);
        assert!(worst < MATRIX, "{bits} bits: {worst}");
    }
    // A grey picture with an RGB profile: three equal codes.
    let srgb = ColorProfile::new_srgb().encode().expect("a profile");
    let codes: Vec<u16> = (0..256).collect();
    let picture = Picture::from_codes(8, 1, &codes).icc(srgb.clone());
    let photo = Photo::decode(&picture.png()).expect("it opens");
    let triples: Vec<u16> = codes.iter().flat_map(|c| [*c; 3]).collect();
    for (a, b) in ours(&photo, 256).iter().zip(theirs(&srgb, 3, 8, &triples)) {
        assert!(delta_e_00(*a, b) < MATRIX);
    }
}

/// A colour of sRGB-like light in the connection space, from encoded RGB.
fn xyz_of(rgb: [f64; 3]) -> [f64; 3] {
    let m = ColorProfile::new_srgb().colorant_matrix().v;
    let linear = rgb.map(|v| v.powf(2.2));
    m.map(|row| row.iter().zip(linear).map(|(m, v)| m * v).sum())
}

fn lab_of(rgb: [f64; 3]) -> [f64; 3] {
    Lab::from_xyz(xyz_of(rgb), D50).0
}

/// Lab in 0–1 as version 4 and 8-bit tables encode it.
fn lab_code(lab: [f64; 3]) -> [f64; 3] {
    [
        lab[0] / 100.0,
        (lab[1] + 128.0) / 255.0,
        (lab[2] + 128.0) / 255.0,
    ]
}

/// Lab in 0–1 as lut16Type encodes it: 0xFF00 is L* 100.
fn lab_code_16(lab: [f64; 3]) -> [f64; 3] {
    lab_code(lab).map(|v| v * 65_280.0 / 65_535.0)
}

/// XYZ in 0–1, 1 being 1 + 32767/32768.
fn xyz_code(xyz: [f64; 3]) -> [f64; 3] {
    xyz.map(|v| v / (1.0 + 32_767.0 / 32_768.0))
}

#[test]
fn tables_of_16_bits_to_lab() {
    let bent = |v: f64| v.powf(1.3);
    let lut = icc::lut16(
        17,
        bent,
        |v| lab_code_16(lab_of(v.map(|v| v.powf(1.0 / 1.3)))),
        |v| v,
    );
    for version in [2, 4] {
        let profile = Profile::rgb(version, b"Lab ").tag(b"A2B0", lut.clone());
        agrees("mft2 Lab", &profile.bytes(), TABLES);
    }
    // Output curves that do something.
    let lut = icc::lut16(
        9,
        |v| v,
        |v| lab_code_16(lab_of(v)).map(f64::sqrt),
        |v| v * v,
    );
    let profile = Profile::rgb(2, b"Lab ").tag(b"A2B0", lut);
    agrees("mft2 Lab with output curves", &profile.bytes(), TABLES);
}

#[test]
fn tables_of_8_bits_to_lab() {
    let lut = icc::lut8(
        17,
        |v| v.powf(0.9),
        |v| lab_code(lab_of(v.map(|v| v.powf(1.0 / 0.9)))),
        |v| v,
    );
    let profile = Profile::rgb(2, b"Lab ").tag(b"A2B0", lut);
    agrees("mft1 Lab", &profile.bytes(), TABLES);
}

#[test]
fn tables_of_16_bits_to_xyz() {
    let lut = icc::lut16(
        17,
        |v| v.powf(2.2),
        |v| xyz_code(xyz_of(v.map(|v| v.powf(1.0 / 2.2)))),
        |v| v,
    );
    let profile = Profile::rgb(2, b"XYZ ").tag(b"A2B0", lut);
    agrees("mft2 XYZ", &profile.bytes(), TABLES);
}

/// Curves, cube of unequal sides, curves, matrix, curves; numbers of 1 and of 2 bytes.
#[test]
fn a_to_b_in_full() {
    let points = [11, 13, 9];
    for (size, pcs) in [(1, b"Lab "), (2, b"Lab "), (2, b"XYZ ")] {
        let nodes = icc::cube(points)
            .into_iter()
            .map(|v| {
                if pcs == b"Lab " {
                    lab_code(lab_of(v))
                } else {
                    xyz_code(xyz_of(v))
                }
            })
            .collect();
        let a_to_b = AToB {
            a: vec![
                icc::parametric(0, &[1.1]),
                icc::curve(&[0, 30_000, 65_535]),
                icc::curve(&[243]),
            ],
            cube: Some((points, size, nodes)),
            m: vec![
                icc::parametric(0, &[1.1]),
                icc::curve(&[256]),
                icc::curve(&[256]),
            ],
            matrix: Some([
                0.93, 0.02, 0.01, 0.01, 0.95, 0.01, 0.0, 0.02, 0.9, 0.01, 0.012, 0.008,
            ]),
            b: vec![
                icc::parametric(0, &[1.05]),
                icc::parametric(0, &[1.0]),
                icc::curve(&[0, 33_000, 65_535]),
            ],
        };
        let profile = Profile::rgb(4, pcs).tag(b"A2B0", a_to_b.bytes());
        agrees(
            &format!("mAB {} of {size} bytes", String::from_utf8_lossy(pcs)),
            &profile.bytes(),
            TABLES,
        );
    }
}

/// Curves, matrix, curves without a cube: a camera's profile in version 4.
#[test]
fn a_to_b_by_matrix_alone() {
    let m = ColorProfile::new_srgb().colorant_matrix().v;
    let half = |v: f64| v / (1.0 + 32_767.0 / 32_768.0);
    let mut matrix = [0.0; 12];
    for (to, from) in matrix.iter_mut().zip(m.as_flattened()) {
        *to = half(*from);
    }
    for m_curves in [
        [(); 3].map(|()| icc::parametric(3, &[2.4, 0.948, 0.052, 0.0774, 0.04045])),
        [(); 3].map(|()| icc::curve(&[563])),
    ] {
        let a_to_b = AToB {
            m: m_curves.to_vec(),
            matrix: Some(matrix),
            b: [(); 3].map(|()| icc::curve(&[])).to_vec(),
            ..AToB::default()
        };
        let profile = Profile::rgb(4, b"XYZ ").tag(b"A2B0", a_to_b.bytes());
        agrees("mAB matrix", &profile.bytes(), TABLES);
    }
}

/// Sets of curves of which some have no samples (the identity): `moxcms` 0.8 does not step over
/// such a curve and would read the set wrongly, so the profile is refused. A set of three empty
/// curves is read.
#[test]
fn a_to_b_with_some_empty_curves() {
    let (empty, bent) = (icc::curve(&[]), icc::parametric(0, &[1.2]));
    let of = |b: Vec<Vec<u8>>| {
        let a_to_b = AToB {
            m: [(); 3].map(|()| icc::curve(&[563])).to_vec(),
            matrix: Some([
                0.2, 0.2, 0.08, 0.1, 0.3, 0.05, 0.02, 0.05, 0.3, 0.0, 0.0, 0.0,
            ]),
            b,
            ..AToB::default()
        };
        Profile::rgb(4, b"XYZ ")
            .tag(b"A2B0", a_to_b.bytes())
            .bytes()
    };
    for whole in [&empty, &bent] {
        agrees("a set", &of(vec![whole.clone(); 3]), TABLES);
    }
    for mixed in [
        [&empty, &bent, &bent],
        [&bent, &empty, &bent],
        [&empty, &empty, &bent],
    ] {
        let profile = of(mixed.map(Clone::clone).to_vec());
        let photo = Photo::decode(&Picture::scene().icc(profile).png()).expect("it opens");
        assert!(codes(&photo).contains(&"profile-unusable".to_owned()));
    }
}

/// Tags that are not read may be damaged, and the profile still serves.
#[test]
fn damage_elsewhere_in_the_profile() {
    let mut profile = with_curves([(); 3].map(|()| icc::parametric(0, &[2.2])));
    let good = profile.clone();
    let at = profile.windows(4).position(|w| w == b"wtpt").expect("wtpt");
    profile[at + 4..at + 12].copy_from_slice(&[0xFF; 8]);
    assert!(worst(&profile, &good, 3, 8, false) < MATRIX);
    // A curve whose offset and size overflow 32 bits together.
    let mut profile = good.clone();
    let at = profile.windows(4).position(|w| w == b"gTRC").expect("gTRC");
    profile[at + 8..at + 12].copy_from_slice(&[0xFF; 4]);
    let photo = Photo::decode(&Picture::scene().icc(profile).png()).expect("it opens");
    assert!(codes(&photo).contains(&"profile-unusable".to_owned()));
}

/// A description in thousands of languages that all point at one long text.
#[test]
fn a_profile_that_would_fill_memory() {
    let (records, length) = (20_000_u32, 800_000_u32);
    let mut text = b"mluc\0\0\0\0".to_vec();
    text.extend(records.to_be_bytes());
    text.extend(12_u32.to_be_bytes());
    for _ in 0..records {
        text.extend(b"enUS");
        text.extend(length.to_be_bytes());
        text.extend(16_u32.to_be_bytes());
    }
    text.resize(16 + length as usize, b'x');
    let mut profile = with_colorants(Profile::rgb(4, b"XYZ "));
    profile.tags.retain(|(signature, _)| signature != b"desc");
    let profile = profile
        .tag(b"desc", text)
        .tag(b"rTRC", icc::curve(&[563]))
        .tag(b"gTRC", icc::curve(&[563]))
        .tag(b"bTRC", icc::curve(&[563]))
        .bytes();
    let photo = Photo::decode(&Picture::scene().icc(profile).png()).expect("it opens");
    assert_eq!(photo.info().space.source, SpaceSource::Icc);
    assert_eq!(photo.info().space.name, "embedded profile");
}

/// The colorimetric table (A2B1) goes before the perceptual one (A2B0), as it does in
/// LittleCMS for this intent.
#[test]
fn the_colorimetric_table_is_taken() {
    let dull = icc::lut16(5, |v| v, |v| lab_code_16(lab_of(v.map(|v| v * 0.5))), |v| v);
    let right = icc::lut16(17, |v| v, |v| lab_code_16(lab_of(v)), |v| v);
    let profile = Profile::rgb(2, b"Lab ")
        .tag(b"A2B0", dull)
        .tag(b"A2B1", right);
    agrees("A2B1", &profile.bytes(), TABLES);
}

/// Profiles that cannot be right for the picture are refused in words, and sRGB is used.
#[test]
fn unusable_profiles() {
    let curves = |p: Profile| {
        with_colorants(p)
            .tag(b"rTRC", icc::curve(&[563]))
            .tag(b"gTRC", icc::curve(&[563]))
            .tag(b"bTRC", icc::curve(&[563]))
    };
    let mut ink = curves(Profile::rgb(2, b"XYZ "));
    ink.space = *b"CMYK";
    let mut link = curves(Profile::rgb(2, b"XYZ "));
    link.class = *b"link";
    let flat = with_curves([(); 3].map(|()| icc::curve(&[9000, 9000])));
    let no_curves = with_colorants(Profile::rgb(2, b"XYZ ")).bytes();
    let no_colours = Profile::rgb(2, b"XYZ ")
        .tag(b"rTRC", icc::curve(&[563]))
        .tag(b"gTRC", icc::curve(&[563]))
        .tag(b"bTRC", icc::curve(&[563]))
        .bytes();
    let damaged = with_curves([(); 3].map(|()| icc::curve(&[563])))[..300].to_vec();
    for (name, profile) in [
        ("CMYK", ink.bytes()),
        ("device link", link.bytes()),
        ("flat curve", flat),
        ("no curves", no_curves),
        ("no colorants", no_colours),
        ("damaged", damaged),
        ("text", b"this is no profile".to_vec()),
    ] {
        let photo = Photo::decode(&Picture::scene().icc(profile).png()).expect(name);
        assert_eq!(
            photo.info().space.source,
            SpaceSource::Assumed,
            "{name}: {:?}",
            photo.info().space
        );
        let codes = codes(&photo);
        assert!(codes.contains(&"profile-unusable".to_owned()), "{name}");
        assert!(codes.contains(&"space-assumed".to_owned()), "{name}");
    }
}

/// `palette` as a second opinion: 8-bit sRGB codes to Lab D65.
#[test]
fn srgb_codes_by_palette() {
    use palette::{FromColor, Srgb, white_point::D65};
    let codes = trial_codes(8, 3);
    let photo = Photo::decode(&Picture::from_codes(8, 3, &codes).png()).expect("it opens");
    let mut worst = 0.0_f64;
    for (lab, code) in ours(&photo, codes.len() / 3)
        .into_iter()
        .zip(codes.as_chunks::<3>().0)
    {
        let [r, g, b] = code.map(|c| f64::from(c) / 255.0);
        let want = palette::Lab::<D65, f64>::from_color(Srgb::new(r, g, b));
        worst = worst.max(delta_e_00(lab, Lab::new(want.l, want.a, want.b)));
    }
    // The two use matrices of different roundings.
    assert!(worst < 0.02, "{worst}");
}
