//! Tiles against the whole file's pixels, from the same decoder.

use super::*;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

const WIDTH: usize = 2311;
const HEIGHT: usize = 1603;

/// Colours with edges, noise and flat places.
fn picture() -> Vec<u8> {
    let mut state = 7_u32;
    let mut out = Vec::with_capacity(WIDTH * HEIGHT * 3);
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let noise = if (x / 300 + y / 200) % 2 == 0 {
                state >> 27
            } else {
                0
            };
            let stripe = if (x / 37 + y / 53) % 3 == 0 { 90 } else { 0 };
            let ramp = (x * 120 / WIDTH) as u32;
            out.extend(
                [
                    30 + ramp + stripe / 2 + noise,
                    60 + noise + ramp / 2,
                    220 - ramp - noise,
                ]
                .map(|v| v as u8),
            );
        }
    }
    out
}

fn encoded(picture: &[u8], set: impl Fn(&mut Encoder<&mut Vec<u8>>)) -> Vec<u8> {
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 90);
    set(&mut encoder);
    encoder
        .encode(picture, WIDTH as u16, HEIGHT as u16, ColorType::Rgb)
        .expect("encoded");
    file
}

fn whole(file: &[u8]) -> Vec<u8> {
    let options = DecoderOptions::default()
        .jpeg_set_out_colorspace(ColorSpace::RGB)
        .set_strict_mode(false);
    zune_jpeg::JpegDecoder::new_with_options(ZCursor::new(file), options)
        .decode()
        .expect("decoded")
}

/// All pixels, tile by tile.
fn by_tiles(tiles: &Tiles) -> Vec<u8> {
    let (width, height) = tiles.size();
    let mut out = Vec::new();
    for y in 0..height {
        tiles
            .visit(0, y, width, |codes| {
                out.extend_from_slice(codes);
                Some(())
            })
            .expect("inside");
    }
    out
}

/// Every sampling, with and without restarts, gives the whole's pixels.
#[test]
fn tiles_are_the_pixels_of_the_whole() {
    let picture = picture();
    for sampling in [
        SamplingFactor::F_1_1,
        SamplingFactor::F_2_1,
        SamplingFactor::F_1_2,
        SamplingFactor::F_2_2,
    ] {
        for restart in [0, 5, 289] {
            let file = encoded(&picture, |e| {
                e.set_sampling_factor(sampling);
                e.set_restart_interval(restart);
            });
            let tiles = Tiles::new(&file, u64::MAX)
                .unwrap_or_else(|| panic!("{sampling:?} {restart}: of the plain kind"));
            let expected = whole(&file);
            let rows = by_tiles(&tiles);
            assert!(tiles.band(0..HEIGHT).as_ref() == Some(&rows));
            assert!(tiles.band(701..HEIGHT).as_deref() == rows.get(701 * WIDTH * 3..));
            let first = rows.iter().zip(&expected).position(|(a, b)| a != b);
            assert_eq!(
                first.map(|i| (i / 3 % WIDTH, i / 3 / WIDTH)),
                None,
                "{sampling:?} {restart}"
            );
            assert_eq!(rows.len(), expected.len());
        }
    }
}

/// The reduced picture's cells are the means of the pixels they cover.
#[test]
fn small_is_the_mean_of_the_whole() {
    let picture = picture();
    // Colours at full size: the decoder interpolates others between blocks, box means do not.
    let file = encoded(&picture, |e| e.set_sampling_factor(SamplingFactor::F_1_1));
    let pixels = whole(&file);
    let frame = Frame::read(&file).expect("a head");
    for cells in [1, 2] {
        let (_, small) = walk(&frame, &file[frame.scan..], cells).expect("a scan");
        let side = small.cell_px;
        assert_eq!((small.width, small.height), (WIDTH / side, HEIGHT / side));
        let (mut worst, mut sum) = (0.0_f64, 0.0);
        for (i, cell) in small.codes.chunks_exact(3).enumerate() {
            let (x0, y0) = (i % small.width * side, i / small.width * side);
            for (c, code) in cell.iter().enumerate() {
                let mean = (0..side * side)
                    .map(|p| f64::from(pixels[((y0 + p / side) * WIDTH + x0 + p % side) * 3 + c]))
                    .sum::<f64>()
                    / (side * side) as f64;
                let off = (mean - f64::from(*code) / f64::from(FINE)).abs();
                worst = worst.max(off);
                sum += off;
            }
        }
        let mean = sum / small.codes.len() as f64;
        // The decoder rounds each pixel three times, a little downwards, and clamps it.
        assert!(mean < 0.25, "{cells}: mean {mean}");
        assert!(worst < 4.0, "{cells}: worst {worst}");
    }
}

