//! What a plan makes of each pixel of a restoration: glare and shading stay, the colour below
//! them goes through the layer model.

use crate::colour::Matrix3;
use crate::colour::rgb_space::SRGB;
use crate::light::Correction;
use crate::reading::RegionStatistics;
use crate::reading::smooth::{SmoothLab, unevenness};
use crate::stain::AlongAxis;

/// Brighter than the smooth surface by this, the rest is a mirrored light.
const GLARE_FROM: f64 = 1.12;
/// A factor beyond these is no stain.
const RATIOS: [f64; 2] = [0.1, 3.0];

/// One restoration under one plan.
pub struct Recolour<'a> {
    correction: &'a Correction,
    plan: AlongAxis,
    smooth: Option<SmoothLab>,
    half_width: f64,
    srgb_from_xyz: Matrix3,
}

impl<'a> Recolour<'a> {
    /// From what was measured on the restoration.
    pub fn new(correction: &'a Correction, plan: AlongAxis, measured: &RegionStatistics) -> Self {
        Self {
            correction,
            plan,
            smooth: unevenness(&measured.cells, &|_, mean| Some(correction.lab(mean)))
                .map(|u| u.smooth),
            half_width: measured.half_width,
            srgb_from_xyz: SRGB
                .xyz_d65_from_linear_rgb()
                .inverse()
                .unwrap_or(Matrix3::IDENTITY),
        }
    }

    /// What each channel of linear sRGB is multiplied by, at a place along (0–1) and across (axis
    /// lengths) the axis, for a pixel of the photo's linear RGB.
    pub fn ratio(&self, along: f64, across: f64, linear_rgb: [f64; 3]) -> [f64; 3] {
        let xyz = self.correction.xyz_d65(linear_rgb);
        let given = self.plan.before(along);
        let smooth = self.smooth.as_ref().map_or(given, |s| {
            let across = (across / self.half_width.max(1e-9)).clamp(-1.0, 1.0);
            s.at(along.clamp(0.0, 1.0), across).to_xyz_d65()
        });
        // Mirrored light lies on top of everything and is not painted over.
        let brighter = xyz[1] / smooth[1].max(1e-9);
        let below = if brighter > GLARE_FROM {
            smooth.map(|v| v * GLARE_FROM)
        } else {
            xyz
        };
        let shade = (smooth[1] / given[1].max(1e-9)).clamp(0.05, 20.0);
        let painted = self.plan.after(along, below.map(|v| v / shade));
        let after = [0, 1, 2].map(|i: usize| painted[i] * shade + xyz[i] - below[i]);
        let (was, is) = (
            self.srgb_from_xyz.apply(xyz),
            self.srgb_from_xyz.apply(after),
        );
        [0, 1, 2].map(|i: usize| {
            if was[i] <= 1e-6 {
                1.0
            } else {
                (is[i] / was[i]).clamp(RATIOS[0], RATIOS[1])
            }
        })
    }
}
