//! Bytes changed at random in sound files: a photo or an error, never a panic, never a hang.
//! In WebAssembly a panic ends the worker, so a dependency's panic counts as ours.

mod support;

use proptest::prelude::*;
use std::sync::LazyLock;
use std::time::{Duration, Instant};
use support::exif::{Exif, Value, ratio, short, text};
use support::files::Picture;
use support::icc::{self, Profile};
use tabside::photo::Photo;

/// Sound files with everything in them that is parsed.
static FILES: LazyLock<Vec<(&str, Vec<u8>)>> = LazyLock::new(|| {
    let exif = Exif::oriented(6)
        .main(0x010F, text("Invented Optics"))
        .exif(0x829A, ratio(1, 125))
        .exif(0xA001, short(65_535))
        .interoperability(1, text("R03"))
        .gps(2, Value::Rational(vec![[48, 1]; 3]))
        .block();
    let scene = Picture::scene().exif(exif);
    let p3 = moxcms::ColorProfile::new_display_p3()
        .encode()
        .expect("ICC");
    let matrix = scene.clone().icc(p3);
    let tables = scene.clone().icc(
        Profile::rgb(2, b"Lab ")
            .tag(b"A2B0", icc::lut16(3, |v| v, |v| v, |v| v))
            .bytes(),
    );
    let a_to_b = scene.clone().icc(mixed_profile());
    vec![
        ("JPEG", matrix.jpeg()),
        ("JPEG with tables", tables.jpeg()),
        ("JPEG with mAB", a_to_b.jpeg()),
        (
            "progressive",
            include_bytes!("support/progressive.jpg").to_vec(),
        ),
        ("PNG", matrix.png()),
        ("PNG with mAB", a_to_b.png()),
        ("TIFF", matrix.tiff(false, vec![(274, short(6))])),
        ("big-endian TIFF", a_to_b.tiff(true, vec![])),
        ("LZW TIFF", scene.tiff_lzw()),
        ("WebP", matrix.webp()),
        ("lossy WebP", include_bytes!("support/lossy.webp").to_vec()),
    ]
});

/// A profile with all that is read: matrix, curves of each kind, tables.
fn mixed_profile() -> Vec<u8> {
    let tables = Profile::rgb(4, b"Lab ").tag(b"A2B0", icc::every_stage().bytes());
    icc::with_matrix_and_curves(tables).bytes()
}

/// Opens it, and reads from it as the rest of the program would.
fn open(name: &str, file: &[u8]) {
    let before = Instant::now();
    match Photo::decode(file) {
        Ok(photo) => {
            let sample = photo.sample(photo.width_px() - 1, photo.height_px() - 1);
            let sample = sample.expect("inside");
            assert!(
                sample.linear_rgb.iter().all(|v| v.is_finite()),
                "{name}: {sample:?}"
            );
            assert!(photo.code_step_linear(0.2).is_finite());
            photo.preview(400);
            photo.reduced_linear(400);
        }
        Err(error) => assert_ne!(error.kind(), "internal", "{name}: {error}"),
    }
    let took = before.elapsed();
    assert!(took < Duration::from_secs(5), "{name} took {took:?}");
}

#[test]
fn unchanged_they_open() {
    for (name, file) in FILES.iter() {
        assert!(Photo::decode(file).is_ok(), "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn changed_bytes(
        which in 0_usize..11,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..=8),
    ) {
        let (name, file) = &FILES[which];
        let mut file = file.clone();
        for (place, byte) in changes {
            let at = place.index(file.len());
            file[at] = byte;
        }
        open(name, &file);
    }

    /// The head of a file holds what parsers trip over.
    #[test]
    fn changed_heads(
        which in 0_usize..11,
        changes in prop::collection::vec((0_usize..400, prop::sample::select(vec![0_u8, 1, 2, 127, 128, 254, 255])), 1..=8),
    ) {
        let (name, file) = &FILES[which];
        let mut file = file.clone();
        for (place, byte) in changes {
            let at = place % file.len();
            file[at] = byte;
        }
        open(name, &file);
    }

    /// A profile changed before it is packed, so that a PNG's checksum does not stop it.
    #[test]
    fn changed_profiles(
        changes in prop::collection::vec((any::<prop::sample::Index>(), prop::sample::select(vec![0_u8, 1, 3, 4, 127, 128, 255])), 1..=8),
        whole in any::<bool>(),
    ) {
        let mut profile = if whole {
            mixed_profile()
        } else {
            Profile::rgb(2, b"Lab ").tag(b"A2B0", icc::lut8(2, |v| v, |v| v, |v| v)).bytes()
        };
        for (place, byte) in changes {
            let at = place.index(profile.len().min(900));
            profile[at] = byte;
        }
        open("profile", &Picture::scene().icc(profile).png());
    }

    #[test]
    fn changed_exif(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..=8),
    ) {
        let mut block = Exif::oriented(6)
            .main(0x010F, text("Invented Optics"))
            .exif(0x829A, ratio(1, 125))
            .exif(0xA001, short(65_535))
            .interoperability(1, text("R03"))
            .block();
        for (place, byte) in changes {
            let at = place.index(block.len());
            block[at] = byte;
        }
        let file = Picture::scene().exif(block).png();
        // The picture itself is whole, whatever EXIF says.
        prop_assert!(Photo::decode(&file).is_ok());
    }

    /// Nothing but noise behind a believable beginning.
    #[test]
    fn noise(kind in 0_usize..5, noise in prop::collection::vec(any::<u8>(), 0..300)) {
        let beginnings: [&[u8]; 5] = [
            b"\xFF\xD8\xFF",
            b"\x89PNG\r\n\x1a\n",
            b"II*\0\x08\0\0\0",
            b"MM\0*\0\0\0\x08",
            b"RIFF\x20\0\0\0WEBPVP8L",
        ];
        open("noise", &[beginnings[kind], &noise].concat());
    }
}
