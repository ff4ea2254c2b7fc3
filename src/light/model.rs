//! What the card leaves open about a photo's light and camera, as one Gaussian estimate.
//!
//! For a zone seen with balanced linear RGB x (sheen and the shading of its own form taken out),
//! the light that would come from it under D65, face-on, in channel c is
//!
//! ```text
//! ln T_c = ln x_c + gain + colour_c                 camera, card not quite in the plane
//!        + slope · (p − card) − radial · (|p|² − |card|²)        light across the photo
//!        − above · tilt                             light from above meets each third otherwise
//!        − sheen / x_c                              white sheen common to all
//!        + contrast · (ln x_c − ln card)            a bent tone curve
//!        + Σ_d k_cd · (x_d / x_c − 1)               the camera's mixing of channels (3×3)
//! ```
//!
//! with p the place in half diagonals from the middle. The priors say how far each may be off
//! when only the card is known; tabs of known colour sharpen them. Every term of the 3×3 leaves
//! grey as it is, and the more unknowns a term frees, the more tabs it asks for.

use super::estimate::Estimate;
use crate::colour::Vec3;

const GAIN: usize = 0;
const RED: usize = 1;
const BLUE: usize = 2;
const SLOPE_X: usize = 3;
const SLOPE_Y: usize = 4;
const RADIAL: usize = 5;
const ABOVE: usize = 6;
const SHEEN: usize = 7;
const CONTRAST: usize = 8;
const MIXING: usize = 9;
/// A shade guide's own bias: seen by its tabs, no part of the light.
const GUIDE: usize = 15;
const UNKNOWNS: usize = 18;
/// No light that a photo was taken in is corrected by more than a thousandfold; tabs whose colours
/// contradict each other could ask for any number.
const MOST_LOG: f64 = 7.0;

type Row = [f64; UNKNOWNS];

/// How many unknowns the tabs may settle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Freedom {
    /// One gain per channel and the light's direction.
    Gain,
    /// And an offset (sheen) and a contrast.
    Offset,
    /// And the mixing of channels.
    Matrix,
}

impl Freedom {
    /// What a number of tabs supports.
    pub const fn of_tabs(tabs: usize) -> Self {
        match tabs {
            0 | 1 => Self::Gain,
            2 | 3 => Self::Offset,
            _ => Self::Matrix,
        }
    }
}

/// A zone as the model takes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Balanced by the card, sheen and shading by form taken out, linear RGB of the photo.
    pub linear_rgb: Vec3,
    /// Its middle, in photo pixels.
    pub place: [f64; 2],
    /// How much more than a plane facing the camera it catches light from above: positive for
    /// surfaces that look up.
    pub tilt: f64,
}

/// The frame that places are counted in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Middle of the photo in pixels.
    pub centre: [f64; 2],
    /// Half diagonal in pixels.
    pub half_diagonal_px: f64,
    /// Middle of the card in pixels.
    pub card: [f64; 2],
    /// Linear level of the card after balancing.
    pub card_level: f64,
}

impl Frame {
    /// From the middle of the photo, in half diagonals: no further than a corner, since what an
    /// outline or an axis that reaches far out of the photo means was not photographed.
    fn relative(&self, p: [f64; 2]) -> [f64; 2] {
        let scale = self.half_diagonal_px.max(1.0);
        let [x, y] = [0, 1].map(|i: usize| {
            let at = |v: [f64; 2]| v.get(i).copied().unwrap_or(0.0);
            (at(p) - at(self.centre)) / scale
        });
        let far = libm::hypot(x, y).max(1.0);
        [x / far, y / far]
    }
}

/// What is known of a photo before any tab: widens the priors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Before {
    /// Relative standard uncertainty of the card's level.
    pub card_uncertainty: f64,
    /// Several neutral steps pinned exposure and tone.
    pub steps: bool,
    /// The picture was processed: its tone curve is not the tagged one.
    pub processed: bool,
    /// Taken through crossed polarisers.
    pub polarised: bool,
}

/// The light of one photo.
#[derive(Debug, Clone, PartialEq)]
pub struct LightModel {
    estimate: Estimate<UNKNOWNS>,
    frame: Frame,
    polarised: bool,
    freedom: Freedom,
}