/// All orientations give what turning the whole gives.
#[test]
fn upright_tiles_are_the_upright_whole() {
    let picture = picture();
    let file = encoded(&picture, |_| {});
    let pixels = whole(&file);
    for orientation in 1..=8 {
        let tiles = Tiles::new(&file, u64::MAX)
            .expect("of the plain kind")
            .upright(orientation);
        let expected = turn::<u8, 3>(pixels.clone(), WIDTH, HEIGHT, orientation);
        let (width, height) = tiles.size();
        assert!(by_tiles(&tiles) == expected, "orientation {orientation}");
        assert!(
            tiles.band(0..height) == Some(expected.clone()),
            "orientation {orientation}"
        );
        // The reduced picture lies where it says.
        let (small, [left, top]) = tiles.small();
        let side = small.cell_px;
        let cell = |cx: usize, cy: usize| {
            let at = ((top + cy * side + side / 2) * width + left + cx * side + side / 2) * 3;
            [
                expected[at],
                (small.codes[(cy * small.width + cx) * 3] / FINE) as u8,
            ]
        };
        let near = (0..small.width.min(small.height))
            .filter(|i| {
                let [a, b] = cell(*i, *i);
                a.abs_diff(b) < 24
            })
            .count();
        assert!(
            near * 10 > small.width.min(small.height) * 9,
            "orientation {orientation}: {near}"
        );
    }
}

/// A small photo is decoded at once, to the same pixels.
#[test]
fn a_small_photo_is_whole() {
    let (width, height) = (333, 77);
    let picture: Vec<u8> = (0..width * height * 3)
        .map(|i| (i * 7 % 251) as u8)
        .collect();
    let mut file = Vec::new();
    Encoder::new(&mut file, 80)
        .encode(&picture, width as u16, height as u16, ColorType::Rgb)
        .expect("encoded");
    let tiles = Tiles::new(&file, u64::MAX).expect("of the plain kind");
    assert!(tiles.whole() == Some(whole(&file)));
}

/// Only what is looked at is made.
#[test]
fn a_look_makes_few_tiles() {
    let file = encoded(&picture(), |_| {});
    let tiles = Tiles::new(&file, u64::MAX).expect("of the plain kind");
    assert_eq!(tiles.made(), 0);
    tiles.visit(500, 700, 20, |_| Some(())).expect("inside");
    let around = AROUND * TILE_PX;
    // The look crosses from one group of tiles to the next.
    assert_eq!(tiles.made(), 2 * around * around);
    tiles.announce(1100..1210, 20..100);
    // Columns 17 and 18, rows 0 and 1.
    assert_eq!(tiles.made(), 2 * around * around + 4 * TILE_PX * TILE_PX);
    tiles.announce(2_000..9_000, 1_590..9_000);
    tiles.announce(9_000..9_001, 0..10);
}

/// What is not of the plain kind, cut off or spoilt is left to the decoder.
#[test]
fn other_files_are_not_taken() {
    let picture = picture();
    let plain = encoded(&picture, |_| {});
    assert!(Tiles::new(&plain, 3_000_000).is_none(), "too large");
    let progressive = encoded(&picture, |e| e.set_progressive(true));
    assert!(Tiles::new(&progressive, u64::MAX).is_none());
    // This encoder writes one component after another then.
    let apart = encoded(&picture, |e| e.set_optimized_huffman_tables(true));
    assert!(Tiles::new(&apart, u64::MAX).is_none());
    for part in 1..50 {
        let mut cut = plain[..plain.len() * part / 50].to_vec();
        assert!(Tiles::new(&cut, u64::MAX).is_none(), "cut at {part}");
        cut.extend([0xFF, 0xD9]);
        assert!(
            Tiles::new(&cut, u64::MAX).is_none(),
            "cut and closed at {part}"
        );
    }
    // A picture that the head makes larger than the data are.
    let mut large = plain.clone();
    let at = large
        .windows(2)
        .position(|w| w == [0xFF, 0xC0])
        .expect("a head");
    large[at + 5..at + 9].copy_from_slice(&[0xFF, 0xF0, 0xFF, 0xF0]);
    assert!(Tiles::new(&large, u64::MAX).is_none());
    // Bytes changed anywhere: taken or not, never a panic, and what is taken has all its pixels.
    let mut state = 3_u32;
    for _ in 0..60 {
        let mut spoilt = plain.clone();
        for _ in 0..3 {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let at = state as usize % spoilt.len();
            spoilt[at] ^= 1 << (state >> 29);
        }
        if let Some(tiles) = Tiles::new(&spoilt, u64::MAX) {
            let (width, _) = tiles.size();
            let _ = tiles.visit(0, 0, width, |_| Some(()));
        }
    }
}
