//! Faults of the card.

use super::Fault;
use crate::rng::Rng;
use crate::spec::random_trust::cast;
use crate::spec::{Card, CardFace, SceneSpec, Shadow, WhiteBalance};

/// One step of luminous reflectance `y`; a strip becomes a block.
pub(super) fn plain_card(spec: &mut SceneSpec, y: f64) {
    if let Some(card) = &mut spec.card {
        card.steps_y = vec![y];
        if card.size_mm[0] > 1.6 * card.size_mm[1] {
            let x = card.size_mm[0];
            card.size_mm = [x * 0.75, x * 0.75];
            card.centre_mm[1] -= x * 0.15;
        }
    }
}

/// Makes a fault of the card; what the scene says of the card where that is not the truth.
pub(super) fn card(
    spec: &mut SceneSpec,
    fault: Fault,
    seed: u64,
    r: &mut Rng,
) -> Option<Vec<[f64; 3]>> {
    match fault {
        Fault::CardClipped => {
            // Not a grey but a white card.
            let y = r.range(0.84, 0.90);
            plain_card(spec, y);
            spec.white_balance = WhiteBalance::Right;
            let level = r.range(1.12, 1.22);
            spec.exposure_ev = (level / (0.90 * y * cast(spec))).log2();
        }
        Fault::CardDark if seed.is_multiple_of(3) => plain_card(spec, r.range(0.0060, 0.0068)),
        Fault::CardTilted => {
            let steep = r.range(18.0, 35.0) * r.pick(&[-1.0, 1.0]);
            let gentle = r.range(-4.0, 4.0);
            if let Some(card) = &mut spec.card {
                card.tilt_deg = r.pick(&[[steep, gentle], [gentle, steep]]);
            }
        }
        Fault::CardNotNeutral => return Some(not_neutral(spec.card.as_mut()?, seed, r)),
        _ => plain_card(spec, 0.184),
    }
    let card = spec.card.as_mut()?;
    let [w, h] = card.size_mm;
    if fault == Fault::CardDark && !seed.is_multiple_of(3) {
        spec.shadows.push(Shadow {
            centre_mm: card.centre_mm,
            half_mm: [w / 2.0 + 0.8, h / 2.0 + 0.8],
            turn_deg: card.turn_deg,
            soft_mm: 1.0,
            passes: r.range(0.010, 0.020),
        });
    }
    if fault == Fault::CardTextured {
        match seed % 3 {
            0 => card.face = CardFace::Crumpled,
            1 => card.face = CardFace::Printed,
            _ => {
                // Half of the card lies in the hard shadow of something.
                let turn = card.turn_deg + r.range(-25.0, 25.0);
                let (s, c) = turn.to_radians().sin_cos();
                let side = r.pick(&[-1.0, 1.0]) * w * 0.5;
                spec.shadows.push(Shadow {
                    centre_mm: [card.centre_mm[0] + c * side, card.centre_mm[1] + s * side],
                    half_mm: [w * 0.5, h * 0.75],
                    turn_deg: turn,
                    soft_mm: 0.3,
                    passes: r.range(0.30, 0.55),
                });
            }
        }
    }
    None
}

/// Three cards of four: steps whose paper is tinted step by step and not as dark as is said. The
/// rest: one tinted paper, which only tabs of known colour can tell.
fn not_neutral(card: &mut Card, seed: u64, r: &mut Rng) -> Vec<[f64; 3]> {
    let tint: [f64; 2] = r.pick(&[[0.5, 9.0], [-7.0, 2.0], [4.0, 8.0], [-3.0, -8.0]]);
    let stepped = !seed.is_multiple_of(4);
    if stepped {
        if card.steps_y.len() < 3 {
            card.steps_y = vec![0.763, 0.407, 0.184, 0.0624];
            card.size_mm = [r.range(17.0, 21.0), r.range(7.0, 9.0)];
        }
    } else {
        card.steps_y = vec![0.184];
        card.size_mm = [card.size_mm[0].min(14.0), card.size_mm[1].max(9.0)];
    }
    let claims = card.steps_y.iter().map(|y| {
        let l = crate::colour::lab_from_xyz([0.0, *y, 0.0], [1.0; 3])[0];
        [l, 0.0, 0.0]
    });
    let claims = claims.collect();
    card.tints_ab = if stepped {
        // The same dye everywhere would be balanced away: papers age and fade unequally.
        let weights = [1.0, -0.3, 0.7, 0.0, 0.9, -0.5];
        let n = card.steps_y.len();
        for y in &mut card.steps_y {
            *y *= r.range(0.88, 1.10);
        }
        weights[..n].iter().map(|w| tint.map(|v| v * w)).collect()
    } else {
        vec![tint]
    };
    claims
}
