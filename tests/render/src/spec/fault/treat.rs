//! Faults after the camera.

use super::Fault;
use crate::rng::Rng;
use crate::spec::{Filter, SceneSpec, Space, Treatment, Words};

/// A filter, a digital zoom, or a messenger.
pub(super) fn treatment(spec: &mut SceneSpec, fault: Fault, seed: u64, r: &mut Rng) {
    let mut t = Treatment::default();
    match fault {
        Fault::DigitalZoom => {
            let zoom = r.range(1.5, 4.0);
            t.capture_scale = 1.0 / zoom;
            t.words.digital_zoom = Some((zoom * 100.0).round() / 100.0);
        }
        Fault::Recompressed => {
            let long = spec.width_px.max(spec.height_px);
            if long > 1600 {
                let k = 1600.0 / f64::from(long);
                let scaled = |v: u32| (f64::from(v) * k).round() as u32;
                (spec.width_px, spec.height_px) = (scaled(spec.width_px), scaled(spec.height_px));
                spec.optics.defocus_px_per_mm *= k;
            }
            t.capture_scale = r.range(1.4, 2.0);
            t.first_quality = Some(85 + r.below(8) as u8);
            let o = &mut spec.output;
            o.quality = 40 + r.below(31) as u8;
            o.space = Space::Srgb;
            (o.orientation, o.profile, o.exif, o.chroma_half) = (1, false, false, true);
        }
        _ => {
            let told = !seed.is_multiple_of(2);
            // A curve alone, on every second of those that say nothing of it.
            let curve_alone = seed.is_multiple_of(4);
            t.first_quality = Some(94 + r.below(4) as u8);
            t.filter = Some(Filter {
                contrast: r.range(0.06, 0.10),
                lift: r.range(0.0, 0.05),
                saturation: if curve_alone {
                    1.0
                } else {
                    r.range(1.15, 1.45)
                },
                smooth_mm: if curve_alone || r.chance(0.5) {
                    0.0
                } else {
                    r.range(0.12, 0.25)
                },
            });
            spec.output.quality = 92 + r.below(6) as u8;
            spec.exposure_ev = spec.exposure_ev.min(-0.45);
            if told {
                t.words = Words {
                    software: r.chance(0.6).then(|| "Lumatint Studio 4.2".to_owned()),
                    custom_rendered: 1,
                    scene_capture: r.pick(&[0, 2]),
                    contrast: r.pick(&[0, 2]),
                    saturation: r.pick(&[0, 2]),
                    ..Words::default()
                };
                if t.words.software.is_some() && r.chance(0.5) {
                    t.words.custom_rendered = 0;
                }
            }
        }
    }
    spec.treatment = Some(t);
}
