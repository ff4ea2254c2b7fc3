//! A small EXIF block (big-endian TIFF structure, EXIF 2.32). Make and model are invented; no
//! place, no serial numbers.

use crate::spec::{Camera, SceneSpec, Space, WhiteBalance};

enum Value {
    Ascii(String),
    Short(u16),
    Long(u32),
    Ratio(u32, u32),
    Bytes4([u8; 4]),
}

/// Invented maker and model of a camera.
pub fn maker(camera: Camera) -> (&'static str, &'static str) {
    match camera {
        Camera::One => ("Ferncourt", "Ferncourt FC-6 Macro"),
        Camera::Two => ("Ostrell", "Ostrell M2"),
        Camera::Three => ("Ferncourt", "Ferncourt FC-3"),
    }
}

/// The TIFF structure, without the `Exif\0\0` of JPEG.
pub fn block(spec: &SceneSpec, width_px: u32, height_px: u32) -> Vec<u8> {
    let (make, model) = maker(spec.camera);
    let date = spec.output.date.replace('-', ":");
    let flash = spec
        .lights
        .iter()
        .any(|l| matches!(l.illuminant, crate::illuminant::Illuminant::Flash));
    // Gains set by hand or by a preset count as manual.
    let manual = !matches!(spec.white_balance, WhiteBalance::GreyWorld(_));
    let iso = (2.0e6 / spec.optics.full_well_electrons.max(1.0))
        .round()
        .clamp(50.0, 12800.0) as u16;
    let first = vec![
        (0x010f, Value::Ascii(make.into())),
        (0x0110, Value::Ascii(model.into())),
        (0x0112, Value::Short(u16::from(spec.output.orientation))),
        (0x011a, Value::Ratio(300, 1)),
        (0x011b, Value::Ratio(300, 1)),
        (0x0128, Value::Short(2)),
        (0x0132, Value::Ascii(date.clone())),
        (0x0213, Value::Short(1)),
        (0x8769, Value::Long(0)),
    ];
    let second = vec![
        (0x829a, Value::Ratio(1, 160)),
        (0x829d, Value::Ratio(22, 1)),
        (0x8822, Value::Short(1)),
        (0x8827, Value::Short(iso)),
        (0x9000, Value::Bytes4(*b"0232")),
        (0x9003, Value::Ascii(date)),
        (0x9207, Value::Short(3)),
        (0x9209, Value::Short(if flash { 9 } else { 16 })),
        (0x920a, Value::Ratio(100, 1)),
        (0xa000, Value::Bytes4(*b"0100")),
        (
            0xa001,
            Value::Short(if spec.output.space == Space::Srgb {
                1
            } else {
                0xffff
            }),
        ),
        (0xa002, Value::Long(width_px)),
        (0xa003, Value::Long(height_px)),
        (0xa402, Value::Short(1)),
        (0xa403, Value::Short(u16::from(manual))),
    ];
    let (mut first, mut second) = (first, second);
    if let Some(t) = &spec.treatment {
        let w = &t.words;
        if let Some(software) = &w.software {
            first.push((0x0131, Value::Ascii(software.clone())));
        }
        for (tag, v) in [
            (0xa406, w.scene_capture),
            (0xa408, w.contrast),
            (0xa409, w.saturation),
            (0xa40a, w.sharpness),
        ] {
            if v != 0 {
                second.push((tag, Value::Short(v)));
            }
        }
        if w.custom_rendered != 0 {
            second.push((0xa401, Value::Short(w.custom_rendered)));
        }
        if let Some(zoom) = w.digital_zoom {
            second.push((0xa404, Value::Ratio((zoom * 100.0).round() as u32, 100)));
        }
        // Directories are in the order of their tags.
        first.sort_by_key(|(tag, _)| *tag);
        second.sort_by_key(|(tag, _)| *tag);
    }
    let mut out = b"MM\0*\0\0\0\x08".to_vec();
    let after = 8 + size(&first);
    let first = first
        .into_iter()
        .map(|(t, v)| {
            if t == 0x8769 {
                (t, Value::Long(after as u32))
            } else {
                (t, v)
            }
        })
        .collect::<Vec<_>>();
    directory(&mut out, &first);
    directory(&mut out, &second);
    out
}

fn extra(v: &Value) -> usize {
    match v {
        Value::Ascii(s) if s.len() + 1 > 4 => (s.len() + 1).next_multiple_of(2),
        Value::Ratio(..) => 8,
        _ => 0,
    }
}

fn size(entries: &[(u16, Value)]) -> usize {
    6 + 12 * entries.len() + entries.iter().map(|(_, v)| extra(v)).sum::<usize>()
}

fn directory(out: &mut Vec<u8>, entries: &[(u16, Value)]) {
    let mut data_at = out.len() + 6 + 12 * entries.len();
    let mut data = Vec::new();
    out.extend((entries.len() as u16).to_be_bytes());
    for (tag, value) in entries {
        out.extend(tag.to_be_bytes());
        let (kind, count, mut inline): (u16, u32, Vec<u8>) = match value {
            Value::Ascii(s) => (2, s.len() as u32 + 1, [s.as_bytes(), &[0]].concat()),
            Value::Short(v) => (3, 1, v.to_be_bytes().to_vec()),
            Value::Long(v) => (4, 1, v.to_be_bytes().to_vec()),
            Value::Ratio(a, b) => (5, 1, [a.to_be_bytes(), b.to_be_bytes()].concat()),
            Value::Bytes4(b) => (7, 4, b.to_vec()),
        };
        out.extend(kind.to_be_bytes());
        out.extend(count.to_be_bytes());
        if inline.len() > 4 {
            if inline.len() % 2 == 1 {
                inline.push(0);
            }
            out.extend((data_at as u32).to_be_bytes());
            data_at += inline.len();
            data.extend(inline);
        } else {
            inline.resize(4, 0);
            out.extend(inline);
        }
    }
    out.extend(0u32.to_be_bytes());
    out.extend(data);
}
