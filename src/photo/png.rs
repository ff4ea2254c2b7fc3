//! The marks of colour that PNG has beside an ICC profile: cICP, sRGB, and gAMA with cHRM (W3C
//! PNG, third edition, 11.3.2). `image` does not hand them on.

use crate::colour::WHITE_D65;
use crate::colour::rgb_space::{DISPLAY_P3, RgbSpace, SRGB};
use crate::colour::transfer::TransferCurve;

/// White, red, green and blue of sRGB as cHRM writes them.
const SRGB_POINTS: [u32; 8] = [
    31_270, 32_900, 64_000, 33_000, 30_000, 60_000, 15_000, 6_000,
];
/// Chunks looked at before the pixels.
const MAX_CHUNKS: usize = 256;

/// Whether a file says by cICP that it is a high-dynamic-range picture: transfer 16 (PQ) or 18
/// (HLG) of ITU-T H.273. Read as sRGB its colours would be far off.
pub fn is_hdr(bytes: &[u8]) -> bool {
    let mut rest = bytes.get(8..).unwrap_or_default();
    for _ in 0..MAX_CHUNKS {
        match rest {
            [_, _, _, _, b'c', b'I', b'C', b'P', _, 16 | 18, ..] => return true,
            [_, _, _, _, b'I', b'D', b'A', b'T', ..] => return false,
            [a, b, c, d, ..] => {
                let length = u64::from(u32::from_be_bytes([*a, *b, *c, *d])) + 12;
                let next = usize::try_from(length).ok().and_then(|n| rest.get(n..));
                rest = next.unwrap_or_default();
            }
            _ => return false,
        }
    }
    false
}

/// The space that a PNG file names; `None` when it names none, or one that is not read.
pub fn space(bytes: &[u8]) -> Option<RgbSpace> {
    let (mut srgb, mut gamma, mut points) = (None, None, None);
    // The signature is eight bytes long.
    let mut rest = bytes.get(8..)?;
    for _ in 0..MAX_CHUNKS {
        let (length, after) = rest.split_first_chunk::<4>()?;
        let (kind, after) = after.split_first_chunk::<4>()?;
        let (content, after) = after.split_at_checked(u32::from_be_bytes(*length) as usize)?;
        match (kind, content) {
            // It goes before all others; primaries and curves by their numbers in ITU-T H.273.
            (b"cICP", [1, 13, 0, 1]) => return Some(SRGB),
            (b"cICP", [12, 13, 0, 1]) => return Some(DISPLAY_P3),
            (b"cICP", _) => return None,
            (b"sRGB", _) => srgb = Some(SRGB),
            (b"gAMA", _) => gamma = content.first_chunk::<4>().map(|v| u32::from_be_bytes(*v)),
            (b"cHRM", _) => points = content.as_chunks::<4>().0.as_array::<8>().copied(),
            (b"IDAT", _) => break,
            _ => {}
        }
        // The checksum is the decoder's matter.
        rest = after.get(4..)?;
    }
    // gAMA alone leaves the primaries open; everybody takes sRGB's.
    let points = points.map_or(SRGB_POINTS, |p| p.map(u32::from_be_bytes));
    srgb.or_else(|| by_numbers(gamma?, points))
}

