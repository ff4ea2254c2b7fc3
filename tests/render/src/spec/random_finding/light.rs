//! Light, lens and file of `Variety::finding`.

use super::super::random::Variety;
use super::super::random_trust::headroom_ev;
use super::super::*;
use crate::rng::Rng;

pub(super) fn light(spec: &mut SceneSpec, seed: u64) {
    let r = &mut Rng::new(seed, 220);
    let lit = r.pick(&[
        Illuminant::Flash,
        Illuminant::Flash,
        Illuminant::Flash,
        Illuminant::D55,
        Illuminant::D65,
        Illuminant::LedCool,
        Illuminant::LedNeutral,
        Illuminant::F11,
        Illuminant::A,
    ]);
    let make = |az: f64, el: f64, distance_mm: f64, shape: LightShape, power: f64| Light {
        illuminant: lit,
        azimuth_deg: az,
        elevation_deg: el,
        distance_mm,
        shape,
        power,
    };
    spec.lights = match r.unit() {
        // A ring, often close.
        u if u < 0.35 => {
            let (inner, band) = (r.range(22.0, 36.0), r.range(8.0, 18.0));
            vec![make(
                r.range(-3.0, 3.0),
                r.range(-3.0, 3.0),
                r.range(95.0, 230.0),
                LightShape::Ring([inner, inner + band]),
                1.0,
            )]
        }
        // Twin heads or panels.
        u if u < 0.70 => {
            let (az, el) = (r.range(18.0, 48.0), r.range(-4.0, 16.0));
            let d = r.range(130.0, 320.0);
            let half = LightShape::Panel([r.range(8.0, 40.0), r.range(12.0, 50.0)]);
            let tilt = r.range(-0.2, 0.2);
            vec![
                make(-az, el, d, half, 0.5 + tilt),
                make(
                    az + r.range(-8.0, 8.0),
                    el + r.range(-5.0, 5.0),
                    d,
                    half,
                    0.5 - tilt,
                ),
            ]
        }
        // The small flash of a telephone, near the lens.
        u if u < 0.82 => vec![make(
            r.range(-4.0, 4.0),
            r.range(-3.0, 5.0),
            r.range(110.0, 220.0),
            LightShape::Panel([r.range(1.5, 4.0), r.range(1.5, 4.0)]),
            1.0,
        )],
        // One broad light: a surgery's lamp or a window.
        _ => vec![make(
            r.range(-35.0, 35.0),
            r.range(5.0, 40.0),
            r.range(350.0, 800.0),
            LightShape::Panel([r.range(50.0, 130.0), r.range(40.0, 110.0)]),
            1.0,
        )],
    };
    let mixed = r.chance(0.3);
    spec.ambient = Some(Ambient {
        illuminant: if mixed {
            r.pick(&[Illuminant::F11, Illuminant::LedNeutral, Illuminant::A])
        } else {
            lit
        },
        share: r.range(0.05, if mixed { 0.22 } else { 0.35 }),
    });
    let own = [1.0 + 0.07 * r.normal(), 1.0, 1.0 + 0.08 * r.normal()];
    spec.white_balance = match lit {
        // Left at daylight, or half-way: strong casts.
        Illuminant::A | Illuminant::F11 if r.chance(0.6) => {
            WhiteBalance::Preset(r.pick(&[Illuminant::D55, Illuminant::Planck(4200.0)]))
        }
        _ => match r.unit() {
            u if u < 0.3 => WhiteBalance::Right,
            u if u < 0.65 => WhiteBalance::OffBy(own),
            u if u < 0.82 => WhiteBalance::GreyWorld(r.range(0.1, 0.6)),
            _ => WhiteBalance::Preset(Illuminant::Planck(5500.0 * (0.28 * r.normal()).exp())),
        },
    };
    let glossy = r.chance(0.35);
    spec.teeth_gloss = if glossy {
        r.range(1.2, 2.0)
    } else {
        r.range(0.7, 1.1)
    };
    spec.glare = if glossy {
        r.range(1.0, 1.9)
    } else {
        r.range(0.3, 1.1)
    };
}

pub(super) fn camera(spec: &mut SceneSpec, seed: u64, v: &Variety) {
    let r = &mut Rng::new(seed, 221);
    let room = headroom_ev(spec);
    spec.exposure_ev = match r.unit() {
        u if u < 0.13 => r.range(-3.0, -1.3),
        u if u < 0.30 => r.range(-1.2, 0.2).min(room),
        u if u < 0.88 => room.min(0.4) + r.range(-0.5, 0.0),
        // Blown highlights.
        _ => room.clamp(-0.5, 0.4) + r.range(0.1, 0.6),
    };
    spec.tone = r.pick(&[Tone::Tagged, Tone::Punchy, Tone::Lifted, Tone::Filmic]);
    let s = f64::from(v.size_px[0]) / 1500.0;
    let o = &mut spec.optics;
    o.blur_px = s * if r.chance(0.2) {
        r.range(1.5, 3.2)
    } else {
        r.range(0.35, 1.2)
    };
    o.defocus_px_per_mm = s * r.range(0.05, 0.5);
    o.focus_z_mm = r.range(-4.0, 3.0);
    o.vignetting = if r.chance(0.3) {
        r.range(0.12, 0.4)
    } else {
        r.range(0.0, 0.12)
    };
    o.veil = r.range(0.001, 0.02);
    o.full_well_electrons = 25_000.0 * r.range(-3.2, 0.4).exp();
    o.read_noise_electrons = r.range(3.0, 12.0);
    o.sharpening = r.range(0.0, 0.9);
    if r.chance(0.08) {
        o.shake = Some(Shake {
            length_mm: r.range(0.2, 0.9),
            direction_deg: r.range(0.0, 180.0),
        });
    }
    let out = &mut spec.output;
    out.quality = 55 + r.below(41) as u8;
    out.chroma_half = r.chance(0.75);
    out.space = r.pick(&[Space::Srgb, Space::Srgb, Space::DisplayP3]);
    out.orientation = 1 + r.below(8) as u8;
    (out.profile, out.exif, out.format, out.bits) = (true, true, Format::Jpeg, 8);
    if v.pair {
        return;
    }
    spec.pair = None;
}
