//! JPEG files of which a part is gone: whatever their kind, they are refused.

mod support;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use support::files::Picture;
use tabside::photo::Photo;

/// Made with an image library from the same picture as [`Picture::scene`]: progressive, 4:4:4.
const PROGRESSIVE: &[u8] = include_bytes!("support/progressive.jpg");
/// Of another computed picture, by another encoder: restarts, and bits that come later.
const RESTARTS: &[u8] = include_bytes!("support/progressive_restart.jpg");
/// The same in grey, without restarts.
const GREY: &[u8] = include_bytes!("support/progressive_grey.jpg");

/// JPEG files of every kind that is read, made by three encoders.
fn jpegs() -> Vec<(&'static str, Vec<u8>)> {
    let encoded = |colour: ColorType, set: fn(&mut Encoder<&mut Vec<u8>>)| {
        let (width, height) = (323, 241);
        let channels = if colour == ColorType::Luma { 1 } else { 3 };
        let codes: Vec<u8> = (0..width * height * channels)
            .map(|i: u32| {
                let (x, y) = (i / channels % width, i / channels / width);
                let noise = i.wrapping_mul(2_654_435_761) >> 28;
                (40 + x * 90 / width + 60 * (x / 29 % 2) + y / 8 + noise) as u8
            })
            .collect();
        let mut file = Vec::new();
        let mut encoder = Encoder::new(&mut file, 85);
        set(&mut encoder);
        encoder
            .encode(&codes, width as u16, height as u16, colour)
            .expect("encoded");
        file
    };
    vec![
        ("small", Picture::scene().jpeg()),
        ("plain", encoded(ColorType::Rgb, |_| {})),
        (
            "restarts",
            encoded(ColorType::Rgb, |e| e.set_restart_interval(7)),
        ),
        (
            "half down",
            encoded(ColorType::Rgb, |e| {
                e.set_sampling_factor(SamplingFactor::F_1_2);
            }),
        ),
        ("grey", encoded(ColorType::Luma, |_| {})),
        (
            "progressive by range",
            encoded(ColorType::Rgb, |e| e.set_progressive(true)),
        ),
        (
            "progressive by range, with restarts",
            encoded(ColorType::Rgb, |e| {
                e.set_progressive(true);
                e.set_restart_interval(5);
                e.set_sampling_factor(SamplingFactor::F_2_2);
            }),
        ),
        ("progressive, small", PROGRESSIVE.to_vec()),
        ("progressive, with restarts", RESTARTS.to_vec()),
        ("progressive, grey", GREY.to_vec()),
    ]
}

/// A copy that was cut off and then closed with an end mark, as recovery tools do: decoders fill
/// what is missing with something, and it would be read as a colour.
#[test]
fn cut_off_and_closed_again() {
    for (name, file) in jpegs() {
        Photo::decode(&file).expect(name);
        for share in 1..100 {
            let mut cut = file[..file.len() * share / 100].to_vec();
            cut.extend([0xFF, 0xD9]);
            let Err(error) = Photo::decode(&cut) else {
                panic!("{name}: it opened, cut at {share} %");
            };
            assert_eq!(error.kind(), "file-damaged", "{name}, {share} %: {error}");
        }
    }
}

/// A piece out of the middle. Of a progressive file the last bits may come out even by chance: what
/// opens then has every block's mean as it was, and with it the colour of every third.
#[test]
fn a_piece_is_missing() {
    for (name, file) in jpegs() {
        let from = file.len() / 3;
        let whole = block_means(&Photo::decode(&file).expect(name));
        let (mut opened, mut most) = (0, 0.0_f64);
        for i in 0..100 {
            let at = from + (file.len() - from - 80) * i / 100;
            if let Ok(photo) = Photo::decode(&[&file[..at], &file[at + 40..]].concat()) {
                opened += 1;
                let means = block_means(&photo);
                let off = means.iter().zip(&whole).map(|(a, b)| (a - b).abs());
                most = off.fold(most, f64::max);
            }
        }
        println!("{name}: {opened} of 100 opened, a block off by {most:.4} at most");
        if name.contains("progressive") {
            assert!(
                opened <= 50 && most < 0.01,
                "{name}: {opened}, off by {most}"
            );
        } else {
            assert!(opened <= 2, "{name}: {opened} of 100 opened");
        }
    }
}

/// The mean of green light in each block of 8 × 8 pixels, of 1.
fn block_means(photo: &Photo) -> Vec<f64> {
    let (w, h) = (photo.width_px() / 8, photo.height_px() / 8);
    (0..w * h)
        .map(|block| {
            let (x, y) = (8 * (block % w), 8 * (block / w));
            let light = (0..64).map(|i| photo.sample(x + i % 8, y + i / 8));
            light
                .flatten()
                .map(|s| f64::from(s.linear_rgb[1]))
                .sum::<f64>()
                / 64.0
        })
        .collect()
}

/// What cameras and programs write beside the standard's words, without harm.
#[test]
fn padding_is_no_damage() {
    for (name, file) in jpegs() {
        for padding in [&[0xFF][..], &[0xFF, 0xFF, 0xFF], &[0, 0, 0, 0]] {
            let (picture, end) = file.split_at(file.len() - 2);
            let photo = Photo::decode(&[picture, padding, end].concat()).expect(name);
            let whole = Photo::decode(&file).expect(name);
            let (w, h) = (whole.width_px(), whole.height_px());
            let all = (0..h).flat_map(|y| (0..w).map(move |x| (x, y)));
            for (x, y) in all.step_by(101) {
                assert_eq!(
                    photo.sample(x, y).map(|s| s.linear_rgb),
                    whole.sample(x, y).map(|s| s.linear_rgb),
                    "{name}"
                );
            }
        }
    }
}
