//! Surface of what surrounds the mouth.

use super::{Paint, tissue};
use crate::noise::{dimples, fbm, smooth, value};

/// Lips (by depth from the opening), then skin. Inks: three of the lips, skin, redder skin, dark.
pub(super) fn face(width: f32, seed: u32, x: f32, y: f32, form: [f32; 4]) -> Paint {
    let depth = -form[0];
    let ragged =
        0.5 * value(x * 0.16, y * 0.16, seed ^ 21).v + 0.16 * value(x * 0.8, y * 0.8, seed ^ 20).v;
    let skin = smooth(width - 1.0, width + 1.0, depth + ragged);
    let lip = tissue::lip(seed, x, y, form);
    let pores = dimples(x * 1.7, y * 1.7, seed ^ 22);
    let cloud = fbm(x * 0.09, y * 0.09, 3, seed ^ 23).v;
    let mottle = fbm(x * 0.9, y * 0.9, 3, seed ^ 24).v;
    let fine = fbm(x * 2.6, y * 2.6, 2, seed ^ 25);
    let warm = (0.25 + 0.35 * cloud + 0.15 * mottle).clamp(0.0, 0.8);
    let i = lip.ink;
    let own = 1.0 - skin;
    Paint {
        ink: [
            i[0] * own,
            i[1] * own,
            (i[2] + i[3]) * own,
            skin * (1.0 - warm),
            skin * warm,
            i[4] * own,
        ],
        k: lip.k * own + skin * (1.0 + 0.03 * mottle - 0.06 * pores.v),
        slope: [
            lip.slope[0] * own + skin * (0.035 * fine.dx - 0.03 * pores.dx),
            lip.slope[1] * own + skin * (0.035 * fine.dy - 0.03 * pores.dy),
        ],
        gloss_slope: [0.05 * fine.dx * skin, 0.05 * fine.dy * skin],
        f0: lip.f0 * own + 0.012 * skin,
        soft: lip.soft * own + 0.30 * skin,
        wrap: 0.4,
    }
}
