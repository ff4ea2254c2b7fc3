//! Reduced copies: one in linear light to find things in, one for the eye.

mod support;

use support::files::Picture;
use tabside::colour::TransferCurve;
use tabside::photo::{Photo, srgb_encoder};

fn open(picture: &Picture) -> Photo {
    Photo::decode(&picture.png()).expect("it opens")
}

/// Black and white in turn: half of the light. The mean of the codes would be 0.2140 in linear
/// light (128 of 255 by IEC 61966-2-1), less than half of it.
#[test]
fn means_are_of_light() {
    let board = open(&Picture::rgb8(64, 64, |x, y| {
        [if (x + y) % 2 == 0 { 255 } else { 0 }; 3]
    }));
    let reduced = board.reduced_linear(64 * 64 / 4);
    assert_eq!((reduced.width, reduced.height), (32, 32));
    assert_eq!((reduced.scale_x, reduced.scale_y), (2.0, 2.0));
    for value in reduced.linear_rgb.as_flattened() {
        assert!((value - 0.5).abs() < 1e-6, "{value}");
    }
    // Any photo: each reduced pixel is the mean of its block's samples.
    let scene = open(&Picture::scene());
    let reduced = scene.reduced_linear(100);
    let block = reduced.scale_x as u32;
    for y in 0..reduced.height {
        for x in 0..reduced.width {
            let got = reduced.linear_rgb[(y * reduced.width + x) as usize];
            let mut want = [0.0_f64; 3];
            for (i, j) in (0..block).flat_map(|j| (0..block).map(move |i| (i, j))) {
                let sample = scene.sample(x * block + i, y * block + j).expect("inside");
                for (w, v) in want.iter_mut().zip(sample.linear_rgb) {
                    *w += f64::from(v) / f64::from(block * block);
                }
            }
            for (g, w) in got.iter().zip(want) {
                assert!((f64::from(*g) - w).abs() < 1e-5, "{g} should be {w}");
            }
        }
    }
}

/// The copy for the eye means codes, which is quicker; a board of black and white turns to the
/// middle code.
#[test]
fn the_preview_is_of_codes() {
    let board = open(&Picture::rgb8(64, 64, |x, y| {
        [if (x + y) % 2 == 0 { 255 } else { 0 }; 3]
    }));
    let preview = board.preview(64 * 64 / 4);
    for pixel in preview.rgba.as_chunks::<4>().0 {
        assert_eq!(*pixel, [128, 128, 128, 255]);
    }
    // At full size the codes themselves.
    let picture = Picture::scene();
    let preview = open(&picture).preview(1 << 20);
    for (pixel, code) in preview
        .rgba
        .as_chunks::<4>()
        .0
        .iter()
        .zip(picture.codes.as_chunks::<3>().0)
    {
        let [r, g, b, alpha] = pixel.map(u16::from);
        assert_eq!(([r, g, b], alpha), (*code, 255));
    }
}

#[test]
fn sizes_stay_below_the_limit() {
    let picture = open(&Picture::rgb8(301, 97, |x, y| [x as u8, y as u8, 9]));
    for max in [1, 2, 16, 99, 1000, 5000, 29_196, 29_197, 1 << 24] {
        let (reduced, preview) = (picture.reduced_linear(max), picture.preview(max));
        assert_eq!(
            (reduced.width, reduced.height),
            (preview.width, preview.height)
        );
        assert!(reduced.width > 0 && reduced.height > 0);
        let pixels = reduced.width as usize * reduced.height as usize;
        // One row of blocks as high as the picture is the least there is.
        assert!(pixels <= max.max(3), "{max}: {pixels}");
        assert_eq!(reduced.linear_rgb.len(), pixels);
        assert_eq!(preview.rgba.len(), 4 * pixels);
    }
    assert_eq!(picture.preview(29_197).width, 301);
}

/// What sRGB cannot show is clamped channel by channel, and greys stay grey.
#[test]
fn a_wide_space_in_the_preview() {
    let p3 = moxcms::ColorProfile::new_display_p3()
        .encode()
        .expect("ICC");
    for bits in [8, 16] {
        let full = if bits == 8 { 255 } else { u16::MAX };
        let show = |code: [u16; 3]| {
            let codes: Vec<u16> = code.repeat(64 * 16);
            let picture = Picture::from_codes(bits, 3, &codes).icc(p3.clone());
            let preview = open(&picture).preview(64);
            let [r, g, b, _] = preview.rgba.as_chunks::<4>().0[0];
            [r, g, b]
        };
        // P3 red in sRGB is (1.093, −0.227, −0.150) (encoded; CSS Color 4, sample conversions).
        assert_eq!(show([full, 0, 0]), [255, 0, 0]);
        assert_eq!(show([0, full, 0])[1], 255);
        assert_eq!(show([full; 3]), [255; 3]);
        assert_eq!(show([0; 3]), [0; 3]);
        let middle = show([full / 2; 3]);
        assert!(middle.iter().all(|c| c.abs_diff(127) <= 1), "{middle:?}");
    }
}

/// The encoder's table against the formula: within one code, exactly at the ends.
#[test]
fn encoder() {
    let encode = srgb_encoder();
    for code in 0..=255_u8 {
        let linear = TransferCurve::Srgb.linear_from_encoded(f64::from(code) / 255.0);
        assert!(encode(linear as f32).abs_diff(code) <= 1, "{code}");
    }
    assert_eq!((encode(-1.0), encode(0.0)), (0, 0));
    assert_eq!((encode(1.0), encode(7.0)), (255, 255));
    assert_eq!(encode(f32::NAN), 0);
    assert_eq!(encode(0.5), 188);
}

/// Rows outside are refused, not invented.
#[test]
fn rows_outside() {
    let photo = open(&Picture::scene());
    let mut row = vec![tabside::photo::Sample::default(); 10];
    assert!(photo.read_row(38, 31, &mut row).is_some());
    for (x, y) in [(39, 31), (38, 32), (u32::MAX, 0), (0, u32::MAX)] {
        assert!(photo.read_row(x, y, &mut row).is_none(), "{x} {y}");
    }
    assert!(photo.read_row(0, 0, &mut []).is_some());
    assert_eq!(photo.sample(48, 0), None);
}
