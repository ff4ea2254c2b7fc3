//! Photos, and the parts of them that are parsed by themselves.

use crate::wrap::png_with;
use tabside::photo::{Photo, scrub as scrubbing};

/// A photo's bytes: decoded, and read from as the rest of the program would.
pub fn photo(bytes: &[u8]) {
    match Photo::decode(bytes) {
        Ok(photo) => look(&photo),
        Err(error) => assert_ne!(error.kind(), "internal", "{error}"),
    }
}

fn look(photo: &Photo) {
    let (width, height) = (photo.width_px(), photo.height_px());
    for (x, y) in [(0, 0), (width / 2, height / 2), (width - 1, height - 1)] {
        let sample = photo.sample(x, y).expect("inside");
        assert!(
            sample.linear_rgb.iter().all(|v| v.is_finite()),
            "{sample:?}"
        );
    }
    assert!(photo.sample(width, 0).is_none());
    assert!(photo.code_step_linear(0.2).is_finite());
    let camera = &photo.info().facts.camera;
    assert!(camera.as_ref().is_none_or(|c| c.chars().count() <= 201));
    // A file of a few bytes may say that it is 100 megapixels large; small pictures of such are
    // made from all of them, and that takes its time.
    if u64::from(width) * u64::from(height) <= 1 << 20 {
        photo.preview(64);
        photo.glimpse(64);
        photo.preview_strip(64, 0);
        photo.reduced_linear(64);
    }
}

/// A block of EXIF, in a PNG of one pixel.
pub fn exif(block: &[u8]) {
    photo(&png_with(b"eXIf", block));
}

/// A profile, in a PNG of one pixel.
pub fn icc(bytes: &[u8]) {
    let mut chunk = b"profile\0\0".to_vec();
    chunk.extend(miniz_oxide::deflate::compress_to_vec_zlib(bytes, 0));
    photo(&png_with(b"iCCP", &chunk));
}

/// What is left of a photo when its private metadata is taken out is the same picture.
pub fn scrub(bytes: &[u8]) {
    let Ok(freed) = scrubbing::scrub(bytes) else {
        return;
    };
    let size = |bytes: &[u8]| {
        Photo::decode(bytes)
            .ok()
            .map(|p| (p.width_px(), p.height_px()))
    };
    if let Some(before) = size(bytes) {
        assert_eq!(size(&freed.bytes), Some(before));
    }
}
