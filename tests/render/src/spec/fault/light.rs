//! Faults of the light and of surfaces.

use super::Fault;
use super::card::plain_card;
use super::sound::relight;
use crate::illuminant::Illuminant;
use crate::rng::Rng;
use crate::spec::random_trust::headroom_ev;
use crate::spec::{Ambient, Light, LightShape, SceneSpec, WhiteBalance};

/// Uneven, mixed, or far from the camera's balance.
pub(super) fn light(spec: &mut SceneSpec, fault: Fault, r: &mut Rng) {
    let side = r.pick(&[-1.0, 1.0]);
    let lit = spec
        .lights
        .first()
        .map_or(Illuminant::Flash, |l| l.illuminant);
    let panel = |illuminant, az: f64, el: f64, d: f64, half: [f64; 2], power| Light {
        illuminant,
        azimuth_deg: az,
        elevation_deg: el,
        distance_mm: d,
        shape: LightShape::Panel(half),
        power,
    };
    let margin = match fault {
        Fault::LightUneven => {
            spec.lights = vec![panel(
                lit,
                side * r.range(36.0, 54.0),
                r.range(2.0, 12.0),
                r.range(105.0, 180.0),
                [r.range(9.0, 14.0), r.range(12.0, 18.0)],
                1.0,
            )];
            spec.ambient = Some(Ambient {
                illuminant: lit,
                share: r.range(0.05, 0.10),
            });
            0.6
        }
        Fault::LightMixed => {
            let warm = r.pick(&[Illuminant::A, Illuminant::Planck(2700.0), Illuminant::F11]);
            let cold = r.pick(&[Illuminant::D65, Illuminant::Planck(7500.0)]);
            // A window and a lamp that stands near.
            spec.lights = vec![
                panel(
                    cold,
                    -side * r.range(55.0, 65.0),
                    r.range(0.0, 12.0),
                    600.0,
                    [150.0, 200.0],
                    0.5,
                ),
                panel(
                    warm,
                    side * r.range(50.0, 60.0),
                    r.range(0.0, 10.0),
                    r.range(110.0, 150.0),
                    [r.range(10.0, 18.0), r.range(12.0, 20.0)],
                    r.range(0.45, 0.6),
                ),
            ];
            spec.ambient = Some(Ambient {
                illuminant: cold,
                share: 0.05,
            });
            spec.white_balance = WhiteBalance::Right;
            0.6
        }
        _ => {
            relight(spec, Illuminant::Planck(r.range(2700.0, 3200.0)));
            spec.white_balance = WhiteBalance::Preset(Illuminant::Planck(r.range(5600.0, 8000.0)));
            plain_card(spec, 0.30);
            0.0
        }
    };
    spec.exposure_ev = spec.exposure_ev.min(headroom_ev(spec) - margin);
}

/// Even seeds: dry, dull tabs beside wet teeth. Odd seeds: tabs in another plane, lamps near.
pub(super) fn surface(spec: &mut SceneSpec, seed: u64, r: &mut Rng) {
    if seed.is_multiple_of(2) {
        spec.teeth_gloss = r.range(2.0, 2.8);
        spec.glare = r.range(1.1, 1.4);
        for t in &mut spec.tabs {
            t.gloss = r.range(0.03, 0.12);
        }
    } else {
        let z = r.range(8.0, 15.0) * r.pick(&[-1.0, 1.0]);
        for t in &mut spec.tabs {
            t.z_mm = z;
            t.scale *= 1.0 + z / 380.0;
        }
        let near = r.range(125.0, 165.0);
        for l in &mut spec.lights {
            let k = near / l.distance_mm;
            l.distance_mm = near;
            l.shape = match l.shape {
                LightShape::Panel(half) => LightShape::Panel(half.map(|v| (v * k).max(8.0))),
                LightShape::Ring(radii) => LightShape::Ring(radii.map(|v| v * k)),
            };
        }
        spec.exposure_ev = spec.exposure_ev.min(headroom_ev(spec) - 0.3);
    }
}
