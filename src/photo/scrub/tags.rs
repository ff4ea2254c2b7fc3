//! Which EXIF and TIFF tags stay (EXIF 2.32, 4.6; TIFF 6.0, part 1), and what those are called that
//! go.

pub const PLACE: &str = "position (GPS)";
pub const SERIALS: &str = "serial numbers and unique marks";
pub const MAKER: &str = "maker's notes";
pub const PEOPLE: &str = "names of people and computers";
pub const REMARKS: &str = "remarks and descriptions";
pub const THUMBNAIL: &str = "thumbnail";
pub const XMP: &str = "XMP metadata";
pub const OTHER: &str = "other metadata";
pub const BEHIND: &str = "data behind the picture";
pub const UNREADABLE: &str = "damaged metadata";

/// Pointers to further directories that stay: EXIF, interoperability, sub-pictures.
pub const DIRECTORIES: [u16; 3] = [0x8769, 0xA005, 0x014A];
/// Pointer to the directory of positions.
pub const PLACES: u16 = 0x8825;

/// Tags about the picture and how it was taken.
pub fn is_capture(tag: u16) -> bool {
    matches!(
        tag,
        // Interoperability
        0x0001 | 0x0002
        // Make, model, orientation, resolution, software, time, YCbCr, white and primaries
        | 0x010F | 0x0110 | 0x0112 | 0x011A | 0x011B | 0x0128 | 0x012D | 0x0131 | 0x0132 | 0x013E | 0x013F
        | 0x0211 | 0x0213 | 0x0214
        // Exposure, aperture, program, sensitivity
        | 0x829A | 0x829D | 0x8822 | 0x8827 | 0x8830..=0x8835
        // Version, times, components
        | 0x9000 | 0x9003 | 0x9004 | 0x9010..=0x9012 | 0x9101 | 0x9102
        // Shutter to focal length, subject area, fractions of seconds
        | 0x9201..=0x920A | 0x9214 | 0x9290..=0x9292
        // Colour space, size, focal plane, sensing, treatment
        | 0xA000..=0xA003 | 0xA20E..=0xA210 | 0xA214 | 0xA215 | 0xA217 | 0xA300..=0xA302 | 0xA401..=0xA40A | 0xA40C
        // Lens: what it can, its maker and model
        | 0xA432..=0xA434 | 0xA500
    ) || DIRECTORIES.contains(&tag)
}

/// Tags that a TIFF file is made of, and its colour profile.
pub fn is_structure(tag: u16) -> bool {
    matches!(tag, 0x00FE..=0x010C | 0x0111..=0x011C | 0x011E..=0x0131 | 0x013D..=0x015B | 0x0200..=0x0214 | 0x8773)
}

/// What a tag that goes is called.
pub fn called(tag: u16) -> &'static str {
    match tag {
        PLACES => PLACE,
        0xA420 | 0xA431 | 0xA435 | 0xC62F => SERIALS,
        0x927C => MAKER,
        0x013B | 0x013C | 0x8298 | 0xA430 => PEOPLE,
        0x010D | 0x010E | 0x011D | 0x9286 | 0x9C9B..=0x9C9F => REMARKS,
        0x02BC => XMP,
        _ => OTHER,
    }
}
