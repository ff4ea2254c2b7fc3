//! From a specification to bodies, lights and colours ready to be seen.

use super::arch::stands;
use super::body::{Body, Place};
use super::ink::{self, Seen, Viewer};
use super::lamps::{Lamp, lamps};
use super::make::Maker;
use super::occlusion;
use crate::spec::{SceneSpec, Shadow};

/// Everything that a pixel needs.
pub struct World {
    /// Front first.
    pub bodies: Vec<Body>,
    /// By [`Body::ink`].
    pub inks: Vec<Seen>,
    /// Lamps.
    pub lamps: Vec<Lamp>,
    /// Share of the ambient.
    pub ambient: f32,
    /// Camera numbers of white under each light.
    pub white_raw: [[f32; 3]; ink::LIGHTS],
    /// Strength of surface reflections.
    pub glare: f32,
    /// Lens distance for the view direction.
    pub eye_mm: f32,
    /// Middle of the frame.
    pub centre_mm: [f32; 2],
    /// Camera rows and lights.
    pub viewer: Viewer,
    /// Millimetres per pixel.
    pub mm_per_px: f64,
    /// Shadows of things outside the picture.
    pub shadows: Vec<Shade>,
    /// World from pixel: x = a·px + b·py + c, y = d·px + e·py + f.
    pub mm_from_px: [[f64; 3]; 2],
}

/// A shadow ready to be looked up.
pub struct Shade {
    /// Own axes.
    pub place: Place,
    /// Half width and height.
    pub half: [f32; 2],
    /// Width of the edge.
    pub soft: f32,
    /// Share of light that arrives inside.
    pub passes: f32,
}

impl Shade {
    fn new(s: &Shadow) -> Self {
        Self {
            place: Place::new(s.centre_mm, s.turn_deg.to_radians()),
            half: s.half_mm.map(|v| v as f32),
            soft: s.soft_mm.max(1e-3) as f32,
            passes: s.passes as f32,
        }
    }
}

impl World {
    /// Builds the world of a picture. `px_turn` is an extra similarity (plain from this picture's
    /// pixels) for the second picture of a pair.
    pub fn build(spec: &SceneSpec, plain_from_px: Option<[[f64; 3]; 2]>) -> Self {
        let (lamps, ambient) = lamps(spec);
        let shares: Vec<f64> = lamps
            .iter()
            .map(|l| f64::from(l.power * l.toward[2]))
            .collect();
        let viewer = Viewer::new(spec, &shares, f64::from(ambient));
        let mm_per_px = spec.frame.width_mm / f64::from(spec.width_px);
        let own = frame_matrix(spec);
        let mm_from_px = plain_from_px.map_or(own, |p| chain(&own, &p));
        let seed = spec.seed as u32 ^ (spec.seed >> 32) as u32;

        let mut maker = Maker {
            bodies: Vec::new(),
            palettes: Vec::new(),
            seed,
            pitch: (mm_per_px * 3.5).clamp(0.05, 0.09),
        };
        let all = stands(spec);
        maker.mouth(spec);
        maker.jaw(spec, &all, true);
        maker.jaw(spec, &all, false);
        for (i, tab) in spec.tabs.iter().enumerate() {
            let stem = spec.scenery.as_ref().map_or(26.0, |s| s.stem_mm);
            maker.tab(tab, i, stem as f32);
        }
        if let Some(card) = &spec.card {
            maker.card(card, spec.scenery.as_ref().is_some_and(|s| s.card_behind));
        }
        if let Some(scenery) = &spec.scenery {
            maker.scenery(scenery, &all, spec);
        }
        let mut bodies = maker.bodies;
        bodies.sort_by_key(|b| b.order);
        let inks = maker.palettes.iter().map(|p| viewer.see(p)).collect();

        let half = [
            spec.frame.width_mm / 2.0 * 1.12 + 2.0,
            spec.frame.width_mm / 2.0 * 1.12 * f64::from(spec.height_px) / f64::from(spec.width_px)
                + 2.0,
        ];
        let c = spec.frame.centre_mm;
        let map = occlusion::height_map(
            &bodies,
            [
                c[0] - half[0],
                c[1] - half[1],
                c[0] + half[0],
                c[1] + half[1],
            ],
            (mm_per_px * 7.0).clamp(0.13, 0.22),
            spec.scenery.is_some(),
        );
        occlusion::fill(&mut bodies, &map, &lamps);

        Self {
            bodies,
            inks,
            lamps,
            ambient,
            white_raw: viewer.white_raw,
            glare: spec.glare as f32,
            eye_mm: 380.0,
            centre_mm: [c[0] as f32, c[1] as f32],
            viewer,
            mm_per_px,
            shadows: spec.shadows.iter().map(Shade::new).collect(),
            mm_from_px,
        }
    }

    /// World place of a pixel.
    pub fn mm(&self, px: f64, py: f64) -> [f64; 2] {
        self.mm_from_px.map(|r| r[0] * px + r[1] * py + r[2])
    }

    /// Pixel of a world place.
    pub fn px(&self, x: f64, y: f64) -> [f64; 2] {
        let inv = invert(&self.mm_from_px);
        inv.map(|r| r[0] * x + r[1] * y + r[2])
    }
}

/// World from pixel without a pair.
fn frame_matrix(spec: &SceneSpec) -> [[f64; 3]; 2] {
    let k = spec.frame.width_mm / f64::from(spec.width_px);
    let (s, c) = (-spec.frame.roll_deg).to_radians().sin_cos();
    let (cx, cy) = (
        (f64::from(spec.width_px) - 1.0) / 2.0,
        (f64::from(spec.height_px) - 1.0) / 2.0,
    );
    let rows = [[k * c, -k * s], [k * s, k * c]];
    let at = spec.frame.centre_mm;
    std::array::from_fn(|i| {
        [
            rows[i][0],
            rows[i][1],
            at[i] - rows[i][0] * cx - rows[i][1] * cy,
        ]
    })
}

/// a∘b of 2×3 matrices.
pub fn chain(a: &[[f64; 3]; 2], b: &[[f64; 3]; 2]) -> [[f64; 3]; 2] {
    a.map(|r| {
        [
            r[0] * b[0][0] + r[1] * b[1][0],
            r[0] * b[0][1] + r[1] * b[1][1],
            r[0] * b[0][2] + r[1] * b[1][2] + r[2],
        ]
    })
}

/// Inverse of a 2×3 matrix.
pub fn invert(m: &[[f64; 3]; 2]) -> [[f64; 3]; 2] {
    let det = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    let (a, b, c, d) = (m[1][1] / det, -m[0][1] / det, -m[1][0] / det, m[0][0] / det);
    [
        [a, b, -a * m[0][2] - b * m[1][2]],
        [c, d, -c * m[0][2] - d * m[1][2]],
    ]
}
