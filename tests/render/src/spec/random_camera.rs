//! Random lights, lenses, balances and files.

use super::random::Variety;
use super::*;
use crate::rng::Rng;

pub(super) fn lights(seed: u64, v: &Variety) -> (Vec<Light>, Option<Ambient>) {
    let r = &mut Rng::new(seed, 20);
    let lit = if r.chance(0.55 - 0.15 * v.light) {
        Illuminant::Flash
    } else {
        r.pick(&[
            Illuminant::D55,
            Illuminant::D65,
            Illuminant::D50,
            Illuminant::LedCool,
            Illuminant::LedNeutral,
        ])
    };
    let panel = |az: f64, el: f64, d: f64, half: [f64; 2], power: f64| Light {
        illuminant: lit,
        azimuth_deg: az,
        elevation_deg: el,
        distance_mm: d,
        shape: LightShape::Panel(half),
        power,
    };
    let kind = r.below(4);
    let lights = match kind {
        // Two heads at the lens.
        0 | 1 => {
            let (az, el, d) = (
                r.range(20.0, 42.0),
                r.range(0.0, 12.0),
                r.range(190.0, 320.0),
            );
            let half = [r.range(10.0, 34.0), r.range(18.0, 44.0)];
            let tilt = r.range(-0.10, 0.10) * (0.5 + v.light);
            vec![
                panel(-az, el, d, half, 0.5 + tilt),
                panel(
                    az + r.range(-4.0, 4.0),
                    el + r.range(-3.0, 3.0),
                    d,
                    half,
                    0.5 - tilt,
                ),
            ]
        }
        // A ring.
        2 => vec![Light {
            illuminant: lit,
            azimuth_deg: r.range(-2.0, 2.0),
            elevation_deg: r.range(-2.0, 2.0),
            distance_mm: r.range(160.0, 260.0),
            shape: LightShape::Ring([r.range(26.0, 34.0), r.range(40.0, 52.0)]),
            power: 1.0,
        }],
        // One broad light from above.
        _ => vec![panel(
            r.range(-9.0, 9.0) * (1.0 + v.light),
            r.range(6.0, 12.0 + 12.0 * v.light),
            r.range(350.0, 700.0),
            [r.range(60.0, 120.0), r.range(40.0, 90.0)],
            1.0,
        )],
    };
    let mixed = r.chance(0.25 + 0.4 * v.light);
    let ambient = Some(Ambient {
        illuminant: if mixed {
            r.pick(&[
                Illuminant::F11,
                Illuminant::LedNeutral,
                Illuminant::D65,
                Illuminant::A,
            ])
        } else {
            lit
        },
        share: if mixed {
            r.range(0.04, 0.06 + 0.18 * v.light)
        } else {
            r.range(0.08, 0.28)
        },
    });
    (lights, ambient)
}

pub(super) fn white_balance(seed: u64, v: &Variety) -> WhiteBalance {
    let r = &mut Rng::new(seed, 21);
    match r.below(4) {
        0 => WhiteBalance::Right,
        1 => WhiteBalance::Preset(Illuminant::Planck(
            5500.0 * (0.20 * v.light * r.normal()).exp(),
        )),
        2 => WhiteBalance::GreyWorld(r.range(0.05, 0.15 + 0.35 * v.light)),
        _ => WhiteBalance::OffBy([1.0 + 0.06 * r.normal(), 1.0, 1.0 + 0.07 * r.normal()]),
    }
}

pub(super) fn tone(seed: u64, v: &Variety) -> Tone {
    if v.tones {
        Rng::new(seed, 22).pick(&[Tone::Tagged, Tone::Tagged, Tone::Punchy, Tone::Lifted])
    } else {
        Tone::Tagged
    }
}

pub(super) fn optics(seed: u64, v: &Variety) -> Optics {
    let r = &mut Rng::new(seed, 23);
    let s = f64::from(v.size_px[0]) / 3600.0;
    Optics {
        blur_px: r.range(0.35, 0.6 + 0.5 * v.geometry) * s.sqrt().max(0.6),
        defocus_px_per_mm: r.range(0.2, 1.1) * s,
        focus_z_mm: r.range(-2.0, 0.5),
        vignetting: r.range(0.0, 0.04 + 0.08 * v.light),
        veil: r.range(0.001, 0.006),
        full_well_electrons: 20_000.0 * r.range(-2.2, 0.4).exp(),
        read_noise_electrons: r.range(3.0, 9.0),
        sharpening: r.range(0.0, 0.7),
        shake: None,
    }
}

pub(super) fn output(seed: u64, v: &Variety) -> Output {
    let r = &mut Rng::new(seed, 24);
    let mut out = Output {
        space: Space::Srgb,
        format: Format::Jpeg,
        quality: 82 + r.below(15) as u8,
        chroma_half: r.chance(0.7),
        bits: 8,
        orientation: 1,
        profile: true,
        exif: true,
        date: format!(
            "2031-{:02}-{:02} {:02}:{:02}:{:02}",
            1 + r.below(12),
            1 + r.below(28),
            8 + r.below(10),
            r.below(60),
            r.below(60)
        ),
    };
    if v.files {
        out.space = r.pick(&[Space::Srgb, Space::Srgb, Space::DisplayP3, Space::AdobeRgb]);
        out.format = r.pick(&[
            Format::Jpeg,
            Format::Jpeg,
            Format::Jpeg,
            Format::Png,
            Format::Tiff,
        ]);
        out.bits = if out.format != Format::Jpeg && r.chance(0.5) {
            16
        } else {
            8
        };
        out.orientation = r.pick(&[1u8, 1, 1, 3, 6, 8, 2, 5]);
        // Without its profile a wide space would lie about its colours.
        out.profile = out.space != Space::Srgb || r.chance(0.6);
        out.exif = out.orientation != 1 || r.chance(0.8);
    }
    out
}
