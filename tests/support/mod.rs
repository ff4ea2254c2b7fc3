//! Helpers for the tests of photos: small files made in memory, every byte of them on purpose.

#![allow(
    dead_code,
    reason = "every test binary compiles this module and uses part of it"
)]

pub mod case;
pub mod chunks;
pub mod exif;
pub mod files;
pub mod icc;
pub mod own_tabs;
pub mod zip;

/// A small generator of even numbers (Knuth's MMIX constants), so that "random" codes are the
/// same on every run.
pub struct Dice(pub u64);

impl Dice {
    /// The next 32 bits.
    pub fn next(&mut self) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 32) as u32
    }

    /// A 16-bit code.
    pub fn code(&mut self) -> u16 {
        self.next() as u16
    }
}

/// The codes of the checks of a photo, as the JSON shows them.
pub fn codes(photo: &tabside::photo::Photo) -> Vec<String> {
    photo
        .checks()
        .iter()
        .filter_map(|c| {
            serde_json::to_value(c.code)
                .ok()?
                .as_str()
                .map(str::to_owned)
        })
        .collect()
}
