//! How each fault is made.

use super::Fault;
use super::card::{card, plain_card};
use super::light::{light, surface};
use super::names::wrong_name;
use super::sound::sound;
use super::treat::treatment;
use crate::rng::Rng;
use crate::spec::random_trust::{cast, later_date, luminance};
use crate::spec::{SceneSpec, Shadow, Shake};

/// A faulty photo before it is rendered.
pub struct Made {
    /// The scene as it is.
    pub spec: SceneSpec,
    /// What the scene says of the card's steps, where that is not the truth.
    pub claimed_lab: Option<Vec<[f64; 3]>>,
    /// A tab (by place in `spec.tabs`) and the name it goes by.
    pub wrong_name: Option<(usize, &'static str)>,
    /// Whose cross-polarised photo is taken for this one's.
    pub polarised_of: Option<SceneSpec>,
}

/// The scene of a fault.
pub fn spec_of(fault: Fault, seed: u64, size_px: [u32; 2]) -> Made {
    let pair = matches!(fault, Fault::PairMisaligned | Fault::PairTimes);
    let tabs_needed = match fault {
        Fault::TabContradicts | Fault::CardNotNeutral => 4,
        _ => 2,
    };
    let base = (0..64)
        .map(|k| sound(seed.wrapping_add(k * 1_000_003), size_px, pair))
        .find(|s| s.tabs.len() >= tabs_needed);
    let mut made = Made {
        spec: base.unwrap_or_else(|| sound(seed, size_px, pair)),
        claimed_lab: None,
        wrong_name: None,
        polarised_of: None,
    };
    let r = &mut Rng::new(seed, 60 + fault as u64);
    let spec = &mut made.spec;
    match fault {
        Fault::CardMissing => spec.card = None,
        Fault::CardClipped
        | Fault::CardDark
        | Fault::CardTilted
        | Fault::CardTextured
        | Fault::CardNotNeutral => made.claimed_lab = card(spec, fault, seed, r),
        Fault::ToothClipped => {
            plain_card(spec, 0.184);
            let tooth = brightest_tooth(spec);
            let level = r.range(1.45, 1.75);
            spec.exposure_ev = (level / (0.90 * tooth * cast(spec))).log2();
        }
        Fault::ToothDark => {
            plain_card(spec, 0.184);
            // Down to just above the tabs: a lip or a hand keeps the light off.
            for t in &mut spec.tabs {
                t.edge_mm[1] += 1.3;
            }
            let low = spec.tabs.iter().map(|t| t.edge_mm[1]).fold(2.0, f64::min);
            spec.shadows.push(Shadow {
                centre_mm: [0.0, low - 40.4],
                half_mm: [90.0, 40.0],
                turn_deg: 0.0,
                soft_mm: 0.8,
                passes: r.range(0.02, 0.05),
            });
        }
        Fault::ToothSmall => {
            plain_card(spec, 0.184);
            if let Some(card) = &mut spec.card {
                card.size_mm = card.size_mm.map(|v| v.max(13.0));
            }
            spec.frame.width_mm = r.range(72.0, 76.0).max(spec.frame.width_mm);
            spec.frame.centre_mm[0] = spec.frame.centre_mm[0].clamp(-1.0, 1.0);
            spec.frame.roll_deg *= 0.3;
            spec.tissue.upper_lip_mm = Some(r.range(-16.5, -14.5));
            spec.tissue.lower_lip_mm = Some(spec.tissue.opening_mm + r.range(6.0, 9.0));
            let width = spec.frame.width_mm * r.range(2.2, 2.6);
            let aspect = f64::from(size_px[1]) / f64::from(size_px[0]);
            (spec.width_px, spec.height_px) =
                (width.round() as u32, (width * aspect).round() as u32);
            spec.optics.defocus_px_per_mm *= width / f64::from(size_px[0]);
        }
        Fault::UnderExposed => {
            plain_card(spec, 0.184);
            spec.exposure_ev = r.range(-3.45, -3.0);
        }
        Fault::Blur => spec.optics.blur_px = r.range(0.13, 0.28) * px_per_mm(spec),
        Fault::Shake => {
            spec.optics.shake = Some(Shake {
                length_mm: r.range(0.55, 1.3),
                direction_deg: r.range(0.0, 180.0),
            });
        }
        Fault::LightUneven | Fault::LightMixed | Fault::CastStrong => light(spec, fault, r),
        Fault::Processed | Fault::DigitalZoom | Fault::Recompressed => {
            treatment(spec, fault, seed, r);
        }
        Fault::SurfaceUnlike => surface(spec, seed, r),
        Fault::TabContradicts => made.wrong_name = wrong_name(spec, r),
        Fault::PairMisaligned => {
            // The next patient, by the same camera, filed under the same minute.
            let mut other = sound(seed ^ 0x5eed_0000, size_px, true);
            other.camera = spec.camera;
            other.output.clone_from(&spec.output);
            if let (Some(theirs), Some(own)) = (&mut other.pair, &spec.pair) {
                theirs.date.clone_from(&own.date);
            }
            made.polarised_of = Some(other);
        }
        Fault::PairTimes => {
            if let Some(pair) = &mut spec.pair {
                let later = r.range(16.0 * 60.0, 110.0 * 60.0);
                pair.date = Some(later_date(&spec.output.date, later as u32));
            }
        }
    }
    made
}

fn px_per_mm(spec: &SceneSpec) -> f64 {
    f64::from(spec.width_px) / spec.frame.width_mm
}

fn brightest_tooth(spec: &SceneSpec) -> f64 {
    spec.teeth
        .iter()
        .filter(|t| t.measured)
        .map(|t| luminance(t.colour.body[0]))
        .fold(0.3, f64::max)
}
