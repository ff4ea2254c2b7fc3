//! Photos drawn pixel by pixel, for the tests of these modules.

use crate::photo::Photo;
use image::{ExtendedColorType, ImageEncoder, codecs::png::PngEncoder};

/// A grey photo of sRGB codes by column and row.
pub fn grey_photo(width: u32, height: u32, code: impl Fn(u32, u32) -> u8) -> Photo {
    let mut rgb = Vec::new();
    for y in 0..height {
        for x in 0..width {
            rgb.extend([code(x, y); 3]);
        }
    }
    let mut png = Vec::new();
    PngEncoder::new(&mut png)
        .write_image(&rgb, width, height, ExtendedColorType::Rgb8)
        .expect("a PNG");
    Photo::decode(&png).expect("a photo")
}