/// From gAMA and cHRM: 100 000 times the exponent of encoding, and the xy of white, red, green
/// and blue.
fn by_numbers(gamma: u32, points: [u32; 8]) -> Option<RgbSpace> {
    let [white, red, green, blue] = *points
        .map(|v| f64::from(v) / 1e5)
        .as_chunks::<2>()
        .0
        .as_array::<4>()?;
    let near = |a: [f64; 2], b: [f64; 2]| (a[0] - b[0]).abs() < 2e-3 && (a[1] - b[1]).abs() < 2e-3;
    let primaries = [red, green, blue];
    let area = (green[0] - red[0]) * (blue[1] - red[1]) - (blue[0] - red[0]) * (green[1] - red[1]);
    let sane = |[x, y]: &[f64; 2]| *x > 0.0 && *y > 1e-5 && x + y < 1.0;
    if !(20_000..=100_000).contains(&gamma)
        || area.abs() < 0.01
        || ![white, red, green, blue].iter().all(sane)
    {
        return None;
    }
    let is_d65 = near(white, [0.3127, 0.3290]);
    let same = |a: &[[f64; 2]; 3]| a.iter().zip(primaries).all(|(a, b)| near(*a, b));
    // 0.45455 is how sRGB's curve is written down here.
    if is_d65 && gamma.abs_diff(45_455) < 100 && same(&SRGB.primaries_xy) {
        return Some(SRGB);
    }
    let [x, y] = white;
    Some(RgbSpace {
        name: "PNG gamma and primaries",
        primaries_xy: primaries,
        white_xyz: if is_d65 {
            WHITE_D65
        } else {
            [x / y, 1.0, (1.0 - x - y) / y]
        },
        transfer: TransferCurve::Gamma(1e5 / f64::from(gamma)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::rgb_space::ADOBE_RGB_1998;

    fn file(chunks: &[(&[u8; 4], &[u8])]) -> Vec<u8> {
        let mut out = b"\x89PNG\r\n\x1a\n".to_vec();
        for (kind, content) in chunks {
            out.extend((content.len() as u32).to_be_bytes());
            out.extend(*kind);
            out.extend(*content);
            out.extend([0; 4]);
        }
        out
    }

    fn points(v: [u32; 8]) -> Vec<u8> {
        v.iter().flat_map(|v| v.to_be_bytes()).collect()
    }

    #[test]
    fn marks() {
        let idat: (&[u8; 4], &[u8]) = (b"IDAT", &[]);
        assert_eq!(space(&file(&[(b"sRGB", &[0]), idat])), Some(SRGB));
        let p3 = file(&[(b"sRGB", &[0]), (b"cICP", &[12, 13, 0, 1]), idat]);
        assert_eq!(space(&p3), Some(DISPLAY_P3));
        // BT.2100 PQ is not read, and not taken for something else.
        let pq = file(&[(b"cICP", &[9, 16, 0, 1]), (b"sRGB", &[0]), idat]);
        assert_eq!(space(&pq), None);
        assert!(is_hdr(&pq));
        assert!(!is_hdr(&p3) && !is_hdr(&file(&[idat])) && !is_hdr(b"") && !is_hdr(&pq[..16]));
        // gAMA without cHRM: sRGB's primaries.
        let linear = space(&file(&[(b"gAMA", &100_000_u32.to_be_bytes()), idat]));
        assert_eq!(linear.map(|s| s.transfer), Some(TransferCurve::Gamma(1.0)));
        assert_eq!(space(&file(&[idat, (b"sRGB", &[0])])), None);
        assert_eq!(space(&file(&[])), None);
        assert_eq!(space(b""), None);
    }

    #[test]
    fn numbers() {
        let gamma = 45_455_u32.to_be_bytes();
        let of = |p: [u32; 8]| {
            space(&file(&[
                (b"gAMA", gamma.as_slice()),
                (b"cHRM", &points(p)),
                (b"IDAT", &[]),
            ]))
        };
        let srgb = [
            31_270, 32_900, 64_000, 33_000, 30_000, 60_000, 15_000, 6_000,
        ];
        assert_eq!(of(srgb), Some(SRGB));
        let mut adobe = srgb;
        (adobe[4], adobe[5]) = (21_000, 71_000);
        let got = of(adobe).map(|s| s.xyz_d65_from_linear_rgb());
        assert_eq!(got, Some(ADOBE_RGB_1998.xyz_d65_from_linear_rgb()));
        assert_eq!(of([0; 8]), None);
        assert_eq!(of([u32::MAX; 8]), None);
        assert_eq!(of([31_270, 32_900, 1, 2_000, 1, 2_000, 1, 2_000]), None);
    }
}
