//! The photos that faults are added to: the milder side of `Variety::trust`.

use crate::illuminant::Illuminant;
use crate::rng::Rng;
use crate::spec::random_trust::headroom_ev;
use crate::spec::{SceneSpec, Variety, WhiteBalance};

/// The sound photo of a seed.
pub fn sound(seed: u64, size_px: [u32; 2], pair: bool) -> SceneSpec {
    let variety = Variety {
        size_px,
        pair,
        geometry: 0.1,
        light: 0.2,
        ..Variety::trust()
    };
    let mut spec = SceneSpec::random(seed, &variety);
    let r = &mut Rng::new(seed, 50);
    let lit = r.pick(&[
        Illuminant::D65,
        Illuminant::D55,
        Illuminant::D50,
        Illuminant::Flash,
        Illuminant::Flash,
        Illuminant::LedCool,
        Illuminant::LedNeutral,
    ]);
    relight(&mut spec, lit);
    for l in &mut spec.lights {
        l.distance_mm = l.distance_mm.max(230.0);
    }
    if let Some(a) = &mut spec.ambient {
        a.share = r.range(0.10, 0.25);
    }
    spec.white_balance = if r.chance(0.5) {
        WhiteBalance::Right
    } else {
        WhiteBalance::OffBy([1.0 + 0.04 * r.normal(), 1.0, 1.0 + 0.05 * r.normal()])
    };
    spec.optics.vignetting = r.range(0.0, 0.05);
    spec.optics.full_well_electrons = r.range(9_000.0, 30_000.0);
    spec.optics.sharpening = r.range(0.0, 0.5);
    spec.optics.blur_px = spec.optics.blur_px.min(0.7);
    spec.glare = r.range(0.6, 1.0);
    spec.output.quality = 85 + r.below(11) as u8;
    for t in &mut spec.teeth {
        t.missing = false;
    }
    for t in &mut spec.tabs {
        t.tilt_deg = t.tilt_deg.map(|v| v.clamp(-3.0, 3.0));
    }
    if let Some(card) = &mut spec.card {
        card.tilt_deg = card.tilt_deg.map(|v| v * 0.5);
    }
    spec.exposure_ev = r.range(-0.7, -0.05).min(headroom_ev(&spec));
    spec
}

/// The same light from everywhere.
pub(super) fn relight(spec: &mut SceneSpec, lit: Illuminant) {
    for l in &mut spec.lights {
        l.illuminant = lit;
    }
    if let Some(a) = &mut spec.ambient {
        a.illuminant = lit;
    }
}
