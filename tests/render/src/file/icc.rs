//! Matrix/TRC profiles (ICC.1:2010, version 4.3) of the three output spaces, written out here.

use crate::camera::xyz_from_space;
use crate::colour::{apply, bradford, product};
use crate::spec::Space;

/// Profile bytes.
pub fn profile(space: Space) -> Vec<u8> {
    let d50 = [0.9642, 1.0, 0.8249];
    let m = xyz_from_space(space);
    let white = apply(&m, [1.0; 3]);
    let adapt = bradford(white, d50);
    let cols = product(&adapt, &m);
    let name = match space {
        Space::Srgb => "sRGB IEC61966-2.1 (made here)",
        Space::DisplayP3 => "Display P3 (made here)",
        Space::AdobeRgb => "Adobe RGB (1998) compatible (made here)",
    };
    let xyz = |v: [f64; 3]| {
        let mut b = b"XYZ \0\0\0\0".to_vec();
        v.iter().for_each(|c| b.extend(fixed(*c)));
        b
    };
    let curve = match space {
        Space::AdobeRgb => {
            let mut b = b"para\0\0\0\0\0\0\0\0".to_vec();
            b.extend(fixed(563.0 / 256.0));
            b
        }
        _ => {
            let mut b = b"para\0\0\0\0\0\x03\0\0".to_vec();
            for v in [2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045] {
                b.extend(fixed(v));
            }
            b
        }
    };
    let mut chad = b"sf32\0\0\0\0".to_vec();
    adapt.iter().flatten().for_each(|c| chad.extend(fixed(*c)));
    let col = |j: usize| [cols[0][j], cols[1][j], cols[2][j]];
    let tags: Vec<(&[u8; 4], Vec<u8>)> = vec![
        (b"desc", text(name)),
        (b"cprt", text("No copyright, use freely")),
        (b"wtpt", xyz(d50)),
        (b"chad", chad),
        (b"rXYZ", xyz(col(0))),
        (b"gXYZ", xyz(col(1))),
        (b"bXYZ", xyz(col(2))),
        (b"rTRC", curve.clone()),
        (b"gTRC", curve.clone()),
        (b"bTRC", curve),
    ];
    let mut table = (tags.len() as u32).to_be_bytes().to_vec();
    let mut data = Vec::new();
    let start = 128 + 4 + 12 * tags.len();
    for (sign, bytes) in &tags {
        table.extend(*sign);
        table.extend(((start + data.len()) as u32).to_be_bytes());
        table.extend((bytes.len() as u32).to_be_bytes());
        data.extend(bytes);
        while data.len() % 4 != 0 {
            data.push(0);
        }
    }
    let mut out = vec![0u8; 128];
    out[0..4].copy_from_slice(&((start + data.len()) as u32).to_be_bytes());
    out[8..12].copy_from_slice(&[4, 0x30, 0, 0]);
    out[12..16].copy_from_slice(b"mntr");
    out[16..20].copy_from_slice(b"RGB ");
    out[20..24].copy_from_slice(b"XYZ ");
    // 2031-01-01 00:00:00.
    for (i, v) in [2031u16, 1, 1, 0, 0, 0].iter().enumerate() {
        out[24 + 2 * i..26 + 2 * i].copy_from_slice(&v.to_be_bytes());
    }
    out[36..40].copy_from_slice(b"acsp");
    for (i, v) in d50.iter().enumerate() {
        out[68 + 4 * i..72 + 4 * i].copy_from_slice(&fixed(*v));
    }
    out.extend(table);
    out.extend(data);
    out
}

/// s15Fixed16Number.
fn fixed(v: f64) -> [u8; 4] {
    ((v * 65536.0).round() as i32).to_be_bytes()
}

/// multiLocalizedUnicodeType with one English record.
fn text(s: &str) -> Vec<u8> {
    let mut b = b"mluc\0\0\0\0".to_vec();
    b.extend(1u32.to_be_bytes());
    b.extend(12u32.to_be_bytes());
    b.extend(b"enUS");
    let utf: Vec<u8> = s.encode_utf16().flat_map(u16::to_be_bytes).collect();
    b.extend((utf.len() as u32).to_be_bytes());
    b.extend(28u32.to_be_bytes());
    b.extend(utf);
    b
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The three numbers of an XYZ tag.
    fn xyz_tag(profile: &[u8], sign: &[u8; 4]) -> [f64; 3] {
        let word = |at: usize| {
            u32::from_be_bytes([
                profile[at],
                profile[at + 1],
                profile[at + 2],
                profile[at + 3],
            ])
        };
        let count = word(128) as usize;
        let entry = (0..count)
            .map(|k| 132 + 12 * k)
            .find(|at| &profile[*at..at + 4] == sign);
        let at = word(entry.expect("the tag is there") + 4) as usize;
        std::array::from_fn(|i| f64::from(word(at + 8 + 4 * i) as i32) / 65536.0)
    }

    #[test]
    fn colorants_are_adapted_to_d50_as_in_published_srgb_profiles() {
        let p = profile(Space::Srgb);
        assert_eq!(
            p.len(),
            u32::from_be_bytes([p[0], p[1], p[2], p[3]]) as usize
        );
        // sRGB primaries adapted by Bradford (the rounded values of common sRGB profiles).
        for (sign, want) in [
            (b"rXYZ", [0.4360, 0.2225, 0.0139]),
            (b"gXYZ", [0.3851, 0.7169, 0.0971]),
            (b"bXYZ", [0.1431, 0.0606, 0.7139]),
        ] {
            let got = xyz_tag(&p, sign);
            for i in 0..3 {
                assert!((got[i] - want[i]).abs() < 4e-4, "{got:?} {want:?}");
            }
        }
        for space in [Space::Srgb, Space::DisplayP3, Space::AdobeRgb] {
            let p = profile(space);
            let sum: [f64; 3] = std::array::from_fn(|i| {
                [b"rXYZ", b"gXYZ", b"bXYZ"]
                    .iter()
                    .map(|s| xyz_tag(&p, s)[i])
                    .sum()
            });
            assert!(
                (sum[0] - 0.9642).abs() < 2e-4
                    && (sum[1] - 1.0).abs() < 2e-4
                    && (sum[2] - 0.8249).abs() < 2e-4,
                "{sum:?}"
            );
        }
    }
}
