//! What sits on teeth for `Variety::finding`.

use super::super::SceneSpec;
use super::super::scenery::{Braces, Filling, Metal, Scenery};
use crate::rng::Rng;

/// Braces, metal crowns, fillings, saliva.
pub(super) fn on_teeth(spec: &mut SceneSpec, s: &mut Scenery, r: &mut Rng) {
    if r.chance(0.11) {
        s.braces = Some(Braces {
            ceramic: r.chance(0.4),
            wire_mm: r.range(0.35, 0.55),
            lower: r.chance(0.7),
        });
    }
    if r.chance(0.14) {
        let colour = r.pick(&[
            [72.0, 7.0, 36.0],
            [66.0, 6.0, 28.0],
            [68.0, 0.0, 3.0],
            [44.0, 0.0, 1.0],
        ]);
        for _ in 0..1 + r.below(3) {
            let fdi = 10 * (1 + r.below(4) as u8) + r.pick(&[3u8, 4, 4, 5, 5, 6]);
            if let Some(t) = spec.teeth.iter_mut().find(|t| t.fdi == fdi && !t.missing) {
                t.restoration = true;
                s.metals.push(Metal { fdi, colour });
            }
        }
    }
    if r.chance(0.2) {
        for _ in 0..1 + r.below(3) {
            let at = r.below(spec.teeth.len());
            let Some(t) = spec.teeth.get(at) else {
                continue;
            };
            let edge = r.chance(0.5);
            s.fillings.push(Filling {
                fdi: t.fdi,
                at: [
                    r.range(-0.8, 0.8),
                    if edge {
                        r.range(0.75, 0.98)
                    } else {
                        r.range(0.05, 0.7)
                    },
                ],
                half_mm: [r.range(0.8, 2.6), r.range(0.8, 2.2)],
                off: [4.5 * r.normal(), 1.2 * r.normal(), 4.5 * r.normal()],
            });
        }
    }
    if r.chance(0.3) {
        s.saliva = r.range(0.15, 0.9);
    }
}