impl LightModel {
    /// What is expected with the card alone.
    ///
    /// Radial: lamps near the lens and lenses darken the corner where a card usually lies by a
    /// few percent against the teeth (vignetting of 0–12 %, and cos⁴-like falloff of a lamp at
    /// 20–30 cm; geometry, no source). Light usually comes from somewhat above. The widths are
    /// set on rendered scenes (`cargo xtask accuracy`) and no narrower than these facts allow.
    pub fn before_tabs(frame: Frame, before: Before) -> Self {
        let gain = match (before.processed, before.steps) {
            (false, false) => 0.04,
            (_, true) => 0.03,
            (true, false) => 0.15,
        };
        let gain = libm::hypot(gain, before.card_uncertainty);
        let contrast = match (before.processed, before.steps) {
            (false, _) => 0.02,
            (true, true) => 0.03,
            (true, false) => 0.15,
        };
        let colour = if before.processed { 0.04 } else { 0.015 };
        let mut unknowns = [(0.0, 0.02); UNKNOWNS];
        let mut set = |at: usize, mean: f64, sd: f64| {
            if let Some(unknown) = unknowns.get_mut(at) {
                *unknown = (mean, sd);
            }
        };
        // A card that is not quite in the plane, or turned a little, gets less light.
        set(GAIN, -0.012, gain);
        set(RED, 0.0, colour);
        set(BLUE, 0.0, colour);
        set(SLOPE_X, 0.0, 0.03);
        set(SLOPE_Y, 0.0, 0.03);
        set(RADIAL, 0.10, 0.04);
        set(ABOVE, 0.0325, 0.03);
        set(SHEEN, 0.0, 0.003);
        set(CONTRAST, 0.0, contrast);
        // Tabs of one name differ between sets by 1–3 ΔE*ab (from memory, no better source).
        set(GUIDE, 0.0, 0.045);
        set(GUIDE + 1, 0.0, 0.02);
        set(GUIDE + 2, 0.0, 0.03);
        Self {
            estimate: Estimate::prior(unknowns),
            frame,
            polarised: before.polarised,
            freedom: Freedom::Gain,
        }
    }

    /// Takes in how much lighter (natural logarithm) a second card reads at its place than the
    /// first at its own.
    pub fn observe_second_card(&mut self, place: [f64; 2], lighter_log: f64, uncertainty: f64) {
        let mut row = [0.0; UNKNOWNS];
        self.field(&mut row, place);
        // The field is what has to be added; a place that reads lighter asks for less.
        self.estimate
            .observe(&row, -lighter_log, uncertainty * uncertainty);
    }

    /// Takes in a zone of known colour. `spread` are the standard deviations of its lightness
    /// and of its colour (natural logarithms); `published` adds the guide's own bias.
    pub fn observe_zone(
        &mut self,
        seen: &Seen,
        target_rgb: Vec3,
        spread: [f64; 2],
        published: bool,
    ) {
        let rows = [0, 1, 2].map(|c| {
            let mut row = self.row(seen, c);
            if published {
                self.guide_bias(&mut row, c);
            }
            row
        });
        let mut off = [0.0; 3];
        for ((o, t), x) in off.iter_mut().zip(target_rgb).zip(seen.linear_rgb) {
            *o = libm::log(t.max(1e-6) / x.max(1e-6));
        }
        // Lightness and the two colour directions have unlike noise, so they come in apart.
        let [lightness, colour] = spread.map(|s| s * s);
        let third = 1.0 / 3.0;
        for (mix, variance) in [
            ([third, third, third], lightness + colour / 3.0),
            ([1.0, -1.0, 0.0], 2.0 * colour),
            ([0.5, 0.5, -1.0], 1.5 * colour),
        ] {
            let mut row = [0.0; UNKNOWNS];
            let mut value = 0.0;
            for ((weight, channel), o) in mix.iter().zip(&rows).zip(off) {
                value += weight * o;
                for (r, c) in row.iter_mut().zip(channel) {
                    *r += weight * c;
                }
            }
            self.estimate.observe(&row, value, variance);
        }
    }

    /// How much the tabs may settle from now on.
    pub const fn set_freedom(&mut self, freedom: Freedom) {
        self.freedom = freedom;
    }

