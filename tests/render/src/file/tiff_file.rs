//! TIFF by the `tiff` crate, 8 or 16 bit, uncompressed, with the ICC profile, maker, model,
//! orientation and date.

use super::Stored;
use crate::spec::SceneSpec;
use tiff::encoder::{TiffEncoder, colortype};
use tiff::tags::Tag;

/// Bytes of a TIFF.
pub fn encode(s: &Stored, spec: &SceneSpec, icc: Option<&[u8]>) -> Result<Vec<u8>, String> {
    let mut cursor = std::io::Cursor::new(Vec::new());
    let say = |e: tiff::TiffError| e.to_string();
    {
        let mut tiff = TiffEncoder::new(&mut cursor).map_err(say)?;
        macro_rules! image {
            ($kind:ty, $data:expr) => {{
                let mut image = tiff.new_image::<$kind>(s.w, s.h).map_err(say)?;
                let e = image.encoder();
                e.write_tag(Tag::Orientation, u16::from(spec.output.orientation))
                    .map_err(say)?;
                if spec.output.exif {
                    let (make, model) = super::exif::maker(spec.camera);
                    e.write_tag(Tag::Make, make).map_err(say)?;
                    e.write_tag(Tag::Model, model).map_err(say)?;
                    e.write_tag(Tag::DateTime, spec.output.date.replace('-', ":").as_str())
                        .map_err(say)?;
                }
                if let Some(icc) = icc {
                    e.write_tag(Tag::IccProfile, icc).map_err(say)?;
                }
                image.write_data($data).map_err(say)?;
            }};
        }
        if spec.output.bits == 16 {
            image!(colortype::RGB16, &s.rgb);
        } else {
            let data: Vec<u8> = s.rgb.iter().map(|v| (*v).min(255) as u8).collect();
            image!(colortype::RGB8, &data);
        }
    }
    Ok(cursor.into_inner())
}
