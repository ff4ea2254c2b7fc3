//! Every way in for bytes that a stranger made. Each door takes any bytes at all and has to come
//! back: with a result or with words, never with a panic.
//!
//! `tests/short_run.rs` goes through them with seeds, found cases and seeded changes; the program
//! in `tests/fuzz` has them searched by libFuzzer (`cargo xtask fuzz`).

mod case;
mod pictures;
mod texts;
mod wrap;

/// A way in.
pub struct Door {
    /// Its name; regression files of it lie in `regressions/NAME`.
    pub name: &'static str,
    /// Takes the bytes.
    pub enter: fn(&[u8]),
    /// Whether code with `unsafe` inside (decoders of others) works on the bytes: such doors are
    /// searched with the address sanitizer.
    pub decoder: bool,
    /// More bytes add nothing but time.
    pub most_bytes: usize,
}

const fn door(name: &'static str, enter: fn(&[u8]), decoder: bool, most_bytes: usize) -> Door {
    Door {
        name,
        enter,
        decoder,
        most_bytes,
    }
}

/// All of them.
pub const DOORS: &[Door] = &[
    door("photo", pictures::photo, true, 1 << 14),
    door("exif", pictures::exif, false, 1 << 12),
    door("icc", pictures::icc, false, 1 << 13),
    door("scrub", pictures::scrub, false, 1 << 13),
    door("scene", texts::scene, false, 1 << 12),
    door("guide", texts::guide, false, 1 << 12),
    door("swatches", texts::swatches, false, 1 << 12),
    door("plan", texts::plan, false, 1 << 12),
    door("report", texts::report, false, 1 << 14),
    door("csv", texts::csv, false, 1 << 12),
    door("cgats", texts::cgats, false, 1 << 12),
    door("case", case::archive, false, 1 << 14),
    door("case_text", case::text, false, 1 << 13),
    door("envelope", case::envelope, false, 1 << 12),
];

/// The door of a name.
pub fn named(name: &str) -> Option<&'static Door> {
    DOORS.iter().find(|d| d.name == name)
}