    /// The zone's linear RGB under D65, face-on, and the covariance of its logarithms.
    pub fn correct(&self, seen: &Seen) -> (Vec3, [[f64; 3]; 3]) {
        let rows = [0, 1, 2].map(|c| self.row(seen, c));
        let mut rgb = seen.linear_rgb;
        for (v, row) in rgb.iter_mut().zip(&rows) {
            let more = self.estimate.expected(row);
            *v *= libm::exp(more.clamp(-MOST_LOG, MOST_LOG));
        }
        let covariance = rows
            .each_ref()
            .map(|a| rows.each_ref().map(|b| self.estimate.covariance(a, b)));
        (rgb, covariance)
    }

    /// How many times brighter the light falls at a place than at the card, with its standard
    /// uncertainty (both as natural logarithms).
    pub fn light_at(&self, place: [f64; 2]) -> [f64; 2] {
        let mut row = [0.0; UNKNOWNS];
        self.field(&mut row, place);
        [
            -self.estimate.expected(&row),
            self.estimate.covariance(&row, &row).max(0.0).sqrt(),
        ]
    }

    /// What the tabs add to the card's own gain (natural logarithm), and its uncertainty.
    pub fn gain(&self) -> [f64; 2] {
        let mut row = [0.0; UNKNOWNS];
        put(&mut row, GAIN, 1.0);
        [
            self.estimate.expected(&row),
            self.estimate.covariance(&row, &row).max(0.0).sqrt(),
        ]
    }

    /// How much more contrast (a power of light) the tabs ask for, and its uncertainty.
    pub fn contrast(&self) -> [f64; 2] {
        let mut row = [0.0; UNKNOWNS];
        put(&mut row, CONTRAST, 1.0);
        [
            self.estimate.expected(&row),
            self.estimate.covariance(&row, &row).max(0.0).sqrt(),
        ]
    }

    /// What the tabs say the card's red and blue are off by (natural logarithm).
    pub fn card_colour(&self) -> [f64; 2] {
        [RED, BLUE].map(|at| {
            let mut row = [0.0; UNKNOWNS];
            put(&mut row, at, 1.0);
            self.estimate.expected(&row)
        })
    }

    fn field(&self, row: &mut Row, place: [f64; 2]) {
        let [x, y] = self.frame.relative(place);
        let [u, v] = self.frame.relative(self.frame.card);
        put(row, SLOPE_X, x - u);
        put(row, SLOPE_Y, y - v);
        put(row, RADIAL, (x * x + y * y) - (u * u + v * v));
    }

    fn guide_bias(&self, row: &mut Row, channel: usize) {
        put(row, GUIDE, 1.0);
        match channel {
            0 => put(row, GUIDE + 1, 1.0),
            2 => put(row, GUIDE + 2, 1.0),
            _ => {}
        }
    }

    fn row(&self, seen: &Seen, channel: usize) -> Row {
        let mut row = [0.0; UNKNOWNS];
        let own = seen.linear_rgb.get(channel).map_or(1e-6, |v| v.max(1e-6));
        put(&mut row, GAIN, 1.0);
        match channel {
            0 => put(&mut row, RED, 1.0),
            2 => put(&mut row, BLUE, 1.0),
            _ => {}
        }
        self.field(&mut row, seen.place);
        put(&mut row, ABOVE, -seen.tilt);
        if !self.polarised {
            put(&mut row, SHEEN, -1.0 / own.max(0.05));
        }
        if self.freedom >= Freedom::Offset {
            put(
                &mut row,
                CONTRAST,
                libm::log(own / self.frame.card_level.max(1e-3)),
            );
        }
        if self.freedom >= Freedom::Matrix {
            let others = (0..3_usize).filter(|c| *c != channel);
            for (k, other) in others.enumerate() {
                let ratio = seen.linear_rgb.get(other).map_or(1.0, |v| v / own) - 1.0;
                put(&mut row, MIXING + 2 * channel + k, ratio);
            }
        }
        row
    }
}

fn put(row: &mut Row, at: usize, value: f64) {
    if let Some(place) = row.get_mut(at) {
        *place = value;
    }
}

#[cfg(test)]
mod tests;
