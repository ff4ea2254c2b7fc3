//! Where the teeth stand: walked along the dental arch z = −k x² from the midline outward, each
//! tooth turned to the arch and foreshortened by that turn.

use super::crown::{CrownForm, LOWER_MM, UPPER_MM};
use crate::spec::{SceneSpec, Tooth};

/// A tooth's place.
#[derive(Debug, Clone)]
pub struct Stand {
    /// Which.
    pub tooth: Tooth,
    /// World place of its own origin (zenith of the gum line).
    pub origin: [f64; 2],
    /// Turn of its own axes in the picture plane (π for lower teeth).
    pub angle: f64,
    /// Height of its face.
    pub z: f64,
    /// ∂z/∂x in its own axes.
    pub yaw_slope: f64,
    /// Its form.
    pub form: CrownForm,
}

/// All teeth that the picture has, missing ones included (the gum closes over them).
pub fn stands(spec: &SceneSpec) -> Vec<Stand> {
    let mut out = Vec::new();
    for upper in [true, false] {
        for right in [false, true] {
            // Patient's right is on the left of the picture.
            let quadrant = match (upper, right) {
                (true, false) => 1,
                (true, true) => 2,
                (false, true) => 3,
                (false, false) => 4,
            };
            walk(
                spec,
                upper,
                if right { 1.0 } else { -1.0 },
                quadrant,
                &mut out,
            );
        }
    }
    out
}

/// Teeth turned farther away are not seen: cosine of the turn.
const LEAST_FACING: f64 = 0.30;
/// The upright axis lies behind the middle incisors by this.
const AXIS_MM: f64 = 15.0;

/// The head turned against the camera.
pub(super) struct View {
    angle: f64,
}

impl View {
    /// `None` when seen from the front.
    pub(super) fn of(spec: &SceneSpec) -> Option<Self> {
        let deg = spec.scenery.as_ref().map_or(0.0, |s| s.view_yaw_deg);
        (deg != 0.0).then(|| Self {
            angle: deg.to_radians(),
        })
    }

    /// (x, z) as the camera has it.
    pub(super) fn turn(&self, x: f64, z: f64) -> [f64; 2] {
        let (s, c) = self.angle.sin_cos();
        let back = z + AXIS_MM;
        [c * x + s * back, -s * x + c * back - AXIS_MM]
    }
}

fn walk(spec: &SceneSpec, upper: bool, side: f64, quadrant: u8, out: &mut Vec<Stand>) {
    let k = spec.tissue.arch_per_mm * if upper { 1.0 } else { 1.15 };
    let mut edge = 0.0_f64;
    let view = View::of(spec);
    for place in 1..=6u8 {
        let fdi = quadrant * 10 + place;
        let Some(tooth) = spec.teeth.iter().find(|t| t.fdi == fdi) else {
            break;
        };
        let [w, l] = (if upper { UPPER_MM } else { LOWER_MM })[usize::from(place) - 1];
        let (w, l) = (w * tooth.scale[0], l * tooth.scale[1]);
        let mut x = edge + w / 2.0;
        let mut yaw = 0.0;
        for _ in 0..4 {
            yaw = (2.0 * k * x).atan();
            x = edge + w / 2.0 * yaw.cos();
        }
        let half = w / 2.0 * yaw.cos();
        edge = x + half - 0.10;
        let z = -k * x * x + tooth.shift_mm[2] - if upper { 0.0 } else { 2.2 };
        let own_yaw = side * yaw + tooth.rotation_deg.to_radians();
        let rise = if upper {
            [0.0, 0.75, 0.15, 0.9, 1.6, 2.0]
        } else {
            [0.0, 0.1, -0.3, 0.5, 1.0, 1.3]
        }[usize::from(place) - 1];
        let edge_y = if upper {
            -rise
        } else {
            spec.tissue.opening_mm + rise
        };
        let turn = tooth.turn_deg.to_radians()
            + side
                * if upper {
                    [0.5, 2.0, 1.5, 0.5, 0.0, 0.0]
                } else {
                    [0.0, -0.5, -1.0, -1.0, -1.0, -1.0]
                }[usize::from(place) - 1]
                * std::f64::consts::PI
                / 180.0;
        let angle = turn + if upper { 0.0 } else { std::f64::consts::PI };
        // The head turned about the upright axis.
        let (at_x, z, own_yaw, half) = match &view {
            None => (side * x, z, own_yaw, half),
            Some(v) => {
                let facing = (side * yaw + v.angle).cos();
                if facing < LEAST_FACING || (own_yaw + v.angle).cos() < LEAST_FACING {
                    continue;
                }
                let [vx, vz] = v.turn(side * x, z);
                (vx, vz, own_yaw + v.angle, w / 2.0 * facing)
            }
        };
        // From the middle of the biting edge back to the zenith along the tooth's own axis.
        let edge_at = [at_x + tooth.shift_mm[0], edge_y + tooth.shift_mm[1]];
        let origin = [edge_at[0] + angle.sin() * l, edge_at[1] - angle.cos() * l];
        let flip = if upper { 1.0 } else { -1.0 };
        out.push(Stand {
            tooth: tooth.clone(),
            origin,
            angle,
            z,
            yaw_slope: -own_yaw.tan() * flip,
            form: CrownForm {
                half_width: half as f32,
                length: l as f32,
                mesial: (-side * flip) as f32,
                kind: place,
                seed: crate::rng::hash2(
                    i32::from(fdi),
                    5,
                    spec.seed as u32 ^ (spec.seed >> 32) as u32,
                ),
            },
        });
    }
}
